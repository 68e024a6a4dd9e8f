#include "text/catalogue.h"

#include <array>

// Languages: what is found in the texts that a sheet prints.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"language-twice", Severity::error, "One language given twice",
                   "A text is given in each language once: first in the language of its file, without a code, and then "
                   "in others, each behind its code. A file says its language once, with `language`, and is in English "
                   "where it does not. `languages` names each language that the sheets are to be had in once.",
                   R"(language de
system shed "Schuppen" {
  zone yard "Hof" de "Hinterhof"
}
)",
                   R"(language de
system shed "Schuppen" {
  zone yard "Hof" en "Yard"
}
)"},
    CatalogueEntry{
        "not-translated", Severity::warning, "A text that is missing in a language",
        "A system whose sheets are to be had in several languages names them with `languages`. This text, or "
        "the label of what has only a name, is not given in one of them, so that a sheet in that language "
        "prints the author's own and marks it as such.\n\n"
        "So many are told one by one; of what is more, the number. Labels of kinds, groups, line-ups and "
        "seasons and the reasons of guards are for authors and need no translation.",
        R"(system shed "Shed" de "Schuppen" {
  languages en, de
  zone yard "Yard"
}
)",
        R"(system shed "Shed" de "Schuppen" {
  languages en, de
  zone yard "Yard" de "Hof"
}
)"},
};

} // namespace

std::span<const CatalogueEntry> languages_catalogue() {
    return entries;
}

} // namespace curbstop::text
