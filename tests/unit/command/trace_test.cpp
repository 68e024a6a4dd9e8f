#include "command/commands.h"

#include "command/sandbox.h"

#include <catch2/catch.hpp>

using namespace curbstop::command::tests;

namespace {

bool holds(const std::string& text, std::string_view what) {
    return text.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("shows the state after a step") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", proved_hut());
    const Outcome outcome = sandbox.run({"trace", "hut.curb", "--after", "1"});
    CHECK(outcome.status == 0);
    CHECK(outcome.out.starts_with("Close up, after step 1: Shut the stop valve\n"));
    CHECK(holds(outcome.out, "since step 1 “Shut the stop valve”, hut.curb:13:"));
    CHECK(sandbox.run({"trace", "hut.curb", "--after", "0"}).status == 0);
    CHECK(sandbox.run({"trace", "hut.curb", "--after", "1", "--as", "json", "-o", "t.json"}).status == 0);
    CHECK(holds(sandbox.read("t.json"), "\"format\": \"curbstop-trace\""));
}

TEST_CASE("shows what can be shown of a refused procedure, and is 1") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", refused_hut());
    const Outcome outcome = sandbox.run({"trace", "hut.curb", "--after", "1"});
    CHECK(outcome.status == 1);
    CHECK(holds(outcome.out, "The procedure is refused"));
    CHECK(holds(outcome.err, "[open-path]"));
}

TEST_CASE("a drawing is written here, named after the system; it needs no proof") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", refused_hut());
    const Outcome outcome = sandbox.run({"draw", "hut.curb"});
    CHECK(outcome.status == 0);
    CHECK(outcome.err == "wrote hut.svg\n");
    CHECK(sandbox.read("hut.svg").starts_with("<svg "));
    CHECK(sandbox.run({"draw", "hut.curb", "--after", "1", "-o", "-"}).status == 1);
}
