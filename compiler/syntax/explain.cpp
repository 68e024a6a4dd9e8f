// What the parser says about an error: what was expected, what was found, and what the author may have meant.
#include "syntax/parser.h"
#include "syntax/unit_slips.h"

#include "text/nearest.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace curbstop::syntax {

namespace {

/// The first word in backticks of a phrase; empty where there is none.
std::string_view first_quoted(std::string_view phrase) {
    const std::size_t begin = phrase.find('`');
    if (begin == std::string_view::npos) {
        return {};
    }
    const std::size_t end = phrase.find_first_of("` ", begin + 1);
    return phrase.substr(begin + 1, end - begin - 1);
}

/// Where an item that is in the wrong place may belong, from the most to the least likely.
constexpr auto likely_places =
    std::to_array<Place>({Place::file, Place::step, Place::stage, Place::procedure, Place::system, Place::kind,
                          Place::chamber, Place::fluid, Place::pipe});

std::optional<Place> place_of_item(TokenKind word) {
    const auto* const found =
        std::ranges::find_if(likely_places, [&](Place place) { return starts_item(place, word); });
    return found == likely_places.end() ? std::nullopt : std::optional(*found);
}

std::vector<std::string_view> item_words(Place place) {
    std::vector<std::string_view> words;
    for (auto i = static_cast<std::uint8_t>(TokenKind::name) + 1; i <= static_cast<std::uint8_t>(last_hard_word); ++i) {
        const auto kind = static_cast<TokenKind>(i);
        if (starts_item(place, kind)) {
            words.push_back(token_text(kind));
        }
    }
    return words;
}

/// A text as messages show it: whole or its beginning.
std::string shown_text(std::string_view written) {
    constexpr std::size_t longest = 30;
    if (written.size() <= longest) {
        return std::string(written);
    }
    std::size_t size = longest;
    while ((static_cast<unsigned char>(written[size]) & 0xC0U) == 0x80U) {
        --size; // not in the middle of a character
    }
    return std::string(written.substr(0, size)) + "…";
}

} // namespace

text::Diagnostic Parser::diagnostic(std::string_view slug, std::uint32_t token, std::string message) const {
    text::Span place = span(token);
    if (kind(token) == TokenKind::end && token > 0) {
        // Blank lines at the end are no place to look at.
        place.begin = place.end = lexed_->tokens[token - 1].end;
    }
    return {.slug = slug, .span = place, .message = std::move(message)};
}

std::string Parser::found(std::uint32_t token) const {
    const TokenKind found = kind(token);
    if (found == TokenKind::end) {
        return "the end of the file";
    }
    if (found == TokenKind::doc) {
        return "a doc comment";
    }
    if (found == TokenKind::string) {
        return fmt::format("the text `{}`", shown_text(written(token)));
    }
    return fmt::format("`{}`", written(token));
}

void Parser::point_back(text::Diagnostic& diagnostic, std::uint32_t token) const {
    if (token > 0 && kind(token) != TokenKind::end && first_on_line(token)) {
        const std::uint32_t end = lexed_->tokens[token - 1].end;
        diagnostic.labels.push_back({{report_->source(), end, end}, "it should come here"});
    }
}

bool Parser::explain_unit(text::Diagnostic& diagnostic, std::uint32_t token, bool surely) const {
    if (token == 0 || first_on_line(token)) {
        return false;
    }
    const bool after_number = kind(token - 1) == TokenKind::number;
    if (!after_number && kind(token) != TokenKind::unknown_unit) {
        return false;
    }
    const std::string_view unit = written(token);
    const std::optional<std::string_view> meant = meant_unit(unit);
    if (!meant && kind(token) != TokenKind::unknown_unit && !(surely && kind(token) == TokenKind::name)) {
        return false;
    }
    diagnostic.slug = "unknown-unit";
    diagnostic.message = fmt::format("`{}` is no unit of the language", unit);
    if (const auto near = meant ? meant : text::nearest(unit, units())) {
        diagnostic.remedies.push_back(after_number ? fmt::format("did you mean `{} {}`?", written(token - 1), *near)
                                                   : fmt::format("did you mean `{}`?", *near));
    }
    return true;
}

bool Parser::explain_neighbours(text::Diagnostic& diagnostic, std::uint32_t token) const {
    if (token == 0) {
        return false;
    }
    const auto touches = [&](std::uint32_t second) {
        return lexed_->tokens[second - 1].end == lexed_->tokens[second].begin;
    };
    if (kind(token) == TokenKind::comma && kind(token - 1) == TokenKind::number && touches(token) &&
        kind(token + 1) == TokenKind::number && touches(token + 1)) {
        diagnostic.message = "decimals come after a point, not a comma";
        diagnostic.remedies.push_back(fmt::format("write `{}.{}`", written(token - 1), written(token + 1)));
        return true;
    }
    if (kind(token - 1) == TokenKind::string && touches(token) &&
        (is_name(kind(token)) || kind(token) == TokenKind::string || is_hard_word(kind(token)))) {
        diagnostic.remedies.emplace_back("a quotation mark in a text is written `\\\"`");
        return true;
    }
    // `"Low drain" it "Scarico"`: short enough for the code of a language, and none of ours.
    if (kind(token - 1) == TokenKind::string && is_name(kind(token)) && written(token).size() <= 3 &&
        kind(token + 1) == TokenKind::string) {
        diagnostic.message = fmt::format("`{}` is no language that a text can be given in", written(token));
        diagnostic.notes.emplace_back("they are `en`, `fr`, `de` and `es`");
        return true;
    }
    return false;
}

void Parser::fail(std::uint32_t token, const Expected& expected) const {
    text::Diagnostic error =
        diagnostic("syntax", token, fmt::format("expected {}, found {}", expected.what, found(token)));
    const TokenKind here = kind(token);
    if (explain_unit(error, token, false) || explain_neighbours(error, token)) {
        throw SyntaxError{token, std::move(error)};
    }
    point_back(error, token);
    const bool on_same_line = token > 0 && !first_on_line(token);
    if (on_same_line) {
        const std::string_view wanted = first_quoted(expected.what);
        if (expected.sort == Sort::text && (is_name(here) || here == TokenKind::number)) {
            error.remedies.push_back(fmt::format("a text stands in quotation marks: write `\"{}\"`", written(token)));
        } else if (expected.sort == Sort::name && here == TokenKind::string) {
            error.remedies.emplace_back("a name has no quotation marks");
        } else if (expected.sort == Sort::name && is_hard_word(here)) {
            error.notes.push_back(
                fmt::format("`{}` is a word of the language that cannot be used as a name", written(token)));
        } else if (here == TokenKind::not_ && expected.sort == Sort::claim) {
            error.notes.emplace_back("a second `not` takes back the first");
        } else if (expected.sort == Sort::mark && here == TokenKind::name &&
                   text::nearest(written(token), std::array{wanted})) {
            error.remedies.push_back(fmt::format("did you mean `{}`?", wanted));
        }
    }
    if (expected.what == "`)`") {
        for (std::uint32_t opener = token, closed = 0; opener-- > 0;) {
            if (kind(opener) == TokenKind::close_parenthesis) {
                ++closed;
            } else if (kind(opener) == TokenKind::open_parenthesis && closed-- == 0) {
                error.labels.push_back({span(opener), "this parenthesis is not closed"});
                break;
            }
        }
    }
    if (!expected.example.empty()) {
        error.notes.push_back(fmt::format("it is written like this: `{}`", expected.example));
    }
    throw SyntaxError{token, std::move(error)};
}

bool Parser::explain_swallowed(text::Diagnostic& diagnostic, std::uint32_t token) const {
    if (token == 0 || !is_word(kind(token - 1)) || !is_name(kind(token - 1)) || !first_on_line(token - 1) ||
        !starts_item(place(), kind(token - 1))) {
        return false;
    }
    // `set low to` and on the next line `wait 4 h`: what was missing was read as being called `wait`.
    diagnostic.span = span(token - 1);
    diagnostic.message = fmt::format("expected a name, found `{}`", written(token - 1));
    point_back(diagnostic, token - 1);
    return true;
}

void Parser::explain_item(text::Diagnostic& diagnostic, std::uint32_t token) const {
    const TokenKind here = kind(token);
    if (const auto elsewhere = is_word(here) ? place_of_item(here) : std::nullopt) {
        diagnostic.slug = "wrong-block";
        diagnostic.message = fmt::format("`{}` cannot stand {}", written(token), place_phrase(place()));
        diagnostic.notes.push_back(fmt::format("it belongs {}", place_phrase(*elsewhere)));
        if (place() == Place::file && token > 0 && kind(token - 1) == TokenKind::close_brace) {
            diagnostic.labels.push_back({span(token - 1), "is this `}` one too many?"});
        }
        return;
    }
    if (here == TokenKind::comma) {
        if (place() == Place::step || place() == Place::stage || place() == Place::procedure) {
            diagnostic.remedies.emplace_back("claims are joined by `and`");
        } else {
            diagnostic.remedies.push_back(fmt::format("no commas are needed {}", place_phrase(place())));
        }
        return;
    }
    if (!is_name(here)) {
        return;
    }
    if (const auto near = text::nearest(written(token), item_words(place()))) {
        diagnostic.remedies.push_back(fmt::format("did you mean `{}`?", *near));
    } else if (token > 0 && !first_on_line(token) && is_name(kind(token - 1))) {
        diagnostic.remedies.push_back(
            fmt::format("if it is a label, put it in quotation marks: `\"{}\"`", written(token)));
    }
}

void Parser::fail_item(std::uint32_t token) const {
    text::Diagnostic error =
        diagnostic("syntax", token, fmt::format("expected {}, found {}", item_phrase(place()), found(token)));
    if (!explain_unit(error, token, true) && !explain_neighbours(error, token) && !explain_swallowed(error, token)) {
        explain_item(error, token);
    }
    throw SyntaxError{token, std::move(error)};
}

void Parser::report_stray_brace(std::uint32_t token) {
    ++lost_braces_;
    report_->add(diagnostic("stray-brace", token, "this `}` closes nothing"));
}

} // namespace curbstop::syntax
