// What a lifting part draws on: chambers, vessels, supplies and air.
#include <algorithm>

#include "proofs/engine.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

std::vector<std::pair<Origin, Set>> Engine::origins_of(const SourceState& source) {
    if (source.draw) {
        return draws_on(*source.draw);
    }
    return {{Origin{{}, source.id}, everything}};
}

Reach& Engine::drawing_at(NodeId node) {
    for (const auto& [at, reach] : drawing_) {
        if (at == node) {
            return *reach;
        }
    }
    drawing_.emplace_back(node, std::make_unique<Reach>(network_, system_,
                                                        ReachSpec{.starts = {network_.drawn_vertex(node)},
                                                                  .direction = Direction::backward,
                                                                  .classes = static_cast<std::uint8_t>(pass | breath),
                                                                  .relief_at = {}}));
    return *drawing_.back().second;
}

std::vector<std::pair<Origin, Set>> Engine::draws_on(Reach& draw) {
    std::vector<std::pair<Origin, Set>> origins;
    for (const Vertex vertex : draw.marks()) {
        if (const ChamberId chamber = network_.chamber_at_out(vertex); chamber.valid()) {
            const Set from = diagrams().both(draw.exact(vertex, knowledge_), contents_.may_hold(chamber));
            if (!diagrams().disjoint(from, possible())) {
                origins.push_back({{chamber, {}}, from});
            }
        }
    }
    for (const SourceState& supply : sources_) {
        const Source& source = system_[supply.id];
        if (source.kind == SourceKind::supply && supply.possibly_on && !is_gas(supply.id)) {
            const Set from = diagrams().both(draw.exact(network_.source_vertex(source.node), knowledge_), supply.on);
            if (!diagrams().disjoint(from, possible())) {
                origins.push_back({{{}, supply.id}, from});
            }
        }
    }
    std::ranges::sort(origins, {}, &std::pair<Origin, Set>::first);
    return origins;
}

Set Engine::draws_something(Reach& draw) {
    Set result = nothing;
    for (const Vertex vertex : draw.marks()) {
        if (const ChamberId chamber = network_.chamber_at_out(vertex); chamber.valid()) {
            const Set drawn = diagrams().both(draw.exact(vertex, knowledge_), contents_.may_hold(chamber));
            result = diagrams().either(result, drawn);
        }
    }
    for (const SourceState& supply : sources_) {
        const Source& source = system_[supply.id];
        if (source.kind == SourceKind::supply && supply.possibly_on && !is_gas(supply.id)) {
            result = diagrams().either(
                result, diagrams().both(draw.exact(network_.source_vertex(source.node), knowledge_), supply.on));
        }
    }
    return result;
}

// From openings and supplies of gas, and from vented chambers where `gives_air` says so.
Set Engine::draws_air(Reach& draw, const std::function<Set(ChamberId)>& gives_air) {
    Set result = draw.exact(network_.air(), knowledge_);
    for (const Vertex vertex : draw.marks()) {
        if (const ChamberId chamber = network_.chamber_at_out(vertex);
            chamber.valid() && system_[chamber].vented != Expressions::never()) {
            const Set vented = knowledge_.truth(system_[chamber].vented);
            const Set reached = diagrams().both(draw.exact(vertex, knowledge_), vented);
            result = diagrams().either(result, diagrams().both(reached, gives_air(chamber)));
        }
    }
    for (const SourceState& supply : sources_) {
        if (supply.possibly_on && is_gas(supply.id)) {
            const Vertex vertex = network_.source_vertex(system_[supply.id].node);
            result = diagrams().either(result, diagrams().both(draw.exact(vertex, knowledge_), supply.on));
        }
    }
    return result;
}

Set Engine::draws_air(Reach& draw) {
    return draws_air(draw,
                     [this](ChamberId chamber) { return diagrams().complement(contents_.surely_holds(chamber)); });
}

Set Engine::draws_air_besides(Reach& draw, std::span<const ChamberId> emptied) {
    return draws_air(draw, [&](ChamberId chamber) {
        return std::ranges::find(emptied, chamber) == emptied.end() ? everything : nothing;
    });
}

} // namespace curbstop::proofs
