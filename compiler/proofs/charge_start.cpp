// Pressure that stays: what may be charged before anyone comes. Whatever a source could have pressed on with parts,
// dials and covers in any position, ends coupled as they are; less what has a way out as things stand.
#include "proofs/charge.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;

// Where the expression could have been true (or false), positions being free: each comparison of one counts as true and
// as false, whichever is wanted.
Charge::Set Charge::could_be(ExpressionId id, bool wanted) {
    const Expression& expression = system_[id];
    switch (expression.kind) {
    case ExpressionKind::always:
        return wanted ? everything : nothing;
    case ExpressionKind::never:
        return wanted ? nothing : everything;
    case ExpressionKind::all:
    case ExpressionKind::any: {
        const bool every = (expression.kind == ExpressionKind::all) == wanted;
        Set result = every ? everything : nothing;
        for (const ExpressionId operand : expression.operands) {
            const Set one = could_be(operand, wanted);
            result = every ? sets().both(result, one) : sets().either(result, one);
        }
        return result;
    }
    case ExpressionKind::negation:
        return could_be(expression.operands.front(), !wanted);
    case ExpressionKind::stands: {
        const VariableKind kind = system_[expression.variable].kind;
        if (kind == VariableKind::end || kind == VariableKind::vessel) {
            break;
        }
        return wanted ? everything : knowledge_.truth(system_[expression.variable].exists);
    }
    case ExpressionKind::option:
    case ExpressionKind::branch:
        break;
    case ExpressionKind::no_pressure:
    case ExpressionKind::pressure_below:
    case ExpressionKind::holds:
    case ExpressionKind::empty:
    case ExpressionKind::reaches_liquid:
    case ExpressionKind::frost_safe:
    case ExpressionKind::drinkable:
    case ExpressionKind::sanitised:
    case ExpressionKind::restored:
    case ExpressionKind::cool:
        return everything;
    }
    const Set truth = knowledge_.truth(id);
    return wanted ? truth : sets().complement(truth);
}

Charge::Set Charge::could_be_open(const Edge& edge) {
    Set open = could_be(edge.condition, true);
    if (edge.only_unvented.valid()) {
        open = sets().both(open, could_be(system_[edge.only_unvented].vented, false));
    }
    if (edge.caught != Caught::either) {
        const Set caught = network_.caught(system_[edge.way].outlet, knowledge_);
        open = edge.caught == Caught::yes ? sets().both(open, caught) : sets().without(open, caught);
    }
    return open;
}

Charge::Reached Charge::could_reach(std::uint8_t classes, std::span<const Start> starts, std::span<const Set> open) {
    Reached reached{std::vector<Set>(network_.vertex_count(), nothing), std::vector<SourceId>(network_.vertex_count())};
    Marked work;
    work.is.resize(network_.vertex_count());
    const auto add = [&](Vertex vertex, Set more, SourceId by) {
        if (some(sets().without(more, reached.where[vertex]))) {
            reached.where[vertex] = sets().either(reached.where[vertex], more);
            reached.by[vertex] = by;
            work.add(vertex);
        }
    };
    for (const Start& start : starts) {
        add(start.vertex, start.set, start.by);
    }
    for (std::size_t i = 0; i < work.list.size(); ++i) {
        const Vertex vertex = work.list[i];
        work.is[vertex] = 0;
        for (const EdgeIndex index : network_.out_of(vertex)) {
            const Edge& edge = network_.edge(index);
            if ((edge.classes & classes) != 0 && open[index] != nothing) {
                add(edge.to, sets().both(reached.where[vertex], open[index]), reached.by[vertex]);
            }
        }
    }
    return reached;
}

void Charge::begin() {
    if (!asked_for_) {
        return;
    }
    for (auto* keepers : {&stores_, &heats_}) {
        for (Keeper& keeper : *keepers) {
            refresh(keeper);
        }
    }
    start_at_chambers();
    liquid_press_.update({}, {}, knowledge_);
    gas_press_.update({}, {}, knowledge_);
    for (const Extent* extent : {&gas_press_, &liquid_press_}) {
        for (const Extent::Change& change : extent->changes()) {
            note_press(change.vertex, *extent, extent->at(change.vertex));
        }
    }

    std::vector<Set> open;
    for (const Edge& edge : network_.edges()) {
        open.push_back(could_be_open(edge));
    }
    std::vector<Start> liquids, gases;
    for (std::uint32_t i = 0; i < system_.sources.size(); ++i) {
        const Source& source = system_.sources[i];
        if (source.kind != SourceKind::supply && source.kind != SourceKind::lift) {
            continue;
        }
        Start start{SourceId(i), network_.source_vertex(source.node), could_be(source.on, true)};
        if (const ChamberId chamber = network_.chamber_at_out(start.vertex); chamber.valid()) {
            start.set = sets().both(start.set, could_be(system_[chamber].vented, false));
        }
        const bool gas = source.fluid.valid() && system_[source.fluid].gas;
        (gas ? gases : liquids).push_back(start);
    }
    const Reached by_liquid = could_reach(pass, liquids, open);
    const Reached by_gas = could_reach(pass | gas_fall, gases, open);
    for (const Keeper& store : stores_) {
        const Set pressed = sets().either(by_liquid.where[store.vertex], by_gas.where[store.vertex]);
        const SourceId by =
            by_liquid.where[store.vertex] != nothing ? by_liquid.by[store.vertex] : by_gas.by[store.vertex];
        gases.push_back({by, store.vertex, sets().both(pressed, could_be(system_[store.id].on, true))});
    }
    for (const Keeper& heat : heats_) {
        liquids.push_back({heat.id, heat.vertex,
                           sets().both(could_be(system_[heat.id].on, true),
                                       could_be(system_[system_[heat.id].heats].vented, false))});
    }
    // Gas first, since liquid does not run out past it.
    for (auto* charged : {&gas_, &liquid_}) {
        const bool gas = charged == &gas_;
        const Reached reached = could_reach(classes(*charged), gas ? gases : liquids, open);
        for (Vertex vertex = 0; vertex < network_.vertex_count(); ++vertex) {
            charge(*charged, vertex, reached.where[vertex], {nothing, reached.by[vertex], 0, 0, gas});
        }
        // All of it that has a way out has long been gone.
        all_run_out(*charged, (gas ? gas_out_ : liquid_out_).list);
    }
    gas_out_.clear();
    liquid_out_.clear();
}

} // namespace curbstop::proofs
