#include "output/sheet_info.h"

#include "output/sha256.h"

#include <catch2/catch.hpp>

using namespace curbstop;

TEST_CASE("the content version is the hash that is documented, and knows no paths") {
    text::SourceSet sources;
    (void)sources.add("a.curb", "abc");
    (void)sources.add("b.curb", "");
    CHECK(output::content_version(sources) == output::to_hex(output::sha256("3\nabc0\n")));
    text::SourceSet elsewhere;
    (void)elsewhere.add("/other/a.curb", "abc");
    (void)elsewhere.add("/other/b.curb", "");
    CHECK(output::content_version(elsewhere) == output::content_version(sources));
}

TEST_CASE("text moved from one source to the next makes another version") {
    text::SourceSet one;
    (void)one.add("a", "ab");
    (void)one.add("b", "c");
    text::SourceSet two;
    (void)two.add("a", "a");
    (void)two.add("b", "bc");
    CHECK(output::content_version(one) != output::content_version(two));
}
