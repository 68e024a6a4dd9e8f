#include "output/valve_sign.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using namespace curbstop::output;

namespace {

ValveStrokes sign_of(std::size_t ports, bool lets_out, const std::vector<PictureWay>& ways, bool numbered = false) {
    ValveStrokes strokes;
    add_valve_sign({ports, lets_out, numbered, ways}, 50, 50, SignSize{}, strokes);
    return strokes;
}

} // namespace

TEST_CASE("a valve that is shut is a disc, one that is open a ring, and neither is told by colour") {
    const ValveStrokes shut = sign_of(2, false, {});
    CHECK(!shut.discs.empty());
    CHECK(shut.rings.empty());
    const ValveStrokes open = sign_of(2, false, {{0, 1, false, true}});
    CHECK(open.discs.empty());
    CHECK(!open.rings.empty());
    CHECK(open.pipes.size() > shut.pipes.size()); // the line through it
    const ValveStrokes maybe = sign_of(2, false, {{0, 1, false, false}});
    CHECK(maybe.doubts.size() == 1);
    CHECK(maybe.pipes == shut.pipes);
}

TEST_CASE("a tap that draws from both sides bends both down, and no line runs from one to the other") {
    const PictureWay across{0, 1, false, true};
    const PictureWay cold{0, std::nullopt, false, true};
    const PictureWay hot{1, std::nullopt, false, true};
    const ValveStrokes both = sign_of(2, true, {across, cold, hot}, true);
    CHECK(std::ranges::count(both.pipes, 'Q') == 2);
    CHECK(both.pipes == sign_of(2, true, {cold, hot}, true).pipes);
    CHECK(!both.arrows.empty());
    // Held up at its spray, water does pass from one to the other.
    const ValveStrokes paused = sign_of(2, true, {across}, true);
    CHECK(std::ranges::count(paused.pipes, 'Q') == 0);
    CHECK(paused.pipes != both.pipes);
    CHECK(paused.arrows.empty());
}

TEST_CASE("a valve of three ways shows which of them are open, each side with its number") {
    const ValveStrokes left = sign_of(3, false, {{0, 1, false, true}}, true);
    const ValveStrokes right = sign_of(3, false, {{0, 2, false, true}}, true);
    CHECK(left.pipes != right.pipes);
    REQUIRE(left.numbers.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(left.numbers[i].number == i + 1);
        for (std::size_t j = 0; j < i; ++j) { // no number on another
            CHECK((std::abs(left.numbers[i].x - left.numbers[j].x) > 8 ||
                   std::abs(left.numbers[i].y - left.numbers[j].y) > 11));
        }
    }
}

TEST_CASE("of an open valve each side that is shut has a bar across its pipe, and of no other") {
    const auto strokes = [](const ValveStrokes& sign) { return std::ranges::count(sign.pipes, 'M'); };
    // Three pipes and the way through; and the bar, upright at the ring's right edge.
    const ValveStrokes left = sign_of(3, false, {{0, 1, false, true}}, true);
    CHECK(strokes(left) == 5);
    CHECK(left.pipes.find("M67 60.2L67 39.8") != std::string::npos);
    CHECK(strokes(sign_of(3, false, {{0, 1, false, true}, {0, 2, false, true}}, true)) == 5); // two ways, no bar
    CHECK(strokes(sign_of(2, false, {{0, 1, false, true}})) == 3);
    CHECK(strokes(sign_of(3, false, {})) == 3);                     // the disc says it
    CHECK(strokes(sign_of(3, false, {{0, 1, false, false}})) == 3); // may be: nothing is known
    CHECK(strokes(sign_of(2, false, {{0, 1, true, true}})) == 3);   // a check valve has a bar of its own
}
