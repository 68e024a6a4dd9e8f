// How many rounds of a repeat have to be followed to see all that it can come to, and how long a procedure is with
// that. Must not know: what a round does.
#pragma once

#include <cstdint>

#include "meaning/procedure.h"

namespace curbstop::meaning {

/// Once, once more from where that led, and once for each case inside, which may leave things in one more way.
[[nodiscard]] std::uint32_t rounds_to_follow(const RepeatStatement& repeat);
[[nodiscard]] std::uint32_t rounds_to_follow(const RepeatSteps& repeat);

/// Steps and statements, those of a repeat as often as it is followed; no more than what fits.
[[nodiscard]] std::uint64_t statements_to_follow(const Procedure& procedure);

} // namespace curbstop::meaning
