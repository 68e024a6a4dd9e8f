#include "output/trace.h"

#include "output/tiny_model.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::output::tests;

namespace {

const TraceStanding& standing_of(const Tiny& tiny, const Trace& trace, std::string_view name) {
    for (const TraceStanding& each : trace.standing) {
        if (tiny.model.system[each.variable].name == name) {
            return each;
        }
    }
    FAIL("no such thing: " << name);
    return trace.standing.front();
}

Trace after(const Tiny& tiny, std::uint32_t step, std::string_view of = {}) {
    return make_trace(tiny.model, tiny.procedure(), tiny.report, step, of);
}

} // namespace

TEST_CASE("tells which step put a thing as it stands") {
    const Tiny tiny = tiny_model();
    const Trace trace = after(tiny, 3);
    CHECK(trace.after.number == 3);
    CHECK(standing_of(tiny, trace, "pit_drain").values == 2);
    CHECK(standing_of(tiny, trace, "pit_drain").changed);
    CHECK(standing_of(tiny, trace, "pit_drain").since.number == 3);
    CHECK(standing_of(tiny, trace, "stop_valve").since.number == 2);
    CHECK_FALSE(standing_of(tiny, trace, "stop_valve").changed);
    CHECK(standing_of(tiny, trace, "kitchen_tap").since.number == 0);
}

TEST_CASE("before the first step only what is required is known") {
    const Tiny tiny = tiny_model();
    const Trace trace = after(tiny, 0);
    CHECK(trace.report == nullptr);
    CHECK(standing_of(tiny, trace, "stop_valve").values == 2);
    CHECK(standing_of(tiny, trace, "pit_lid").values == 3);
    CHECK(last_step(tiny.report) == 4);
}

TEST_CASE("shows only what was asked for, with what is part of it") {
    const Tiny tiny = tiny_model();
    const Trace trace = after(tiny, 1, "stop_valve");
    CHECK(trace.standing.size() == 1);
    REQUIRE(trace.pressurised.size() == 1);
    CHECK(tiny.model.system[trace.pressurised[0]].name == "stop_valve.house");
    CHECK(trace.contents.empty());
    CHECK(after(tiny, 1, "stop").standing.empty());
}

TEST_CASE("reads as a page") {
    const Tiny tiny = tiny_model();
    const std::string text = trace_text(after(tiny, 2), {});
    CHECK(text.find("Close the hut for winter, after step 2: Shut the stop valve\n") == 0);
    CHECK(text.find("* Stop valve") != std::string::npos);
    CHECK(text.find("held back from Stop valve, by Stop valve (shut)") != std::string::npos);
    CHECK(text.find("safe to stop here") != std::string::npos);
    CHECK(text.find("  Pan: Drinking water\n") != std::string::npos);
}

TEST_CASE("no label moves the cursor or breaks the columns") {
    const Tiny plain = tiny_model();
    const std::string harmless = trace_text(after(plain, 4), {});
    const auto lines = std::count(harmless.begin(), harmless.end(), '\n');
    for (const std::string& label : hostile_labels()) {
        INFO(label);
        const Tiny tiny = tiny_model(label);
        const std::string text = trace_text(after(tiny, 4), {});
        CHECK(text.find('\x1B') == std::string::npos);
        CHECK(text.find("\xE2\x80\xAE") == std::string::npos);
        CHECK(std::count(text.begin(), text.end(), '\n') == lines);
    }
}

TEST_CASE("offers the names that can be traced") {
    const Tiny tiny = tiny_model();
    const auto names = traceable_names(tiny.model.system);
    CHECK(std::find(names.begin(), names.end(), "pit_lid") != names.end());
    CHECK(std::count(names.begin(), names.end(), "stop_valve") == 1);
}
