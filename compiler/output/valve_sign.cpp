#include "output/valve_sign.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace curbstop::output {
namespace {

/// Where a pipe comes in, seen from the middle of the body.
struct Side {
    double x, y; ///< of length 1
};
constexpr Side left{-1, 0}, right{1, 0}, above{0, -1}, below{0, 1};

/// Two pipes go through from side to side. Of three the first, from which the others part, comes from below, or from
/// above where something runs out below; so what is called left of it is on the left.
Side side_of(const ValveStands& stands, std::size_t port) {
    if (stands.ports < 3) {
        return port == 0 ? left : right;
    }
    return port == 1 ? left : port == 2 ? right : stands.lets_out ? above : below;
}

class Sign {
  public:
    Sign(const ValveStands& stands, double x, double y, const SignSize& size, ValveStrokes& strokes)
        : stands_(&stands)
        , x_(x)
        , y_(y)
        , size_(&size)
        , strokes_(&strokes) {}

    void add() {
        const bool checks = check_valve();
        const double radius = size_->radius;
        if (!checks) {
            fmt::format_to(std::back_inserter(stands_->ways.empty() ? strokes_->discs : strokes_->rings),
                           "M{0:g} {1:g}a{2:g} {2:g} 0 1 0 {3:g} 0a{2:g} {2:g} 0 1 0-{3:g} 0", x_ - radius, y_, radius,
                           2 * radius);
        }
        for (std::size_t i = 0; i < stands_->ports; ++i) {
            const Side side = side_of(*stands_, i);
            strokes_->pipes += from(side, size_->reach) + to(side, radius);
            if (stands_->numbered) {
                strokes_->numbers.push_back(number(side, i + 1));
            }
        }
        if (checks) {
            check_valve_sign(stands_->ways.front());
            return;
        }
        if (std::ranges::any_of(stands_->ways, [](const PictureWay& way) { return !way.surely; })) {
            strokes_->doubts.push_back({x_, y_ + size_->doubt_drop});
        }
        for (const PictureWay& way : stands_->ways) {
            if (way.surely) { // the words beside it say which may be open
                open_way(way);
            }
        }
        const bool is_known = std::ranges::all_of(stands_->ways, &PictureWay::surely);
        for (std::size_t i = 0; is_known && !stands_->ways.empty() && i < stands_->ports; ++i) {
            if (std::ranges::none_of(stands_->ways,
                                     [i](const PictureWay& way) { return way.from == i || way.to == i; })) {
                bar(side_of(*stands_, i));
            }
        }
        // Where it may let out, shut or open.
        const bool runs_out =
            std::ranges::any_of(stands_->ways, [](const PictureWay& way) { return way.surely && !way.to; });
        if (runs_out) {
            const double tip = size_->arrow, barb = size_->barb;
            strokes_->pipes += from(below, radius) + to(below, tip - barb);
            strokes_->arrows += fmt::format("M{:g} {:g}l{:g} {:g} {:g}-{:g}", x_ - barb, y_ + tip - 1.2 * barb, barb,
                                            1.4 * barb, barb, 1.4 * barb);
        } else if (stands_->lets_out) {
            strokes_->pipes += from(below, radius) + to(below, radius + size_->barb);
        }
    }

  private:
    [[nodiscard]] std::string from(Side side, double length) const {
        return fmt::format("M{:g} {:g}", x_ + side.x * length, y_ + side.y * length);
    }
    [[nodiscard]] std::string to(Side side, double length) const {
        return fmt::format("L{:g} {:g}", x_ + side.x * length, y_ + side.y * length);
    }

    // Across a pipe, where it comes to a ring that is shut on its side.
    void bar(Side side) {
        const double radius = size_->radius, half = 0.6 * radius;
        fmt::format_to(std::back_inserter(strokes_->pipes), "M{:g} {:g}L{:g} {:g}",
                       x_ + side.x * radius + side.y * half, y_ + side.y * radius + side.x * half,
                       x_ + side.x * radius - side.y * half, y_ + side.y * radius - side.x * half);
    }

    [[nodiscard]] ValveStrokes::Letter number(Side side, std::size_t number) const {
        const double width = size_->digit * 0.8; // of a digit
        if (side.y != 0) {
            return {x_ + 6, y_ + side.y * (size_->reach - 1) - (side.y < 0 ? -size_->digit : 0), number};
        }
        return {side.x < 0 ? x_ - size_->reach + size_->inset : x_ + size_->reach - size_->inset - width,
                y_ - size_->digit * 0.7, number};
    }

    // Straight through one way and surely so. It has a form of its own: a ring with a line through it would say that it
    // is open.
    [[nodiscard]] bool check_valve() const {
        return stands_->ports == 2 && stands_->ways.size() == 1 && stands_->ways.front().one_way &&
               stands_->ways.front().surely && stands_->ways.front().to;
    }

    // Two sides of a triangle that points the way, its foot, and the bar that it is shut against.
    void check_valve_sign(const PictureWay& way) {
        const double ahead = side_of(*stands_, *way.to).x, radius = size_->radius, half = radius * 15 / 17;
        fmt::format_to(std::back_inserter(strokes_->rings), "M{:g} {:g}v{:g}L{:g} {:g}z", x_ - ahead * radius,
                       y_ - half, 2 * half, x_ + ahead * radius * 13 / 17, y_);
        fmt::format_to(std::back_inserter(strokes_->pipes), "M{:g} {:g}v{:g}", x_ + ahead * radius * 15 / 17,
                       y_ - radius, 2 * radius);
    }

    void open_way(const PictureWay& way) {
        const double radius = size_->radius;
        const Side start = side_of(*stands_, way.from);
        if (!way.to) { // bends down: straight on it would be seen to run into what comes from the other side
            const double bend = start.x == 0 ? 0 : radius;
            strokes_->pipes +=
                from(start, radius) +
                (bend == 0 ? to(below, radius) : fmt::format("Q{:g} {:g} {:g} {:g}", x_, y_, x_, y_ + radius));
            return;
        }
        // Both sides run out, and so meet there: the two bends say it.
        const auto lets_out = [this](std::size_t port) {
            return std::ranges::any_of(
                stands_->ways, [port](const PictureWay& each) { return each.from == port && !each.to && each.surely; });
        };
        if (lets_out(way.from) && lets_out(*way.to)) {
            return;
        }
        const Side end = side_of(*stands_, *way.to);
        strokes_->pipes += from(start, radius) + fmt::format("L{:g} {:g}", x_, y_) + to(end, radius);
        if (way.one_way) { // its head, on the pipe that it leaves by
            const double base = radius * 20 / 17, tip = radius * 28 / 17, wide = radius * 7 / 17;
            strokes_->arrows += fmt::format("M{:g} {:g}L{:g} {:g}L{:g} {:g}", x_ + base * end.x + wide * end.y,
                                            y_ + base * end.y + wide * end.x, x_ + tip * end.x, y_ + tip * end.y,
                                            x_ + base * end.x - wide * end.y, y_ + base * end.y - wide * end.x);
        }
    }

    const ValveStands* stands_;
    double x_, y_;
    const SignSize* size_;
    ValveStrokes* strokes_;
};

} // namespace

bool sign_goes_up(std::size_t ports, bool lets_out) {
    return ports == 3 && lets_out;
}
bool sign_goes_down(std::size_t ports, bool lets_out) {
    return ports == 3 || lets_out;
}

void add_valve_sign(const ValveStands& stands, double x, double y, const SignSize& size, ValveStrokes& strokes) {
    Sign(stands, x, y, size, strokes).add();
}

} // namespace curbstop::output
