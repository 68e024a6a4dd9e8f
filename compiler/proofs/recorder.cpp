#include "proofs/recorder.h"

#include <algorithm>

#include "proofs/pocket_story.h"
#include "proofs/proof.h"
#include "proofs/transport/claims.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::Set;

void Recorder::start(Event& event) {
    const Network& network = event.engine.network();
    leads_out_.assign(network.vertex_count(), 0);
    std::vector<Vertex> queue;
    for (std::size_t i = 0; i < event.engine.system().outlets.size(); ++i) {
        const Vertex vertex = network.outlet_vertex(OutletId(i));
        leads_out_[vertex] = 1;
        queue.push_back(vertex);
    }
    while (!queue.empty()) {
        const Vertex at = queue.back();
        queue.pop_back();
        for (const EdgeIndex index : network.into(at)) {
            const Edge& edge = network.edge(index);
            if (leads_out_[edge.from] == 0 && (edge.classes & (pass | outlet | outlet_inside)) != 0) {
                leads_out_[edge.from] = 1;
                queue.push_back(edge.from);
            }
        }
    }
}

void Recorder::step_begins(Event& event, const instants::StepBegin& step) {
    now_ = {};
    now_.step = step.step;
    now_.number = step.number;
    now_.stage = step.stage;
    was_on_.assign(event.engine.sources().size(), instants::nothing);
    look(event);
    now_.discharges_before = now_.discharges.size();
    now_.falls_before = now_.falls.size();
}

void Recorder::look(Event& event) {
    const std::vector<SourceState>& sources = event.engine.sources();
    for (std::size_t i = 0; i < sources.size(); ++i) {
        if (sources[i].possibly_on) {
            was_on_[i] = event.engine.diagrams().either(was_on_[i], sources[i].on);
        }
    }
    const auto add = [&event](std::vector<Discharge>& list, const DischargeState& state) {
        const Discharge found{state.key.source, state.key.origin.chamber, state.key.origin.supply, state.key.outlet};
        if (!event.engine.diagrams().disjoint(state.now, event.engine.possible()) &&
            std::ranges::find(list, found) == list.end()) {
            list.push_back(found);
        }
    };
    for (const DischargeState& state : event.engine.discharges()) {
        add(now_.discharges, state);
    }
    for (const DischargeState& state : event.engine.gravity()) {
        add(now_.falls, state);
    }
}

void Recorder::add_zone(ZoneId zone) {
    if (zone.valid() && (now_.zones.empty() || now_.zones.back() != zone)) {
        now_.zones.push_back(zone);
    }
}

void Recorder::before_move(Event& event, const instants::Move& move) {
    const System& system = event.engine.system();
    for (const Setting& setting : move.settings) {
        const Variable& variable = system[setting.variable];
        if (variable.kind == VariableKind::cover) {
            add_zone(std::ranges::find(system.covers, setting.variable, &Cover::variable)->place.zone);
        } else if (variable.part.valid() && !system[variable.part].places.empty()) {
            // Where one stands already, if the part can be worked from there.
            const auto& places = system[variable.part].places;
            const bool here = !now_.zones.empty() && std::ranges::any_of(places, [&](const WorkPlace& place) {
                return place.zone == now_.zones.back();
            });
            if (!here) {
                add_zone(places.front().zone);
            }
        }
    }
}

void Recorder::instant(Event& event, const instants::Move&) {
    look(event);
}

void Recorder::watch(Event&, const instants::Watch& watch) {
    add_zone(watch.statement->zone);
}

HeldBack Recorder::held_back(Event& event, const SourceState& source, Set was_on) {
    Engine& engine = event.engine;
    const System& system = engine.system();
    const Network& network = engine.network();
    HeldBack held{source.id, {}};
    // What is so where the source never was on concerns nobody who hears of it.
    const Set where = engine.diagrams().both(was_on, engine.possible());
    const auto values = [&](VariableId variable) {
        ValueSet found = 0;
        for (std::size_t i = 0; i < system[variable].values.size(); ++i) {
            const Set there = engine.diagrams().both(engine.knowledge().truth(system[variable].exists), where);
            if (!engine.diagrams().disjoint(there, engine.knowledge().stands(variable, ValueSet{1} << i))) {
                found |= ValueSet{1} << i;
            }
        }
        return found == 0 ? engine.values_where_there(variable) : found;
    };
    std::vector<VariableId> variables;
    for (Vertex vertex = 0; vertex < network.vertex_count(); ++vertex) {
        if (!source.reach->possible(vertex)) {
            continue;
        }
        for (const EdgeIndex index : network.out_of(vertex)) {
            const Edge& edge = network.edge(index);
            if (edge.possible || source.reach->possible(edge.to) || leads_out_[edge.to] == 0 ||
                !source.reach->uses(edge) || !edge.way.valid()) {
                continue;
            }
            const Way& way = system[edge.way];
            VariableId variable;
            if (system[way.from].kind == NodeKind::end) {
                // A cap holds back; that an end is not coupled to another holds back nothing that matters here.
                if (way.kind == WayKind::open_end) {
                    variable = system[way.from].end;
                }
            } else if (way.part.valid()) {
                variable = system[way.part].variable;
            }
            // What this variant lacks holds nothing back.
            if (variable.valid() && !engine.diagrams().disjoint(engine.knowledge().truth(way.exists), where)) {
                variables.push_back(variable);
            }
        }
    }
    std::ranges::sort(variables);
    variables.erase(std::unique(variables.begin(), variables.end()), variables.end());
    for (const VariableId variable : variables) {
        held.barriers.push_back({variable, values(variable)});
    }
    return held;
}

void Recorder::look_at_contents(Event& event) {
    Engine& engine = event.engine;
    const auto any = [&](const std::vector<Shortfall>& pockets) {
        return std::ranges::any_of(pockets, [&](const Shortfall& pocket) {
            return !engine.diagrams().disjoint(pocket.where, engine.possible());
        });
    };
    std::vector<ExpressionId> promised;
    for (const Contract& contract : event.procedure.ensures) {
        conjuncts(engine.system(), contract.expression, promised);
    }
    for (const ExpressionId id : promised) {
        const Expression& claim = engine.system()[id];
        now_.may_freeze = now_.may_freeze ||
                          (claim.kind == ExpressionKind::frost_safe && any(not_frost_safe(engine, claim.quantity)));
    }
    now_.spoilt = any(not_drinkable(engine));
}

void Recorder::step_ends(Event& event, const instants::StepEnd&) {
    Engine& engine = event.engine;
    const System& system = engine.system();
    bool quiet = true;
    for (std::size_t i = 0; i < engine.sources().size(); ++i) {
        const SourceState& source = engine.sources()[i];
        if (was_on_[i] != instants::nothing) {
            now_.held_back.push_back(held_back(event, source, was_on_[i]));
        }
        if (source.possibly_on) {
            now_.running.push_back(source.id);
            quiet = false;
        }
    }
    for (const DischargeState& state : engine.gravity()) {
        now_.falling = now_.falling || !engine.diagrams().disjoint(state.now, engine.possible());
    }
    now_.safe_to_stop = quiet && !now_.falling;
    look_at_contents(event);
    for (std::size_t i = 0; i < system.variables.size(); ++i) {
        now_.standing.push_back(engine.values_where_there(VariableId(i)));
    }
    for (std::size_t i = 0; i < system.nodes.size(); ++i) {
        const Vertex vertex = engine.network().arrival(NodeId(i));
        if (std::ranges::any_of(engine.sources(), [&](const SourceState& source) {
                return source.possibly_on && source.reach->possible(vertex);
            })) {
            now_.pressurised.emplace_back(i);
        } else if (!engine.diagrams().disjoint(engine.charge().under_pressure(NodeId(i)), engine.possible())) {
            now_.charged.emplace_back(i);
        }
    }
    for (std::size_t i = 0; i < system.chambers.size(); ++i) {
        const ChamberId chamber(i);
        if (engine.diagrams().disjoint(engine.contents().may_hold(chamber), engine.possible())) {
            continue;
        }
        now_.may_hold.push_back(chamber);
        now_.fluids.emplace_back();
        for (std::size_t fluid = 0; fluid < system.fluids.size(); ++fluid) {
            if ((engine.contents().fluids(chamber) & fluid_bit(FluidId(fluid))) != 0) {
                now_.fluids.back().emplace_back(fluid);
            }
        }
        if (engine.diagrams().within(engine.possible(), engine.contents().surely_holds(chamber))) {
            now_.surely_holds.push_back(chamber);
        }
    }
    now_.pockets = pocket_reports(engine);
    // A step that a loop goes through several times is told as it ends last.
    const auto earlier = std::ranges::find(steps_, now_.step, &StepReport::step);
    if (earlier != steps_.end()) {
        *earlier = now_;
    } else {
        steps_.push_back(now_);
    }
}

} // namespace curbstop::proofs
