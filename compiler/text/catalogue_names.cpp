#include "text/catalogue.h"

#include <array>

// Names, kinds, units: what is found while meaning is given to a text that could be read.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"unknown-name", Severity::error, "A name that nothing declares",
                   "Nothing of this name is declared here, in a module that is used, or in the standard library. Names "
                   "are `snake_case`. If it is in a module, say so with `use`."},
    CatalogueEntry{"wrong-dimension", Severity::error, "A quantity of the wrong kind",
                   "A pressure was given where a length is wanted, or the like. Units are never converted between "
                   "dimensions; within one they may be mixed freely, for conversion is exact."},
    CatalogueEntry{"unknown-unit", Severity::error, "A unit that is not known",
                   "Units are written as in `45 psi`, `30 %`, `-13 degC`. The language reference lists them all."},
    CatalogueEntry{"number-too-long", Severity::error, "A number with more than 18 digits",
                   "Numbers are kept exactly, as fractions, and 18 digits are what is kept without a doubt. No gauge "
                   "shows as many."},
};

} // namespace

std::span<const CatalogueEntry> names_catalogue() {
    return entries;
}

} // namespace curbstop::text
