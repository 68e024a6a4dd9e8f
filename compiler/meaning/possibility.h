// Whether an expression may hold, and may fail, by how things may stand alone; or where it may, configuration by
// configuration.
// Must not know: instants, proofs. What is not a matter of standing may be either.
#pragma once

#include "meaning/system.h"

#include <functional>

namespace curbstop::meaning {

/// Where something may hold, and where it may fail; both where that is open. `Truth` is yes or no, or a set.
template <typename Truth>
struct Chances {
    Truth hold, fail;
};

/// Of an expression, from what `leaf(id, expression)` says of all that is not put together from others. `algebra` has
/// `yes`, `no`, `both(a, b)` and `either(a, b)` of Truth.
template <typename Truth, typename Algebra, typename Leaf>
[[nodiscard]] Chances<Truth> chances(const System& system, ExpressionId id, const Algebra& algebra, const Leaf& leaf) {
    const Expression& expression = system[id];
    switch (expression.kind) {
    case ExpressionKind::always:
        return {algebra.yes, algebra.no};
    case ExpressionKind::never:
        return {algebra.no, algebra.yes};
    case ExpressionKind::all:
    case ExpressionKind::any: {
        const bool all = expression.kind == ExpressionKind::all;
        Chances<Truth> result{all ? algebra.yes : algebra.no, all ? algebra.no : algebra.yes};
        for (const ExpressionId operand : expression.operands) {
            const Chances<Truth> part = chances<Truth>(system, operand, algebra, leaf);
            result.hold = all ? algebra.both(result.hold, part.hold) : algebra.either(result.hold, part.hold);
            result.fail = all ? algebra.either(result.fail, part.fail) : algebra.both(result.fail, part.fail);
        }
        return result;
    }
    case ExpressionKind::negation: {
        const Chances<Truth> part = chances<Truth>(system, expression.operands.front(), algebra, leaf);
        return {part.fail, part.hold};
    }
    default:
        return leaf(id, expression);
    }
}

struct Possibility {
    bool can_hold = true;
    bool can_fail = true;
};

/// `stands` says it of each comparison of a position (ExpressionKind::stands).
[[nodiscard]] Possibility possibility(const System& system, ExpressionId expression,
                                      const std::function<Possibility(const Expression&)>& stands);

} // namespace curbstop::meaning
