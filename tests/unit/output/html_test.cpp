#include "output/html.h"

#include "output/html_parts.h"
#include "output/sha256.h"
#include "output/tiny_model.h"

#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::output::tests;

namespace {

std::string sheet_of(const Tiny& tiny) {
    return html_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
}

std::string between(const std::string& text, std::string_view from, std::string_view to) {
    const std::size_t begin = text.find(from) + from.size();
    return text.substr(begin, text.find(to, begin) - begin);
}

std::size_t count(const std::string& text, std::string_view what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
        ++found;
    }
    return found;
}

} // namespace

TEST_CASE("literals are set in another type, escaped, within their language") {
    CHECK(html_words(with_literals("Press `A<B`, `C`")) == "Press <code>A&lt;B</code>, <code>C</code>");
    CHECK(html_words(with_literals("5` <b>")) == "5` &lt;b&gt;");
    Wording foreign = with_literals("Press `Reset`");
    foreign.foreign.push_back({0, foreign.size(), Language::german});
    CHECK(html_words(Wording("x ") + foreign) == "x <span lang=\"de\">Press <code>Reset</code></span>");
    CHECK(html_label(foreign) == "<bdi lang=\"de\">Press <code>Reset</code></bdi>");
}

TEST_CASE("the page lets in its own style and scripts and nothing else") {
    const std::string html = sheet_of(tiny_model());
    const std::string policy = between(html, "http-equiv=\"Content-Security-Policy\" content=\"", "\"");
    const auto hash = [&](std::string_view from, std::string_view to) {
        return "'sha256-" + to_base64(sha256(between(html, from, to))) + "'";
    };
    CHECK(policy == "default-src 'none'; style-src " + hash("<style>", "</style>") + "; script-src " +
                        hash("<script>", "</script>") + " " + hash("<script type=\"module\">", "</script>") +
                        "; base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'");
    CHECK(count(html, "<script") == 2);
    CHECK(html.find(" style=") == std::string::npos);
    CHECK(html.find("http:") == std::string::npos);
    CHECK(html.find("https:") == std::string::npos);
    CHECK(html.find("url(") == std::string::npos);
}

TEST_CASE("a caution comes before its action") {
    const std::string html = sheet_of(tiny_model());
    const std::size_t warning = html.find("Water under pressure sprays");
    const std::size_t action = html.find("Set <b><bdi>Drain cock</bdi></b> to <b><bdi>open</bdi></b>");
    REQUIRE(warning != std::string::npos);
    REQUIRE(action != std::string::npos);
    CHECK(warning < action);
    CHECK(html.find("<li", warning) > action); // and in the same item
}

TEST_CASE("signal words are words; the alert symbol is kept for injury") {
    const std::string html = sheet_of(tiny_model());
    CHECK(count(html, "class=\"signal warning\"") == 1);
    CHECK(between(html, "class=\"signal warning\"", "</div>").find("class=\"alert\"") != std::string::npos);
    CHECK(between(html, "class=\"signal notice\"", "</div>").find("class=\"alert\"") == std::string::npos);
    CHECK(between(html, "class=\"signal notice\"", "</div>").find("NOTICE") != std::string::npos);
}

TEST_CASE("says what is proved, what is not, and what it does not replace") {
    const std::string html = sheet_of(tiny_model());
    CHECK(html.find("A computer has checked every step") != std::string::npos);
    CHECK(html.find("9 moments") == std::string::npos); // figures that tell an owner nothing
    CHECK(html.find("does not replace the maker&#39;s manual, a licensed plumber or gas fitter, or local codes") !=
          std::string::npos);
    CHECK(html.find("nothing bursts from frost at -20 °C") != std::string::npos);
    CHECK(html.find(std::string(64, 'a')) != std::string::npos);
}

TEST_CASE("no label becomes markup") {
    const std::string plain = sheet_of(tiny_model());
    for (const std::string& label : hostile_labels()) {
        INFO(label);
        const std::string html = sheet_of(tiny_model(label));
        // The same elements as with harmless labels (fewer where a text is blank): no angle bracket is an author's.
        const bool blank = label.find_first_not_of(' ') == std::string::npos;
        // A literal is set in one: what is in back-ticks.
        const auto literals = count(html, "<code>thrice</code>");
        CHECK((literals > 0) == (label.find("`thrice`") != std::string::npos));
        const auto opened = count(html, "<") - 2 * literals;
        const auto closed = count(html, ">") - 2 * literals;
        CHECK((opened == count(plain, "<") || (blank && opened < count(plain, "<"))));
        CHECK((closed == count(plain, ">") || (blank && closed < count(plain, ">"))));
        CHECK(count(html, "</style>") == 1);
        CHECK(count(html, "<script") == 2);
    }
}

TEST_CASE("the same sheet twice is the same bytes") {
    CHECK(sheet_of(tiny_model()) == sheet_of(tiny_model()));
}

TEST_CASE("a drawing is put on the sheet as it is") {
    const Tiny tiny = tiny_model();
    SheetInfo info = tiny_info();
    info.pictures.drawings = {{"Cellar", "<svg><title>t</title></svg>\n"}};
    const std::string html = html_sheet(tiny.model, tiny.procedure(), tiny.report, info);
    CHECK(html.find(info.pictures.drawings.front().svg) != std::string::npos);
    CHECK(html.find("drawing-states\"") == std::string::npos); // nothing to keep up to date
}

TEST_CASE("a photograph that two steps show is carried along once, and named where it comes again") {
    using namespace curbstop::meaning;
    Tiny tiny = tiny_model();
    const auto add = [&](std::size_t stage, std::size_t step, const std::string& bytes) {
        auto& photos = tiny.model.system.photos;
        photos.push_back({"lever.png", Text("Lever left"), {}, "image/png", 10, 10, bytes});
        std::get<Step>(tiny.model.procedures[0].stages[stage].items[step].what)
            .statements.push_back({PhotoStatement{PhotoId(photos.size() - 1)}});
    };
    add(0, 0, "same bytes");
    add(0, 1, "same bytes");
    add(1, 0, "others");
    const std::string html = sheet_of(tiny);
    CHECK(count(html, "data:image/png") == 2);
    CHECK(html.find("Lever left (<a href=\"#step-1\">step 1</a>)") != std::string::npos);
}

TEST_CASE("a step that is but a line has a box on paper, and one with something to tick off has none beside it") {
    const std::string html = sheet_of(tiny_model());
    const std::string first = between(html, "id=\"step-1\">", "</h3>"); // it opens a lid
    CHECK(first.find("square") == std::string::npos);
    Tiny bare = tiny_model();
    std::get<curbstop::meaning::Step>(bare.model.procedures[0].stages[0].items[0].what).statements.clear();
    CHECK(between(sheet_of(bare), "id=\"step-1\">", "</h3>").find("square on-paper") != std::string::npos);
}
