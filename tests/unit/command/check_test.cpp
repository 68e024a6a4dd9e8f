#include "command/commands.h"

#include "command/sandbox.h"

#include <catch2/catch.hpp>

using namespace curbstop::command::tests;

namespace {

bool holds(const std::string& text, std::string_view what) {
    return text.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("a proved procedure is 0 and a line that says so, and what is not proved") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", proved_hut());
    const Outcome outcome = sandbox.run({"check", "hut.curb"});
    CHECK(outcome.status == 0);
    CHECK(holds(outcome.out, "hut.curb: close_up: proved: 2 steps, 3 instants, 1 start configuration\n"));
    CHECK(holds(outcome.out, "\nnot proved of any procedure: "));
    CHECK(outcome.err.empty());
}

TEST_CASE("a refused procedure is 1 and says where") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", refused_hut());
    const Outcome outcome = sandbox.run({"check", "hut.curb"});
    CHECK(outcome.status == 1);
    CHECK(outcome.out.starts_with("hut.curb:13:"));
    CHECK(holds(outcome.out, "[open-path]"));
    CHECK(holds(outcome.out, "\nhut.curb: close_up: refused\n"));
    CHECK_FALSE(holds(outcome.out, "not proved of any procedure"));
}

TEST_CASE("a file that cannot be read is 2, whatever the others are") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", proved_hut());
    sandbox.write("bad.curb", "\xFF\xFE");
    const Outcome missing = sandbox.run({"check", "hut.curb", "none.curb"});
    CHECK(missing.status == 2);
    CHECK(holds(missing.out, "none.curb"));
    CHECK(holds(missing.out, "close_up: proved"));
    CHECK(sandbox.run({"check", "bad.curb"}).status == 2);
    CHECK(sandbox.run({"check", "."}).status == 2);
    CHECK(sandbox.run({"check", "/dev/zero"}).status == 2);
}

TEST_CASE("standard input is a file too") {
    const Sandbox sandbox;
    CHECK(sandbox.run({"check", "-"}, proved_hut()).status == 0);
    CHECK(sandbox.run({"check", "-"}, refused_hut()).status == 1);
    CHECK(sandbox.run({"check", "-"}, "").status == 1);
}

TEST_CASE("verdicts as JSON carry the same status") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", refused_hut());
    const Outcome outcome = sandbox.run({"check", "--as", "json", "hut.curb"});
    CHECK(outcome.status == 1);
    CHECK(outcome.out.starts_with("{\n  \"format\": \"curbstop-check\",\n  \"version\": 1,\n  \"proved\": false,"));
    CHECK(holds(outcome.out, "\"slug\": \"open-path\""));
    CHECK(outcome.err.empty());
}

TEST_CASE("colour comes when it is asked for") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", refused_hut());
    CHECK(holds(sandbox.run({"check", "hut.curb", "--colour", "always"}).out, "\x1B["));
    CHECK_FALSE(holds(sandbox.run({"check", "hut.curb", "--colour", "never"}).out, "\x1B["));
    CHECK_FALSE(holds(sandbox.run({"check", "hut.curb"}).out, "\x1B[")); // a file is no terminal
}
