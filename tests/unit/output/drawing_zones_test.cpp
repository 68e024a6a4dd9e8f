#include "output/drawing_zones.h"

#include "output/live_states.h"
#include "output/sheet_standing.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>

using namespace curbstop::output;
using namespace curbstop::output::tests;
using namespace curbstop::meaning;

namespace {

ZoneDrawings drawn_at(const Words& words, const std::vector<ValueSet>& start = {}) {
    return draw_zones(words, placed_zones(words), start);
}

} // namespace

TEST_CASE("every part that water passes is drawn in one place, every pipe in one or two") {
    const Tiny tiny = tiny_model();
    const ZoneDrawings drawn = drawn_at(Words(tiny.model.system));
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

TEST_CASE("where a pipe is cut it has a letter that stands once more, at its other end") {
    const Tiny tiny = tiny_model();
    const ZoneDrawings drawn = drawn_at(Words(tiny.model.system));
    REQUIRE(drawn.zones.size() > 1);
    std::map<std::string, std::size_t> times;
    const std::string mark = "text-anchor=\"middle\" font-weight=\"bold\" fill=\"#000000\" stroke=\"none\">";
    for (const ZoneDrawing& zone : drawn.zones) {
        const std::string& svg = zone.svg;
        for (std::size_t at = svg.find(mark); at != std::string::npos; at = svg.find(mark, at + 1)) {
            const std::size_t from = svg.find('>', at) + 1;
            const std::string number = svg.substr(from, svg.find('<', from) - from);
            if (number == "?") { // how a valve stands
                continue;
            }
            ++times[number];
        }
    }
    CHECK(!times.empty());
    for (const auto& [letters, count] : times) {
        CHECK(count == 2);
        // Numbers are the sides of valves, P is pressure, and I and O are read as numbers.
        CHECK(letters.find_first_not_of("ABCDEFGHJKLMNQRSTUVWXYZ") == std::string::npos);
    }
}

TEST_CASE("the key of a drawing says what is in it, in every language") {
    const Tiny tiny = tiny_model();
    for (const Language language : all_languages) {
        const ZoneDrawings drawn = drawn_at(Words(tiny.model.system, Tongue(language)));
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
    const ZoneDrawings drawn = drawn_at(Words(system));
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

TEST_CASE("a valve is drawn as it stands at the start, and as it stands after each step") {
    Tiny tiny = tiny_model();
    System& system = tiny.model.system;
    PartId drain;
    for (Way& way : system.ways) {
        if (way.kind == WayKind::fall) { // open in the second position of its part
            way.condition = system.expressions.stands(system[way.part].variable, 1);
            drain = drain ? drain : way.part;
        }
    }
    REQUIRE(drain);
    const Words words(system);
    const PlacedZones placed = placed_zones(words); // once, however it stands
    const std::string id = "data-sign=\"p" + std::to_string(drain.value) + "\"";
    const auto sign = [&](ValueSet stands) {
        std::vector<ValueSet> start(system.variables.size(), ~ValueSet{0});
        start[system[drain].variable.value] = stands;
        for (const ZoneDrawing& zone : draw_zones(words, placed, start).zones) {
            const std::size_t at = zone.svg.find(id);
            if (at != std::string::npos) {
                return zone.svg.substr(at, zone.svg.find("</g>", at) - at);
            }
        }
        return std::string();
    };
    CHECK(!sign(1).empty());
    CHECK(sign(1) != sign(2));
    CHECK(sign(3).find(">?<") != std::string::npos);
    CHECK(sign(1).find(">?<") == std::string::npos);
    // One list per step and one for the start, of ids and signs that there are.
    const LiveStates live = live_states(words, tiny.report, {});
    const std::size_t from = live.states.find("\"valves\":");
    REQUIRE(from != std::string::npos);
    const std::string lists = live.states.substr(from, live.states.find("\"signs\"", from) - from);
    CHECK(static_cast<std::size_t>(std::ranges::count(lists, '[')) == tiny.report.steps.size() + 2);
    CHECK(lists.find("\"p" + std::to_string(drain.value) + "\"") != std::string::npos);
}
