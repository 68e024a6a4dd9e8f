#include "output/json.h"

#include "output/json_parts.h"
#include "output/tiny_model.h"
#include "output/trace.h"

#include <catch2/catch.hpp>

using namespace curbstop;
using namespace curbstop::output;
using namespace curbstop::output::tests;

// That the documents meet their schemas is judged by others (tests/web); here is what a schema cannot see.

TEST_CASE("a message has its place, its labels and its mending") {
    text::SourceSet sources;
    const text::SourceId source = sources.add("hut.curb", "one\ntwo three\n");
    text::DiagnosticSink sink;
    sink.add({"open-path",
              text::Severity::error,
              {source, 4, 7},
              "a \"quoted\" thing",
              {{{source, 8, 13}, "here"}},
              {"a fact"},
              {"a way out"}});
    const CheckedFile file{"hut.curb", &sources, &sink, {}, false};
    CHECK(check_json({&file, 1}).find(R"json({
      "slug": "open-path",
      "severity": "error",
      "message": "a \"quoted\" thing",
      "file": "hut.curb",
      "line": 2,
      "column": 1,
      "end_line": 2,
      "end_column": 4,
      "labels": [
        {
          "text": "here",
          "file": "hut.curb",
          "line": 2,
          "column": 5,
          "end_line": 2,
          "end_column": 10
        }
      ],
      "notes": [
        "a fact"
      ],
      "mend": [
        "a way out"
      ]
    })json") != std::string::npos);
}

TEST_CASE("messages beyond the limit are counted") {
    text::SourceSet sources;
    text::DiagnosticSink sink(1);
    for (int i = 0; i < 3; ++i) {
        sink.add({"open-path", text::Severity::error, {}, "m"});
    }
    const CheckedFile file{"hut.curb", &sources, &sink, {}, false};
    CHECK(check_json({&file, 1}).find("\"diagnostics_left_out\": 2") != std::string::npos);
}

TEST_CASE("files are proved together") {
    text::SourceSet sources;
    const text::DiagnosticSink sink;
    const CheckedFile good{"a.curb", &sources, &sink, {}, true};
    const CheckedFile bad{"b.curb", &sources, &sink, {}, false};
    const std::vector both{good, bad};
    CHECK(check_json({&good, 1}).find("\"proved\": true") != std::string::npos);
    CHECK(check_json(both).find("\"proved\": false") != std::string::npos);
}

TEST_CASE("quantities are numbers with the code of their unit") {
    const Tiny tiny = tiny_model();
    const std::string json = procedure_json(tiny.model, tiny.procedure(), tiny.report, {}, tiny_info());
    CHECK(json.find("\"value\": 400000,\n          \"unit\": \"Pa\",\n          \"text\": \"4 bar (58 psi)\"") !=
          std::string::npos);
}

TEST_CASE("the same procedure twice is the same bytes") {
    const Tiny tiny = tiny_model();
    const auto json = [&] { return procedure_json(tiny.model, tiny.procedure(), tiny.report, {}, tiny_info()); };
    CHECK(json() == json());
    const Trace trace = make_trace(tiny.model, tiny.procedure(), tiny.report, 2, {});
    CHECK(trace_json(trace, {}) == trace_json(trace, {}));
}
