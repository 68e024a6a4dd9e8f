// A season. Claim: what the first procedure leaves, with whatever may have moved while stored, is what the second
// requires; and after the second what the season ensures holds. Each procedure for itself is proved elsewhere.
#include <fmt/format.h>

#include "proofs/contracts.h"
#include "proofs/proof.h"
#include "proofs/season.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;

namespace {

void judge(Engine& engine, const Model& model, const Procedure& procedure, const Contract& contract, text::Span where,
           std::string_view slug, Findings& findings) {
    const instants::Program program;
    Coverage coverage(engine, program);
    Event event{engine, coverage, findings, procedure, program};
    event.span = where;
    if (!is_unproved(model.system, contract.expression)) {
        judge_contract(event, slug, contract.expression, contract.words);
    }
}

} // namespace

void prove_season(const Model& model, const Season& season, std::size_t budget, Proof* second_proof,
                  Findings& findings) {
    const Procedure& first = model.procedures[season.first.value];
    const Procedure& second = model.procedures[season.second.value];
    if (second.as_left_by && *second.as_left_by != season.first) {
        findings.add({.slug = "unmet-requires",
                      .span = season.span,
                      .message = fmt::format("`{}` starts as `{}` leaves it, not as `{}` does", second.name,
                                             model.procedures[second.as_left_by->value].name, first.name)});
        return;
    }
    // Where the second starts as the first leaves it, its own proof is that of the season.
    const bool goes_on = second.as_left_by && *second.as_left_by == season.first;
    Proof own(model, budget);
    Proof* proof = goes_on ? second_proof : nullptr;
    if (proof == nullptr) {
        text::DiagnosticSink unheard;
        Findings apart(unheard, false); // what is wrong with either procedure is said where it is proved
        proof = &own;
        proof->run(first, apart, false);
        if (proof->engine() == nullptr || proof->engine()->possible() == nothing) {
            return;
        }
        if (!second.as_left_by) {
            proof->store();
            proof->engine()->heat().season_passes();
            for (const Contract& contract : second.requires_) {
                judge(*proof->engine(), model, second, contract, season.span, "unmet-requires", findings);
            }
        }
        proof->run(second, apart, false);
    }
    if (proof->engine() == nullptr || proof->engine()->possible() == nothing) {
        return;
    }
    for (const Contract& contract : season.ensures) {
        judge(*proof->engine(), model, second, contract, contract.span, "unmet-ensures", findings);
    }
}

} // namespace curbstop::proofs
