#include "output/drawing.h"

#include "output/drawing_excerpt.h"
#include "output/drawing_graph.h"
#include "output/drawing_svg.h"
#include "output/line_words.h"
#include "output/placed_drawing.h"
#include "output/words.h"

#include <utility>

namespace curbstop::output {
namespace {

constexpr double most_width = 900; // of pieces beside each other; a screen, or a page on its side

std::vector<std::string> legend(const Tongue& tongue, bool with_state) {
    return {tongue.text(with_state ? Saying::drawing_key_pressure : Saying::drawing_key_falls),
            tongue.text(Saying::drawing_key_optional)};
}

} // namespace

Drawing draw_system(const Words& words, const proofs::StepReport* state) {
    const meaning::System& system = words.system();
    const Tongue& tongue = words.tongue();
    const DrawingGraph graph = drawing_graph(words, state);
    std::vector<CardText> texts;
    for (const Card& card : graph.cards) {
        texts.push_back(measure(card));
    }
    LayoutGraph to_place = layout_graph(graph, texts);
    to_place.clusters = system.zones.size();
    to_place.cluster_margin = frame_margin;
    for (std::size_t i = 0; i < graph.cards.size(); ++i) {
        if (graph.cards[i].zone) {
            to_place.vertices[i].cluster = graph.cards[i].zone->value;
        }
    }
    LayoutResult placed = lay_out(to_place);
    if (!placed.layout) {
        return {{}, std::move(placed.error)};
    }
    DrawnGraph drawn{&graph, &texts, &*placed.layout};
    for (std::size_t i = 0; i < system.zones.size(); ++i) {
        drawn.frames.push_back(words.zone(meaning::ZoneId(i)));
    }
    drawn.legend = legend(tongue, state != nullptr);
    drawn.language = meaning::code(tongue.language());
    return {drawing_svg(drawn, plain(tongue.say<Saying::drawing_of>(in<"system">(words.named(system))))), {}};
}

Drawing draw_zone(const Words& words, meaning::ZoneId zone, const proofs::StepReport* state) {
    const Tongue& tongue = words.tongue();
    DrawingGraph graph = drawing_graph(words, state);
    name_lines(words, graph);
    KnownLayouts known;
    const PlacedDrawing placed =
        placed_drawing(drawing_excerpt(words, graph, {cards_by_zone(graph, words.system())[zone.value]}, nullptr),
                       label_columns, most_width, known);
    if (!placed.error.empty()) {
        return {{}, placed.error};
    }
    DrawnGraph drawn{&placed.graph, &placed.texts, &placed.layout};
    drawn.legend = legend(tongue, state != nullptr);
    drawn.language = meaning::code(tongue.language());
    const Wording system = plain(tongue.say<Saying::drawing_of>(in<"system">(words.named(words.system()))));
    return {
        drawing_svg(drawn, plain(tongue.say<Saying::drawing_stands>(in<"what">(system), in<"how">(words.zone(zone))))),
        {}};
}

std::vector<meaning::ZoneId> drawn_zones(const Words& words) {
    const DrawingGraph graph = drawing_graph(words, nullptr);
    std::vector<meaning::ZoneId> zones;
    const std::vector<CardGroup> cards = cards_by_zone(graph, words.system());
    for (std::size_t i = 0; i < words.system().zones.size(); ++i) {
        if (!cards[i].empty()) {
            zones.emplace_back(i);
        }
    }
    return zones;
}

} // namespace curbstop::output
