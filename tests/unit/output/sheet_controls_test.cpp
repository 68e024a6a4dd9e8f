#include "output/sheet_controls.h"

#include "output/html_parts.h"

#include <algorithm>
#include <regex>
#include <set>
#include <string>

#include <catch2/catch.hpp>

using namespace curbstop::output;

namespace {

std::set<std::string> found_in(const std::string& text, const std::string& pattern) {
    const std::regex regex(pattern);
    std::set<std::string> found;
    for (std::sregex_iterator match(text.begin(), text.end(), regex), end; match != end; ++match) {
        found.insert((*match)[1]);
    }
    return found;
}

std::set<std::string> names() {
    std::set<std::string> result;
    for (const ScriptText& each : script_texts()) {
        result.insert(std::string(each.name));
    }
    return result;
}

} // namespace

TEST_CASE("every text that the script asks for is there, once") {
    CHECK(names().size() == script_texts().size());
    const std::string script(sheet_script());
    const auto asked = found_in(script, R"((?:text|Refusal|complain)\("([a-z-]+)\")");
    CHECK(asked.size() > 20);
    for (const std::string& name : asked) {
        INFO(name);
        CHECK(names().contains(name));
    }
    // The kinds of members and what the record is of are put together from their names.
    for (const std::string& kind : found_in(script, R"re(member\([a-z]+, [^,]+, "([a-z]+)")re")) {
        INFO(kind);
        CHECK(names().contains("refused-" + kind));
    }
}

TEST_CASE("every text is one that the script asks for") {
    const std::string script(sheet_script());
    const auto is_asked = [&](const std::string& name) { return script.find('"' + name + '"') != std::string::npos; };
    for (const std::string& name : names()) {
        INFO(name);
        const std::string kind = name.substr(name.find('-') + 1);
        CHECK(
            (is_asked(name) || name.starts_with("refused-other-") || (name.starts_with("refused-") && is_asked(kind))));
    }
}

TEST_CASE("the script has no words of its own") {
    // Words are letters in runs of several, and no name in a program has a blank in it.
    std::string script(sheet_script());
    script = std::regex_replace(script, std::regex("//[^\n]*"), "");
    for (const std::string& literal : found_in(script, R"re("([^"\n]*)")re")) {
        INFO(literal);
        CHECK_FALSE(std::regex_search(literal, std::regex("^[A-Za-z]+,? [a-z]+ [a-z]+")));
    }
}
