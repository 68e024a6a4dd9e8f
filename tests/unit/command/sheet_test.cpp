#include "command/commands.h"

#include "command/sandbox.h"

#include <catch2/catch.hpp>

using namespace curbstop::command::tests;

namespace {

bool holds(const std::string& text, std::string_view what) {
    return text.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("a sheet is written here, named after the procedure") {
    const Sandbox sandbox;
    sandbox.write("huts/hut.curb", proved_hut());
    const Outcome outcome = sandbox.run({"sheet", "huts/hut.curb"});
    CHECK(outcome.status == 0);
    CHECK(outcome.err == "wrote close_up.html\n");
    CHECK(sandbox.names() == std::vector<std::string>{"close_up.html", "huts"});
    CHECK(sandbox.read("close_up.html").starts_with("<!DOCTYPE html>"));
    CHECK(sandbox.run({"sheet", "huts/hut.curb", "--as", "markdown"}).err == "wrote close_up.md\n");
    CHECK(sandbox.run({"sheet", "huts/hut.curb", "--as", "json"}).err == "wrote close_up.json\n");
    CHECK(sandbox.run({"sheet", "huts/hut.curb", "--pocket"}).err == "wrote close_up.pocket.html\n");
    CHECK(sandbox.read("close_up.pocket.html").starts_with("<!DOCTYPE html>"));
}

TEST_CASE("a sheet goes where it is sent") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", proved_hut());
    const Outcome outcome = sandbox.run({"sheet", "hut.curb", "-o", "-"});
    CHECK(outcome.status == 0);
    CHECK(outcome.out.starts_with("<!DOCTYPE html>"));
    CHECK(outcome.err.empty());
    CHECK(sandbox.run({"sheet", "hut.curb", "-o", "other.html"}).status == 0);
    CHECK(sandbox.read("other.html") == outcome.out);
    CHECK(sandbox.run({"sheet", "hut.curb", "-o", "no/such/folder.html"}).status == 2);
    CHECK(sandbox.run({"sheet", "hut.curb", "-o", "."}).status == 2);
}

TEST_CASE("a refused procedure gets no sheet") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", refused_hut());
    for (const char* form : {"html", "markdown", "json"}) {
        const Outcome outcome = sandbox.run({"sheet", "hut.curb", "--as", form});
        CHECK(outcome.status == 1);
        CHECK(outcome.out.empty());
        CHECK(holds(outcome.err, "[open-path]"));
        CHECK(holds(outcome.err, "curbstop: no sheet is written: close_up is refused\n"));
    }
    CHECK(sandbox.names() == std::vector<std::string>{"hut.curb"});
}

TEST_CASE("a refused procedure leaves an older sheet as it was") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", refused_hut());
    sandbox.write("close_up.html", "old");
    CHECK(sandbox.run({"sheet", "hut.curb"}).status == 1);
    CHECK(sandbox.read("close_up.html") == "old");
}

TEST_CASE("several procedures get a sheet each, or one is chosen") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", proved_hut() + "procedure again \"Again\" on hut { requires in_use  stage \"S\" { step "
                                             "\"Shut\" { set stop_valve to shut } } }\n");
    CHECK(sandbox.run({"sheet", "hut.curb"}).err == "wrote close_up.html\nwrote again.html\n");
    CHECK(sandbox.run({"sheet", "hut.curb", "--procedure", "again", "-o", "-"}).status == 0);
    const Outcome unclear = sandbox.run({"sheet", "hut.curb", "-o", "one.html"});
    CHECK(unclear.status == 2);
    CHECK(holds(unclear.err, "choose one with --procedure: close_up, again"));
    const Outcome misspelt = sandbox.run({"sheet", "hut.curb", "--procedure", "agian"});
    CHECK(misspelt.status == 2);
    CHECK(holds(misspelt.err, "did you mean: again"));
}

TEST_CASE("what starts from a refused procedure gets no sheet either") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", refused_hut() +
                                  "procedure after \"After\" on hut { requires as close_up leaves it  stage "
                                  "\"S\" { step \"Shut\" { set tap to shut } } }\n");
    const Outcome outcome = sandbox.run({"sheet", "hut.curb", "--procedure", "after"});
    CHECK(outcome.status == 1);
    CHECK(holds(outcome.err, "no sheet is written: after is refused"));
    CHECK(holds(sandbox.run({"check", "hut.curb"}).out, "after: refused: what it starts from is refused\n"));
    CHECK_FALSE(holds(sandbox.run({"check", "hut.curb", "--as", "json"}).out, "\"proved\": true"));
}

TEST_CASE("the same sheet from another folder is the same bytes") {
    const Sandbox here;
    const Sandbox there;
    here.write("hut.curb", proved_hut());
    there.write("deep/er/hut.curb", proved_hut());
    CHECK(here.run({"sheet", "hut.curb", "-o", "-"}).out == there.run({"sheet", "deep/er/hut.curb", "-o", "-"}).out);
}
