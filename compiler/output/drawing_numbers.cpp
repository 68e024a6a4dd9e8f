#include "output/drawing_numbers.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

namespace curbstop::output {
namespace {

constexpr double long_enough = 80; // across: for a number with words at each end
constexpr double near_enough = 24; // for two numbers to meet

class PortNumbers {
  public:
    explicit PortNumbers(const DrawnGraph& drawn)
        : drawn_(&drawn)
        , graph_(drawn.graph)
        , layout_(drawn.layout) {}

    std::vector<std::vector<PortNumber>> all() {
        std::vector<std::vector<PortNumber>> found(graph_->lines.size());
        for (std::size_t i = 0; i < graph_->lines.size(); ++i) {
            const Line2d& line = graph_->lines[i];
            const std::vector<Point>& points = layout_->edges[i];
            if (line.stroke == Stroke::fall) {
                continue;
            }
            const bool is_live = drawn_->live && line.run != UINT32_MAX;
            const double away = is_live ? 9 : 4; // room for what a script says of the pipe
            const std::string word = line.stroke == Stroke::pipe ? line.word : std::string();
            const bool is_long = std::abs(points.back().x - points.front().x) > long_enough;
            // Left of one end and right of the other, as both may be near.
            add(found[i], line.from, line.from_node, {points.front(), -away, word, is_long});
            add(found[i], line.to, line.to_node, {points.back(), away, word, is_long});
        }
        return found;
    }

  private:
    struct End {
        Point at;
        double aside;
        std::string word; ///< what runs in the pipe
        bool is_long;
    };

    void add(std::vector<PortNumber>& found, std::size_t index, meaning::NodeId node, const End& pipe) const {
        const Card& card = graph_->cards[index];
        if (!card.numbered) {
            return;
        }
        const auto port = std::ranges::find(card.valve->ports, node);
        if (port == card.valve->ports.end()) {
            return;
        }
        const CardText& text = (*drawn_->texts)[index];
        const Point centre = layout_->vertices[index], end = pipe.at;
        const bool beside = std::abs(end.x - centre.x) * text.height > std::abs(end.y - centre.y) * text.width;
        PortNumber number;
        number.words = std::to_string(port - card.valve->ports.begin() + 1);
        if (!pipe.word.empty() && (!beside || pipe.is_long)) {
            number.words += " " + pipe.word;
        }
        const std::optional<Point> near = near_end(index, end, beside);
        if (beside) {
            number.leftwards = end.x < centre.x;
            number.foot = {end.x + (number.leftwards ? -3 : 3), end.y + (near && near->y < end.y ? 12 : -4)};
        } else {
            const double aside = !near ? pipe.aside : std::copysign(pipe.aside, end.x - near->x);
            number.leftwards = aside < 0;
            number.foot = {end.x + aside, end.y + (end.y < centre.y ? -3 : 12)};
        }
        found.push_back(std::move(number));
    }

    // Another pipe that comes to the same side of a card so near that the numbers between them would be one.
    [[nodiscard]] std::optional<Point> near_end(std::size_t card, Point end, bool beside) const {
        std::optional<Point> found;
        const auto look = [&](std::size_t at, Point other) {
            const double along = beside ? std::abs(other.y - end.y) : std::abs(other.x - end.x);
            const double across = beside ? std::abs(other.x - end.x) : std::abs(other.y - end.y);
            if (at == card && along > 0 && along < near_enough && across < 2) {
                found = other;
            }
        };
        for (std::size_t i = 0; i < graph_->lines.size(); ++i) {
            look(graph_->lines[i].from, layout_->edges[i].front());
            look(graph_->lines[i].to, layout_->edges[i].back());
        }
        return found;
    }

    const DrawnGraph* drawn_;
    const DrawingGraph* graph_;
    const Layout* layout_;
};

} // namespace

std::vector<std::vector<PortNumber>> port_numbers(const DrawnGraph& drawn) {
    return PortNumbers(drawn).all();
}

} // namespace curbstop::output
