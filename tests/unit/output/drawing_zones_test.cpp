#include "output/drawing_zones.h"

#include "output/live_states.h"
#include "output/sheet_standing.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <set>

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

TEST_CASE("where a pipe leaves a drawing it has a number that one other drawing has too") {
    const Tiny tiny = tiny_model();
    const ZoneDrawings drawn = draw_zones(Words(tiny.model.system));
    REQUIRE(drawn.zones.size() > 1);
    std::map<std::string, std::set<std::size_t>> drawings_of;
    const std::string mark = "text-anchor=\"middle\" font-weight=\"bold\"";
    for (std::size_t i = 0; i < drawn.zones.size(); ++i) {
        const std::string& svg = drawn.zones[i].svg;
        for (std::size_t at = svg.find(mark); at != std::string::npos; at = svg.find(mark, at + 1)) {
            const std::size_t from = svg.find('>', at) + 1;
            const std::string number = svg.substr(from, svg.find('<', from) - from);
            CHECK(drawings_of[number].insert(i).second);
        }
    }
    CHECK(!drawings_of.empty());
    for (const auto& [number, drawings] : drawings_of) {
        CHECK(drawings.size() == 2);
    }
}

TEST_CASE("the key of a drawing says what is in it, in every language") {
    const Tiny tiny = tiny_model();
    for (const Language language : all_languages) {
        const ZoneDrawings drawn = draw_zones(Words(tiny.model.system, Tongue(language)));
        for (const ZoneDrawing& zone : drawn.zones) {
            const std::string numbers = Tongue(language).text(Saying::key_onward);
            const bool has_marks = zone.svg.find("<circle") != std::string::npos &&
                                   zone.svg.find("font-weight=\"bold\"") != std::string::npos;
            CHECK(std::ranges::any_of(zone.key, [&](const DrawingSign& sign) { return sign.words == numbers; }) ==
                  has_marks);
        }
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
