#include "output/picture_svg.h"

#include "output/html_escape.h"
#include "output/label_lines.h"
#include "output/sheet_picture.h"

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
constexpr double radius = 17;

struct Spot {
    double x, y;
};

/// Where a pipe comes in, seen from the middle of the body.
struct Side {
    double x, y;             ///< of length 1
    double digit_x, digit_y; ///< of the number beside the pipe's end
};
constexpr Side left{-1, 0, -40, -8};
constexpr Side right{1, 0, 32, -8};
constexpr Side above{0, -1, 6, -30};
constexpr Side below{0, 1, 6, 43};

/// Two pipes go through from side to side. Of three the first, from which the others part, comes from below, or from
/// above where something runs out below; so what is called left of it is on the left.
Side side_of(const PicturePart& part, std::size_t port) {
    if (part.ports.size() < 3) {
        return port == 0 ? left : right;
    }
    return port == 1 ? left : port == 2 ? right : part.lets_out ? above : below;
}

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
        const bool from_first = part.ports.size() == 3;
        const double up = from_first && part.lets_out ? reach : short_reach;
        const double down = from_first || part.lets_out ? reach : short_reach;
        lowest_ = y_;
        lines(0, part.label, line_columns, " class=\"b\"");
        y_ = lowest_ + 4;
        Strokes strokes;
        for (std::size_t i = 0; i < part.frames.size(); ++i) {
            const std::size_t column = i % frames_in_row;
            if (column == 0 && i > 0) {
                y_ = lowest_ + 8;
            }
            const Spot middle{reach + static_cast<double>(column) * (frame_width + gap), y_ + up};
            frame(part, part.frames[i], middle, strokes);
            if (i + 1 < part.frames.size()) {
                strokes.arrows += fmt::format("M{:.0f} {:.0f}h14m-5-5l6 5-6 5", middle.x + 50, middle.y);
            }
            const double top = std::exchange(y_, y_ + up + down);
            lines(middle.x, part.frames[i].stands, frame_columns, " class=\"t\"");
            const std::string sides = frame_sides(part, part.frames[i], *tongue_);
            if (!sides.empty()) {
                y_ += static_cast<double>(label_lines(part.frames[i].stands, frame_columns, most_lines).size()) * row;
                lines(middle.x, sides, frame_columns, " class=\"t\"");
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

    // A sheet may hold hundreds of pictures: what looks alike is one element, which browsers lay out faster.
    struct Strokes {
        std::string rings, discs, pipes, arrows; ///< path data
        std::string doubts;                      ///< text elements
        std::string digits, digits_x, digits_y;  ///< letter by letter
    };

    void put(const Strokes& strokes) {
        const auto path = [&](std::string_view look, const std::string& data) {
            if (!data.empty()) {
                put("<path class=\"{}\" d=\"{}\"/>\n", look, data);
            }
        };
        path("c", strokes.rings);
        path("s", strokes.discs);
        path("w", strokes.pipes);
        path("a", strokes.arrows);
        body_ += strokes.doubts;
        if (!strokes.digits.empty()) {
            put("<text x=\"{}\" y=\"{}\">{}</text>\n", strokes.digits_x, strokes.digits_y, strokes.digits);
        }
    }

    static std::string line(Spot middle, Side from, double from_length, Side to, double to_length) {
        return fmt::format("M{:.0f} {:.0f}L{:.0f} {:.0f}", middle.x + from.x * from_length,
                           middle.y + from.y * from_length, middle.x + to.x * to_length, middle.y + to.y * to_length);
    }

    // Straight through one way and surely so. It has a form of its own: a ring with a line through it would say that it
    // is open.
    static bool check_valve(const PicturePart& part, const PictureFrame& frame) {
        return part.ports.size() == 2 && frame.ways.size() == 1 && frame.ways.front().one_way &&
               frame.ways.front().surely && frame.ways.front().to;
    }

    // Two sides of a triangle that points the way, its foot, and the bar that it is shut against.
    static void check_valve_sign(const PicturePart& part, const PictureWay& way, Spot middle, Strokes& strokes) {
        const double ahead = side_of(part, *way.to).x;
        fmt::format_to(std::back_inserter(strokes.rings), "M{0:.0f} {1:.0f}v30L{2:.0f} {3:.0f}z",
                       middle.x - ahead * radius, middle.y - 15, middle.x + ahead * (radius - 4), middle.y);
        fmt::format_to(std::back_inserter(strokes.pipes), "M{:.0f} {:.0f}v34", middle.x + ahead * (radius - 2),
                       middle.y - 17);
    }

    static void frame(const PicturePart& part, const PictureFrame& frame, Spot middle, Strokes& strokes) {
        const bool checks = check_valve(part, frame);
        if (!checks) {
            (frame.ways.empty() ? strokes.discs : strokes.rings) +=
                fmt::format("M{0:.0f} {1:.0f}a{2} {2} 0 1 0 {3} 0a{2} {2} 0 1 0-{3} 0", middle.x - radius, middle.y,
                            radius, 2 * radius);
        }
        for (std::size_t i = 0; i < part.ports.size(); ++i) {
            const Side side = side_of(part, i);
            strokes.pipes += line(middle, side, reach, side, radius);
            if (!part.numbered()) {
                continue;
            }
            strokes.digits += std::to_string(i + 1); // one letter each, as there are three ports at most
            fmt::format_to(std::back_inserter(strokes.digits_x), "{}{:.0f}", strokes.digits_x.empty() ? "" : " ",
                           middle.x + side.digit_x);
            fmt::format_to(std::back_inserter(strokes.digits_y), "{}{:.0f}", strokes.digits_y.empty() ? "" : " ",
                           middle.y + side.digit_y);
        }
        if (checks) {
            check_valve_sign(part, frame.ways.front(), middle, strokes);
            return;
        }
        if (std::ranges::any_of(frame.ways, [](const PictureWay& way) { return !way.surely; })) {
            fmt::format_to(std::back_inserter(strokes.doubts), "<text class=\"q\" x=\"{:.0f}\" y=\"{:.0f}\">?</text>\n",
                           middle.x, middle.y + 6);
        }
        for (const PictureWay& way : frame.ways) {
            if (!way.surely) { // the words beside the picture say which they are
                continue;
            }
            std::string& way_through = strokes.pipes;
            const Side from = side_of(part, way.from);
            way_through += line(middle, from, radius, from, 0);
            if (!way.to) {
                strokes.arrows += fmt::format("M{:.0f} {:.0f}v38m-6-7l6 9 6-9", middle.x, middle.y);
                continue;
            }
            const Side to = side_of(part, *way.to);
            way_through += fmt::format("L{:.0f} {:.0f}", middle.x + to.x * radius, middle.y + to.y * radius);
            if (way.one_way) { // its head, on the pipe that it leaves by
                strokes.arrows +=
                    fmt::format("M{:.0f} {:.0f}L{:.0f} {:.0f}L{:.0f} {:.0f}", middle.x + 20 * to.x + 7 * to.y,
                                middle.y + 20 * to.y + 7 * to.x, middle.x + 28 * to.x, middle.y + 28 * to.y,
                                middle.x + 20 * to.x - 7 * to.y, middle.y + 20 * to.y - 7 * to.x);
            }
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
        case PictureSign::Kind::in_doubt:
            shown = R"(<circle class="c" cx="20" cy="20" r="13"/><path class="w" d="M0 20h7M33 20h7"/>)"
                    R"(<text class="q" x="20" y="26">?</text>)";
            break;
        case PictureSign::Kind::one_way:
            shown = R"(<path class="c" d="M7 6v28L31 20z"/><path class="w" d="M0 20h7M33 20h7M33 5v30"/>)";
            break;
        case PictureSign::Kind::out:
            shown = R"(<circle class="c" cx="20" cy="13" r="11"/><path class="w" d="M0 13h20"/>)"
                    R"(<path class="a" d="M20 13V36M14 30l6 8 6-8"/>)";
            break;
        }
        fmt::format_to(std::back_inserter(out),
                       "<li><svg class=\"pic\" aria-hidden=\"true\" width=\"40\" height=\"40\">{}</svg> {}</li>\n",
                       shown, html_escaped(sign.words));
    }
    return out + "</ul>\n";
}

} // namespace curbstop::output
