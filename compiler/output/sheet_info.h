// What a sheet says about itself that is neither in the model nor in the proof.
// Must not know: how any of it was found out.
#pragma once

#include <string>
#include <vector>

#include "meaning/expression.h"
#include "meaning/language.h"
#include "output/drawing_key.h"
#include "output/wording.h"
#include "text/source.h"

namespace curbstop::output {

struct SheetDrawing {
    Wording title;
    std::string svg;
    bool wide = false; ///< wider than a telephone, so that it has to be slid
    std::vector<DrawingSign> key = {};
};
/// What a letter on a drawing stands for.
struct SheetKey {
    std::string sign;
    Wording words;
};
/// Empty where nothing is drawn.
struct SheetPictures {
    std::vector<SheetDrawing> drawings; ///< the overview first, then place by place (output/drawing_zones.h)
    std::vector<std::string> steps; ///< an svg element per step, empty of one that moves nothing (output/pictures.h)
    std::string states;             ///< JSON: what the drawings show after each step (output/live_states.h)
    std::vector<SheetKey> key;      ///< of the letters in it
};

struct SheetInfo {
    std::string tool_version;
    std::string content_version;                             ///< content_version() of the sources
    SheetPictures pictures = {};                             ///< to put on the HTML sheet
    meaning::Language language = meaning::Language::english; ///< of the sheet
    std::vector<meaning::ValueSet> as_left = {}; ///< how the procedure in whose wake it starts leaves everything
};

/// Names the wording of all sources together, so that two sheets can be told to be of the same one: SHA-256, in
/// hexadecimal, of each source's length in bytes, written in decimal with a line end after it, and then its text,
/// source after source in the order in which they were read (the root first). Paths do not enter.
[[nodiscard]] std::string content_version(const text::SourceSet& sources);

} // namespace curbstop::output
