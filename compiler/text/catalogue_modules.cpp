#include "text/catalogue.h"

#include <array>

// Modules and systems: what is found before any part is built.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{
        "missing-module", Severity::error, "A module that is nowhere",
        "`use NAME` looks for `NAME.curb` beside the file that uses it, then in the standard library. A name "
        "never holds a path.",
        R"(use waters
system shed "Shed" {
  zone yard "Yard"
}
)",
        R"(use water
system shed "Shed" {
  zone yard "Yard"
}
)"},
    CatalogueEntry{"module-circle", Severity::error, "Modules that use each other",
                   "Module a uses b, and b, perhaps by way of others, uses a. Neither could be read first. A module "
                   "that uses itself is the smallest circle.\n\n"
                   "Put what both need into a third."},
    CatalogueEntry{"too-many-modules", Severity::error, "Too many modules",
                   "The limit, 256, is far beyond what one system needs. It keeps a slip, or a hostile file, from "
                   "keeping the machine busy."},
    CatalogueEntry{"no-system", Severity::error, "There is no system to check",
                   "Neither the file nor what it uses declares a `system`. A module of kinds or fluids is checked by "
                   "way of a file that uses it.",
                   R"(use water
kind spray "Spray" { port water  always { water ~> below } }
)",
                   R"(use water
kind spray "Spray" { port water  always { water ~> below } }
system shed "Shed" { zone yard "Yard"  part washer : spray "Washer" at yard }
)"},
    CatalogueEntry{"several-systems", Severity::error, "Several systems at once",
                   "One file, with what it uses, describes one system. Put each into a file of its own, and what they "
                   "share into a module.",
                   R"(system shed "Shed" { zone yard "Yard" }
system barn "Barn" { zone loft "Loft" }
)",
                   R"(system shed "Shed" { zone yard "Yard" }
)"},
};

} // namespace

std::span<const CatalogueEntry> modules_catalogue() {
    return entries;
}

} // namespace curbstop::text
