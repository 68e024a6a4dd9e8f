// What switches power or gas in a system: what stands between a pump or heater and what drives it.
// Must not know: words, procedures, HTML, Markdown.
#pragma once

#include "meaning/system.h"

#include <utility>
#include <vector>

namespace curbstop::output {

/// A variable that switches what pumps or heats, and what it switches.
struct Switch {
    meaning::VariableId variable;
    bool own = false;                     ///< it is the pump's or heater's own switch
    std::vector<meaning::SourceId> feeds; ///< pumps and heaters that are off without it, but for its own
};

/// In the order of the variables: whatever the `while` of a pump or a heat asks to stand in some way, those themselves
/// where they stay as they are put, and whatever the standard library calls an isolator, switch, breaker or gas valve.
[[nodiscard]] std::vector<Switch> switches(const meaning::System& system);

/// What the `while` of a pump, heat or supply asks of how things are put, and in what way each is then.
[[nodiscard]] std::vector<std::pair<meaning::VariableId, meaning::ValueSet>> switched_by(const meaning::System& system,
                                                                                         meaning::ExpressionId on);

} // namespace curbstop::output
