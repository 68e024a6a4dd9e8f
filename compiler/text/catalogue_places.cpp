#include "text/catalogue.h"

#include <array>

// What the checker refuses of where fluid comes to. The exact definitions are in compiler/reference/proofs.md; here
// they are told to the person who writes the procedure.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{
        "backflow", Severity::error, "Something harmful can get back into the drinking water supply",
        "After this something pushes, or stands above, a supply of drinking water, with a fluid of category 3 "
        "or more (EN 1717) in it or on its way, and nothing between the two keeps that back. That the mains "
        "have more pressure does not help: they fail.\n\n"
        "Shut the supply's own stop valve, take the hose off, or lead the water in over an air gap. A plain "
        "check valve keeps back no more than category 2, a double check valve 3, a reduced-pressure-zone "
        "valve 4. Fitting such devices is for licensed people, and local water regulations come first.",
        R"(use water
system shed "Shed" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water, antifreeze
  vessel jug "Antifreeze jug" 10 L accepts antifreeze filled with antifreeze at 40 %
  part stop : mains_stop "Stop valve" at room
  part check : check_valve "Check valve" at room
  part jug_hose : siphon_hose "Jug hose" at room
  part pump : demand_pump "Pump" at room
  part sink_tap : tap "Sink tap" at room over sink
  tee branch
  run stop.house - check.inlet : copper_15 0.5 m
  run check.outlet - branch : copper_15 1 m
  run branch - sink_tap.water : copper_15 1 m
  run jug_hose.line - pump.suction : bore_12 0.5 m
  run pump.delivery - branch : bore_12 1 m
}
procedure protect "Draw antifreeze" on shed {
  requires stop is open and sink_tap is shut and pump is off
  requires jug_hose.foot is in jug
  stage "All" {
    step "Draw antifreeze" {
      set pump to on
      set sink_tap to open
      flow jug, stop to sink_tap until shows antifreeze "Its full colour" at most 3 L
      set sink_tap to shut
      set pump to off
    }
  }
}
)",
        R"(use water
system shed "Shed" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water, antifreeze
  vessel jug "Antifreeze jug" 10 L accepts antifreeze filled with antifreeze at 40 %
  part stop : mains_stop "Stop valve" at room
  part check : check_valve "Check valve" at room
  part jug_hose : siphon_hose "Jug hose" at room
  part pump : demand_pump "Pump" at room
  part sink_tap : tap "Sink tap" at room over sink
  tee branch
  run stop.house - check.inlet : copper_15 0.5 m
  run check.outlet - branch : copper_15 1 m
  run branch - sink_tap.water : copper_15 1 m
  run jug_hose.line - pump.suction : bore_12 0.5 m
  run pump.delivery - branch : bore_12 1 m
}
procedure protect "Draw antifreeze" on shed {
  requires stop is shut and sink_tap is shut and pump is off
  requires jug_hose.foot is in jug
  stage "All" {
    step "Draw antifreeze" {
      set pump to on
      set sink_tap to open
      flow jug to sink_tap until shows antifreeze "Its full colour" at most 3 L
      set sink_tap to shut
      set pump to off
    }
  }
}
)"},
    CatalogueEntry{
        "overfill", Severity::error, "Something may run over",
        "More may come into this vessel or open tank than it has room for: by what may be in it already, and "
        "by the `at most` of the flow or drain, or where that is not said, by all that could come. A loop "
        "counts with all its rounds.\n\n"
        "Say `at most` how much (the sheet prints it: whoever follows it must be able to see when so much has "
        "come), empty what it runs into in between, or fill and empty it in a `repeat`. `until full` into a "
        "tank never overfills that tank.",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  zone pontoon "Pontoon"
  place dock "Dock" at pontoon accepts drinking_water
  vessel bucket "Bucket" 10 L accepts drinking_water
  part stop : mains_stop "Stop valve" at cabin
  part low_drain : drain_cock "Low drain" at cabin
  run stop.house - low_drain.line : bore_12 2 m
}
procedure flush "Flush the line" on boat {
  requires stop is shut and low_drain is shut
  stage "All" {
    step "Put the bucket under the low drain" { place bucket under low_drain }
    step "Flush" {
      set low_drain to open
      set stop to open
      flow stop to low_drain until clear "No rust" at least 5 L
      set stop to shut
      set low_drain to shut
    }
    step "Empty the bucket" {
      take bucket away
      pour bucket into dock
    }
  }
}
)",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  zone pontoon "Pontoon"
  place dock "Dock" at pontoon accepts drinking_water
  vessel bucket "Bucket" 10 L accepts drinking_water
  part stop : mains_stop "Stop valve" at cabin
  part low_drain : drain_cock "Low drain" at cabin
  run stop.house - low_drain.line : bore_12 2 m
}
procedure flush "Flush the line" on boat {
  requires stop is shut and low_drain is shut
  stage "All" {
    step "Put the bucket under the low drain" { place bucket under low_drain }
    step "Flush" {
      set low_drain to open
      set stop to open
      flow stop to low_drain until clear "No rust" at least 5 L at most 8 L
      set stop to shut
      set low_drain to shut
    }
    step "Empty the bucket" {
      take bucket away
      pour bucket into dock
    }
  }
}
)"},
    CatalogueEntry{
        "short-supply", Severity::error, "Too little is brought",
        "The steps take more of a fluid out of the vessels that are filled with it than `bring` lists, or more out "
        "of one vessel than it holds. Whoever follows the sheet would stand with half a line protected and the "
        "shops shut.\n\n"
        "What a flow takes is its `at least`, or what has to be filled and pushed out before it can show, whichever is "
        "more. Water that stands in a pipe mixes with what comes and costs as much again: blow the lines out first and "
        "less is needed. List more, take a larger vessel, or write `bring` without a quantity: then the sheet says "
        "how much.",
        R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water, antifreeze
  vessel jug "Antifreeze jug" 5 L accepts antifreeze filled with antifreeze at 40 %
  part jug_hose : siphon_hose "Jug hose" at room
  part pump : demand_pump "Pump" at room
  part sink_tap : tap "Sink tap" at room over sink
  run jug_hose.line - pump.suction : bore_12 0.5 m
  run pump.delivery - sink_tap.water : bore_12 4 m
}
procedure protect "Draw antifreeze" on hut {
  requires sink_tap is shut and pump is off and jug_hose.foot is in jug
  stage "All" {
    step "Lay out what you need" { bring 0.5 L antifreeze }
    step "Draw antifreeze" {
      set pump to on
      set sink_tap to open
      flow jug to sink_tap until shows antifreeze "Its full colour" at least 1 L
      set sink_tap to shut
      set pump to off
    }
  }
}
)",
        R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water, antifreeze
  vessel jug "Antifreeze jug" 5 L accepts antifreeze filled with antifreeze at 40 %
  part jug_hose : siphon_hose "Jug hose" at room
  part pump : demand_pump "Pump" at room
  part sink_tap : tap "Sink tap" at room over sink
  run jug_hose.line - pump.suction : bore_12 0.5 m
  run pump.delivery - sink_tap.water : bore_12 4 m
}
procedure protect "Draw antifreeze" on hut {
  requires sink_tap is shut and pump is off and jug_hose.foot is in jug
  stage "All" {
    step "Lay out what you need" { bring antifreeze }
    step "Draw antifreeze" {
      set pump to on
      set sink_tap to open
      flow jug to sink_tap until shows antifreeze "Its full colour" at least 1 L
      set sink_tap to shut
      set pump to off
    }
  }
}
)"},
    CatalogueEntry{
        "wrong-place", Severity::error, "Something lands where it does not belong",
        "What runs, falls or is poured here comes to a vessel, a place or the ground that does not accept it. "
        "It need not be what is meant to run: what may still stand in the pipes on the way comes first.\n\n"
        "`accepts` is what a place is for, `mixed` what it also takes mixed with that, `traces` what it takes "
        "no more of than a flush leaves (at most 1 %). The ground takes fluids of category 1 and 2 (EN 1717), "
        "and traces of category 3. Place a vessel under the outlet, let it run or pour it elsewhere, clear the "
        "pipes first, or say that the place accepts it.",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  place sink "Sink" at cabin accepts drinking_water, antifreeze
  vessel jug "Antifreeze jug" 5 L accepts antifreeze filled with antifreeze at 40 %
  part jug_hose : siphon_hose "Jug hose" at cabin
  part pump : demand_pump "Water pump" at cabin
  part galley_tap : tap "Galley tap" at cabin over sink
  part low_drain : drain_cock "Low drain" at cabin
  tee branch
  run jug_hose.line - pump.suction : bore_12 0.5 m
  run pump.delivery - branch : bore_12 1 m
  run branch - galley_tap.water : bore_12 1 m
  run branch - low_drain.line : bore_12 0.3 m
}
procedure protect "Draw antifreeze" on boat {
  requires jug_hose.foot is in jug
  requires pump is off and galley_tap is shut and low_drain is shut
  stage "All" {
    step "Draw antifreeze" {
      set pump to on
      set galley_tap to open
      flow jug to galley_tap until shows antifreeze "Its full colour" at most 2 L
      set galley_tap to shut
      set low_drain to open
      flow jug to low_drain until shows antifreeze "Its full colour" at most 2 L
      set low_drain to shut
      set pump to off
    }
  }
}
)",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  place sink "Sink" at cabin accepts drinking_water, antifreeze
  vessel jug "Antifreeze jug" 5 L accepts antifreeze filled with antifreeze at 40 %
  vessel pan "Pan" 3 L accepts drinking_water, antifreeze
  part jug_hose : siphon_hose "Jug hose" at cabin
  part pump : demand_pump "Water pump" at cabin
  part galley_tap : tap "Galley tap" at cabin over sink
  part low_drain : drain_cock "Low drain" at cabin
  tee branch
  run jug_hose.line - pump.suction : bore_12 0.5 m
  run pump.delivery - branch : bore_12 1 m
  run branch - galley_tap.water : bore_12 1 m
  run branch - low_drain.line : bore_12 0.3 m
}
procedure protect "Draw antifreeze" on boat {
  requires jug_hose.foot is in jug
  requires pump is off and galley_tap is shut and low_drain is shut
  stage "All" {
    step "Draw antifreeze" {
      set pump to on
      set galley_tap to open
      flow jug to galley_tap until shows antifreeze "Its full colour" at most 2 L
      set galley_tap to shut
      place pan under low_drain
      set low_drain to open
      flow jug to low_drain until shows antifreeze "Its full colour" at most 2 L
      set low_drain to shut
      set pump to off
      take pan away
      pour pan into sink
    }
  }
}
)"},
};

} // namespace

std::span<const CatalogueEntry> places_catalogue() {
    return entries;
}

} // namespace curbstop::text
