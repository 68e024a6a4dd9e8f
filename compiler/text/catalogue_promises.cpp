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
