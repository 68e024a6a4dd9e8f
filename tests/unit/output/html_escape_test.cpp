#include "output/html_escape.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;

TEST_CASE("escapes what is special in text and in attributes") {
    CHECK(html_escaped("<a href=\"x\" title='y'>&amp;") == "&lt;a href=&quot;x&quot; title=&#39;y&#39;&gt;&amp;amp;");
    CHECK(html_escaped("Stop valve, 4 bar – é") == "Stop valve, 4 bar – é");
}

TEST_CASE("replaces what neither HTML nor XML may hold") {
    CHECK(html_escaped(std::string("a\0b\x1B\x7F", 5)) == "a\uFFFDb\uFFFD\uFFFD");
    CHECK(html_escaped("\xEF\xBF\xBE|\xEF\xBF\xBF|\xEF\xB7\x90") == "\uFFFD|\uFFFD|\uFFFD"); // non-characters
    CHECK(html_escaped("\xC3|\xED\xA0\x80") == "\uFFFD|\uFFFD\uFFFD\uFFFD");                 // cut, surrogate
    CHECK(html_escaped("a\tb\nc") == "a\tb\nc");
}

TEST_CASE("no text ends a string of a style sheet, the style or the element") {
    CHECK(css_string("Hut 4") == "\"Hut 4\"");
    CHECK(css_string("\";} </style>\\") == "\"\\22 \\3b \\7d  \\3c \\2f style\\3e \\5c \"");
    CHECK(css_string("a\nb") == "\"a\\a b\"");
    CHECK(css_string("é") == "\"é\"");
    // One space after an escape belongs to it (CSS Syntax Module Level 3, 4.3.7): the second is the text's own.
    CHECK(css_string("a: b") == "\"a\\3a  b\"");
}
