#include "proofs/blocked_drain.h"

#include <algorithm>

#include <fmt/format.h>

#include "proofs/air_inlet.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

class Drain {
  public:
    Drain(Event& event, const Flow& flow)
        : event_(event)
        , engine_(event.engine)
        , flow_(flow)
        , runs_(flow.outlet_groups.size(), nothing) {}

    void judge() {
        for (const FlowOrigin& origin : flow_.origins) {
            for (const ChamberId chamber : origin.chambers) {
                chamber_runs_out(chamber, origin);
            }
            if (origin.pipes) {
                pipes_run_out();
            }
        }
        const Set some_origin = engine_.knowledge().truth(flow_.origin_exists);
        for (std::size_t group = 0; group < runs_.size(); ++group) {
            const Set there = engine_.knowledge().truth(flow_.outlet_exists[group]);
            const Set wrong = sets().without(sets().both(event_.here(), sets().both(some_origin, there)), runs_[group]);
            if (wrong != nothing) {
                tell(fmt::format("nothing that this drain names can run out through `{}` here",
                                 flow_.outlet_labels[group]),
                     wrong, {}, flow_.outlet_groups[group]);
            }
        }
    }

  private:
    instants::Diagrams& sets() { return engine_.diagrams(); }

    void chamber_runs_out(ChamberId chamber, const FlowOrigin& origin) {
        const System& system = engine_.system();
        const auto height = system[chamber].part.valid() ? system[system[chamber].part].height : std::nullopt;
        Set ways = nothing;
        bool too_high = false;
        for (std::size_t group = 0; group < runs_.size(); ++group) {
            for (const OutletId outlet : flow_.outlet_groups[group]) {
                if (height && system[outlet].height && height->value < system[outlet].height->value) {
                    too_high = true;
                    continue;
                }
                const Set way =
                    engine_.gravity_reach(chamber).exact(engine_.network().outlet_vertex(outlet), engine_.knowledge());
                ways = sets().either(ways, way);
                runs_[group] = sets().either(runs_[group], way);
            }
        }
        const Set asked_for = sets().both(event_.here(), engine_.knowledge().truth(origin.exists));
        if (const Set wrong = sets().without(asked_for, ways); wrong != nothing) {
            tell(fmt::format("`{}` cannot run out through `{}` here", system[chamber].label,
                             joined(flow_.outlet_labels, "`, `")),
                 wrong, {chamber}, flow_.outlets, too_high);
            for (Set& runs : runs_) { // said once
                runs = sets().either(runs, wrong);
            }
            return;
        }
        no_air(sets().without(asked_for, air_inlet(engine_, chamber, flow_, asked_for)), system[chamber].label);
    }

    void pipes_run_out() {
        for (std::size_t group = 0; group < runs_.size(); ++group) {
            const Set there = sets().both(event_.here(), engine_.knowledge().truth(flow_.outlet_exists[group]));
            Set open = nothing;
            Set air = nothing;
            for (const OutletId outlet : flow_.outlet_groups[group]) {
                std::vector<Vertex> starts;
                for (const EdgeIndex index : engine_.network().into(engine_.network().outlet_vertex(outlet))) {
                    starts.push_back(engine_.network().edge(index).from);
                }
                open = sets().either(open, engine_.active(outlet));
                air = sets().either(air, air_from(engine_, std::move(starts), flow_));
            }
            runs_[group] = sets().either(runs_[group], open);
            // Gas that is pressed in behind it needs none.
            for (const OutletId outlet : flow_.outlet_groups[group]) {
                air = sets().either(air, engine_.charge().gas_pushes_out(outlet));
            }
            no_air(sets().without(sets().both(there, open), air), flow_.outlet_labels[group]);
        }
    }

    void no_air(Set wrong, const std::string& what) {
        if (wrong == nothing) {
            return;
        }
        Finding finding{.slug = "blocked-flow", .span = event_.span};
        finding.message = fmt::format("`{}` has no air inlet, so it does not run out", what);
        finding.remedies.emplace_back("open a tap or a vent above it in this step");
        add_circumstances(event_, wrong, finding);
        event_.findings.add(std::move(finding));
    }

    void tell(std::string message, Set wrong, std::vector<ChamberId> from, const std::vector<OutletId>& to,
              bool too_high = false) {
        Finding finding{.slug = "blocked-flow", .span = event_.span, .message = std::move(message)};
        if (too_high) {
            finding.notes.emplace_back("what it is to run out through stands higher");
        }
        if (from.empty()) {
            from = flow_.chambers;
        }
        const auto configuration = engine_.knowledge().assignment(wrong);
        std::vector<Vertex> outlets;
        for (const OutletId outlet : to) {
            outlets.push_back(engine_.network().outlet_vertex(outlet));
        }
        for (const ChamberId chamber : from) {
            finding.cut = closed_on_the_way(engine_, engine_.gravity_reach(chamber), outlets, configuration);
            if (!finding.cut.empty()) {
                finding.notes.push_back(fmt::format("shut on the way from `{}`: {}", engine_.system()[chamber].label,
                                                    joined(finding.cut, ", ")));
            }
        }
        if (from.empty()) { // pipes: the outlet itself is shut
            for (const OutletId outlet : to) {
                const PartId part = engine_.system()[outlet].part;
                if (part.valid() && engine_.system()[part].variable.valid()) {
                    const VariableId variable = engine_.system()[part].variable;
                    finding.notes.push_back(fmt::format(
                        "{} is not open",
                        part_standing(engine_, variable, engine_.knowledge().value_in(variable, configuration))));
                }
            }
        }
        add_circumstances(event_, wrong, finding);
        event_.findings.add(std::move(finding));
    }

    Event& event_;
    Engine& engine_;
    const Flow& flow_;
    std::vector<Set> runs_; // per outlet group: where something runs out through it
};

} // namespace

void judge_drain(Event& event, const Flow& flow) {
    Drain(event, flow).judge();
}

} // namespace curbstop::proofs
