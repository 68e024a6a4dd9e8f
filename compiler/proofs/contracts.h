// What `requires` and `ensures` share: an expression, over every configuration that is possible.
// Must not know: who wrote it.
#pragma once

#include "proofs/obligations.h"

namespace curbstop::proofs {

/// Adds a finding with `slug` if the expression is false in some configuration of `where`; says in which part it is.
void judge_contract(Event& event, std::string_view slug, meaning::ExpressionId expression, const std::string& words);

} // namespace curbstop::proofs
