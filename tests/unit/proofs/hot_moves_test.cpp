#include "proofs/hot_moves.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "proofs/prove.h"
#include "support_model.h"

using namespace curbstop;

namespace {

// A boiler on a tank that stands above it, a tap behind it, and beside it a tap that only the tank feeds.
constexpr const char* house = R"(
fluid water "Water" { category 1 }
pipe plain "Plain" { bore 10 mm }
kind tank { port out  chamber body holds 50 L of water { low out }  always { vent body } }
kind boiler {
  port cold, hot, sump
  chamber body holds 10 L of water { low sump  top hot }
  position off { }
  position on { heats body to 60 degC }
  always { cold -> body }
  cools in 4 h
}
kind tap {
  port in
  position shut { }
  position open { in ~> below }
  caution on open while hot "Hot."
  notice on open "Turn gently."
}
system house "House" {
  zone room "Room"
  part cistern : tank "Cistern" at room
  part heater : boiler "Heater" at room
  part hot_tap : tap "Hot tap" at room over ground
  part cold_tap : tap "Cold tap" at room over ground
  part drain_tap : tap "Drain" at room over ground
  tee fork
  run cistern.out - fork : plain 1 m
  run fork - heater.cold : plain 1 m
  run fork - cold_tap.in : plain 1 m
  run heater.hot - hot_tap.in : plain 1 m
  run heater.sump - drain_tap.in : plain 1 m
}
)";

/// How often each tap is opened where something hot may come to it.
std::size_t hot_openings(const std::string& requires_, const std::string& steps, const std::string& tap) {
    const auto made = model_from(std::string(house) + "procedure work \"Work\" on house {\n  requires " + requires_ +
                                 "\n  stage \"Stage\" {\n" + steps + "  }\n}\n");
    const auto reports = proofs::prove(made->model, made->sink, {.detail = true});
    REQUIRE(reports.front().hot_moves);
    return static_cast<std::size_t>(std::ranges::count_if(*reports.front().hot_moves, [&](const proofs::HotMove& each) {
        return made->model.system[each.variable].name == tap && each.value == 1;
    }));
}

const std::string shut = "heater is off and hot_tap, cold_tap, drain_tap is shut";
const std::string open_all = "step \"Taps\" { set hot_tap to open  set cold_tap to open }\n";
const std::string empty_it = R"(step "Drain" {
  set drain_tap to open
  drain heater through drain_tap until stops "dry"
  set drain_tap to shut
}
)";

} // namespace

TEST_CASE("what a chamber that may be hot reaches is hot, and nothing else") {
    CHECK(hot_openings(shut, open_all, "hot_tap") == 1);
    CHECK(hot_openings(shut, open_all, "cold_tap") == 0); // nothing comes back through the heater's inlet
}

TEST_CASE("waiting alone is somebody's word: what is still full counts as hot until a hand has felt it") {
    const std::string wait = "step \"Wait\" { wait 4 h }\n";
    CHECK(hot_openings(shut, wait + open_all, "hot_tap") == 1);
    CHECK(hot_openings(shut, wait + "step \"Feel\" { verify heater is cool }\n" + open_all, "hot_tap") == 0);
    CHECK(hot_openings(shut, "step \"Feel\" { verify heater is cool }\n" + open_all, "hot_tap") == 0);
}

TEST_CASE("what has cooled and is empty is hot no longer; what is empty alone has left hot water in the pipes") {
    CHECK(hot_openings(shut, "step \"Wait\" { wait 4 h }\n" + empty_it + open_all, "hot_tap") == 0);
    CHECK(hot_openings(shut, empty_it + open_all, "hot_tap") == 1);
}

TEST_CASE("what stands open while something is heated again is hot, however cold it was when it was opened") {
    const std::string feel = "step \"Feel\" { verify heater is cool }\n";
    const std::string heat = "step \"Heat\" { set heater to on }\n";
    CHECK(hot_openings(shut, feel + open_all + heat, "hot_tap") == 1);
    CHECK(hot_openings(shut, feel + open_all + "step \"Shut\" { set hot_tap to shut }\n" + heat, "hot_tap") == 0);
}
