// What pipes hold at the start goes by the variant: water comes only from what is there.
#include "proofs/prove.h"

#include <string>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "support_model.h"

using namespace curbstop;

namespace {

// Mains, and a rain butt over a check valve, feed a fork on which a tap hangs: each may hang on an option.
constexpr const char* house = R"(
fluid water "Water" {{ category 1 }}
fluid rain "Rain" {{ category 5 }}
pipe hose "Hose" {{ bore 13 mm }}
kind mains {{ port house  position shut {{ }}  position open {{ supplies water at house up to 400 kPa }} }}
kind butt {{ port foot  chamber tub "Tub" holds 20 L of rain {{ low foot }}  always {{ vent tub }} }}
kind check {{ port a, b  always {{ a -> b }} }}
kind cock {{ port line  position shut {{ }}  position open {{ line ~> below }} }}
system shed "Shed" {{
  option first "First"
  zone room "Room"
  place gully "Gully" at room accepts water, rain
  tee fork
  part street : mains "Street" at room {0}
  part store : butt "Butt" at room {1}
  part valve : check "Valve" at room
  part low : cock "Cock" at room over gully {2}
  run street.house - fork : hose 1 m {0}
  run store.foot - valve.a : hose 1 m {1}
  run valve.b - fork : hose 1 m
  run fork - low.line : hose 1 m {2}
}}
lineup in_use "In use" on shed for use {{ low shut }}
procedure work "Work" on shed {{
  requires low is shut
  ensures {3}
  stage "Stage" {{ step "Step" {{ verify low is shut }} }}
}}
)";

struct Variants {
    std::string mains, butt, tap; ///< which have them; empty: all
};

std::string against(const Variants& in, const std::string& claim, const std::string& slug) {
    const auto made = model_from(fmt::format(fmt::runtime(house), in.mains, in.butt, in.tap, claim));
    proofs::prove(made->model, made->sink, {});
    return notes_of(made->sink, slug);
}

std::string frost(const Variants& in) {
    return against(in, "frost_safe at -5 degC", "frost-risk");
}

const std::string with = "only with first";
const std::string without = "without first";

} // namespace

TEST_CASE("a pipe is full in the variants in which something reaches it, and in no other") {
    CHECK(names(frost({with, with, with}), "pipe from fork to Cock"));
    CHECK(names(frost({with, without, with}), "pipe from fork to Cock"));
    CHECK(names(frost({with, without, without}), "pipe from fork to Cock"));
    CHECK_FALSE(names(frost({with, with, without}), "pipe from fork to Cock"));
}

TEST_CASE("what reaches a pipe in one variant is not in it in the others") {
    const auto foul = [](const Variants& in) {
        return names(against(in, "drinkable", "not-drinkable"), "pipe from fork to Cock");
    };
    CHECK_FALSE(foul({"", with, ""})); // with the butt it is no drinking water, without it nothing is foul
    CHECK_FALSE(foul({"", "", ""}));
}
