#include "meaning/possibility.h"

namespace curbstop::meaning {

namespace {

struct YesOrNo {
    static constexpr bool yes = true;
    static constexpr bool no = false;
    static bool both(bool a, bool b) { return a && b; }
    static bool either(bool a, bool b) { return a || b; }
};

} // namespace

Possibility possibility(const System& system, ExpressionId expression,
                        const std::function<Possibility(const Expression&)>& stands) {
    const auto leaf = [&](ExpressionId, const Expression& e) -> Chances<bool> {
        const Possibility may = e.kind == ExpressionKind::stands ? stands(e) : Possibility{};
        return {may.can_hold, may.can_fail};
    };
    const Chances<bool> found = chances<bool>(system, expression, YesOrNo{}, leaf);
    return {found.hold, found.fail};
}

} // namespace curbstop::meaning
