// The half of blocked-flow that is about drains. Must not know: pressure.
#pragma once

#include "proofs/obligations.h"

namespace curbstop::proofs {

/// Adds a finding for each chamber that the drain names and that cannot run out, or has no air inlet, and for each
/// outlet that nothing it names can run out through.
void judge_drain(Event& event, const meaning::Flow& flow);

} // namespace curbstop::proofs
