// The places of a system, how many pipes lead from one to another, and what runs in them where that is told. Must not
// know: layout, SVG.
#pragma once

#include "output/drawing_parting.h"
#include "output/words.h"

#include <vector>

namespace curbstop::output {

/// `graph`: with what runs in its pipes (line_words.h). `by_zone`: the cards of each place, as cards_by_zone() gives
/// them.
[[nodiscard]] DrawingGraph drawing_overview(const Words& words, const DrawingGraph& graph,
                                            const std::vector<CardGroup>& by_zone);

} // namespace curbstop::output
