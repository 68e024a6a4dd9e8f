#include "text/catalogue.h"

#include <array>

// What the checker refuses of what flows and drains. The exact definitions are in compiler/reference/proofs.md; here
// they are told to the person who writes the procedure.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{
        "open-path", Severity::error, "Something runs out that no step says",
        "After this move (or once this flow or drain is done), what a supply or pump pushes can run out at a "
        "place that no flow covering this moment names. That is how antifreeze gets on the ground or into "
        "the drinking-water tank, and how a person is sprayed.\n\n"
        "The message shows the way it takes, and in which positions of the parts. Either shut that way "
        "before this move, or, if it is meant, name it with `flow … to … until …`.",
        R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure open_up "Open up" on hut {
  requires stop_valve is shut and kitchen_tap is open
  stage "All" {
    step "Let the water in" { set stop_valve to open }
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
procedure open_up "Open up" on hut {
  requires stop_valve is shut and kitchen_tap is open
  stage "All" {
    step "Let the water in" { set kitchen_tap to shut  set stop_valve to open }
  }
}
)"},
    CatalogueEntry{
        "needs-verify", Severity::error, "Safe only if a part stands as it is supposed to",
        "Nobody can say how this part stands: no step has set it. In one of its positions the procedure is "
        "safe, in another something is refused.\n\n"
        "Let the operator look before it matters (`verify PART is POSITION`), set the part, or ask for it in "
        "`requires`. The same holds of something that runs already when the procedure begins, that no flow "
        "names, and that no move has stopped before the first flow from the same place, or before the end.",
        R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
lineup shut_up "Shut up" on hut { stop_valve shut  kitchen_tap shut }
procedure open_up "Open up" on hut {
  requires stop_valve is shut
  stage "All" {
    step "Let the water in" { set stop_valve to open }
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
lineup shut_up "Shut up" on hut { stop_valve shut  kitchen_tap shut }
procedure open_up "Open up" on hut {
  requires stop_valve is shut
  stage "All" {
    step "Let the water in" { verify kitchen_tap is shut  set stop_valve to open }
  }
}
)"},
    CatalogueEntry{"blocked-flow", Severity::error, "A flow or drain that cannot run",
                   "The step waits for something to be seen, but with the parts as they stand nothing moves there: a "
                   "valve on the way is shut, no source pushes, or, for a drain, no other opening lets air in, or the "
                   "outlet stands higher than what is to be drained. The operator would wait in vain, or take the "
                   "silence for success.\n\n"
                   "Open the way or the air inlet first.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure rinse "Rinse" on hut {
  requires stop_valve is shut and kitchen_tap is shut
  stage "All" {
    step "Run the tap" {
      set kitchen_tap to open
      flow stop_valve to kitchen_tap until clear "No dirt"
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
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure rinse "Rinse" on hut {
  requires stop_valve is shut and kitchen_tap is shut
  stage "All" {
    step "Run the tap" {
      set stop_valve to open
      set kitchen_tap to open
      flow stop_valve to kitchen_tap until clear "No dirt"
      set kitchen_tap to shut
    }
  }
}
)"},
    CatalogueEntry{"left-running", Severity::error, "A flow that nobody stops",
                   "At the end of this step a flow still runs. A step is a place where people stop to read, rest or "
                   "walk away.\n\n"
                   "Shut it in the step, or say `keep flow … to …` and name it again in the next step. At the end of "
                   "the procedure nothing may run.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  place sink "Sink" at room accepts drinking_water
  part stop_valve : mains_stop "Stop valve" at room
  part kitchen_tap : tap "Kitchen tap" at room over sink
  run stop_valve - kitchen_tap : copper_15 2 m
}
procedure rinse "Rinse" on hut {
  requires stop_valve is open and kitchen_tap is shut
  stage "All" {
    step "Run the tap" {
      set kitchen_tap to open
      flow stop_valve to kitchen_tap until clear "No dirt"
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
procedure rinse "Rinse" on hut {
  requires stop_valve is open and kitchen_tap is shut
  stage "All" {
    step "Run the tap" {
      set kitchen_tap to open
      flow stop_valve to kitchen_tap until clear "No dirt"
      set kitchen_tap to shut
    }
  }
}
)"},
    CatalogueEntry{"undeclared-drain", Severity::error, "Something runs out by its weight that no step says",
                   "After this move (or once this flow or drain is done) the contents of a chamber can fall out at a "
                   "place that no drain covering this moment names. It may be hot, foul or antifreeze. If the chamber "
                   "can only hold water of fluid category 1 or 2 this is a warning.\n\n"
                   "Shut the way, or name it with `drain … through … until stops`. Contents of a water heater may "
                   "scald: let it cool, and follow its manual.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part grey_tank : waste_tank "Grey tank" at yard { size 80 L  holds grey_water }
  place gully "Foul gully" at yard accepts grey_water
  part cock : drain_cock "Drain cock" at yard over gully
  run grey_tank.outlet - cock.line : drain_hose 1 m  falls to cock
}
procedure empty "Empty" on shed {
  requires cock is shut
  stage "All" {
    step "Open the cock" { set cock to open }
  }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part grey_tank : waste_tank "Grey tank" at yard { size 80 L  holds grey_water }
  place gully "Foul gully" at yard accepts grey_water
  part cock : drain_cock "Drain cock" at yard over gully
  run grey_tank.outlet - cock.line : drain_hose 1 m  falls to cock
}
procedure empty "Empty" on shed {
  requires cock is shut
  stage "All" {
    step "Open the cock" { set cock to open  drain grey_tank through cock until stops "It drips" }
  }
}
)"},
};

} // namespace

std::span<const CatalogueEntry> flows_catalogue() {
    return entries;
}

} // namespace curbstop::text
