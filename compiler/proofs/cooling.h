// How long a hot chamber takes to cool and how much of that has been waited, in words. Must not know: what is refused.
#pragma once

#include <string>
#include <vector>

#include "proofs/engine.h"

namespace curbstop::proofs {

/// "it cools in 4 h, of which 1 h has been waited", in a configuration in which the chamber is hot.
std::string how_long_waited(Engine& engine, meaning::ChamberId chamber, const std::vector<bool>& configuration);
/// What to do before a chamber may be opened.
std::string how_to_cool(const meaning::System& system, meaning::ChamberId chamber);

} // namespace curbstop::proofs
