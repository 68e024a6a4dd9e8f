#include "output/crew.h"

#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::meaning;

namespace {

const ZoneId pit(0), room(1);
const SourceId mains(0);

/// The tiny model, with the mains switched at the stop valve, in the pit.
tests::Tiny switched() {
    auto tiny = tests::tiny_model();
    System& system = tiny.model.system;
    for (std::size_t i = 0; i < system.variables.size(); ++i) {
        const PartId part = system.variables[i].part;
        if (part && system[part].name == "stop_valve") {
            system.sources[0].on = system.expressions.stands(VariableId(i), 2);
        }
    }
    return tiny;
}

curbstop::proofs::StepReport report(bool helper, bool leaves_on) {
    curbstop::proofs::StepReport step;
    step.helper = helper;
    if (leaves_on) {
        step.running = {mains};
    }
    return step;
}

} // namespace

TEST_CASE("whoever works out of reach of what was left on is one more") {
    const auto tiny = switched();
    const Words words(tiny.model.system);
    Crew crew(words);
    CHECK(crew.next(report(false, true), {pit}, {}).people == 1);
    const Needs away = crew.next(report(false, true), {room}, {mains}); // 5 m off
    CHECK(away.people == 2);
    CHECK(away.unattended == std::vector{mains});
    CHECK(crew.next(report(false, true), {pit}, {mains}).people == 1);
    CHECK(crew.next(report(false, true), {room}, {}).people == 1); // nobody was told to stay
}

TEST_CASE("who helps where something is left on stays there, and a step that takes two takes three then") {
    const auto tiny = switched();
    const Words words(tiny.model.system);
    Crew crew(words);
    CHECK(crew.next(report(true, true), {pit}, {}).people == 2);
    const Needs alone = crew.next(report(false, true), {room}, {mains});
    CHECK(alone.people == 2);
    CHECK(alone.unattended.empty());
    const Needs both = crew.next(report(true, true), {room}, {mains});
    CHECK(both.people == 3);
    CHECK(both.unattended == std::vector{mains});
    CHECK(crew.next(report(true, true), {room, pit}, {mains}).people == 2); // one of them works beside it
    CHECK(crew.next(report(false, false), {pit}, {mains}).people == 2);     // switched off
    CHECK(crew.next(report(false, false), {room}, {}).people == 1);
}

TEST_CASE("a step or two away is within reach") {
    auto tiny = switched();
    tiny.model.system.walks[0].length = *make_quantity(Rational(2), Unit::m);
    const Words words(tiny.model.system);
    Crew crew(words);
    CHECK(crew.next(report(false, true), {room}, {mains}).people == 1);
}
