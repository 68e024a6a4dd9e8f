#include "output/sayings.h"

#include <catch2/catch.hpp>

#include <set>
#include <string>

using namespace curbstop::output;

// sayings.cpp asserts the same while it is compiled; here it is seen to tell what is wrong.
TEST_CASE("every table says all that the English one does, with the same places") {
    CHECK(is_whole(english_sayings));
    CHECK(is_whole(french_sayings));
    CHECK(is_whole(german_sayings));
    CHECK(is_whole(spanish_sayings));
}

TEST_CASE("a table that lacks a key, has one twice or changes a place is not whole") {
    auto said_twice = german_sayings;
    said_twice[3] = said_twice[4];
    CHECK_FALSE(is_whole(said_twice));

    const auto with = [](std::string_view one, std::string_view other) {
        auto table = german_sayings;
        for (Said& each : table) {
            if (each.saying == Saying::place_changes_walk) {
                each = {Saying::place_changes_walk, one, other};
            }
        }
        return table;
    };
    CHECK(is_whole(with("Ein Wechsel, {length}.", "{count} Wechsel, {length}.")));
    CHECK_FALSE(is_whole(with("", "")));
    CHECK_FALSE(is_whole(with("Ein Wechsel, {length}.", "{count} Wechsel."))); // a place is missing
    CHECK_FALSE(is_whole(with("Ein Wechsel.", "{count} Wechsel, {length}."))); // missing in the singular
    CHECK_FALSE(is_whole(with("Ein Wechsel, {laenge}.", "{count} Wechsel, {laenge}.")));
    CHECK_FALSE(is_whole(with("Ein Wechsel, {length} {was}.", "{count} Wechsel, {length} {was}.")));
}

TEST_CASE("a sentence of one language is not that of another") {
    // What is the same in two languages is a word that they share, or a sentence of places and signs.
    const std::set<std::string_view> shared = {"DANGER", "Stages", "Version {version}", "{what}",
                                               "Page {page} of {pages}"};
    for (const auto* table : {&french_sayings, &german_sayings, &spanish_sayings}) {
        for (const Said& each : *table) {
            const std::string_view english = english_sayings[static_cast<std::size_t>(each.saying)].other;
            std::size_t letters = 0;
            take_apart(
                english, [&](std::string_view text) { letters += text.size(); }, [](std::string_view) {});
            if (letters > 12 && !shared.contains(english)) {
                INFO(english);
                CHECK(each.other != english);
            }
        }
    }
}
