#include "instants/knowledge.h"

#include <catch2/catch.hpp>

#include "support_model.h"

using namespace curbstop;
using namespace curbstop::instants;
using namespace curbstop::meaning;

namespace {

// Three positions, so that two levels have a number to spare.
constexpr const char* net = R"(
kind selector { port a, b, c  position shut { }  position left { a <-> b }  position right { a <-> c } }
kind hose { end front fits garden with cap  end tail fits garden  always { front <-> tail } }
system net "Net" {
  option extra "Extra"
  zone yard "Yard"
  part one : selector "One" at yard
  part two : hose "Two" at yard
  part three : hose "Three" at yard only with extra
}
procedure work "Work" on net { stage "S" { step "S" { set one to left } } }
)";

VariableId named(const System& system, std::string_view name) {
    for (std::size_t i = 0; i < system.variables.size(); ++i) {
        if (system.variables[i].name == name) {
            return VariableId(i);
        }
    }
    FAIL("no variable " << name);
    return {};
}

} // namespace

TEST_CASE("an unknown stands in exactly one of its values in every configuration") {
    const auto made = model_from(net);
    Knowledge knowledge(made->model.system, 100'000);
    REQUIRE(knowledge.settle());
    const VariableId one = named(made->model.system, "one");
    Set all = nothing;
    for (std::uint32_t a = 0; a < 3; ++a) {
        const Set stands = knowledge.stands(one, ValueSet{1} << a);
        CHECK(stands != nothing);
        CHECK(knowledge.diagrams().disjoint(all, stands));
        all = knowledge.diagrams().either(all, stands);
    }
    CHECK(all == everything);
}

TEST_CASE("what is pinned is known, and what is moved under a condition keeps both") {
    const auto made = model_from(net);
    Knowledge knowledge(made->model.system, 100'000);
    const VariableId one = named(made->model.system, "one");
    CHECK(knowledge.pin(one, 0b110));
    CHECK_FALSE(knowledge.pin(one, 0b001)); // nothing would be left, so nothing is limited
    CHECK(knowledge.pin(one, 0b010));
    REQUIRE(knowledge.settle());
    CHECK(knowledge.possible_values(one) == 0b010);
    const Set extra = knowledge.option(OptionId(0));
    knowledge.put(one, 0, extra);
    CHECK(knowledge.possible_values(one) == 0b011);
    CHECK(knowledge.stands(one, 0b001) == extra);
    knowledge.narrow(extra);
    CHECK(knowledge.possible_values(one) == 0b001);
}

TEST_CASE("ends are matched, and none is coupled to what is not there") {
    const auto made = model_from(net);
    const System& system = made->model.system;
    Knowledge knowledge(system, 100'000);
    REQUIRE(knowledge.settle());
    const VariableId front = named(system, "two.front");
    const VariableId other = named(system, "three.tail");
    const auto value_to = [&](VariableId end, VariableId partner) {
        for (std::size_t i = 0; i < system[end].values.size(); ++i) {
            const NodeId node = system[end].values[i].partner;
            if (node.valid() && system[node].end == partner) {
                return ValueSet{1} << i;
            }
        }
        return ValueSet{0};
    };
    Diagrams& diagrams = knowledge.diagrams();
    const Set here = diagrams.both(knowledge.possible(), knowledge.stands(front, value_to(front, other)));
    const Set there = diagrams.both(knowledge.possible(), knowledge.stands(other, value_to(other, front)));
    CHECK(here != nothing);
    CHECK(here == there);
    CHECK(diagrams.within(here, knowledge.option(OptionId(0))));
}

TEST_CASE("an example names what matters and no more") {
    const auto made = model_from(net);
    Knowledge knowledge(made->model.system, 100'000);
    REQUIRE(knowledge.settle());
    const VariableId one = named(made->model.system, "one");
    const Example example = knowledge.example(knowledge.stands(one, 0b100));
    CHECK(example.options.empty());
    REQUIRE(example.unknowns.size() == 1);
    CHECK(example.unknowns.front() == std::pair(one, 2U));
    CHECK(knowledge.example(knowledge.possible()).unknowns.empty());
}
