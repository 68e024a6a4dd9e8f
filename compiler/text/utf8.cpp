#include "text/utf8.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <iterator>

namespace curbstop::text {
namespace {

constexpr CodePoint invalid{0xFFFD, 1, false};

bool is_continuation(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

struct Range {
    char32_t first;
    char32_t last;
};

template <std::size_t count>
bool is_in(const std::array<Range, count>& ranges, char32_t value) {
    return std::any_of(ranges.begin(), ranges.end(),
                       [value](Range range) { return value >= range.first && value <= range.last; });
}

// Blocks of combining marks, and zero-width joiners and variation selectors (Unicode block names in order: Combining
// Diacritical Marks; the same, Extended, Supplement; for Symbols; ZWNJ and ZWJ; Variation Selectors; Half Marks).
constexpr std::array<Range, 7> zero_width{{{0x0300, 0x036F},
                                           {0x1AB0, 0x1AFF},
                                           {0x1DC0, 0x1DFF},
                                           {0x20D0, 0x20FF},
                                           {0x200C, 0x200D},
                                           {0xFE00, 0xFE0F},
                                           {0xFE20, 0xFE2F}}};

// Blocks whose characters are wide or full-width in Unicode's East Asian Width (UAX #11), and pictographs.
constexpr std::array<Range, 9> double_width{{{0x1100, 0x115F},
                                             {0x2E80, 0xA4CF},
                                             {0xAC00, 0xD7A3},
                                             {0xF900, 0xFAFF},
                                             {0xFE30, 0xFE4F},
                                             {0xFF00, 0xFF60},
                                             {0xFFE0, 0xFFE6},
                                             {0x1F300, 0x1FAFF},
                                             {0x20000, 0x3FFFD}}};

constexpr std::array<Range, 10> unprintables{{{0x0000, 0x001F},
                                              {0x007F, 0x009F},
                                              {0x00AD, 0x00AD},     // soft hyphen
                                              {0x061C, 0x061C},     // Arabic letter mark
                                              {0x200B, 0x200B},     // zero-width space
                                              {0x200E, 0x200F},     // direction marks
                                              {0x2028, 0x202E},     // separators, direction embeddings and overrides
                                              {0x2060, 0x206F},     // word joiner, direction isolates
                                              {0xFEFF, 0xFEFF},     // byte order mark
                                              {0xE0000, 0xE007F}}}; // tags

} // namespace

CodePoint decode_utf8(std::string_view text, std::size_t offset) {
    const auto byte = [&](std::size_t i) {
        return static_cast<char32_t>(static_cast<unsigned char>(text[offset + i]));
    };
    const char32_t lead = byte(0);
    if (lead < 0x80) {
        return {lead, 1, true};
    }
    std::uint8_t length = 0;
    char32_t value = 0;
    char32_t least = 0;
    if (lead >= 0xC2 && lead <= 0xDF) {
        length = 2, value = lead & 0x1FU, least = 0x80;
    } else if (lead >= 0xE0 && lead <= 0xEF) {
        length = 3, value = lead & 0x0FU, least = 0x800;
    } else if (lead >= 0xF0 && lead <= 0xF4) {
        length = 4, value = lead & 0x07U, least = 0x10000;
    } else {
        return invalid;
    }
    if (text.size() - offset < length) {
        return invalid;
    }
    for (std::size_t i = 1; i < length; ++i) {
        if (!is_continuation(text[offset + i])) {
            return invalid;
        }
        value = (value << 6U) | (byte(i) & 0x3FU);
    }
    if (value < least || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) {
        return invalid;
    }
    return {value, length, true};
}

void append_utf8(std::string& text, char32_t value) {
    if (value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) {
        value = 0xFFFD;
    }
    const auto put = [&text](char32_t byte) { text.push_back(static_cast<char>(byte)); };
    if (value < 0x80) {
        put(value);
    } else if (value < 0x800) {
        put(0xC0U | (value >> 6U));
        put(0x80U | (value & 0x3FU));
    } else if (value < 0x10000) {
        put(0xE0U | (value >> 12U));
        put(0x80U | ((value >> 6U) & 0x3FU));
        put(0x80U | (value & 0x3FU));
    } else {
        put(0xF0U | (value >> 18U));
        put(0x80U | ((value >> 12U) & 0x3FU));
        put(0x80U | ((value >> 6U) & 0x3FU));
        put(0x80U | (value & 0x3FU));
    }
}

std::optional<std::size_t> first_invalid_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        if (static_cast<unsigned char>(text[at]) < 0x80) { // nearly all of a source file
            ++at;
            continue;
        }
        const CodePoint point = decode_utf8(text, at);
        if (!point.valid) {
            return at;
        }
        at += point.length;
    }
    return std::nullopt;
}

std::size_t count_code_points(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size(); at += decode_utf8(text, at).length) {
        ++count;
    }
    return count;
}

std::size_t count_utf16_units(std::string_view text) {
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint point = decode_utf8(text, at);
        count += point.value > 0xFFFF ? 2 : 1;
        at += point.length;
    }
    return count;
}

std::size_t display_width(char32_t value) {
    if (value < 0x300) {
        return 1;
    }
    if (is_in(zero_width, value)) {
        return 0;
    }
    return is_in(double_width, value) ? 2 : 1;
}

std::size_t display_width(std::string_view text) {
    std::size_t width = 0;
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint point = decode_utf8(text, at);
        width += display_width(point.value);
        at += point.length;
    }
    return width;
}

bool is_unprintable(char32_t value) {
    return (value < 0x20 || value >= 0x7F) && is_in(unprintables, value);
}

std::string printable(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint point = decode_utf8(text, at);
        if (!point.valid) {
            fmt::format_to(std::back_inserter(out), "\\u{{{:X}}}", static_cast<unsigned char>(text[at]));
        } else if (is_unprintable(point.value)) {
            fmt::format_to(std::back_inserter(out), "\\u{{{:X}}}", static_cast<std::uint32_t>(point.value));
        } else {
            out.append(text.substr(at, point.length));
        }
        at += point.length;
    }
    return out;
}

} // namespace curbstop::text
