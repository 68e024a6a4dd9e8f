#include "output/sheet_once.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;

namespace {

Line at(std::string place, std::string condition = {}) {
    Line line;
    line.text = phrase("Do it.");
    line.place = std::move(place);
    line.condition = std::move(condition);
    return line;
}

} // namespace

TEST_CASE("a place is said where it changes") {
    std::vector<Line> lines{at("Pit"), at("Pit"), at(""), at("Room"), at("Pit")};
    CHECK(say_places_once(lines, {}) == "Pit");
    CHECK(lines[0].place == "Pit");
    CHECK(lines[1].place.empty());
    CHECK(lines[3].place == "Room");
    CHECK(lines[4].place == "Pit");
}

TEST_CASE("a place that was said under a condition only is said again after it") {
    std::vector<Line> lines{at(""), at("Pit")};
    lines[0].kind = LineKind::conditional;
    lines[0].body = {at("Pit"), at("Pit")};
    say_places_once(lines, {});
    CHECK(lines[0].body[0].place == "Pit");
    CHECK(lines[0].body[1].place.empty());
    CHECK(lines[1].place == "Pit");
}

TEST_CASE("what a sight means is said once") {
    Line see{LineKind::see};
    see.text = phrase(label("Dry air"), " (only air comes)");
    std::vector<Line> first{see}, second{see};
    std::vector<Phrase> said;
    say_meanings_once(first, said);
    say_meanings_once(second, said);
    CHECK(plain(first.front().text) == "Dry air (only air comes)");
    CHECK(plain(second.front().text) == "Dry air");
}

TEST_CASE("a name longer than a line is cut between characters, and that is marked") {
    CHECK(shortened("Hut") == "Hut");
    std::string name;
    for (int i = 0; i < 60; ++i) {
        name += "é";
    }
    const std::string cut = shortened(name);
    CHECK(cut.size() == 48 * 2 + std::string("…").size());
    CHECK(cut.ends_with("é…"));
}
