// never-true. Claim: a `verify` can come true: some possible configuration satisfies it. Otherwise nothing would be
// left to be wrong, and everything that follows would seem proved. Of `requires` at the head, prove.cpp asks the same.
#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;

namespace {

class NeverTrue : public Obligation {
  public:
    std::string_view slug() const override { return "never-true"; }
    void verify(Event& event, const instants::Verify& verify) override {
        ++asked;
        if (event.here() == nothing ||
            !event.diagrams().disjoint(event.here(), event.engine.plausible(verify.statement->expression))) {
            return;
        }
        event.findings.add({.slug = slug(),
                            .span = event.span,
                            .message = fmt::format("this can never be seen here: `{}`", verify.statement->words),
                            .notes = {"what was done before, or is required, rules it out in every configuration",
                                      "the procedure is not followed further"}});
    }
};

} // namespace

std::unique_ptr<Obligation> never_true() {
    return std::make_unique<NeverTrue>();
}

} // namespace curbstop::proofs
