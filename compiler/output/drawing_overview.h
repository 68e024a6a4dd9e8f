// The places of a system and how many pipes lead from one to another. Must not know: layout, SVG.
#pragma once

#include "output/drawing_parting.h"
#include "output/words.h"

#include <vector>

namespace curbstop::output {

/// `by_zone`: the cards of each place, as cards_by_zone() gives them.
[[nodiscard]] DrawingGraph drawing_overview(const Words& words, const DrawingGraph& graph,
                                            const std::vector<CardGroup>& by_zone);

} // namespace curbstop::output
