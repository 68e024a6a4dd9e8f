// What an owner reads before the first step: what to wear and bring, what will be opened, where the walk leads.
// Must not know: HTML, Markdown, proofs.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/words.h"
#include "quantities/quantities.h"

namespace curbstop::output {

/// Collected from every step, those of options and remedies included and marked. The walk, the signal words and the
/// steps that need a helper are filled in by compose_sheet, which knows the steps as printed.
///
/// What is brought is summed over the steps; within a `repeat` it counts as often as the repeat may go round. Fluids
/// are told as `quantities` works them out, where it is not null.
[[nodiscard]] Preparation collect_preparation(const Words& words, const meaning::Procedure& procedure,
                                              const quantities::Quantities* quantities = nullptr);

/// The length of a walk over these zones by the shortest declared ways; empty where some way is not declared.
[[nodiscard]] std::string walk_length(const Words& words, const std::vector<meaning::ZoneId>& zones);

} // namespace curbstop::output
