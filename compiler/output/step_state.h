// What is where after a step, thing by thing: what pipes, bodies and tanks may hold, and which places may be under
// pressure. Must not know: words, drawing, how it was proved.
#pragma once

#include "meaning/system.h"
#include "proofs/report.h"

#include <optional>
#include <vector>

namespace curbstop::output {

/// What may be in something. No fluids: nothing but air.
struct Content {
    std::vector<meaning::FluidId> fluids; ///< more than traces, or traces where there is nothing else
    bool traces = false;
    int most_percent = 100; ///< full

    bool operator==(const Content&) const = default;
};

struct StepState {
    std::vector<Content> runs;
    std::vector<Content> chambers;              ///< vessels included
    std::vector<std::optional<Content>> bodies; ///< per part; none where it has none
    std::vector<bool> pressure;                 ///< per node

    /// What the part's chambers and body may hold, each filling once.
    [[nodiscard]] std::vector<Content> of_part(const meaning::System& system, meaning::PartId part) const;
    [[nodiscard]] bool presses_on(const meaning::System& system, meaning::PartId part) const;
};

[[nodiscard]] StepState step_state(const meaning::System& system, const proofs::StepReport& step);

} // namespace curbstop::output
