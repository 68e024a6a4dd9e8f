#include "meaning/possibility.h"

namespace curbstop::meaning {

Possibility possibility(const System& system, ExpressionId expression,
                        const std::function<Possibility(const Expression&)>& stands) {
    const Expression& e = system[expression];
    switch (e.kind) {
    case ExpressionKind::always:
        return {true, false};
    case ExpressionKind::never:
        return {false, true};
    case ExpressionKind::all:
    case ExpressionKind::any: {
        const bool all = e.kind == ExpressionKind::all;
        Possibility result{all, !all};
        for (const ExpressionId operand : e.operands) {
            const Possibility part = possibility(system, operand, stands);
            result.can_hold = all ? result.can_hold && part.can_hold : result.can_hold || part.can_hold;
            result.can_fail = all ? result.can_fail || part.can_fail : result.can_fail && part.can_fail;
        }
        return result;
    }
    case ExpressionKind::negation: {
        const Possibility part = possibility(system, e.operands.front(), stands);
        return {part.can_fail, part.can_hold};
    }
    case ExpressionKind::stands:
        return stands(e);
    case ExpressionKind::option:
    case ExpressionKind::branch:
    case ExpressionKind::no_pressure:
    case ExpressionKind::pressure_below:
    case ExpressionKind::holds:
    case ExpressionKind::empty:
    case ExpressionKind::reaches_liquid:
    case ExpressionKind::frost_safe:
    case ExpressionKind::drinkable:
    case ExpressionKind::sanitised:
    case ExpressionKind::restored:
    case ExpressionKind::cool:
        return {};
    }
    return {};
}

} // namespace curbstop::meaning
