// What places, vessels and the ground take, and where what leaves an outlet comes to rest.
// Must not know: what runs, how findings are worded.
#pragma once

#include <vector>

#include "proofs/engine.h"
#include "proofs/transport/bounds.h"

namespace curbstop::proofs {

/// Which liquids a place takes, by number; each grade takes in the one before it. Dirt is taken everywhere.
struct Accepted {
    LiquidSet holds = 0;  ///< as what it is for
    LiquidSet mixed = 0;  ///< mixed with what it is for
    LiquidSet traces = 0; ///< no more than traces of it
};

/// What a place, vessel or the ground accepts. The ground takes drinking water and what is spoilt in warmth or taste
/// alone (EN 1717, categories 1 and 2), and traces of category 3.
Accepted accepted_by(const meaning::System& system, const Liquids& liquids, meaning::NodeId place);

/// A place, vessel or the ground, and the configurations in which what leaves an outlet lands there.
struct Landing {
    meaning::NodeId node;
    instants::Set where = instants::nothing;
};
/// Where what leaves the outlet lands, chambers and ports left out: it runs on from there.
std::vector<Landing> rests_in(Engine& engine, meaning::OutletId outlet);

/// The label of a place, vessel or the ground.
const std::string& landing_label(const meaning::System& system, meaning::NodeId node);

} // namespace curbstop::proofs
