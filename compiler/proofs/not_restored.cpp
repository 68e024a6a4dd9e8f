// not-restored. Claim: where `restored` is said, everything stands as the line-up for use says.
#include <bit>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/promises.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

void judge_not_restored(Event& event, const Expression&) {
    Engine& engine = event.engine;
    const System& system = engine.system();
    Finding finding{.slug = "not-restored", .span = event.span};
    Set where = nothing;
    for (const Lineup::Entry& entry : system[system.use].entries) {
        const Variable& variable = system[entry.variable];
        const Set there = event.diagrams().both(event.here(), engine.knowledge().truth(variable.exists));
        const Set wrong = event.diagrams().without(there, engine.knowledge().stands(entry.variable, entry.values));
        if (wrong == nothing) {
            continue;
        }
        where = event.diagrams().either(where, wrong);
        const auto value = engine.knowledge().value_in(entry.variable, engine.knowledge().assignment(wrong));
        std::string wanted;
        for (std::size_t i = 0; i < variable.values.size(); ++i) {
            if (entry.values == ValueSet{1} << i) {
                wanted = fmt::format(", not {}", variable.values[i].label);
            }
        }
        finding.notes.push_back(
            fmt::format("`{}` may stand {}{}", variable.label, variable.values[value].label, wanted));
    }
    if (where == nothing) {
        return;
    }
    finding.message = fmt::format("not everything is back as in `{}`", system[system.use].label);
    add_circumstances(event, where, finding);
    event.findings.add(std::move(finding));
}

} // namespace curbstop::proofs
