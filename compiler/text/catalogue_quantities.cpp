#include "text/catalogue.h"

#include <array>

// Quantities: numbers, units and limits.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"wrong-dimension", Severity::error, "A quantity of the wrong dimension",
                   "A pressure was given where a length is wanted, or the like. Units are never converted between "
                   "dimensions; within one they may be mixed freely, for conversion is exact."},
    CatalogueEntry{"unknown-unit", Severity::error, "A unit that is not known",
                   "Units are written as in `45 psi`, `30 %`, `-13 degC`. The language reference lists them all. "
                   "`gal` and `floz` are those of the US."},
    CatalogueEntry{"missing-unit", Severity::error, "A number without its unit",
                   "Only a count has no unit. A bare 30 could be psi or bar, and the difference bursts a pipe."},
    CatalogueEntry{"number-too-long", Severity::error, "A number with more than 18 digits",
                   "Numbers are kept exactly, as fractions, and 18 digits are what can be kept in every unit. No "
                   "gauge shows as many."},
    CatalogueEntry{"impossible-quantity", Severity::error, "A quantity that cannot be",
                   "A temperature below absolute zero, a concentration above 100 %, a length of nothing, a least "
                   "amount above the greatest: there is no such thing."},
    CatalogueEntry{"empty-range", Severity::error, "A dial that cannot be turned",
                   "A dial goes from a smaller to a greater setting."},
    CatalogueEntry{"outside-dial", Severity::error, "A setting beyond the end of a dial",
                   "The dial cannot be set so: it ends before. The operator would turn it to its stop and believe it "
                   "set."},
    CatalogueEntry{"too-many-values", Severity::error, "Too many ways to stand",
                   "A part, dial or end could stand in more ways than the checker keeps apart. The limit is far "
                   "above what real fittings have."},
};

} // namespace

std::span<const CatalogueEntry> quantities_catalogue() {
    return entries;
}

} // namespace curbstop::text
