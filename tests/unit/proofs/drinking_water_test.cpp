// Which pockets water for drinking reaches in use: in each variant by itself.
#include "proofs/prove.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "support_model.h"

using namespace curbstop;

namespace {

// Mains that feed a tap; a filter at the end of a branch; and, with the option, a tank of slops on the same pipes.
constexpr const char* house = R"(
fluid water "Water" {{ category 1 }}
fluid slops "Slops" {{ category 5 }}
pipe hose "Hose" {{ bore 13 mm }}
kind mains {{ port house  position shut {{ }}  position open {{ supplies water at house up to 400 kPa }} }}
kind cock {{ port line  position shut {{ }}  position open {{ line ~> below }} }}
kind bowl {{ port line  position fitted {{ }}  position removed {{ breach line }} }}
kind butt {{ port foot  chamber tub "Tub" holds 20 L of slops {{ low foot }}  always {{ vent tub }} }}
kind valve {{ port a, b  position shut {{ }}  position open {{ a <-> b }} }}
system shed "Shed" {{
  option extra "Extra"
  zone room "Room"
  place gully "Gully" at room accepts water
  tee fork
  part street : mains "Street" at room
  part low : cock "Cock" at room over gully
  part screen : bowl "Screen" at room
  part stop : valve "Stop" at room
  part store : butt "Butt" at room {0}
  run street.house - fork : hose 1 m
  run fork - low.line : hose 1 m
  run low.line - screen.line : hose 1 m
  run fork - stop.a : hose 1 m
  run stop.b - store.foot : hose 1 m {0}
}}
lineup in_use "In use" on shed for use {{ street open  low shut  stop {1} }}
procedure work "Work" on shed {{
  requires street is shut and low is shut and stop is shut {2}
  ensures drinkable
  stage "Stage" {{ step "Step" {{ verify street is shut }} }}
}}
)";

std::string against(const std::string& store, const std::string& stop, const std::string& more) {
    const auto made = model_from(fmt::format(fmt::runtime(house), store, stop, more));
    proofs::prove(made->model, made->sink, {});
    return notes_of(made->sink, "not-drinkable");
}

} // namespace

TEST_CASE("what only one variant fouls is judged in the others") {
    // The screen may have been off: dirt is in the branch to it, where that is a pipe of drinking water.
    CHECK(names(against("only with extra", "open", ""), "pipe from Cock to Screen"));
    // Where the tank is there in all variants, and open to the pipes in use, none of them is for drinking.
    CHECK(against("", "open", "").empty());
}

TEST_CASE("what another position would join is not what the pipes are in use") {
    CHECK(names(against("", "shut", ""), "pipe from Cock to Screen"));
}
