// What an author wrote for the reader of a sheet: in the language of the file, and as far as given in others.
// Must not know: syntax, what the text is about, which language a sheet is in.
#pragma once

#include "meaning/language.h"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace curbstop::meaning {

/// A text as it stands in one language.
struct Told {
    std::string_view text;
    Language language = Language::english;
};

/// The author's own text, which is what messages print; hence it is a string, and knows the others beside.
struct Text : std::string {
    struct Translation {
        Language language = Language::english;
        std::string text;
        bool operator==(const Translation&) const = default;
    };

    Text() = default;
    Text(std::string own, Language language = Language::english, std::vector<Translation> others = {})
        : std::string(std::move(own))
        , language(language)
        , others(std::move(others)) {}
    Text(const char* own)
        : std::string(own) {}

    /// What it says in that language; where it says nothing there, the author's own.
    [[nodiscard]] Told in(Language wanted) const;

    Language language = Language::english; ///< of the string itself
    std::vector<Translation> others;       ///< in the order of the text; none of `language`
};

/// A text made of two, in every language that both are given in: `composed("Heater", ": ", "plug")`, with `end` behind.
/// In the language of the first, the second is taken as it is where it says nothing there. A colon that begins what is
/// between stands as each language has it.
[[nodiscard]] Text composed(const Text& first, std::string_view between, const Text& second, std::string_view end = {});

} // namespace curbstop::meaning
