// Whether an expression may hold, and may fail, by how things may stand alone.
// Must not know: instants, proofs. What is not a matter of standing may be either.
#pragma once

#include "meaning/system.h"

#include <functional>

namespace curbstop::meaning {

struct Possibility {
    bool can_hold = true;
    bool can_fail = true;
};

/// `stands` says it of each comparison of a position (ExpressionKind::stands).
[[nodiscard]] Possibility possibility(const System& system, ExpressionId expression,
                                      const std::function<Possibility(const Expression&)>& stands);

} // namespace curbstop::meaning
