// Fluids, pipes and groups.
#pragma once

#include "syntax/grammar/shared.hpp"

namespace curbstop::syntax::grammar {

struct category : node<K::category_, tok<T::category_>, need<"the category, 1 to 5", number, "category 3">> {};
struct gas : node<K::gas_, tok<T::gas_>> {};
struct shows : node<K::shows_, tok<T::shows_>, need_text<"how one sees that it has arrived", "shows \"pink\"">> {};
struct freezes : node<K::freezes_, tok<T::freezes_>, need_quantity<"the temperature", "at 30 % freezes -13 degC">> {};
struct bursts : node<K::bursts_, tok<T::bursts_>, need_quantity<"the temperature", "at 30 % bursts -20 degC">> {};
struct strength
    : node<K::strength_, tok<T::at_>, need_quantity<"the strength", "at 30 % freezes -13 degC">,
           need<"`freezes` or `bursts` after the strength", choice<freezes, bursts>, "at 30 % freezes -13 degC">,
           star<choice<freezes, bursts>>> {};
struct disinfects : node<K::disinfects_, tok<T::disinfects_>,
                         need<"`at` and a concentration", tok<T::at_>, "disinfects at 50 mg/L for 4 h">,
                         need_quantity<"the concentration", "disinfects at 50 mg/L for 4 h">,
                         need<"`for` and a time", tok<T::for_>, "disinfects at 50 mg/L for 4 h">,
                         need_quantity<"the time", "disinfects at 50 mg/L for 4 h">> {};
struct fluid_item : choice<category, gas, shows, strength, disinfects, signal> {};
struct fluid : documented<K::fluid_, T::fluid_, need_name<"the name of the fluid">, opt<label>,
                          need<"`{` and what the fluid is like", braces<Place::fluid, fluid_item>,
                               "fluid air \"Air\" { category 1  gas }">> {};

struct bore : node<K::bore_, tok<T::bore_>, need_quantity<"the inside diameter", "bore 13 mm">> {};
struct source : node<K::source_, tok<T::source_>, need_text<"where this is printed", "source \"EN 1057 table 3\"">> {};
struct pipe_item : choice<bore, rated, source> {};
struct pipe
    : documented<
          K::pipe_, T::pipe_, need_name<"the name of the pipe">, opt<label>,
          need<"`{` and the size of the pipe", braces<Place::pipe, pipe_item>, "pipe copper_15 { bore 13 mm }">> {};

struct group : documented<K::group_, T::group_, need_name<"the name of the group", "group taps \"Taps\"">, opt<label>> {
};

} // namespace curbstop::syntax::grammar
