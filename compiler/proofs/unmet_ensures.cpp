// unmet-ensures. Claim: what a step, stage or procedure ensures holds where it ends, in every configuration
// that is still possible. Contents and restoration are not judged here yet: the report says so.
#include "proofs/contracts.h"

namespace curbstop::proofs {

namespace {

class UnmetEnsures : public Obligation {
  public:
    std::string_view slug() const override { return "unmet-ensures"; }
    void check(Event& event, const instants::Check& check) override {
        if (check.kind == instants::ContractKind::ensures) {
            ++asked;
            judge_contract(event, slug(), check.expression, *check.words);
        }
    }
};

} // namespace

std::unique_ptr<Obligation> unmet_ensures() {
    return std::make_unique<UnmetEnsures>();
}

} // namespace curbstop::proofs
