#include "output/sheet_beforehand.h"

#include "output/sheet.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace curbstop;
using namespace curbstop::output;
using namespace curbstop::output::tests;

namespace {

/// The lines of a card as text; none where there is no such card.
std::vector<std::string> card_of(const Tiny& tiny, std::string_view heading) {
    const Sheet sheet = compose_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
    std::vector<std::string> lines;
    for (const InfoCard& card : sheet.preparation.cards) {
        if (card.heading == heading) {
            std::ranges::transform(card.lines, std::back_inserter(lines), plain);
        }
    }
    return lines;
}

} // namespace

TEST_CASE("the time is what waits and rates say, and no more is made up") {
    const std::vector<std::string> time = card_of(tiny_model(), "Time");
    REQUIRE(time.size() == 3);
    CHECK(time[0] == "There are 4 steps. Some are only for some options, or for cases that may not come.");
    CHECK(time[1] ==
          "No less than 14 min: a minute each (common practice, no source) for the 4 steps that everybody does "
          "and 10 min of waiting.");
    CHECK(time[2].starts_with("2 walks from place to place, repeats and second looks come on top."));
}

TEST_CASE("the weather is what the procedure promises, and what water asks of whoever works") {
    const std::vector<std::string> weather = card_of(tiny_model(), "Weather");
    REQUIRE(weather.size() == 2);
    CHECK(weather[0].find("common practice, no source") != std::string::npos);
    CHECK(weather[1] == "Afterwards it may freeze down to -20 °C (-4 °F). Nothing is proved of colder nights.");
}

TEST_CASE("what switches power is told with what it feeds and when it is moved") {
    CHECK(card_of(tiny_model(), "Power and gas").empty());
    Tiny tiny = tiny_model();
    meaning::System& system = tiny.model.system;
    meaning::Source pump;
    pump.kind = meaning::SourceKind::lift;
    pump.part = meaning::PartId(1);
    pump.on = system.expressions.stands(system.parts[0].variable, 2);
    system.sources.push_back(pump);
    const std::vector<std::string> power = card_of(tiny, "Power and gas");
    REQUIRE(power.size() == 1);
    CHECK(power.front().find("Stop valve") == 0);
    CHECK(power.front().find("feeds Drain cock") != std::string::npos);
    CHECK(power.front().ends_with(": shut in steps 2 and 4."));
}

TEST_CASE("kinds of the standard library that switch are told though nothing hangs on them") {
    Tiny tiny = tiny_model();
    tiny.model.system.parts[0].kind_name = "gas_valve";
    tiny.model.system.parts[1].kind_name = "breaker";
    CHECK(card_of(tiny, "Power and gas").size() == 2);
}
