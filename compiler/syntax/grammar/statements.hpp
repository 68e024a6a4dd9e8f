// What is done in a step, and what is done around whole steps.
#pragma once

#include "syntax/grammar/expressions.hpp"

namespace curbstop::syntax::grammar {

struct statement;
struct stage_item;

template <Place Where>
struct item_of;
template <>
struct item_of<Place::step> {
    using type = statement;
};
template <>
struct item_of<Place::stage> {
    using type = stage_item;
};

/// A block of statements or of steps, as where it stands has it.
template <Place Where>
struct block : node<K::block_, braces<Where, typename item_of<Where>::type>> {};
template <Place Where>
inline constexpr Sort sort_of<block<Where>> = Sort::block;

template <Place Where>
using need_block = need<"`{`", block<Where>>;

// Moves

struct set : node<K::set_, tok<T::set_>, need<"what is set", subjects, "set street to shut">,
                  need<"`to` and how it shall stand", tok<T::to_>, "set street to shut">,
                  need<"how it shall stand", standing, "set street to shut">> {};
struct hold : node<K::hold_, tok<T::hold_>, need_ref<"what is held", "hold flush at open { }">,
                   need<"`at` and a position", tok<T::at_>, "hold flush at open { }">,
                   need<"the position", standing, "hold flush at open { }">,
                   need<"`{` and what is done while it is held", block<Place::step>, "hold flush at open { }">> {};
struct couple : node<K::couple_, tok<T::couple_>, need_ref<"an end", "couple hose to inlet">,
                     need<"`to` and the other end", tok<T::to_>, "couple hose to inlet">,
                     need_ref<"the other end", "couple hose to inlet">> {};
struct uncouple : node<K::uncouple_, tok<T::uncouple_>, need_ref<"an end", "uncouple hose">> {};
struct cap : node<K::cap_, tok<T::cap_>, need_ref<"an end", "cap inlet">> {};
struct uncap : node<K::uncap_, tok<T::uncap_>, need_ref<"an end", "uncap inlet">> {};
struct dip : node<K::dip_, tok<T::dip_>, need_ref<"an end", "dip siphon in jug">,
                  need<"`in` and a vessel", tok<T::in_>, "dip siphon in jug">,
                  need_ref<"the name of the vessel", "dip siphon in jug">> {};
struct lift_out : node<K::lift_out_, tok<T::lift_>, need_ref<"an end", "lift siphon out">,
                       need<"`out`", tok<T::out_>, "lift siphon out">> {};
struct place_under : node<K::place_under_, tok<T::place_>, need_ref<"the name of a vessel", "place pan under filter">,
                          need<"`under` and what it shall catch from", tok<T::under_>, "place pan under filter">,
                          need_ref<"what it shall stand under", "place pan under filter">> {};
struct take_away : node<K::take_away_, tok<T::take_>, need_ref<"the name of a vessel", "take pan away">,
                        need<"`away`", tok<T::away_>, "take pan away">> {};

// Looking

struct verify
    : node<K::verify_, tok<T::verify_>, need<"what is looked at after `verify`", expression, "verify street is shut">> {
};
struct watch : node<K::watch_, tok<T::watch_>, need_text<"what is watched", "watch \"the gauge\" at loft">,
                    need<"`at` and where", tok<T::at_>, "watch \"the gauge\" at loft">,
                    need_ref<"a zone or a part", "watch \"the gauge\" at loft">> {};

struct observation
    : node<K::observation_,
           choice<
               word_leaf<T::stops_, T::clear_, T::full_>,
               chain<word_leaf<T::only_>, need<"`air` after `only`", tok<T::air_>, "until only air">>,
               chain<word_leaf<T::shows_>, need_name<"the fluid that is seen", "until shows antifreeze">>,
               chain<word_leaf<T::holds_>, need<"`pressure` after `holds`", tok<T::pressure_>, "until holds pressure">>,
               chain<word_leaf<T::reads_>, need<"`at least` after `reads`", tok<T::at_>, "until reads at least 2 bar">,
                     need<"`least` after `at`", tok<T::least_>, "until reads at least 2 bar">,
                     need_quantity<"what is read", "until reads at least 2 bar">>>> {};
struct until
    : node<K::until_, tok<T::until_>,
           need<"what is seen: `stops`, `only air`, `shows`, `clear`, `full`, `holds pressure` or `reads at least`",
                observation>,
           opt<text>> {};

// Flows

template <TokenKind Word, typename Clause>
struct at_bound : when<pegtl::seq<tok<T::at_>, tok<Word>>, Clause> {};
struct at_least : node<K::at_least_, tok<T::at_>, tok<T::least_>, need_quantity<"how much at least", "at least 2 L">> {
};
struct at_most : node<K::at_most_, tok<T::at_>, tok<T::most_>, need_quantity<"how much at most", "at most 4 L">> {};
struct record : node<K::record_, tok<T::record_>, need_text<"what is recorded", "record \"Antifreeze used\" as volume">,
                     need<"`as` and a dimension", tok<T::as_>, "record \"Antifreeze used\" as volume">,
                     need_name<"the dimension", "record \"Antifreeze used\" as volume">,
                     opt<chain<tok<T::in_>, need<"the unit that it is written down in", choice<unit, name>,
                                                 "record \"Bleach used\" as volume in mL">>>,
                     star<choice<at_bound<T::least_, at_least>, at_bound<T::most_, at_most>>>> {};
struct seen_at : node<K::seen_at_, tok<T::seen_>, need<"`at` and a part", tok<T::at_>, "seen at sight_glass">,
                      need_ref<"the part", "seen at sight_glass">> {};
struct at_rate : node<K::at_rate_, tok<T::at_>, need_quantity<"how fast", "at 2 L/min">> {};
struct flow_clauses : star<choice<until, at_bound<T::least_, at_least>, at_bound<T::most_, at_most>,
                                  at_bound<T::number, at_rate>, seen_at>> {};

struct flow : node<K::flow_, tok<T::flow_>,
                   need<"where the flow comes from", refs, "flow street to sink until clear \"WORDS\"">,
                   need<"`to` and where it runs out", tok<T::to_>, "flow street to sink until clear \"WORDS\"">,
                   need<"where it runs out", refs, "flow street to sink until clear \"WORDS\"">, flow_clauses> {};
struct drain
    : node<K::drain_, tok<T::drain_>,
           need<"what is drained", refs, "drain heater, pipes through low until stops \"WORDS\"">,
           need<"`through` and where it runs out", tok<T::through_>,
                "drain heater, pipes through low until stops \"WORDS\"">,
           need<"where it runs out", refs, "drain heater, pipes through low until stops \"WORDS\"">, flow_clauses> {};
struct keep_flow
    : node<K::keep_flow_, tok<T::keep_>, need<"`flow` after `keep`", tok<T::flow_>, "keep flow street to sink">,
           need<"where the flow comes from", refs, "keep flow street to sink">,
           need<"`to` and where it runs out", tok<T::to_>, "keep flow street to sink">,
           need<"where it runs out", refs, "keep flow street to sink">> {};
struct pressurise : node<K::pressurise_, tok<T::pressurise_>,
                         need<"what brings the pressure", refs, "pressurise street until holds pressure \"WORDS\"">,
                         star<choice<until, at_bound<T::most_, at_most>>>> {};
struct pour : node<K::pour_, tok<T::pour_>, need_ref<"the name of a vessel", "pour pan into sewer">,
                   need<"`into` and a place", tok<T::into_>, "pour pan into sewer">,
                   need_ref<"the name of the place", "pour pan into sewer">,
                   opt<chain<tok<T::to_>, need_quantity<"the concentration", "pour jug into tank to 125 mg/L">>>> {};

// For the reader of the sheet

struct helper : node<K::helper_, tok<T::helper_>, opt<text>> {};
struct wait : node<K::wait_, tok<T::wait_>, need_quantity<"how long", "wait 4 h">> {};
struct wear : node<K::wear_, tok<T::wear_>, need_text<"what is worn", "wear \"gloves\"">,
                   star<comma, need_text<"another text after the comma", "wear \"gloves\", \"goggles\"">>> {};
struct bring
    : node<K::bring_, tok<T::bring_>,
           need<"what is brought", choice<text, chain<quantity, need_name<"the fluid", "bring 4 L antifreeze">>, name>,
                "bring 4 L antifreeze">> {};
struct note : node<K::note_, tok<T::note_>, need_text<"the text", "note \"TEXT\"">> {};

// Around statements or steps

template <Place Where>
struct repeat
    : node<K::repeat_, tok<T::repeat_>, opt<until>,
           need<"`at most` and a number of times", tok<T::at_>, "repeat at most 3 times { }">,
           need<"`most` after `at`", tok<T::most_>, "repeat at most 3 times { }">,
           need<"how many times", number, "repeat at most 3 times { }">,
           need<"`times` after the number", tok<T::times_>, "repeat at most 3 times { }">, need_block<Where>> {};

struct each_way
    : node<K::each_way_, comma, need<"`each way` after the comma", tok<T::each_>, "for each t in taps, each way w { }">,
           need<"`way` after `each`", tok<T::way_>, "for each t in taps, each way w { }">,
           need_name<"the name for the way", "for each t in taps, each way w { }">> {};
struct from_to : node<K::from_to_, tok<T::from_>, need_name<"the zone where the walk starts", "from porch to loft">,
                      need<"`to` and the zone where the walk ends", tok<T::to_>, "from porch to loft">,
                      need_name<"the zone where the walk ends", "from porch to loft">> {};
template <Place Where>
struct for_each : node<K::for_each_, tok<T::for_>, need<"`each` after `for`", tok<T::each_>, "for each t in taps { }">,
                       need_name<"the name for each part", "for each t in taps { }">,
                       need<"`in` and a group", tok<T::in_>, "for each t in taps { }">,
                       need_name<"the name of the group", "for each t in taps { }">, opt<each_way>, opt<from_to>,
                       need_block<Where>> {};
template <Place Where>
struct only_block
    : node<K::only_block_, tok<T::only_>, need<"`with` after `only`", tok<T::with_>, "only with loft_tap { }">,
           need_name<"the name of the option", "only with loft_tap { }">, need_block<Where>> {};
template <Place Where>
struct without_block : node<K::without_block_, tok<T::without_>,
                            need_name<"the name of the option", "without loft_tap { }">, need_block<Where>> {};
template <Place Where>
struct in_case
    : node<K::in_case_, tok<T::in_>, need<"`case` after `in`", tok<T::case_>, "in case \"WHAT YOU SEE\" { }">,
           need_text<"what is seen", "in case \"WHAT YOU SEE\" { }">, need_block<Where>> {};
/// The name of the first step that a run of steps comes to.
struct called
    : node<K::called_, tok<T::as_>, need_name<"the name of its first step", "do rinse(sink) as first_rinse">> {};
struct do_fragment : node<K::do_fragment_, tok<T::do_>, need_name<"the name of the fragment", "do rinse(sink)">,
                          need<"`(` and the arguments", tok<T::open_parenthesis>, "do rinse(sink)">,
                          opt<choice<text, quantity, ref>,
                              star<comma, need<"another argument after the comma", choice<text, quantity, ref>>>>,
                          need<"`)`", tok<T::close_parenthesis>>, opt<called>> {};

struct statement : choice<set, hold, couple, uncouple, cap, uncap, dip, lift_out, place_under, take_away, verify, flow,
                          drain, keep_flow, pressurise, pour, watch, helper, wait, wear, bring, record, note, photo,
                          signal, requires_, ensures, do_fragment, repeat<Place::step>, for_each<Place::step>,
                          only_block<Place::step>, without_block<Place::step>, in_case<Place::step>> {};

} // namespace curbstop::syntax::grammar
