// Promises about contents, each told by the pockets that break it: one file per slug. Must not know: when they are
// asked.
#pragma once

#include "proofs/obligation.h"

namespace curbstop::proofs {

/// Says what breaks the promise that `claim` makes here; the claim is of that kind.
void judge_frost_risk(Event& event, const meaning::Expression& claim);
void judge_not_drinkable(Event& event, const meaning::Expression& claim);
void judge_not_sanitised(Event& event, const meaning::Expression& claim);
void judge_not_restored(Event& event, const meaning::Expression& claim);

} // namespace curbstop::proofs
