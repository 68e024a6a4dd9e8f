// The pictures of all steps of a procedure. Must not know: files, how anything was proved.
#pragma once

#include "output/picture.h"
#include "output/words.h"
#include "proofs/report.h"

#include <string>
#include <vector>

namespace curbstop::output {

/// Per step, from the first; empty of one that moves nothing. `before`: how all stood at the start.
[[nodiscard]] std::vector<Picture> compose_pictures(const Words& words, const proofs::ProcedureReport& report,
                                                    std::vector<meaning::ValueSet> before);

/// The same as SVG, or in `error` why there are none.
struct StepPictures {
    std::vector<std::string> steps;
    std::string error;
};
[[nodiscard]] StepPictures draw_pictures(const Words& words, const proofs::ProcedureReport& report,
                                         std::vector<meaning::ValueSet> before);

} // namespace curbstop::output
