// What a step moves, thing by thing: how each may have stood, what it was put into, how it may stand then.
// Must not know: words, drawing.
#pragma once

#include "meaning/procedure.h"
#include "proofs/report.h"

#include <cstdint>
#include <span>
#include <vector>

namespace curbstop::output {

struct Moved {
    meaning::VariableId variable;
    meaning::ValueSet before = 0;
    std::vector<std::uint32_t> through; ///< the values that it is put into, in order
    meaning::ValueSet after = 0;
};

/// In the order in which the step does it. `before`: how all stood when it began.
[[nodiscard]] std::vector<Moved> moves_of(const meaning::System& system, const proofs::StepReport& step,
                                          std::span<const meaning::ValueSet> before);

} // namespace curbstop::output
