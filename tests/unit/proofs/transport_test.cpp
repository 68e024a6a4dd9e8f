// What every pocket may hold, by whole procedures of a few lines: each rule where it must refuse and where it must
// accept.
#include "proofs/prove.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "support_model.h"

using namespace curbstop;

namespace {

// Two sources at one line, a mixer with a pipe to each side, a sight glass and a store that can be shut off.
constexpr const char* line = R"(
fluid water "Water" {{ category 1 }}
fluid air "Air" {{ category 1  gas }}
pipe hose "Hose" {{ bore 13 mm }}
kind mains {{ port house  position shut {{ }}  position open {{ supplies water at house up to 400 kPa }} }}
kind blower {{ port line  position off {{ }}  position on {{ supplies air at line up to 200 kPa }} }}
kind mixer {{
  port cold, hot
  position shut {{ }}
  position to_cold {{ cold ~> below }}
  position to_hot {{ hot ~> below }}
}}
kind glass {{ port inlet, outlet  always {{ inlet <-> outlet }}  sight glass  body 0.05 L }}
system shed "Shed" {{
  zone room "Room"
  tee fork, split
  part street : mains "Street" at room
  part blow : blower "Blower" at room
  part eye : glass "Glass" at room
  part tap : mixer "Tap" at room
  run street.house - fork : hose 1 m
  run blow.line - fork : hose 1 m
  run fork - eye.inlet : hose 1 m
  run eye.outlet - split : hose 1 m
  run split - tap.cold : hose 1 m
  run split - tap.hot : hose 1 m
}}
lineup in_use "In use" on shed for use {{ street open  blow off  tap shut }}
procedure work "Work" on shed {{
  requires street is shut and blow is off and tap is shut
  ensures frost_safe at -5 degC
  stage "Stage" {{ step "Step" {{ {} }} }}
}}
)";

/// The pockets that frost may split, as the message lists them; empty where there are none.
std::string frost_risks(const std::string& step) {
    const auto made = model_from(fmt::format(fmt::runtime(line), step));
    proofs::prove(made->model, made->sink, {});
    return notes_of(made->sink, "frost-risk");
}

const std::string blow_both = R"(
  set blow to on
  set tap to to_cold
  flow blow to tap until only air "Dry air"
  set tap to shut
  set tap to to_hot
  flow blow to tap until only air "Dry air"
)";

} // namespace

TEST_CASE("a tap that is turned from cold to hot, and never shut between, has other ways then") {
    const std::string blown = frost_risks(blow_both + "set tap to shut set blow to off");
    CHECK_FALSE(names(blown, "Tap (cold)"));
    CHECK_FALSE(names(blown, "Tap (hot)"));
    // Water that is let in through either side is found in it.
    const std::string let_in = frost_risks(blow_both + R"(
      set tap to shut
      set blow to off
      set street to open
      set tap to to_cold
      set tap to to_hot
      set tap to shut
      set street to shut
    )");
    CHECK(names(let_in, "Tap (cold)"));
    CHECK(names(let_in, "Tap (hot)"));
}

TEST_CASE("what is seen at a glass tells nothing of what lies behind it") {
    const auto seen = [](const std::string& where) {
        return frost_risks("set blow to on set tap to to_cold flow blow to tap until only air \"Dry air\" " + where +
                           " set tap to shut set blow to off");
    };
    const std::string at_glass = seen("seen at eye");
    CHECK_FALSE(names(at_glass, "Glass (inlet)"));
    CHECK(names(at_glass, "Glass (outlet)"));
    CHECK(names(at_glass, "Tap (cold)"));
    CHECK_FALSE(names(seen(""), "Tap (cold)"));
}

TEST_CASE("gas that stops is no sign that a line is dry") {
    const auto until = [](const std::string& sign) {
        return frost_risks("set blow to on set tap to to_cold flow blow to tap until " + sign +
                           " \"A sign\" set tap to shut set blow to off");
    };
    CHECK(names(until("stops"), "Tap (cold)"));
    CHECK_FALSE(names(until("only air"), "Tap (cold)"));
}

TEST_CASE("where two sources come out at one tap, only what both pass is swept") {
    const std::string alone = frost_risks(blow_both + "set tap to shut set blow to off");
    CHECK_FALSE(names(alone, "Blower"));
    const std::string beside = frost_risks("set street to open " + blow_both + "set tap to shut set blow to off");
    CHECK(names(beside, "Blower"));
}
