// Where an unknown dial may stand: enough settings that every comparison comes out both ways where it can.
// Must not know: proofs.
#pragma once

#include "meaning/context.h"

namespace curbstop::meaning {

/// Adds to every dial the settings that matter: each pressure of the system with which it could be compared (ratings,
/// reducers, relief valves, `pressure at … below`, what it is set to), and one between each two that are neighbours. To
/// be called when all expressions and line-ups have been read.
void add_dial_settings(Context& context);

} // namespace curbstop::meaning
