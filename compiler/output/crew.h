// How many people a step takes at once: who works, who helps as the author says, and who stays by a source that was
// left on. Must not know: how it is told, HTML, Markdown.
#pragma once

#include "output/words.h"
#include "proofs/report.h"

#include <cstdint>
#include <vector>

namespace curbstop::output {

struct Needs {
    std::uint32_t people = 1;
    std::vector<meaning::SourceId> unattended = {}; ///< left on, and nobody who works in the step is within reach
};

class Crew {
  public:
    explicit Crew(const Words& words)
        : words_(&words) {}

    /// The step that comes next. `hands`: where somebody works or watches in it. `must_stay`: those on before it that
    /// the sheet has told somebody to stay by.
    [[nodiscard]] Needs next(const proofs::StepReport& report, const std::vector<meaning::ZoneId>& hands,
                             const std::vector<meaning::SourceId>& must_stay);

  private:
    [[nodiscard]] bool is_in_reach(meaning::SourceId source, const std::vector<meaning::ZoneId>& hands) const;

    const Words* words_;
    std::vector<meaning::SourceId> helped_; ///< left on by a step with a helper, who stays
};

} // namespace curbstop::output
