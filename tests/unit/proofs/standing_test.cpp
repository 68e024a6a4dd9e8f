// What stands in a tank runs into what lies below it and is not full, though nothing comes out there.
#include "proofs/prove.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "support_model.h"

using namespace curbstop;

namespace {

// A tank that is filled through a spout, a cock at its bottom, and a branch that rises from the pipe to the cock and is
// open above.
constexpr const char* tank = R"(
fluid water "Water" {{ category 1 }}
fluid slops "Slops" {{ category 5 }}
pipe hose "Hose" {{ bore 13 mm }}
kind mains {{ port house  position shut {{ }}  position open {{ supplies water at house up to 400 kPa }} }}
kind butt {{ port fill, outlet  chamber tub "Tub" holds 20 L of water {{ low outlet }}  always {{ fill ~> tub  vent tub }} }}
kind cock {{ port line  position shut {{ }}  position open {{ line ~> below }} }}
kind riser {{ port stub  always {{ vent stub }} }}
system shed "Shed" {{
  zone room "Room"
  place gully "Gully" at room accepts water, slops
  vessel pail "Pail" 10 L accepts water, slops filled with slops
  tee fork
  part street : mains "Street" at room
  part store : butt "Butt" at room
  part low : cock "Cock" at room over gully
  part blind : riser "Riser" at room
  run street.house - store.fill : hose 1 m
  run store.outlet - fork : hose 1 m falls to fork
  run fork - low.line : hose 1 m falls to low.line
  run fork - blind.stub : hose 1 m falls to fork
}}
lineup in_use "In use" on shed for use {{ street shut  low shut }}
procedure work "Work" on shed {{
  requires street is shut and low is shut and store.tub holds water
  ensures {0}
  stage "Stage" {{ step "Step" {{
    set low to open
    drain store, pipes through low until stops "Nothing more"
    set low to shut
    {1}
  }} }}
}}
)";

/// The pockets that the message of a claim lists; empty where it is kept.
std::string pockets_against(const std::string& claim, const std::string& slug, const std::string& step) {
    const auto made = model_from(fmt::format(fmt::runtime(tank), claim, step));
    proofs::prove(made->model, made->sink, {});
    std::string pockets;
    for (const text::Diagnostic& told : made->sink.diagnostics()) {
        if (told.slug == slug) {
            for (const auto& note : told.notes) {
                pockets += note + "\n";
            }
        }
    }
    return pockets;
}

std::string frost_risks(const std::string& step) {
    return pockets_against("frost_safe at -5 degC", "frost-risk", step);
}

std::string spoilt(const std::string& step) {
    return pockets_against("drinkable", "not-drinkable", step);
}

bool names(const std::string& pockets, const std::string& pocket) {
    return pockets.find(pocket) != std::string::npos;
}

} // namespace

TEST_CASE("a pipe below a tank is empty until something comes into the tank") {
    CHECK_FALSE(names(frost_risks(""), "Cock"));
    const std::string filled = frost_risks(R"(
      set street to open
      flow street to store until reads at least 5 L "The gauge moves" at most 6 L
      set street to shut
    )");
    CHECK(names(filled, "from Butt (outlet)"));
    CHECK(names(filled, "to Cock"));
    // It falls from the branch to the fork, not up into it.
    CHECK_FALSE(names(filled, "to Riser"));
}

TEST_CASE("what is poured into a tank stands in the pipe below it as well") {
    CHECK_FALSE(names(spoilt(""), "to Cock"));
    CHECK(names(spoilt("pour pail into store.tub"), "to Cock"));
}

TEST_CASE("a pipe that is drained again is as empty as before") {
    const std::string again = frost_risks(R"(
      set street to open
      flow street to store until reads at least 5 L "The gauge moves" at most 6 L
      set street to shut
      set low to open
      drain store, pipes through low until stops "Nothing more"
      set low to shut
    )");
    CHECK_FALSE(names(again, "Cock"));
}
