// left-running. Claim: a declared flow under pressure that still runs at a step's end is kept there and named by the
// next step; none runs at the end. Does not show: drains, which are judged by what can still fall.
#include <map>

#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using meaning::Flow;

namespace {

class LeftRunning : public Obligation {
  public:
    std::string_view slug() const override { return "left-running"; }

    void step_begins(Event& event, const instants::StepBegin&) override {
        named_.clear();
        after_step_.clear();
        in_step_ = true;
        step_ = event.when;
    }
    void instant(Event& event, const instants::Move&) override { follow(event); }
    void contents_changed(Event& event) override { follow(event); }
    void until(Event& event, const Flow& flow) override {
        std::erase_if(around_, [&](const Kept& running) { return running.flow == &flow; });
        name(event, flow);
        if (!in_step_ && !flow.gravity) {
            after_step_.push_back({&flow, event.when});
        }
    }
    void meanwhile(Event& event, const Flow& flow) override {
        name(event, flow);
        around_.push_back({&flow, event.when});
    }
    void keep(Event& event, const Flow& flow) override {
        name(event, flow);
        kept_.push_back({&flow, event.when});
    }

    void step_ends(Event& event, const instants::StepEnd&) override {
        in_step_ = false;
        instants::Diagrams& diagrams = event.diagrams();
        // What the step before kept, this one must name.
        for (Kept& pending : pending_) {
            ++asked;
            Set named = nothing;
            for (const auto* list : {&named_, &around_}) {
                for (const Kept& flow : *list) {
                    if (names_all_of(*flow.flow, *pending.flow)) {
                        named = diagrams.either(named, flow.where);
                    }
                }
            }
            const Set owed = diagrams.both(diagrams.both(pending.where, step_), event.engine.possible());
            if (const Set wrong = diagrams.without(owed, named); wrong != nothing) {
                Finding finding{.slug = slug(), .span = pending.flow->span};
                finding.message = fmt::format("the flow from `{}` to `{}` is kept, but the next step does not name it",
                                              joined(pending.flow->origin_labels, "`, `"),
                                              joined(pending.flow->outlet_labels, "`, `"));
                finding.labels.push_back({event.span, "the next step"});
                finding.remedies.emplace_back("name it there with `flow … until …`, or `keep` it on");
                event.findings.add(std::move(finding));
            }
            pending.where = diagrams.without(pending.where, step_);
        }
        std::erase_if(pending_, [](const Kept& pending) { return pending.where == nothing; });
        // What runs on must be kept.
        for (const DischargeState& state : event.engine.discharges()) {
            ++asked;
            const auto declared = declared_.find(state.key);
            if (declared == declared_.end()) {
                continue;
            }
            const Set running = diagrams.both(diagrams.both(declared->second, state.now), event.here());
            const Set wrong = diagrams.without(running, event.coverage.kept(state.key));
            if (wrong != nothing) {
                tell(event, state.key, wrong);
            }
        }
        pending_.insert(pending_.end(), kept_.begin(), kept_.end());
        kept_.clear();
    }

    void end(Event& event) override {
        // What only a last `meanwhile` declared has met no step's end.
        for (const DischargeState& state : event.engine.discharges()) {
            for (const Kept& last : after_step_) {
                const Set wrong =
                    event.diagrams().both(event.diagrams().both(last.where, state.now), event.engine.possible());
                if (names(*last.flow, state.key) && wrong != nothing) {
                    tell(event, state.key, wrong);
                }
            }
        }
        for (const Kept& pending : pending_) {
            if (!event.diagrams().disjoint(pending.where, event.engine.possible())) {
                event.findings.add({.slug = slug(),
                                    .span = pending.flow->span,
                                    .message = fmt::format("the flow from `{}` to `{}` is kept past the last step",
                                                           joined(pending.flow->origin_labels, "`, `"),
                                                           joined(pending.flow->outlet_labels, "`, `"))});
            }
        }
    }

  private:
    struct Kept {
        const Flow* flow;
        Set where;
    };

    void follow(Event& event) {
        instants::Diagrams& diagrams = event.diagrams();
        std::map<DischargeKey, Set> now;
        for (const DischargeState& state : event.engine.discharges()) {
            Set declared = nothing;
            if (const auto found = declared_.find(state.key); found != declared_.end()) {
                declared = diagrams.both(found->second, state.now);
            }
            const Set fresh = diagrams.without(state.now, state.before);
            if (!diagrams.disjoint(fresh, event.engine.possible())) {
                declared = diagrams.either(declared, diagrams.both(fresh, event.coverage.of(state.key)));
            }
            if (declared != nothing) {
                now.emplace(state.key, declared);
            }
        }
        declared_ = std::move(now);
    }

    void name(Event& event, const Flow& flow) {
        named_.push_back({&flow, event.when});
        if (flow.gravity) {
            return;
        }
        for (const DischargeState& state : event.engine.discharges()) {
            if (names(flow, state.key)) {
                Set& declared = declared_[state.key];
                declared = event.diagrams().either(declared, event.diagrams().both(event.when, state.now));
            }
        }
    }

    void tell(Event& event, const DischargeKey& key, Set wrong) {
        const meaning::System& system = event.engine.system();
        const Flow* flow = event.coverage.naming(key);
        Finding finding{.slug = slug(), .span = flow != nullptr ? flow->span : event.span};
        finding.message = fmt::format("`{}` still runs out at `{}` when this step ends",
                                      origin_label(system, key.origin), outlet_label(system, key.outlet));
        add_circumstances(event, wrong, finding);
        finding.remedies.emplace_back("stop it in this step, or write `keep flow … to …` and name it in the next");
        event.findings.add(std::move(finding));
    }

    std::map<DischargeKey, Set> declared_;
    std::vector<Kept> pending_, kept_, named_;
    std::vector<Kept> around_;     // flows that go on meanwhile
    std::vector<Kept> after_step_; // flows whose `until` came after the last step
    bool in_step_ = false;
    Set step_ = instants::everything;
};

} // namespace

std::unique_ptr<Obligation> left_running() {
    return std::make_unique<LeftRunning>();
}

} // namespace curbstop::proofs
