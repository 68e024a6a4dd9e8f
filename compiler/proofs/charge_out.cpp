// Pressure that stays: how it runs out. A way out is forward over what no running source presses on, of liquid also
// over no gas that is charged, to something open.
#include "proofs/charge.h"

#include <algorithm>

#include "meaning/expression_builder.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::nothing;

// Where the edge enters a vented chamber over an open way.
Charge::Set Charge::fills(const Edge& edge) const {
    const ChamberId chamber = entered_[edge.to];
    return chamber.valid() && (edge.classes & pass) != 0 ? sets().without(edge.open, unvented(chamber)) : nothing;
}

// Works out in out_ where what is charged runs out; `way_out` says of an edge where it leads out. Backward from the
// candidates, which are all that may have got a way out of their own.
template <typename WayOut>
void Charge::run_out(std::vector<Set>& charged, std::span<const Vertex> candidates, const WayOut& way_out) {
    const auto add = [&](Vertex vertex, Set more) {
        more = sets().both(more, charged[vertex]);
        if (!liquid(charged)) {
            more = sets().without(more, liquid_press_.at(vertex));
        }
        more = sets().without(more, out_[vertex]);
        if (some(more)) {
            out_[vertex] = sets().either(out_[vertex], more);
            ran_out_.push_back(vertex);
        }
    };
    for (const Vertex vertex : candidates) {
        if (charged[vertex] == nothing) {
            continue;
        }
        for (const EdgeIndex index : network_.out_of(vertex)) {
            const Edge& edge = network_.edge(index);
            if (edge.open != nothing) {
                add(vertex, way_out(index, edge));
            }
        }
    }
    for (std::size_t i = 0; i < ran_out_.size(); ++i) {
        for (const EdgeIndex index : network_.into(ran_out_[i])) {
            const Edge& edge = network_.edge(index);
            if (edge.open != nothing && (edge.classes & classes(charged)) != 0 && charged[edge.from] != nothing) {
                add(edge.from, sets().both(edge.open, out_[ran_out_[i]]));
            }
        }
    }
    for (const Vertex vertex : ran_out_) {
        if (out_[vertex] == nothing) {
            continue; // listed twice
        }
        charged[vertex] = sets().without(charged[vertex], out_[vertex]);
        if (!some(charged[vertex])) {
            charged[vertex] = nothing;
        }
        out_[vertex] = nothing;
        look_again_before(vertex, charged);
    }
    ran_out_.clear();
}

void Charge::all_run_out(std::vector<Set>& charged, std::span<const Vertex> candidates) {
    run_out(charged, candidates, [this](EdgeIndex, const Edge& edge) {
        return (edge.classes & (outlet | outlet_inside)) != 0 ? edge.open : fills(edge);
    });
}

// Gas that has a way out that nobody's hand shuts is gone at once.
void Charge::standing_open_run_out() {
    run_out(gas_, gas_out_.list, [this](EdgeIndex index, const Edge& edge) {
        if (standing_open_[index] != 0) {
            return edge.open;
        }
        const ChamberId chamber = entered_[edge.to];
        return chamber.valid() && always_vented_[chamber.value] != 0 ? fills(edge) : nothing;
    });
}

void Charge::let_off(std::span<const OutletId> outlets, Set when) {
    std::vector<Vertex> candidates;
    for (const OutletId id : outlets) {
        const ChamberId filled = system_[id].fills;
        const Vertex end = filled.valid() ? network_.chamber(filled).in : network_.outlet_vertex(id);
        for (const EdgeIndex index : network_.into(end)) {
            candidates.push_back(network_.edge(index).from);
        }
    }
    run_out(gas_, candidates, [&](EdgeIndex, const Edge& edge) {
        if ((edge.classes & (outlet | outlet_inside)) != 0) {
            const OutletId id = network_.outlet_at(edge.to);
            return std::ranges::find(outlets, id) != outlets.end() ? sets().both(edge.open, when) : nothing;
        }
        const ChamberId chamber = entered_[edge.to];
        const bool named =
            chamber.valid() && std::ranges::any_of(outlets, [&](OutletId id) { return system_[id].fills == chamber; });
        return named ? sets().both(fills(edge), when) : nothing;
    });
}

Charge::Set Charge::gas_pushes_out(OutletId id) {
    const ChamberId filled = system_[id].fills;
    const Vertex end = filled.valid() ? network_.chamber(filled).in : network_.outlet_vertex(id);
    Set result = nothing;
    for (const EdgeIndex index : network_.into(end)) {
        const Edge& edge = network_.edge(index);
        if ((edge.classes & relief) == 0) {
            result = sets().either(result, sets().both(gas_at(edge.from), filled.valid() ? fills(edge) : edge.open));
        }
    }
    return result;
}

void Charge::none_at(NodeId node, Set when) {
    if (!node.valid()) {
        for (auto* charged : {&liquid_, &gas_}) {
            for (Set& set : *charged) {
                set = set == nothing ? nothing : sets().without(set, when);
            }
        }
        return;
    }
    const Vertex start = network_.source_vertex(node);
    out_[start] = when;
    ran_out_.assign(1, start);
    for (std::size_t i = 0; i < ran_out_.size(); ++i) {
        for (const EdgeIndex index : network_.into(ran_out_[i])) {
            const Edge& edge = network_.edge(index);
            Set from = (edge.classes & pass) != 0       ? sets().either(liquid_[edge.from], gas_[edge.from])
                       : (edge.classes & gas_fall) != 0 ? gas_[edge.from]
                                                        : nothing;
            from = sets().both(from, sets().both(edge.open, out_[ran_out_[i]]));
            from = sets().without(from, out_[edge.from]);
            if (some(from)) {
                out_[edge.from] = sets().either(out_[edge.from], from);
                ran_out_.push_back(edge.from);
            }
        }
    }
    for (const Vertex vertex : ran_out_) {
        liquid_[vertex] = sets().without(liquid_[vertex], out_[vertex]);
        gas_[vertex] = sets().without(gas_[vertex], out_[vertex]);
    }
    for (const Vertex vertex : ran_out_) {
        out_[vertex] = nothing;
    }
    ran_out_.clear();
}

} // namespace curbstop::proofs
