#include "text/catalogue.h"

#include <array>

// Procedures: steps, fragments, and the flows they mean.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{
        "fragment-circle", Severity::error, "A fragment that uses itself",
        "Fragments are written out in place. One that contains itself would never end. `repeat` is for work "
        "that is done again. Fragments that use fragments more than 16 deep are refused for the same reason.",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
fragment open_up() { set garden_tap to open  do open_up() }
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    step "Open the tap" { do open_up() }
  }
}
)",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
fragment open_up() { set garden_tap to open }
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    step "Open the tap" { do open_up() }
  }
}
)"},
    CatalogueEntry{"wrong-count", Severity::error, "Too many or too few arguments",
                   "A fragment is used with as many arguments as it has parameters.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
fragment move(which, words) { set which to open  note "{words}" }
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    step "Open the tap" { do move(garden_tap) }
  }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
fragment move(which, words) { set which to open  note "{words}" }
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    step "Open the tap" { do move(garden_tap, "It may drip.") }
  }
}
)"},
    CatalogueEntry{"misplaced", Severity::error, "A phrase in the wrong place",
                   "`fragment NAME(…)` is a piece of a step and is used within one; `fragment NAME(…) steps` is a run "
                   "of steps and is used between steps.\n\n"
                   "`as PROCEDURE leaves it` stands alone, in a `requires` of a procedure. Chambers are named one by "
                   "one, not with `all`.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
fragment tap_work() steps { step "Open the tap" { set garden_tap to open } }
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    step "Work at the tap" { do tap_work() }
  }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
fragment tap_work() steps { step "Open the tap" { set garden_tap to open } }
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    do tap_work()
  }
}
)"},
    CatalogueEntry{
        "springs-back", Severity::error, "Set, though it springs back",
        "This part returns by itself when it is let go, so it cannot be left at that position. Write `hold … "
        "at … { … }` around what is done meanwhile.",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part check : release_check_valve "Check valve" at yard
}
procedure let_air_in "Let air in" on shed {
  stage "All" {
    step "Press the pin" { set check to pressed  wait 1 min }
  }
}
)",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part check : release_check_valve "Check valve" at yard
}
procedure let_air_in "Let air in" on shed {
  stage "All" {
    step "Press the pin" { hold check at pressed { wait 1 min } }
  }
}
)"},
    CatalogueEntry{"no-spring", Severity::error, "Held, though it stays",
                   "This part stays where it is put. Write `set … to …`, and set it back when it is time.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    step "Open the tap for a while" { hold garden_tap at open { wait 1 min } }
  }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    step "Open the tap for a while" { set garden_tap to open  wait 1 min  set garden_tap to shut }
  }
}
)"},
    CatalogueEntry{"not-an-origin", Severity::error, "Nothing can flow from there",
                   "What flows comes from a supply, a chamber or a vessel. A pump only moves it: name what the pump "
                   "draws on.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : hand_pump "Hand pump" at yard
  part nozzle : spout "Spout" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - nozzle.water : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is idle
  stage "All" {
    step "Work the pump" {
      hold pump at working {
        flow pump to nozzle until clear "No dirt"
      }
    }
  }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : hand_pump "Hand pump" at yard
  part nozzle : spout "Spout" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - nozzle.water : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is idle
  stage "All" {
    step "Work the pump" {
      hold pump at working {
        flow butt to nozzle until clear "No dirt"
      }
    }
  }
}
)"},
    CatalogueEntry{
        "not-an-outlet", Severity::error, "Nothing can come out there",
        "A flow ends where it leaves the system or is kept: at a part with a `~>` or a `breach`, a free end, "
        "or a vented chamber that is filled.",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : hand_pump "Hand pump" at yard
  part nozzle : spout "Spout" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - nozzle.water : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is idle
  stage "All" {
    step "Work the pump" {
      hold pump at working {
        flow butt to pump until clear "No dirt"
      }
    }
  }
}
)",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : hand_pump "Hand pump" at yard
  part nozzle : spout "Spout" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - nozzle.water : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is idle
  stage "All" {
    step "Work the pump" {
      hold pump at working {
        flow butt to nozzle until clear "No dirt"
      }
    }
  }
}
)"},
    CatalogueEntry{"wrong-observation", Severity::error, "What cannot be seen of this",
                   "A drain is done when it `stops`; what is brought to pressure `holds pressure` or a gauge `reads at "
                   "least` so much; a flow holds none, and only what is filled can be `full`.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : hand_pump "Hand pump" at yard
  part nozzle : spout "Spout" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - nozzle.water : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is idle
  stage "All" {
    step "Work the pump" {
      hold pump at working {
        flow butt to nozzle until full "Up to the mark"
      }
    }
  }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : hand_pump "Hand pump" at yard
  part nozzle : spout "Spout" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - nozzle.water : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is idle
  stage "All" {
    step "Work the pump" {
      hold pump at working {
        flow butt to nozzle until clear "No dirt"
      }
    }
  }
}
)"},
    CatalogueEntry{"no-until", Severity::error, "A flow without an end",
                   "A flow or drain that the operator must wait for says what is seen when it is done: `until clear "
                   "\"WORDS\"`, `until stops \"WORDS\"`.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : hand_pump "Hand pump" at yard
  part nozzle : spout "Spout" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - nozzle.water : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is idle
  stage "All" {
    step "Work the pump" {
      hold pump at working {
        flow butt to nozzle
      }
    }
  }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : hand_pump "Hand pump" at yard
  part nozzle : spout "Spout" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - nozzle.water : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is idle
  stage "All" {
    step "Work the pump" {
      hold pump at working {
        flow butt to nozzle until clear "No dirt"
      }
    }
  }
}
)"},
    CatalogueEntry{"no-steps", Severity::error, "A procedure without steps",
                   "There is nothing to do in it, so there is nothing to prove and nothing to print.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" { }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    step "Open the tap" { set garden_tap to open }
  }
}
)"},
    CatalogueEntry{"too-many-steps", Severity::error, "Too many steps",
                   "Written out, with every loop and fragment, the procedure has more than 100,000 steps or 300,000 "
                   "statements; rounds of a repeat that stands in another count as often as both are followed. "
                   "The limits are far above what a person can carry out."},
};

} // namespace

std::span<const CatalogueEntry> procedure_catalogue() {
    return entries;
}

} // namespace curbstop::text
