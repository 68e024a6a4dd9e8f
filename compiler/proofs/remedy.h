// A remedy that is tried before it is proposed: another flow like one that the procedure has, to another outlet, and
// everything proved again with it. Must not know: how findings are worded beyond the step that it proposes.
#pragma once

#include <string>
#include <vector>

#include "proofs/obligation.h"
#include "proofs/transport/claims.h"

namespace curbstop::proofs {

/// Whether a pocket still breaks the promise where a proof has ended.
using Broken = std::vector<Shortfall> (*)(Engine& engine, const meaning::Expression& claim);

/// Steps that would clear some of these pockets at the procedure's end and break nothing else, each with where it goes.
/// `suits`: which of its flows may be done once more elsewhere.
/// Tries so many procedures and no more; empty where none of them does, or where the claim is not the procedure's own.
std::vector<std::string> flows_that_clear(Event& event, const meaning::Expression& claim,
                                          const std::vector<Shortfall>& pockets, Broken broken,
                                          bool (*suits)(const meaning::Flow& flow));

} // namespace curbstop::proofs
