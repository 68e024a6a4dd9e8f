#include "command/photos.h"

#include "command/sandbox.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

using namespace curbstop::command::tests;

namespace {

using namespace std::string_literals;

// One grey pixel: the smallest PNG that shows something, made for this test by zlib.
std::string pixel() {
    return "\211\120\116\107\015\012\032\012\000\000\000\015\111\110\104\122\000\000\000\001\000\000\000\001"
           "\010\000\000\000\000\072\176\233\125\000\000\000\012\111\104\101\124\170\234\143\150\000\000\000"
           "\202\000\201\167\315\162\266\000\000\000\000\111\105\116\104\256\102\140\202"s;
}

std::string hut_with(const std::string& photo, const std::string& step = {}) {
    return "use water\nsystem hut \"Hut\" {\n  zone room \"Room\"\n"
           "  place sink \"Sink\" at room accepts drinking_water\n"
           "  part stop : mains_stop \"Stop valve\" at room " +
           photo +
           "\n  part basin_tap : tap \"Tap\" at room over sink\n  run stop.house - basin_tap.water : copper_15 1 m\n}\n"
           "procedure shut \"Shut\" on hut {\n  requires basin_tap is shut\n  stage \"All\" {\n    step \"Shut it\" "
           "{\n" +
           step + "      set stop to shut\n    }\n  }\n}\n";
}

bool holds(const std::string& text, std::string_view what) {
    return text.find(what) != std::string::npos;
}

/// What `check` says of a photograph.
Outcome check(const Sandbox& sandbox, const std::string& photo) {
    sandbox.write("hut.curb", hut_with(photo));
    return sandbox.run({"check", "hut.curb"});
}

} // namespace

TEST_CASE("a photograph becomes part of the sheet, and is told in words elsewhere") {
    const Sandbox sandbox;
    sandbox.write("pictures/stop.png", pixel());
    sandbox.write("hut.curb", hut_with("photo \"pictures/stop.png\" \"A red <wheel>\"",
                                       "      photo \"pictures/stop.png\" \"Turned across the pipe\"\n"));
    REQUIRE(sandbox.run({"check", "hut.curb"}).status == 0);
    const std::string html = sandbox.run({"sheet", "hut.curb", "-o", "-"}).out;
    CHECK(holds(html, "img-src data:"));
    CHECK(holds(html, "<img src=\"data:image/png;base64,iVBORw0KGgo"));
    CHECK(holds(html, "alt=\"A red &lt;wheel&gt;\" width=\"1\" height=\"1\""));
    CHECK(holds(html, "alt=\"Turned across the pipe\""));
    const std::string markdown = sandbox.run({"sheet", "hut.curb", "--as", "markdown", "-o", "-"}).out;
    CHECK(holds(markdown, "- Photograph: Turned across the pipe (pictures/stop.png)"));
    CHECK(holds(markdown, "What it looks like"));
    const std::string json = sandbox.run({"sheet", "hut.curb", "--as", "json", "-o", "-"}).out;
    CHECK(holds(json, "\"media_type\": \"image/png\""));
    CHECK(holds(json, "\"words\": \"Turned across the pipe\""));
    CHECK_FALSE(holds(json, "base64"));
}

TEST_CASE("a sheet without photographs lets no image in") {
    const Sandbox sandbox;
    sandbox.write("hut.curb", hut_with(""));
    CHECK_FALSE(holds(sandbox.run({"sheet", "hut.curb", "-o", "-"}).out, "img-src"));
}

TEST_CASE("a photograph that cannot be used is told, and nothing is written") {
    const Sandbox sandbox;
    sandbox.write("whole.png", pixel());
    sandbox.write("cut.png", pixel().substr(0, 40));
    sandbox.write("more.png", pixel() + "<script>alert(1)</script>");
    sandbox.write("large.png", pixel() + std::string(curbstop::command::max_photo_bytes, 'x'));
    sandbox.write("text.jpg", "no image");
    std::filesystem::create_directories(sandbox.path("folder.png"));
    CHECK(check(sandbox, "photo \"whole.png\" \"A valve\"").status == 0);
    for (const auto& [photo, slug] : {std::pair("photo \"nowhere.png\" \"A valve\"", "missing-photo"),
                                      std::pair("photo \"folder.png\" \"A valve\"", "missing-photo"),
                                      std::pair("photo \"\" \"A valve\"", "missing-photo"),
                                      std::pair("photo \"cut.png\" \"A valve\"", "not-a-photo"),
                                      std::pair("photo \"more.png\" \"A valve\"", "not-a-photo"),
                                      std::pair("photo \"text.jpg\" \"A valve\"", "not-a-photo"),
                                      std::pair("photo \"large.png\" \"A valve\"", "photo-too-large"),
                                      std::pair("photo \"../whole.png\" \"A valve\"", "photo-outside"),
                                      std::pair("photo \"a/../../whole.png\" \"A valve\"", "photo-outside"),
                                      std::pair("photo \"/etc/hostname\" \"A valve\"", "photo-outside"),
                                      std::pair("photo \"whole.png\"", "photo-without-words"),
                                      std::pair("photo \"whole.png\" \"  \"", "photo-without-words")}) {
        INFO(photo);
        const Outcome outcome = check(sandbox, photo);
        CHECK(outcome.status == 1);
        CHECK(holds(outcome.out + outcome.err, std::string("[") + slug + "]"));
        CHECK(holds(outcome.out + outcome.err, "hut.curb:5:"));
        CHECK(sandbox.run({"sheet", "hut.curb", "-o", "sheet.html"}).status == 1);
        CHECK_FALSE(std::filesystem::exists(sandbox.path("sheet.html")));
    }
}

TEST_CASE("a link that leads out of the folder is refused, one that stays inside is not") {
    const Sandbox outside;
    outside.write("secret.png", pixel());
    const Sandbox sandbox;
    sandbox.write("whole.png", pixel());
    std::filesystem::create_symlink(outside.path("secret.png"), sandbox.path("link.png"));
    std::filesystem::create_symlink("whole.png", sandbox.path("inner.png"));
    std::filesystem::create_directory_symlink(outside.path(""), sandbox.path("folder"));
    for (const char* photo : {"photo \"link.png\" \"A valve\"", "photo \"folder/secret.png\" \"A valve\""}) {
        const Outcome outcome = check(sandbox, photo);
        CHECK(outcome.status == 1);
        CHECK(holds(outcome.out + outcome.err, "[photo-outside]"));
    }
    CHECK(check(sandbox, "photo \"inner.png\" \"A valve\"").status == 0);
}

TEST_CASE("the words of a photograph are in the language of the sheet, or say which they are in") {
    const Sandbox sandbox;
    sandbox.write("stop.png", pixel());
    sandbox.write("hut.curb", hut_with("photo \"stop.png\" \"A red wheel\" de \"Ein rotes Rad\"",
                                       "      photo \"stop.png\" \"Across\" de \"Quer zum Rohr\"\n"));
    const auto sheet = [&](const char* language, const char* form) {
        return sandbox.run({"sheet", "hut.curb", "--language", language, "--as", form, "-o", "-"}).out;
    };
    const std::string german = sheet("de", "html");
    CHECK(holds(german, "alt=\"Ein rotes Rad\" width="));
    CHECK(holds(german, "alt=\"Quer zum Rohr\" width="));
    CHECK_FALSE(holds(german, "A red wheel"));
    const std::string french = sheet("fr", "html");
    CHECK(holds(french, "alt=\"A red wheel\" lang=\"en\" width="));
    CHECK(holds(french, "alt=\"Across\" lang=\"en\" width="));
    const std::string markdown = sheet("de", "markdown");
    CHECK(holds(markdown, "Ein rotes Rad (stop.png)"));
    CHECK(holds(markdown, "Foto: Quer zum Rohr (stop.png)"));
    const std::string json = sheet("de", "json");
    CHECK(holds(json, "\"words\": \"A red wheel\""));
    CHECK(holds(json, "\"de\": \"Ein rotes Rad\""));
}

TEST_CASE("words of a photograph that a language lacks are told, and the name of its file is no text") {
    const Sandbox sandbox;
    sandbox.write("stop.png", pixel());
    const auto check_in = [&](const std::string& photo) {
        std::string hut = hut_with(photo);
        hut.insert(hut.find("  zone room"), "  languages en, de\n");
        sandbox.write("hut.curb", hut);
        const Outcome outcome = sandbox.run({"check", "hut.curb"});
        return outcome.out + outcome.err;
    };
    const std::string lacking = check_in("photo \"stop.png\" \"A red wheel\"");
    const std::string whole = check_in("photo \"stop.png\" \"A red wheel\" de \"Ein rotes Rad\"");
    const auto told = [](const std::string& text) {
        std::size_t found = 0;
        for (std::size_t at = text.find("[not-translated]"); at != std::string::npos;
             at = text.find("[not-translated]", at + 1)) {
            ++found;
        }
        return found;
    };
    CHECK(told(lacking) == told(whole) + 1);
    CHECK(check(sandbox, "photo \"stop.png\" de \"halt.png\" \"A red wheel\"").status == 1);
}
