// The pipework as a directed graph whose edges are open in sets of configurations. Joins that never move are one
// vertex; a chamber is three, so that what an open vent means is said by edges and not by special cases in every
// search. Must not know: sources, flows, obligations.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "instants/knowledge.h"
#include "meaning/system.h"

namespace curbstop::proofs {

using Vertex = std::uint32_t;
using EdgeIndex = std::uint32_t;
inline constexpr std::uint32_t none = UINT32_MAX;

/// Which searches may use an edge.
enum EdgeClass : std::uint8_t {
    pass = 1,           ///< an open way: pressure, drawing, gravity
    gas_fall = 2,       ///< a free fall into a port or chamber: gas, gravity
    settle = 4,         ///< a vented chamber is left at its low ports: gravity
    outlet = 8,         ///< to the vertex of an outlet that ends in the open, a vessel or a place
    outlet_inside = 16, ///< to the vertex of an outlet that lands in a port or chamber, or fills a vented chamber
    relief = 32,        ///< to the vertex of a relief valve's outlet
    breath = 64,        ///< from the vertex `air`, where air can get in: drawing
    back = 128,         ///< against the arrow of a one-way way: backflow. In a network of pockets
};

/// Whether an edge depends on a vessel standing where its way drops what leaves it.
enum class Caught : std::uint8_t { either, yes, no };

struct Edge {
    Vertex from = 0;
    Vertex to = 0;
    std::uint8_t classes = pass;
    meaning::WayId way = {};                   ///< none for edges inside a chamber
    const meaning::Quantity* limits = nullptr; ///< of a reducer
    meaning::ExpressionId condition = meaning::Expressions::always();
    meaning::ChamberId only_unvented = {}; ///< and only while that chamber has no open vent
    Caught caught = Caught::either;
    instants::Set open = instants::nothing; ///< as things stand
    bool possible = false;                  ///< open in some possible configuration
    bool definite = false;                  ///< open in all of them
};

/// The three vertices of a chamber: `in` is entered, `out` is left while it is not vented and drawn from, `low` is left
/// by gravity.
struct ChamberVertices {
    Vertex in = none, out = none, low = none;
};

/// How fine the graph is. `joined`: what is always open is one vertex. `pockets`: every node is its own vertex, and
/// runs and the bodies of parts are vertices on the ways that pass them.
enum class Grain : std::uint8_t { joined, pockets };

class Network {
  public:
    Network(const meaning::System& system, instants::Knowledge& knowledge, Grain grain = Grain::joined);

    std::size_t vertex_count() const { return vertex_count_; }
    const std::vector<Edge>& edges() const { return edges_; }
    const Edge& edge(EdgeIndex index) const { return edges_[index]; }
    std::span<const EdgeIndex> out_of(Vertex vertex) const { return slice(out_start_, out_edges_, vertex); }
    std::span<const EdgeIndex> into(Vertex vertex) const { return slice(in_start_, in_edges_, vertex); }
    /// Where each of out_of() leads to, and each of into() comes from: searches mostly need no more of an edge.
    std::span<const Vertex> ends_out_of(Vertex vertex) const { return slice(out_start_, out_ends_, vertex); }
    std::span<const Vertex> ends_into(Vertex vertex) const { return slice(in_start_, in_ends_, vertex); }

    /// Where something that presses at `node` starts; where something that draws there does.
    Vertex source_vertex(meaning::NodeId node) const { return node_out_[node.value]; }
    Vertex drawn_vertex(meaning::NodeId node) const { return node_in_[node.value]; }
    /// Where something that arrives at `node` is.
    Vertex arrival(meaning::NodeId node) const { return node_in_[node.value]; }
    Vertex outlet_vertex(meaning::OutletId outlet) const { return outlet_start_ + outlet.value; }
    meaning::OutletId outlet_at(Vertex vertex) const {
        return vertex >= outlet_start_ && vertex < outlet_start_ + outlet_count_
                   ? meaning::OutletId(vertex - outlet_start_)
                   : meaning::OutletId{};
    }
    const ChamberVertices& chamber(meaning::ChamberId chamber) const { return chambers_[chamber.value]; }
    Vertex air() const { return air_; }
    /// The chamber whose `out` vertex this is.
    meaning::ChamberId chamber_at_out(Vertex vertex) const { return chamber_at_out_[vertex]; }
    /// The chamber that liquid at this vertex has settled in.
    meaning::ChamberId chamber_at_low(Vertex vertex) const { return chamber_at_low_[vertex]; }
    /// Vessels that may stand under an outlet, and how they then stand.
    const std::vector<std::pair<meaning::VariableId, meaning::ValueSet>>& catchers(meaning::OutletId outlet) const {
        return catchers_[outlet.value];
    }
    /// Where what the outlet lets out does not come to where it lands: a vessel stands between, or that is left out.
    instants::Set caught(meaning::OutletId outlet, instants::Knowledge& knowledge) const;
    /// Of a network of pockets: the vertex of a run; of a part's body, none where it has no body.
    Vertex run_vertex(std::uint32_t run) const { return run_start_ + run; }
    Vertex body_vertex(meaning::PartId part) const { return bodies_[part.value]; }
    /// The vertex of the run or body that lies on a way; none where there is none.
    Vertex passed(meaning::WayId way) const;
    /// The nodes that were joined into a vertex.
    const std::vector<meaning::NodeId>& nodes_of(Vertex vertex) const { return nodes_of_[vertex]; }

    /// Edges whose condition speaks of the variable.
    const std::vector<EdgeIndex>& edges_of(meaning::VariableId variable) const { return by_variable_[variable.value]; }
    /// Edges that are not open, or shut, in every configuration.
    const std::vector<EdgeIndex>& varying() const { return varying_; }

    /// Works out anew how an edge stands. Says whether its set, or its being possible or definite, changed.
    bool refresh(EdgeIndex edge, instants::Knowledge& knowledge);
    /// The same of several, which may be told twice. Leaves those that changed.
    void refresh(std::vector<EdgeIndex>& edges, instants::Knowledge& knowledge);
    /// All edges that ever changed, in order: what is worked out from the network reads on from where it stopped.
    const std::vector<EdgeIndex>& changes() const { return changes_; }
    /// Grows whenever a way that leads into the outlet opens or shuts; of what is no outlet it is 0.
    std::uint64_t version_into(Vertex vertex) const {
        const meaning::OutletId outlet = outlet_at(vertex);
        return outlet.valid() ? versions_[outlet.value] : 0;
    }

  private:
    static std::span<const EdgeIndex> slice(const std::vector<std::uint32_t>& start, const std::vector<EdgeIndex>& list,
                                            Vertex vertex) {
        return {list.data() + start[vertex], list.data() + start[vertex + 1]};
    }
    void number_vertices();
    void find_catchers();
    meaning::ExpressionId landing_exists(meaning::OutletId outlet) const;
    void add_outgoing(meaning::WayId id);
    void add_edges();
    void add_edge(Edge edge);
    void push_edge(const Edge& edge);
    void add_pocket_vertices();
    void add_bladders();
    void index_edges();

    const meaning::System& system_;
    Grain grain_;
    std::size_t vertex_count_ = 0;
    std::vector<Edge> edges_;
    std::vector<std::uint32_t> out_start_, in_start_;
    std::vector<EdgeIndex> out_edges_, in_edges_;
    std::vector<Vertex> out_ends_, in_ends_;
    std::vector<Vertex> node_in_, node_out_;
    std::vector<ChamberVertices> chambers_;
    std::vector<meaning::ChamberId> chamber_at_out_, chamber_at_low_;
    std::vector<std::uint64_t> versions_; // per outlet
    std::vector<EdgeIndex> changes_;
    std::vector<std::vector<meaning::NodeId>> nodes_of_;
    /// Per outlet: vessels that may stand under it, and in which of their values they do.
    std::vector<std::vector<std::pair<meaning::VariableId, meaning::ValueSet>>> catchers_;
    Vertex run_start_ = none;
    std::vector<Vertex> bodies_;
    Vertex outlet_start_ = 0;
    std::uint32_t outlet_count_ = 0;
    Vertex air_ = 0;
    std::vector<std::vector<EdgeIndex>> by_variable_;
    std::vector<EdgeIndex> varying_;
    std::vector<bool> is_varying_;
};

} // namespace curbstop::proofs
