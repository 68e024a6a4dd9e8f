// What is true or not: claims about how things stand and what they hold, and how claims are joined.
#pragma once

#include "syntax/grammar/shared.hpp"

namespace curbstop::syntax::grammar {

struct expression;

struct parentheses : chain<tok<T::open_parenthesis>, need<"what must hold after `(`", expression>,
                           need<"`)`", tok<T::close_parenthesis>>> {};

struct as_leaves : node<K::as_leaves_, tok<T::as_>, need_name<"the name of the procedure", "as shut_down leaves it">,
                        need<"`leaves it` after the procedure", tok<T::leaves_>, "as shut_down leaves it">,
                        need<"`it` after `leaves`", tok<T::it_>, "as shut_down leaves it">> {};

struct no_pressure : node<K::no_pressure_, tok<T::no_>, tok<T::pressure_>,
                          opt<tok<T::at_>, need<"where there is no pressure", ref_list, "no pressure at filter">>> {};

struct pressure_below
    : node<K::pressure_below_, tok<T::pressure_>, tok<T::at_>, need_ref<"where", "pressure at pump.outlet below 3 bar">,
           need<"`below` and a pressure", tok<T::below_>, "pressure at pump.outlet below 3 bar">,
           need_quantity<"the pressure", "pressure at pump.outlet below 3 bar">> {};

struct frost_safe
    : node<K::frost_safe_, tok<T::frost_safe_>, need<"`at` and a temperature", tok<T::at_>, "frost_safe at -20 degC">,
           need_quantity<"the temperature", "frost_safe at -20 degC">> {};

struct drinkable : node<K::drinkable_, tok<T::drinkable_>> {};
struct except : node<K::except_, tok<T::except_>, need<"what is excepted", ref_list, "winter except street">> {};
struct sanitised : node<K::sanitised_, tok<T::sanitised_>, opt<except>> {};
struct restored : node<K::restored_, tok<T::restored_>> {};

/// What follows the subject of a claim: by it a subject that is called like a word is known.
struct claims_on : choice<tok<T::is_, T::are_, T::comma, T::dot, T::holds_, T::reaches_>> {};

/// A claim that starts with a word of its own, where that word is not the subject of another claim.
template <TokenKind Word, typename Rule>
struct worded : when<pegtl::seq<tok<Word>, not_at<claims_on>>, Rule> {};

struct holds_expr : node<K::holds_expr_, ref, tok<T::holds_>,
                         need_name<"a fluid, or `liquid`, after `holds`", "tank holds antifreeze">> {};
struct reaches_liquid : node<K::reaches_liquid_, ref, tok<T::reaches_>,
                             need<"`liquid` after `reaches`", tok<T::liquid_>, "inlet reaches liquid">> {};

struct is_not : node<K::is_not_, tok<T::not_>> {};
struct empty : node<K::empty_, tok<T::empty_>> {};
struct cool : node<K::cool_, tok<T::cool_>> {};
struct how_it_stands : choice<empty, cool, standing> {};
template <>
inline constexpr Sort sort_of<how_it_stands> = Sort::name;

struct is_expr : node<K::is_expr_, subjects, need<"`is` or `are`", tok<T::is_, T::are_>, "street is shut">, opt<is_not>,
                      need<"how it stands", how_it_stands, "street is shut">> {};

struct lineup_expr : node<K::lineup_expr_, name, opt<except>> {};

/// A claim that starts with its subject.
struct about_subject : choice<when<pegtl::seq<ref_ahead, tok<T::holds_>>, holds_expr>,
                              when<pegtl::seq<ref_ahead, tok<T::reaches_>>, reaches_liquid>,
                              when<pegtl::seq<identifier, not_at<claims_on>>, lineup_expr>, is_expr> {};

struct primary : choice<parentheses, as_leaves, when<pegtl::seq<tok<T::no_>, tok<T::pressure_>>, no_pressure>,
                        when<pegtl::seq<tok<T::pressure_>, tok<T::at_>>, pressure_below>,
                        worded<T::frost_safe_, frost_safe>, worded<T::drinkable_, drinkable>,
                        worded<T::sanitised_, sanitised>, worded<T::restored_, restored>, about_subject> {};

/// `not not` is refused: it says nothing, and any number of them would nest without a parenthesis to count.
struct not_expr : node<K::not_expr_, tok<T::not_>, need<"what does not hold after `not`", primary>> {};
struct unary : choice<not_expr, primary> {};

struct and_expr : fold<K::and_expr_, unary, tok<T::and_>, need<"what must hold after `and`", unary>,
                       star<tok<T::and_>, need<"what must hold after `and`", unary>>> {};
struct or_expr : fold<K::or_expr_, and_expr, tok<T::or_>, need<"what may hold instead after `or`", and_expr>,
                      star<tok<T::or_>, need<"what may hold instead after `or`", and_expr>>> {};
/// One `implies` only: readers do not agree on what two in a row mean.
struct expression : fold<K::implies_expr_, or_expr, tok<T::implies_>, need<"what follows after `implies`", or_expr>,
                         need<"parentheses around one `implies`", not_at<tok<T::implies_>>>> {
    static constexpr bool starts(TokenKind kind) { return unary::starts(kind); }
};

template <>
inline constexpr Sort sort_of<expression> = Sort::claim;
template <>
inline constexpr Sort sort_of<primary> = Sort::claim;
template <>
inline constexpr Sort sort_of<unary> = Sort::claim;
template <>
inline constexpr Sort sort_of<and_expr> = Sort::claim;
template <>
inline constexpr Sort sort_of<or_expr> = Sort::claim;

struct requires_ : node<K::requires_, tok<T::requires_>,
                        need<"what must hold after `requires`", expression, "requires street is shut">> {};
struct ensures : node<K::ensures_, tok<T::ensures_>,
                      need<"what must hold after `ensures`", expression, "ensures frost_safe at -20 degC">> {};
struct while_clause
    : node<K::while_clause_, tok<T::while_>, need<"what must hold after `while`", expression, "while power is on">> {};

} // namespace curbstop::syntax::grammar
