// The system drawn place by place, so that each drawing can be read on a telephone and on a page, and an overview of
// the places. Pipes that leave a drawing say where they lead. Must not know: files, how anything was proved.
#pragma once

#include "output/drawing_key.h"
#include "output/placed_drawing.h"
#include "output/words.h"

#include <optional>
#include <string>
#include <vector>

namespace curbstop::output {

struct PlacedZone {
    Wording title; ///< of the place; "Galley, 2 of 3" where one drawing would be too large to read
    PlacedDrawing drawing;
};

struct PlacedZones {
    std::optional<PlacedDrawing> overview; ///< none where everything is in one drawing
    std::vector<PlacedZone> zones;
    std::string error; ///< why there are none
};

/// Takes long; how things stand changes nothing of it.
[[nodiscard]] PlacedZones placed_zones(const Words& words);

struct ZoneDrawing {
    Wording title;
    std::string svg;
    bool wide = false; ///< wider than a telephone
    std::vector<DrawingSign> key = {};
};

struct ZoneDrawings {
    std::string overview; ///< empty where there is none
    bool wide_overview = false;
    std::vector<ZoneDrawing> zones;
    std::string error;
};

/// Parts and pipes have attributes that a script finds them by (place_id), and show how they stand at `start`. The same
/// words as the places were made for.
[[nodiscard]] ZoneDrawings draw_zones(const Words& words, const PlacedZones& placed,
                                      const std::vector<meaning::ValueSet>& start = {});

} // namespace curbstop::output
