#include "output/markdown.h"

namespace curbstop::output {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// "1." and "1)" begin a list where a line begins.
std::size_t list_number_end(std::string_view line) {
    std::size_t end = 0;
    while (end < line.size() && is_digit(line[end])) {
        ++end;
    }
    return end > 0 && end < line.size() && (line[end] == '.' || line[end] == ')') ? end : 0;
}

} // namespace

std::string markdown_escaped(std::string_view line, bool starts_line) {
    constexpr std::string_view always_special = "\\`*_[]<>&|~#$";
    constexpr std::string_view special_at_start = "+-=:";
    const std::size_t number_end = starts_line ? list_number_end(line) : 0;
    std::string out;
    out.reserve(line.size() + 8);
    for (std::size_t at = 0; at < line.size(); ++at) {
        const char c = line[at];
        const std::string_view rest = line.substr(at);
        // What GitHub would make a link of without being asked.
        const bool bare_link =
            (c == '/' && at > 0 && line[at - 1] == ':') ||
            (c == '.' && at >= 3 && (line.substr(at - 3, 3) == "www" || line.substr(at - 3, 3) == "WWW"));
        if (always_special.find(c) != std::string_view::npos || bare_link || (number_end > 0 && at == number_end) ||
            (starts_line && at == 0 && special_at_start.find(rest.front()) != std::string_view::npos)) {
            out += '\\';
        }
        out += c;
    }
    return out;
}

std::string markdown_words(const Wording& text, bool starts_line) {
    const std::string_view all = text;
    std::string out;
    std::size_t at = 0;
    for (const Wording::Literal& each : text.literals) {
        const std::string_view literal = all.substr(each.begin, each.end - each.begin);
        // Neither a back-tick nor what parts the cells of a table can stand in a code span everywhere (CommonMark 0.31,
        // 6.1; GitHub Flavored Markdown, 4.10), and blanks at both its ends are taken away.
        if (literal.find_first_of("`|\\") != std::string_view::npos || literal.front() == ' ' ||
            literal.back() == ' ') {
            continue;
        }
        out += markdown_escaped(all.substr(at, each.begin - at), starts_line && out.empty());
        out += "`" + std::string(literal) + "`";
        at = each.end;
    }
    return out + markdown_escaped(all.substr(at), starts_line && out.empty());
}

} // namespace curbstop::output
