#include "text/catalogue.h"

#include <array>

// What the reader of a file may meet before any name is looked up: the file itself, and how it is written.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{
        "unreadable-file", Severity::error, "A file cannot be read",
        "The file or module is missing, may not be read, is too large (16 MiB is the most), is no text, or is "
        "not UTF-8. Nothing is checked then, and the program ends with status 2.\n\n"
        "`use NAME` looks for `NAME.curb` beside the file that uses it, then in the standard library."},
};

} // namespace

std::span<const CatalogueEntry> syntax_catalogue() {
    return entries;
}

} // namespace curbstop::text
