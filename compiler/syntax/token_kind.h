// What sort of token a token is: one byte, so that a file's tokens are a string that the grammar reads like text.
// Must not know: the grammar, places in texts.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace curbstop::syntax {

/// The order matters: `name` and the soft words are one range (is_name), the hard words are another (is_hard_word).
enum class TokenKind : std::uint8_t {
    end, ///< the end of the text: the last token of every file, found nowhere else
    name,
#define SOFT(text) text##_,
#define HARD(text)
#include "syntax/words.def"
#undef SOFT
#undef HARD
#define SOFT(text)
#define HARD(text) text##_,
#include "syntax/words.def"
#undef SOFT
#undef HARD
    string,
    number,
    unit,         ///< after a number; `%` and what has a `/` wherever they stand
    unknown_unit, ///< two words joined by `/` after a number that are no unit; the grammar has no place for it
    doc,
    open_brace,
    close_brace,
    open_parenthesis,
    close_parenthesis,
    comma,
    dot,
    colon,
    minus,
    equals,
    both_ways, ///< `<->`
    one_way,   ///< `->`
    fall,      ///< `~>`
};

inline constexpr TokenKind last_soft_word = TokenKind::restored_;
inline constexpr TokenKind first_hard_word = TokenKind::all_;
inline constexpr TokenKind last_hard_word = TokenKind::stage_;

/// Whether a token can be used as a name.
constexpr bool is_name(TokenKind kind) {
    return kind >= TokenKind::name && kind <= last_soft_word;
}
constexpr bool is_hard_word(TokenKind kind) {
    return kind >= first_hard_word && kind <= last_hard_word;
}
/// Whether a token is one of the language's words.
constexpr bool is_word(TokenKind kind) {
    return kind > TokenKind::name && kind <= last_hard_word;
}

/// How a word or punctuation mark is written; empty for the kinds that are written in many ways.
std::string_view token_text(TokenKind kind);

/// The word that is written so, else `name`.
TokenKind word_kind(std::string_view text);

/// How the units of the language are spelt, sorted. What they measure is meaning's business.
std::span<const std::string_view> units();
bool is_unit(std::string_view text);

} // namespace curbstop::syntax
