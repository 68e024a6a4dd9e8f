#include "meaning/text.h"

#include <algorithm>

namespace curbstop::meaning {
namespace {

/// French puts a no-break space before a colon (as do the sentences of the French catalogue).
constexpr std::string_view french_colon_space = "\u00A0";

} // namespace

Told Text::in(Language wanted) const {
    const auto found = std::ranges::find(others, wanted, &Translation::language);
    return found == others.end() ? Told{*this, language} : Told{found->text, wanted};
}

Text composed(const Text& first, std::string_view between, const Text& second, std::string_view end) {
    const auto joined = [&](Language language, std::string_view a, std::string_view b) {
        std::string text(a);
        if (language == Language::french && between.starts_with(':')) {
            text += french_colon_space;
        }
        text += between;
        text += b;
        text += end;
        return text;
    };
    if (first.empty()) {
        Text result(joined(second.language, "", second), second.language);
        for (const Text::Translation& each : second.others) {
            result.others.push_back({each.language, joined(each.language, "", each.text)});
        }
        return result;
    }
    Text result(joined(first.language, first, second.in(first.language).text), first.language);
    for (const Text::Translation& each : first.others) {
        // Half in one language and half in another says less than all in the author's own.
        if (const Told told = second.in(each.language); told.language == each.language) {
            result.others.push_back({each.language, joined(each.language, each.text, told.text)});
        }
    }
    return result;
}

} // namespace curbstop::meaning
