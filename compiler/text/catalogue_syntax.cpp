#include "text/catalogue.h"

#include <array>

// What the reader of a file may meet before any name is looked up: the file itself, and how it is written.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"unreadable-file", Severity::error, "A file cannot be read",
                   "The file or module is missing, may not be read, is too large (16 MiB is the most), is no text, "
                   "or is not UTF-8. Nothing is checked then, and the program ends with status 2.\n\n"
                   "`use NAME` looks for `NAME.curb` beside the file that uses it, then in the standard library."},
    CatalogueEntry{"stray-character", Severity::error, "A character that means nothing here",
                   "Outside texts and comments the language is written with letters, digits, `_`, braces, a few "
                   "signs and the arrows of ways. Word processors like to put in their own quotation marks, dashes "
                   "and spaces, which look alike.\n\n"
                   "A comment begins with `#`. Anything at all may stand in a text between two `\"`."},
    CatalogueEntry{"unclosed-string", Severity::error, "A text that is not closed",
                   "A text stands between two `\"` on one line. A line break in it is written `\\n`, a quotation "
                   "mark `\\\"`."},
    CatalogueEntry{"unknown-escape", Severity::error, "A backslash before something that needs none",
                   "In a text, `\\\"` is a quotation mark, `\\\\` a backslash and `\\n` a line break. A backslash "
                   "before anything else is a slip, and is not passed over in silence."},
    CatalogueEntry{"nested-too-deep", Severity::error, "Too many braces in each other",
                   "The limit is far beyond what a person can follow. Usually a closing brace is missing many times "
                   "over, or the file was made by a program."},
};

} // namespace

std::span<const CatalogueEntry> syntax_catalogue() {
    return entries;
}

} // namespace curbstop::text
