// How things stand before and after a procedure, sorted by place.
// Must not know: HTML, Markdown, steps.
#pragma once

#include "meaning/procedure.h"
#include "output/sheet.h"
#include "output/words.h"

#include <vector>

namespace curbstop::output {

/// Per variable, how it may stand when the procedure begins, as far as its `requires` say so plainly: what they pin by
/// `X is P`, alone or joined by `and`. What follows from them in other ways is left open here.
[[nodiscard]] std::vector<meaning::ValueSet> required_standing(const meaning::System& system,
                                                               const meaning::Procedure& procedure);

/// What a table of standings is for.
struct StandingTable {
    /// Things that may stand in any way are left out, and so is what is where it always starts.
    bool pinned_only = false;
    /// Who goes by it has to open covers: they come first, and what is behind one names it.
    bool tells_covers = false;
};

/// Groups by place, in the order in which the system declares zones and things; what has no fixed place comes last.
[[nodiscard]] std::vector<StandingGroup>
standing_groups(const Words& words, const std::vector<meaning::ValueSet>& standing, StandingTable table);

/// Whether an expression only says how things stand.
[[nodiscard]] bool says_how_things_stand(const meaning::System& system, meaning::ExpressionId expression);

/// What `requires` asks beside how things stand.
[[nodiscard]] std::vector<Phrase> other_requirements(const Words& words, const meaning::Procedure& procedure);

} // namespace curbstop::output
