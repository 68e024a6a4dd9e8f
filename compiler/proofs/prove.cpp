#include "proofs/prove.h"

#include <fmt/format.h>

#include "proofs/obligations.h"
#include "proofs/proof.h"
#include "proofs/season.h"

namespace curbstop::proofs {

using namespace meaning;

namespace {

// not-decided: an honest answer where the worst case bites.
Finding not_decided(text::Span where, const std::string& label, std::size_t budget, instants::BudgetSpent spent) {
    return {.slug = "not-decided",
            .span = where,
            .message = fmt::format("not decided: `{}` leaves more open than can be worked out", label),
            .notes = {spent.rounds
                          ? std::string("what runs, falls and presses does not come to rest; nothing is proved")
                          : fmt::format("the proof has used its {} diagram nodes; nothing is known to be wrong, "
                                        "nothing is proved",
                                        budget)},
            .remedies = {"pin more in `requires`, or `verify` earlier"}};
}

} // namespace

std::vector<ProcedureReport> prove(const Model& model, text::DiagnosticSink& sink, const Settings& settings) {
    std::vector<ProcedureReport> reports;
    Findings findings(sink);
    // Proofs that stand at the end of their procedure, for what goes on from there. One that does takes the proof
    // along.
    std::vector<std::unique_ptr<Proof>> proofs(model.procedures.size());
    for (std::size_t i = 0; i < model.procedures.size(); ++i) {
        const Procedure& procedure = model.procedures[i];
        try {
            std::unique_ptr<Proof> proof;
            if (procedure.as_left_by) {
                proof = std::move(proofs[procedure.as_left_by->value]);
            }
            if (!proof) {
                proof = std::make_unique<Proof>(model, settings.node_budget);
            }
            reports.push_back(proof->run(procedure, findings, settings.detail));
            proofs[i] = std::move(proof);
        } catch (const instants::BudgetSpent& spent) {
            findings.add(not_decided(procedure.span, procedure.label, settings.node_budget, spent));
            ProcedureReport report;
            report.procedure = &procedure;
            reports.push_back(std::move(report));
        }
    }
    const auto proved = [&](ProcedureId id) { return id.valid() && reports[id.value].proved; };
    for (const Season& season : model.seasons) {
        if (!proved(season.first) || !proved(season.second)) {
            continue; // what is wrong has been said
        }
        try {
            prove_season(model, season, settings.node_budget, proofs[season.second.value].get(), findings);
        } catch (const instants::BudgetSpent& spent) {
            findings.add(not_decided(season.span, season.label, settings.node_budget, spent));
        }
    }
    find_unused(model.system, findings);
    return reports;
}

} // namespace curbstop::proofs
