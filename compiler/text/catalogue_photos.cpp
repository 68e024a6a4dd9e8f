#include "text/catalogue.h"

#include <array>

// Photographs of parts and steps.
namespace curbstop::text {
namespace {

constexpr std::array entries{
    CatalogueEntry{"missing-photo", Severity::error, "A photograph that cannot be read",
                   "`photo \"FILE\" \"WORDS\"` names a file from the folder in which the source lies that says so. It "
                   "is not there, or may not be read.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part trough : basin "Trough" at yard photo "trough.jpg" "A stone trough, left of the door"
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part trough : basin "Trough" at yard
}
)"},
    CatalogueEntry{"photo-outside", Severity::error, "A photograph in another folder",
                   "A photograph lies in the folder of the source that names it, or in one below: then a folder "
                   "that is handed on is whole, and checking somebody else's file never shows them a file of "
                   "yours. A path with `..`, a path from the root, and a link that leads out of the folder are "
                   "refused.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part trough : basin "Trough" at yard photo "../trough.jpg" "A stone trough, left of the door"
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part trough : basin "Trough" at yard
}
)"},
    CatalogueEntry{"photo-without-words", Severity::error, "A photograph that is not told in words",
                   "Who cannot see the photograph, or has the sheet read aloud, or works by the Markdown, needs "
                   "what it shows in words. Say what one should know from it, not that it is a photograph.",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part trough : basin "Trough" at yard photo "trough.jpg"
}
)",
                   R"(use water
system shed "Shed" {
  zone yard "Yard"
  part trough : basin "Trough" at yard
}
)"},
    CatalogueEntry{"not-a-photo", Severity::error, "A file that is no photograph",
                   "A photograph is a PNG or a JPEG image, told by what is in the file and not by its name. It is "
                   "whole, with nothing behind its end, and no side is longer than 16,384 pixels. Save it anew "
                   "with any program that shows images."},
    CatalogueEntry{"photo-too-large", Severity::error, "A photograph that is too large",
                   "Photographs become part of the sheet, which is mailed and kept on telephones: one has at most "
                   "2 MiB, all of a system and its procedures together have at most 20 MiB. A side of 1200 pixels "
                   "is enough to know a valve by."},
};

} // namespace

std::span<const CatalogueEntry> photos_catalogue() {
    return entries;
}

} // namespace curbstop::text
