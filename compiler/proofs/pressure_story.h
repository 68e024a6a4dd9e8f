// How a place came to be under pressure, and where it could be let off, in the reader's words.
// Must not know: what is refused for it.
#pragma once

#include "proofs/obligation.h"

namespace curbstop::proofs {

/// What presses on it, or pressed in which step and was cut off in which. The configuration must be one in which it is
/// under pressure.
std::vector<std::string> how_charged(Event& event, meaning::NodeId node, const std::vector<bool>& configuration);

/// What would let it off before the move that is being made; empty where the network has nothing for it.
std::vector<std::string> where_to_let_off(Event& event, meaning::NodeId node, const std::vector<bool>& configuration);

} // namespace curbstop::proofs
