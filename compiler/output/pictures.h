// The pictures of all steps of a procedure. Must not know: files, how anything was proved.
#pragma once

#include "output/picture.h"
#include "output/words.h"
#include "proofs/report.h"

#include <string>
#include <vector>

namespace curbstop::output {

/// Per step, from the first; empty of one that turns no valve. `before`: how all stood at the start.
[[nodiscard]] std::vector<Picture> compose_pictures(const Words& words, const proofs::ProcedureReport& report,
                                                    std::vector<meaning::ValueSet> before);

/// The same as SVG; empty where a step has no picture.
[[nodiscard]] std::vector<std::string> draw_pictures(const Words& words, const proofs::ProcedureReport& report,
                                                     std::vector<meaning::ValueSet> before);

} // namespace curbstop::output
