// open-path. Claim: every discharge under pressure that a move newly causes, in some configuration, is declared by a
// flow that covers the instant. What was running before the move is judged elsewhere (left-running, needs-verify).
// Does not show: how much runs out.
#include <fmt/format.h>

#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;

namespace {

class OpenPath : public Obligation {
  public:
    std::string_view slug() const override { return "open-path"; }
    void instant(Event& event, const instants::Move&) override { judge(event); }
    void contents_changed(Event& event) override { judge(event); }

  private:
    void judge(Event& event) {
        for (const DischargeState& state : event.engine.discharges()) {
            ++asked;
            Set fresh =
                event.diagrams().both(event.diagrams().without(state.now, state.before), event.engine.possible());
            if (fresh != nothing) {
                fresh = event.diagrams().without(fresh, event.coverage.of(state.key));
            }
            if (fresh != nothing) {
                tell(event, state.key, fresh);
            }
        }
    }

    void tell(Event& event, const DischargeKey& key, Set wrong) {
        Engine& engine = event.engine;
        const meaning::System& system = engine.system();
        const meaning::Outlet& outlet = system[key.outlet];
        const std::string from = origin_label(system, key.origin);
        const SourceState& source = *engine.source(key.source);
        const auto configuration = engine.knowledge().assignment(wrong);
        const Reach* reach = source.reach.get();
        for (const Threshold& threshold : source.thresholds) {
            if (!outlet.ways.empty() && system[outlet.ways.front()].above && threshold.is_relief &&
                threshold.reach->possible(engine.network().outlet_vertex(key.outlet))) {
                reach = threshold.reach.get();
            }
        }
        const Route way = route(engine, *reach, engine.network().outlet_vertex(key.outlet), configuration);
        Finding finding{.slug = slug(), .span = event.span};
        if (outlet.fills.valid()) {
            finding.message = fmt::format("`{}` fills `{}` here, which this step does not declare", from, outlet.label);
        } else {
            finding.message =
                fmt::format("`{}` runs out at `{}` here, which this step does not declare", from, outlet.label);
        }
        finding.notes.push_back(fmt::format("the way: {}{}{}", system[key.source].label,
                                            way.stations.empty() ? "" : " > ", joined(way.stations, " > ")));
        if (outlet.lands.valid() && !outlet.fills.valid()) {
            finding.notes.push_back(fmt::format("it lands in {}", landing(engine, outlet, configuration)));
        }
        add_circumstances(event, wrong, finding);
        if (way.closes) {
            finding.remedies.push_back(fmt::format("nearest to the outlet, `{}` would hold it back if it stood {}",
                                                   system[way.closes->variable].label,
                                                   system[way.closes->variable].values[way.closes->value].label));
        }
        finding.remedies.push_back("if it is meant, declare it with `flow … to … until …` in this step");
        add_or_ask(engine, event.findings, wrong, std::move(finding));
    }
};

} // namespace

std::string landing(Engine& engine, const meaning::Outlet& outlet, const std::vector<bool>& configuration) {
    const meaning::System& system = engine.system();
    for (const meaning::Chamber& vessel : system.chambers) {
        if (!vessel.vessel) {
            continue;
        }
        const meaning::Variable& whereabouts = system[vessel.whereabouts];
        const meaning::NodeId under =
            whereabouts.values[engine.knowledge().value_in(vessel.whereabouts, configuration)].partner;
        if (under.valid() && outlet.part.valid() && system[under].part == outlet.part) {
            return vessel.label;
        }
    }
    return system[outlet.lands].label;
}

std::unique_ptr<Obligation> open_path() {
    return std::make_unique<OpenPath>();
}

} // namespace curbstop::proofs
