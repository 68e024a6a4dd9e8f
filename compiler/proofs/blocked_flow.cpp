// blocked-flow. Claim: at its `until` a declared flow runs, through each thing named after `to`, in every configuration
// in which that thing and some origin are there; a drain has an open way down and an air inlet; what is to be brought
// to pressure has a source that presses. Does not show: that anything is left to drain.
#include <algorithm>

#include <fmt/format.h>

#include "proofs/blocked_drain.h"
#include "proofs/obligations.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

class BlockedFlow : public Obligation {
  public:
    std::string_view slug() const override { return "blocked-flow"; }

    void until(Event& event, const Flow& flow) override {
        if (flow.gravity) {
            ++asked;
            judge_drain(event, flow);
            return;
        }
        const Set some_origin = event.engine.knowledge().truth(flow.origin_exists);
        for (std::size_t group = 0; group < flow.outlet_groups.size(); ++group) {
            ++asked;
            const Set there = event.engine.knowledge().truth(flow.outlet_exists[group]);
            runs_out(event, flow, group,
                     event.diagrams().both(event.here(), event.diagrams().both(some_origin, there)));
        }
    }

    void pressurise(Event& event, const PressuriseStatement& statement) override {
        ++asked;
        Engine& engine = event.engine;
        Set presses = nothing;
        for (const SourceState& source : engine.sources()) {
            if (!source.possibly_on) {
                continue;
            }
            if (std::ranges::find(statement.supplies, source.id) != statement.supplies.end()) {
                presses = event.diagrams().either(presses, source.on);
            }
            if (source.draw) {
                for (const auto& [origin, drawn] : engine.draws_on(*source.draw)) {
                    const bool named =
                        origin.chamber.valid()
                            ? std::ranges::find(statement.chambers, origin.chamber) != statement.chambers.end()
                            : std::ranges::find(statement.supplies, origin.supply) != statement.supplies.end();
                    if (named) {
                        presses = event.diagrams().either(presses, event.diagrams().both(drawn, source.on));
                    }
                }
            }
        }
        const Set wrong = event.diagrams().without(event.here(), presses);
        if (wrong != nothing) {
            Finding finding{.slug = slug(),
                            .span = event.span,
                            .message =
                                fmt::format("nothing brings `{}` to pressure here", joined(statement.labels, "`, `"))};
            add_circumstances(event, wrong, finding);
            event.findings.add(std::move(finding));
        }
    }

  private:
    void runs_out(Event& event, const Flow& flow, std::size_t group, Set asked_for) {
        Engine& engine = event.engine;
        Set runs = nothing;
        for (const DischargeState& state : engine.discharges()) {
            if (names_origin(flow, state.key.origin) &&
                std::ranges::find(flow.outlet_groups[group], state.key.outlet) != flow.outlet_groups[group].end()) {
                runs = event.diagrams().either(runs, state.now);
            }
        }
        // What a source of gas has pressed in goes on running out when it is off.
        if (std::ranges::any_of(flow.supplies, [&](SourceId supply) { return engine.is_gas(supply); })) {
            for (const OutletId outlet : flow.outlet_groups[group]) {
                runs = event.diagrams().either(runs, engine.charge().gas_pushes_out(outlet));
            }
        }
        const Set wrong = event.diagrams().without(asked_for, runs);
        if (wrong == nothing) {
            return;
        }
        Finding finding{.slug = slug(), .span = event.span};
        finding.message = fmt::format("`{}` does not run out at `{}` here", joined(flow.origin_labels, "`, `"),
                                      flow.outlet_labels[group]);
        explain(event, flow, group, wrong, finding);
        add_circumstances(event, wrong, finding);
        event.findings.add(std::move(finding));
    }

    // Which source could do it, and what keeps it from doing so: off, drawing elsewhere, or shut off.
    static void explain(Event& event, const Flow& flow, std::size_t group, Set wrong, Finding& finding) {
        Engine& engine = event.engine;
        const System& system = engine.system();
        const auto configuration = engine.knowledge().assignment(wrong);
        std::vector<Vertex> outlets;
        for (const OutletId outlet : flow.outlet_groups[group]) {
            outlets.push_back(engine.network().outlet_vertex(outlet));
        }
        bool someone_presses = false;
        for (const SourceState& source : engine.sources()) {
            bool ours = std::ranges::find(flow.supplies, source.id) != flow.supplies.end();
            const bool on = event.diagrams().contains(source.on, configuration);
            if (source.draw) {
                for (const ChamberId chamber : flow.chambers) {
                    const Vertex from = engine.network().chamber(chamber).out;
                    const bool drawn = !source.draw
                                            ->path(from,
                                                   [&](const Edge& edge) {
                                                       return event.diagrams().contains(edge.open, configuration);
                                                   })
                                            .empty();
                    if (drawn && !event.diagrams().contains(engine.contents().may_hold(chamber), configuration)) {
                        finding.notes.push_back(fmt::format("`{}` holds nothing", system[chamber].label));
                    }
                    if (!drawn && on) {
                        const Vertex target[] = {from};
                        const auto closed = closed_on_the_way(engine, *source.draw, target, configuration);
                        if (!closed.empty()) {
                            finding.notes.push_back(fmt::format("`{}` does not draw on `{}`: {}",
                                                                system[source.id].label, system[chamber].label,
                                                                joined(closed, ", ")));
                        }
                    }
                    ours = ours || drawn;
                }
            }
            if (!ours) {
                continue;
            }
            someone_presses = someone_presses || on;
            if (!on) {
                finding.notes.push_back(fmt::format("`{}` is not on", system[source.id].label));
                continue;
            }
            const auto closed = closed_on_the_way(engine, *source.reach, outlets, configuration);
            if (!closed.empty()) {
                finding.notes.push_back(
                    fmt::format("shut on the way from `{}`: {}", system[source.id].label, joined(closed, ", ")));
                finding.cut = closed;
            }
        }
        if (!someone_presses && finding.notes.empty()) {
            finding.notes.emplace_back("no source that is on presses what comes from there");
        }
    }
};

} // namespace

std::unique_ptr<Obligation> blocked_flow() {
    return std::make_unique<BlockedFlow>();
}

} // namespace curbstop::proofs
