// Which flows cover an instant: the windows of `flow`, `drain`, `keep` and `meanwhile`, per configuration.
// Must not know: what happens to what is not covered.
#pragma once

#include <vector>

#include "instants/program.h"
#include "proofs/engine.h"

namespace curbstop::proofs {

bool names_origin(const meaning::Flow& flow, const Origin& origin);
bool names_outlet(const meaning::Flow& flow, meaning::OutletId outlet);
/// Of a discharge under pressure: the flow names its origin and outlet. Of gravity: a drain does, or a flow names the
/// outlet.
bool names(const meaning::Flow& flow, const DischargeKey& key);
/// All that `inner` names, `outer` names.
bool names_all_of(const meaning::Flow& outer, const meaning::Flow& inner);

class Coverage {
  public:
    Coverage(Engine& engine, const instants::Program& program)
        : engine_(engine)
        , program_(program) {}

    /// The operation that is being done; later ones of the same step are still to come.
    void at(std::size_t operation);
    void step_begins();
    void step_ends();
    void until(const meaning::Flow& flow, instants::Set when);
    void keep(const meaning::Flow& flow, instants::Set when);
    void meanwhile(const meaning::Flow& flow, instants::Set when);
    /// Flows past their `until` that have stopped are over.
    void after_event();

    /// The configurations in which some flow covers this instant and names the discharge.
    instants::Set of(const DischargeKey& key) const;
    /// Of what falls: how much, m3, comes at most by the drains that cover it in all of `where`; nothing where none
    /// says.
    std::optional<double> at_most(const DischargeKey& key, instants::Set where) const;
    /// The configurations in which some flow that is no drain covers this instant and names the outlet.
    instants::Set drawn_at(meaning::OutletId outlet) const;
    /// The configurations in which what runs now may go on past the end of this step.
    instants::Set kept(const DischargeKey& key) const;
    /// The flow of this step that names the discharge, the last one first; null if none does.
    const meaning::Flow* naming(const DischargeKey& key) const;
    /// Where the flow runs: something it names does.
    instants::Set runs(const meaning::Flow& flow) const;

  private:
    struct Window {
        const meaning::Flow* flow;
        instants::Set where;
    };
    /// Tells `tell(flow, where)` of every flow that covers this instant.
    template <typename Tell>
    void each_covering(const Tell& tell) const;
    template <typename Names>
    instants::Set covered(const Names& names) const;

    Engine& engine_;
    const instants::Program& program_;
    std::size_t at_ = 0;
    std::vector<Window> past_;      // of this step, still running since their `until`
    std::vector<Window> seen_;      // of this step, all that were named so far
    std::vector<Window> kept_;      // of this step
    std::vector<Window> meanwhile_; // around this step
};

} // namespace curbstop::proofs
