// One procedure proved on one state: what is required first, then event by event. A procedure that starts as another
// leaves it goes on with that one's proof. Must not know: what any obligation demands, output.
#pragma once

#include <optional>

#include "meaning/procedure.h"
#include "proofs/engine.h"
#include "proofs/report.h"
#include "proofs/story.h"

namespace curbstop::proofs {

/// The pieces of a conjunction.
void conjuncts(const meaning::System& system, meaning::ExpressionId expression,
               std::vector<meaning::ExpressionId>& pieces);
/// Whether it speaks of contents or restoration, which are typed and not proved yet.
bool is_unproved(const meaning::System& system, meaning::ExpressionId expression);

class Proof {
  public:
    /// `budget` is the number of diagram nodes that may be made; one more throws instants::BudgetSpent.
    Proof(const meaning::Model& model, std::size_t budget)
        : model_(model)
        , knowledge_(model.system, budget) {}

    /// Proves from the procedure's own `requires`; of one that starts as another leaves it, goes through that one
    /// first, unless this proof stands at its end already (left_by).
    ProcedureReport run(const meaning::Procedure& procedure, Findings& findings, bool detail);
    /// What may have moved while stored stands in any way from here on. Only after run().
    void store();
    /// The procedure at whose end this proof stands; null before run().
    const meaning::Procedure* left_by() const { return left_by_; }
    /// None where nothing satisfies what is required.
    Engine* engine() { return engine_ ? &*engine_ : nullptr; }

  private:
    bool start(const meaning::Procedure& procedure, Findings& findings);

    const meaning::Model& model_;
    instants::Knowledge knowledge_;
    std::optional<Engine> engine_;
    const meaning::Procedure* left_by_ = nullptr;
};

/// Steps through the whole procedure from where the engine stands (follow.cpp).
void follow(const meaning::Model& model, const meaning::Procedure& procedure, Engine& engine, Findings& findings,
            bool detail, ProcedureReport& report);

} // namespace curbstop::proofs
