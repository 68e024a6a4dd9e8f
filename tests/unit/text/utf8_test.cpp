#include "text/utf8.h"

#include <catch2/catch.hpp>

using namespace curbstop::text;
using namespace std::string_view_literals;

TEST_CASE("valid UTF-8 is accepted up to the borders of each length") {
    // RFC 3629, section 3: the least and greatest of each length.
    for (const char32_t value : {0x00, 0x7F, 0x80, 0x7FF, 0x800, 0xD7FF, 0xE000, 0xFFFF, 0x10000, 0x10FFFF}) {
        std::string text;
        append_utf8(text, value);
        CHECK_FALSE(first_invalid_utf8(text));
        const CodePoint point = decode_utf8(text, 0);
        CHECK(point.valid);
        CHECK(point.value == value);
        CHECK(point.length == text.size());
    }
}

TEST_CASE("what RFC 3629 forbids is refused at its first byte") {
    CHECK(first_invalid_utf8("ab\x80") == 2);           // continuation without a lead
    CHECK(first_invalid_utf8("a\xC0\xAF") == 1);        // overlong `/`
    CHECK(first_invalid_utf8("\xE0\x80\xAF") == 0);     // overlong, three bytes
    CHECK(first_invalid_utf8("\xF0\x80\x80\xAF") == 0); // overlong, four bytes
    CHECK(first_invalid_utf8("\xED\xA0\x80") == 0);     // surrogate
    CHECK(first_invalid_utf8("\xF4\x90\x80\x80") == 0); // above U+10FFFF
    CHECK(first_invalid_utf8("\xF8\x88\x80\x80\x80") == 0);
    CHECK(first_invalid_utf8("tap \xC3") == 4); // cut
    CHECK(first_invalid_utf8("\xE2\x82") == 0);
    CHECK(first_invalid_utf8("\xFF") == 0);
}

TEST_CASE("counting") {
    CHECK(count_code_points("") == 0);
    CHECK(count_code_points("a\u00e4\U0001F4A7") == 3);
    CHECK(count_code_points("a\xFF\xFE") == 3);
    CHECK(count_utf16_units("a\u00e4\U0001F4A7") == 4);
}

TEST_CASE("display width") {
    CHECK(display_width("tap") == 3);
    CHECK(display_width("e\u0301") == 1);    // combining acute
    CHECK(display_width("\u6c34") == 2);     // CJK "water"
    CHECK(display_width("\U0001F4A7") == 2); // droplet
    CHECK(display_width("\u00b0C \u2026") == 4);
}

TEST_CASE("appending what is no scalar value writes the replacement character") {
    std::string text;
    append_utf8(text, 0xD800);
    append_utf8(text, 0x110000);
    CHECK(text == "\uFFFD\uFFFD");
}

TEST_CASE("nothing that steers a terminal or hides text stays as it is") {
    CHECK(printable("tap \u00e4\u2026") == "tap \u00e4\u2026");
    CHECK(printable("\x1b[31m") == "\\u{1B}[31m");
    CHECK(printable("a\0b"sv) == "a\\u{0}b");
    CHECK(printable("a\nb\tc\r\x7f") == "a\\u{A}b\\u{9}c\\u{D}\\u{7F}");
    CHECK(printable("\u009b31m") == "\\u{9B}31m");                // C1: the one-character form of ESC [
    CHECK(printable("a\u202eb\u2066") == "a\\u{202E}b\\u{2066}"); // direction overrides
    CHECK(printable("a\u200bb") == "a\\u{200B}b");
    CHECK(printable("a\xFF"
                    "b") == "a\\u{FF}b");
}
