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
                   "A comment begins with `#`. Anything at all may stand in a text between two `\"`.",
                   R"(system hut “Hut” {
  zone room "Room"
}
)",
                   R"(system hut "Hut" {
  zone room "Room"
}
)"},
    CatalogueEntry{"unclosed-string", Severity::error, "A text that is not closed",
                   "A text stands between two `\"` on one line. A line break in it is written `\\n`, a quotation "
                   "mark `\\\"`.",
                   R"(system hut "Hut {
  zone room "Room"
}
)",
                   R"(system hut "Hut" {
  zone room "Room"
}
)"},
    CatalogueEntry{"unknown-escape", Severity::error, "A backslash before something that needs none",
                   "In a text, `\\\"` is a quotation mark, `\\\\` a backslash and `\\n` a line break. A backslash "
                   "before anything else is a slip, and is not passed over in silence.",
                   R"(system hut "Hut \& shed" {
  zone room "Room"
}
)",
                   R"(system hut "Hut & shed" {
  zone room "Room"
}
)"},
    CatalogueEntry{"nested-too-deep", Severity::error, "Too many braces in each other",
                   "The limit, 64 braces and parentheses in each other, is far beyond what a person can follow. "
                   "Usually a closing brace is missing many times "
                   "over, or the file was made by a program."},
    CatalogueEntry{"syntax", Severity::error, "Something else was expected",
                   "What stands here does not continue what was begun. The message says what would, in the words of "
                   "the language reference, and often shows how it is written.\n\n"
                   "Line ends mean nothing: where the last word of a line is missing, the first of the next is what "
                   "was found. The rest of the file is read on from the next statement or declaration, so that one run "
                   "shows every slip.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part kitchen_tap : tap "Kitchen tap" at room
}
lineup stored "Stored" on hut { kitchen_tap }
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part kitchen_tap : tap "Kitchen tap" at room
}
lineup stored "Stored" on hut { kitchen_tap shut }
)"},
    CatalogueEntry{
        "wrong-block", Severity::error, "A statement or declaration in the wrong block",
        "Moves stand in steps, steps in stages, stages in procedures; parts and runs in systems; ports, "
        "positions and guards in kinds. A brace too many ends a block early, and what follows is then in the "
        "wrong place.",
        R"(use water
system hut "Hut" {
  zone room "Room"
  part kitchen_tap : tap "Kitchen tap" at room
}
procedure shut_up "Shut up" on hut {
  requires kitchen_tap is open
  stage "All" {
    set kitchen_tap to shut
  }
}
)",
        R"(use water
system hut "Hut" {
  zone room "Room"
  part kitchen_tap : tap "Kitchen tap" at room
}
procedure shut_up "Shut up" on hut {
  requires kitchen_tap is open
  stage "All" {
    step "Shut the tap" { set kitchen_tap to shut }
  }
}
)"},
    CatalogueEntry{
        "unclosed-block", Severity::error, "A block without its closing brace",
        "Each `{` needs a `}`. Where one was forgotten is seen by what cannot stand in the block, and by how "
        "the lines are indented.",
        R"(use water
system hut "Hut" {
  zone room "Room"
  part kitchen_tap : tap "Kitchen tap" at room
}
procedure shut_up "Shut up" on hut {
  requires kitchen_tap is open
  stage "All" {
    step "Shut the tap" { set kitchen_tap to shut
  }
}
)",
        R"(use water
system hut "Hut" {
  zone room "Room"
  part kitchen_tap : tap "Kitchen tap" at room
}
procedure shut_up "Shut up" on hut {
  requires kitchen_tap is open
  stage "All" {
    step "Shut the tap" { set kitchen_tap to shut }
  }
}
)"},
    CatalogueEntry{"stray-brace", Severity::error, "A closing brace too many",
                   "This `}` closes nothing: the block that it was meant for is closed already.",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part kitchen_tap : tap "Kitchen tap" at room
}
procedure shut_up "Shut up" on hut {
  requires kitchen_tap is open
  stage "All" {
    step "Shut the tap" { set kitchen_tap to shut }
  }
}
}
)",
                   R"(use water
system hut "Hut" {
  zone room "Room"
  part kitchen_tap : tap "Kitchen tap" at room
}
procedure shut_up "Shut up" on hut {
  requires kitchen_tap is open
  stage "All" {
    step "Shut the tap" { set kitchen_tap to shut }
  }
}
)"},
    CatalogueEntry{"stray-doc-comment", Severity::warning, "A doc comment that belongs to nothing",
                   "A comment that starts with `##` is kept for the declaration after it, and shown where that is "
                   "described. Here nothing follows that keeps one. A plain comment starts with one `#`.",
                   R"(system hut "Hut" {
  zone room "Room"
}
## The end.
)",
                   R"(system hut "Hut" {
  zone room "Room"
}
# The end.
)"},
};

} // namespace

std::span<const CatalogueEntry> syntax_catalogue() {
    return entries;
}

} // namespace curbstop::text
