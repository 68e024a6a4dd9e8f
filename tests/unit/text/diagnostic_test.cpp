#include "text/diagnostic.h"

#include <catch2/catch.hpp>

using namespace curbstop::text;

namespace {

Diagnostic message(std::uint32_t source, std::uint32_t begin, std::string words, Severity severity = Severity::error) {
    return {"test", severity, {{source}, begin, begin + 1}, std::move(words)};
}

} // namespace

TEST_CASE("messages are sorted by source, then place, else by arrival") {
    DiagnosticSink sink;
    sink.add(message(1, 0, "fifth"));
    sink.add(message(0, 9, "third"));
    sink.add(message(0, 9, "fourth", Severity::warning));
    sink.add(message(0, 2, "second"));
    sink.add({"test", Severity::error, {}, "first"});
    std::string order;
    for (const Diagnostic& d : sink.sorted()) {
        order += d.message + " ";
    }
    CHECK(order == "first second third fourth fifth ");
    CHECK(sink.diagnostics().front().message == "fifth");
    CHECK(sink.error_count() == 4);
    CHECK(sink.warning_count() == 1);
}

TEST_CASE("beyond the limit messages are counted, each severity for itself") {
    DiagnosticSink sink;
    for (std::uint32_t i = 0; i < max_diagnostics + 7; ++i) {
        sink.add(message(0, i, "e"));
    }
    sink.add(message(0, 0, "w", Severity::warning));
    CHECK(sink.diagnostics().size() == max_diagnostics + 1);
    CHECK(sink.error_count() == max_diagnostics + 7);
    CHECK(sink.errors_left_out() == 7);
    CHECK(sink.warnings_left_out() == 0);
}

TEST_CASE("warnings and notes are no errors") {
    DiagnosticSink sink;
    CHECK_FALSE(sink.has_errors());
    sink.add(message(0, 0, "w", Severity::warning));
    sink.add(message(0, 0, "n", Severity::note));
    CHECK_FALSE(sink.has_errors());
    sink.add(message(0, 0, "e"));
    CHECK(sink.has_errors());
}
