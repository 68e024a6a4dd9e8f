#include "text/catalogue.h"

#include <array>

// Systems: parts, ends, pipes, and how they stand.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"no-line-up-for-use", Severity::error, "Nothing says how it stands in use",
                   "`drinkable` and `restored` are measured by the line-up in which the system is used: it tells which "
                   "pipes hold drinking water, and how everything has to stand in the end. Mark it `for use`.",
                   R"(system shed "Shed" { zone yard "Yard"  end near "Near end" at yard fits garden with cap }
lineup summer "Summer" on shed { near open }
procedure open_up "Open up" on shed {
  requires near is capped
  ensures restored
  stage "All" { step "Take the cap off" { uncap near } }
}
)",
                   R"(system shed "Shed" { zone yard "Yard"  end near "Near end" at yard fits garden with cap }
lineup summer "Summer" on shed for use { near open }
procedure open_up "Open up" on shed {
  requires near is capped
  ensures restored
  stage "All" { step "Take the cap off" { uncap near } }
}
)"},
    CatalogueEntry{"two-for-use", Severity::error, "Two line-ups for use",
                   "One line-up is the one `for use`: `restored` and `drinkable` are measured by it.",
                   R"(system shed "Shed" { zone yard "Yard"  end near "Near end" at yard fits garden with cap }
lineup summer "Summer" on shed for use { near open }
lineup winter "Winter" on shed for use { near capped }
)",
                   R"(system shed "Shed" { zone yard "Yard"  end near "Near end" at yard fits garden with cap }
lineup summer "Summer" on shed for use { near open }
lineup winter "Winter" on shed { near capped }
)"},
    CatalogueEntry{"unknown-position", Severity::error, "A position that the part does not have",
                   "A part stands in one of the positions of its kind. What is printed on this model's valve is a "
                   "label, set with `position NAME \"LABEL\"`; procedures use the name.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
lineup shut_up "Shut up" on shed { garden_tap closed }
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
lineup shut_up "Shut up" on shed { garden_tap shut }
)"},
    CatalogueEntry{
        "one-position", Severity::error, "A part that cannot be moved",
        "The kind of this part has no positions, so there is nothing to set and nothing to look at. If it is "
        "a valve, its kind must say how it can stand.",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part check : check_valve "Check valve" at yard
  part garden_tap : tap "Garden tap" at yard
  run check.outlet - garden_tap.water : copper_15 1 m
}
lineup shut_up "Shut up" on shed { check shut  garden_tap open }
)",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part check : check_valve "Check valve" at yard
  part garden_tap : tap "Garden tap" at yard
  run check.outlet - garden_tap.water : copper_15 1 m
}
lineup shut_up "Shut up" on shed { garden_tap open }
)"},
    CatalogueEntry{"which-port", Severity::error, "Which port is meant",
                   "The part has several ports, or none, so its name alone does not say where.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part check : check_valve "Check valve" at yard
  part garden_tap : tap "Garden tap" at yard
  run check - garden_tap : copper_15 1 m
}
lineup shut_up "Shut up" on shed { garden_tap open }
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part check : check_valve "Check valve" at yard
  part garden_tap : tap "Garden tap" at yard
  run check.outlet - garden_tap : copper_15 1 m
}
lineup shut_up "Shut up" on shed { garden_tap open }
)"},
    CatalogueEntry{"which-chamber", Severity::error, "Which chamber is meant",
                   "The part has several chambers, or none, so its name alone does not say what is filled or emptied.",
                   R"(kind twin "Twin tank" {
  port left, right
  chamber first "First tank" holds 10 L { low left }
  chamber second "Second tank" holds 10 L { low right }
  always { vent first  vent second }
}
system shed "Shed" {
  zone yard "Yard"
  part tanks : twin "Twin tank" at yard
}
procedure look "Look" on shed {
  stage "All" {
    step "See that it is empty" { verify tanks is empty }
  }
}
)",
                   R"(kind twin "Twin tank" {
  port left, right
  chamber first "First tank" holds 10 L { low left }
  chamber second "Second tank" holds 10 L { low right }
  always { vent first  vent second }
}
system shed "Shed" {
  zone yard "Yard"
  part tanks : twin "Twin tank" at yard
}
procedure look "Look" on shed {
  stage "All" {
    step "See that it is empty" { verify tanks.first is empty and tanks.second is empty }
  }
}
)"},
    CatalogueEntry{"no-place", Severity::error, "A part without a place",
                   "The owner must be able to walk to it: a part stands `at` a zone, perhaps `behind` a cover.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap"
}
lineup shut_up "Shut up" on shed { garden_tap shut }
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
lineup shut_up "Shut up" on shed { garden_tap shut }
)"},
    CatalogueEntry{"no-ways", Severity::error, "A kind that lists no ways to visit",
                   "`each way` goes through the positions that the kind lists with `ways`, in that order: hot, then "
                   "cold.",
                   R"(use water
group cocks "Cocks"
kind bib "Bib tap" in cocks {
  port water
  position shut { }
  position open { water ~> below }
}
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : bib "Garden tap" at yard
}
procedure open_all "Open all" on shed {
  requires garden_tap is shut
  stage "All" {
    for each x in cocks, each way w { step "Set {x} to {w}" { set x to w } }
    step "Write it down" { record "Day of the month" as count }
  }
}
)",
                   R"(use water
group cocks "Cocks"
kind bib "Bib tap" in cocks {
  port water
  position shut { }
  position open { water ~> below }
  ways open
}
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : bib "Garden tap" at yard
}
procedure open_all "Open all" on shed {
  requires garden_tap is shut
  stage "All" {
    for each x in cocks, each way w { step "Set {x} to {w}" { set x to w } }
    step "Write it down" { record "Day of the month" as count }
  }
}
)"},
    CatalogueEntry{"run-to-itself", Severity::error, "A pipe from a place to itself",
                   "A run joins two different places.",
                   R"(use pipes
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - near : copper_15 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)",
                   R"(use pipes
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  run near - far : copper_15 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)"},
    CatalogueEntry{"falls-elsewhere", Severity::error, "A pipe that falls to somewhere else",
                   "A run falls to one of its own two ends: the lower one.",
                   R"(use pipes
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  end low "Low end" at yard fits garden
  run near - far : copper_15 2 m  falls to low
  run near - low : copper_15 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)",
                   R"(use pipes
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  end low "Low end" at yard fits garden
  run near - far : copper_15 2 m  falls to far
  run near - low : copper_15 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)"},
    CatalogueEntry{"loose-tee", Severity::error, "A tee that joins nothing",
                   "A tee is where two or more runs meet. One run alone ends in an `end` or a part; perhaps a `run` is "
                   "missing.",
                   R"(use pipes
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  tee middle
  run near - middle : copper_15 2 m
  run near - far : copper_15 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)",
                   R"(use pipes
system shed "Shed" {
  zone yard "Yard"
  end near "Near end" at yard fits garden
  end far "Far end" at yard fits garden
  tee middle
  run near - middle : copper_15 2 m
  run middle - far : copper_15 2 m
}
lineup shut_up "Shut up" on shed { near open  far open }
)"},
    CatalogueEntry{"ends-do-not-fit", Severity::error, "Ends that do not fit each other",
                   "Ends are coupled where both have the same `fits`; an end goes into a vessel only if it `may dip`. "
                   "An adapter is a part with two ends.",
                   R"(system shed "Shed" {
  zone yard "Yard"
  end spigot "Spigot" at yard fits garden
  end tail "Hose tail" at yard fits air_line
}
lineup joined "Joined" on shed { tail coupled to spigot }
)",
                   R"(system shed "Shed" {
  zone yard "Yard"
  end spigot "Spigot" at yard fits garden
  end tail "Hose tail" at yard fits garden
}
lineup joined "Joined" on shed { tail coupled to spigot }
)"},
    CatalogueEntry{"no-cap", Severity::error, "An end without a cap",
                   "Only an end declared `with cap` can be capped or uncapped.",
                   R"(system shed "Shed" {
  zone yard "Yard"
  end spigot "Spigot" at yard fits garden
}
procedure close_up "Close up" on shed {
  requires spigot is open
  stage "All" {
    step "Cap the spigot" { cap spigot }
  }
}
)",
                   R"(system shed "Shed" {
  zone yard "Yard"
  end spigot "Spigot" at yard fits garden with cap
}
procedure close_up "Close up" on shed {
  requires spigot is open
  stage "All" {
    step "Cap the spigot" { cap spigot }
  }
}
)"},
    CatalogueEntry{"too-many-parts", Severity::error, "Too many parts",
                   "The limit, 50,000 with all that assemblies are made of, is far above what one vehicle, boat or "
                   "cabin has. It keeps assemblies of assemblies from filling the memory."},
    CatalogueEntry{"too-many-fluids", Severity::error, "Too many fluids",
                   "A system knows 63 fluids at most, those of the standard library among them. That is far more than "
                   "one vehicle, boat or cabin holds."},
};

} // namespace

std::span<const CatalogueEntry> system_catalogue() {
    return entries;
}

} // namespace curbstop::text
