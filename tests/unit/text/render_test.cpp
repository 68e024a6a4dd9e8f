#include "text/render.h"

#include <catch2/catch.hpp>

using namespace curbstop::text;

namespace {

/// The message "bad" about one place of a text.
std::string shown(const std::string& text, std::uint32_t begin, std::uint32_t end, RenderOptions options = {}) {
    SourceSet sources;
    const SourceId id = sources.add("van.curb", text);
    return render(Diagnostic{"bad-thing", Severity::error, {id, begin, end}, "bad"}, sources, options);
}

} // namespace

TEST_CASE("a message has its place, its slug and an excerpt") {
    CHECK(shown("step {\n  set tap to open\n}\n", 13, 16) == "van.curb:2:7: error: bad [bad-thing]\n"
                                                             "    2 |   set tap to open\n"
                                                             "      |       ^~~\n");
}

TEST_CASE("labels, notes and remedies follow") {
    SourceSet sources;
    const SourceId id = sources.add("van.curb", "part tap\nset tpa\n");
    Diagnostic d{"unknown-name", Severity::warning, {id, 13, 16}, "`tpa` is not declared"};
    d.labels.push_back({{id, 5, 8}, "`tap` is declared here"});
    d.notes.emplace_back("names are looked up\nin this order");
    d.remedies.emplace_back("set tap");
    CHECK(render(d, sources) == "van.curb:2:5: warning: `tpa` is not declared [unknown-name]\n"
                                "    2 | set tpa\n"
                                "      |     ^~~\n"
                                "van.curb:1:6: note: `tap` is declared here\n"
                                "    1 | part tap\n"
                                "      |      ^~~\n"
                                "  = names are looked up\n"
                                "    in this order\n"
                                "  mend: set tap\n");
}

TEST_CASE("a message without a place names the program") {
    SourceSet sources;
    CHECK(render(Diagnostic{"unreadable-file", Severity::error, {}, "`a.curb` is a directory"}, sources) ==
          "curbstop: error: `a.curb` is a directory [unreadable-file]\n");
}

TEST_CASE("the end of a text and an empty text can be pointed at") {
    CHECK(shown("", 0, 0) == "van.curb:1:1: error: bad [bad-thing]\n"
                             "    1 |\n"
                             "      | ^\n");
    CHECK(shown("tap {", 5, 5) == "van.curb:1:6: error: bad [bad-thing]\n"
                                  "    1 | tap {\n"
                                  "      |      ^\n");
    CHECK(shown("tap {\n", 6, 6) == "van.curb:2:1: error: bad [bad-thing]\n"
                                    "    2 |\n"
                                    "      | ^\n");
    CHECK(shown("tap", 90, 99) == "van.curb:1:4: error: bad [bad-thing]\n"
                                  "    1 | tap\n"
                                  "      |    ^\n");
}

TEST_CASE("tabs, wide and combining characters keep the underline in place") {
    CHECK(shown("\tset\ttap", 5, 8) == "van.curb:1:6: error: bad [bad-thing]\n"
                                       "    1 |     set tap\n"
                                       "      |         ^~~\n");
    CHECK(shown("\u6c34 tap", 4, 7) == "van.curb:1:3: error: bad [bad-thing]\n"
                                       "    1 | \u6c34 tap\n"
                                       "      |    ^~~\n");
    CHECK(shown("e\u0301 tap", 4, 7) == "van.curb:1:4: error: bad [bad-thing]\n"
                                        "    1 | e\u0301 tap\n"
                                        "      |   ^~~\n");
}

TEST_CASE("CRLF leaves no trace") {
    CHECK(shown("set tap\r\nx\r\n", 4, 9) == "van.curb:1:5: error: bad [bad-thing]\n"
                                             "    1 | set tap\n"
                                             "      |     ^~~\n");
}

TEST_CASE("a span over several lines shows its first and its last") {
    CHECK(shown("step {\n  a\n}\n", 5, 12) == "van.curb:1:6: error: bad [bad-thing]\n"
                                              "    1 | step {\n"
                                              "      |      ^\n"
                                              "  ...\n"
                                              "    3 | }\n"
                                              "      | ~\n");
    CHECK(shown("step {\n  a }\n", 0, 12) == "van.curb:1:1: error: bad [bad-thing]\n"
                                             "    1 | step {\n"
                                             "      | ^~~~~~\n"
                                             "    2 |   a }\n"
                                             "      | ~~~~~\n");
}

TEST_CASE("a long line is cut around what is meant") {
    const std::string before(200, 'a');
    const std::string after(200, 'b');
    CHECK(shown(before + "TAP" + after, 200, 203, {false, 30}) == "van.curb:1:201: error: bad [bad-thing]\n"
                                                                  "    1 | \u2026aaaaaaaaaaTAPbbbbbbbbbbbbbbb\u2026\n"
                                                                  "      |            ^~~\n");
    // At the start of the line nothing is cut away before it, at its end nothing after it.
    CHECK(shown("TAP" + after, 0, 3, {false, 30}) == "van.curb:1:1: error: bad [bad-thing]\n"
                                                     "    1 | TAPbbbbbbbbbbbbbbbbbbbbbbbbb\u2026\n"
                                                     "      | ^~~\n");
    CHECK(shown(before + "TAP", 200, 203, {false, 30}) == "van.curb:1:201: error: bad [bad-thing]\n"
                                                          "    1 | \u2026aaaaaaaaaaTAP\n"
                                                          "      |            ^~~\n");
    // What is meant may itself be longer than the line.
    CHECK(shown(before, 0, 200, {false, 20}) == "van.curb:1:1: error: bad [bad-thing]\n"
                                                "    1 | aaaaaaaaaaaaaaaaaa\u2026\n"
                                                "      | ^~~~~~~~~~~~~~~~~~\n");
}

TEST_CASE("a line of many megabytes is quoted without reading all of it") {
    const std::string line(8U << 20U, 'a');
    const std::string text = shown(line, 4U << 20U, (4U << 20U) + 3);
    CHECK(text.size() < 400);
    CHECK(text.find("^~~\n") != std::string::npos);
}

TEST_CASE("a line is never cut inside a character") {
    std::string text;
    for (int i = 0; i < 400; ++i) {
        text += "\u00e4";
    }
    for (std::uint32_t at = 0; at < 800; at += 2) {
        CHECK(shown(text, at, at + 2, {false, 20}).find("\\u{") == std::string::npos);
    }
}

TEST_CASE("control characters of text, path and message never reach the terminal") {
    SourceSet sources;
    const SourceId id = sources.add("v\x1b[2Jan.curb", "label \"\x1b[31m\u202e\"");
    const std::string text = render(
        Diagnostic{
            "bad-thing", Severity::error, {id, 6, 7}, "say \x07\n", {{{id, 7, 8}, "\x1b]0;x"}}, {"\x1b"}, {"\x9b"}},
        sources);
    CHECK(text == "v\\u{1B}[2Jan.curb:1:7: error: say \\u{7}\\u{A} [bad-thing]\n"
                  "    1 | label \"\\u{1B}[31m\\u{202E}\"\n"
                  "      |       ^\n"
                  "v\\u{1B}[2Jan.curb:1:8: note: \\u{1B}]0;x\n"
                  "    1 | label \"\\u{1B}[31m\\u{202E}\"\n"
                  "      |        ^~~~~~\n"
                  "  = \\u{1B}\n"
                  "  mend: \\u{9B}\n");
}

TEST_CASE("colour is only there when asked for") {
    const std::string plain = shown("tap", 0, 3);
    const std::string coloured = shown("tap", 0, 3, {true, 100});
    CHECK(plain.find('\x1b') == std::string::npos);
    CHECK(coloured == "\x1b[1mvan.curb:1:1:\x1b[0m \x1b[1;31merror:\x1b[0m bad [bad-thing]\n"
                      "    1 | tap\n"
                      "      | \x1b[1;31m^~~\x1b[0m\n");
}

TEST_CASE("a sink is rendered in order and says what it left out") {
    SourceSet sources;
    const SourceId id = sources.add("van.curb", "abc");
    DiagnosticSink sink(1);
    sink.add({"w", Severity::warning, {id, 2, 3}, "late"});
    sink.add({"e", Severity::error, {id, 0, 1}, "early"});
    sink.add({"e", Severity::error, {id, 1, 2}, "not kept"});
    sink.add({"w", Severity::warning, {id, 1, 2}, "not kept"});
    sink.add({"w", Severity::warning, {id, 1, 2}, "not kept"});
    CHECK(render(sink, sources) == "van.curb:1:1: error: early [e]\n"
                                   "    1 | abc\n"
                                   "      | ^\n"
                                   "van.curb:1:3: warning: late [w]\n"
                                   "    1 | abc\n"
                                   "      |   ^\n"
                                   "curbstop: 1 more error is not shown\n"
                                   "curbstop: 2 more warnings are not shown\n");
}

TEST_CASE("line numbers of any length keep the columns") {
    std::string text;
    for (int i = 0; i < 123456; ++i) {
        text += '\n';
    }
    const auto end = static_cast<std::uint32_t>(text.size());
    CHECK(shown(text + "tap", end, end + 3) == "van.curb:123457:1: error: bad [bad-thing]\n"
                                               "123457 | tap\n"
                                               "       | ^~~\n");
}
