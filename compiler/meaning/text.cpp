#include "meaning/text.h"

#include <algorithm>

namespace curbstop::meaning {

Told Text::in(Language wanted) const {
    const auto found = std::ranges::find(others, wanted, &Translation::language);
    return found == others.end() ? Told{*this, language} : Told{found->text, wanted};
}

Text composed(const Text& first, std::string_view between, const Text& second, std::string_view end) {
    const auto joined = [&](std::string_view a, std::string_view b) {
        std::string text(a);
        text += between;
        text += b;
        text += end;
        return text;
    };
    Text result(joined(first, second), first.empty() ? second.language : first.language);
    for (const Language language : all_languages) {
        const auto is_given = [&](const Text& text) {
            return std::ranges::find(text.others, language, &Text::Translation::language) != text.others.end();
        };
        if (language != result.language && (is_given(first) || is_given(second))) {
            result.others.push_back({language, joined(first.in(language).text, second.in(language).text)});
        }
    }
    return result;
}

} // namespace curbstop::meaning
