#include "syntax/token_kind.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace curbstop::syntax {

namespace {

struct Word {
    std::string_view text;
    TokenKind kind = TokenKind::name;
};

constexpr auto words = std::to_array<Word>({
#define SOFT(text) {#text, TokenKind::text##_},
#define HARD(text) {#text, TokenKind::text##_},
#include "syntax/words.def"
#undef SOFT
#undef HARD
});

constexpr std::size_t longest_word =
    std::ranges::max_element(words, {}, [](const Word& word) { return word.text.size(); })->text.size();

constexpr std::size_t hash(std::string_view text) {
    std::size_t value = text.size();
    for (const char c : text) {
        value = value * 31 + static_cast<unsigned char>(c);
    }
    return value ^ (value >> 9);
}

// A table with room enough that most words are found, and most names refused, at the first look.
constexpr std::size_t slot_count = 1024;
static_assert(words.size() * 4 < slot_count);

constexpr auto slots = [] {
    std::array<Word, slot_count> table{};
    for (const Word& word : words) {
        std::size_t slot = hash(word.text) % slot_count;
        while (!table[slot].text.empty()) {
            slot = (slot + 1) % slot_count;
        }
        table[slot] = word;
    }
    return table;
}();

// Sorted, as the language's reference lists them by dimension.
constexpr auto sorted_units = std::to_array<std::string_view>({
    "%",       "K",       "L",    "L/h",  "L/min", "L/s",  "MPa",      "Pa", "W",     "bar", "cL",
    "cm",      "d",       "dL",   "degC", "degF",  "floz", "floz_imp", "ft", "ftH2O", "g",   "gal",
    "gal/min", "gal_imp", "h",    "inch", "kPa",   "kW",   "kg",       "lb", "m",     "m3",  "m3/h",
    "mH2O",    "mL",      "mbar", "mg",   "mg/L",  "min",  "mm",       "oz", "ppm",   "psi", "s",
});
static_assert(std::ranges::is_sorted(sorted_units));

} // namespace

std::string_view token_text(TokenKind kind) {
    switch (kind) {
#define SOFT(text)                                                                                                     \
    case TokenKind::text##_:                                                                                           \
        return #text;
#define HARD(text)                                                                                                     \
    case TokenKind::text##_:                                                                                           \
        return #text;
#include "syntax/words.def"
#undef SOFT
#undef HARD
    case TokenKind::open_brace:
        return "{";
    case TokenKind::close_brace:
        return "}";
    case TokenKind::open_parenthesis:
        return "(";
    case TokenKind::close_parenthesis:
        return ")";
    case TokenKind::comma:
        return ",";
    case TokenKind::dot:
        return ".";
    case TokenKind::colon:
        return ":";
    case TokenKind::minus:
        return "-";
    case TokenKind::equals:
        return "=";
    case TokenKind::both_ways:
        return "<->";
    case TokenKind::one_way:
        return "->";
    case TokenKind::fall:
        return "~>";
    case TokenKind::end:
    case TokenKind::name:
    case TokenKind::string:
    case TokenKind::number:
    case TokenKind::unit:
    case TokenKind::unknown_unit:
    case TokenKind::doc:
        return {};
    }
    return {};
}

TokenKind word_kind(std::string_view text) {
    if (text.size() > longest_word) {
        return TokenKind::name;
    }
    for (std::size_t slot = hash(text) % slot_count; !slots[slot].text.empty(); slot = (slot + 1) % slot_count) {
        if (slots[slot].text == text) {
            return slots[slot].kind;
        }
    }
    return TokenKind::name;
}

std::span<const std::string_view> units() {
    return sorted_units;
}

bool is_unit(std::string_view text) {
    return std::ranges::binary_search(sorted_units, text);
}

} // namespace curbstop::syntax
