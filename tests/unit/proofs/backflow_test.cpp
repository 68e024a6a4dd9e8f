#include "proofs/prove.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "support_model.h"

using namespace curbstop;

namespace {

/// Mains, and another fluid of this category.
std::string mains_and_other(int category) {
    return R"(
fluid mains_water "Mains water" { category 1 }
fluid other "Other" { category )" +
           std::to_string(category) + R"( }
pipe copper "Copper" { bore 13 mm }
kind mains { port house  position shut { }  position open { supplies mains_water at house up to 4 bar } }
)";
}

/// A pump that pushes a fluid against the mains, through a device and through a pipe that it has been in.
std::string plant(const std::string& device, int category, const std::string& start) {
    return mains_and_other(category) + R"(
kind pump { port suction, delivery  position off { }  position on { lifts suction -> delivery up to 3 bar with own switch } }
kind tank { port outlet  chamber body holds 40 L of other { low outlet }  always { vent body } }
kind device { port inlet, outlet  port over  chamber bowl holds 1 L { low outlet  top over }  always { )" +
           device + R"( } }
system plant "Plant" {
  zone room "Room"
  part stop : mains "Stop" at room
  part guard : device "Device" at room
  part lift : pump "Pump" at room
  part store : tank "Store" at room
  run store.outlet - lift.suction : copper 1 m
  run stop.house - guard.inlet : copper 1 m
  run lift.delivery - guard.outlet : copper 1 m
}
procedure work "Work" on plant {
  requires stop is )" +
           start + R"( and lift is off
  stage "Stage" { step "Step" { set lift to on } }
}
)";
}

bool flows_back(const std::string& text) {
    const auto made = model_from(text);
    text::DiagnosticSink sink;
    proofs::prove(made->model, sink, {});
    return std::ranges::any_of(sink.diagnostics(), [](const auto& found) { return found.slug == "backflow"; });
}

/// A tank that is filled over a check valve written at the tank itself: the valve is at the tank's bottom.
std::string tank_behind_valve(int category, const std::string& device) {
    return mains_and_other(category) + R"(
kind tank { port fill  chamber body holds 40 L of other { }  always { )" +
           device + R"(  vent body } }
system plant "Plant" {
  zone room "Room"
  part stop : mains "Stop" at room
  part store : tank "Store" at room
  run stop.house - store.fill : copper 1 m
}
procedure work "Work" on plant {
  requires stop is shut
  stage "Stage" { step "Step" { set stop to open } }
}
)";
}

} // namespace

// Water Supply (Water Fittings) Regulations 1999 (UK), Schedule 1, by its own examples: heated water is of category 2,
// sodium hypochlorite and ethylene glycol of 3, pesticides of 4, human waste of 5. Devices of EN 1717 as Water Regs UK
// tells them: a single check valve, EA or EB, protects to 2, a double one, EC or ED, to 3, a reduced-pressure-zone
// valve, BA, to 4, an air gap, AA or AB, to 5. A device will do where its category is at least the fluid's.
TEST_CASE("a device keeps back fluids up to its category") {
    struct Device {
        std::string ways;
        int protects;
    };
    const std::array devices{
        Device{"inlet <-> outlet", 0},
        Device{"inlet -> outlet", 2},
        Device{"inlet -> outlet protects to 2", 2},
        Device{"inlet -> outlet protects to 3", 3},
        Device{"inlet -> outlet limits 2 bar protects to 4", 4},
        Device{"inlet ~> bowl  vent bowl", 5},
    };
    for (const Device& device : devices) {
        for (int category = 1; category <= 5; ++category) {
            INFO(device.ways << ", category " << category);
            CHECK(flows_back(plant(device.ways, category, "open")) == (category >= 3 && category > device.protects));
        }
    }
}

TEST_CASE("nothing flows back where the supply's own valve is shut") {
    CHECK(flows_back(plant("inlet -> outlet", 5, "open")));
    CHECK_FALSE(flows_back(plant("inlet -> outlet", 5, "shut")));
}

TEST_CASE("what stands in a tank runs back over a valve at its bottom that does not keep it back") {
    for (int category = 1; category <= 5; ++category) {
        CHECK(flows_back(tank_behind_valve(category, "fill -> body")) == (category > 2));
        CHECK(flows_back(tank_behind_valve(category, "fill -> body protects to 4")) == (category > 4));
        CHECK_FALSE(flows_back(tank_behind_valve(category, "fill ~> body")));
    }
}
