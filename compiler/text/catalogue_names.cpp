#include "text/catalogue.h"

#include <array>

// Names and modules: what is found while every name is led to what it names.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"unknown-name", Severity::error, "A name that nothing declares",
                   "Nothing of this name is declared here, in a module that is used, or in the standard library. "
                   "Names are `snake_case`. If it is in a module, say so with `use`."},
    CatalogueEntry{"name-taken", Severity::error, "A name given twice",
                   "Two things in one place have the same name, so that nobody could say which is meant. Labels may "
                   "be alike, names may not.\n\n"
                   "Two modules that are used together must not declare the same name either."},
    CatalogueEntry{"wrong-sort", Severity::error, "The right name in the wrong place",
                   "The name is known, but names something else than what is needed here: a vessel where a valve is "
                   "set, a group where one part is meant."},
    CatalogueEntry{"wrong-kind", Severity::error, "A part of another kind is needed",
                   "A kind may ask for another part to depend on, as a pump asks for its switch. The part given is "
                   "not of the kind asked for."},
    CatalogueEntry{"missing-module", Severity::error, "A module that is nowhere",
                   "`use NAME` looks for `NAME.curb` beside the file that uses it, then in the standard library. A "
                   "name never holds a path."},
    CatalogueEntry{"module-circle", Severity::error, "Modules that use each other",
                   "Module a uses b, and b, perhaps by way of others, uses a. Neither could be read first.\n\n"
                   "Put what both need into a third."},
    CatalogueEntry{"too-many-modules", Severity::error, "Too many modules",
                   "The limit is far beyond what one system needs. It keeps a slip, or a hostile file, from keeping "
                   "the machine busy."},
    CatalogueEntry{"no-system", Severity::error, "There is no system to check",
                   "Neither the file nor what it uses declares a `system`. A module of kinds or fluids is checked by "
                   "way of a file that uses it."},
    CatalogueEntry{"several-systems", Severity::error, "Several systems at once",
                   "One file, with what it uses, describes one system. Put each into a file of its own, and what "
                   "they share into a module."},
    CatalogueEntry{"kind-circle", Severity::error, "A kind that contains itself",
                   "A kind is made of parts, and one of those, perhaps deep within, is of the same kind. No such "
                   "thing can be built."},
    CatalogueEntry{"fragment-circle", Severity::error, "A fragment that uses itself",
                   "Fragments are written out in place. One that contains itself would never end. `repeat` is for "
                   "work that is done again."},
    CatalogueEntry{"wrong-count", Severity::error, "Too many or too few arguments",
                   "A fragment is used with as many arguments as it has parameters."},
    CatalogueEntry{"misplaced", Severity::error, "A fragment in the wrong place",
                   "`fragment NAME(…)` is a piece of a step and is used within one; `fragment NAME(…) steps` is a "
                   "run of steps and is used between steps."},
    CatalogueEntry{"missing-given", Severity::error, "Something that a part must be told",
                   "The kind of this part depends on a quantity or another part that only the system knows. Set it "
                   "in the braces of the part. A kind may make it `optional` or give it a value of its own."},
    CatalogueEntry{"unknown-given", Severity::error, "A setting that the kind does not know",
                   "In the braces of a part stand the `given` of its kind, names of its positions as they are "
                   "written on this model, `rated` and `holds`."},
    CatalogueEntry{"empty-group", Severity::error, "A group that nothing belongs to",
                   "No part of this system is of a kind that is `in` this group, so a loop over it would do nothing, "
                   "and nobody would notice."},
};

} // namespace

std::span<const CatalogueEntry> names_catalogue() {
    return entries;
}

} // namespace curbstop::text
