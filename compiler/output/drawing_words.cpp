#include "output/drawing_words.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace curbstop::output {
namespace {

constexpr Point words{26, 12};   // as large as "P a b"
constexpr Point digit{7, 10};    // of a port's number, and so of a letter of what is said beside it
constexpr double pace = 6;       // between places that are tried
constexpr double least_leg = 10; // of a pipe that words can be on
// What one place is worth against another, per square pixel that words would lie on.
constexpr double on_words = 20, on_card = 10, on_number = 10, on_pipe = 1, off_middle = 0.5;

using Box = Layout::Box;

Box box(Point middle, Point size) {
    return {{middle.x - size.x / 2, middle.y - size.y / 2}, {middle.x + size.x / 2, middle.y + size.y / 2}};
}

double common_area(const Box& a, const Box& b) {
    const double width = std::min(a.most.x, b.most.x) - std::max(a.least.x, b.least.x);
    const double height = std::min(a.most.y, b.most.y) - std::max(a.least.y, b.least.y);
    return width > 0 && height > 0 ? width * height : 0;
}

/// The corners of a line: between the ends of its curves it is straight.
std::vector<Point> corners(const std::vector<Point>& curves) {
    std::vector<Point> found;
    for (std::size_t i = 0; i < curves.size(); i += 3) {
        found.push_back(curves[i]);
    }
    return found;
}

double length(const std::vector<Point>& line) {
    double sum = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        sum += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
    }
    return sum;
}

class WordPlaces {
  public:
    WordPlaces(const DrawnGraph& drawn, const std::vector<std::vector<PortNumber>>& numbers)
        : drawn_(&drawn) {
        const Layout& layout = *drawn.layout;
        for (std::size_t i = 0; i < layout.vertices.size(); ++i) {
            const CardText& text = (*drawn.texts)[i];
            cards_.push_back(box(layout.vertices[i], {text.width, text.height}));
        }
        for (std::size_t i = 0; i < layout.edges.size(); ++i) {
            lines_.push_back(corners(layout.edges[i]));
            for (const PortNumber& number : numbers[i]) {
                const double width = digit.x * static_cast<double>(number.words.size());
                const double left = number.foot.x - (number.leftwards ? width : 0);
                numbers_.push_back({{left, number.foot.y - digit.y}, {left + width, number.foot.y}});
            }
        }
    }

    std::vector<Point> places() {
        std::vector<Point> found(lines_.size());
        std::vector<std::size_t> order(lines_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        // Short pipes have the least to choose from.
        std::ranges::stable_sort(order, {}, [this](std::size_t line) { return length(lines_[line]); });
        for (const std::size_t line : order) {
            found[line] = best_on(line);
            if (drawn_->graph->lines[line].run != UINT32_MAX) {
                taken_.push_back(box(found[line], words));
            }
        }
        return found;
    }

  private:
    [[nodiscard]] Point best_on(std::size_t index) const {
        const std::vector<Point>& line = lines_[index];
        const double half = length(line) / 2;
        Point best = line.front();
        double least = INFINITY, before = 0;
        for (std::size_t i = 1; i < line.size(); ++i) {
            const Point from = line[i - 1], to = line[i];
            const double leg = std::hypot(to.x - from.x, to.y - from.y);
            const auto steps = std::max(1.0, std::floor(leg / pace));
            const bool is_short = leg < least_leg && 2 * half >= least_leg;
            for (double step = 0.5; !is_short && step < steps; ++step) {
                const double part = step / steps;
                const Point middle{from.x + (to.x - from.x) * part, from.y + (to.y - from.y) * part};
                const double cost =
                    lies_on(box(middle, words), index) + off_middle * std::abs(before + leg * part - half);
                if (cost < least) {
                    least = cost;
                    best = middle;
                }
            }
            before += leg;
        }
        return best;
    }

    [[nodiscard]] double lies_on(const Box& place, std::size_t own) const {
        double cost = 0;
        const auto add = [&](const std::vector<Box>& boxes, double weight) {
            for (const Box& each : boxes) {
                cost += weight * common_area(place, each);
            }
        };
        add(taken_, on_words);
        add(cards_, on_card);
        add(numbers_, on_number);
        for (std::size_t line = 0; line < lines_.size(); ++line) {
            for (std::size_t i = 1; line != own && i < lines_[line].size(); ++i) {
                const Point a = lines_[line][i - 1], b = lines_[line][i];
                constexpr double broad = 4; // of a pipe under pressure
                cost += on_pipe * broad *
                        common_area(place, {{std::min(a.x, b.x) - broad / 2, std::min(a.y, b.y) - broad / 2},
                                            {std::max(a.x, b.x) + broad / 2, std::max(a.y, b.y) + broad / 2}});
            }
        }
        return cost;
    }

    const DrawnGraph* drawn_;
    std::vector<Box> cards_, numbers_, taken_;
    std::vector<std::vector<Point>> lines_;
};

} // namespace

std::vector<Point> places_for_words(const DrawnGraph& drawn, const std::vector<std::vector<PortNumber>>& numbers) {
    return WordPlaces(drawn, numbers).places();
}

} // namespace curbstop::output
