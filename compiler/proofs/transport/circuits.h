// The circuit of each pocket: which liquids reach it by the system alone, variant by variant.
// Must not know: how anything stands, what runs, what anything holds now.
#pragma once

#include <vector>

#include "instants/knowledge.h"
#include "meaning/system.h"
#include "proofs/contents.h"
#include "proofs/transport/pockets.h"

namespace curbstop::proofs {

/// The liquids that a pocket holds in use in the variants of `where`.
struct Circuit {
    instants::Set where = instants::everything;
    FluidSet fluids = 0;
};

/// Per pocket that is no vessel: everything, parted by what reaches it in the variants in which it is there. Vessels
/// have none. `passed`: per way the pocket that lies on it, mostly none.
std::vector<std::vector<Circuit>> find_circuits(const meaning::System& system, const Pockets& pockets,
                                                const std::vector<PocketIndex>& passed, instants::Knowledge& knowledge);

} // namespace curbstop::proofs
