#include "text/source.h"

#include <catch2/catch.hpp>

using namespace curbstop::text;

TEST_CASE("lines are found by number and by offset") {
    const Source source = make_source("a.curb", "one\ntwo\r\n\nfour");
    REQUIRE(source.line_count() == 4);
    CHECK(source.line(1) == "one");
    CHECK(source.line(2) == "two");
    CHECK(source.line(3).empty());
    CHECK(source.line(4) == "four");
    CHECK(source.line(0).empty());
    CHECK(source.line(5).empty());
    CHECK(source.line_at(0) == 1);
    CHECK(source.line_at(3) == 1); // the line end belongs to its line
    CHECK(source.line_at(4) == 2);
    CHECK(source.line_at(9) == 3);
    CHECK(source.line_at(10) == 4);
    CHECK(source.line_at(1000) == 4);
}

TEST_CASE("columns count code points from 1") {
    //                                        a  ä(2 bytes)  💧(4 bytes)  tab  b
    const Source source = make_source("a.curb", "a\u00e4\U0001F4A7\tb\nc");
    CHECK(source.position(0) == Position{1, 1});
    CHECK(source.position(1) == Position{1, 2});
    CHECK(source.position(3) == Position{1, 3});
    CHECK(source.position(7) == Position{1, 4});
    CHECK(source.position(8) == Position{1, 5});
    CHECK(source.position(10) == Position{2, 1});
    CHECK(source.position(11) == Position{2, 2}); // the end of the text
    CHECK(source.position(99) == Position{2, 2});
}

TEST_CASE("offset undoes position") {
    const Source source = make_source("a.curb", "a\u00e4\U0001F4A7\tb\r\nc");
    for (const std::uint32_t offset : {0U, 1U, 3U, 7U, 8U, 9U, 11U, 12U}) {
        CHECK(source.offset(source.position(offset)) == offset);
    }
    CHECK(source.offset({1, 100}) == 9); // the end of the line, before its line end
    CHECK(source.offset({7, 1}) == 12);
}

TEST_CASE("an empty text has one empty line") {
    const Source source = make_source("a.curb", "");
    CHECK(source.line_count() == 1);
    CHECK(source.line(1).empty());
    CHECK(source.position(0) == Position{1, 1});
}

TEST_CASE("a text that ends with a line end has an empty last line") {
    const Source source = make_source("a.curb", "x\n");
    CHECK(source.line_count() == 2);
    CHECK(source.position(2) == Position{2, 1});
}

TEST_CASE("a set keeps views valid while it grows") {
    SourceSet sources;
    const SourceId first = sources.add("a.curb", "tap");
    const std::string_view text = sources.text({first, 0, 3});
    for (int i = 0; i < 1000; ++i) {
        sources.add("more" + std::to_string(i), "x");
    }
    CHECK(text == "tap");
    CHECK(text.data() == sources[first].text.data());
    CHECK(sources.find("more7") == SourceId{8});
    CHECK_FALSE(sources.find("none"));
}

TEST_CASE("the text of a span never leaves its source") {
    SourceSet sources;
    const SourceId id = sources.add("a.curb", "tap");
    CHECK(sources.text({id, 1, 99}) == "ap");
    CHECK(sources.text({id, 99, 100}).empty());
    CHECK(sources.text({id, 2, 1}).empty());
    CHECK(sources.text({}).empty());
}

TEST_CASE("join spans both") {
    CHECK(join({{0}, 4, 6}, {{0}, 1, 5}) == Span{{0}, 1, 6});
}
