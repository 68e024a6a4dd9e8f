// The pieces that the grammar is put together from: tokens, nodes, needs, blocks.
// The input is the string of token kinds; an offset in it is the index of a token.
#pragma once

#include "syntax/parser.h"
#include "syntax/places.h"
#include "syntax/token_kind.h"
#include "syntax/tree.h"

#include <tao/pegtl.hpp>
#include <tao/pegtl/contrib/analyze_traits.hpp>
#include <tao/pegtl/contrib/uint8.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace curbstop::syntax::grammar {

namespace pegtl = tao::pegtl;
using pegtl::apply_mode;
using pegtl::at;
using pegtl::not_at;
using pegtl::opt;
using pegtl::rewind_mode;
using pegtl::star;
using pegtl::type_list;
using T = TokenKind;
using K = NodeKind;

template <typename Input>
std::uint32_t index_of(const Input& in) {
    return static_cast<std::uint32_t>(in.current() - in.begin());
}

template <typename Input>
TokenKind peek(const Input& in) {
    return static_cast<TokenKind>(*in.current()); // the token `end` is last and never passed
}

/// A rule that can tell by the next token whether it may match.
template <typename Rule>
concept Predictive = requires(TokenKind kind) {
    Rule::starts(kind);
};

/// One token of these kinds.
template <TokenKind... Kinds>
struct tok : pegtl::uint8::one<static_cast<std::uint8_t>(Kinds)...> {
    static constexpr bool starts(TokenKind kind) { return ((kind == Kinds) || ...); }
};

/// One token that can be used as a name.
struct identifier : pegtl::uint8::range<static_cast<std::uint8_t>(T::name), static_cast<std::uint8_t>(last_soft_word)> {
    static constexpr bool starts(TokenKind kind) { return is_name(kind); }
};

/// Rules one after the other, of which the first decides.
template <typename First, typename... Rest>
struct chain : pegtl::seq<First, Rest...> {
    static constexpr bool starts(TokenKind kind) requires Predictive<First> { return First::starts(kind); }
};

/// The first of these that matches.
template <typename... Rules>
struct choice : pegtl::sor<Rules...> {
    static constexpr bool starts(TokenKind kind) requires(Predictive<Rules>&&...) {
        return (Rules::starts(kind) || ...);
    }
};

/// A rule that is tried only where the tokens ahead are so.
template <typename Ahead, typename Rule>
struct when : pegtl::seq<at<Ahead>, Rule> {
    static constexpr bool starts(TokenKind kind) requires Predictive<Rule> { return Rule::starts(kind); }
};

/// Rules one after the other that make a node, whose children are the nodes that they make.
template <NodeKind Kind, typename First, typename... Rest>
struct node {
    using rule_t = node;
    using subs_t = type_list<First, Rest...>;

    static constexpr bool starts(TokenKind kind) requires Predictive<First> { return First::starts(kind); }

    template <apply_mode A, rewind_mode M, template <typename...> class Action, template <typename...> class Control,
              typename Input>
    static bool match(Input& in, Parser& parser) {
        if constexpr (Predictive<First>) {
            if (!First::starts(peek(in))) {
                return false;
            }
        }
        const auto index = parser.nodes.size();
        parser.nodes.push_back({Kind, index_of(in), 0, 0});
        if (!Control<pegtl::seq<First, Rest...>>::template match<A, M, Action, Control>(in, parser)) {
            parser.nodes.resize(index);
            return false;
        }
        parser.nodes[index].token_end = index_of(in);
        parser.nodes[index].subtree_end = static_cast<std::uint32_t>(parser.nodes.size());
        return true;
    }
};

struct doc : node<K::doc_, tok<T::doc>> {};

/// A node for a declaration that doc comments may stand before.
template <NodeKind Kind, TokenKind Word, typename... Rest>
struct documented {
    using rule_t = documented;
    using subs_t = type_list<star<doc>, tok<Word>, Rest...>;

    static constexpr bool starts(TokenKind kind) { return kind == Word; }

    template <apply_mode A, rewind_mode M, template <typename...> class Action, template <typename...> class Control,
              typename Input>
    static bool match(Input& in, Parser& parser) {
        const char* ahead = in.current();
        while (static_cast<TokenKind>(*ahead) == T::doc) {
            ++ahead;
        }
        if (static_cast<TokenKind>(*ahead) != Word) {
            return false;
        }
        return Control<node<Kind, star<doc>, tok<Word>, Rest...>>::template match<A, M, Action, Control>(in, parser);
    }
};

/// A node that is there only where an operator follows its first operand: `a` stays `a`, `a and b` is a node.
template <NodeKind Kind, typename First, typename Operator, typename... Rest>
struct fold {
    using rule_t = fold;
    using subs_t = type_list<First, opt<Operator, Rest...>>;

    template <apply_mode A, rewind_mode M, template <typename...> class Action, template <typename...> class Control,
              typename Input>
    static bool match(Input& in, Parser& parser) {
        const auto index = parser.nodes.size();
        const auto first_token = index_of(in);
        if (!Control<First>::template match<A, M, Action, Control>(in, parser)) {
            return false;
        }
        if (!Operator::starts(peek(in))) {
            return true;
        }
        // The operand is short in any text that people write: moving it up by one costs less than a node for each level
        // of precedence would.
        for (auto i = index; i < parser.nodes.size(); ++i) {
            ++parser.nodes[i].subtree_end;
        }
        parser.nodes.insert(parser.nodes.begin() + static_cast<std::ptrdiff_t>(index), {Kind, first_token, 0, 0});
        if (!Control<pegtl::seq<Operator, Rest...>>::template match<A, M, Action, Control>(in, parser)) {
            return false; // not reached: after an operator all else is needed
        }
        parser.nodes[index].token_end = index_of(in);
        parser.nodes[index].subtree_end = static_cast<std::uint32_t>(parser.nodes.size());
        return true;
    }
};

/// A string as a template argument.
template <std::size_t Size>
struct Words {
    char characters[Size];

    constexpr Words(const char (&text)[Size]) { std::copy_n(text, Size, characters); }
    [[nodiscard]] constexpr std::string_view view() const { return {characters, Size - 1}; }
};

/// What sort of thing a rule reads.
template <typename Rule>
inline constexpr Sort sort_of = Sort::other;
template <TokenKind... Kinds>
inline constexpr Sort sort_of<tok<Kinds...>> = Sort::mark;

/// A rule that must match here. `What` says what it reads, in the author's words; `Example` shows it.
template <Words What, typename Rule, Words Example = "">
struct need {
    using rule_t = need;
    using subs_t = type_list<Rule>;

    static constexpr bool starts(TokenKind kind) requires Predictive<Rule> { return Rule::starts(kind); }

    template <apply_mode A, rewind_mode M, template <typename...> class Action, template <typename...> class Control,
              typename Input>
    static bool match(Input& in, Parser& parser) {
        const std::uint32_t here = index_of(in);
        if (Control<Rule>::template match<A, rewind_mode::dontcare, Action, Control>(in, parser)) {
            return true;
        }
        parser.fail(here, {What.view(), sort_of<Rule>, Example.view()});
    }
};

/// Items up to the `}` of their block or the end of the text. An item that fails is reported and left out.
template <Place Where, typename Item>
struct items {
    using rule_t = items;
    using subs_t = type_list<star<Item>>;

    template <apply_mode A, rewind_mode, template <typename...> class Action, template <typename...> class Control,
              typename Input>
    static bool match(Input& in, Parser& parser) {
        while (true) {
            const std::uint32_t start = index_of(in);
            const auto mark = static_cast<std::uint32_t>(parser.nodes.size());
            std::uint32_t word = start;
            while (parser.kind(word) == T::doc) {
                ++word;
            }
            const TokenKind kind = parser.kind(word);
            if (Where == Place::file && kind == T::close_brace) {
                parser.report_stray_brace(word);
                in.bump(word + 1 - start);
                continue;
            }
            if (kind == T::close_brace || kind == T::end) {
                if (word != start) {
                    parser.report_stray_doc(start, word);
                    in.bump(word - start);
                }
                return true;
            }
            if (parser.closes_unseen(word)) {
                return true;
            }
            try {
                if (Control<Item>::template match<A, rewind_mode::required, Action, Control>(in, parser)) {
                    continue;
                }
                if (word == start || !Item::starts(kind)) {
                    parser.fail_item(word);
                }
                parser.report_stray_doc(start, word);
                in.bump(word - start);
            } catch (SyntaxError& error) {
                in.bump(parser.recover(error, word, mark) - index_of(in));
            }
        }
    }
};

/// A block: `{`, items, `}`. Where the `}` is missing it is reported and the block ends there.
template <Place Where, typename Item, typename... Head>
struct braces {
    using rule_t = braces;
    using subs_t = type_list<tok<T::open_brace>, Head..., items<Where, Item>, tok<T::close_brace>>;

    static constexpr bool starts(TokenKind kind) { return kind == T::open_brace; }

    template <apply_mode A, rewind_mode M, template <typename...> class Action, template <typename...> class Control,
              typename Input>
    static bool match(Input& in, Parser& parser) {
        if (peek(in) != T::open_brace) {
            return false;
        }
        struct Opened {
            Parser& parser;
            Opened(Parser& p, std::uint32_t brace)
                : parser(p) {
                parser.open(Where, brace);
            }
            Opened(const Opened&) = delete;
            Opened& operator=(const Opened&) = delete;
            ~Opened() { parser.close(); }
        };
        const Opened opened(parser, index_of(in));
        in.bump(1);
        if (!Control<pegtl::seq<Head..., items<Where, Item>>>::template match<A, M, Action, Control>(in, parser)) {
            return false; // not reached: what a block starts with is needed, and items go on to its end
        }
        if (peek(in) == T::close_brace) {
            in.bump(1);
        } else if (peek(in) == T::end) {
            parser.report_unclosed_at_end(index_of(in));
        }
        return true;
    }
};

template <Place Where, typename Item>
inline constexpr Sort sort_of<braces<Where, Item>> = Sort::block;

} // namespace curbstop::syntax::grammar

namespace tao::pegtl {

// How much each of our rules reads at least, for analyze().
template <typename Name, curbstop::syntax::NodeKind Kind, typename... Rules>
struct analyze_traits<Name, curbstop::syntax::grammar::node<Kind, Rules...>> : analyze_seq_traits<Rules...> {};

template <typename Name, curbstop::syntax::NodeKind Kind, curbstop::syntax::TokenKind Word, typename... Rules>
struct analyze_traits<Name, curbstop::syntax::grammar::documented<Kind, Word, Rules...>>
    : analyze_seq_traits<star<curbstop::syntax::grammar::doc>, curbstop::syntax::grammar::tok<Word>, Rules...> {};

template <typename Name, curbstop::syntax::NodeKind Kind, typename First, typename Operator, typename... Rest>
struct analyze_traits<Name, curbstop::syntax::grammar::fold<Kind, First, Operator, Rest...>>
    : analyze_seq_traits<First, opt<Operator, Rest...>> {};

template <typename Name, curbstop::syntax::grammar::Words What, typename Rule, curbstop::syntax::grammar::Words Example>
struct analyze_traits<Name, curbstop::syntax::grammar::need<What, Rule, Example>> : analyze_seq_traits<Rule> {};

template <typename Name, curbstop::syntax::Place Where, typename Item>
struct analyze_traits<Name, curbstop::syntax::grammar::items<Where, Item>> : analyze_opt_traits<star<Item>> {};

template <typename Name, curbstop::syntax::Place Where, typename Item, typename... Head>
struct analyze_traits<Name, curbstop::syntax::grammar::braces<Where, Item, Head...>>
    : analyze_seq_traits<curbstop::syntax::grammar::tok<curbstop::syntax::TokenKind::open_brace>, Head...,
                         curbstop::syntax::grammar::items<Where, Item>> {};

} // namespace tao::pegtl
