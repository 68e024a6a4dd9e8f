// Everything that a sheet says itself, in every language: whole sentences with places to fill in, looked up by key.
// Each language is one table that a translator can read (output/catalogue/*.def). That every table has every key, once,
// and the same places is settled while this is compiled. Must not know: models, how sentences are put on a page.
#pragma once

#include "meaning/language.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace curbstop::output {

using meaning::Language;

// The English table is the list of keys.
enum class Saying : std::uint16_t {
#define SAY(key, text) key,
#define PLURAL(key, one, other) key,
#include "output/catalogue/english.def"
#include "output/catalogue/english_around.def"
#include "output/catalogue/english_pictures.def"
#include "output/catalogue/english_screen.def"
#undef SAY
#undef PLURAL
};

/// How one language says it. `one` differs from `other` only where the number of {count} matters.
struct Said {
    Saying saying{};
    std::string_view one, other;
};

inline constexpr auto english_sayings = std::to_array<Said>({
#define SAY(key, text) {Saying::key, text, text},
#define PLURAL(key, one, other) {Saying::key, one, other},
#include "output/catalogue/english.def"
#include "output/catalogue/english_around.def"
#include "output/catalogue/english_pictures.def"
#include "output/catalogue/english_screen.def"
});
inline constexpr auto french_sayings = std::to_array<Said>({
#include "output/catalogue/french.def"
#include "output/catalogue/french_around.def"
#include "output/catalogue/french_pictures.def"
#include "output/catalogue/french_screen.def"
});
inline constexpr auto german_sayings = std::to_array<Said>({
#include "output/catalogue/german.def"
#include "output/catalogue/german_around.def"
#include "output/catalogue/german_pictures.def"
#include "output/catalogue/german_screen.def"
});
inline constexpr auto spanish_sayings = std::to_array<Said>({
#include "output/catalogue/spanish.def"
#include "output/catalogue/spanish_around.def"
#include "output/catalogue/spanish_pictures.def"
#include "output/catalogue/spanish_screen.def"
#undef SAY
#undef PLURAL
});

inline constexpr std::size_t saying_count = english_sayings.size();

/// The places of a template in order: calls `visit(name)` for `{name}` and `text(literal)` for what stands between.
template <class Text, class Visit>
constexpr void take_apart(std::string_view sentence, const Text& text, const Visit& visit) {
    while (!sentence.empty()) {
        const std::size_t open = std::min(sentence.find('{'), sentence.size());
        if (open > 0) {
            text(sentence.substr(0, open));
        }
        sentence.remove_prefix(open);
        if (!sentence.empty()) {
            const std::size_t close = std::min(sentence.find('}'), sentence.size() - 1);
            visit(sentence.substr(1, close - 1));
            sentence.remove_prefix(close + 1);
        }
    }
}

[[nodiscard]] constexpr bool has_place(std::string_view sentence, std::string_view name) {
    bool found = false;
    take_apart(
        sentence, [](std::string_view) {}, [&](std::string_view place) { found = found || place == name; });
    return found;
}

/// Every place of `a` is one of `b`; {count} may be left out of a singular.
[[nodiscard]] constexpr bool places_within(std::string_view a, std::string_view b) {
    bool within = true;
    take_apart(
        a, [](std::string_view) {}, [&](std::string_view place) { within = within && has_place(b, place); });
    return within;
}

[[nodiscard]] constexpr bool same_places(const Said& a, const Said& b) {
    const auto singular = [](const Said& said) {
        bool all = true;
        take_apart(
            said.other, [](std::string_view) {},
            [&](std::string_view place) { all = all && (place == "count" || has_place(said.one, place)); });
        return all && places_within(said.one, said.other);
    };
    return places_within(a.other, b.other) && places_within(b.other, a.other) && singular(a) && singular(b);
}

/// The table of a language in the order of the keys; a key that is missing has no text.
template <std::size_t Count>
[[nodiscard]] constexpr std::array<Said, saying_count> in_order(const std::array<Said, Count>& table) {
    std::array<Said, saying_count> result{};
    for (const Said& said : table) {
        result[static_cast<std::size_t>(said.saying)] = said;
    }
    return result;
}

/// Whether a table says all that English does, each once, with the same places.
template <std::size_t Count>
[[nodiscard]] constexpr bool is_whole(const std::array<Said, Count>& table) {
    const auto sorted = in_order(table);
    if (Count != saying_count) {
        return false;
    }
    for (std::size_t i = 0; i < saying_count; ++i) {
        if (sorted[i].other.empty() || !same_places(sorted[i], english_sayings[i])) {
            return false;
        }
    }
    return true;
}

/// Of a sentence: the one for this language, number and key. Complete by the assertions in sayings.cpp.
[[nodiscard]] const Said& said(Language language, Saying saying);

} // namespace curbstop::output
