// A drawing whose cards and lines have their places, so that it can be drawn more than once. Must not know: SVG.
#pragma once

#include "output/drawing_graph.h"
#include "output/drawing_svg.h"
#include "output/picture_layout.h"

#include <cstddef>
#include <string>
#include <vector>

namespace curbstop::output {

/// What is laid out, without clusters.
[[nodiscard]] LayoutGraph layout_graph(const DrawingGraph& graph, const std::vector<CardText>& texts);

struct PlacedDrawing {
    DrawingGraph graph;
    std::vector<CardText> texts;
    Layout layout;
    std::string error; ///< why there is no layout
};

/// In rows of pieces that hang together, filled up to `width`; labels in lines of `columns`.
[[nodiscard]] PlacedDrawing placed_drawing(DrawingGraph graph, std::size_t columns, double width, KnownLayouts& known);

} // namespace curbstop::output
