// Two procedures a winter apart, proved as one. Must not know: output.
#pragma once

#include "meaning/procedure.h"
#include "proofs/proof.h"
#include "proofs/story.h"

namespace curbstop::proofs {

/// Both procedures must have been proved. `second_proof` stands at the end of the second, where it still does: null
/// otherwise. `budget` is the number of diagram nodes that may be made; one more throws instants::BudgetSpent.
void prove_season(const meaning::Model& model, const meaning::Season& season, std::size_t budget, Proof* second_proof,
                  Findings& findings);

} // namespace curbstop::proofs
