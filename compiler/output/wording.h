// A text of the sheet, in the sheet's language but for marked stretches: what an author gave in no other language than
// his own stays in it, and says so (WCAG 2.2, 3.1.2). Must not know: models, HTML, Markdown.
#pragma once

#include "meaning/language.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::output {

using meaning::Language;

/// The text is the string; where nothing is foreign, a string is all that it is.
struct Wording : std::string {
    /// A stretch in another language than the sheet's.
    struct Foreign {
        std::size_t begin = 0, end = 0;
        Language language = Language::english;
        bool operator==(const Foreign&) const = default;
    };

    /// A stretch that an author has set off by back-ticks, which are not part of the text: something to be found letter
    /// by letter, on a plate or a screen.
    struct Literal {
        std::size_t begin = 0, end = 0;
        bool operator==(const Literal&) const = default;
    };

    Wording() = default;
    Wording(std::string text)
        : std::string(std::move(text)) {}
    Wording(std::string_view text)
        : std::string(text) {}
    Wording(const char* text)
        : std::string(text) {}
    /// A text that is not in the sheet's language.
    Wording(std::string text, Language foreign);

    void add(const Wording& more);
    /// What is left without its first bytes.
    [[nodiscard]] Wording from(std::size_t begin) const;
    /// Its first bytes.
    [[nodiscard]] Wording until(std::size_t end) const;

    std::vector<Foreign> foreign;  ///< in order, not overlapping
    std::vector<Literal> literals; ///< the same; none reaches over the end of a foreign stretch
};

/// What an author wrote, with what stands between two back-ticks as a literal. One without a second, and two with
/// nothing between, are letters like others.
[[nodiscard]] Wording with_literals(std::string_view written);

[[nodiscard]] inline Wording operator+(Wording a, const Wording& b) {
    a.add(b);
    return a;
}
[[nodiscard]] inline Wording operator+(Wording a, const char* b) {
    a.append(b);
    return a;
}
[[nodiscard]] inline Wording operator+(Wording a, const std::string& b) {
    a.append(b);
    return a;
}
[[nodiscard]] inline Wording operator+(const char* a, const Wording& b) {
    return Wording(a) + b;
}
[[nodiscard]] inline Wording operator+(const std::string& a, const Wording& b) {
    return Wording(a) + b;
}

} // namespace curbstop::output
