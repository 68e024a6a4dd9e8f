// What holds of pressure and contents where an expression asks about it.
#include <algorithm>

#include "proofs/engine.h"
#include "proofs/transport/claims.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

double Engine::greatest_pressure(SourceId source) {
    if (!system_[source].dial.valid()) {
        return system_[source].pressure ? to_double(*system_[source].pressure, Unit::Pa) : 0;
    }
    double greatest = 0;
    const Variable& dial = system_[system_[source].dial];
    const ValueSet values = knowledge_.possible_values(system_[source].dial);
    for (std::size_t i = 0; i < dial.values.size(); ++i) {
        if ((values >> i & 1) != 0) {
            greatest = std::max(greatest, to_double(*dial.values[i].setting, Unit::Pa));
        }
    }
    return greatest;
}

Set Engine::gives_more_than(SourceId id, const Quantity& pressure, bool or_equal) {
    const Source& source = system_[id];
    const auto more = [&](const Quantity& gives) {
        return or_equal ? !(gives.value < pressure.value) : pressure.value < gives.value;
    };
    if (!source.dial.valid()) {
        return !source.pressure || more(*source.pressure) ? everything : nothing;
    }
    ValueSet values = 0;
    const Variable& dial = system_[source.dial];
    for (std::size_t i = 0; i < dial.values.size(); ++i) {
        if (more(*dial.values[i].setting)) {
            values |= ValueSet{1} << i;
        }
    }
    return knowledge_.stands(source.dial, values);
}

Set Engine::pressed_with(NodeId node, const Quantity& pressure) {
    Set result = nothing;
    const Vertex vertex = network_.source_vertex(node);
    for (const SourceState& state : sources_) {
        if (!state.possibly_on) {
            continue;
        }
        const Set strong = diagrams().both(state.on, gives_more_than(state.id, pressure, true));
        if (diagrams().disjoint(strong, possible()) || !state.reach->possible(vertex)) {
            continue;
        }
        // A question of its own: searched for when it is asked. Reducers to less than the pressure hold it back.
        ReachSpec spec = state.reach->spec();
        spec.reducers_pass_below = &pressure;
        Reach reach(network_, system_, std::move(spec));
        result = diagrams().either(result, diagrams().both(strong, reach.exact(vertex, knowledge_)));
    }
    return result;
}

ValueSet Engine::values_where_there(VariableId variable) {
    const Set there = diagrams().both(knowledge_.truth(system_[variable].exists), possible());
    if (there == nothing) {
        return knowledge_.possible_values(variable);
    }
    ValueSet values = 0;
    for (std::size_t i = 0; i < system_[variable].values.size(); ++i) {
        if (!diagrams().disjoint(there, knowledge_.stands(variable, ValueSet{1} << i))) {
            values |= ValueSet{1} << i;
        }
    }
    return values;
}

Set Engine::left_out(const Expression& fact) {
    PartId part;
    if (fact.node.valid()) {
        part = system_[fact.node].part;
    } else if (fact.chamber.valid()) {
        part = system_[fact.chamber].part;
    }
    return part.valid() ? diagrams().complement(knowledge_.truth(system_[part].exists)) : nothing;
}

Set Engine::fact(const Expression& fact) {
    const auto kept = [&](const std::vector<Shortfall>& broken) {
        Set where = everything;
        for (const Shortfall& pocket : broken) {
            where = diagrams().without(where, pocket.where);
        }
        return where;
    };
    switch (fact.kind) {
    case ExpressionKind::no_pressure:
        return diagrams().complement(fact.node.valid() ? charge_.under_pressure(fact.node)
                                                       : charge_.under_pressure_anywhere());
    case ExpressionKind::pressure_below:
        return diagrams().complement(pressed_with(fact.node, fact.quantity));
    case ExpressionKind::holds: {
        const Set surely = contents_.surely_holds(fact.chamber);
        if (!fact.fluid.valid()) {
            return surely;
        }
        return contents_.fluids(fact.chamber) == fluid_bit(fact.fluid) ? surely : nothing;
    }
    case ExpressionKind::empty:
        return diagrams().complement(contents_.may_hold(fact.chamber));
    case ExpressionKind::reaches_liquid: {
        Reach& draw = drawing_at(fact.node);
        return diagrams().without(draws_something(draw), draws_air(draw));
    }
    case ExpressionKind::cool:
        return diagrams().complement(heat_.hot(fact.chamber));
    case ExpressionKind::frost_safe:
        return kept(not_frost_safe(*this, fact.quantity));
    case ExpressionKind::drinkable:
        return kept(not_drinkable(*this));
    case ExpressionKind::sanitised:
        return kept(not_sanitised(*this, fact));
    case ExpressionKind::restored: {
        Set back = everything;
        for (const Lineup::Entry& entry : system_[system_.use].entries) {
            const Set gone = diagrams().complement(knowledge_.truth(system_[entry.variable].exists));
            back = diagrams().both(back, diagrams().either(gone, knowledge_.stands(entry.variable, entry.values)));
        }
        return back;
    }
    case ExpressionKind::always:
    case ExpressionKind::never:
    case ExpressionKind::all:
    case ExpressionKind::any:
    case ExpressionKind::negation:
    case ExpressionKind::stands:
    case ExpressionKind::option:
    case ExpressionKind::branch:
        break;
    }
    return nothing;
}

Set Engine::truth(ExpressionId expression) {
    return knowledge_.truth(
        expression, [this](const Expression& about) { return diagrams().either(fact(about), left_out(about)); });
}

Set Engine::plausible(ExpressionId expression) {
    return knowledge_.truth(expression, [this](const Expression& about) {
        Set seen = nothing;
        if (about.kind == ExpressionKind::empty) {
            seen = diagrams().complement(contents_.surely_holds(about.chamber));
        } else if (about.kind == ExpressionKind::holds) {
            const bool may_be_this =
                !about.fluid.valid() || (contents_.fluids(about.chamber) & fluid_bit(about.fluid)) != 0;
            seen = may_be_this ? contents_.may_hold(about.chamber) : nothing;
        } else if (about.kind == ExpressionKind::cool) {
            seen = diagrams().complement(heat_.heated(about.chamber));
        } else {
            seen = fact(about);
        }
        return diagrams().either(seen, left_out(about));
    });
}

} // namespace curbstop::proofs
