#include "output/tongue.h"

#include <array>

namespace curbstop::output {
namespace {

/// Unicode CLDR 44, common/main/{en,fr,de,es}.xml: decimal and group signs, and from how many digits numbers are
/// grouped (minimumGroupingDigits + 3). From memory, and held against a library that has CLDR (tests/web/locales).
struct NumberSigns {
    std::string_view decimal, group;
    std::size_t group_from;
    std::string_view before_unit;
};

constexpr std::string_view no_break_space = "\u00A0";
constexpr std::string_view narrow_no_break_space = "\u202F";

constexpr NumberSigns signs(Language language) {
    switch (language) {
    case Language::english:
        return {".", ",", 4, " "};
    case Language::french:
        return {",", narrow_no_break_space, 4, no_break_space};
    case Language::german:
        return {",", ".", 4, no_break_space};
    case Language::spanish:
        return {",", ".", 5, no_break_space};
    }
    return {};
}

/// Spanish says `e` for `y` before the sound of i, and `u` for `o` before that of o (CLDR's list patterns do so too).
bool sounds_like_i(std::string_view word) {
    const auto starts = [&](std::string_view start) { return word.starts_with(start); };
    if (starts("hia") || starts("hie") || starts("hio") || starts("Hia") || starts("Hie") || starts("Hio")) {
        return false;
    }
    return starts("i") || starts("I") || starts("í") || starts("Í") || starts("hi") || starts("Hi") || starts("hí") ||
           starts("Hí");
}
bool sounds_like_o(std::string_view word) {
    const auto starts = [&](std::string_view start) { return word.starts_with(start); };
    return starts("o") || starts("O") || starts("ó") || starts("Ó") || starts("ho") || starts("Ho") || starts("hó") ||
           starts("Hó") || starts("8");
}

} // namespace

Plural plural_category(Language language, std::uint64_t count) {
    const bool whole_millions = count != 0 && count % 1'000'000 == 0;
    switch (language) {
    case Language::english:
    case Language::german:
        return count == 1 ? Plural::one : Plural::other;
    case Language::french:
        return count < 2 ? Plural::one : whole_millions ? Plural::many : Plural::other;
    case Language::spanish:
        return count == 1 ? Plural::one : whole_millions ? Plural::many : Plural::other;
    }
    return Plural::other;
}

std::string localised_number(Language language, std::string_view digits) {
    const NumberSigns& sign = signs(language);
    std::string result;
    if (digits.starts_with('-')) {
        result = "-";
        digits.remove_prefix(1);
    }
    const std::size_t whole = std::min(digits.find('.'), digits.size());
    for (std::size_t i = 0; i < whole; ++i) {
        if (i > 0 && whole >= sign.group_from && (whole - i) % 3 == 0) {
            result += sign.group;
        }
        result += digits[i];
    }
    if (whole < digits.size()) {
        result += sign.decimal;
        result += digits.substr(whole + 1);
    }
    return result;
}

std::string Tongue::number(std::uint64_t count) const {
    return number(std::to_string(count));
}

std::string Tongue::measured(std::string_view digits, std::string_view unit) const {
    std::string result = number(digits);
    if (!unit.empty()) {
        result += signs(language_).before_unit;
        result += unit;
    }
    return result;
}

Phrase Tongue::filled(std::string_view sentence, Places places) {
    Phrase result;
    take_apart(
        sentence, [&](std::string_view text) { append(result, Wording(text)); },
        [&](std::string_view name) {
            for (const Place& place : places.all) {
                if (place.name == name) {
                    append(result, *place.phrase);
                }
            }
        });
    return result;
}

namespace {

template <class Last>
Phrase listed(const std::vector<Phrase>& phrases, const Last& with_last) {
    Phrase before;
    for (std::size_t i = 0; i < phrases.size(); ++i) {
        if (i > 0 && i + 1 == phrases.size()) {
            return with_last(std::move(before), phrases[i]);
        }
        append(before, phrase(i > 0 ? ", " : "", phrases[i]));
    }
    return before;
}

} // namespace

Phrase Tongue::all_of(const std::vector<Phrase>& phrases) const {
    return listed(phrases, [&](Phrase before, const Phrase& last) {
        return sounds_like_i(plain(last)) ? say<Saying::list_and_i>(in<"before">(before), in<"last">(last))
                                          : say<Saying::list_and>(in<"before">(before), in<"last">(last));
    });
}

Phrase Tongue::one_of(const std::vector<Phrase>& phrases) const {
    return listed(phrases, [&](Phrase before, const Phrase& last) {
        return sounds_like_o(plain(last)) ? say<Saying::list_or_o>(in<"before">(before), in<"last">(last))
                                          : say<Saying::list_or>(in<"before">(before), in<"last">(last));
    });
}

Phrase Tongue::series_of(const std::vector<Phrase>& phrases) const {
    Phrase result;
    for (const Phrase& each : phrases) {
        result = result.empty() ? each : say<Saying::list_also>(in<"before">(result), in<"last">(each));
    }
    return result;
}

} // namespace curbstop::output
