// UTF-8: validity, decoding, counting, and how wide a text is on a terminal.
// Must not know: sources, messages, the language.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace curbstop::text {

/// One decoded code point. A byte that starts no valid sequence decodes as U+FFFD of length 1.
struct CodePoint {
    char32_t value = 0;
    std::uint8_t length = 1; ///< bytes, 1 to 4
    bool valid = true;
};

/// Decodes at a byte offset, which must be below the length of the text. Refuses what RFC 3629 refuses: overlong
/// forms, surrogates, values above U+10FFFF, cut sequences.
[[nodiscard]] CodePoint decode_utf8(std::string_view text, std::size_t offset);

/// Appends a code point; a value that is no Unicode scalar value is written as U+FFFD.
void append_utf8(std::string& text, char32_t value);

/// Byte offset of the first byte that is not UTF-8.
[[nodiscard]] std::optional<std::size_t> first_invalid_utf8(std::string_view text);

/// Number of code points; an invalid byte counts as one.
[[nodiscard]] std::size_t count_code_points(std::string_view text);

/// Number of UTF-16 code units, in which the language server protocol counts columns.
[[nodiscard]] std::size_t count_utf16_units(std::string_view text);

/// Columns that a code point takes on a terminal: 0 for combining marks, 2 for East Asian wide characters and emoji,
/// else 1. Approximate: the common blocks only, not the whole of Unicode's table.
[[nodiscard]] std::size_t display_width(char32_t value);
[[nodiscard]] std::size_t display_width(std::string_view text);

/// True for what must not reach a terminal as it is: control characters (C0, DEL, C1), line and paragraph separators,
/// and characters that change the direction of writing or cannot be seen, with which a text can be made to look
/// other than it is.
[[nodiscard]] bool is_unprintable(char32_t value);

/// The text with each unprintable character and each invalid byte replaced by `\u{HEX}`. Tabs and line ends are
/// unprintable here too: callers that lay out lines handle those first.
[[nodiscard]] std::string printable(std::string_view text);

} // namespace curbstop::text
