// What runs in which pipes, as far as the network tells: what a tap that mixes calls its two sides names all that they
// hang on, and what leads on from what taps run into is waste. Must not know: how anything stands, layout.
#pragma once

#include "output/drawing_graph.h"
#include "output/words.h"

namespace curbstop::output {

/// Sets `word` of the lines of a whole system.
void name_lines(const Words& words, DrawingGraph& graph);

} // namespace curbstop::output
