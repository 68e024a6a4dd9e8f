// A sentence of the sheet in which the owner's labels are marked, so that each output can set them off its own way and
// escape them. Must not know: models, HTML, Markdown.
#pragma once

#include "output/wording.h"

#include <concepts>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace curbstop::output {

/// A run of text.
struct Piece {
    Wording text;           ///< one line (output/clean_text.h), not escaped
    bool label = false;     ///< what the reader finds on the real thing: a part's label, a position's
    bool code = false;      ///< something to be compared letter by letter
    std::uint32_t step = 0; ///< the step that is spoken of; 0: none
    bool name = false;      ///< someone's words that are not to stand out as a label does

    bool operator==(const Piece&) const = default;
};

using Phrase = std::vector<Piece>;

[[nodiscard]] inline Piece label(Wording text) {
    return {std::move(text), true};
}
[[nodiscard]] inline Piece name(Wording text) {
    return {std::move(text), false, false, 0, true};
}
[[nodiscard]] inline Piece code(std::string text) {
    return {std::move(text), false, true};
}

inline void append(Phrase& phrase, Piece piece) {
    phrase.push_back(std::move(piece));
}
inline void append(Phrase& phrase, const Phrase& more) {
    phrase.insert(phrase.end(), more.begin(), more.end());
}
inline void append(Phrase& phrase, Wording text) {
    phrase.push_back({std::move(text)});
}
inline void append(Phrase& phrase, const char* text) {
    phrase.push_back({text});
}
inline void append(Phrase& phrase, std::string text) {
    phrase.push_back({std::move(text)});
}

/// `phrase(label("Low drain"), ", ", "2 L")`
template <class... Parts>
[[nodiscard]] Phrase phrase(Parts&&... parts) {
    Phrase result;
    (append(result, std::forward<Parts>(parts)), ...);
    return result;
}

/// The words alone.
[[nodiscard]] Wording plain(const Phrase& phrase);

} // namespace curbstop::output
