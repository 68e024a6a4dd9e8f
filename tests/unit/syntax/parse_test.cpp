#include "syntax/parse.h"

#include <catch2/catch.hpp>

#include <string>

using namespace curbstop;

namespace {

struct Parsed {
    text::SourceSet sources;
    text::DiagnosticSink sink;
    std::vector<std::string> messages; // "line:column: message [slug]"
    std::size_t declarations = 0;
};

void parse_into(Parsed& parsed, std::string text) {
    const text::SourceId id = parsed.sources.add("test.curb", std::move(text));
    const syntax::Tree tree = syntax::parse(parsed.sources, id, parsed.sink);
    for (const text::Diagnostic& diagnostic : parsed.sink.sorted()) {
        const text::Position at = parsed.sources.position(diagnostic.span);
        parsed.messages.push_back(std::to_string(at.line) + ":" + std::to_string(at.column) + ": " +
                                  diagnostic.message + " [" + std::string(diagnostic.slug) + "]");
    }
    REQUIRE_FALSE(tree.nodes.empty());
    for ([[maybe_unused]] const syntax::Node declaration : tree.root().children()) {
        ++parsed.declarations;
    }
}

} // namespace

TEST_CASE("one run reports every independent error and reads the rest") {
    Parsed parsed;
    parse_into(parsed, R"(group "Taps"
kind tap { port line
  position open { line ~ below }
  positon shut { }
}
system hut "Hut" {
  zone porch "Porch
  part tap tap at porch
}
procedure shut_up "Shut up" on hut {
  stage "All" { step "Shut" { set tap shut } }
}
group last "Last"
)");
    for (const std::string& message : parsed.messages) {
        UNSCOPED_INFO(message);
    }
    CHECK(parsed.messages.size() >= 6);
    std::vector<bool> lines(20);
    for (const std::string& message : parsed.messages) {
        lines[std::stoul(message)] = true;
    }
    for (const std::size_t line : {1U, 3U, 4U, 7U, 8U, 11U}) {
        CHECK(lines[line]);
    }
    CHECK(parsed.declarations >= 4); // kind, system, procedure, the last group
}

TEST_CASE("an empty text and one of comments are files without declarations") {
    for (const char* text : {"", "\n\n", "# nothing\n", "\r\n"}) {
        Parsed parsed;
        parse_into(parsed, text);
        CHECK(parsed.messages.empty());
        CHECK(parsed.declarations == 0);
    }
}

TEST_CASE("braces that are not balanced are said once") {
    Parsed missing;
    parse_into(missing, "system a \"A\" {\n  zone z \"Z\"\n");
    REQUIRE(missing.messages.size() == 1);
    CHECK(missing.messages.front().ends_with("[unclosed-block]"));
    Parsed extra;
    parse_into(extra, "group a \"A\"\n}\ngroup b \"B\"\n");
    REQUIRE(extra.messages.size() == 1);
    CHECK(extra.messages.front().ends_with("[stray-brace]"));
    CHECK(extra.declarations == 2);
}

TEST_CASE("nesting and numbers have limits") {
    Parsed deep;
    parse_into(deep, std::string(10'000, '{'));
    REQUIRE_FALSE(deep.messages.empty());
    CHECK(deep.messages.front().ends_with("[nested-too-deep]"));
    Parsed digits;
    parse_into(digits, "pipe p { bore " + std::string(400, '9') + " mm }");
    REQUIRE(digits.messages.size() == 1);
    CHECK(digits.messages.front().ends_with("[number-too-long]"));
}

TEST_CASE("words of the language may be names where they are not reserved") {
    Parsed parsed;
    parse_into(parsed, "kind drain { port low, top  position open { low ~> below }  position shut { } }\n");
    CHECK(parsed.messages.empty());
    Parsed reserved;
    parse_into(reserved, "kind step { }\n");
    CHECK_FALSE(reserved.messages.empty());
}
