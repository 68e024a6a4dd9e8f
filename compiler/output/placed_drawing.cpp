#include "output/placed_drawing.h"

#include <utility>

namespace curbstop::output {

PlacedDrawing placed_drawing(DrawingGraph graph, std::size_t columns, double width, KnownLayouts& known) {
    PlacedDrawing placed{std::move(graph), {}, {}, {}};
    LayoutGraph to_place;
    to_place.rank_gap = 24;
    to_place.side_gap = 10;
    for (const Card& card : placed.graph.cards) {
        placed.texts.push_back(measure(card, columns));
        to_place.vertices.push_back({placed.texts.back().width, placed.texts.back().height, {}});
    }
    for (const Line2d& line : placed.graph.lines) {
        to_place.edges.emplace_back(line.from, line.to);
    }
    LayoutResult packed = lay_out_in_rows(to_place, width, known);
    placed.error = std::move(packed.error);
    if (packed.layout) {
        placed.layout = std::move(*packed.layout);
    }
    return placed;
}

} // namespace curbstop::output
