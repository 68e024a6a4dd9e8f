// not-drinkable. Claim: where `drinkable` is said, no pocket of the drinking-water system may hold more than traces of
// what does not belong there.
#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/pocket_story.h"
#include "proofs/promises.h"
#include "proofs/remedy.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::Set;

void judge_not_drinkable(Event& event, const Expression& claim) {
    Engine& engine = event.engine;
    Finding finding{.slug = "not-drinkable", .span = event.span};
    Set where = instants::nothing;
    std::size_t count = 0;
    std::vector<Shortfall> spoilt = not_drinkable(engine);
    for (Shortfall& pocket : spoilt) {
        pocket.where = event.diagrams().both(pocket.where, event.here());
        if (pocket.where == instants::nothing) {
            continue;
        }
        ++count;
        where = event.diagrams().either(where, pocket.where);
        const Pocket& told = engine.transport().pockets()[pocket.pocket];
        finding.notes.push_back(
            fmt::format("{}: {}", pocket_label(engine.system(), told), what_it_holds(event, pocket, true)));
    }
    if (count == 0) {
        return;
    }
    finding.message = fmt::format("{} of the drinking water may not be clean",
                                  count == 1 ? "a pocket" : fmt::format("{} pockets", count));
    add_circumstances(event, where, finding);
    finding.remedies = flows_that_clear(
        event, claim, spoilt, [](Engine& at_end, const Expression&) { return not_drinkable(at_end); },
        [](const Flow& flow) { return flow.until->kind == ObservationKind::clear; });
    if (finding.remedies.empty()) {
        finding.remedies.emplace_back("flush it with drinking water, through an outlet behind it and nothing else");
    }
    event.findings.add(std::move(finding));
}

} // namespace curbstop::proofs
