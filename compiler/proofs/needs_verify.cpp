// needs-verify, second part. Claim: a discharge that unknown positions may have left running before the procedure began
// has stopped, or been ruled out, before the first flow from the same origin that does not name it, and before the end.
// The first part, actions whose safety hangs on one look, is add_or_ask in story.cpp.
#include <map>

#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;

namespace {

class NeedsVerify : public Obligation {
  public:
    std::string_view slug() const override { return "needs-verify"; }

    void start(Event& event) override {
        for (const DischargeState& state : event.engine.discharges()) {
            inherited_[state.key] = state.now;
        }
    }
    void instant(Event& event, const instants::Move&) override { keep_running(event); }
    void contents_changed(Event& event) override { keep_running(event); }
    void step_begins(Event&, const instants::StepBegin& step) override { last_step_ = step.step; }

    void until(Event& event, const meaning::Flow& flow) override { meet(event, flow); }
    void keep(Event& event, const meaning::Flow& flow) override { meet(event, flow); }
    void pressurise(Event& event, const meaning::PressuriseStatement& statement) override {
        for (auto& [key, set] : inherited_) {
            const bool same =
                key.origin.chamber.valid()
                    ? std::ranges::find(statement.chambers, key.origin.chamber) != statement.chambers.end()
                    : std::ranges::find(statement.supplies, key.origin.supply) != statement.supplies.end();
            if (same) {
                tell(event, key, set, event.here(), "nothing may run out while it is brought to pressure");
            }
        }
    }
    void end(Event& event) override {
        event.span = last_step_ == nullptr ? event.procedure.span : last_step_->span;
        for (auto& [key, set] : inherited_) {
            tell(event, key, set, event.engine.possible(), "at the end of the procedure it may still run");
        }
    }

  private:
    void keep_running(Event& event) {
        if (inherited_.empty()) {
            return;
        }
        std::map<DischargeKey, Set> still;
        for (const DischargeState& state : event.engine.discharges()) {
            if (const auto found = inherited_.find(state.key); found != inherited_.end()) {
                const Set both = event.diagrams().both(found->second, state.now);
                if (!event.diagrams().disjoint(both, event.engine.possible())) {
                    still.emplace(state.key, both);
                }
            }
        }
        inherited_ = std::move(still);
    }

    void meet(Event& event, const meaning::Flow& flow) {
        if (flow.gravity) {
            return;
        }
        for (auto& [key, set] : inherited_) {
            if (!names_origin(flow, key.origin)) {
                continue;
            }
            if (names_outlet(flow, key.outlet)) {
                set = event.diagrams().without(set, event.when);
            } else {
                tell(event, key, set, event.here(), "this flow does not declare it");
            }
        }
    }

    void tell(Event& event, const DischargeKey& key, Set& set, Set where, std::string_view why) {
        ++asked;
        Engine& engine = event.engine;
        const Set wrong = event.diagrams().both(event.diagrams().both(set, where), engine.possible());
        if (wrong == nothing) {
            return;
        }
        const meaning::System& system = engine.system();
        const auto configuration = engine.knowledge().assignment(wrong);
        const Route way =
            route(engine, *engine.source(key.source)->reach, engine.network().outlet_vertex(key.outlet), configuration);
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = fmt::format("`{}` may have been running out at `{}` since before the start",
                                      origin_label(system, key.origin), outlet_label(system, key.outlet));
        finding.notes.emplace_back(why);
        finding.notes.push_back(fmt::format("the way: {} > {}", system[key.source].label, joined(way.stations, " > ")));
        add_circumstances(event, wrong, finding);
        if (const auto proposal = verify_that_settles(engine, wrong)) {
            finding.remedies.push_back(fmt::format("look first: `{}`", verify_text(system, *proposal)));
        }
        event.findings.add(std::move(finding));
        set = event.diagrams().without(set, wrong);
    }

    std::map<DischargeKey, Set> inherited_;
    const meaning::Step* last_step_ = nullptr;
};

} // namespace

std::unique_ptr<Obligation> needs_verify() {
    return std::make_unique<NeedsVerify>();
}

} // namespace curbstop::proofs
