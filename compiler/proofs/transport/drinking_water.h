// The drinking-water system: which pockets water for drinking reaches in use, and in which variants.
// Must not know: how anything stands now, what any pocket holds.
#pragma once

#include <vector>

#include "instants/knowledge.h"
#include "meaning/system.h"
#include "proofs/transport/pockets.h"

namespace curbstop::proofs {

/// Per pocket the configurations in which it belongs to it: a matter of options alone. `passed`: per way of the system
/// the pocket that lies on it, mostly none.
std::vector<instants::Set> drinking_water_system(const meaning::System& system, const Pockets& pockets,
                                                 const std::vector<PocketIndex>& passed,
                                                 instants::Knowledge& knowledge);

} // namespace curbstop::proofs
