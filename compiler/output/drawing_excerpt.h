// Some cards of a system's drawing with what joins them, and for each pipe that leaves them a card that says where to.
// Must not know: layout, SVG.
#pragma once

#include "output/drawing_parting.h"
#include "output/words.h"

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

namespace curbstop::output {

/// The place that a card is drawn at; one more than the last of what has none.
[[nodiscard]] std::size_t zone_of(const Card& card, const meaning::System& system);
[[nodiscard]] Wording zone_name(const Words& words, std::size_t zone);

/// The cards of each place, in the order of the places.
[[nodiscard]] std::vector<CardGroup> cards_by_zone(const DrawingGraph& graph, const meaning::System& system);

/// How the far ends of pipes are told that leave an excerpt.
struct FarEnds {
    std::function<std::string(std::size_t card)> drawn_in; ///< the title of the drawing that it is in
    std::function<std::string(std::size_t line)> mark;     ///< the letter that it has there too
};

/// Pipes between two of the pieces are cut as those that leave are, so that each can stand where there is room. Without
/// far ends, what is elsewhere is in no drawing: where a pipe leads is said in full.
[[nodiscard]] DrawingGraph drawing_excerpt(const Words& words, const DrawingGraph& graph,
                                           const std::vector<CardGroup>& pieces, const FarEnds* far_ends);

} // namespace curbstop::output
