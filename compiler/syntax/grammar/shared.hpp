// Names, quantities, references, labels: what all parts of the grammar use.
#pragma once

#include "syntax/grammar/rules.hpp"

namespace curbstop::syntax::grammar {

struct name : node<K::name_, identifier> {};
/// A language by its ISO 639-1 code.
struct language_code : node<K::word_, tok<T::en_, T::fr_, T::de_, T::es_>> {};
/// The same text in another language. The code and the quotation mark after it tell it from the item that follows.
struct translation : when<pegtl::seq<tok<T::en_, T::fr_, T::de_, T::es_>, tok<T::string>>,
                          node<K::translation_, language_code, node<K::string_, tok<T::string>>>> {};
struct text : node<K::string_, tok<T::string>, star<translation>> {};
struct number : node<K::number_, tok<T::number>> {};
struct unit : node<K::unit_, tok<T::unit>> {};
struct quantity : node<K::quantity_, number, opt<unit>> {};
struct label : node<K::label_, text> {};

template <TokenKind... Kinds>
struct word_leaf : node<K::word_, tok<Kinds...>> {};

template <>
inline constexpr Sort sort_of<name> = Sort::name;
template <>
inline constexpr Sort sort_of<text> = Sort::text;
template <>
inline constexpr Sort sort_of<label> = Sort::text;
template <>
inline constexpr Sort sort_of<quantity> = Sort::quantity;
template <>
inline constexpr Sort sort_of<number> = Sort::quantity;

using comma = tok<T::comma>;
using colon = tok<T::colon>;
using minus = tok<T::minus>;
using arrows = tok<T::both_ways, T::one_way, T::fall>;

template <Words What, Words Example = "">
using need_name = need<What, name, Example>;
template <Words What, Words Example = "">
using need_text = need<What, text, Example>;
template <Words What, Words Example = "">
using need_quantity = need<What, quantity, Example>;

/// What cannot match: a `need` of it says what should have come where several words could.
template <Words What, Words Example = "">
using need_one_of = need<What, pegtl::failure, Example>;

/// Names with commas, without a node of their own.
template <Words What>
struct name_list : chain<need_name<What>, star<comma, need<"another name after the comma", name>>> {};

struct ref : node<K::ref_, name, star<tok<T::dot>, need<"a name after the `.`", name, "pump.outlet">>> {};
template <>
inline constexpr Sort sort_of<ref> = Sort::name;

template <Words What, Words Example = "">
using need_ref = need<What, ref, Example>;

/// References with commas, without a node of their own.
struct ref_list : chain<ref, star<comma, need_ref<"another name after the comma">>> {};
struct refs : node<K::refs_, ref_list> {};
template <>
inline constexpr Sort sort_of<ref_list> = Sort::name;
template <>
inline constexpr Sort sort_of<refs> = Sort::name;

/// The tokens of a reference, to look beyond it.
struct ref_ahead : pegtl::seq<identifier, star<tok<T::dot>, identifier>> {};

struct all_of : node<K::all_of_, tok<T::all_>, need_name<"the name of a group after `all`", "all taps">> {};
struct subject : choice<all_of, ref> {};
struct subjects
    : node<K::subjects_, subject, star<comma, need<"another part or `all` and a group after the comma", subject>>> {};
template <>
inline constexpr Sort sort_of<subject> = Sort::name;
template <>
inline constexpr Sort sort_of<subjects> = Sort::name;

struct only_with : node<K::only_with_, tok<T::only_>, need<"`with` after `only`", tok<T::with_>, "only with loft_tap">,
                        need_name<"the name of the option", "only with loft_tap">> {};
struct without : node<K::without_, tok<T::without_>, need_name<"the name of the option", "without loft_tap">> {};

struct coupled_to
    : node<K::coupled_to_, tok<T::coupled_>, tok<T::to_>, need_ref<"the other end", "hose coupled to inlet">> {};
struct in_vessel : node<K::in_vessel_, tok<T::in_>, need_ref<"the name of the vessel", "siphon in jug">> {};
struct under : node<K::under_, tok<T::under_>, need_ref<"what it stands under", "bucket under low_drain">> {};

/// How something stands.
struct standing
    : node<K::standing_,
           choice<quantity, when<pegtl::seq<tok<T::coupled_>, tok<T::to_>>, coupled_to>, in_vessel, under, name>> {};
template <>
inline constexpr Sort sort_of<standing> = Sort::name;

struct rated : node<K::rated_, tok<T::rated_>, need_quantity<"the greatest pressure", "rated 10 bar">> {};

/// A signal word with what it warns of.
struct signal : node<K::signal_, word_leaf<T::danger_, T::warning_, T::caution_, T::notice_>,
                     need_text<"the text", "caution \"TEXT\"">> {};

/// The same file in every language.
struct file_name : node<K::string_, tok<T::string>> {};
template <>
inline constexpr Sort sort_of<file_name> = Sort::text;
/// Of a part or a step. That words are missing is told by who knows what they are for.
struct photo : node<K::photo_, tok<T::photo_>,
                    need<"the name of the file", file_name, "photo \"tap.jpg\" \"WHAT IT SHOWS\"">, opt<text>> {};

} // namespace curbstop::syntax::grammar
