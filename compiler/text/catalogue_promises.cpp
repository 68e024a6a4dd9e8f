#include "text/catalogue.h"

#include <array>

// What the checker says of people, moves and promises. The exact definitions are in compiler/reference/proofs.md; here
// they are told to the person who writes the procedure.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{
        "frost-risk", Severity::error, "Water that may freeze",
        "`frost_safe at T` is claimed, and these pockets may hold water with too little gas beside it for the ice, or "
        "antifreeze "
        "that is too thin. For each it says how much it holds, what may be in it, and what put it there last.\n\n"
        "Drain it with air let in above, blow it out through an outlet behind it with nothing else open, or draw "
        "antifreeze through it until its colour shows.",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  place bilge "Bilge" at cabin accepts drinking_water
  part tank : vented_tank "Tank" at cabin height 0.5 m { size 40 L }
  part tank_drain : drain_cock "Tank drain" at cabin height 0.1 m over bilge
  run tank.drain - tank_drain.line : bore_12 0.6 m falls to tank_drain.line
}
procedure close_up "Close up" on boat {
  requires tank holds drinking_water
  requires tank_drain is shut
  ensures frost_safe at -10 degC
  stage "All" {
    step "Leave the boat" { note "Take the cushions home." }
  }
}
)",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  place bilge "Bilge" at cabin accepts drinking_water
  part tank : vented_tank "Tank" at cabin height 0.5 m { size 40 L }
  part tank_drain : drain_cock "Tank drain" at cabin height 0.1 m over bilge
  run tank.drain - tank_drain.line : bore_12 0.6 m falls to tank_drain.line
}
procedure close_up "Close up" on boat {
  requires tank holds drinking_water
  requires tank_drain is shut
  ensures frost_safe at -10 degC
  stage "All" {
    step "Empty the tank" {
      set tank_drain to open
      drain tank through tank_drain until stops "It only drips"
    }
    step "Leave the boat" { note "Take the cushions home." }
  }
}
)"},
    CatalogueEntry{
        "not-drinkable", Severity::error, "Water that is not fit to drink",
        "`drinkable` is claimed, and these pockets of the drinking-water system may hold more than traces of something "
        "else, "
        "or of what came in while they stood open.\n\n"
        "Flush each with drinking water, outlet by outlet, until it runs clear; say `at least` how much where "
        "clear water could come before the rest has gone.",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  place sink "Sink" at cabin accepts drinking_water, antifreeze
  part stop : mains_stop "Stop valve" at cabin
  part galley_tap : tap "Galley tap" at cabin over sink
  part screen : strainer "Strainer" at cabin
  run stop.house - screen.inlet : copper_15 1 m
  run screen.outlet - galley_tap.water : copper_15 1 m
}
lineup in_use "In use" on boat for use { stop shut  galley_tap shut  screen fitted }
procedure clean "Clean the strainer" on boat {
  requires in_use
  requires no pressure
  ensures drinkable
  stage "All" {
    step "Clean the strainer" { set screen to removed  set screen to fitted }
  }
}
)",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  place sink "Sink" at cabin accepts drinking_water, antifreeze
  part stop : mains_stop "Stop valve" at cabin
  part galley_tap : tap "Galley tap" at cabin over sink
  part screen : strainer "Strainer" at cabin
  run stop.house - screen.inlet : copper_15 1 m
  run screen.outlet - galley_tap.water : copper_15 1 m
}
lineup in_use "In use" on boat for use { stop shut  galley_tap shut  screen fitted }
procedure clean "Clean the strainer" on boat {
  requires in_use
  requires no pressure
  ensures drinkable
  stage "All" {
    step "Clean the strainer" { set screen to removed  set screen to fitted }
    step "Flush" {
      set stop to open
      set galley_tap to open
      flow stop to galley_tap until clear "No grit" at least 3 L
      set galley_tap to shut
      set stop to shut
    }
  }
}
)"},
    CatalogueEntry{
        "not-sanitised", Severity::error, "Pipes that may not be disinfected",
        "`sanitised` is claimed, and these pockets of the drinking-water system have not stood full of a disinfectant, "
        "as "
        "strong as was read, for as long as its `disinfects` line asks; or they were opened since, or took in water "
        "from "
        "what is not disinfected. For each cause it names a few pockets.\n\n"
        "Draw the solution to every outlet until a strip `reads at least` enough (a smell is no reading), wait, and "
        "only "
        "then let anything else in. A part that is put in clean afterwards can be left out: `sanitised except filter`. "
        "Measure again after the wait, for what is dirty uses chlorine up. Never mix bleach with acids or other "
        "cleaners.",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  place sink "Sink" at cabin accepts drinking_water, sanitiser
  vessel jug "Dosing jug" 1 L accepts sanitiser filled with sanitiser
  part shore : mains_stop "Shore water" at cabin
  part tank : vented_tank "Tank" at cabin height 0.4 m { size 40 L }
  part pump : demand_pump "Pump" at cabin
  part galley_tap : tap "Galley tap" at cabin height 1 m over sink
  run shore.house - tank.fill : hose_1_2 1 m
  run tank.outlet - pump.suction : bore_12 1 m
  run pump.delivery - galley_tap.water : bore_12 1 m
}
lineup in_use "In use" on boat for use { shore shut  pump off  galley_tap shut }
procedure disinfect "Disinfect" on boat {
  requires in_use and tank is empty
  ensures sanitised except shore
  stage "All" {
    step "Fill the tank" {
      pour jug into tank.body
      set shore to open
      flow shore to tank until full "It runs over the vent" at most 40 L
      set shore to shut
    }
    step "Draw the solution" {
      set pump to on
      set galley_tap to open
      flow tank to galley_tap until shows sanitiser "It smells of chlorine" at least 1 L
      set galley_tap to shut
      set pump to off
    }
    step "Leave it to work" { wait 4 h }
  }
}
)",
        R"(use water
system boat "Boat" {
  zone cabin "Cabin"
  place sink "Sink" at cabin accepts drinking_water, sanitiser
  vessel jug "Dosing jug" 1 L accepts sanitiser filled with sanitiser
  part shore : mains_stop "Shore water" at cabin
  part tank : vented_tank "Tank" at cabin height 0.4 m { size 40 L }
  part pump : demand_pump "Pump" at cabin
  part galley_tap : tap "Galley tap" at cabin height 1 m over sink
  run shore.house - tank.fill : hose_1_2 1 m
  run tank.outlet - pump.suction : bore_12 1 m
  run pump.delivery - galley_tap.water : bore_12 1 m
}
lineup in_use "In use" on boat for use { shore shut  pump off  galley_tap shut }
procedure disinfect "Disinfect" on boat {
  requires in_use and tank is empty
  ensures sanitised except shore
  stage "All" {
    step "Fill the tank" {
      pour jug into tank.body
      set shore to open
      flow shore to tank until full "It runs over the vent" at most 40 L
      set shore to shut
    }
    step "Draw the solution" {
      set pump to on
      set galley_tap to open
      flow tank to galley_tap until reads at least 50 mg/L "The strip shows 50" at least 1 L
      set galley_tap to shut
      set pump to off
    }
    step "Leave it to work" { wait 4 h }
  }
}
)"},
    CatalogueEntry{"never-flushed", Severity::warning, "Stale water",
                   "`drinkable` is promised at the end, and nothing has moved the water that stood in these pockets "
                   "before the first "
                   "step, nor were they emptied. It is clean by its category and nobody wants to drink it.\n\n"
                   "Let drinking water run out behind it, or empty it and fill it again.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  part bath_tap : tap "Bath tap" at room over sink
  tee branch
  run stop_valve.house - branch : copper_15 2 m
  run branch - kitchen_tap.water : copper_15 1 m
  run branch - bath_tap.water : copper_15 6 m
}
lineup in_use "In use" on hut for use { stop_valve open  all taps shut }
procedure come_back "Come back after a month" on hut {
  requires all taps are shut and stop_valve is shut
  ensures drinkable
  stage "All" {
    step "Flush" {
      set stop_valve to open
      set kitchen_tap to open
      flow stop_valve to kitchen_tap until clear "Cool and clear" at least 3 L
      set kitchen_tap to shut
    }
  }
}
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  part bath_tap : tap "Bath tap" at room over sink
  tee branch
  run stop_valve.house - branch : copper_15 2 m
  run branch - kitchen_tap.water : copper_15 1 m
  run branch - bath_tap.water : copper_15 6 m
}
lineup in_use "In use" on hut for use { stop_valve open  all taps shut }
procedure come_back "Come back after a month" on hut {
  requires all taps are shut and stop_valve is shut
  ensures drinkable
  stage "All" {
    step "Flush" {
      set stop_valve to open
      set kitchen_tap to open
      flow stop_valve to kitchen_tap until clear "Cool and clear" at least 3 L
      set kitchen_tap to shut
      set bath_tap to open
      flow stop_valve to bath_tap until clear "Cool and clear" at least 3 L
      set bath_tap to shut
    }
  }
}
)"},
    CatalogueEntry{"not-restored", Severity::error, "Not everything is back",
                   "`restored` is claimed, and something does not stand as in the line-up `for use`.",
                   R"(use water
system hut "Hut" {
  zone pit "Pit"
  part stop_valve : mains_stop "Stop valve" at pit
  part pit_drain : drain_cock "Drain cock" at pit
  run stop_valve.house - pit_drain.line : copper_15 0.4 m
}
lineup in_use "In use" on hut for use { stop_valve open  pit_drain shut }
procedure open_up "Open up" on hut {
  requires stop_valve is shut and pit_drain is open
  ensures restored
  stage "All" {
    step "Shut the drain" { set pit_drain to shut }
  }
}
)",
                   R"(use water
system hut "Hut" {
  zone pit "Pit"
  part stop_valve : mains_stop "Stop valve" at pit
  part pit_drain : drain_cock "Drain cock" at pit
  run stop_valve.house - pit_drain.line : copper_15 0.4 m
}
lineup in_use "In use" on hut for use { stop_valve open  pit_drain shut }
procedure open_up "Open up" on hut {
  requires stop_valve is shut and pit_drain is open
  ensures restored
  stage "All" {
    step "Shut the drain" { set pit_drain to shut }
    step "Open the stop valve" { set stop_valve to open }
  }
}
)"},
    CatalogueEntry{
        "out-of-reach", Severity::error, "A part behind a shut cover",
        "The step asks to set, look at or couple a part, but at every place from which one can work it a lid "
        "or panel is still shut.\n\n"
        "Open the cover in an earlier move.",
        R"(use water
system hut "Hut" {
  zone pit "Pit"
  cover lid "Lid of the pit" at pit
  part stop_valve : mains_stop "Stop valve" at pit behind lid
}
procedure close_up "Close up" on hut {
  requires lid is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut }
  }
}
)",
        R"(use water
system hut "Hut" {
  zone pit "Pit"
  cover lid "Lid of the pit" at pit
  part stop_valve : mains_stop "Stop valve" at pit behind lid
}
procedure close_up "Close up" on hut {
  requires lid is shut
  stage "All" {
    step "Shut the water off" { set lid to open  set stop_valve to shut }
  }
}
)"},
    CatalogueEntry{"two-places", Severity::warning, "One person in two places",
                   "The step acts at one place and wants something seen at another at the same time.\n\n"
                   "Name a `helper`, or choose something to watch where the operator stands.",
                   R"(use water
system hut "Hut" {
  zone cellar "Cellar"
  zone room "Room"
  part stop_valve : mains_stop "Stop valve" at cellar
  part kitchen_tap : tap "Kitchen tap" at room
  run stop_valve - kitchen_tap : copper_15 4 m
}
procedure open_up "Open up" on hut {
  requires stop_valve is shut and kitchen_tap is shut
  stage "All" {
    step "Let the water in" {
      set stop_valve to open
      watch "The tap does not drip" at kitchen_tap
    }
  }
}
)",
                   R"(use water
system hut "Hut" {
  zone cellar "Cellar"
  zone room "Room"
  part stop_valve : mains_stop "Stop valve" at cellar
  part kitchen_tap : tap "Kitchen tap" at room
  run stop_valve - kitchen_tap : copper_15 4 m
}
procedure open_up "Open up" on hut {
  requires stop_valve is shut and kitchen_tap is shut
  stage "All" {
    step "Let the water in" {
      set stop_valve to open
      watch "The tap does not drip" at kitchen_tap
      helper "A second person stands at the tap"
    }
  }
}
)"},
    CatalogueEntry{"unmet-requires", Severity::error, "What is required may not hold",
                   "A stage or step says what it needs at its start, and the moves before it do not see to it. What a "
                   "procedure requires is taken as given.\n\n"
                   "The message shows one way in which the parts may stand so that it is false.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure close_up "Close up" on hut {
  requires stop_valve is open and kitchen_tap is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut }
    step "Leave the hut" {
      requires stop_valve is shut and kitchen_tap is open
      note "Lock the door."
    }
  }
}
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure close_up "Close up" on hut {
  requires stop_valve is open and kitchen_tap is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut  set kitchen_tap to open }
    step "Leave the hut" {
      requires stop_valve is shut and kitchen_tap is open
      note "Lock the door."
    }
  }
}
)"},
    CatalogueEntry{"unmet-ensures", Severity::error, "What is promised may not hold",
                   "A procedure, stage or step says what holds at its end, and its moves do not see to it.\n\n"
                   "The message shows one way in which the parts may stand so that it is false.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure close_up "Close up" on hut {
  requires kitchen_tap is shut
  ensures stop_valve is shut and kitchen_tap is open
  stage "All" {
    step "Shut the water off" { set stop_valve to shut }
  }
}
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure close_up "Close up" on hut {
  requires kitchen_tap is shut
  ensures stop_valve is shut and kitchen_tap is open
  stage "All" {
    step "Shut the water off" { set stop_valve to shut }
    step "Open the tap" { set kitchen_tap to open }
  }
}
)"},
    CatalogueEntry{"never-true", Severity::error, "A condition that cannot be met",
                   "In no state that the procedure can be in at this point is this condition true: the operator would "
                   "stand before a valve that is never as the sheet says. What follows is not checked.\n\n"
                   "Often a part was moved earlier, or two conditions contradict each other.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure close_up "Close up" on hut {
  requires kitchen_tap is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut  verify stop_valve is open }
  }
}
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure close_up "Close up" on hut {
  requires kitchen_tap is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut  verify stop_valve is shut }
  }
}
)"},
    CatalogueEntry{
        "no-effect", Severity::warning, "A move that changes nothing",
        "Every part that this move sets already stands so, however the procedure got here, and in every turn "
        "of a loop. Such moves cost walking, and they teach people to skip.\n\n"
        "Leave it out, or make it a `verify` if it is meant as a second look.",
        R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure close_up "Close up" on hut {
  requires kitchen_tap is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut  set kitchen_tap to shut }
  }
}
)",
        R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure close_up "Close up" on hut {
  requires kitchen_tap is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut  verify kitchen_tap is shut }
  }
}
)"},
    CatalogueEntry{"unused-part", Severity::warning, "A part that nothing mentions",
                   "The part has positions, but no procedure, line-up or fragment names it. Nobody is told how it "
                   "should stand.\n\n"
                   "Put it into the line-up for use and for storage.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room
  run stop_valve - kitchen_tap : copper_15 2 m
}
lineup shut_up "Shut up" on hut { stop_valve shut }
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room
  run stop_valve - kitchen_tap : copper_15 2 m
}
lineup shut_up "Shut up" on hut { stop_valve shut  kitchen_tap open }
)"},
    CatalogueEntry{
        "not-decided", Severity::error, "Not proved within the budget",
        "The question is one of the rare hard ones, and the checker stops rather than guess. It says neither "
        "that the procedure is safe nor that it is not, and the procedure counts as refused.\n\n"
        "Fewer unknown positions help: `verify` or set parts early, or ask for them in `requires`."},
};

} // namespace

std::span<const CatalogueEntry> promises_catalogue() {
    return entries;
}

} // namespace curbstop::text
