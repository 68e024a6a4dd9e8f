#include "output/picture_svg.h"

#include "output/drawing_symbols.h"
#include "output/html_escape.h"
#include "output/label_lines.h"
#include "output/picture_layout.h"
#include "output/picture_symbols.h"
#include "output/sheet_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace curbstop::output {
namespace {

// All in CSS pixels; the letters are 10 px (7.5 pt on paper).
constexpr double wanted_width = 300;
constexpr double letter = 5.4; // width of an average one
constexpr double row = 12;     // height of a line of letters
constexpr double pad = 5;
constexpr double sign_width = 26, sign_height = 20; // symbol_width and symbol_height, made smaller
constexpr double chip_width = 26, chip_height = 11;
constexpr double mark_width = 14; // the P in its circle
constexpr std::size_t label_columns = 16, move_columns = 20, most_label_lines = 3, most_move_lines = 9;
constexpr std::size_t line_columns = 50; // of the lines below
constexpr double margin = 4;

std::size_t hatching(const KeyEntry& entry) {
    return entry.pattern ? entry.pattern->value % hatching_count + 1 : 0; // 0 is blank: air
}

std::string letter_of(std::size_t key) {
    return key < 26 ? std::string(1, static_cast<char>('a' + key)) : std::to_string(key - 25);
}

// A valve that is shut is filled, one of which that is not known is half filled.
bool shows_passage(Symbol symbol) {
    return symbol == Symbol::valve || symbol == Symbol::three_way || symbol == Symbol::tap;
}

struct CardBox {
    std::vector<std::string> label, rows; ///< of the name; of what stands below it
    double width = 0, height = 0;
};

class Writer {
  public:
    Writer(const Picture& picture, const Tongue& tongue)
        : picture_(&picture)
        , tongue_(&tongue) {}

    PictureSvg write() {
        measure();
        const PackedLayout placed = lay_out_in_rows(graph_, wanted_width);
        if (!placed.error.empty()) {
            return {{}, placed.error};
        }
        layout_ = &placed;
        for (std::size_t i = 0; i < picture_->pipes.size(); ++i) {
            pipe(picture_->pipes[i], i);
        }
        for (std::size_t i = 0; i < picture_->outs.size(); ++i) {
            if (picture_->outs[i].card) {
                out(picture_->outs[i], i);
            }
        }
        for (std::size_t i = 0; i < picture_->cards.size(); ++i) {
            card(picture_->cards[i], boxes_[i], placed.vertices[i]);
        }
        const double bottom = key(outs_elsewhere(placed.height + 6));
        const double width = std::ceil(std::max(placed.width, key_width_) + 2 * margin);
        const double height = std::ceil(bottom + 2 * margin);
        return {
            fmt::format("<svg class=\"pic{}\" role=\"img\" aria-label=\"{}\" viewBox=\"-{} -{} {} {}\" width=\"{}\" "
                        "height=\"{}\">\n{}</svg>\n",
                        width > wanted_width + 40 ? " broad" : "", html_escaped(picture_words(*picture_, *tongue_)),
                        margin, margin, width, height, width, height, body_),
            {}};
    }

  private:
    template <class... Args>
    void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(body_), format, std::forward<Args>(args)...);
    }
    void text(double x, double y, std::string_view words, std::string_view style = {}) {
        put("<text{} x=\"{:.0f}\" y=\"{:.0f}\">{}</text>\n", style, x, y, html_escaped(words));
    }

    void measure() {
        for (const PictureCard& card : picture_->cards) {
            CardBox box;
            if (card.symbol == Symbol::tee) {
                box.label = label_lines(beyond_words(card.beyond, *tongue_), label_columns + 4, most_label_lines + 1);
                box.width = 14 + static_cast<double>(widest(box.label)) * letter;
                box.height = std::max(12.0, static_cast<double>(box.label.size()) * row);
            } else {
                box.label = label_lines(card.label, label_columns, most_label_lines);
                for (const std::string& move : card.moves) {
                    std::ranges::copy(label_lines(move, move_columns, most_move_lines), std::back_inserter(box.rows));
                }
                const double lines = static_cast<double>(box.label.size() + box.rows.size()) * row;
                const double marks =
                    static_cast<double>(card.holds.size() + (card.pressure ? 1 : 0)) * (chip_height + 2);
                // Heavy letters are wider.
                const double words =
                    std::max(static_cast<double>(widest(box.label)) * (card.moved ? letter * 1.08 : letter),
                             static_cast<double>(widest(box.rows)) * letter);
                box.width = sign_width + words + 3 * pad;
                box.height = std::max(sign_height + marks, lines) + 2 * pad - 2;
            }
            graph_.vertices.push_back({box.width, box.height, {}});
            boxes_.push_back(std::move(box));
        }
        for (const PicturePipe& pipe : picture_->pipes) {
            if (!pipe.holds) {
                first_edge_.push_back(graph_.edges.size());
                graph_.edges.emplace_back(pipe.from, pipe.to);
                continue;
            }
            const std::size_t chip = graph_.vertices.size();
            graph_.vertices.push_back({chip_width + (pipe.pressure ? mark_width : 0), chip_height, {}});
            first_edge_.push_back(graph_.edges.size());
            graph_.edges.emplace_back(pipe.from, chip);
            graph_.edges.emplace_back(chip, pipe.to);
        }
        for (const PictureOut& out : picture_->outs) {
            if (!out.card) {
                out_lines_.push_back(label_lines(out_at(out), line_columns, 8));
                first_out_.push_back(0);
                continue;
            }
            out_lines_.push_back(label_lines(out_words(out, *tongue_), label_columns + 4, 4));
            first_out_.push_back(graph_.edges.size());
            graph_.edges.emplace_back(*out.card, graph_.vertices.size());
            graph_.vertices.push_back({14 + static_cast<double>(widest(out_lines_.back())) * letter,
                                       std::max(row, static_cast<double>(out_lines_.back().size()) * row),
                                       {}});
        }
        graph_.rank_gap = 12;
        graph_.side_gap = 9;
    }

    [[nodiscard]] std::string out_at(const PictureOut& out) const {
        return plain(tongue_->say<Saying::out_at>(in<"where">(out.at), in<"what">(out_words(out, *tongue_))));
    }

    static std::string path(const std::vector<Point>& points) {
        std::string d = fmt::format("M{:.0f} {:.0f}", points[0].x, points[0].y);
        // The lines of the layout are straight between the ends of their curves.
        for (std::size_t i = 3; i < points.size(); i += 3) {
            fmt::format_to(std::back_inserter(d), "L{:.0f} {:.0f}", points[i].x, points[i].y);
        }
        return d;
    }

    void pipe(const PicturePipe& pipe, std::size_t index) {
        const std::string_view style = pipe.pressure                    ? " class=\"p\""
                                       : pipe.kind == PipeKind::falls   ? " class=\"f\""
                                       : pipe.optional                  ? " class=\"o\""
                                       : pipe.kind == PipeKind::coupled ? " class=\"j\""
                                                                        : "";
        const std::vector<Point>& first = layout_->edges[first_edge_[index]];
        const std::vector<Point>& last = layout_->edges[first_edge_[index] + (pipe.holds ? 1 : 0)];
        put("<path{} d=\"{}{}\"/>\n", style, path(first), pipe.holds ? path(last) : std::string());
        if (pipe.shut_from) {
            bar(first.front(), first);
        }
        if (pipe.shut_to) {
            bar(last.back(), {last.rbegin(), last.rend()});
        }
        if (pipe.holds) {
            const Point at = layout_->vertices[chip_of(index)];
            const double left = at.x - (chip_width + (pipe.pressure ? mark_width : 0)) / 2;
            chip(*pipe.holds, left, at.y - chip_height / 2);
            if (pipe.pressure) {
                mark(left + chip_width + 1, at.y - 6);
            }
        }
    }
    [[nodiscard]] std::size_t chip_of(std::size_t pipe) const { return graph_.edges[first_edge_[pipe]].second; }

    // Across the pipe, just before its end at `at`.
    void bar(Point at, const std::vector<Point>& from_there) {
        Point next = from_there.back();
        for (const Point& point : from_there) {
            if (std::abs(point.x - at.x) + std::abs(point.y - at.y) > 1) {
                next = point;
                break;
            }
        }
        const double length = std::max(1.0, std::hypot(next.x - at.x, next.y - at.y));
        const double dx = (next.x - at.x) / length;
        const double dy = (next.y - at.y) / length;
        const double x = at.x + 3 * dx;
        const double y = at.y + 3 * dy;
        put("<path class=\"m\" d=\"M{:.0f} {:.0f}L{:.0f} {:.0f}\"/>\n", x - 6 * dy, y + 6 * dx, x + 6 * dy, y - 6 * dx);
    }

    void chip(std::size_t key, double x, double y) {
        put("<use href=\"#h{}\" x=\"{:.0f}\" y=\"{:.0f}\"/>", hatching(picture_->key[key]), x, y);
        text(x + chip_width / 2, y + 9, letter_of(key), " class=\"t\"");
    }
    void mark(double x, double y) { put("<use href=\"#pressure\" x=\"{:.0f}\" y=\"{:.0f}\"/>\n", x, y); }

    void out(const PictureOut& out, std::size_t index) {
        const std::vector<Point>& points = layout_->edges[first_out_[index]];
        const std::size_t vertex = graph_.edges[first_out_[index]].second;
        const Point at = layout_->vertices[vertex];
        const double x = at.x - graph_.vertices[vertex].width / 2;
        const double y = at.y - graph_.vertices[vertex].height / 2;
        put("<path class=\"f\" d=\"{}\"/>\n<use href=\"#{}\" x=\"{:.0f}\" y=\"{:.0f}\"/>\n", path(points),
            out.fills ? "in" : "out", x, y);
        for (std::size_t i = 0; i < out_lines_[index].size(); ++i) {
            text(x + 13, y + 9 + static_cast<double>(i) * row, out_lines_[index][i]);
        }
    }

    void card(const PictureCard& card, const CardBox& box, Point centre) {
        double x = std::round(centre.x - box.width / 2);
        double y = std::round(centre.y - box.height / 2);
        if (card.symbol == Symbol::tee) {
            put("<circle class=\"d\" cx=\"{:.0f}\" cy=\"{:.0f}\" r=\"3.5\"/>\n", x + 6, y + 6);
            for (const std::string& line : box.label) {
                text(x + 13, y + 9, line);
                y += row;
            }
            return;
        }
        const std::string_view frame = card.moved ? (card.optional ? "c m o" : "c m") : card.optional ? "c o" : "c";
        put("<rect class=\"{}\" x=\"{:.0f}\" y=\"{:.0f}\" width=\"{:.0f}\" height=\"{:.0f}\" rx=\"2\"/>\n", frame, x, y,
            box.width, box.height);
        std::string_view fill;
        if (card.passage && shows_passage(card.symbol)) {
            fill = *card.passage == Passage::shut     ? " class=\"s\""
                   : *card.passage == Passage::either ? " fill=\"url(#half)\""
                                                      : "";
        }
        put("<use href=\"#{}\"{} x=\"{:.0f}\" y=\"{:.0f}\" width=\"{:.0f}\" height=\"{:.0f}\"/>\n",
            symbol_id(card.symbol), fill, x + pad, y + pad - 2, sign_width, sign_height);
        double below = y + pad + sign_height;
        for (const std::size_t key : card.holds) {
            chip(key, x + pad + 2, below);
            below += chip_height + 2;
        }
        if (card.pressure) {
            mark(x + pad + 7, below - 1);
        }
        x += sign_width + 2 * pad;
        y += 13;
        for (const std::string& line : box.label) {
            text(x, y, line, card.moved ? " class=\"b\"" : "");
            y += row;
        }
        for (const std::string& line : box.rows) {
            text(x, y, line);
            y += row;
        }
    }

    double outs_elsewhere(double y) {
        for (std::size_t i = 0; i < picture_->outs.size(); ++i) {
            if (picture_->outs[i].card) {
                continue;
            }
            put("<use href=\"#{}\" x=\"0\" y=\"{:.0f}\"/>\n", picture_->outs[i].fills ? "in" : "out", y);
            for (const std::string& line : out_lines_[i]) {
                text(13, y + 9, line);
                y += row;
            }
            key_width_ = std::max(key_width_, 13 + static_cast<double>(widest(out_lines_[i])) * letter);
            y += 1;
        }
        return y;
    }

    // What the letters and hatchings stand for.
    double key(double y) {
        if (picture_->key.empty()) {
            return y - 6;
        }
        for (std::size_t i = 0; i < picture_->key.size(); ++i) {
            const std::vector<std::string> lines = label_lines(picture_->key[i].words, line_columns, 8);
            chip(i, 0, y);
            for (const std::string& line : lines) {
                text(chip_width + 5, y + 9, line);
                y += row;
            }
            key_width_ = std::max(key_width_, chip_width + 5 + static_cast<double>(widest(lines)) * letter);
            y += 1;
        }
        return y;
    }

    const Picture* picture_;
    const Tongue* tongue_;
    LayoutGraph graph_;
    std::vector<CardBox> boxes_;
    std::vector<std::size_t> first_edge_; ///< per pipe
    std::vector<std::size_t> first_out_;  ///< per outlet
    std::vector<std::vector<std::string>> out_lines_;
    const PackedLayout* layout_ = nullptr;
    double key_width_ = 0;
    std::string body_;
};

} // namespace

PictureSvg picture_svg(const Picture& picture, const Tongue& tongue) {
    return Writer(picture, tongue).write();
}

} // namespace curbstop::output
