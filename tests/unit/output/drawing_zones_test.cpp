#include "output/drawing_zones.h"

#include "output/live_states.h"
#include "output/sheet_standing.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::output::tests;
using namespace curbstop::meaning;

TEST_CASE("every part that water passes is drawn in one place, every pipe in one or two") {
    const Tiny tiny = tiny_model();
    const ZoneDrawings drawn = draw_zones(Words(tiny.model.system));
    REQUIRE(drawn.error.empty());
    REQUIRE(!drawn.zones.empty());
    std::string all;
    for (const ZoneDrawing& zone : drawn.zones) {
        CHECK_FALSE(zone.title.empty());
        CHECK(zone.svg.find("role=\"img\" aria-label=\"") != std::string::npos);
        all += zone.svg;
    }
    const auto count = [&all](const std::string& what) {
        std::size_t found = 0;
        for (std::size_t at = all.find(what); at != std::string::npos; at = all.find(what, at + 1)) {
            ++found;
        }
        return found;
    };
    for (std::size_t i = 0; i < tiny.model.system.parts.size(); ++i) {
        if (!tiny.model.system.parts[i].nodes.empty()) {
            CHECK(count("data-at=\"p" + std::to_string(i) + "\"") == 1);
        }
    }
    for (std::size_t i = 0; i < tiny.model.system.runs.size(); ++i) {
        const std::size_t times = count("data-pipe=\"r" + std::to_string(i) + "\"");
        CHECK((times == 1 || times == 2));
    }
}

TEST_CASE("nothing cannot be drawn by place either") {
    const System system;
    const ZoneDrawings drawn = draw_zones(Words(system));
    CHECK(drawn.zones.empty());
    CHECK(drawn.overview.empty());
}

TEST_CASE("states hold a list per step and the start, and nothing that could end their element") {
    for (const std::string& label : hostile_labels()) {
        const Tiny tiny = tiny_model(label);
        const LiveStates live = live_states(Words(tiny.model.system), tiny.report, {});
        CHECK(live.states.find('<') == std::string::npos);
        CHECK(live.states.find('\n') == std::string::npos);
    }
}
