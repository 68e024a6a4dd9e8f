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

void prove_season(const Model& model, const Season& season, std::size_t budget, Findings& findings) {
    if (!season.first.valid() || !season.second.valid()) {
        return;
    }
    text::DiagnosticSink unheard;
    Findings apart(unheard); // what is wrong with either procedure is said where it is proved
    const Procedure& first = model.procedures[season.first.value];
    const Procedure& second = model.procedures[season.second.value];
    Proof proof(model, budget);
    proof.run(first, apart, false);
    if (proof.engine() == nullptr || proof.engine()->possible() == nothing) {
        return;
    }
    if (!second.as_left_by) {
        proof.store();
        for (const Contract& contract : second.requires_) {
            judge(*proof.engine(), model, second, contract, season.span, "unmet-requires", findings);
        }
        proof.run(second, apart, false);
    } else {
        Proof own(model, budget); // it starts as another leaves it by its own word
        own.run(second, apart, false);
        if (own.engine() != nullptr) {
            for (const Contract& contract : season.ensures) {
                judge(*own.engine(), model, second, contract, contract.span, "unmet-ensures", findings);
            }
        }
        return;
    }
    if (proof.engine() == nullptr || proof.engine()->possible() == nothing) {
        return;
    }
    for (const Contract& contract : season.ensures) {
        judge(*proof.engine(), model, second, contract, contract.span, "unmet-ensures", findings);
    }
}

} // namespace curbstop::proofs
