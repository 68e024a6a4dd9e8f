// Systems and line-ups: which parts there are, where they are, how they are joined, how they stand.
#pragma once

#include "syntax/grammar/kinds.hpp"

namespace curbstop::syntax::grammar {

struct option : documented<K::option_, T::option_, need_name<"the name of the option", "option loft_tap \"Loft tap\"">,
                           opt<label>> {};

struct height : node<K::height_, tok<T::height_>, need_quantity<"the height", "height 0.4 m">> {};
struct zone : documented<K::zone_, T::zone_, need_name<"the name of the zone", "zone loft \"Loft\" height 3 m">,
                         opt<label>, opt<height>> {};
struct walk : node<K::walk_, tok<T::walk_>, need_name<"the name of a zone", "walk porch - kitchen 6 m">,
                   need<"`-` between the zones", minus, "walk porch - kitchen 6 m">,
                   need_name<"the name of the other zone", "walk porch - kitchen 6 m">,
                   need_quantity<"how far it is", "walk porch - kitchen 6 m">> {};

/// One zone and nothing more, where nothing more is meant.
struct at_zone : node<K::at_place_, need_name<"the name of the zone">> {};
struct at_one_place : node<K::at_places_, tok<T::at_>, at_zone> {};

/// Of a cover, covers are parted by commas; of a part, by `and`: there a comma starts another place.
struct behind_list : node<K::behind_, tok<T::behind_>, need_name<"the name of a cover">,
                          star<tok<T::comma, T::and_>, need_name<"the name of another cover">>> {};
struct behind : node<K::behind_, tok<T::behind_>, need_name<"the name of a cover">,
                     star<tok<T::and_>, need_name<"the name of another cover">>> {};
struct at_place : node<K::at_place_, need_name<"the name of the zone">, opt<behind>> {};
struct at_places : node<K::at_places_, tok<T::at_>, at_place, star<comma, at_place>> {};
struct cover : documented<K::cover_, T::cover_, need_name<"the name of the cover", "cover lid \"Lid\" at kitchen">,
                          opt<label>, star<choice<at_one_place, behind_list>>> {};

struct accepts : node<K::accepts_, tok<T::accepts_>, name_list<"the name of a fluid">> {};
struct mixed : node<K::mixed_, tok<T::mixed_>, name_list<"the name of a fluid">> {};
struct traces : node<K::traces_, tok<T::traces_>, name_list<"the name of a fluid">> {};
struct filled
    : node<K::filled_, tok<T::filled_>, need<"`with` after `filled`", tok<T::with_>, "filled with antifreeze">,
           need_name<"the name of the fluid", "filled with antifreeze">,
           opt<tok<T::at_>, need_quantity<"how strong it is", "filled with antifreeze at 40 %">>> {};
struct vessel
    : documented<K::vessel_, T::vessel_,
                 need_name<"the name of the vessel", "vessel pan \"Pan\" 4 L accepts drinking_water">, opt<label>,
                 need_quantity<"how much it holds", "vessel pan \"Pan\" 4 L accepts drinking_water">,
                 star<choice<accepts, mixed, traces, filled>>> {};
struct place
    : documented<K::place_, T::place_, need_name<"the name of the place", "place sewer \"Sewer\" accepts grey_water">,
                 opt<label>, star<choice<at_one_place, accepts, mixed, traces>>> {};
struct system_end
    : documented<K::end_, T::end_, need_name<"the name of the end", "end hose \"Hose\" at porch fits garden">,
                 opt<label>, star<choice<at_places, fits, with_cap, may_dip_here>>> {};
struct tee : node<K::tee_, tok<T::tee_>, name_list<"the name of the tee">> {};

struct over : node<K::over_, tok<T::over_>, need_ref<"what it drops into", "over sink.bowl">> {};
struct part
    : documented<K::part_, T::part_,
                 need_name<"the name of the part", "part sink : mixer_tap \"Kitchen tap\" at kitchen">,
                 need<"`:` before the kind of the part", colon, "part sink : mixer_tap \"Kitchen tap\" at kitchen">,
                 need_name<"the kind of the part", "part sink : mixer_tap \"Kitchen tap\" at kitchen">,
                 star<choice<label, at_places, height, over, photo, only_with, without>>, opt<settings>> {};

struct falls_to : node<K::falls_to_, tok<T::falls_>, need<"`to` after `falls`", tok<T::to_>, "falls to low.line">,
                       need_ref<"where it falls to", "falls to low.line">> {};
struct run
    : node<K::run_, tok<T::run_>, need_ref<"where the pipe starts", "run street.house - low.line : copper_15 1.2 m">,
           need<"`-` between the two ends of the pipe", minus, "run street.house - low.line : copper_15 1.2 m">,
           need_ref<"where the pipe ends", "run street.house - low.line : copper_15 1.2 m">,
           need<"`:` before the name of the pipe", colon, "run street.house - low.line : copper_15 1.2 m">,
           need_name<"the name of the pipe", "run street.house - low.line : copper_15 1.2 m">,
           need_quantity<"the length of the pipe", "run street.house - low.line : copper_15 1.2 m">,
           star<choice<falls_to, only_with, without>>> {};
struct may_move : node<K::may_move_, tok<T::may_>,
                       need<"`move while stored` after `may`", tok<T::move_>, "may move while stored street">,
                       need<"`while stored` after `move`", tok<T::while_>, "may move while stored street">,
                       need<"`stored` after `while`", tok<T::stored_>, "may move while stored street">,
                       need<"what may have moved", ref_list, "may move while stored street">> {};

struct languages : node<K::languages_, tok<T::languages_>,
                        need<"a language: `en`, `fr`, `de` or `es`", language_code, "languages en, de">,
                        star<comma, need<"another language after the comma", language_code, "languages en, de">>> {};

struct system_item : choice<languages, option, zone, walk, cover, vessel, place, system_end, tee, part, run, may_move> {
};
struct system : documented<K::system_, T::system_, need_name<"the name of the system">, opt<label>,
                           need<"`{` and what the system is made of", braces<Place::system, system_item>,
                                "system cottage \"Cottage\" { zone porch \"Porch\" }">> {};

struct on_system : node<K::on_system_, tok<T::on_>, need_name<"the name of the system", "on cottage">> {};
struct like : node<K::like_, tok<T::like_>, need_name<"the name of a line-up", "like winter">> {};
struct lineup_entry : node<K::lineup_entry_, subject, need<"how it stands", standing, "street shut">> {};
struct for_use
    : node<K::for_use_, tok<T::for_>, need<"`use` after `for`", tok<T::use_>, "lineup in_use \"In use\" for use { }">> {
};
struct lineup : documented<K::lineup_, T::lineup_, need_name<"the name of the line-up">, opt<label>, opt<on_system>,
                           opt<like>, opt<for_use>,
                           need<"`{` and how the parts stand", braces<Place::lineup, lineup_entry>,
                                "lineup winter \"Stored\" on cottage { street shut }">> {};

} // namespace curbstop::syntax::grammar
