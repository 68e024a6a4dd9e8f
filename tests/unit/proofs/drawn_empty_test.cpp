// A pump that draws until air comes has emptied what it draws on only where no air comes in beside it.
#include "proofs/prove.h"

#include <string>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "support_model.h"

using namespace curbstop;

namespace {

// A tank, a pump that may run dry, a spout; on the suction side a cock that is open to the air, and perhaps a second
// tank behind a valve.
constexpr const char* shed = R"(
fluid water "Water" {{ category 1 }}
pipe hose "Hose" {{ bore 13 mm }}
kind butt {{ port foot, neck  chamber tub "Tub" holds 20 L of water {{ low foot  top neck }}  always {{ vent tub }} }}
kind lifter {{ port a, b  position off {{ }}  position on {{ lifts a -> b up to 200 kPa with own switch }}  may run dry 10 min }}
kind cock {{ port line  position shut {{ }}  position open {{ line ~> below }} }}
kind valve {{ port a, b  position shut {{ }}  position open {{ a <-> b }} }}
system shed "Shed" {{
  zone room "Room"
  place gully "Gully" at room accepts water
  tee fork
  part store : butt "Store" at room
  part second : butt "Second" at room
  part stop : valve "Stop" at room
  part pump : lifter "Pump" at room
  part bleed : cock "Bleed" at room over gully
  part spout : cock "Spout" at room over gully
  run store.foot - fork : hose 1 m
  run second.foot - stop.a : hose 1 m
  run stop.b - fork : hose 1 m
  run fork - bleed.line : hose 1 m
  run fork - pump.a : hose 1 m
  run pump.b - spout.line : hose 1 m
}}
lineup in_use "In use" on shed for use {{ pump off  spout shut }}
procedure work "Work" on shed {{
  requires pump is off and spout is shut {0}
  ensures frost_safe at -5 degC
  stage "Stage" {{ step "Step" {{
    set spout to open
    set pump to on
    flow {1} to spout until stops "Nothing but air"
    set pump to off
    set spout to shut
    {2}
  }} }}
}}
)";

struct Job {
    std::unique_ptr<ModelFromText> made;
    Job(const std::string& more, const std::string& origins, const std::string& last = "")
        : made(model_from(fmt::format(fmt::runtime(shed), more, origins, last))) {
        proofs::prove(made->model, made->sink, {});
    }
    bool risks(const std::string& label) const { return names(notes_of(made->sink, "frost-risk"), label); }
};

} // namespace

TEST_CASE("a tank that a pump has drawn dry is empty, and so is the line to the pump") {
    const Job job("and bleed is shut and stop is shut", "store");
    CHECK_FALSE(job.risks("Store: Tub"));
    CHECK_FALSE(job.risks("pipe from Store (foot) to fork"));
    CHECK(job.risks("Second: Tub"));
}

TEST_CASE("air that comes in beside the tank tells nothing of it") {
    const Job job("and stop is shut", "store"); // the cock may stand open
    CHECK(job.risks("Store: Tub"));
    CHECK(job.risks("pipe from Store (foot) to fork"));
}

TEST_CASE("a tank that the flow does not name may be what has run out") {
    const Job job("and bleed is shut", "store"); // the valve may stand open
    CHECK(job.risks("Store: Tub"));
    CHECK_FALSE(Job("and bleed is shut and stop is open", "store, second").risks("Store: Tub"));
}
