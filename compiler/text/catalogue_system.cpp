#include "text/catalogue.h"

#include <array>

// Systems: parts, ends, pipes, and how they stand.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"unknown-position", Severity::error, "A position that the part does not have",
                   "A part stands in one of the positions of its kind. What is printed on this model's valve is a "
                   "label, set with `position NAME \"LABEL\"`; procedures use the name."},
    CatalogueEntry{"one-position", Severity::error, "A part that cannot be moved",
                   "The kind of this part has no positions, so there is nothing to set and nothing to look at. If it "
                   "is a valve, its kind must say how it can stand."},
    CatalogueEntry{"which-port", Severity::error, "Which port is meant",
                   "The part has several ports, or none, so its name alone does not say where."},
    CatalogueEntry{"which-chamber", Severity::error, "Which chamber is meant",
                   "The part has several chambers, or none, so its name alone does not say what is filled or "
                   "emptied."},
    CatalogueEntry{"no-place", Severity::error, "A part without a place",
                   "The owner must be able to walk to it: a part stands `at` a zone, perhaps `behind` a cover."},
    CatalogueEntry{"no-ways", Severity::error, "A kind that lists no ways to visit",
                   "`each way` goes through the positions that the kind lists with `ways`, in that order: hot, then "
                   "cold."},
    CatalogueEntry{"run-to-itself", Severity::error, "A pipe from a place to itself",
                   "A run joins two different places."},
    CatalogueEntry{"falls-elsewhere", Severity::error, "A pipe that falls to somewhere else",
                   "A run falls to one of its own two ends: the lower one."},
    CatalogueEntry{"loose-tee", Severity::error, "A tee that joins nothing",
                   "A tee is where two or more runs meet. One run alone ends in an `end` or a part; perhaps a `run` "
                   "is missing."},
    CatalogueEntry{"ends-do-not-fit", Severity::error, "Ends that do not fit each other",
                   "Ends are coupled where both have the same `fits`; an end goes into a vessel only if it `may "
                   "dip`. An adapter is a part with two ends."},
    CatalogueEntry{"no-cap", Severity::error, "An end without a cap",
                   "Only an end declared `with cap` can be capped or uncapped."},
    CatalogueEntry{"too-many-parts", Severity::error, "Too many parts",
                   "The limit is far above what one vehicle, boat or cabin has. It keeps assemblies of assemblies "
                   "from filling the memory."},
};

} // namespace

std::span<const CatalogueEntry> system_catalogue() {
    return entries;
}

} // namespace curbstop::text
