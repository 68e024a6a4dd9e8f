#include "text/catalogue.h"

#include <array>

// What the checker refuses for the sake of a part. The exact definitions are in compiler/reference/proofs.md; here they
// are told to the person who writes the procedure.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{
        "dead-head", Severity::error, "A pump works against shut lines",
        "A pump without a pressure switch of its own is on, and nothing is open on its outlet side. It heats "
        "what it holds and can be damaged.\n\n"
        "Open an outlet before switching it on, or switch it off before shutting the last one.",
        R"(use water
kind transfer_pump "Transfer pump" {
  port suction, delivery
  position off { }
  position on { lifts suction -> delivery up to 2 bar }
}
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : transfer_pump "Pump" at yard
  part garden_tap : tap "Garden tap" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - garden_tap : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is off and garden_tap is shut and butt holds drinking_water
  stage "All" {
    step "Pump" {
      set pump to on
      flow butt to garden_tap until clear "No dirt"
      set pump to off
    }
  }
}
)",
        R"(use water
kind transfer_pump "Transfer pump" {
  port suction, delivery
  position off { }
  position on { lifts suction -> delivery up to 2 bar }
}
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : transfer_pump "Pump" at yard
  part garden_tap : tap "Garden tap" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - garden_tap : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is off and garden_tap is shut and butt holds drinking_water
  stage "All" {
    step "Pump" {
      set garden_tap to open
      set pump to on
      flow butt to garden_tap until clear "No dirt"
      set pump to off
    }
  }
}
)"},
    CatalogueEntry{"dry-run", Severity::error, "A pump draws air",
                   "A pump is on while what it draws on may be empty, open to the air, or shut off. Its seals and "
                   "valves need liquid.\n\n"
                   "Make sure of the liquid first (`verify TANK holds FLUID`, a flow `until full`), shut the way by "
                   "which air comes, or, if the maker permits it, say `may run dry T` in its kind.",
                   R"(use water
kind transfer_pump "Transfer pump" {
  port suction, delivery
  position off { }
  position on { lifts suction -> delivery up to 2 bar }
}
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : transfer_pump "Pump" at yard
  part garden_tap : tap "Garden tap" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - garden_tap : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is off and garden_tap is open
  stage "All" {
    step "Pump" {
      set pump to on
      flow butt to garden_tap until clear "No dirt"
      set pump to off
    }
  }
}
)",
                   R"(use water
kind transfer_pump "Transfer pump" {
  port suction, delivery
  position off { }
  position on { lifts suction -> delivery up to 2 bar }
}
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
  part pump : transfer_pump "Pump" at yard
  part garden_tap : tap "Garden tap" at yard
  run butt.outlet - pump.suction : bore_12 1 m
  run pump.delivery - garden_tap : bore_12 1 m
}
procedure draw_water "Draw water" on shed {
  requires pump is off and garden_tap is open and butt holds drinking_water
  stage "All" {
    step "Pump" {
      set pump to on
      flow butt to garden_tap until clear "No dirt"
      set pump to off
    }
  }
}
)"},
    CatalogueEntry{"over-pressure", Severity::error, "More pressure than a part is rated for",
                   "A source can push more on this part than the part is rated for, and neither a reducer on the way "
                   "nor a relief valve keeps it below.\n\n"
                   "Set the regulator lower before opening the way. Pressure ratings are the maker's; for mains and "
                   "gas-fired equipment follow local codes and leave the work to licensed people.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part shop_air : compressor "Workshop air" at yard
  end tail "Air inlet" at yard fits air_line
  end far "Far end" at yard fits garden with cap
  run tail - far : bore_12 2 m
}
procedure press "Press with air" on shed {
  requires shop_air is off and shop_air.regulator is 6 bar and shop_air.outlet is coupled to tail and far is capped
  stage "All" {
    step "Switch the air on" {
      set shop_air to running
      pressurise shop_air until holds pressure "The gauge stands"
      set shop_air to off
    }
  }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part shop_air : compressor "Workshop air" at yard
  end tail "Air inlet" at yard fits air_line
  end far "Far end" at yard fits garden with cap
  run tail - far : bore_12 2 m
}
procedure press "Press with air" on shed {
  requires shop_air is off and shop_air.regulator is 2 bar and shop_air.outlet is coupled to tail and far is capped
  stage "All" {
    step "Switch the air on" {
      set shop_air to running
      pressurise shop_air until holds pressure "The gauge stands"
      set shop_air to off
    }
  }
}
)"},
    CatalogueEntry{"guard", Severity::error, "A condition of the part does not hold",
                   "The kind of this part says what must hold before it is put in this position, or as long as it "
                   "stands there, and it may not hold here. Such guards keep a heater from being fired dry or a pump "
                   "from being started on air. The message gives the reason that the kind states.\n\n"
                   "An end can be coupled, capped or dipped only while it is open.",
                   R"(kind key "Key" {
  position drawn { }
  position turned { }
}
kind locked_valve "Locked valve" {
  port inlet, outlet
  given lock : key
  position shut { }
  position open { inlet <-> outlet }
  guard set open needs lock is turned "Its lever breaks off while it is locked."
}
system shed "Shed" {
  zone yard "Yard"
  part brass_key : key "Key" at yard
  part valve : locked_valve "Valve" at yard { lock brass_key }
}
procedure open_up "Open up" on shed {
  requires brass_key is drawn and valve is shut
  stage "All" {
    step "Open the valve" { set valve to open }
  }
}
)",
                   R"(kind key "Key" {
  position drawn { }
  position turned { }
}
kind locked_valve "Locked valve" {
  port inlet, outlet
  given lock : key
  position shut { }
  position open { inlet <-> outlet }
  guard set open needs lock is turned "Its lever breaks off while it is locked."
}
system shed "Shed" {
  zone yard "Yard"
  part brass_key : key "Key" at yard
  part valve : locked_valve "Valve" at yard { lock brass_key }
}
procedure open_up "Open up" on shed {
  requires brass_key is drawn and valve is shut
  stage "All" {
    step "Turn the key" { set brass_key to turned }
    step "Open the valve" { set valve to open }
  }
}
)"},
    CatalogueEntry{
        "trapped-pressure", Severity::error, "Something is opened under pressure",
        "A filter, plug, cap or coupling is opened by hand where a source presses on it, or where the "
        "pressure of one that has been shut off is still there: it flies off, and what is behind it "
        "follows.\n\n"
        "Water that is shut in loses its pressure when a tap is opened that it reaches. Air, and water behind "
        "a pressure tank, take longer: open a tap and say with a `drain` or `flow` what is seen when no "
        "more comes. At the start whatever could have been pressed on counts as pressed, unless something "
        "stands open to it or `requires no pressure at …` rules it out.\n\n"
        "The message tells since when it is under pressure, and where it can be let off.",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part stop_valve : mains_stop "Stop valve" at yard
  part grit_trap : strainer "Strainer" at yard
  part garden_tap : tap "Garden tap" at yard
  run stop_valve - grit_trap.inlet : copper_15 1 m
  run grit_trap.outlet - garden_tap : copper_15 1 m
}
procedure clean "Clean the strainer" on shed {
  requires stop_valve is open and grit_trap is fitted and garden_tap is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut }
    step "Take the strainer out" { set grit_trap to removed }
  }
}
)",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part stop_valve : mains_stop "Stop valve" at yard
  part grit_trap : strainer "Strainer" at yard
  part garden_tap : tap "Garden tap" at yard
  run stop_valve - grit_trap.inlet : copper_15 1 m
  run grit_trap.outlet - garden_tap : copper_15 1 m
}
procedure clean "Clean the strainer" on shed {
  requires stop_valve is open and grit_trap is fitted and garden_tap is shut
  stage "All" {
    step "Shut the water off" { set stop_valve to shut }
    step "Let the pressure off" { set garden_tap to open }
    step "Take the strainer out" { set grit_trap to removed }
  }
}
)"},
};

} // namespace

std::span<const CatalogueEntry> parts_catalogue() {
    return entries;
}

} // namespace curbstop::text
