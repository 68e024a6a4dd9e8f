#include "syntax/lexer.h"

#include "syntax/lexical_grammar.hpp"
#include "syntax/parse.h"
#include "syntax/slips.h"
#include "syntax/unit_slips.h"
#include "text/utf8.h"

#include <fmt/format.h>
#include <tao/pegtl.hpp>

#include <string_view>

namespace curbstop::syntax {

namespace {

/// What the actions write to.
struct State {
    Lexed& lexed;
    Report& report;
    std::string_view text;
    std::vector<std::uint32_t> open = {}; ///< where the braces and parentheses that are open stand

    [[nodiscard]] std::uint32_t offset(const char* place) const {
        return static_cast<std::uint32_t>(place - text.data());
    }

    void push(TokenKind kind, const char* begin, const char* end) {
        lexed.tokens.push_back({offset(begin), offset(end)});
        lexed.kinds.push_back(static_cast<char>(kind));
    }

    [[nodiscard]] text::Span span(const char* begin, const char* end) const {
        return {report.source(), offset(begin), offset(end)};
    }
};

/// Thrown to stop at nesting that is too deep.
struct TooDeep {};

template <typename Rule>
struct Action : tao::pegtl::nothing<Rule> {};

/// For rules that are one kind of token.
template <TokenKind Kind>
struct Push {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        state.push(Kind, in.begin(), in.end());
    }
};

template <>
struct Action<lexical::doc> : Push<TokenKind::doc> {};
template <>
struct Action<lexical::comma> : Push<TokenKind::comma> {};
template <>
struct Action<lexical::dot> : Push<TokenKind::dot> {};
template <>
struct Action<lexical::colon> : Push<TokenKind::colon> {};
template <>
struct Action<lexical::minus> : Push<TokenKind::minus> {};
template <>
struct Action<lexical::equals> : Push<TokenKind::equals> {};
template <>
struct Action<lexical::both_ways> : Push<TokenKind::both_ways> {};
template <>
struct Action<lexical::one_way> : Push<TokenKind::one_way> {};
template <>
struct Action<lexical::fall> : Push<TokenKind::fall> {};
template <>
struct Action<lexical::percent> : Push<TokenKind::unit> {};

template <>
struct Action<lexical::comment> {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        state.lexed.comments.push_back({state.offset(in.begin()), state.offset(in.end())});
    }
};

template <>
struct Action<lexical::word> {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        state.push(word_kind({in.begin(), in.size()}), in.begin(), in.end());
    }
};

template <>
struct Action<lexical::number> {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        int digits = 0;
        const char* end = in.begin();
        for (; end != in.end(); ++end) {
            digits += *end >= '0' && *end <= '9' ? 1 : 0;
            if (digits > max_number_digits) {
                break;
            }
        }
        if (digits > max_number_digits) {
            state.report.add({.slug = "number-too-long",
                              .span = state.span(in.begin(), in.end()),
                              .message = "this number has too many digits",
                              .notes = {fmt::format("a number has at most {} digits, so that conversions stay exact",
                                                    max_number_digits)}});
        }
        state.push(TokenKind::number, in.begin(), end);
    }
};

template <>
struct Action<lexical::joined_unit> {
    /// Fails where it is no unit: then it is a word and a slip.
    template <typename Input>
    static bool apply(const Input& in, State& state) {
        const std::string_view written(in.begin(), in.size());
        const bool known = is_unit(written);
        const bool meant = known || meant_unit(written);
        if (meant) {
            state.push(known ? TokenKind::unit : TokenKind::unknown_unit, in.begin(), in.end());
        }
        return meant;
    }
};

template <>
struct Action<lexical::unit_word> {
    /// Fails where the word is no unit: then it is an ordinary word, as in `category 3 gas`.
    template <typename Input>
    static bool apply(const Input& in, State& state) {
        const std::string_view written(in.begin(), in.size());
        if (is_unit(written)) {
            state.push(TokenKind::unit, in.begin(), in.end());
            return true;
        }
        if (written.find('/') != std::string_view::npos) {
            state.push(TokenKind::unknown_unit, in.begin(), in.end());
            return true;
        }
        return false;
    }
};

template <TokenKind Kind>
struct Open {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        state.open.push_back(state.offset(in.begin()));
        if (state.open.size() > static_cast<std::size_t>(max_nesting)) {
            const std::uint32_t outermost = state.open.front();
            state.report.add({.slug = "nested-too-deep",
                              .span = state.span(in.begin(), in.end()),
                              .message = fmt::format("more than {} braces and parentheses in each other", max_nesting),
                              .labels = {{{state.report.source(), outermost, outermost + 1}, "the outermost is this"}},
                              .notes = {"nothing of this file was understood"}});
            throw TooDeep();
        }
        state.push(Kind, in.begin(), in.end());
    }
};

template <TokenKind Kind>
struct Close {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        if (!state.open.empty()) {
            state.open.pop_back();
        }
        state.push(Kind, in.begin(), in.end());
    }
};

template <>
struct Action<lexical::open_brace> : Open<TokenKind::open_brace> {};
template <>
struct Action<lexical::open_parenthesis> : Open<TokenKind::open_parenthesis> {};
template <>
struct Action<lexical::close_brace> : Close<TokenKind::close_brace> {};
template <>
struct Action<lexical::close_parenthesis> : Close<TokenKind::close_parenthesis> {};

template <>
struct Action<lexical::string> : Push<TokenKind::string> {};

template <>
struct Action<lexical::unclosed_string> {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        // A brace at the end of the line was hardly meant as text. Were it taken for text, the blocks would not match.
        std::string_view written(in.begin(), in.size());
        std::size_t size = written.find_last_not_of("{} \t") + 1;
        written = written.substr(0, size);
        state.report.add(
            {.slug = "unclosed-string",
             .span = state.span(in.begin(), in.begin() + size),
             .message = "this text is not closed on its line",
             .notes = {"a text stands between two `\"` on one line; a line break in it is written `\\n`"}});
        state.push(TokenKind::string, in.begin(), in.begin() + size);
        for (const char* place = in.begin() + size; place != in.end(); ++place) {
            if (*place == '{' || *place == '}') {
                state.push(*place == '{' ? TokenKind::open_brace : TokenKind::close_brace, place, place + 1);
            }
        }
    }
};

template <>
struct Action<lexical::bad_escape> {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        state.report.add(
            {.slug = "unknown-escape",
             .span = state.span(in.begin(), in.end()),
             .message = fmt::format("`{}` means nothing in a text", text::printable({in.begin(), in.size()})),
             .notes = {"`\\\"` is a quotation mark, `\\\\` a backslash, `\\n` a line break"}});
    }
};

template <>
struct Action<lexical::slip> {
    template <typename Input>
    static void apply(const Input& in, State& state) {
        const std::string_view written(in.begin(), in.size());
        const Slip slip = explain_slip(written);
        text::Diagnostic diagnostic{
            .slug = "stray-character", .span = state.span(in.begin(), in.end()), .message = slip.message};
        if (!slip.remedy.empty()) {
            diagnostic.remedies.push_back(slip.remedy);
        }
        state.report.add(std::move(diagnostic));
        if (slip.meant) {
            state.push(*slip.meant, in.begin(), in.end());
        }
    }
};

} // namespace

Lexed lex(const text::Source& source, Report& report) {
    Lexed lexed;
    // Measured on texts of ours: between four and six bytes a token. A guess too low costs one more copy.
    const std::size_t guess = source.text.size() / 4 + 16;
    lexed.tokens.reserve(guess);
    lexed.kinds.reserve(guess);
    State state{lexed, report, source.text};
    tao::pegtl::memory_input<tao::pegtl::tracking_mode::lazy, tao::pegtl::eol::lf, const char*> in(
        source.text.data(), source.text.data() + source.text.size(), "");
    try {
        tao::pegtl::parse<lexical::text, Action>(in, state);
    } catch (const TooDeep&) {
        lexed.too_deep = true;
    }
    const char* end = source.text.data() + source.text.size();
    state.push(TokenKind::end, end, end);
    return lexed;
}

} // namespace curbstop::syntax
