#include "command/run.h"

#include "command/sandbox.h"

#include <catch2/catch.hpp>

using namespace curbstop::command::tests;

namespace {

bool holds(const std::string& text, std::string_view what) {
    return text.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("says its version and helps") {
    const Sandbox sandbox;
    CHECK(sandbox.run({"--version"}).out == "curbstop 9.9.9\n");
    for (const char* command : {"check", "sheet", "trace", "draw"}) {
        const Outcome help = sandbox.run({command, "--help"});
        CHECK(help.status == 0);
        CHECK(holds(help.out, "Example:\n  curbstop " + std::string(command)));
        CHECK(holds(help.out, "Exit status: 0 proved (or done), 1 refused, 2 could not be used."));
    }
}

TEST_CASE("arguments that make no sense are 2, with a hint and nothing on standard output") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", proved_hut());
    const std::vector<std::vector<std::string>> all{
        {},
        {"chekc"},
        {"check"},
        {"check", "hut.curb", "--as", "yaml"},
        {"check", "hut.curb", "--colour", "blue"},
        {"sheet", "hut.curb", "other.curb"},
        {"sheet", "hut.curb", "--procedure", "nothing"},
        {"sheet", "hut.curb", "--drawing"},
        {"sheet", "hut.curb", "--as", "markdown", "--pocket"},
        {"trace", "hut.curb"},
        {"trace", "hut.curb", "--after", "minus"},
        {"trace", "hut.curb", "--after", "-1"},
        {"trace", "hut.curb", "--after", "99"},
        {"trace", "hut.curb", "--after", "1", "--of", "tapp"},
        {"draw", "hut.curb", "--procedure", "close_up"},
        {"draw", "hut.curb", "--after", "0"},
        {"draw", "hut.curb", "--zone", "attic"},
        {"draw", "hut.curb", "--zone", ""},
        {"draw", "hut.curb", "--zone"},
        {"check", "hut.curb", "--stdlib", "nowhere"},
    };
    for (const auto& arguments : all) {
        INFO(Catch::Detail::stringify(arguments));
        const Outcome outcome = sandbox.run(arguments);
        CHECK(outcome.status == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.starts_with("curbstop: "));
    }
    CHECK(sandbox.names() == std::vector<std::string>{"hut.curb"});
}

TEST_CASE("what stands in an argument cannot move the cursor") {
    const Sandbox sandbox;
    CHECK_FALSE(holds(sandbox.run({"check", "\x1B[31mred.curb"}).out, "\x1B"));
    CHECK_FALSE(holds(sandbox.run({"check", "\x1B[31mred.curb"}).err, "\x1B"));
    CHECK_FALSE(holds(sandbox.run({"\x1B[31m"}).err, "\x1B"));
    CHECK_FALSE(holds(sandbox.run({"check", "x", "--as", "\x1B[31m"}).err, "\x1B"));
}

TEST_CASE("a full disk or a reader that has gone is 2") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", proved_hut());
    for (const auto& arguments : std::vector<std::vector<std::string>>{{"check", "hut.curb"},
                                                                       {"sheet", "hut.curb", "-o", "-"},
                                                                       {"trace", "hut.curb", "--after", "1"},
                                                                       {"draw", "hut.curb", "-o", "-"},
                                                                       {"--help"},
                                                                       {"--version"}}) {
        INFO(Catch::Detail::stringify(arguments));
        const Outcome outcome = sandbox.run(arguments, {}, "/dev/full");
        CHECK(outcome.status == 2);
        CHECK(holds(outcome.err, "standard output: cannot be written"));
    }
}
