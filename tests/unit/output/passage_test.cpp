#include "output/passage.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::meaning;

namespace {

/// A valve with two ports that is open in its second position.
System valve() {
    System system;
    Variable variable{{"valve", "valve", "", {}}};
    variable.part = PartId(0);
    variable.values = {{{"shut", "shut", "", {}}}, {{"open", "open", "", {}}}};
    system.variables.push_back(variable);
    Part part{{"valve", "valve", "", {}}};
    part.variable = VariableId(0);
    part.nodes = {NodeId(0), NodeId(1)};
    system.parts.push_back(part);
    system.nodes.resize(2);
    Way way;
    way.from = NodeId(0);
    way.to = NodeId(1);
    way.part = PartId(0);
    way.condition = system.expressions.stands(VariableId(0), 2);
    system.ways.push_back(way);
    return system;
}

} // namespace

TEST_CASE("a valve is shut, open, or that is not known") {
    const System system = valve();
    CHECK(passage_of(system, PartId(0), std::vector<ValueSet>{1}) == Passage::shut);
    CHECK(passage_of(system, PartId(0), std::vector<ValueSet>{2}) == Passage::open);
    CHECK(passage_of(system, PartId(0), std::vector<ValueSet>{3}) == Passage::either);
    CHECK(is_shut_at(system, NodeId(1), std::vector<ValueSet>{1}));
    CHECK_FALSE(is_shut_at(system, NodeId(1), std::vector<ValueSet>{3}));
}

TEST_CASE("conditions are weighed without a proof") {
    System system = valve();
    Expressions& all = system.expressions;
    const std::vector<ValueSet> shut{1};
    const ExpressionId open = all.stands(VariableId(0), 2);
    system.options.push_back({{"loft", "loft", "", {}}});
    const ExpressionId loft = all.option(OptionId(0));
    const auto is = [&](ExpressionId id, bool so, bool otherwise) {
        const Possibility found = may_be(system, id, shut);
        return found.can_hold == so && found.can_fail == otherwise;
    };
    CHECK(is(Expressions::always(), true, false));
    CHECK(is(Expressions::never(), false, true));
    CHECK(is(open, false, true));
    CHECK(is(all.negate(open), true, false));
    CHECK(is(loft, true, true));
    CHECK(is(all.both(open, loft), false, true));
    CHECK(is(all.either(all.negate(open), loft), true, false));
}
