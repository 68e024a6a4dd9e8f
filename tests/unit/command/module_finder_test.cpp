#include "command/module_finder.h"

#include "command/compile.h"
#include "command/sandbox.h"

#include <catch2/catch.hpp>

using namespace curbstop;
using namespace curbstop::command;
using namespace curbstop::command::tests;

namespace {

bool holds(const std::string& text, std::string_view what) {
    return text.find(what) != std::string::npos;
}

// Finds `name` as used by `user`, without the disk.
struct Search {
    text::SourceSet sources;
    text::DiagnosticSink sink;
    text::MemoryFileReader reader;

    std::string path_of(const std::string& user, std::string_view name, std::optional<std::string> stdlib,
                        std::optional<std::string> fallback) {
        const text::SourceId root = sources.add(user, "");
        Modules modules(sources, sink, reader, std::move(stdlib), std::move(fallback));
        const meaning::FoundModule found = modules.find(name, root, {});
        return found.source ? sources[*found.source].path : std::string();
    }
};

} // namespace

TEST_CASE("a module is looked for beside the file, then in the standard library") {
    Search search;
    search.reader.set("huts/parts.curb", "beside");
    search.reader.set("lib/parts.curb", "library");
    search.reader.set("lib/water.curb", "library");
    CHECK(search.path_of("huts/a.curb", "parts", {}, "lib") == "huts/parts.curb");
    CHECK(search.path_of("huts/b.curb", "water", {}, "lib") == "stdlib/water.curb");
    CHECK(search.path_of("huts/c.curb", "water", "lib", "other") == "lib/water.curb");
    CHECK(search.path_of("huts/d.curb", "nothing", {}, "lib").empty());
}

TEST_CASE("a module of the standard library is not looked for beside it under another name") {
    Search search;
    search.reader.set("stdlib/parts.curb", "a folder that happens to be called so");
    search.reader.set("lib/parts.curb", "library");
    const text::SourceId water = search.sources.add("stdlib/water.curb", "");
    Modules modules(search.sources, search.sink, search.reader, {}, "lib");
    const auto found = modules.find("parts", water, {});
    REQUIRE(found.source.has_value());
    CHECK(search.sources[*found.source].text == "library");
}

TEST_CASE("the library inside the program is there when no folder is") {
    Search search;
    CHECK(search.path_of("a.curb", "water", {}, {}) == "stdlib/water.curb");
    CHECK(search.path_of("b.curb", "water", {}, {}) == "stdlib/water.curb"); // the same source, not read twice
    CHECK(search.sources.size() == 3);
}

TEST_CASE("a module that cannot be read is told and makes the file unusable") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", "use parts\n" + proved_hut());
    sandbox.write("parts.curb", "\xFF");
    const Outcome outcome = sandbox.run({"check", "hut.curb"});
    CHECK(outcome.status == 2);
    CHECK(holds(outcome.out, "hut.curb:1:5: error: `parts.curb` is not UTF-8"));
}

TEST_CASE("a link may lead about in its folder but not out of it") {
    const Sandbox sandbox;
    sandbox.write("huts/hut.curb", "use parts\n" + proved_hut());
    sandbox.write("huts/real.curb", "# nothing\n");
    sandbox.write("outside.curb", "# a secret\n");
    std::filesystem::create_symlink("real.curb", sandbox.path("huts/parts.curb"));
    CHECK(sandbox.run({"check", "huts/hut.curb"}).status == 0);
    std::filesystem::remove(sandbox.path("huts/parts.curb"));
    std::filesystem::create_symlink("../outside.curb", sandbox.path("huts/parts.curb"));
    const Outcome outcome = sandbox.run({"check", "huts/hut.curb"});
    CHECK(outcome.status == 2);
    CHECK(holds(outcome.out, "is a link that leads out of its folder"));
    CHECK_FALSE(holds(outcome.out, "secret"));
}

TEST_CASE("the standard library can be another folder") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", proved_hut());
    sandbox.write("lib/water.curb", "# empty\n");
    const Outcome outcome = sandbox.run({"check", "hut.curb", "--stdlib", "lib"});
    CHECK(outcome.status == 1);
    CHECK(holds(outcome.out, "there is no kind `mains_stop`"));
    CHECK(sandbox.run({"check", "hut.curb", "--stdlib", std::string(CURBSTOP_SOURCE_DIR) + "/stdlib"}).status == 0);
}
