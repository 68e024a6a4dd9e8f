#include "text/catalogue.h"

#include <array>

// Procedures: steps, and the flows they mean.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"springs-back", Severity::error, "Set, though it springs back",
                   "This part returns by itself when it is let go, so it cannot be left at that position. Write "
                   "`hold … at … { … }` around what is done meanwhile."},
    CatalogueEntry{"no-spring", Severity::error, "Held, though it stays",
                   "This part stays where it is put. Write `set … to …`, and set it back when it is time."},
    CatalogueEntry{"not-an-origin", Severity::error, "Nothing can flow from there",
                   "What flows comes from a supply, a chamber or a vessel. A pump only moves it: name what the pump "
                   "draws on."},
    CatalogueEntry{"not-an-outlet", Severity::error, "Nothing can come out there",
                   "A flow ends where it leaves the system or is kept: at a part with a `~>` or a `breach`, a free "
                   "end, or a chamber with a vent."},
    CatalogueEntry{"no-until", Severity::error, "A flow without an end",
                   "A flow or drain that the operator must wait for says what is seen when it is done: `until clear "
                   "\"WORDS\"`, `until stops \"WORDS\"`."},
    CatalogueEntry{"no-steps", Severity::error, "A procedure without steps",
                   "There is nothing to do in it, so there is nothing to prove and nothing to print."},
    CatalogueEntry{"too-many-steps", Severity::error, "Too many steps",
                   "Written out, with every loop and fragment, the procedure is longer than the checker takes. The "
                   "limit is far above what a person can carry out."},
};

} // namespace

std::span<const CatalogueEntry> procedure_catalogue() {
    return entries;
}

} // namespace curbstop::text
