// What a drain clears: runs that fall to its outlet, with air let in above them.
#include <algorithm>

#include "proofs/air_inlet.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

/// Least fixpoint over edges, from the starts on.
class Spread {
  public:
    Spread(const Network& network, instants::Diagrams& sets)
        : sets_(sets)
        , at_(network.vertex_count(), nothing) {}

    void start(Vertex vertex, Set where) { add(vertex, where); }
    template <typename Edges, typename Onward>
    void run(const Edges& edges_of, const Onward& passes) {
        while (!queue_.empty()) {
            const Vertex vertex = queue_.back();
            queue_.pop_back();
            const Set here = at_[vertex];
            for (const EdgeIndex index : edges_of(vertex)) {
                Vertex to = none;
                if (const Set open = passes(index, to); open != nothing) {
                    add(to, sets_.both(here, open));
                }
            }
        }
    }
    Set at(Vertex vertex) const { return at_[vertex]; }

  private:
    void add(Vertex vertex, Set where) {
        const Set more = sets_.either(at_[vertex], where);
        if (more != at_[vertex]) {
            at_[vertex] = more;
            queue_.push_back(vertex);
        }
    }
    instants::Diagrams& sets_;
    std::vector<Set> at_;
    std::vector<Vertex> queue_;
};

} // namespace

// A chamber that was surely full and runs out rinses its own way down, if it holds twice as much as that.
void Transport::rinse_way_down(const Flow& flow, OutletId outlet, Set when) {
    const Vertex target = network_.outlet_vertex(outlet);
    for (const ChamberId chamber : flow.chambers) {
        const PocketIndex from = pockets_.of_chamber(chamber);
        if (!gravity_[chamber.value] || !pockets_[from].volume) {
            continue;
        }
        Set where = nothing;
        Set elsewhere = nothing; // of what runs out at two places nobody knows how much came by either
        for (const Fall& running : falls_) {
            if (running.from == chamber && running.target == target) {
                where = running.full;
            } else if (running.from == chamber && network_.outlet_at(running.target).valid()) {
                elsewhere = knowledge_.diagrams().either(elsewhere, running.giving);
            }
        }
        where = knowledge_.diagrams().both(when, knowledge_.diagrams().without(where, elsewhere));
        if (where == nothing) {
            continue;
        }
        Carried carried;
        inventory_.join_into(carried, from, where);
        for (const Passage& passage :
             gravity_[chamber.value]->passages(target, std::array{target}, where, knowledge_)) {
            double chain = 0;
            for (const PassageStep& step : passage.steps) {
                const PocketIndex pocket = pocket_of_[step.vertex];
                chain += pocket == no_pocket || pocket == from ? 0 : pockets_[pocket].volume.value_or(unlimited);
            }
            for (const PassageStep& step : passage.steps) {
                const PocketIndex pocket = pocket_of_[step.vertex];
                if (step.rank != 0 && pocket != no_pocket && pockets_[pocket].kind != PocketKind::chamber &&
                    *pockets_[from].volume >= 2 * chain) {
                    inventory_.change(pocket, passage.where, cause(CauseKind::swept),
                                      [&](const Bounds& own) { return swept_by(own, carried); });
                }
            }
        }
    }
}

void Transport::credit_drain(Engine& engine, const Flow& flow, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const auto upper_end = [&](const Run& run) { return run.falls_to == run.from ? run.to : run.from; };
    // A run that falls is passed from its upper end to its lower; what does not fall, and a pump, is not surely passed.
    const auto goes_down = [&](const Edge& edge, bool also_level) {
        if (!edge.way.valid() || system_[edge.way].run == UINT32_MAX) {
            return !edge.way.valid() || system_[edge.way].kind != WayKind::lift; // a pump may leak, or hold
        }
        const Run& run = system_.runs[system_[edge.way].run];
        if (!run.falls_to.valid()) {
            return also_level;
        }
        return edge.to == network_.run_vertex(system_[edge.way].run)
                   ? edge.from == network_.source_vertex(upper_end(run))
                   : edge.to == network_.arrival(run.falls_to);
    };
    // Where air stands: from openings that this drain does not name and from vented chambers, onwards.
    Spread air(network_, sets);
    air.start(network_.air(), everything);
    for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
        // A hose that is dipped into a vessel draws what is in it.
        if (!system_.chambers[i].vessel && system_.chambers[i].vented != Expressions::never()) {
            const Set vented = knowledge_.truth(system_.chambers[i].vented);
            air.start(network_.chamber(ChamberId(i)).out, vented);
        }
    }
    air.run([&](Vertex vertex) { return network_.out_of(vertex); },
            [&](EdgeIndex index, Vertex& to) {
                const Edge& edge = network_.edge(index);
                to = edge.to;
                const bool named = edge.way.valid() && system_[edge.way].outlet.valid() &&
                                   std::ranges::find(flow.outlets, system_[edge.way].outlet) != flow.outlets.end();
                if ((edge.classes & (pass | breath | proofs::outlet | outlet_inside)) == 0 ||
                    ((edge.classes & breath) != 0 && named) || !goes_down(edge, true)) {
                    return nothing;
                }
                // A vented chamber gives air at every port, so that it is vented shuts none here.
                return edge.only_unvented.valid() ? knowledge_.truth(edge.condition) : edge.open;
            });
    for (const OutletId outlet : flow.outlets) {
        rinse_way_down(flow, outlet, when);
        Spread down(network_, sets);
        down.start(network_.outlet_vertex(outlet), when);
        down.run([&](Vertex vertex) { return network_.into(vertex); },
                 [&](EdgeIndex index, Vertex& to) {
                     const Edge& edge = network_.edge(index);
                     to = edge.from;
                     const bool gravity =
                         (edge.classes & (pass | gas_fall | settle | proofs::outlet | outlet_inside)) != 0;
                     return gravity && goes_down(edge, false) ? edge.open : nothing;
                 });
        // Runs first; then the bodies that they run out through.
        std::vector<std::pair<PocketIndex, Set>> drained;
        Spread below(network_, sets);
        for (std::uint32_t i = 0; i < system_.runs.size(); ++i) {
            const Vertex run = network_.run_vertex(i);
            const Set where = system_.runs[i].falls_to.valid()
                                  ? sets.both(down.at(run), air.at(network_.arrival(upper_end(system_.runs[i]))))
                                  : nothing;
            if (where != nothing && !sets.disjoint(where, knowledge_.possible())) {
                drained.emplace_back(pockets_.of_run(i), where);
                below.start(run, where);
            }
        }
        below.run([&](Vertex vertex) { return network_.out_of(vertex); },
                  [&](EdgeIndex index, Vertex& to) {
                      const Edge& edge = network_.edge(index);
                      to = edge.to;
                      return (edge.classes & (breath | back)) == 0 && goes_down(edge, false) ? edge.open : nothing;
                  });
        for (std::uint32_t i = 0; i < system_.parts.size(); ++i) {
            const Vertex body = network_.body_vertex(PartId(i));
            if (body == none) {
                continue;
            }
            const Set where = sets.both(below.at(body), sets.both(down.at(body), air.at(body)));
            if (where != nothing && !sets.disjoint(where, knowledge_.possible())) {
                drained.emplace_back(pockets_.of_body(PartId(i)), where);
            }
        }
        Carried all;
        double volume = 0;
        Set let_out = nothing;
        for (const auto& [pocket, where] : drained) {
            Carried one;
            inventory_.join_into(one, pocket, where);
            all.join(one);
            volume += pockets_[pocket].volume.value_or(unlimited) * (1 - std::clamp(one.gas.part, 0.0, 1.0));
            let_out = sets.either(let_out, where);
            for (const Piece& piece : inventory_.pieces(pocket)) {
                const Set there = sets.both(piece.where, where);
                if (!sets.disjoint(there, knowledge_.possible())) {
                    let_out_.push_back({outlet, pocket, {there, piece.bounds, piece.cause}});
                }
            }
        }
        for (const auto& [pocket, where] : drained) {
            inventory_.change(pocket, where, cause(CauseKind::drained), [&](const Bounds& own) {
                return emptied(flowed_through(own, all, true, true), gas_after_emptying);
            });
        }
        for (const auto& [chamber, there] : engine.lands_in(outlet)) {
            const Set lands = sets.both(let_out, there);
            if (!sets.disjoint(lands, knowledge_.possible())) {
                take_in(chamber, all, lands, CauseKind::gravity);
                come_in(engine, chamber, std::min(volume, volume_of(flow.at_most, unlimited)), lands,
                        CauseKind::gravity);
            }
        }
    }
    // Only now: what the runs let into a chamber came while it was still running out.
    for (const OutletId outlet : flow.outlets) {
        for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
            if (system_.chambers[i].vessel) {
                continue;
            }
            const bool named = std::ranges::find(flow.chambers, ChamberId(i)) != flow.chambers.end();
            Set empty = named ? when : sets.both(when, engine.falls(ChamberId(i), outlet));
            if (!named && !sets.disjoint(empty, knowledge_.possible())) {
                empty = sets.both(empty, air_inlet(engine, ChamberId(i), flow, empty));
            }
            inventory_.change(pockets_.of_chamber(ChamberId(i)), empty, cause(CauseKind::drained),
                              [](const Bounds& own) { return emptied(own, gas_in_emptied_chamber); });
        }
    }
}

} // namespace curbstop::proofs
