#include "output/applies.h"

#include <string_view>

namespace curbstop::output {

using meaning::Expression;
using meaning::ExpressionKind;

namespace {

std::string joined_by(const meaning::System& system, const Expression& e, std::string_view word) {
    std::string out;
    for (const meaning::ExpressionId operand : e.operands) {
        const bool first = out.empty();
        const std::string inner = Applies::under(system, operand).postfix();
        out += (first ? "" : " ") + (inner.empty() ? "yes" : inner);
        if (!first) {
            out += ' ';
            out += word;
        }
    }
    return out;
}

} // namespace

Applies Applies::under(const meaning::System& system, meaning::ExpressionId condition) {
    const Expression& e = system[condition];
    switch (e.kind) {
    case ExpressionKind::always:
        return {};
    case ExpressionKind::never:
        return Applies("no");
    case ExpressionKind::option:
        return Applies(std::to_string(e.option.value));
    case ExpressionKind::negation: {
        const std::string inner = under(system, e.operands.front()).postfix();
        return Applies(inner.empty() ? "no" : inner + " not");
    }
    case ExpressionKind::all:
        return Applies(joined_by(system, e, "and"));
    case ExpressionKind::any:
        return Applies(joined_by(system, e, "or"));
    case ExpressionKind::stands:
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
        return open();
    }
    return {};
}

Applies Applies::both(const Applies& a, const Applies& b) {
    if (a.always() || a == b) {
        return b;
    }
    return b.always() ? a : Applies(a.postfix_ + ' ' + b.postfix_ + " and");
}

Applies Applies::either(const Applies& a, const Applies& b) {
    if (a.always() || b.always()) {
        return {};
    }
    return a == b ? a : Applies(a.postfix_ + ' ' + b.postfix_ + " or");
}

} // namespace curbstop::output
