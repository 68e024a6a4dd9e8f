#include "output/sayings.h"

namespace curbstop::output {

static_assert(is_whole(english_sayings));
static_assert(is_whole(french_sayings), "catalogue/french.def lacks a key or place of catalogue/english.def");
static_assert(is_whole(german_sayings), "catalogue/german.def lacks a key or place of catalogue/english.def");
static_assert(is_whole(spanish_sayings), "catalogue/spanish.def lacks a key or place of catalogue/english.def");

const Said& said(Language language, Saying saying) {
    static constexpr auto french = in_order(french_sayings);
    static constexpr auto german = in_order(german_sayings);
    static constexpr auto spanish = in_order(spanish_sayings);
    const auto index = static_cast<std::size_t>(saying);
    switch (language) {
    case Language::english:
        break;
    case Language::french:
        return french[index];
    case Language::german:
        return german[index];
    case Language::spanish:
        return spanish[index];
    }
    return english_sayings[index];
}

} // namespace curbstop::output
