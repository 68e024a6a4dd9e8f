#include "output/drawing.h"

#include "output/drawing_graph.h"
#include "output/drawing_symbols.h"
#include "output/html_escape.h"
#include "output/layout.h"
#include "output/words.h"

#include "text/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace curbstop::output {
namespace {

constexpr std::size_t columns = 20;   // of a line of a label
constexpr std::size_t most_lines = 3; // of a label; the title has all of it
constexpr double column_width = 6.9;  // of an average letter of the font at its size; cards cut off what is wider
constexpr double line_height = 14;
constexpr double padding = 6;
constexpr double tee_size = 8;
constexpr double margin = 12;       // around the drawing
constexpr double frame_margin = 22; // between a frame and its cards: room for the name of the place
constexpr double legend_line = 13;
constexpr double legend_height = 3 * legend_line + 4;
constexpr double least_width = 180; // so that the legend is not cut off

/// Breaks a label at spaces, or where it must, into lines of at most `columns`; what does not fit is cut with `…`.
std::vector<std::string> wrapped(const std::string& label) {
    std::vector<std::string> lines;
    std::string line;
    std::size_t width = 0;
    std::size_t last_space = std::string::npos;
    const auto end_line = [&](std::string rest) {
        lines.push_back(line);
        line = std::move(rest);
        width = text::display_width(line);
        last_space = std::string::npos;
    };
    for (std::size_t at = 0; at < label.size();) {
        const text::CodePoint point = text::decode_utf8(label, at);
        const std::string letter = label.substr(at, point.length);
        const std::size_t letter_width = text::display_width(point.value);
        at += point.length;
        if (width + letter_width > columns) {
            if (point.value == ' ') {
                end_line("");
                continue;
            }
            if (last_space != std::string::npos) {
                std::string rest = line.substr(last_space + 1);
                line.erase(last_space);
                end_line(std::move(rest));
            } else {
                end_line("");
            }
        }
        if (point.value == ' ') {
            last_space = line.size();
        }
        line += letter;
        width += letter_width;
    }
    if (!line.empty() || lines.empty()) {
        lines.push_back(line);
    }
    if (lines.size() > most_lines) {
        lines.resize(most_lines);
        lines.back() += "…";
    }
    return lines;
}

struct CardText {
    std::vector<std::string> lines;  ///< of the label
    std::vector<std::string> detail; ///< in italics below
    double width = 0;
    double height = 0;
};

CardText measure(const Card& card) {
    CardText text;
    if (card.symbol == Symbol::tee) {
        text.width = text.height = tee_size;
        return text;
    }
    text.lines = wrapped(card.label);
    if (!card.detail.empty()) {
        text.detail = wrapped(card.detail);
    }
    std::size_t widest = 0;
    for (const auto* lines : {&text.lines, &text.detail}) {
        for (const std::string& line : *lines) {
            widest = std::max(widest, text::display_width(line));
        }
    }
    const auto lines = static_cast<double>(text.lines.size() + text.detail.size());
    text.width = symbol_width + static_cast<double>(widest) * column_width + 3 * padding;
    text.height = std::max(symbol_height, lines * line_height) + 2 * padding;
    return text;
}

class SvgWriter {
  public:
    SvgWriter(const Words& words, const DrawingGraph& graph, const std::vector<CardText>& texts, const Layout& layout,
              bool with_state)
        : words_(&words)
        , graph_(&graph)
        , texts_(&texts)
        , layout_(&layout)
        , with_state_(with_state) {}

    std::string write() {
        const double width = std::max(least_width, layout_->width + 2 * margin);
        const double height = layout_->height + 2 * margin + legend_height;
        const std::string name = html_escaped("Drawing of " + label_of(words_->system()));
        put("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.1f} {1:.1f}\" width=\"{0:.1f}\" "
            "height=\"{1:.1f}\" role=\"img\" aria-label=\"{2}\" font-family=\"Liberation Sans, Arial, sans-serif\" "
            "font-size=\"12\" fill=\"none\" stroke=\"#000000\" stroke-width=\"1.2\">\n<title>{2}</title>\n"
            "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\" stroke=\"none\"/>\n<g transform=\"translate({3:.1f} "
            "{3:.1f})\">\n",
            width, height, name, margin);
        frames();
        for (std::size_t i = 0; i < graph_->lines.size(); ++i) {
            line(graph_->lines[i], layout_->edges[i]);
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
            const std::string full = words_->zone(meaning::ZoneId(i));
            // A name longer than its frame is cut off by the frame; its title has all of it.
            put("<g><title>{0}</title><rect x=\"{1:.1f}\" y=\"{2:.1f}\" width=\"{3:.1f}\" height=\"{4:.1f}\" rx=\"4\" "
                "stroke=\"#666666\" stroke-width=\"0.8\" fill=\"#f4f4f4\"/>\n"
                "<svg x=\"{1:.1f}\" y=\"{2:.1f}\" width=\"{3:.1f}\" height=\"{5:.1f}\">"
                "<text x=\"8\" y=\"15\" font-weight=\"bold\" fill=\"#000000\" stroke=\"none\">{0}</text></svg></g>\n",
                html_escaped(full), least.x, least.y, most.x - least.x, most.y - least.y, frame_margin);
        }
    }

    void line(const Line2d& line, const std::vector<Point>& points) {
        const std::string_view dashes = line.stroke == Stroke::fall     ? " stroke-dasharray=\"2 4\""
                                        : line.optional                 ? " stroke-dasharray=\"8 4\""
                                        : line.stroke == Stroke::inside ? " stroke-opacity=\"0.6\""
                                                                        : "";
        const double weight = line.pressurised ? 4 : line.stroke == Stroke::pipe ? 2 : 1.2;
        std::string path = fmt::format("M{:.1f} {:.1f}", points[0].x, points[0].y);
        for (std::size_t i = 1; i + 2 < points.size(); i += 3) {
            fmt::format_to(std::back_inserter(path), "C{:.1f} {:.1f} {:.1f} {:.1f} {:.1f} {:.1f}", points[i].x,
                           points[i].y, points[i + 1].x, points[i + 1].y, points[i + 2].x, points[i + 2].y);
        }
        put("<g><title>{}{}</title><path d=\"{}\" stroke-width=\"{}\"{}/>", html_escaped(line.title),
            line.pressurised ? ": may be under pressure" : "", path, weight, dashes);
        if (line.falls != 0) {
            fall_mark(line.falls > 0 ? points : std::vector<Point>(points.rbegin(), points.rend()));
        }
        put("</g>\n");
    }

    // An open arrow head at the end to which a pipe falls.
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
        // A nested svg element cuts off a line of letters wider than the average was taken for.
        put("<svg x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"><title>{}</title>\n"
            "<rect x=\"0.6\" y=\"0.6\" width=\"{:.1f}\" height=\"{:.1f}\" rx=\"3\" fill=\"#ffffff\"{}/>\n"
            "<g transform=\"translate({:.1f} {:.1f})\">{}</g>\n",
            centre.x - text.width / 2, centre.y - text.height / 2, text.width, text.height, html_escaped(card.title),
            text.width - 1.2, text.height - 1.2, card.optional ? " stroke-dasharray=\"5 3\"" : "", padding,
            (text.height - symbol_height) / 2, symbol_svg(card.symbol));
        const auto lines = static_cast<double>(text.lines.size() + text.detail.size());
        double y = (text.height - lines * line_height) / 2 + 11;
        const double x = symbol_width + 2 * padding;
        for (const std::string& line : text.lines) {
            put("<text x=\"{:.1f}\" y=\"{:.1f}\" fill=\"#000000\" stroke=\"none\">{}</text>\n", x, y,
                html_escaped(line));
            y += line_height;
        }
        for (const std::string& line : text.detail) {
            put("<text x=\"{:.1f}\" y=\"{:.1f}\" fill=\"#000000\" stroke=\"none\" font-style=\"italic\">{}</text>\n", x,
                y, html_escaped(line));
            y += line_height;
        }
        put("</svg>\n");
    }

    void legend() {
        double y = layout_->height + legend_line;
        const std::string_view first = with_state_ ? "Thick: may be under pressure." : "Dots: falls through air.";
        for (const std::string_view words : {first, std::string_view("Arrow: the way a pipe falls."),
                                             std::string_view("Dashed: in some variants only.")}) {
            put("<text x=\"0\" y=\"{:.1f}\" font-size=\"10\" fill=\"#000000\" stroke=\"none\">{}</text>\n", y, words);
            y += legend_line;
        }
    }

    const Words* words_;
    const DrawingGraph* graph_;
    const std::vector<CardText>* texts_;
    const Layout* layout_;
    bool with_state_;
    std::string out_;
};

} // namespace

Drawing draw_system(const meaning::System& system, const proofs::StepReport* state) {
    const Words words(system);
    const DrawingGraph graph = drawing_graph(words, state);
    LayoutGraph to_place;
    to_place.clusters = system.zones.size();
    to_place.cluster_margin = frame_margin;
    std::vector<CardText> texts;
    for (const Card& card : graph.cards) {
        texts.push_back(measure(card));
        to_place.vertices.push_back({texts.back().width, texts.back().height,
                                     card.zone ? std::optional<std::size_t>(card.zone->value) : std::nullopt});
    }
    for (const Line2d& line : graph.lines) {
        to_place.edges.emplace_back(line.from, line.to);
    }
    LayoutResult placed = lay_out(to_place);
    if (!placed.layout) {
        return {{}, std::move(placed.error)};
    }
    return {SvgWriter(words, graph, texts, *placed.layout, state != nullptr).write(), {}};
}

} // namespace curbstop::output
