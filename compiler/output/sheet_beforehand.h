// What is to be known of power, gas, time and weather before the first step.
// Must not know: HTML, Markdown.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/words.h"
#include "quantities/quantities.h"

#include <cstdint>
#include <vector>

namespace curbstop::output {

/// How many steps a sheet has, and how often one goes from one place to another.
struct Extent {
    std::uint32_t steps = 0;
    std::uint32_t walks = 0;
};

/// Cards, each only where there is something to say. Time is the sum of what the author's waits and rates say and of a
/// minute a step, as far as every owner has to go through them, and is said to be that.
[[nodiscard]] std::vector<InfoCard> beforehand_cards(const Words& words, const meaning::Procedure& procedure,
                                                     const quantities::Quantities& quantities, const Extent& extent);

} // namespace curbstop::output
