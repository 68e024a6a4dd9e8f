#include "output/passage.h"

#include <vector>

namespace curbstop::output {

using namespace meaning;

namespace {

// A lift passes whether it runs or not; a fall and a breach let out, which is what a tap is there for.
bool lets_through(const Way& way) {
    return way.kind != WayKind::vent;
}

} // namespace

MayBe may_be(const System& system, ExpressionId condition, std::span<const ValueSet> standing) {
    const Expression& expression = system[condition];
    switch (expression.kind) {
    case ExpressionKind::always:
        return {true, false};
    case ExpressionKind::never:
        return {false, true};
    case ExpressionKind::all:
    case ExpressionKind::any: {
        const bool all = expression.kind == ExpressionKind::all;
        MayBe result{all, !all};
        for (const ExpressionId operand : expression.operands) {
            const MayBe one = may_be(system, operand, standing);
            result.so = all ? result.so && one.so : result.so || one.so;
            result.otherwise = all ? result.otherwise || one.otherwise : result.otherwise && one.otherwise;
        }
        return result;
    }
    case ExpressionKind::negation: {
        const MayBe inner = may_be(system, expression.operands.front(), standing);
        return {inner.otherwise, inner.so};
    }
    case ExpressionKind::stands: {
        const std::uint32_t variable = expression.variable.value;
        const ValueSet values = variable < standing.size() ? standing[variable] : ~ValueSet{0};
        return {(values & expression.values) != 0, (values & ~expression.values) != 0};
    }
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
        return {true, true};
    }
    return {true, true};
}

Passage passage_of(const System& system, PartId part, std::span<const ValueSet> standing) {
    const VariableId variable = system[part].variable;
    const auto some_way = [&](std::span<const ValueSet> as) {
        for (const Way& way : system.ways) {
            if (way.part == part && lets_through(way) && may_be(system, way.condition, as).so) {
                return true;
            }
        }
        return false;
    };
    if (!some_way(standing)) {
        return Passage::shut;
    }
    if (!variable || variable.value >= standing.size()) {
        return Passage::open;
    }
    // Value by value, as the part's own position is what its sign tells of.
    std::vector<ValueSet> one(standing.begin(), standing.end());
    for (std::size_t value = 0; value < system[variable].values.size(); ++value) {
        one[variable.value] = ValueSet{1} << value;
        if ((standing[variable.value] & one[variable.value]) != 0 && !some_way(one)) {
            return Passage::either;
        }
    }
    return Passage::open;
}

bool is_shut_at(const System& system, NodeId port, std::span<const ValueSet> standing) {
    bool has_ways = false;
    for (const Way& way : system.ways) {
        if (way.part.valid() && (way.from == port || way.to == port) && lets_through(way)) {
            has_ways = true;
            if (may_be(system, way.condition, standing).so) {
                return false;
            }
        }
    }
    return has_ways;
}

} // namespace curbstop::output
