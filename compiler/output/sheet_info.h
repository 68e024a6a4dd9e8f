// What a sheet says about itself that is neither in the model nor in the proof.
// Must not know: how any of it was found out.
#pragma once

#include <string>

#include "meaning/language.h"
#include "text/source.h"

namespace curbstop::output {

struct SheetInfo {
    std::string tool_version;
    std::string content_version; ///< content_version() of the sources
    std::string drawing;         ///< an SVG element to put on the HTML sheet (output/drawing.h); empty for none
    meaning::Language language = meaning::Language::english; ///< of the sheet
};

/// Names the wording of all sources together, so that two sheets can be told to be of the same one: SHA-256, in
/// hexadecimal, of each source's length in bytes, written in decimal with a line end after it, and then its text,
/// source after source in the order in which they were read (the root first). Paths do not enter.
[[nodiscard]] std::string content_version(const text::SourceSet& sources);

} // namespace curbstop::output
