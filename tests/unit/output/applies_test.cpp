#include "output/applies.h"

#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::meaning;

TEST_CASE("a condition on options is told in postfix, by their indices") {
    auto tiny = tests::tiny_model();
    System& system = tiny.model.system;
    system.options.resize(3);
    const ExpressionId a = system.expressions.option(OptionId(0));
    const ExpressionId c = system.expressions.option(OptionId(2));
    const ExpressionId not_c = system.expressions.negate(c);
    CHECK(Applies::under(system, Expressions::always()).always());
    CHECK(Applies::under(system, Expressions::never()).postfix() == "no");
    CHECK(Applies::under(system, a).postfix() == "0");
    CHECK(Applies::under(system, not_c).postfix() == "2 not");
    CHECK(Applies::under(system, system.expressions.both(a, not_c)).postfix() == "0 2 not and");
    CHECK(Applies::under(system, system.expressions.either(a, not_c)).postfix() == "0 2 not or");
    // What no option decides may always come to be so.
    const ExpressionId stands = system.expressions.stands(VariableId(0), 1);
    CHECK(Applies::under(system, system.expressions.both(a, stands)).postfix() == "0 ? and");
}

TEST_CASE("conditions are put together without saying the same twice") {
    auto tiny = tests::tiny_model();
    System& system = tiny.model.system;
    const Applies a = Applies::under(system, system.expressions.option(OptionId(0)));
    const Applies open = Applies::open();
    CHECK(Applies::both(Applies(), a) == a);
    CHECK(Applies::both(a, Applies()) == a);
    CHECK(Applies::both(a, a) == a);
    CHECK(Applies::both(a, open).postfix() == "0 ? and");
    CHECK(Applies::either(a, Applies()).always());
    CHECK(Applies::either(Applies(), a).always());
    CHECK(Applies::either(a, a) == a);
    CHECK(Applies::either(a, open).postfix() == "0 ? or");
}
