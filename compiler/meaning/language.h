// The languages in which a sheet can be given. Must not know: what is said in them.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace curbstop::meaning {

enum class Language : std::uint8_t { english, french, german, spanish };

inline constexpr std::array all_languages{Language::english, Language::french, Language::german, Language::spanish};

/// A set of languages: bit i is all_languages[i].
using Languages = std::uint8_t;
[[nodiscard]] constexpr Languages just(Language language) {
    return static_cast<Languages>(1U << static_cast<unsigned>(language));
}
[[nodiscard]] constexpr bool contains(Languages set, Language language) {
    return (set & just(language)) != 0;
}

/// The ISO 639-1 code, which is also the BCP 47 tag (RFC 5646) and what HTML's `lang` takes: `en`, `fr`, `de`, `es`.
[[nodiscard]] constexpr std::string_view code(Language language) {
    switch (language) {
    case Language::english:
        return "en";
    case Language::french:
        return "fr";
    case Language::german:
        return "de";
    case Language::spanish:
        return "es";
    }
    return {};
}

/// "English", "French" …, for messages.
[[nodiscard]] constexpr std::string_view english_name(Language language) {
    switch (language) {
    case Language::english:
        return "English";
    case Language::french:
        return "French";
    case Language::german:
        return "German";
    case Language::spanish:
        return "Spanish";
    }
    return {};
}

[[nodiscard]] constexpr std::optional<Language> language_from_code(std::string_view written) {
    for (const Language language : all_languages) {
        if (code(language) == written) {
            return language;
        }
    }
    return std::nullopt;
}

} // namespace curbstop::meaning
