// The system as a drawing: cards for parts, tees and ends, with symbols after the ideas of ISO 14617 and ISA-5.1,
// framed by place, joined by pipes. It shows what is joined to what, not where pipes run.
// Must not know: files, how anything was proved.
#pragma once

#include "output/words.h"
#include "proofs/report.h"

#include <string>
#include <vector>

namespace curbstop::output {

/// An SVG 1.1 element with its own title and no reference to anything outside, or in `error` why there is none. All is
/// said by form and text; there is no colour.
struct Drawing {
    std::string svg;
    std::string error;
};

/// With `state`, parts show how they may stand after that step, and pipes that may be under pressure are drawn thick.
[[nodiscard]] Drawing draw_system(const Words& words, const proofs::StepReport* state = nullptr);

/// What is at one place, and where its pipes lead. Some part that water passes has to be there.
[[nodiscard]] Drawing draw_zone(const Words& words, meaning::ZoneId zone, const proofs::StepReport* state = nullptr);

/// Places at which some part is that water passes.
[[nodiscard]] std::vector<meaning::ZoneId> drawn_zones(const Words& words);

} // namespace curbstop::output
