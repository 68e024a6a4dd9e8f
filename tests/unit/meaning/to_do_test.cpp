#include <catch2/catch.hpp>

#include "support_model.h"

using namespace curbstop;

TEST_CASE("what is done to put a part so is the kind's, or the part's own with its own label") {
    const auto made = model_from(R"(
kind cock {
  port line
  position shut "shut" do "Shut {part}" de "{part} zu" { }
  position open "open" do "Open {part}" while spare is shut { line ~> below }
  given spare : cock_key optional
}
kind cock_key { position shut { }  position open { } }
system hut "Hut" {
  zone room "Room"
  part plain : cock "Plain" at room over ground
  part told : cock "Told" at room over ground {
    position shut "0"
    position open "1" do "Turn {part} to 1"
  }
}
)");
    for (const meaning::Variable& variable : made->model.system.variables) {
        if (variable.name == "plain") {
            CHECK(variable.values.at(0).to_do.in(meaning::Language::english).text == "Shut {part}");
            CHECK(variable.values.at(0).to_do.in(meaning::Language::german).text == "{part} zu");
            CHECK(variable.values.at(1).to_do.in(meaning::Language::english).text == "Open {part}");
        } else if (variable.name == "told") {
            CHECK(variable.values.at(0).to_do.empty()); // what the kind says need not be so of "0"
            CHECK(variable.values.at(1).to_do.in(meaning::Language::english).text == "Turn {part} to 1");
        }
    }
}
