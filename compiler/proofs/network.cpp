#include "proofs/network.h"

#include <algorithm>
#include <numeric>

#include "meaning/expression_builder.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::Knowledge;

namespace {

// Union-find with path halving.
class Joins {
  public:
    explicit Joins(std::size_t size)
        : parent_(size) {
        std::iota(parent_.begin(), parent_.end(), 0U);
    }
    std::uint32_t find(std::uint32_t x) {
        while (parent_[x] != x) {
            parent_[x] = parent_[parent_[x]];
            x = parent_[x];
        }
        return x;
    }
    void join(std::uint32_t a, std::uint32_t b) { parent_[find(a)] = find(b); }

  private:
    std::vector<std::uint32_t> parent_;
};

bool is_body(const System& system, NodeId node) {
    return node.valid() &&
           (system[node].kind == meaning::NodeKind::chamber || system[node].kind == meaning::NodeKind::vessel);
}

bool lands_inside(const System& system, const Outlet& outlet) {
    if (outlet.fills.valid()) {
        return true;
    }
    const meaning::NodeKind kind = outlet.lands.valid() ? system[outlet.lands].kind : meaning::NodeKind::place;
    return kind != meaning::NodeKind::place && kind != meaning::NodeKind::vessel;
}

} // namespace

Network::Network(const System& system, Knowledge& knowledge, Grain grain)
    : system_(system)
    , grain_(grain) {
    by_variable_.resize(system.variables.size());
    number_vertices();
    find_catchers();
    add_edges();
    index_edges();
    for (EdgeIndex i = 0; i < edges_.size(); ++i) {
        std::vector<VariableId> variables;
        variables_in(system_, edges_[i].condition, variables);
        if (edges_[i].only_unvented.valid()) {
            variables_in(system_, system_[edges_[i].only_unvented].vented, variables);
        }
        if (edges_[i].caught != Caught::either) {
            for (const auto& [vessel, under] : catchers_[system_[edges_[i].way].outlet.value]) {
                variables.push_back(vessel);
            }
        }
        for (const VariableId variable : variables) {
            by_variable_[variable.value].push_back(i);
        }
        refresh(i, knowledge);
    }
}

void Network::number_vertices() {
    Joins joins(system_.nodes.size());
    for (const Way& way : system_.ways) {
        if (grain_ == Grain::joined && way.kind == WayKind::two_way && way.condition == Expressions::always() &&
            !way.limits && !is_body(system_, way.from) && !is_body(system_, way.to)) {
            joins.join(way.from.value, way.to.value);
        }
    }
    constexpr Vertex unnumbered = none;
    std::vector<Vertex> number(system_.nodes.size(), unnumbered);
    node_in_.resize(system_.nodes.size());
    for (std::uint32_t i = 0; i < system_.nodes.size(); ++i) {
        Vertex& root = number[joins.find(i)];
        if (root == unnumbered) {
            root = static_cast<Vertex>(vertex_count_++);
        }
        node_in_[i] = root;
    }
    node_out_ = node_in_;
    chambers_.resize(system_.chambers.size());
    for (std::size_t i = 0; i < system_.chambers.size(); ++i) {
        const Chamber& chamber = system_.chambers[i];
        ChamberVertices& vertices = chambers_[i];
        vertices.in = node_in_[chamber.node.value];
        vertices.out = static_cast<Vertex>(vertex_count_++);
        vertices.low = static_cast<Vertex>(vertex_count_++);
        node_out_[chamber.node.value] = vertices.out;
    }
    outlet_start_ = static_cast<Vertex>(vertex_count_);
    outlet_count_ = static_cast<std::uint32_t>(system_.outlets.size());
    vertex_count_ += outlet_count_;
    air_ = static_cast<Vertex>(vertex_count_++);
    if (grain_ == Grain::pockets) {
        add_pocket_vertices();
    }
    nodes_of_.resize(vertex_count_);
    for (std::uint32_t i = 0; i < system_.nodes.size(); ++i) {
        nodes_of_[node_in_[i]].emplace_back(i);
    }
    chamber_at_out_.resize(vertex_count_);
    chamber_at_low_.resize(vertex_count_);
    versions_.assign(system_.outlets.size(), 0);
    for (std::size_t i = 0; i < chambers_.size(); ++i) {
        chamber_at_out_[chambers_[i].out] = ChamberId(i);
        chamber_at_low_[chambers_[i].low] = ChamberId(i);
    }
}

void Network::add_pocket_vertices() {
    run_start_ = static_cast<Vertex>(vertex_count_);
    vertex_count_ += system_.runs.size();
    bodies_.assign(system_.parts.size(), none);
    for (std::size_t i = 0; i < system_.parts.size(); ++i) {
        if (system_.parts[i].body) {
            bodies_[i] = static_cast<Vertex>(vertex_count_++);
        }
    }
}

// The pocket that whatever takes this way passes; none in a coarse graph, for a coupling, or where a port joins its
// own chamber.
Vertex Network::passed(WayId id) const {
    if (grain_ == Grain::joined || !id.valid()) {
        return none;
    }
    const Way& way = system_[id];
    if (way.kind == WayKind::breach || way.kind == WayKind::open_end || way.kind == WayKind::vent) {
        return none; // it opens where the way begins
    }
    if (way.run != UINT32_MAX) {
        return run_start_ + way.run;
    }
    const auto is_end = [&](NodeId node) { return node.valid() && system_[node].kind == meaning::NodeKind::end; };
    if (is_end(way.from) && is_end(way.to) && system_[way.from].part != system_[way.to].part) {
        return none; // a coupling
    }
    const auto joins = [&](NodeId port, NodeId body) {
        return is_body(system_, body) && port.valid() && system_[port].level_of == body;
    };
    if (!way.part.valid() || joins(way.from, way.to) || joins(way.to, way.from)) {
        return none;
    }
    return bodies_[way.part.value];
}

void Network::push_edge(const Edge& edge) {
    const Vertex pocket = (edge.classes & breath) != 0 ? none : passed(edge.way);
    if (pocket == none) {
        edges_.push_back(edge);
        return;
    }
    Edge half = edge;
    half.to = pocket;
    edges_.push_back(half);
    half.from = pocket;
    half.to = edge.to;
    edges_.push_back(half);
}

void Network::add_edge(Edge edge) {
    if (edge.from == edge.to) {
        return;
    }
    push_edge(edge);
    // What leaves a chamber by no port leaves it at the bottom.
    const ChamberId chamber = chamber_at_out_[edge.from];
    if (!chamber.valid() || !edge.way.valid() || (edge.classes & breath) != 0) {
        return;
    }
    const Way& way = system_[edge.way];
    const NodeId body = system_[chamber].node;
    const NodeId other = way.from == body ? way.to : way.from;
    if (other.valid() && system_[other].level_of == body) {
        return;
    }
    edge.from = chambers_[chamber.value].low;
    if (edge.classes == pass) {
        edge.classes = settle;
    }
    edge.only_unvented = {};
    push_edge(edge);
}

void Network::add_edges() {
    for (std::uint32_t i = 0; i < system_.ways.size(); ++i) {
        const Way& way = system_.ways[i];
        const WayId id(i);
        Edge edge{.way = id, .condition = way.condition};
        switch (way.kind) {
        case WayKind::two_way: {
            edge.from = node_out_[way.from.value];
            edge.to = node_in_[way.to.value];
            edge.limits = way.limits ? &*way.limits : nullptr;
            Edge back = edge;
            back.from = node_out_[way.to.value];
            back.to = node_in_[way.from.value];
            // A vented chamber is neither drawn from nor left at ports above its level.
            const auto high_port = [&](NodeId port, NodeId body) {
                return is_body(system_, body) && system_[port].level_of == body &&
                       (system_[port].level == Level::brim || system_[port].level == Level::top);
            };
            if (high_port(way.from, way.to)) {
                back.only_unvented = system_[way.to].chamber;
            }
            add_edge(edge);
            add_edge(back);
            const NodeId body = is_body(system_, way.to) ? way.to : is_body(system_, way.from) ? way.from : NodeId{};
            const NodeId port = body == way.to ? way.from : way.to;
            if (body.valid() && system_[port].level_of == body) {
                const ChamberId chamber = system_[body].chamber;
                if (system_[port].level == Level::low) {
                    Edge low = edge;
                    low.from = chambers_[chamber.value].low;
                    low.to = node_in_[port.value];
                    low.classes = settle;
                    add_edge(low);
                }
                if ((system_[port].level == Level::brim || system_[port].level == Level::top) &&
                    system_[chamber].vented != Expressions::never()) {
                    // Drawn on above its level, a vented chamber gives air, and now and then liquid.
                    const Edge air_in{.from = air_,
                                      .to = node_in_[port.value],
                                      .classes = breath,
                                      .way = id,
                                      .condition = system_[chamber].vented};
                    Edge liquid_in = air_in;
                    liquid_in.from = chambers_[chamber.value].out;
                    add_edge(air_in);
                    add_edge(liquid_in);
                }
            }
            break;
        }
        case WayKind::one_way:
        case WayKind::lift:
            edge.from = node_out_[way.from.value];
            edge.to = node_in_[way.to.value];
            edge.limits = way.limits ? &*way.limits : nullptr;
            add_edge(edge);
            if (grain_ == Grain::pockets) {
                add_edge({.from = node_out_[way.to.value],
                          .to = node_in_[way.from.value],
                          .classes = back,
                          .way = id,
                          .condition = way.condition});
            }
            break;
        case WayKind::fall:
        case WayKind::breach:
        case WayKind::open_end:
            add_outgoing(id);
            break;
        case WayKind::vent:
            if (!is_body(system_, way.from)) {
                add_edge({.from = air_,
                          .to = node_in_[way.from.value],
                          .classes = breath,
                          .way = id,
                          .condition = way.condition});
            }
            break;
        }
    }
    for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
        const ChamberVertices& vertices = chambers_[i];
        Edge through{.from = vertices.in, .to = vertices.out};
        through.only_unvented = ChamberId(i);
        add_edge(through);
        // Whether vented or not, what falls into a chamber is in it; left at the low ports it is by gravity alone.
        add_edge({.from = vertices.in, .to = vertices.low, .classes = settle});
    }
    if (grain_ == Grain::pockets) {
        add_bladders();
    }
    for (std::uint32_t i = 0; i < system_.outlets.size(); ++i) {
        const Outlet& fill = system_.outlets[i];
        if (fill.fills.valid()) {
            const std::uint8_t classes = system_[fill.fills].vessel ? outlet : outlet_inside;
            add_edge({.from = chambers_[fill.fills.value].in,
                      .to = outlet_vertex(OutletId(i)),
                      .classes = classes,
                      .condition = system_[fill.fills].vented});
        }
    }
}

// The body of a part that only stores hangs on its port, while it is not shut off from it.
void Network::add_bladders() {
    for (const Source& source : system_.sources) {
        if (source.kind == SourceKind::store && bodies_[source.part.value] != none) {
            Edge edge{.from = node_out_[source.node.value], .to = bodies_[source.part.value], .condition = source.on};
            edges_.push_back(edge);
            edge.from = bodies_[source.part.value];
            edge.to = node_in_[source.node.value];
            edges_.push_back(edge);
        }
    }
}

void Network::find_catchers() {
    catchers_.resize(system_.outlets.size());
    for (const Chamber& vessel : system_.chambers) {
        if (!vessel.vessel) {
            continue;
        }
        for (std::size_t i = 0; i < system_.outlets.size(); ++i) {
            const Outlet& outlet = system_.outlets[i];
            ValueSet under = 0;
            const Variable& whereabouts = system_[vessel.whereabouts];
            for (std::size_t value = 1; outlet.below && outlet.part.valid() && value < whereabouts.values.size();
                 ++value) {
                if (system_[whereabouts.values[value].partner].part == outlet.part) {
                    under |= ValueSet{1} << value;
                }
            }
            if (under != 0) {
                catchers_[i].emplace_back(vessel.whereabouts, under);
            }
        }
    }
}

void Network::add_outgoing(WayId id) {
    const Way& way = system_[id];
    const Outlet& outlet_of = system_[way.outlet];
    Edge edge{
        .from = node_out_[way.from.value], .to = outlet_vertex(way.outlet), .way = id, .condition = way.condition};
    if (way.above) {
        edge.classes = relief;
        add_edge(edge);
        return;
    }
    add_edge({.from = air_, .to = node_out_[way.from.value], .classes = breath, .way = id, .condition = way.condition});
    if (!lands_inside(system_, outlet_of)) {
        edge.classes = outlet;
        add_edge(edge);
        return;
    }
    // It goes on from where it lands, unless a vessel stands between.
    edge.classes = outlet_inside;
    edge.caught = Caught::no;
    add_edge(edge);
    if (!catchers_[way.outlet.value].empty() || landing_exists(way.outlet) != Expressions::always()) {
        Edge into_vessel = edge;
        into_vessel.classes = outlet;
        into_vessel.caught = Caught::yes;
        add_edge(into_vessel);
    }
    Edge on = edge;
    on.to = node_in_[outlet_of.lands.value];
    on.classes = way.kind == WayKind::fall ? gas_fall : settle; // what is open by hand lets gas out
    if (const ChamberId chamber = system_[outlet_of.lands].chamber; chamber.valid()) {
        // What falls into a vented chamber has come out; liquid settles there, gas is gone.
        Edge settles = on;
        settles.to = chambers_[chamber.value].low;
        settles.classes = settle;
        add_edge(settles);
        on.to = chambers_[chamber.value].out;
        on.only_unvented = chamber;
    }
    add_edge(on);
}

void Network::index_edges() {
    const auto index = [&](Vertex Edge::*near, Vertex Edge::*far, std::vector<std::uint32_t>& start,
                           std::vector<EdgeIndex>& list, std::vector<Vertex>& ends) {
        start.assign(vertex_count_ + 1, 0);
        for (const Edge& edge : edges_) {
            ++start[edge.*near + 1];
        }
        std::partial_sum(start.begin(), start.end(), start.begin());
        list.resize(edges_.size());
        ends.resize(edges_.size());
        std::vector<std::uint32_t> next(start.begin(), start.end() - 1);
        for (EdgeIndex i = 0; i < edges_.size(); ++i) {
            const std::uint32_t at = next[edges_[i].*near]++;
            list[at] = i;
            ends[at] = edges_[i].*far;
        }
    };
    index(&Edge::from, &Edge::to, out_start_, out_edges_, out_ends_);
    index(&Edge::to, &Edge::from, in_start_, in_edges_, in_ends_);
    is_varying_.resize(edges_.size());
}

ExpressionId Network::landing_exists(OutletId outlet) const {
    const NodeId lands = system_[outlet].lands;
    const bool in_part = lands.valid() && system_[lands].part.valid();
    return in_part ? system_[system_[lands].part].exists : Expressions::always();
}

instants::Set Network::caught(OutletId outlet, Knowledge& knowledge) const {
    // What the variant lacks catches nothing: it falls to the ground.
    instants::Set result = knowledge.diagrams().complement(knowledge.truth(landing_exists(outlet)));
    for (const auto& [vessel, under] : catchers_[outlet.value]) {
        result = knowledge.diagrams().either(result, knowledge.stands(vessel, under));
    }
    return result;
}

void Network::refresh(std::vector<EdgeIndex>& edges, Knowledge& knowledge) {
    std::ranges::sort(edges);
    edges.erase(std::unique(edges.begin(), edges.end()), edges.end());
    std::erase_if(edges, [&](EdgeIndex edge) { return !refresh(edge, knowledge); });
}

bool Network::refresh(EdgeIndex index, Knowledge& knowledge) {
    Edge& edge = edges_[index];
    instants::Diagrams& diagrams = knowledge.diagrams();
    instants::Set open = knowledge.truth(edge.condition);
    if (edge.only_unvented.valid()) {
        open = diagrams.without(open, knowledge.truth(system_[edge.only_unvented].vented));
    }
    if (edge.caught != Caught::either) {
        const instants::Set in_vessel = caught(system_[edge.way].outlet, knowledge);
        open = edge.caught == Caught::yes ? diagrams.both(open, in_vessel) : diagrams.without(open, in_vessel);
    }
    const bool possible = open != instants::nothing && !diagrams.disjoint(open, knowledge.possible());
    const bool definite = possible && diagrams.within(knowledge.possible(), open);
    const bool changed = open != edge.open || possible != edge.possible || definite != edge.definite;
    edge.open = open;
    edge.possible = possible;
    edge.definite = definite;
    if (changed) {
        changes_.push_back(index);
    }
    if (const meaning::OutletId outlet = outlet_at(edge.to); changed && outlet.valid()) {
        ++versions_[outlet.value];
    }
    if (open > instants::everything && !is_varying_[index]) {
        is_varying_[index] = true;
        varying_.push_back(index);
    }
    return changed;
}

} // namespace curbstop::proofs
