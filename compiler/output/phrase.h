// A sentence of the sheet in which the owner's labels are marked, so that each output can set them off its own way and
// escape them. Must not know: models, HTML, Markdown.
#pragma once

#include <concepts>
#include <string>
#include <utility>
#include <vector>

namespace curbstop::output {

/// A run of text. `label` marks what the reader finds on the real thing: a part's label, a position's.
struct Piece {
    std::string text; ///< one line (output/clean_text.h), not escaped
    bool label = false;

    bool operator==(const Piece&) const = default;
};

using Phrase = std::vector<Piece>;

[[nodiscard]] inline Piece label(std::string text) {
    return {std::move(text), true};
}

inline void append(Phrase& phrase, Piece piece) {
    phrase.push_back(std::move(piece));
}
inline void append(Phrase& phrase, const Phrase& more) {
    phrase.insert(phrase.end(), more.begin(), more.end());
}
inline void append(Phrase& phrase, std::string text) {
    phrase.push_back({std::move(text), false});
}

/// `phrase("Set ", label("Low drain"), " to ", label("open"), ".")`
template <class... Parts>
[[nodiscard]] Phrase phrase(Parts&&... parts) {
    Phrase result;
    (append(result, std::forward<Parts>(parts)), ...);
    return result;
}

/// "a", "a and b", "a, b and c", with the given last word.
[[nodiscard]] Phrase joined(const std::vector<Phrase>& phrases, const std::string& last_word);

/// The words alone.
[[nodiscard]] std::string plain(const Phrase& phrase);

} // namespace curbstop::output
