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

/// Cards, each only where there is something to say. `steps`: how many the sheet has. No number is made up: time is the
/// sum of what the author's waits and rates say, as far as every owner has to go through them.
[[nodiscard]] std::vector<InfoCard> beforehand_cards(const Words& words, const meaning::Procedure& procedure,
                                                     const quantities::Quantities& quantities, std::uint32_t steps);

} // namespace curbstop::output
