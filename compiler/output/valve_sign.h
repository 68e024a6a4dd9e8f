// The sign of a valve as it stands, the same in the pictures of steps and on the drawings of the system: a solid disc
// where it is shut, a ring with its open ways as lines where it is open and a bar across each pipe whose side is shut,
// a question mark where that is not laid down, a triangle against a bar where a check valve is at work. Form only, no
// colour. Must not know: words, layout.
#pragma once

#include "output/valve_ways.h"

#include <span>
#include <string>
#include <vector>

namespace curbstop::output {

/// In the units of what it is drawn on.
struct SignSize {
    double radius = 17;    ///< of the ring
    double reach = 44;     ///< from its middle to the end of a pipe
    double arrow = 38;     ///< from its middle to the point of the arrow of what runs out
    double barb = 6;       ///< half as wide as that arrow's head
    double digit = 11;     ///< as high as a number beside a pipe's end
    double inset = 4;      ///< from a pipe's end to its number
    double doubt_drop = 6; ///< from the middle to the foot of the question mark
};

/// What looks alike is one path, as a sheet may hold hundreds of pictures.
struct ValveStrokes {
    struct Letter {
        double x = 0, y = 0; ///< of its foot: its left end, or the middle of a question mark
        std::size_t number = 0;
    };
    std::string rings, discs, pipes, arrows; ///< path data
    std::vector<Letter> doubts, numbers;

    bool operator==(const ValveStrokes& other) const {
        return rings == other.rings && discs == other.discs && pipes == other.pipes && arrows == other.arrows &&
               doubts.size() == other.doubts.size();
    }
};

/// Whether the sign reaches up or down further than its ring, by pipes or by what runs out.
[[nodiscard]] bool sign_goes_up(std::size_t ports, bool lets_out);
[[nodiscard]] bool sign_goes_down(std::size_t ports, bool lets_out);

struct ValveStands {
    std::size_t ports = 0;
    bool lets_out = false;
    bool numbered = false;
    std::span<const PictureWay> ways;
};
void add_valve_sign(const ValveStands& stands, double x, double y, const SignSize& size, ValveStrokes& strokes);

} // namespace curbstop::output
