#include "proofs/hot_moves.h"

#include <algorithm>

#include "proofs/proof.h"

namespace curbstop::proofs {

using namespace meaning;

void HotMoves::start(Event& event) {
    const std::vector<char> nowhere(event.engine.network().vertex_count(), 0);
    for (const HeatedChamber& chamber : event.engine.heat().chambers()) {
        const bool hot = !event.diagrams().disjoint(chamber.hot, event.engine.possible());
        hot_.push_back({hot, false, nowhere});
    }
    look(event, true);
}

void HotMoves::verify(Event& event, const instants::Verify& verify) {
    if (!event.diagrams().within(event.engine.possible(), event.when)) {
        return; // not everybody has felt it
    }
    const System& system = event.engine.system();
    std::vector<ExpressionId> pieces;
    conjuncts(system, verify.statement->expression, pieces);
    for (const ExpressionId piece : pieces) {
        for (std::size_t i = 0; i < hot_.size(); ++i) {
            const HeatedChamber& chamber = event.engine.heat().chambers()[i];
            if (system[piece].kind == ExpressionKind::cool && system[piece].chamber == chamber.chamber) {
                hot_[i].felt_cool = true;
            }
        }
    }
}

void HotMoves::step_begins(Event&, const instants::StepBegin& step) {
    step_ = step.step;
}

void HotMoves::instant(Event& event, const instants::Move& move) {
    std::erase_if(standing_, [&](const Standing& each) {
        const ValueSet values = event.engine.values_where_there(each.move.variable);
        return each.met || (values & ValueSet{1} << each.move.value) == 0;
    });
    for (const Setting& setting : move.settings) {
        standing_.push_back({{step_, setting.variable, setting.value}});
    }
    look(event);
}

void HotMoves::look(Event& event, Hot& hot, const HeatedChamber& chamber, bool at_start) const {
    Engine& engine = event.engine;
    const auto possible = [&](instants::Set set) { return !engine.diagrams().disjoint(set, engine.possible()); };
    const bool holds = possible(engine.contents().may_hold(chamber.chamber));
    if (possible(chamber.heated)) {
        hot.itself = true;
        hot.felt_cool = false;
    } else if (!possible(chamber.hot) && (hot.felt_cool || !holds)) {
        hot.itself = false;
        std::ranges::fill(hot.at, 0); // what it sent out lies in less than it, and has cooled too
    }
    if (hot.itself && holds) {
        const ChamberVertices& vertices = engine.network().chamber(chamber.chamber);
        // Nobody knows how things stood a moment before the start.
        spread(engine.network(), {vertices.in, vertices.out, vertices.low}, hot.at, at_start);
    }
}

void HotMoves::look(Event& event, bool at_start) {
    for (std::size_t i = 0; i < hot_.size(); ++i) {
        look(event, hot_[i], event.engine.heat().chambers()[i], at_start);
    }
    for (Standing& each : standing_) {
        if (!each.met && is_hot(event, each.move.variable)) {
            each.met = true;
            if (std::ranges::find(found_, each.move) == found_.end()) {
                found_.push_back(each.move);
            }
        }
    }
}

void HotMoves::spread(const Network& network, std::vector<Vertex> from, std::vector<char>& hot, bool anyhow) const {
    std::vector<char> seen(hot.size(), 0);
    for (const Vertex vertex : from) {
        seen[vertex] = 1;
    }
    while (!from.empty()) {
        const Vertex at = from.back();
        from.pop_back();
        hot[at] = 1;
        for (const EdgeIndex index : network.out_of(at)) {
            const Edge& edge = network.edge(index);
            if ((edge.possible || anyhow) && (edge.classes & (pass | gas_fall | settle | outlet_inside)) != 0 &&
                seen[edge.to] == 0) {
                seen[edge.to] = 1;
                from.push_back(edge.to);
            }
        }
    }
}

bool HotMoves::is_hot(Event& event, VariableId variable) const {
    const System& system = event.engine.system();
    const PartId part = system[variable].part;
    if (!part.valid()) {
        return false;
    }
    return std::ranges::any_of(system[part].nodes, [&](NodeId node) {
        const Vertex vertex = event.engine.network().arrival(node);
        return std::ranges::any_of(hot_, [&](const Hot& hot) { return hot.at[vertex] != 0; });
    });
}

} // namespace curbstop::proofs
