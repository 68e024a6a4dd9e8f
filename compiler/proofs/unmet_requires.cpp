// unmet-requires. Claim: what a step, stage or procedure requires holds where it begins, in every configuration
// that is still possible. Contents and restoration are not judged here yet: the report says so.
#include "proofs/contracts.h"

namespace curbstop::proofs {

namespace {

class UnmetRequires : public Obligation {
  public:
    std::string_view slug() const override { return "unmet-requires"; }
    void check(Event& event, const instants::Check& check) override {
        if (check.kind == instants::ContractKind::requires_) {
            ++asked;
            judge_contract(event, slug(), check.expression, *check.words);
        }
    }
};

} // namespace

std::unique_ptr<Obligation> unmet_requires() {
    return std::make_unique<UnmetRequires>();
}

} // namespace curbstop::proofs
