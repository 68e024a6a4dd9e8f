// frost-risk. Claim: where `frost_safe at T` is said, each pocket that is there has gas enough for what freezes in it,
// or holds antifreeze that, thinned by all that may be left, freezes at T or below.
#include <fmt/format.h>

#include "meaning/quantity_text.h"
#include "proofs/obligations.h"
#include "proofs/pocket_story.h"
#include "proofs/promises.h"
#include "proofs/remedy.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::Set;

void judge_frost_risk(Event& event, const Expression& claim) {
    Engine& engine = event.engine;
    std::vector<Shortfall> wrong = not_frost_safe(engine, claim.quantity);
    Finding finding{.slug = "frost-risk", .span = event.span};
    Set where = instants::nothing;
    double volume = 0;
    std::size_t count = 0;
    for (Shortfall& pocket : wrong) {
        pocket.where = event.diagrams().both(pocket.where, event.here());
        if (pocket.where == instants::nothing) {
            continue;
        }
        ++count;
        where = event.diagrams().either(where, pocket.where);
        const Pocket& told = engine.transport().pockets()[pocket.pocket];
        volume += told.volume.value_or(0);
        finding.notes.push_back(
            fmt::format("{}: {}", pocket_label(engine.system(), told), what_it_holds(event, pocket, false)));
    }
    if (count == 0) {
        return;
    }
    finding.message =
        fmt::format("at {} {} may freeze and split, {} in all", format_quantity(claim.quantity, Unit::degC),
                    count == 1 ? "a pocket" : fmt::format("{} pockets", count), volume_text(volume));
    add_circumstances(event, where, finding);
    finding.remedies = flows_that_clear(
        event, claim, wrong,
        [](Engine& at_end, const Expression& asked) { return not_frost_safe(at_end, asked.quantity); },
        [](const Flow& flow) {
            return flow.until->kind == ObservationKind::shows || flow.until->kind == ObservationKind::only_air;
        });
    if (finding.remedies.empty()) {
        finding.remedies.emplace_back("drain it with air let in above, blow it out, or draw antifreeze through it");
    }
    event.findings.add(std::move(finding));
}

} // namespace curbstop::proofs
