#include "output/drawing.h"

#include "output/drawing_graph.h"
#include "output/drawing_svg.h"
#include "output/layout.h"
#include "output/words.h"

#include <utility>

namespace curbstop::output {

Drawing draw_system(const Words& words, const proofs::StepReport* state) {
    const meaning::System& system = words.system();
    const Tongue& tongue = words.tongue();
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
    drawn.legend = {tongue.text(state != nullptr ? Saying::drawing_key_pressure : Saying::drawing_key_falls),
                    tongue.text(Saying::drawing_key_optional)};
    drawn.language = meaning::code(tongue.language());
    return {drawing_svg(drawn, plain(tongue.say<Saying::drawing_of>(in<"system">(words.named(system))))), {}};
}

} // namespace curbstop::output
