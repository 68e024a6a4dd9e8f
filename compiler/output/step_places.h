// Where one is in a step: in the order in which it does something, looks at something or watches it.
// Must not know: how it is told, HTML, Markdown.
#pragma once

#include "meaning/procedure.h"
#include "output/whereabouts.h"
#include "output/words.h"

#include <map>
#include <vector>

namespace curbstop::output {

struct StepPlaces {
    std::vector<meaning::ZoneId> own; ///< of the reader, in order, none twice in a row
    std::vector<meaning::ZoneId> all; ///< and then of a helper who watches elsewhere
};

/// Vessels that stand under something, and where: there they are taken away.
using Placed = std::map<std::uint32_t, meaning::ZoneId>;

/// `start`: where the reader may be before. What can be worked from several places is worked where one is, if it can
/// be.
[[nodiscard]] StepPlaces places_of(const Words& words, const meaning::Step& step, const Whereabouts& start,
                                   Placed& placed);

} // namespace curbstop::output
