// Where the cards and lines of a drawing of places go: pieces that hang together are laid out by the library and
// then set in rows. Must not know: SVG, plumbing.
#pragma once

#include "output/layout.h"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace curbstop::output {

struct PackedLayout {
    double width = 0, height = 0;
    std::vector<Point> vertices;           ///< centres
    std::vector<std::vector<Point>> edges; ///< as Layout::edges
    std::string error;                     ///< why there is none
};

/// Rows are filled up to `width`, if no piece is wider than that by itself.
[[nodiscard]] PackedLayout lay_out_in_rows(const LayoutGraph& graph, double width);

} // namespace curbstop::output
