#include "output/picture_svg.h"

#include "output/html_escape.h"
#include "output/label_lines.h"
#include "output/sheet_picture.h"
#include "output/valve_sign.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace curbstop::output {
namespace {

// In units of which 320 are as wide as 20 letters of the page (pictures.css): letters of 16 are as large as those of
// the text.
constexpr double full_width = 320;
constexpr double row = 20;                     // height of a line of letters
constexpr double reach = 44, short_reach = 21; // from the middle of a body to the end of its pipes, and without one
constexpr double frame_width = 2 * reach;
constexpr double gap = 28;               // with the arrow to the next frame
constexpr std::size_t frames_in_row = 3; // 3 x 88 + 2 x 28 = 320
constexpr std::size_t frame_columns = 12, line_columns = 37, most_lines = 3;
constexpr std::size_t half_columns = 17; // of what is named beside something else
constexpr SignSize sign_size{.reach = reach};

class Writer {
  public:
    Writer(const Picture& picture, const Tongue& tongue)
        : picture_(&picture)
        , tongue_(&tongue) {}

    std::string write() {
        for (const PicturePart& each : picture_->parts) {
            part(each);
        }
        return fmt::format(
            "<svg class=\"pic turned\" role=\"img\" aria-label=\"{}\" viewBox=\"0 0 {} {:.0f}\">\n{}</svg>\n",
            html_escaped(picture_words(*picture_, *tongue_)), full_width, y_, body_);
    }

  private:
    template <class... Args>
    void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(body_), format, std::forward<Args>(args)...);
    }
    void lines(double x, std::string_view words, std::size_t columns, std::string_view style = {}) {
        double y = y_;
        for (const std::string& line : label_lines(words, columns, most_lines)) {
            y += row;
            put("<text{} x=\"{:.0f}\" y=\"{:.0f}\">{}</text>\n", style, x, y - 4, html_escaped(line));
        }
        lowest_ = std::max(lowest_, y);
    }

    void part(const PicturePart& part) {
        const double up = sign_goes_up(part.ports.size(), part.lets_out) ? reach : short_reach;
        const double down = sign_goes_down(part.ports.size(), part.lets_out) ? reach : short_reach;
        lowest_ = y_;
        lines(0, part.label, line_columns, " class=\"b\"");
        y_ = lowest_ + 4;
        ValveStrokes strokes;
        for (std::size_t i = 0; i < part.frames.size(); ++i) {
            const std::size_t column = i % frames_in_row;
            if (column == 0 && i > 0) {
                y_ = lowest_ + 8;
            }
            const double x = reach + static_cast<double>(column) * (frame_width + gap);
            add_valve_sign({part.ports.size(), part.lets_out, part.numbered(), part.frames[i].ways}, x, y_ + up,
                           sign_size, strokes);
            if (i + 1 < part.frames.size()) {
                strokes.arrows += fmt::format("M{:.0f} {:.0f}h14m-5-5l6 5-6 5", x + 50, y_ + up);
            }
            const double top = std::exchange(y_, y_ + up + down);
            lines(x, part.frames[i].stands, frame_columns, " class=\"t\"");
            const std::string sides = frame_sides(part, part.frames[i], *tongue_);
            if (!sides.empty()) {
                y_ += static_cast<double>(label_lines(part.frames[i].stands, frame_columns, most_lines).size()) * row;
                lines(x, sides, frame_columns, " class=\"t\"");
            }
            y_ = top;
        }
        put(strokes);
        y_ = lowest_ + 4;
        if (part.numbered()) {
            ports(part);
        }
        if (!part.out_to.empty()) {
            lines(0, plain(tongue_->say<Saying::picture_out_to>(in<"where">(part.out_to))), line_columns);
            y_ = lowest_;
        }
        y_ += 6;
    }

    // What lies at each side, two beside each other where both are short.
    void ports(const PicturePart& part) {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < part.ports.size(); ++i) {
            if (!part.ports[i].empty()) {
                names.push_back(plain(tongue_->say<Saying::picture_port>(in<"number">(tongue_->number(i + 1)),
                                                                         in<"names">(part.ports[i]))));
            }
        }
        const auto is_short = [&names](std::size_t i) {
            return i < names.size() && label_lines(names[i], half_columns, 2).size() == 1;
        };
        for (std::size_t i = 0; i < names.size(); ++i) {
            const bool two = is_short(i) && is_short(i + 1);
            lines(0, names[i], line_columns);
            if (two) {
                lines(full_width / 2, names[++i], half_columns);
            }
            y_ = lowest_;
        }
    }

    void put(const ValveStrokes& strokes) {
        const auto path = [&](std::string_view look, const std::string& data) {
            if (!data.empty()) {
                put("<path class=\"{}\" d=\"{}\"/>\n", look, data);
            }
        };
        path("c", strokes.rings);
        path("s", strokes.discs);
        path("w", strokes.pipes);
        path("a", strokes.arrows);
        for (const ValveStrokes::Letter& doubt : strokes.doubts) {
            put("<text class=\"q\" x=\"{:.0f}\" y=\"{:.0f}\">?</text>\n", doubt.x, doubt.y);
        }
        // Letter by letter in one element; of one digit each, as there are three ports at most.
        std::string xs, ys, digits;
        for (const ValveStrokes::Letter& number : strokes.numbers) {
            xs += fmt::format("{}{:.0f}", xs.empty() ? "" : " ", number.x);
            ys += fmt::format("{}{:.0f}", ys.empty() ? "" : " ", number.y);
            digits += std::to_string(number.number);
        }
        if (!digits.empty()) {
            put("<text x=\"{}\" y=\"{}\">{}</text>\n", xs, ys, digits);
        }
    }

    const Picture* picture_;
    const Tongue* tongue_;
    double y_ = 0, lowest_ = 0;
    std::string body_;
};

} // namespace

std::string picture_svg(const Picture& picture, const Tongue& tongue) {
    return Writer(picture, tongue).write();
}

std::string picture_legend(const Tongue& tongue) {
    std::string out = "<ul class=\"plain signs\">\n";
    for (const PictureSign& sign : picture_signs(tongue)) {
        std::string_view shown;
        switch (sign.kind) {
        case PictureSign::Kind::shut:
            shown = R"(<path class="w" d="M0 20h40"/><circle class="s" cx="20" cy="20" r="13"/>)";
            break;
        case PictureSign::Kind::open:
            shown = R"(<circle class="c" cx="20" cy="20" r="13"/><path class="w" d="M0 20h40"/>)";
            break;
        case PictureSign::Kind::side_shut:
            shown = R"(<circle class="c" cx="20" cy="20" r="13"/><path class="w" d="M0 20h20v20M40 20h-7M33 12v16"/>)";
            break;
        case PictureSign::Kind::in_doubt:
            shown = R"(<circle class="c" cx="20" cy="20" r="13"/><path class="w" d="M0 20h7M33 20h7"/>)"
                    R"(<text class="q" x="20" y="26">?</text>)";
            break;
        case PictureSign::Kind::one_way:
            shown = R"(<path class="c" d="M7 6v28L31 20z"/><path class="w" d="M0 20h7M33 20h7M33 5v30"/>)";
            break;
        case PictureSign::Kind::out:
            shown = R"(<circle class="c" cx="20" cy="13" r="11"/><path class="w" d="M0 13h9Q20 13 20 24V32"/>)"
                    R"(<path class="a" d="M14 31l6 8 6-8"/>)";
            break;
        }
        fmt::format_to(std::back_inserter(out),
                       "<li><svg class=\"pic\" aria-hidden=\"true\" width=\"40\" height=\"40\">{}</svg> {}</li>\n",
                       shown, html_escaped(sign.words));
    }
    return out + "</ul>\n";
}

} // namespace curbstop::output
