#include "proofs/transport/transport.h"

#include "proofs/transport/drinking_water.h"

#include <algorithm>

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

bool supplies_drinking_water(const System& system, SourceId id) {
    const Source& source = system[id];
    return source.kind == SourceKind::supply && !system[source.fluid].gas && system[source.fluid].category == 1;
}

bool draws_air(const System& system, const Flow& flow) {
    const ObservationKind seen = flow.until->kind;
    return seen == ObservationKind::stops || seen == ObservationKind::only_air ||
           (seen == ObservationKind::shows && system[flow.until->fluid].gas);
}

double volume_of(const std::optional<Quantity>& quantity, double otherwise) {
    return quantity && quantity->dimension == Dimension::volume ? to_double(*quantity, Unit::m3) : otherwise;
}

namespace {

/// Per vertex of the network the pocket that it is; none for most.
std::vector<PocketIndex> pockets_of_vertices(const System& system, const Network& network, const Pockets& pockets) {
    std::vector<PocketIndex> pocket_of(network.vertex_count(), no_pocket);
    for (std::uint32_t i = 0; i < system.runs.size(); ++i) {
        pocket_of[network.run_vertex(i)] = pockets.of_run(i);
    }
    for (std::uint32_t i = 0; i < system.parts.size(); ++i) {
        if (const Vertex body = network.body_vertex(PartId(i)); body != none) {
            pocket_of[body] = pockets.of_body(PartId(i));
        }
    }
    for (std::uint32_t i = 0; i < system.chambers.size(); ++i) {
        const ChamberVertices& vertices = network.chamber(ChamberId(i));
        for (const Vertex vertex : {vertices.in, vertices.out, vertices.low}) {
            pocket_of[vertex] = pockets.of_chamber(ChamberId(i));
        }
    }
    return pocket_of;
}

} // namespace

Transport::Transport(const System& system, instants::Knowledge& knowledge)
    : system_(system)
    , knowledge_(knowledge)
    , pockets_(system)
    , network_(system, knowledge, Grain::pockets)
    , pocket_of_(pockets_of_vertices(system, network_, pockets_))
    , inventory_(system, pockets_, find_circuits(system, pockets_, passed_pockets(), knowledge), knowledge) {
    vertices_of_.resize(pockets_.size());
    for (Vertex vertex = 0; vertex < network_.vertex_count(); ++vertex) {
        if (pocket_of_[vertex] != no_pocket) {
            vertices_of_[pocket_of_[vertex]].push_back(vertex);
        }
    }
    build_regions();
    build_back_regions();
    for (EdgeIndex i = 0; i < network_.edges().size(); ++i) {
        const Edge& edge = network_.edge(i);
        if ((edge.classes & (outlet | outlet_inside)) != 0 && edge.way.valid() &&
            (system_[edge.way].kind == WayKind::breach || system_[edge.way].kind == WayKind::open_end)) {
            openings_.emplace_back(i, instants::nothing); // what stands open at the start has been open before
        }
    }
}

Transport::~Transport() = default;

const std::vector<Set>& Transport::drinking_water() {
    if (drinking_water_.empty()) {
        drinking_water_ = drinking_water_system(system_, pockets_, passed_pockets(), knowledge_);
    }
    return drinking_water_;
}

std::vector<PocketIndex> Transport::passed_pockets() const {
    std::vector<PocketIndex> passed(system_.ways.size(), no_pocket);
    for (std::uint32_t i = 0; i < system_.ways.size(); ++i) {
        const Vertex vertex = network_.passed(WayId(i));
        passed[i] = vertex == none ? no_pocket : pocket_of_[vertex];
    }
    return passed;
}

void Transport::build_regions() {
    for (const Source& source : system_.sources) {
        if (source.kind != SourceKind::supply && source.kind != SourceKind::lift) {
            continue;
        }
        const bool gas = source.fluid.valid() && system_[source.fluid].gas;
        Regions regions;
        regions.pressed =
            std::make_unique<Region>(network_, system_,
                                     ReachSpec{.starts = {network_.source_vertex(source.node)},
                                               .classes = static_cast<std::uint8_t>(pass | outlet | outlet_inside |
                                                                                    relief | (gas ? gas_fall : 0)),
                                               .all_reliefs = true}); // the streams say which of them let anything out
        if (source.kind == SourceKind::lift) {
            // Now and then a vented chamber gives liquid above its level, too; the air itself is no way.
            regions.drawn = std::make_unique<Region>(network_, system_,
                                                     ReachSpec{.starts = {network_.drawn_vertex(source.suction)},
                                                               .direction = Direction::backward,
                                                               .classes = static_cast<std::uint8_t>(pass | breath),
                                                               .blocked = {network_.air(), none}});
        }
        regions_.push_back(std::move(regions));
    }
    for (const Source& source : system_.sources) {
        if (source.kind == SourceKind::store && network_.body_vertex(source.part) != none) {
            bladders_.push_back({pockets_.of_body(source.part), network_.body_vertex(source.part), source.on,
                                 std::make_unique<Region>(
                                     network_, system_,
                                     ReachSpec{.starts = {network_.arrival(source.node)},
                                               .classes = static_cast<std::uint8_t>(pass | outlet | outlet_inside)})});
        }
    }
    for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
        if (system_.chambers[i].vessel) {
            gravity_.push_back(nullptr);
            continue;
        }
        ReachSpec spec = gravity_from(system_, network_, ChamberId(i));
        spec.settles = true;
        gravity_.push_back(std::make_unique<Region>(network_, system_, std::move(spec)));
    }
    standing_.resize(system_.chambers.size());
    for (const Outlet& outlet : system_.outlets) {
        const bool on_port = outlet.lands.valid() && !outlet.fills.valid() &&
                             (system_[outlet.lands].kind == meaning::NodeKind::port ||
                              system_[outlet.lands].kind == meaning::NodeKind::tee ||
                              system_[outlet.lands].kind == meaning::NodeKind::end);
        landing_.push_back(on_port ? std::make_unique<Region>(
                                         network_, system_,
                                         ReachSpec{.starts = {network_.arrival(outlet.lands)},
                                                   .classes = static_cast<std::uint8_t>(pass | gas_fall | settle)})
                                   : nullptr);
    }
}

void Transport::refresh(std::vector<EdgeIndex> edges) {
    network_.refresh(edges, knowledge_);
}

// What is opened by hand takes in dirt: the bodies and runs that meet there.
void Transport::note_openings(Engine& engine) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (auto& [index, was] : openings_) {
        const Edge& edge = network_.edge(index);
        if (edge.open == was) {
            continue;
        }
        const Set opened = sets.without(edge.open, was);
        was = edge.open;
        if (sets.disjoint(opened, knowledge_.possible())) {
            continue;
        }
        const auto soil = [&](Vertex vertex) {
            const PocketIndex pocket = pocket_of_[vertex];
            if (pocket != no_pocket && pockets_[pocket].kind != PocketKind::chamber &&
                pockets_[pocket].kind != PocketKind::vessel) {
                inventory_.change(pocket, opened, cause(CauseKind::opened), [&](const Bounds& own) {
                    Bounds bounds = own;
                    bounds.most.back() = 1; // dirt takes no room: the least of the rest stands
                    proofs::opened(bounds.hygiene);
                    return bounds;
                });
            }
        };
        // What is unscrewed by hand comes off with what is in it.
        if (const PartId part = system_[edge.way].part;
            system_[edge.way].kind == WayKind::breach && part.valid() && pockets_.of_body(part) != no_pocket) {
            spill(engine, pockets_.of_body(part), system_[edge.way].outlet, opened);
        }
        const Vertex node = network_.drawn_vertex(system_[edge.way].from);
        for (const EdgeIndex beside : network_.out_of(node)) {
            soil(network_.edge(beside).to);
        }
        for (const EdgeIndex beside : network_.into(node)) {
            soil(network_.edge(beside).from);
        }
        if (system_[edge.way].part.valid() && network_.body_vertex(system_[edge.way].part) != none) {
            soil(network_.body_vertex(system_[edge.way].part));
        }
    }
}

// What a body held lands where its breach does; a rest hangs in it.
void Transport::spill(Engine& engine, PocketIndex body, OutletId outlet, Set opened) {
    instants::Diagrams& sets = knowledge_.diagrams();
    Carried held;
    inventory_.join_into(held, body, opened);
    for (const Piece& piece : inventory_.pieces(body)) {
        const Set where = sets.both(sets.both(piece.where, opened), knowledge_.possible());
        if (where != nothing && piece.bounds.gas.part < gas_after_emptying) {
            let_out_.push_back({outlet, body, {where, piece.bounds, piece.cause}});
        }
    }
    const double volume = pockets_[body].volume.value_or(unlimited) * (1 - std::clamp(held.gas.part, 0.0, 1.0));
    if (held.gas.part < gas_after_emptying) {
        for (const auto& [chamber, there] : engine.lands_in(outlet)) {
            take_in(chamber, held, sets.both(opened, there), CauseKind::opened);
            come_in(engine, chamber, volume, sets.both(opened, there), CauseKind::opened);
        }
    }
    inventory_.change(body, opened, cause(CauseKind::opened),
                      [](const Bounds& own) { return emptied(own, gas_after_emptying); });
}

void Transport::after_event(Engine& engine) {
    for (Bladder& bladder : bladders_) {
        bladder.pushed = nothing;
    }
    note_openings(engine);
    gather_streams(engine);
    gather_falls(engine);
    // What has come into a chamber may fall out of it at once.
    while (apply_all(engine) != inventory_.version() && gather_falls(engine)) {
    }
}

/// Bounds only ever widen while nothing moves, so that a few rounds are enough. Were two rules to take turns all the
/// same, it is better not to decide than never to end.
constexpr std::uint32_t most_rounds = 10'000;

// Applies all that runs, falls and presses until nothing changes; the version of the inventory before. A rule is
// applied again only where what it reads or writes has changed since it last began; what falls goes on falling for
// many events, so that this is kept from one to the next.
std::uint64_t Transport::apply_all(Engine& engine) {
    const std::uint64_t first = inventory_.version();
    std::vector<std::uint64_t> flowed(streams_.size(), 0);
    std::uint64_t before = 0;
    std::uint32_t rounds = 0;
    do {
        if (++rounds > most_rounds) {
            throw instants::BudgetSpent{.rounds = true};
        }
        before = inventory_.version();
        for (std::size_t i = 0; i < streams_.size(); ++i) {
            if (flowed[i] == 0 || lands_on_port(streams_[i].outlet) || has_changed(engine, streams_[i], flowed[i])) {
                flowed[i] = inventory_.version();
                flow(engine, streams_[i]);
            }
        }
        for (Fall& running : falls_) {
            if (running.applied == 0 || running.possible != knowledge_.possible() ||
                has_changed(engine, running, running.applied)) {
                running.applied = inventory_.version();
                running.possible = knowledge_.possible();
                fall(engine, running);
            }
        }
        note_hollows();
        for (std::uint32_t i = 0; i < standing_.size(); ++i) {
            stand_beside(engine, ChamberId(i));
        }
        for (std::size_t i = 0; i < regions_.size(); ++i) {
            dead_legs(engine, i);
        }
        bladders(engine);
    } while (inventory_.version() != before);
    return first;
}

bool Transport::has_changed(Engine& engine, OutletId outlet, std::uint64_t since) const {
    return std::ranges::any_of(engine.lands_in(outlet), [&](const auto& landing) {
        return inventory_.changed_at(pockets_.of_chamber(landing.first)) > since;
    });
}

bool Transport::has_changed(Engine& engine, const Stream& stream, std::uint64_t since) const {
    return has_changed(engine, stream.outlet, since) || std::ranges::any_of(stream.ways, [&](const Stream::Way& way) {
               return (way.origin.chamber.valid() &&
                       inventory_.changed_at(pockets_.of_chamber(way.origin.chamber)) > since) ||
                      std::ranges::any_of(way.places, [&](const Stream::Place& place) {
                          return inventory_.changed_at(place.pocket) > since;
                      });
           });
}

bool Transport::has_changed(Engine& engine, const Fall& running, std::uint64_t since) const {
    const OutletId outlet = network_.outlet_at(running.target);
    return inventory_.changed_at(pockets_.of_chamber(running.from)) > since ||
           (outlet.valid() && (lands_on_port(outlet) || has_changed(engine, outlet, since))) ||
           std::ranges::any_of(running.passages, [&](const Passage& passage) {
               return std::ranges::any_of(passage.steps, [&](const PassageStep& step) {
                   return pocket_of_[step.vertex] != no_pocket &&
                          inventory_.changed_at(pocket_of_[step.vertex]) > since;
               });
           });
}

void Transport::saw_holds(ChamberId chamber, FluidId fluid, Set where) {
    const std::uint32_t liquid = fluid.valid() ? inventory_.liquids().of(fluid) : UINT32_MAX;
    if (liquid != UINT32_MAX) {
        inventory_.holds(pockets_.of_chamber(chamber), liquid, where, cause(CauseKind::seen));
    }
}

void Transport::saw_empty(ChamberId chamber, Set where) {
    inventory_.empty(pockets_.of_chamber(chamber), where, cause(CauseKind::seen));
}

} // namespace curbstop::proofs
