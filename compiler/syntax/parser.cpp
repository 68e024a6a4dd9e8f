// How the parser goes on after an error. What it says about one is in explain.cpp.
#include "syntax/parser.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

namespace curbstop::syntax {

namespace {

/// Blocks whose items start with any name, so that a word at an item's start tells little.
bool name_led(Place place) {
    return place == Place::ways || place == Place::settings || place == Place::lineup;
}

/// Words that mean something among settings and in the kind or system around them too.
bool is_setting_word(TokenKind word) {
    return word == TokenKind::position_ || word == TokenKind::rated_ || word == TokenKind::holds_;
}

} // namespace

Parser::Parser(const text::Source& source, const Lexed& lexed, std::vector<NodeData>& tree_nodes, Report& report)
    : nodes(tree_nodes)
    , source_(&source)
    , lexed_(&lexed)
    , report_(&report) {
    const auto count = [&](TokenKind kind) { return std::ranges::count(lexed.kinds, static_cast<char>(kind)); };
    lost_braces_ = static_cast<int>(count(TokenKind::open_brace) - count(TokenKind::close_brace));
}

text::Span Parser::span(std::uint32_t token) const {
    const Token& place = lexed_->tokens[token];
    return {report_->source(), place.begin, place.end};
}

std::string_view Parser::written(std::uint32_t token) const {
    const Token& place = lexed_->tokens[token];
    return std::string_view(source_->text).substr(place.begin, place.end - place.begin);
}

bool Parser::first_on_line(std::uint32_t token) const {
    if (token == 0) {
        return true;
    }
    const std::uint32_t before = lexed_->tokens[token - 1].end;
    const std::string_view between =
        std::string_view(source_->text).substr(before, lexed_->tokens[token].begin - before);
    return between.find('\n') != std::string_view::npos;
}

std::size_t Parser::indentation(std::uint32_t token) const {
    const std::string_view text = source_->text;
    const std::size_t begin = lexed_->tokens[token].begin;
    const std::size_t break_before = begin == 0 ? std::string_view::npos : text.rfind('\n', begin - 1);
    const std::size_t line = break_before == std::string_view::npos ? 0 : break_before + 1;
    return text.find_first_not_of(" \t", line) - line;
}

bool Parser::looks_like_declaration(std::uint32_t token) const {
    if (!starts_item(Place::file, kind(token))) {
        return false;
    }
    const TokenKind next = kind(token + 1); // `end` starts nothing, so there is a next
    return kind(token) == TokenKind::season_ ? next == TokenKind::string : is_name(next);
}

bool Parser::belongs_around(std::uint32_t token) const {
    const TokenKind word = kind(token);
    const bool here = starts_item(place(), word);
    if (here && !name_led(place())) {
        return false;
    }
    if (here) {
        // Any name may start an item here. A word is a sign only at the start of a line, and if nothing here is called
        // so: `part plug : …` among settings, `port c` among ways.
        const TokenKind next = kind(token + 1);
        const bool way = next == TokenKind::dot || next == TokenKind::both_ways || next == TokenKind::one_way ||
                         next == TokenKind::fall;
        if (!first_on_line(token) || way || is_setting_word(word)) {
            return false;
        }
    }
    return std::any_of(frames_.rbegin() + 1, frames_.rend(), [&](const Frame& frame) {
        return frame.place == Place::file ? looks_like_declaration(token) : starts_item(frame.place, word);
    });
}

std::uint32_t Parser::suspect_brace(std::uint32_t token) const {
    // The innermost block is the one that is open now, but the `}` of another may have closed it. People indent: where
    // a `}` stands further left than the line that opened its block, that block is the one that lost its own.
    const std::uint32_t innermost = frames_.back().open;
    std::vector<std::uint32_t> open;
    for (std::uint32_t i = innermost; i < token; ++i) {
        if (kind(i) == TokenKind::open_brace) {
            open.push_back(i);
        } else if (kind(i) == TokenKind::close_brace && open.size() > 1) {
            if (first_on_line(i) && indentation(i) < indentation(open.back())) {
                return open.back();
            }
            open.pop_back();
        }
    }
    return innermost;
}

bool Parser::closes_unseen(std::uint32_t token) {
    // Where the braces of the file match, none was forgotten: then the item is in the wrong place, which is said of it.
    if (lost_braces_ <= 0 || frames_.size() < 2 || !is_word(kind(token)) || !belongs_around(token)) {
        return false;
    }
    --lost_braces_;
    text::Diagnostic unclosed =
        diagnostic("unclosed-block", token, fmt::format("expected `}}` before `{}`", written(token)));
    unclosed.labels.push_back({span(suspect_brace(token)), "this block is not closed"});
    report_->add(std::move(unclosed));
    return true;
}

void Parser::report_unclosed_at_end(std::uint32_t token) {
    if (unclosed_reported_) {
        return;
    }
    unclosed_reported_ = true;
    text::Diagnostic unclosed = diagnostic("unclosed-block", suspect_brace(token), "this block is never closed");
    unclosed.labels.push_back({span(token), "the file ends here"});
    report_->add(std::move(unclosed));
}

void Parser::report_stray_doc(std::uint32_t first, std::uint32_t end) {
    text::Diagnostic stray = diagnostic("stray-doc-comment", first, "this doc comment belongs to nothing");
    stray.severity = text::Severity::warning;
    stray.span = text::join(span(first), span(end - 1));
    stray.notes.emplace_back(
        "doc comments are kept for declarations of a file, for ends, and for what a system has but "
        "tees, walks and runs");
    stray.remedies.emplace_back("write `#` for a comment that is not kept");
    report_->add(std::move(stray));
}

std::uint32_t Parser::recover(SyntaxError& error, std::uint32_t start, std::uint32_t node) {
    nodes.resize(node);
    report_->add(std::move(error.diagnostic));
    if (report_->full()) {
        // Enough is known. The rest is not looked at, and what it would have closed is not missed.
        unclosed_reported_ = true;
        return static_cast<std::uint32_t>(lexed_->tokens.size() - 1);
    }
    return next_item(start, error.token);
}

std::uint32_t Parser::next_item(std::uint32_t start, std::uint32_t error) const {
    int depth = 0;
    bool after_block = false;
    for (std::uint32_t token = start;; ++token) {
        const TokenKind found = kind(token);
        if (found == TokenKind::end) {
            return token;
        }
        if (token > start && looks_like_declaration(token) && (place() == Place::file || first_on_line(token))) {
            return token;
        }
        const bool directly_after_block = after_block;
        after_block = false;
        if (found == TokenKind::open_brace) {
            ++depth;
            continue;
        }
        if (found == TokenKind::close_brace) {
            if (depth == 0) {
                if (place() != Place::file) {
                    return token;
                }
                continue; // too many were closed; the next declaration is where one can be sure again
            }
            --depth;
            after_block = depth == 0;
            continue;
        }
        if (depth > 0 || token <= start || token < error || place() == Place::file) {
            continue;
        }
        std::uint32_t word = token;
        while (kind(word) == TokenKind::doc) {
            ++word;
        }
        if (!starts_item(place(), kind(word))) {
            continue;
        }
        // In the middle of a line a soft word may well be a name. What stopped the item is no name that it could take.
        const bool stopped_here = token == error && is_word(kind(word)) && !name_led(place());
        if (stopped_here || directly_after_block || is_hard_word(kind(word)) || first_on_line(token)) {
            return token;
        }
    }
}

} // namespace curbstop::syntax
