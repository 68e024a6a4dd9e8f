// What comes into tanks and vessels by amounts: when it begins to fall, and no sooner or oftener.
#include "proofs/prove.h"

#include <algorithm>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "support_model.h"

using namespace curbstop;

namespace {

bool tells(const std::string& text, const std::string& slug) {
    const auto made = model_from(text);
    text::DiagnosticSink sink;
    proofs::prove(made->model, sink, {});
    return std::ranges::any_of(sink.diagnostics(), [&](const auto& found) { return found.slug == slug; });
}

// A pump that presses on an empty boiler; what that is pressed together falls into a full tank.
constexpr const char* boiler = R"(
fluid water "Water" {{ category 1 }}
pipe hose "Hose" {{ bore 13 mm }}
kind butt {{ port outlet  chamber tub "Tub" holds 10 L of water {{ low outlet }}  always {{ vent tub }} }}
kind boiler {{ port cold  chamber shell "Shell" holds 10 L of water {{ low cold }} }}
kind pump {{ port suction, delivery  position off {{ }}  position on {{ lifts suction -> delivery up to 300 kPa }} }}
system shed "Shed" {{
  zone room "Room"
  part store : butt "Butt" at room
  part kettle : boiler "Boiler" at room
  part lift : pump "Pump" at room
  run kettle.cold - store.outlet : hose 1 m falls to store.outlet
  run lift.delivery - kettle.cold : hose 1 m
}}
lineup in_use "In use" on shed for use {{ lift off }}
procedure work "Work" on shed {{
  requires kettle.shell is empty {0}
  stage "Stage" {{ step "Step" {{ set lift to on }} }}
}}
)";

// A pail with the end of a hose in it, by which a tank runs into it.
constexpr const char* pail = R"(
fluid water "Water" {{ category 1 }}
pipe hose "Hose" {{ bore 13 mm }}
kind butt {{ port outlet  chamber tub "Tub" holds 10 L of water {{ low outlet }} }}
kind wand {{ port line  end tip "Tip" fits quick with cap may dip  always {{ tip <-> line }} }}
system shed "Shed" {{
  zone room "Room"
  vessel jug "Jug" 5 L accepts water filled with water
  place gully "Gully" at room accepts water
  part store : butt "Butt" at room
  part hand : wand "Wand" at room
  run store.outlet - hand.line : hose 1 m
}}
lineup in_use "In use" on shed for use {{ }}
procedure work "Work" on shed {{
  requires hand.tip is {0}
  stage "Stage" {{ step "One" {{ pour jug into gully }}  step "Two" {{ pour jug into gully }} }}
}}
)";

} // namespace

TEST_CASE("what falls in some of the starts only begins to fall in the others") {
    CHECK(tells(fmt::format(fmt::runtime(boiler), "and lift is off"), "overfill"));
    CHECK(tells(fmt::format(fmt::runtime(boiler), ""), "overfill"));
    CHECK_FALSE(tells(fmt::format(fmt::runtime(boiler), "and lift is on"), "overfill"));
}

TEST_CASE("what goes on running into a vessel by a hose comes in once") {
    CHECK(tells(fmt::format(fmt::runtime(pail), "capped"), "no-effect"));
    CHECK(tells(fmt::format(fmt::runtime(pail), "in jug"), "no-effect"));
}
