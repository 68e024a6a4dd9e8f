// never-flushed (warning). Claim: in a procedure whose end is `drinkable`, every pocket of the drinking-water system
// was swept by drinking water, or emptied and filled again, since it began: what has stood for months is clean by
// category, and stale. What is not drinkable is told there.
#include <algorithm>

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/pocket_story.h"
#include "proofs/proof.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;
using instants::Set;

namespace {

class NeverFlushed : public Obligation {
  public:
    std::string_view slug() const override { return "never-flushed"; }

    void end(Event& event) override {
        for (const Contract& contract : event.procedure.ensures) {
            std::vector<ExpressionId> pieces;
            conjuncts(event.engine.system(), contract.expression, pieces);
            for (const ExpressionId piece : pieces) {
                if (event.engine.system()[piece].kind == ExpressionKind::drinkable) {
                    ++asked;
                    judge(event, contract);
                    return;
                }
            }
        }
    }

  private:
    void judge(Event& event, const Contract& contract) {
        Engine& engine = event.engine;
        Finding finding{.slug = slug(), .severity = text::Severity::warning, .span = contract.span};
        Set where = nothing;
        const std::vector<Shortfall> spoilt = not_drinkable(engine);
        for (const Shortfall& pocket : never_flushed(engine)) {
            if (std::ranges::find(spoilt, pocket.pocket, &Shortfall::pocket) != spoilt.end()) {
                continue;
            }
            where = event.diagrams().either(where, pocket.where);
            finding.notes.push_back(pocket_label(engine.system(), engine.transport().pockets()[pocket.pocket]));
        }
        if (finding.notes.empty()) {
            return;
        }
        finding.message =
            fmt::format("{} of the drinking water may still hold what stood there before the first step",
                        finding.notes.size() == 1 ? "a pocket" : fmt::format("{} pockets", finding.notes.size()));
        add_circumstances(event, where, finding);
        finding.remedies.emplace_back("let drinking water run through it until it is clear, or empty it and fill it");
        event.findings.add(std::move(finding));
    }
};

} // namespace

std::unique_ptr<Obligation> never_flushed() {
    return std::make_unique<NeverFlushed>();
}

} // namespace curbstop::proofs
