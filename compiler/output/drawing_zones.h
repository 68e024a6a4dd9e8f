// The system drawn place by place, so that each drawing can be read on a telephone and on a page, and an overview of
// the places. Pipes that leave a drawing say where they lead. Must not know: files, how anything was proved.
#pragma once

#include "output/drawing_key.h"
#include "output/words.h"

#include <string>
#include <vector>

namespace curbstop::output {

struct ZoneDrawing {
    Wording title; ///< of the place; "Galley, 2 of 3" where one drawing would be too large to read
    std::string svg;
    bool wide = false; ///< wider than a telephone
    std::vector<DrawingSign> key = {};
};

struct ZoneDrawings {
    std::string overview; ///< empty where everything is in one drawing
    bool wide_overview = false;
    std::vector<ZoneDrawing> zones;
    std::string error; ///< why there are none
};

/// Parts and pipes have attributes that a script finds them by (place_id), and show how they stand at `start`.
[[nodiscard]] ZoneDrawings draw_zones(const Words& words, const std::vector<meaning::ValueSet>& start = {});

} // namespace curbstop::output
