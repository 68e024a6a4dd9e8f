#include "output/clean_text.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;

TEST_CASE("makes one line of any text") {
    CHECK(one_line("  Stop \n\t valve\r\n") == "Stop valve");
    CHECK(one_line("a\xC2\xA0\xE3\x80\x80"
                   "b") == "a b"); // no-break and ideographic space
    CHECK(one_line("   ").empty());
    CHECK(one_line_or(" \n ", "otherwise") == "otherwise");
    CHECK(one_line_or("own", "otherwise") == "own");
}

TEST_CASE("shows what cannot be seen or turns the text around") {
    CHECK(one_line("a\xE2\x80\xAE"
                   "b") == "a\\u{202E}b");
    CHECK(one_line(std::string("a\0b", 3)) == "a\\u{0}b");
    CHECK(one_line("bad\xFFutf") == "bad\\u{FF}utf");
}

TEST_CASE("leaves other scripts and joined emoji as they are") {
    const std::string text = "\xD7\xA9\xD7\xA1 \xF0\x9F\x91\xA8\xE2\x80\x8D\xF0\x9F\x91\xA9";
    CHECK(one_line(text) == text);
}

TEST_CASE("begins our own sentences with a capital") {
    CHECK(capital("only with Shower") == "Only with Shower");
    CHECK(capital("\xC3\xA4hnlich") == "\xC3\xA4hnlich");
    CHECK(capital("").empty());
}
