#include "meaning/system.h"

#include <catch2/catch.hpp>

#include "support_model.h"

using namespace curbstop;

// A tank that only some variants have stands open in each of those; one whose cap can be screwed on does not.
TEST_CASE("a chamber is always vented if it is so wherever it is there") {
    const auto made = model_from(R"(
kind cistern { port low_end  chamber body holds 1 L { low low_end }  always { vent body } }
kind flask { port low_end  chamber body holds 1 L { low low_end }
  position capped { }  position bare { vent body } }
system shed "Shed" {
  option spare "Spare"
  zone yard "Yard"
  part first : cistern "First" at yard
  part second : cistern "Second" at yard only with spare
  part third : flask "Third" at yard
}
procedure work "Work" on shed { stage "Stage" { step "Step" { set third to bare } } }
)");
    const meaning::System& system = made->model.system;
    REQUIRE(system.chambers.size() == 3);
    std::vector<std::pair<std::string, bool>> told;
    for (std::uint32_t i = 0; i < system.chambers.size(); ++i) {
        told.emplace_back(system[system.chambers[i].part].name, system.is_always_vented(meaning::ChamberId(i)));
    }
    CHECK(told == std::vector<std::pair<std::string, bool>>{{"first", true}, {"second", true}, {"third", false}});
}
