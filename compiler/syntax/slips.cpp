#include "syntax/slips.h"

#include "text/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>

namespace curbstop::syntax {

namespace {

struct Known {
    char32_t character;
    std::string_view remedy;
    std::optional<TokenKind> meant = {};
};

constexpr auto known = std::to_array<Known>({
    {U';', "leave it out: blocks have braces, and nothing else needs an end"},
    {U'/', "a comment starts with `#`"},
    {U'!', "write `not`"},
    {U'&', "write `and`"},
    {U'|', "write `or`"},
    {U'[', "lists need no brackets: write `a, b`"},
    {U']', "lists need no brackets: write `a, b`"},
    {U'<', "write `below`, or `<->` for a way that is open both ways", TokenKind::below_},
    {U'>', "write `->` for one way, `~>` for a fall through air", TokenKind::one_way},
    {U'~', "write `~>` for a fall through air", TokenKind::fall},
    {U'+', "a positive number has no sign"},
    {U'"', "write `\"` at both ends of a text"},
    {U'\'', "a text stands between two `\"`"},
    {U'`', "a text stands between two `\"`"},
    {U'\u2018', "a text stands between two `\"`"},
    {U'\u2019', "a text stands between two `\"`"},
    {U'\u201C', "a text stands between two straight `\"`"},
    {U'\u201D', "a text stands between two straight `\"`"},
    {U'\u2010', "write `-`", TokenKind::minus},
    {U'\u2011', "write `-`", TokenKind::minus},
    {U'\u2012', "write `-`", TokenKind::minus},
    {U'\u2013', "write `-`", TokenKind::minus},
    {U'\u2014', "write `-`", TokenKind::minus},
    {U'\u2212', "write `-`", TokenKind::minus},
    {U'\u2192', "write `->`", TokenKind::one_way},
    {U'\u2194', "write `<->`", TokenKind::both_ways},
    {U'\u00B0', "write `degC` or `degF`"},
    {U'\u00A0', "write an ordinary space"},
});

bool starts_with_text_mark(std::string_view written) {
    constexpr auto marks = std::to_array<std::string_view>({"'", "\u201C", "\u201D", "\u201E", "\u00AB", "\u00BB"});
    return std::ranges::any_of(
        marks, [&](std::string_view mark) { return written.size() > mark.size() && written.starts_with(mark); });
}

/// A character as a reader sees it, with its code point where seeing is not enough.
std::string describe(const text::CodePoint& character, std::string_view written) {
    if (!character.valid) {
        return fmt::format("the byte {:#04x} is not UTF-8", static_cast<unsigned char>(written.front()));
    }
    const auto value = static_cast<std::uint32_t>(character.value);
    if (value > 0x20 && value < 0x7F) {
        return fmt::format("`{}` means nothing here", written);
    }
    if (text::is_unprintable(character.value)) {
        return fmt::format("a character that cannot be seen, U+{:04X}, means nothing here", value);
    }
    return fmt::format("`{}` (U+{:04X}) means nothing here", written, value);
}

} // namespace

Slip explain_slip(std::string_view written) {
    if (starts_with_text_mark(written)) {
        return {"this text has the wrong quotation marks", "a text stands between two straight `\"`",
                TokenKind::string};
    }
    if (written.starts_with("//") || written.starts_with("/*")) {
        return {fmt::format("`{}` starts no comment", written.substr(0, 2)), "a comment starts with `#`"};
    }
    if (written == "==") {
        return {"`==` means nothing here", "write `is`", TokenKind::is_};
    }
    if (written == "!=") {
        return {"`!=` means nothing here", "write `is not`"};
    }
    if (written == "&&") {
        return {"`&&` means nothing here", "write `and`", TokenKind::and_};
    }
    if (written == "||") {
        return {"`||` means nothing here", "write `or`", TokenKind::or_};
    }
    if (written == "\u00B0C" || written == "\u00B0F") {
        return {fmt::format("`{}` is no unit of the language", written), fmt::format("write `deg{}`", written.back()),
                TokenKind::unit};
    }
    const text::CodePoint character = text::decode_utf8(written, 0);
    Slip slip{describe(character, written), {}};
    if (!character.valid) {
        return slip;
    }
    for (const Known& entry : known) {
        if (entry.character == character.value) {
            slip.remedy = entry.remedy;
            slip.meant = entry.meant;
        }
    }
    return slip;
}

} // namespace curbstop::syntax
