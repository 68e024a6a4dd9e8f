#include "text/catalogue.h"

#include <array>

// Names: what is found while every name is led to what it names, and while parts are made of kinds.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"unknown-name", Severity::error, "A name that nothing declares",
                   "Nothing of this name is declared here, in a module that is used, or in the standard library. Names "
                   "are `snake_case`. If it is in a module, say so with `use`.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
lineup shut_up "Shut up" on shed { gardentap shut }
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
lineup shut_up "Shut up" on shed { garden_tap shut }
)"},
    CatalogueEntry{"name-taken", Severity::error, "A name given twice",
                   "Two things of one sort have the same name, so that nobody could say which is meant. Labels may be "
                   "alike, names may not. The same holds of a part or cover that stands twice in one line-up, and of "
                   "two modules that are used together.\n\n"
                   "`covers` is always the group of all covers.",
                   R"(system shed "Shed" {
  zone yard "Yard"
  zone yard "Back yard"
}
)",
                   R"(system shed "Shed" {
  zone yard "Yard"
  zone back_yard "Back yard"
}
)"},
    CatalogueEntry{
        "which-step", Severity::error, "A step that is named, and no such step, or several",
        "A text may name a step: `{step NAME}` becomes the step's number on the sheet, whatever is added before "
        "it. NAME stands behind `step` where the step is. It must be the name of one step of the same "
        "procedure; a step in a loop or in a fragment that is used twice is several.",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
lineup shut_up "Shut up" on shed { garden_tap shut }
procedure close_up "Close up" on shed {
  stage "All" {
    step shutting "Shut the tap" { set garden_tap to shut }
    step "Look at it" { note "It drips: go back to step {step shuting}." }
  }
}
)",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
lineup shut_up "Shut up" on shed { garden_tap shut }
procedure close_up "Close up" on shed {
  stage "All" {
    step shutting "Shut the tap" { set garden_tap to shut }
    step "Look at it" { note "It drips: go back to step {step shutting}." }
  }
}
)"},
    CatalogueEntry{"wrong-sort", Severity::error, "The right name in the wrong place",
                   "The name is known, but names something else than what is needed here: a vessel where a valve is "
                   "set, a group where one part is meant, a quantity where a fragment takes names and texts.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  vessel bucket "Bucket" 10 L accepts drinking_water
  part garden_tap : tap "Garden tap" at yard
}
procedure close_up "Close up" on shed {
  stage "All" {
    step "Open the tap" { set bucket to open }
  }
}
lineup shut_up "Shut up" on shed { garden_tap open }
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  vessel bucket "Bucket" 10 L accepts drinking_water
  part garden_tap : tap "Garden tap" at yard
}
procedure close_up "Close up" on shed {
  stage "All" {
    step "Open the tap" { set garden_tap to open }
  }
}
lineup shut_up "Shut up" on shed { garden_tap open }
)"},
    CatalogueEntry{"wrong-kind", Severity::error, "A part of another kind is needed",
                   "A kind may ask for another part to depend on, as a pump asks for its switch. The part given is not "
                   "of the kind asked for.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part breaker_1 : breaker "Circuit breaker" at yard
  part lamp_switch : switch "Pump switch" at yard
  part pump : demand_pump "Pump" at yard { power breaker_1 }
}
lineup shut_up "Shut up" on shed { breaker_1 off  lamp_switch off  pump off }
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part breaker_1 : breaker "Circuit breaker" at yard
  part pump_switch : switch "Pump switch" at yard
  part pump : demand_pump "Pump" at yard { power pump_switch }
}
lineup shut_up "Shut up" on shed { breaker_1 off  pump_switch off  pump off }
)"},
    CatalogueEntry{"kind-circle", Severity::error, "A kind that contains itself",
                   "A kind is made of parts, and one of those, perhaps deep within, is of the same kind. No such thing "
                   "can be built. Assemblies of assemblies more than 16 deep are refused for the same reason.",
                   R"(kind manifold "Manifold" {
  port inlet
  part branch : manifold "Branch"
  always { inlet <-> branch.inlet }
}
system shed "Shed" {
  zone yard "Yard"
  part header : manifold "Header" at yard
}
)",
                   R"(kind nozzle "Nozzle" { port inlet }
kind manifold "Manifold" {
  port inlet
  part branch : nozzle "Branch"
  always { inlet <-> branch.inlet }
}
system shed "Shed" {
  zone yard "Yard"
  part header : manifold "Header" at yard
}
)"},
    CatalogueEntry{"missing-given", Severity::error, "Something that a part must be told",
                   "The kind of this part depends on a quantity or another part that only the system knows. Set it in "
                   "the braces of the part. A kind may make it `optional` or give it a value of its own.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
}
)"},
    CatalogueEntry{"unknown-given", Severity::error, "A setting that the kind does not know",
                   "In the braces of a part stand the `given` of its kind, names of its positions as they are written "
                   "on this model, `rated` and `holds`.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L  weight 210 kg }
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part butt : vented_tank "Water butt" at yard { size 200 L }
}
)"},
    CatalogueEntry{"empty-group", Severity::error, "A group that nothing belongs to",
                   "No part of this system is of a kind that is `in` this group, so a loop over it would do nothing, "
                   "and nobody would notice.",
                   R"(use water
group hydrants "Hydrants"
system shed "Shed" {
  zone yard "Yard"
  part garden_tap : tap "Garden tap" at yard
}
procedure close_up "Close up" on shed {
  requires garden_tap is shut
  stage "All" {
    for each x in hydrants { step "Open {x}" { set x to open } }
    step "Write it down" { record "Day of the month" as count }
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
    for each x in taps { step "Open {x}" { set x to open } }
    step "Write it down" { record "Day of the month" as count }
  }
}
)"},
};

} // namespace

std::span<const CatalogueEntry> names_catalogue() {
    return entries;
}

} // namespace curbstop::text
