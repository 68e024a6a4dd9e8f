// blocked-flow. Claim: at its `until` a declared flow runs, through each thing named after `to`, in every configuration
// in which that thing and some origin are there; a drain has an open way down and an air inlet; what is to be brought
// to pressure has a source that presses. Does not show: that anything is left to drain.
#include <algorithm>

#include <fmt/format.h>

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
        for (std::size_t group = 0; group < flow.outlet_groups.size(); ++group) {
            ++asked;
            const Set there = event.diagrams().both(event.engine.knowledge().truth(flow.origin_exists),
                                                    event.engine.knowledge().truth(flow.outlet_exists[group]));
            const Set asked_for = event.diagrams().both(event.here(), there);
            if (asked_for == nothing) {
                continue;
            }
            if (flow.gravity) {
                drain(event, flow, group, asked_for);
            } else {
                pressure(event, flow, group, asked_for);
            }
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
    static void add_circumstances(Event& event, Set wrong, Finding& finding) {
        const std::vector<std::string> when = circumstances(event.engine, wrong);
        if (!when.empty()) {
            finding.notes.push_back(fmt::format("so it is when {}", joined(when, ", ")));
        }
    }

    void pressure(Event& event, const Flow& flow, std::size_t group, Set asked_for) {
        Engine& engine = event.engine;
        Set runs = nothing;
        for (const DischargeState& state : engine.discharges()) {
            if (names_origin(flow, state.key.origin) &&
                std::ranges::find(flow.outlet_groups[group], state.key.outlet) != flow.outlet_groups[group].end()) {
                runs = event.diagrams().either(runs, state.now);
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

    void drain(Event& event, const Flow& flow, std::size_t group, Set asked_for) {
        Engine& engine = event.engine;
        const System& system = engine.system();
        instants::Diagrams& diagrams = event.diagrams();
        Set runs = nothing;
        Set breathes = nothing;
        bool too_high = false;
        const auto add = [&](Set way, Set air) {
            runs = diagrams.either(runs, way);
            breathes = diagrams.either(breathes, diagrams.both(way, air));
        };
        for (const OutletId outlet : flow.outlet_groups[group]) {
            for (const ChamberId chamber : flow.chambers) {
                const auto height = system[chamber].part.valid() ? system[system[chamber].part].height : std::nullopt;
                if (height && system[outlet].height && height->value < system[outlet].height->value) {
                    too_high = true;
                    continue;
                }
                const Set way =
                    engine.gravity_reach(chamber).exact(engine.network().outlet_vertex(outlet), engine.knowledge());
                if (!diagrams.disjoint(way, asked_for)) {
                    const Set vented = engine.knowledge().truth(system[chamber].vented);
                    const Vertex start = engine.network().chamber(chamber).in;
                    add(way, diagrams.within(asked_for, vented)
                                 ? vented
                                 : diagrams.either(
                                       vented, air_from(engine, {start, engine.network().chamber(chamber).out}, flow)));
                }
            }
            if (flow.pipes) {
                const Set way = engine.active(outlet);
                std::vector<Vertex> starts;
                for (const EdgeIndex index : engine.network().into(engine.network().outlet_vertex(outlet))) {
                    starts.push_back(engine.network().edge(index).from);
                }
                add(way, air_from(engine, starts, flow));
            }
        }
        if (const Set wrong = diagrams.without(asked_for, runs); wrong != nothing) {
            Finding finding{.slug = slug(), .span = event.span};
            finding.message = fmt::format("`{}` cannot run out through `{}` here", joined(flow.origin_labels, "`, `"),
                                          flow.outlet_labels[group]);
            if (too_high) {
                finding.notes.push_back(fmt::format("`{}` stands higher", flow.outlet_labels[group]));
            }
            const auto configuration = engine.knowledge().assignment(wrong);
            std::vector<Vertex> outlets;
            for (const OutletId outlet : flow.outlet_groups[group]) {
                outlets.push_back(engine.network().outlet_vertex(outlet));
            }
            for (const ChamberId chamber : flow.chambers) {
                finding.cut = closed_on_the_way(engine, engine.gravity_reach(chamber), outlets, configuration);
                if (!finding.cut.empty()) {
                    finding.notes.push_back(
                        fmt::format("shut on the way from `{}`: {}", system[chamber].label, joined(finding.cut, ", ")));
                }
            }
            add_circumstances(event, wrong, finding);
            event.findings.add(std::move(finding));
            return;
        }
        if (const Set wrong = diagrams.without(asked_for, breathes); wrong != nothing) {
            Finding finding{.slug = slug(), .span = event.span};
            finding.message = fmt::format("`{}` has no air inlet, so it does not run out through `{}`",
                                          joined(flow.origin_labels, "`, `"), flow.outlet_labels[group]);
            add_circumstances(event, wrong, finding);
            finding.remedies.emplace_back("open a tap or a vent above it in this step");
            event.findings.add(std::move(finding));
        }
    }

    // Where air can come to the starts through an opening other than those of this drain.
    static Set air_from(Engine& engine, std::vector<Vertex> starts, const Flow& flow) {
        ReachSpec spec{.starts = std::move(starts),
                       .direction = Direction::backward,
                       .classes = static_cast<std::uint8_t>(pass | breath)};
        spec.without_air_at = flow.outlets;
        Reach air(engine.network(), engine.system(), std::move(spec));
        Set result = air.exact(engine.network().air(), engine.knowledge());
        // A vented chamber that it is joined to lets air in as well, unless it is what is drained into. A vessel gives
        // what an end dips in.
        const auto drained_into = [&](ChamberId chamber) {
            return std::ranges::any_of(flow.outlets,
                                       [&](OutletId outlet) { return engine.system()[outlet].fills == chamber; });
        };
        for (const Vertex vertex : air.marks()) {
            if (const ChamberId chamber = engine.network().chamber_at_out(vertex);
                chamber.valid() && engine.system()[chamber].vented != Expressions::never() &&
                !engine.system()[chamber].vessel && !drained_into(chamber)) {
                const Set reached = air.exact(vertex, engine.knowledge());
                result = engine.diagrams().either(
                    result, engine.diagrams().both(reached, engine.knowledge().truth(engine.system()[chamber].vented)));
            }
        }
        return result;
    }
};

} // namespace

std::unique_ptr<Obligation> blocked_flow() {
    return std::make_unique<BlockedFlow>();
}

} // namespace curbstop::proofs
