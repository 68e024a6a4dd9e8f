// Where the numbers stand that a valve's sides have in the pictures of steps: where its pipes come in, no two on each
// other. Must not know: SVG.
#pragma once

#include "output/drawing_svg.h"

#include <string>
#include <vector>

namespace curbstop::output {

struct PortNumber {
    std::string words; ///< "2", or "2 hot" where there is room
    Point foot;        ///< of its right end where it runs leftwards, otherwise of its left
    bool leftwards = false;
};

/// Of each line of the drawing, those at its ends.
[[nodiscard]] std::vector<std::vector<PortNumber>> port_numbers(const DrawnGraph& drawn);

} // namespace curbstop::output
