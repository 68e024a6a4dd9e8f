#include "output/drawing_svg.h"

#include "output/drawing_numbers.h"
#include "output/drawing_symbols.h"
#include "output/drawing_words.h"
#include "output/html_escape.h"
#include "output/label_lines.h"
#include "output/valve_sign.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace curbstop::output {
namespace {

constexpr std::size_t most_lines = 3;      // of a label; the title has all of it
constexpr std::size_t remark_columns = 12; // what is between two lines is narrow
constexpr double column_width = 6.9;       // of an average letter of the font at its size; cards cut off what is wider
constexpr double line_height = 14;
constexpr double padding = 6;
constexpr double tee_size = 16;    // so that pipes come to it apart from each other
constexpr double mark_radius = 11; // room for two letters
constexpr double margin = 6;       // around the drawing
constexpr double legend_line = 13;
constexpr double least_width = 180; // so that the legend is not cut off
// The sign of a valve as it stands is larger than that of its kind: it has numbers.
constexpr SignSize sign_size{
    .radius = 9, .reach = 21, .arrow = 21, .barb = 4, .digit = 9, .inset = 0, .doubt_drop = 4.5};

struct SignBox {
    double width = symbol_width, height = symbol_height;
    double middle = 0; ///< of a valve's ring, from above
};
SignBox sign_box(const Card& card) {
    if (card.symbol == Symbol::zone) {
        return {0, 0, 0};
    }
    if (!card.valve || !card.stands) {
        return {};
    }
    const std::size_t ports = card.valve->ports.size();
    const bool lets_out = card.valve->lets_out;
    const double up = sign_goes_up(ports, lets_out) ? sign_size.reach : card.numbered ? 18 : sign_size.radius + 3;
    const double down = sign_goes_down(ports, lets_out) ? sign_size.arrow + 3 : sign_size.radius + 3;
    return {2 * sign_size.reach + 2, up + down, up};
}

class SvgWriter {
  public:
    explicit SvgWriter(const DrawnGraph& drawn)
        : drawn_(&drawn)
        , graph_(drawn.graph)
        , texts_(drawn.texts)
        , layout_(drawn.layout) {}

    std::string write(std::string_view title) {
        const double width = std::max(least_width, layout_->width + 2 * margin);
        const double height = layout_->height + 2 * margin + legend_height();
        const std::string name = html_escaped(title);
        put("<svg xmlns=\"http://www.w3.org/2000/svg\"{4} viewBox=\"0 0 {0:.1f} {1:.1f}\" width=\"{0:.1f}\" "
            "height=\"{1:.1f}\" role=\"img\" aria-label=\"{2}\" font-family=\"Liberation Sans, Arial, sans-serif\" "
            "font-size=\"12\" fill=\"none\" stroke=\"#000000\" stroke-width=\"1.2\">\n<title>{2}</title>\n"
            "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\" stroke=\"none\"/>\n<g transform=\"translate({3:.1f} "
            "{3:.1f})\">\n",
            width, height, name, margin,
            drawn_->language.empty() ? "" : fmt::format(" xml:lang=\"{}\"", drawn_->language));
        frames();
        const auto numbers = port_numbers(*drawn_);
        const std::vector<Point> words_at = places_for_words(*drawn_, numbers);
        for (std::size_t i = 0; i < graph_->lines.size(); ++i) {
            line(graph_->lines[i], layout_->edges[i], numbers[i], words_at[i]);
        }
        for (std::size_t i = 0; i < graph_->cards.size(); ++i) {
            card(graph_->cards[i], (*texts_)[i], layout_->vertices[i]);
        }
        legend();
        put("</g>\n</svg>\n");
        return std::move(out_);
    }

  private:
    template <class... Args>
    void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }

    void frames() {
        for (std::size_t i = 0; i < layout_->clusters.size(); ++i) {
            if (!layout_->clusters[i]) {
                continue;
            }
            const auto& [least, most] = *layout_->clusters[i];
            const std::string full = drawn_->frames[i];
            // A name longer than its frame is cut off by the frame; its title has all of it.
            put("<g><title>{0}</title><rect x=\"{1:.1f}\" y=\"{2:.1f}\" width=\"{3:.1f}\" height=\"{4:.1f}\" rx=\"4\" "
                "stroke=\"#666666\" stroke-width=\"0.8\" fill=\"#f4f4f4\"/>\n"
                "<svg x=\"{1:.1f}\" y=\"{2:.1f}\" width=\"{3:.1f}\" height=\"{5:.1f}\">"
                "<text x=\"8\" y=\"15\" font-weight=\"bold\" fill=\"#000000\" stroke=\"none\">{0}</text></svg></g>\n",
                html_escaped(full), least.x, least.y, most.x - least.x, most.y - least.y, frame_margin);
        }
    }

    // Pipes come to a joint beside each other, and meet in its middle at right angles.
    static Point bend_at(Point centre, Point end, Point before) {
        const bool upright = std::abs(end.x - before.x) < 0.5, level = std::abs(end.y - before.y) < 0.5;
        return upright && !level ? Point{end.x, centre.y} : level && !upright ? Point{centre.x, end.y} : end;
    }

    void line(const Line2d& line, const std::vector<Point>& points, const std::vector<PortNumber>& numbers,
              Point words_at) {
        const std::string_view dashes = line.stroke == Stroke::fall     ? " stroke-dasharray=\"2 4\""
                                        : line.optional                 ? " stroke-dasharray=\"8 4\""
                                        : line.stroke == Stroke::inside ? " stroke-opacity=\"0.6\""
                                                                        : "";
        const double weight = line.pressurised ? 4 : line.stroke == Stroke::pipe ? 2 : 1.2;
        std::string path = fmt::format("M{:.1f} {:.1f}", points[0].x, points[0].y);
        if (graph_->cards[line.from].symbol == Symbol::tee) {
            const Point centre = layout_->vertices[line.from];
            const Point bend = bend_at(centre, points[0], points[3]);
            path = fmt::format("M{:.1f} {:.1f}L{:.1f} {:.1f}L{:.1f} {:.1f}", centre.x, centre.y, bend.x, bend.y,
                               points[0].x, points[0].y);
        }
        for (std::size_t i = 1; i + 2 < points.size(); i += 3) {
            fmt::format_to(std::back_inserter(path), "C{:.1f} {:.1f} {:.1f} {:.1f} {:.1f} {:.1f}", points[i].x,
                           points[i].y, points[i + 1].x, points[i + 1].y, points[i + 2].x, points[i + 2].y);
        }
        if (graph_->cards[line.to].symbol == Symbol::tee) {
            const Point centre = layout_->vertices[line.to];
            const Point bend = bend_at(centre, points.back(), points[points.size() - 4]);
            fmt::format_to(std::back_inserter(path), "L{:.1f} {:.1f}L{:.1f} {:.1f}", bend.x, bend.y, centre.x,
                           centre.y);
        }
        const std::string place = drawn_->live && line.run != UINT32_MAX ? place_id(line) : std::string();
        put("<g{}{}{}><title>{}</title><path d=\"{}\" stroke-width=\"{}\"{}/>",
            place.empty() ? "" : fmt::format(" data-pipe=\"{}\"", place), fitted(line.when),
            line.stroke == Stroke::fall ? " class=\"falls\"" : "", html_escaped(line.title), path, weight, dashes);
        // An arrow on a pipe is read as the way the water goes, which a pipe's slope is not.
        if (line.falls != 0 && line.stroke == Stroke::fall) {
            fall_mark(line.falls > 0 ? points : std::vector<Point>(points.rbegin(), points.rend()));
        }
        for (const PortNumber& number : numbers) {
            put("<text x=\"{:.1f}\" y=\"{:.1f}\" fill=\"#000000\" stroke=\"#ffffff\" stroke-width=\"3\" "
                "paint-order=\"stroke\"{}>{}</text>",
                number.foot.x, number.foot.y, number.leftwards ? " text-anchor=\"end\"" : "",
                html_escaped(number.words));
        }
        if (!place.empty()) {
            put("<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"11\" text-anchor=\"middle\" fill=\"#000000\" "
                "stroke=\"#ffffff\" stroke-width=\"4\" paint-order=\"stroke\" data-at=\"{}\"></text>",
                words_at.x, words_at.y + 4, place);
        }
        put("</g>\n");
    }

    // What is there in some variants only is dashed until a script knows the variant.
    [[nodiscard]] std::string fitted(const std::string& when) const {
        return drawn_->live && !when.empty() ? fmt::format(" data-fitted=\"{}\"", when) : std::string();
    }

    // An open arrow head where what falls through air lands.
    void fall_mark(const std::vector<Point>& points) {
        const Point end = points.back();
        Point before = points.front();
        for (auto each = points.rbegin(); each != points.rend(); ++each) {
            if (std::abs(each->x - end.x) + std::abs(each->y - end.y) > 1) {
                before = *each;
                break;
            }
        }
        const double length = std::max(1.0, std::hypot(end.x - before.x, end.y - before.y));
        const double dx = (end.x - before.x) / length;
        const double dy = (end.y - before.y) / length;
        const Point base{end.x - 8 * dx, end.y - 8 * dy};
        put("<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}L{:.1f} {:.1f}\"/>", base.x - 4 * dy, base.y + 4 * dx, end.x, end.y,
            base.x + 4 * dy, base.y - 4 * dx);
    }

    void card(const Card& card, const CardText& text, Point centre) {
        if (card.symbol == Symbol::tee) {
            put("<g><title>{}</title><circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4\" fill=\"#000000\"/></g>\n",
                html_escaped(card.title), centre.x, centre.y);
            return;
        }
        if (card.symbol == Symbol::remark) {
            double y = centre.y - static_cast<double>(text.lines.size() - 1) * line_height / 2 + 4;
            for (const std::string& line : text.lines) {
                put("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"middle\" fill=\"#000000\" stroke=\"#ffffff\" "
                    "stroke-width=\"4\" paint-order=\"stroke\">{}</text>\n",
                    centre.x, y, html_escaped(line));
                y += line_height;
            }
            return;
        }
        if (!card.mark.empty()) {
            onward(card, text, centre);
            return;
        }
        const SignBox box = sign_box(card);
        // A nested svg element cuts off a line of letters wider than the average was taken for.
        put("<svg{} x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"><title>{}</title>\n"
            "<rect x=\"0.6\" y=\"0.6\" width=\"{:.1f}\" height=\"{:.1f}\" rx=\"3\" fill=\"#ffffff\"{}/>\n"
            "<g{} transform=\"translate({:.1f} {:.1f})\">{}</g>\n",
            fitted(card.when), centre.x - text.width / 2, centre.y - text.height / 2, text.width, text.height,
            html_escaped(card.title), text.width - 1.2, text.height - 1.2,
            card.symbol == Symbol::onward ? " stroke=\"none\""
            : card.optional               ? " stroke-dasharray=\"5 3\""
                                          : "",
            drawn_->live && card.stands ? fmt::format(" data-sign=\"{}\"", place_id(card)) : "", padding,
            (text.height - box.height) / 2, card.stands ? stands_svg(card) : std::string(symbol_svg(card.symbol)));
        const auto lines = static_cast<double>(text.lines.size() + text.detail.size());
        double y = (text.height - lines * line_height) / 2 + 11;
        const double x = box.width == 0 ? 1.5 * padding : box.width + 2 * padding;
        for (const std::string& line : text.lines) {
            put("<text x=\"{:.1f}\" y=\"{:.1f}\" fill=\"#000000\" stroke=\"none\">{}</text>\n", x, y,
                html_escaped(line));
            y += line_height;
        }
        if (card.live_columns > 0) {
            // How it stands at the start, until a script says how it stands now.
            put("<text x=\"{:.1f}\" y=\"{:.1f}\" fill=\"#000000\" stroke=\"none\" font-style=\"italic\" "
                "data-at=\"{}\" data-room=\"{:.0f}\">{}</text>\n</svg>\n",
                x, y, place_id(card), text.width - x - padding, html_escaped(card.at_start));
            return;
        }
        for (const std::string& line : text.detail) {
            put("<text x=\"{:.1f}\" y=\"{:.1f}\" fill=\"#000000\" stroke=\"none\" font-style=\"italic\">{}</text>\n", x,
                y, html_escaped(line));
            y += line_height;
        }
        put("</svg>\n");
    }

    static std::string stands_svg(const Card& card) {
        const auto [rings, discs, pipes, arrows, doubt] = card_sign(card);
        std::string out = fmt::format("<path fill=\"#ffffff\" d=\"{}\"/><path fill=\"#000000\" d=\"{}\"/>"
                                      "<path stroke-width=\"3\" d=\"{}\"/><path stroke-width=\"1.6\" d=\"{}\"/>",
                                      rings, discs, pipes, arrows);
        const SignBox box = sign_box(card);
        fmt::format_to(std::back_inserter(out),
                       "<text class=\"doubt\" x=\"{:g}\" y=\"{:g}\" text-anchor=\"middle\" font-weight=\"bold\" "
                       "fill=\"#000000\" stroke=\"none\">{}</text>",
                       box.width / 2, box.middle + sign_size.doubt_drop, doubt);
        ValveStrokes strokes;
        add_valve_sign({card.valve->ports.size(), card.valve->lets_out, card.numbered, {}}, box.width / 2, box.middle,
                       sign_size, strokes);
        for (const ValveStrokes::Letter& number : strokes.numbers) {
            fmt::format_to(std::back_inserter(out),
                           "<text x=\"{:g}\" y=\"{:g}\" fill=\"#000000\" stroke=\"none\">{}</text>", number.x, number.y,
                           number.number);
        }
        return out;
    }

    // Where a pipe leaves the drawing: a ring with a letter that is found again in the drawing where it goes on.
    void onward(const Card& card, const CardText& text, Point centre) {
        const double left = centre.x - text.width / 2;
        put("<g{}><title>{}</title><circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\" fill=\"#ffffff\"/>"
            "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"middle\" font-weight=\"bold\" fill=\"#000000\" "
            "stroke=\"none\">{}</text>\n",
            fitted(card.when), html_escaped(card.title), left + mark_radius + 1, centre.y, mark_radius,
            left + mark_radius + 1, centre.y + 4, html_escaped(card.mark));
        double y = centre.y - static_cast<double>(text.lines.size()) * line_height / 2 + 11;
        for (const std::string& line : text.lines) {
            put("<text x=\"{:.1f}\" y=\"{:.1f}\" fill=\"#000000\" stroke=\"none\">{}</text>\n",
                left + 2 * mark_radius + padding, y, html_escaped(line));
            y += line_height;
        }
        put("</g>\n");
    }

    [[nodiscard]] double legend_height() const {
        return drawn_->legend.empty() ? 0 : static_cast<double>(drawn_->legend.size()) * legend_line + 4;
    }
    void legend() {
        double y = layout_->height + legend_line;
        for (const std::string& words : drawn_->legend) {
            put("<text x=\"0\" y=\"{:.1f}\" font-size=\"10\" fill=\"#000000\" stroke=\"none\">{}</text>\n", y,
                html_escaped(words));
            y += legend_line;
        }
    }

    const DrawnGraph* drawn_;
    const DrawingGraph* graph_;
    const std::vector<CardText>* texts_;
    const Layout* layout_;
    std::string out_;
};

} // namespace

CardText measure(const Card& card, std::size_t columns) {
    CardText text;
    if (card.symbol == Symbol::tee) {
        text.width = text.height = tee_size;
        return text;
    }
    // Where a pipe leads must not end in the middle of it.
    const bool narrow = card.symbol == Symbol::remark;
    text.lines = label_lines(card.label, narrow ? std::min(columns, remark_columns) : columns,
                             card.symbol == Symbol::onward ? most_lines + 3 : most_lines);
    if (!card.detail.empty()) {
        text.detail = label_lines(card.detail, columns, most_lines);
    }
    if (card.symbol == Symbol::remark) {
        text.width = static_cast<double>(widest(text.lines)) * column_width;
        text.height = static_cast<double>(text.lines.size()) * line_height;
        return text;
    }
    if (!card.mark.empty()) {
        text.lines.insert(text.lines.begin(), text.detail.begin(), text.detail.end());
        text.width = 2 * mark_radius + padding + static_cast<double>(widest(text.lines)) * column_width + 2;
        text.height = std::max(2 * mark_radius, static_cast<double>(text.lines.size()) * line_height) + 2;
        return text;
    }
    if (!card.over.empty()) {
        text.lines = label_lines(card.over, columns, most_lines + 1);
    }
    if (card.live_columns > 0) {
        text.detail = {""};
    }
    const SignBox box = sign_box(card);
    const std::size_t columns_used = std::max({widest(text.lines), widest(text.detail), card.live_columns});
    const auto lines = static_cast<double>(text.lines.size() + text.detail.size());
    text.width = box.width + static_cast<double>(columns_used) * column_width + 3 * padding;
    text.height = std::max(box.height, lines * line_height) + 2 * padding;
    return text;
}

std::string place_id(const Card& card) {
    return card.part ? fmt::format("p{}", card.part.value) : fmt::format("n{}", card.node.value);
}
std::string place_id(const Line2d& line) {
    return fmt::format("r{}", line.run);
}

std::array<std::string, 5> card_sign(const Card& card) {
    const SignBox box = sign_box(card);
    ValveStrokes strokes;
    add_valve_sign({card.valve->ports.size(), card.valve->lets_out, card.numbered, *card.stands}, box.width / 2,
                   box.middle, sign_size, strokes);
    return {strokes.rings, strokes.discs, strokes.pipes, strokes.arrows, strokes.doubts.empty() ? "" : "?"};
}

std::string drawing_svg(const DrawnGraph& drawn, std::string_view name) {
    return SvgWriter(drawn).write(name);
}

} // namespace curbstop::output
