#include "output/markdown.h"

#include "output/tiny_model.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace curbstop::output;
using namespace curbstop::output::tests;

namespace {

std::string sheet_of(const Tiny& tiny) {
    return markdown_sheet(tiny.model, tiny.procedure(), tiny.report, tiny_info());
}

std::size_t lines(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

} // namespace

TEST_CASE("escapes what Markdown would take for its own") {
    CHECK(markdown_escaped("*a* _b_ [c](d) `e` <f> & | ~g~ # $ \\", false) ==
          "\\*a\\* \\_b\\_ \\[c\\](d) \\`e\\` \\<f\\> \\& \\| \\~g\\~ \\# \\$ \\\\");
    CHECK(markdown_escaped("http://a www.b", false) == "http:\\//a www\\.b");
}

TEST_CASE("escapes what is special at the start of a line there only") {
    CHECK(markdown_escaped("- a - b", true) == "\\- a - b");
    CHECK(markdown_escaped("12. twelve", true) == "12\\. twelve");
    CHECK(markdown_escaped("12) twelve", true) == "12\\) twelve");
    CHECK(markdown_escaped("1.5 m", false) == "1.5 m");
    CHECK(markdown_escaped("===", true) == "\\===");
    CHECK(markdown_escaped("", true).empty());
}

TEST_CASE("literals are code spans, but where those cannot hold them") {
    CHECK(markdown_words(with_literals("Press `A*B_1` * now"), false) == "Press `A*B_1` \\* now");
    CHECK(markdown_words(with_literals("`a|b` and ` c`"), false) == "a\\|b and  c");
    CHECK(markdown_words(with_literals("- `x`"), true) == "\\- `x`");
    CHECK(markdown_words(with_literals("5` long"), true) == "5\\` long");
}

TEST_CASE("says each thing on a line of its own, with a box for each action") {
    const std::string markdown = sheet_of(tiny_model());
    CHECK(markdown.starts_with("# Close the hut for winter\n"));
    CHECK(markdown.find("\n- [ ] Place **Pan** under **Drain cock**. – behind Lid of the valve pit\n") !=
          std::string::npos);
    CHECK(markdown.find("\n- [ ] Set **Drain cock** to **open**.\n") != std::string::npos); // the place was just said
    CHECK(markdown.find("\n- You should see: **it only drips**\n") != std::string::npos);
    CHECK(markdown.find("\n- Only with Shower:\n  - [ ] Set **Shower tap** to **open**.") != std::string::npos);
    CHECK(markdown.find("\n| Room | Shower tap *(only with Shower)* | **open** |\n") != std::string::npos);
    CHECK(markdown.find("**WARNING:** Water under pressure sprays") <
          markdown.find("- [ ] Set **Drain cock** to **open**"));
}

TEST_CASE("no label makes a line more or less") {
    const std::size_t expected = lines(sheet_of(tiny_model()));
    for (const std::string& label : hostile_labels()) {
        INFO(label);
        const std::string markdown = sheet_of(tiny_model(label));
        // Things with one and the same label are told apart by nothing, so lists of things to have get shorter.
        CHECK(lines(markdown) <= expected);
        CHECK(lines(markdown) + 8 >= expected);
    }
}

TEST_CASE("the same sheet twice is the same bytes in Markdown") {
    CHECK(sheet_of(tiny_model()) == sheet_of(tiny_model()));
}
