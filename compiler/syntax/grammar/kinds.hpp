// Kinds: what a part is made of, how it may stand, and which ways are open then.
#pragma once

#include "syntax/grammar/expressions.hpp"

namespace curbstop::syntax::grammar {

// Ways

struct limits : node<K::limits_, tok<T::limits_>, need_quantity<"the pressure", "inlet -> outlet limits 3 bar">> {};
struct protects
    : node<K::protects_, tok<T::protects_>, need<"`to` and the category", tok<T::to_>, "inlet -> outlet protects to 3">,
           need<"the fluid category, 2 to 5", number, "inlet -> outlet protects to 3">> {};
struct above : node<K::above_, tok<T::above_>, need_quantity<"the pressure", "line ~> below above 6 bar">> {};
struct up_to : node<K::up_to_, need<"`up to` and the greatest pressure", tok<T::up_>, "up to 4 bar">,
                    need<"`to` after `up`", tok<T::to_>, "up to 4 bar">,
                    need<"the greatest pressure", choice<quantity, name>, "up to 4 bar">> {};
struct giving
    : node<K::giving_, tok<T::giving_>,
           need<"how much flows", choice<quantity, name>, "lifts suction -> delivery up to 3 bar giving 8 L/min">> {};
struct own_switch
    : node<K::own_switch_, tok<T::with_>, need<"`own switch` after `with`", tok<T::own_>, "with own switch">,
           need<"`switch` after `own`", tok<T::switch_>, "with own switch">> {};

/// A clause that may end a way, where its word is not the port that starts the next way.
template <TokenKind Word, typename Clause>
struct way_clause : when<pegtl::seq<tok<Word>, not_at<tok<T::dot, T::both_ways, T::one_way, T::fall>>>, Clause> {};
struct while_end : opt<way_clause<T::while_, while_clause>> {};

struct two_way
    : node<K::two_way_, ref, tok<T::both_ways>, need_ref<"where the way leads", "inlet <-> outlet">, while_end> {};
struct one_way : node<K::one_way_, ref, tok<T::one_way>, need_ref<"where the way leads", "inlet -> outlet">,
                      opt<way_clause<T::limits_, limits>>, opt<way_clause<T::protects_, protects>>, while_end> {};
struct fall : node<K::fall_, ref, tok<T::fall>,
                   need_ref<"where it falls: a chamber, a port, `below` or `ground`", "line ~> below">,
                   opt<way_clause<T::above_, above>>, while_end> {};
struct breach : node<K::breach_, tok<T::breach_>, need<"what is opened", refs, "breach inlet, outlet">, while_end> {};
struct vent : node<K::vent_, tok<T::vent_>, need_ref<"where air may enter", "vent tank">, while_end> {};
struct supplies : node<K::supplies_, tok<T::supplies_>, need_name<"the fluid", "supplies air at outlet up to 2 bar">,
                       need<"`at` and where", tok<T::at_>, "supplies air at outlet up to 2 bar">,
                       need_ref<"where it comes in", "supplies air at outlet up to 2 bar">, up_to,
                       opt<way_clause<T::giving_, giving>>, while_end> {};
struct lifts
    : node<K::lifts_, tok<T::lifts_>, need_ref<"where the pump draws from", "lifts suction -> delivery up to 3 bar">,
           need<"`->`", tok<T::one_way>, "lifts suction -> delivery up to 3 bar">,
           need_ref<"where the pump pushes to", "lifts suction -> delivery up to 3 bar">, up_to,
           opt<way_clause<T::giving_, giving>>, opt<own_switch>, while_end> {};
struct stores : node<K::stores_, tok<T::stores_>, need_ref<"what pushes back", "stores line">, while_end> {};
struct heats : node<K::heats_, tok<T::heats_>, need_ref<"the chamber", "heats body to 60 degC">,
                    opt<tok<T::to_>, need_quantity<"the temperature", "heats body to 60 degC">>, while_end> {};

/// A way between two places; its first name decides nothing, the arrow after it does.
template <TokenKind Arrow, typename Way>
struct arrow_way : when<pegtl::seq<ref_ahead, tok<Arrow>>, Way> {};
struct no_arrow
    : chain<tok<T::name>, star<tok<T::dot>, identifier>, need_one_of<"`<->`, `->` or `~>`", "inlet <-> outlet">> {};

struct way : choice<arrow_way<T::both_ways, two_way>, arrow_way<T::one_way, one_way>, arrow_way<T::fall, fall>, breach,
                    vent, supplies, lifts, stores, heats, no_arrow> {};
struct way_block : braces<Place::ways, way> {};
struct ways : node<K::ways_, way_block> {};
template <>
inline constexpr Sort sort_of<ways> = Sort::block;

// What a kind has

struct in_groups : node<K::in_groups_, tok<T::in_>, name_list<"the name of a group">> {};
struct port_name : node<K::port_name_, name, opt<label>> {};
struct port : node<K::port_, tok<T::port_>, need<"the name of the port", port_name>,
                   star<comma, need<"another name after the comma", port_name>>> {};

struct fits : node<K::fits_, tok<T::fits_>, need_name<"what it fits", "fits garden">> {};
struct with_cap : node<K::with_cap_, tok<T::with_>, need<"`cap` after `with`", tok<T::cap_>, "with cap">> {};
struct may_dip : node<K::may_dip_, tok<T::may_>, tok<T::dip_>> {};
struct may_dip_here : when<pegtl::seq<tok<T::may_>, tok<T::dip_>>, may_dip> {};
struct kind_end
    : documented<K::end_, T::end_, need_name<"the name of the end", "end hose_end \"Hose end\" fits garden">,
                 opt<label>, star<choice<fits, with_cap, may_dip_here>>> {};

struct default_value : node<K::default_value_, tok<T::equals>,
                            need_quantity<"the value where none is set", "given size : volume = 10 L">> {};
struct optional : node<K::optional_, tok<T::optional_>> {};
struct given : node<K::given_, tok<T::given_>, need_name<"the name of what is given", "given size : volume">,
                    need<"`:` before the dimension or kind", colon, "given size : volume">,
                    need_name<"the dimension or kind", "given size : volume">, opt<choice<default_value, optional>>> {};

struct of_fluid : node<K::of_fluid_, tok<T::of_>, need_name<"the fluid", "holds 60 L of hot_water">> {};
struct holds
    : node<K::holds_, tok<T::holds_>, need<"how much it holds", choice<quantity, name>, "holds 60 L">, opt<of_fluid>> {
};
struct low : node<K::low_, tok<T::low_>, name_list<"the port at the low point">> {};
struct side : node<K::side_, tok<T::side_>, name_list<"the port at the side">> {};
struct brim : node<K::brim_, tok<T::brim_>, name_list<"the port at the brim">> {};
struct top : node<K::top_, tok<T::top_>, name_list<"the port at the top">> {};
struct chamber_item : choice<low, side, brim, top> {};
struct chamber
    : node<K::chamber_, tok<T::chamber_>, need_name<"the name of the chamber", "chamber body holds 60 L { low drain }">,
           opt<label>, need<"`holds` and how much", holds, "chamber body holds 60 L { low drain }">,
           need<"`{` and at which heights the ports join it", braces<Place::chamber, chamber_item>,
                "chamber body holds 60 L { low drain }">> {};

struct to_do
    : node<K::to_do_, tok<T::do_>, need_text<"what is done, in words", "position removed do \"Take {part} out\" { }">> {
};
struct position
    : node<K::position_, tok<T::position_>, need_name<"the name of the position", "position open { inlet <-> outlet }">,
           opt<label>, opt<to_do>, opt<while_clause>,
           need<"`{` and the ways that are open then", ways, "position open { inlet <-> outlet }">> {};
struct always : node<K::always_, tok<T::always_>,
                     need<"`{` and the ways that are always open", ways, "always { inlet <-> outlet }">> {};
struct dial : node<K::dial_, tok<T::dial_>, need_name<"the name of the dial", "dial regulator 0 bar to 8 bar">,
                   opt<label>, need_quantity<"the lowest value", "dial regulator 0 bar to 8 bar">,
                   need<"`to` and the highest value", tok<T::to_>, "dial regulator 0 bar to 8 bar">,
                   need_quantity<"the highest value", "dial regulator 0 bar to 8 bar">> {};
struct springs_back
    : node<K::springs_back_, tok<T::springs_>, need<"`back to` after `springs`", tok<T::back_>, "springs back to shut">,
           need<"`to` after `back`", tok<T::to_>, "springs back to shut">,
           need_name<"the position it returns to", "springs back to shut">> {};
struct each_way_order : node<K::each_way_order_, tok<T::ways_>, name_list<"the name of a position">> {};
struct body : node<K::body_, tok<T::body_>, need<"what the body holds", choice<quantity, name>, "body 0.2 L">> {};

/// The rest of both guards, after `set` or `while`.
struct guard_rest
    : chain<need_name<"the position that is guarded", "guard set open needs no pressure \"WHY\"">,
            need<"`needs` and what must hold", tok<T::needs_>, "guard set open needs no pressure \"WHY\"">,
            need<"what must hold after `needs`", expression, "guard set open needs no pressure \"WHY\"">,
            need_text<"why it must hold", "guard set open needs no pressure \"WHY\"">> {};
struct guard_set : node<K::guard_set_, tok<T::guard_>, tok<T::set_>, guard_rest> {};
struct guard_while : node<K::guard_while_, tok<T::guard_>, tok<T::while_>, guard_rest> {};
struct guard
    : choice<when<pegtl::seq<tok<T::guard_>, tok<T::set_>>, guard_set>,
             when<pegtl::seq<tok<T::guard_>, tok<T::while_>>, guard_while>,
             chain<tok<T::guard_>,
                   need_one_of<"`set` or `while` after `guard`", "guard set open needs no pressure \"WHY\"">>> {};

struct while_hot : node<K::while_hot_, tok<T::while_>,
                        need<"`hot` after `while`", tok<T::hot_>, "caution on open while hot \"TEXT\"">> {};
struct hazard : node<K::hazard_, word_leaf<T::danger_, T::warning_, T::caution_, T::notice_>,
                     need<"`on` and a position", tok<T::on_>, "caution on open \"TEXT\"">,
                     need_name<"the position", "caution on open \"TEXT\"">, opt<while_hot>,
                     need_text<"the text", "caution on open \"TEXT\"">> {};

// Settings of a part

struct position_label
    : node<K::position_label_, tok<T::position_>, need_name<"the position", "position to_left \"Heater\"">,
           need_text<"what is written on this valve", "position to_left \"Heater\"">, opt<to_do>> {};
struct setting_holds : node<K::setting_holds_, tok<T::holds_>, need_name<"the fluid", "holds grey_water">> {};
struct setting : node<K::setting_, name, need<"its value or the name of a part", choice<quantity, ref>, "size 60 L">> {
};
struct settings_item : choice<position_label, rated, setting_holds, setting> {};
struct settings_block : braces<Place::settings, settings_item> {};
struct settings : node<K::settings_, settings_block> {};

struct inner_part : node<K::inner_part_, tok<T::part_>, need_name<"the name of the part", "part plug : drain_plug">,
                         need<"`:` before the kind of the part", colon, "part plug : drain_plug">,
                         need_name<"the kind of the part", "part plug : drain_plug">, opt<label>, opt<settings>> {};
struct may_run_dry : choice<when<pegtl::seq<tok<T::may_>, tok<T::run_>>,
                                 node<K::may_run_dry_, tok<T::may_>, tok<T::run_>,
                                      need<"`dry` and for how long", tok<T::dry_>, "may run dry 15 s">,
                                      need_quantity<"for how long", "may run dry 15 s">>>,
                            chain<tok<T::may_>, need_one_of<"`run dry` after `may`", "may run dry 15 s">>> {};
struct cools : node<K::cools_, tok<T::cools_>, need<"`in` and how long", tok<T::in_>, "cools in 4 h">,
                    need_quantity<"how long", "cools in 4 h">> {};
struct sight_glass : node<K::sight_glass_, tok<T::sight_>, need<"`glass` after `sight`", tok<T::glass_>>> {};

struct kind_item : choice<port, kind_end, given, chamber, position, always, dial, springs_back, each_way_order, rated,
                          body, guard, hazard, inner_part, may_run_dry, cools, sight_glass> {};
struct kind
    : documented<
          K::kind_, T::kind_, need_name<"the name of the kind">, opt<label>, opt<in_groups>,
          need<"`{` and what the kind is made of", braces<Place::kind, kind_item>, "kind drain_cock { port line }">> {};

} // namespace curbstop::syntax::grammar
