#include "output/drawing.h"

#include "output/drawing_graph.h"
#include "output/drawing_svg.h"
#include "output/layout.h"
#include "output/words.h"

#include <utility>

namespace curbstop::output {

Drawing draw_system(const meaning::System& system, const proofs::StepReport* state) {
    const Words words(system);
    const DrawingGraph graph = drawing_graph(words, state);
    LayoutGraph to_place;
    to_place.clusters = system.zones.size();
    to_place.cluster_margin = frame_margin;
    std::vector<CardText> texts;
    for (const Card& card : graph.cards) {
        texts.push_back(measure(card));
        to_place.vertices.push_back({texts.back().width, texts.back().height,
                                     card.zone ? std::optional<std::size_t>(card.zone->value) : std::nullopt});
    }
    for (const Line2d& line : graph.lines) {
        to_place.edges.emplace_back(line.from, line.to);
    }
    LayoutResult placed = lay_out(to_place);
    if (!placed.layout) {
        return {{}, std::move(placed.error)};
    }
    DrawnGraph drawn{&graph, &texts, &*placed.layout};
    for (std::size_t i = 0; i < system.zones.size(); ++i) {
        drawn.frames.push_back(words.zone(meaning::ZoneId(i)));
    }
    drawn.legend = {state != nullptr ? "Thick: may be under pressure." : "Dots: falls through air.",
                    "Arrow: the way a pipe falls.", "Dashed: in some variants only."};
    return {drawing_svg(drawn, "Drawing of " + label_of(system)), {}};
}

} // namespace curbstop::output
