#include "syntax/parser.h"

#include <fmt/format.h>

#include "text/nearest.h"

namespace curbstop::syntax {

Parser::Parser(const text::Source& source, const Lexed& lexed, std::vector<NodeData>& node_list, Report& report)
    : nodes(node_list), source_(&source), lexed_(&lexed), report_(&report) {
    for (const char kind : lexed.kinds) {
        lost_braces_ += static_cast<TokenKind>(kind) == TokenKind::open_brace;
        lost_braces_ -= static_cast<TokenKind>(kind) == TokenKind::close_brace;
    }
}

text::Span Parser::span(std::uint32_t token) const {
    const Token& at = lexed_->tokens[std::min<std::size_t>(token, lexed_->tokens.size() - 1)];
    return {report_->source(), at.begin, at.end};
}

std::string_view Parser::written(std::uint32_t token) const {
    const Token& at = lexed_->tokens[token];
    return std::string_view(source_->text).substr(at.begin, at.end - at.begin);
}

bool Parser::first_on_line(std::uint32_t token) const {
    if (token == 0) {
        return true;
    }
    const std::uint32_t from = lexed_->tokens[token - 1].end;
    return source_->text.find('\n', from) < lexed_->tokens[token].begin;
}

bool Parser::looks_like_declaration(std::uint32_t token) const {
    if (!first_on_line(token) || !starts_item(Place::file, kind(token)) || token + 1 >= lexed_->tokens.size()) {
        return false;
    }
    const TokenKind next = kind(token + 1);
    return is_name(next) || next == TokenKind::string;
}

std::string Parser::found(std::uint32_t token) const {
    switch (kind(token)) {
    case TokenKind::end: return "the end of the text";
    case TokenKind::string: return "a text in quotes";
    case TokenKind::doc: return "a doc comment";
    default: return fmt::format("`{}`", written(token));
    }
}

text::Diagnostic Parser::diagnostic(std::string_view slug, std::uint32_t token, std::string message) const {
    return {.slug = slug, .span = span(token), .message = std::move(message)};
}

void Parser::fail(std::uint32_t token, const Expected& expected) const {
    text::Diagnostic wrong = diagnostic("syntax", token, fmt::format("expected {}, found {}", expected.what, found(token)));
    explain_expected(wrong, token, expected);
    throw SyntaxError{token, std::move(wrong)};
}

void Parser::explain_expected(text::Diagnostic& wrong, std::uint32_t token, const Expected& expected) const {
    if (expected.sort == Sort::name && is_hard_word(kind(token))) {
        wrong.notes.push_back(fmt::format("`{}` is a word of the language and cannot be a name", written(token)));
    }
    if (expected.sort == Sort::text && is_name(kind(token))) {
        wrong.notes.emplace_back("texts for people stand in double quotes");
    }
    if (kind(token) == TokenKind::equals) {
        wrong.notes.emplace_back("the language has no assignment; positions are set with `set … to …`");
    }
    if (!expected.example.empty()) {
        wrong.remedies.push_back(fmt::format("for instance `{}`", expected.example));
    }
}

void Parser::fail_item(std::uint32_t token) const {
    text::Diagnostic wrong = diagnostic("syntax", token, fmt::format("expected {} {}, found {}", item_phrase(place()), place_phrase(place()), found(token)));
    explain_item(wrong, token);
    throw SyntaxError{token, std::move(wrong)};
}

void Parser::explain_item(text::Diagnostic& wrong, std::uint32_t token) const {
    if (!is_name(kind(token)) && !is_hard_word(kind(token))) {
        return;
    }
    std::vector<std::string_view> words;
    for (int k = 0; k <= static_cast<int>(last_hard_word); ++k) {
        const auto word = static_cast<TokenKind>(k);
        if (is_word(word) && starts_item(place(), word)) {
            words.push_back(token_text(word));
        }
    }
    if (const auto meant = text::nearest(written(token), words)) {
        wrong.remedies.push_back(fmt::format("did you mean `{}`?", *meant));
        return;
    }
    for (const Place other : {Place::step, Place::stage, Place::procedure, Place::system, Place::kind, Place::ways, Place::file}) {
        if (other != place() && is_word(kind(token)) && starts_item(other, kind(token))) {
            wrong.notes.push_back(fmt::format("`{}` starts {} {}", written(token), item_phrase(other), place_phrase(other)));
            return;
        }
    }
}

bool Parser::closes_unseen(std::uint32_t token) {
    if (frames_.size() < 2 || lost_braces_ <= 0 || !looks_like_declaration(token)) {
        return false;
    }
    // Words that start an item here as well say nothing, unless they stand at the very start of the line.
    const std::uint32_t begin = lexed_->tokens[token].begin;
    const bool flush = begin == 0 || source_->text[begin - 1] == '\n';
    if (!flush || starts_item(place(), kind(token))) {
        return false;
    }
    --lost_braces_;
    text::Diagnostic wrong = diagnostic("unclosed-block", token, fmt::format("a `}}` is missing before `{}`", written(token)));
    wrong.labels.push_back({span(frames_.back().open), "this block is still open"});
    report_->add(std::move(wrong));
    return true;
}

void Parser::report_unclosed_at_end(std::uint32_t token) {
    if (unclosed_reported_) {
        return;
    }
    unclosed_reported_ = true;
    text::Diagnostic wrong = diagnostic("unclosed-block", token, "the text ends in the middle of a block: a `}` is missing");
    wrong.labels.push_back({span(frames_.back().open), "this block is still open"});
    report_->add(std::move(wrong));
}

void Parser::report_stray_brace(std::uint32_t token) {
    report_->add(diagnostic("syntax", token, "this `}` closes nothing"));
}

void Parser::report_stray_doc(std::uint32_t first, std::uint32_t end) {
    text::Diagnostic wrong = diagnostic("stray-doc", first, "this doc comment belongs to nothing");
    wrong.severity = text::Severity::warning;
    wrong.span.end = lexed_->tokens[end - 1].end;
    wrong.notes.emplace_back("`##` comments stand right above what they describe; plain comments start with one `#`");
    report_->add(std::move(wrong));
}

std::uint32_t Parser::next_item(std::uint32_t start, std::uint32_t error) const {
    int depth = 0;
    for (std::uint32_t token = start; token + 1 < lexed_->tokens.size(); ++token) {
        const TokenKind at = kind(token);
        if (depth == 0 && token > start && token >= error && (at == TokenKind::close_brace || (first_on_line(token) && starts_item(place(), at)))) {
            return token;
        }
        if (depth == 0 && token > start && frames_.size() > 1 && lost_braces_ > 0 && looks_like_declaration(token)) {
            return token;
        }
        depth += at == TokenKind::open_brace;
        if (at == TokenKind::close_brace && depth > 0) {
            --depth;
        }
    }
    return static_cast<std::uint32_t>(lexed_->tokens.size() - 1);
}

std::uint32_t Parser::recover(const SyntaxError& error, std::uint32_t start, std::uint32_t node) {
    nodes.resize(node);
    report_->add(error.diagnostic);
    if (report_->full()) {
        return static_cast<std::uint32_t>(lexed_->tokens.size() - 1);
    }
    return next_item(start, error.token);
}

} // namespace curbstop::syntax
