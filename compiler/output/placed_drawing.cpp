#include "output/placed_drawing.h"

#include <utility>

namespace curbstop::output {

constexpr double pipe_gap = 16; // between pipes that come to a joint

LayoutGraph layout_graph(const DrawingGraph& graph, const std::vector<CardText>& texts) {
    LayoutGraph result;
    for (const CardText& text : texts) {
        result.vertices.push_back({text.width, text.height, {}});
    }
    std::vector<std::size_t> pipes(graph.cards.size());
    for (const Line2d& line : graph.lines) {
        result.edges.emplace_back(line.from, line.to);
        ++pipes[line.from];
        ++pipes[line.to];
    }
    for (std::size_t i = 0; i < graph.cards.size(); ++i) {
        if (graph.cards[i].symbol == Symbol::tee && pipes[i] > 2) {
            result.vertices[i].width = pipe_gap * static_cast<double>(pipes[i]);
            result.vertices[i].bar = true;
        }
    }
    return result;
}

PlacedDrawing placed_drawing(DrawingGraph graph, std::size_t columns, double width, KnownLayouts& known) {
    PlacedDrawing placed{std::move(graph), {}, {}, {}};
    for (const Card& card : placed.graph.cards) {
        placed.texts.push_back(measure(card, columns));
    }
    LayoutGraph to_place = layout_graph(placed.graph, placed.texts);
    to_place.rank_gap = 24;
    to_place.side_gap = 10;
    LayoutResult packed = lay_out_in_rows(to_place, width, known);
    placed.error = std::move(packed.error);
    if (packed.layout) {
        placed.layout = std::move(*packed.layout);
    }
    return placed;
}

} // namespace curbstop::output
