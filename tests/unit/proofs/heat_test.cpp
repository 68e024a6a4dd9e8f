#include "proofs/heat.h"

#include <catch2/catch.hpp>

#include "support_model.h"

using namespace curbstop;
using namespace curbstop::instants;
using namespace curbstop::proofs;

namespace {

constexpr const char* kitchen = R"(
kind switch { position off { }  position on { } }
kind kettle {
  given power : switch optional
  chamber body holds 1 L { }
  position off { }
  position on { heats body while power is on }
  cools in 30 min
}
system kitchen "Kitchen" {
  option slow "Slow"
  zone room "Room"
  part board : switch "Board" at room
  part pot : kettle "Pot" at room { power board }
}
procedure work "Work" on kitchen {
  requires board is on
  stage "Stage" { step "Step" { set pot to on  set board to off } }
}
)";

/// A kettle, off at a board that is on, and the hands that work it.
struct Kitchen {
    std::unique_ptr<ModelFromText> made = model_from(kitchen);
    const meaning::System& system = made->model.system;
    Knowledge knowledge{system, 100'000};
    meaning::VariableId board, pot;
    Kitchen() {
        for (std::uint32_t i = 0; i < system.variables.size(); ++i) {
            (system.variables[i].name == "pot" ? pot : board) = meaning::VariableId(i);
        }
        knowledge.pin(board, meaning::ValueSet{1} << 1);
        knowledge.pin(pot, meaning::ValueSet{1});
        REQUIRE(knowledge.settle());
    }
    void put(Heat& heat, meaning::VariableId variable, std::uint32_t value, Set where = everything) {
        knowledge.put(variable, value, where);
        heat.moved(variable);
    }
    static meaning::Quantity minutes(int number) {
        return *meaning::make_quantity(meaning::Rational(number), meaning::Unit::min);
    }
};

const meaning::ChamberId body(0);

} // namespace

TEST_CASE("what can be heated is hot until its time has been waited") {
    Kitchen kitchen;
    Heat heat(kitchen.system, kitchen.knowledge);
    CHECK(heat.hot(body) == everything);
    CHECK(heat.heated(body) == nothing);
    heat.wait(Kitchen::minutes(20), everything);
    CHECK(heat.hot(body) == everything);
    heat.wait(Kitchen::minutes(10), everything);
    CHECK(heat.hot(body) == nothing);
}

TEST_CASE("while it is heated no time passes, and afterwards all of it must pass") {
    Kitchen kitchen;
    Heat heat(kitchen.system, kitchen.knowledge);
    heat.wait(Kitchen::minutes(20), everything);
    kitchen.put(heat, kitchen.pot, 1);
    CHECK(heat.heated(body) == everything);
    heat.wait(Kitchen::minutes(60), everything);
    kitchen.put(heat, kitchen.board, 0); // its power goes, which is as good
    CHECK(heat.heated(body) == nothing);
    heat.wait(Kitchen::minutes(29), everything);
    CHECK(heat.hot(body) == everything);
    heat.wait(Kitchen::minutes(1), everything);
    CHECK(heat.hot(body) == nothing);
}

TEST_CASE("each variant has waited for itself") {
    Kitchen kitchen;
    Heat heat(kitchen.system, kitchen.knowledge);
    const Set slow = kitchen.knowledge.option(meaning::OptionId(0));
    heat.wait(Kitchen::minutes(20), slow);
    heat.wait(Kitchen::minutes(10), everything);
    CHECK(heat.hot(body) == kitchen.knowledge.diagrams().complement(slow));
    CHECK(heat.chambers().front().waited.size() == 1);
}

TEST_CASE("felt to be cool, unless it is on") {
    Kitchen kitchen;
    Heat heat(kitchen.system, kitchen.knowledge);
    const Set slow = kitchen.knowledge.option(meaning::OptionId(0));
    kitchen.put(heat, kitchen.pot, 1, slow);
    heat.seen_cool(body, everything);
    CHECK(heat.hot(body) == slow);
    heat.season_passes();
    CHECK(heat.hot(body) == slow);
    kitchen.put(heat, kitchen.pot, 0);
    heat.season_passes();
    CHECK(heat.hot(body) == nothing);
}

TEST_CASE("a loop counts for no more waiting than its shortest round leaves") {
    Kitchen kitchen;
    Heat heat(kitchen.system, kitchen.knowledge);
    heat.wait(Kitchen::minutes(15), everything);
    heat.round_ends({.repeat = 7, .first = true});
    heat.wait(Kitchen::minutes(15), everything);
    CHECK(heat.hot(body) == nothing); // in the second round it has cooled
    heat.round_ends({.repeat = 7, .last = true});
    CHECK(heat.hot(body) == everything); // but one may have stopped after the first
    heat.wait(Kitchen::minutes(15), everything);
    CHECK(heat.hot(body) == nothing);
}
