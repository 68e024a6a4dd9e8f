// Characters to tokens. Included by lexer.cpp, and by the test that looks for loops in the grammar.
#pragma once

#include <tao/pegtl.hpp>

namespace curbstop::syntax::lexical {

using namespace tao::pegtl;

struct spaces : plus<one<' ', '\n', '\t', '\r'>> {};
struct rest_of_line : star<not_one<'\n', '\r'>> {};

// Three and more `#` are a line drawn across the page: no doc comment.
struct doc : seq<two<'#'>, not_at<one<'#'>>, rest_of_line> {};
struct comment : seq<one<'#'>, rest_of_line> {};

struct word : identifier {};

struct digits : plus<digit> {};
// A sign belongs to the digit it touches. Names never start with a digit, so `a - b` is never meant.
struct number : seq<opt<one<'-'>>, digits, opt<one<'.'>, digits>> {};
struct unit_word : seq<identifier, opt<one<'/'>, identifier>> {};
// A unit with a slash, where no number goes before it. A single word may be a unit or a name: the grammar knows.
struct joined_unit : seq<identifier, one<'/'>, identifier> {};
struct percent : one<'%'> {};
struct quantity : seq<number, opt<star<one<' ', '\n', '\t', '\r'>>, unit_word>> {};

struct good_escape : seq<one<'\\'>, one<'"', '\\', 'n'>> {};
struct bad_escape : seq<one<'\\'>, sor<utf8::not_one<'\n', '\r'>, not_one<'\n', '\r'>>> {};
struct inside_string : star<sor<not_one<'"', '\\', '\n', '\r'>, good_escape, bad_escape>> {};
struct string : seq<one<'"'>, inside_string, one<'"'>> {};
struct unclosed_string : seq<one<'"'>, rest_of_line> {};

struct comma : one<','> {};
struct dot : one<'.'> {};
struct colon : one<':'> {};
struct minus : one<'-'> {};
struct equals : one<'='> {};
struct both_ways : TAO_PEGTL_STRING("<->") {};
struct one_way : TAO_PEGTL_STRING("->") {};
struct fall : TAO_PEGTL_STRING("~>") {};
struct open_brace : one<'{'> {};
struct close_brace : one<'}'> {};
struct open_parenthesis : one<'('> {};
struct close_parenthesis : one<')'> {};

// What is no token. Some slips are taken whole, so that each makes one message: quotation marks that are not straight,
// a comment in the way of other languages, a degree sign with its scale.
template <char... Marks>
struct mark : internal::seq<tao::pegtl::string<Marks...>> {};
struct curly_mark : sor<mark<'\xE2', '\x80', '\x9C'>, mark<'\xE2', '\x80', '\x9D'>, mark<'\xE2', '\x80', '\x9E'>,
                        mark<'\xC2', '\xAB'>, mark<'\xC2', '\xBB'>> {};
struct curly_string : seq<curly_mark, until<sor<curly_mark, one<'"'>>, not_one<'\n', '\r', '"'>>> {};
struct single_string : seq<one<'\''>, until<one<'\''>, not_one<'\n', '\r', '\''>>> {};
struct slashed_comment : seq<one<'/'>, one<'/', '*'>, rest_of_line> {};
struct degrees : seq<mark<'\xC2', '\xB0'>, one<'C', 'F'>, not_at<identifier_other>> {};
struct slip : sor<curly_string, single_string, slashed_comment, degrees, seq<one<'='>, one<'='>>,
                  seq<one<'!'>, one<'='>>, two<'&'>, two<'|'>, utf8::any, any> {};

struct token : sor<spaces, joined_unit, word, comma, dot, both_ways, one_way, fall, quantity, minus, string,
                   unclosed_string, open_brace, close_brace, doc, comment, colon, seq<not_at<two<'='>>, equals>,
                   percent, open_parenthesis, close_parenthesis, slip> {};
struct text : until<eof, token> {};

} // namespace curbstop::syntax::lexical
