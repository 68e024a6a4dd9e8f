// Where a script writes what a pipe holds: on the pipe, and as far as there is room on nothing else. Must not know:
// what is written, SVG.
#pragma once

#include "output/drawing_numbers.h"
#include "output/drawing_svg.h"

#include <vector>

namespace curbstop::output {

/// Of each line of the drawing, the middle of its words. `numbers`: as port_numbers() gives them.
[[nodiscard]] std::vector<Point> places_for_words(const DrawnGraph& drawn,
                                                  const std::vector<std::vector<PortNumber>>& numbers);

} // namespace curbstop::output
