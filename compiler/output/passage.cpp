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

Possibility may_be(const System& system, ExpressionId condition, std::span<const ValueSet> standing) {
    return possibility(system, condition, [&](const Expression& e) {
        const std::uint32_t variable = e.variable.value;
        const ValueSet values = variable < standing.size() ? standing[variable] : ~ValueSet{0};
        return Possibility{(values & e.values) != 0, (values & ~e.values) != 0};
    });
}

Passage passage_of(const System& system, PartId part, std::span<const ValueSet> standing) {
    const VariableId variable = system[part].variable;
    const auto some_way = [&](std::span<const ValueSet> as) {
        for (const Way& way : system.ways) {
            if (way.part == part && lets_through(way) && may_be(system, way.condition, as).can_hold) {
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
            if (may_be(system, way.condition, standing).can_hold) {
                return false;
            }
        }
    }
    return has_ways;
}

} // namespace curbstop::output
