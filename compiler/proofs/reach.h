// What one start reaches, kept up to date while edges open and shut. Two trees: over edges that are possibly open, and
// over edges that are surely open; where they differ, the exact set of configurations is worked out on what lies
// between. A removed edge costs what hung on it, an added one what it brings. Nothing is done before somebody asks:
// many a search is never asked, and what opened and shut again in between is looked at once. Must not know: what is
// being searched for, or why.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "instants/knowledge.h"
#include "proofs/network.h"

namespace curbstop::proofs {

enum class Direction : std::uint8_t { forward, backward };

struct ReachSpec {
    std::vector<Vertex> starts = {};
    Direction direction = Direction::forward;
    std::uint8_t classes = pass;
    const meaning::Quantity* reducers_pass_above = nullptr; ///< edges that limit to this or less are closed
    const meaning::Quantity* reducers_pass_below = nullptr; ///< edges that limit to less than this are closed
    std::optional<meaning::Quantity> relief_at = {};        ///< relief outlets of this setting are reached, no others
    bool all_reliefs = false;                               ///< relief outlets are reached whatever their setting
    std::vector<meaning::OutletId> without_air_at = {};     ///< no air comes in through these
    std::optional<meaning::Quantity> below = {};            ///< nothing runs out at this height or higher
    int not_kept_back = 0;                                  ///< one-way ways are passed back that protect to less
    std::array<Vertex, 2> blocked = {none, none};           ///< not to be entered
    /// What has come to rest in a chamber that is always vented goes no further, and runs that fall are passed
    /// downwards only. In a network of pockets.
    bool settles = false;
};

/// How what falls from a chamber is searched for: from its low ports, of one with a height from all, and never back
/// into it; of a vessel nothing starts.
[[nodiscard]] ReachSpec gravity_from(const meaning::System& system, const Network& network, meaning::ChamberId chamber);

class Reach {
  public:
    Reach(const Network& network, const meaning::System& system, ReachSpec spec);
    /// From now on take_changed() is kept.
    void keep_changes() { keeps_changes_ = true; }

    bool possible(Vertex vertex) {
        catch_up();
        return possible_.reached[vertex] != 0;
    }
    bool definite(Vertex vertex) {
        catch_up();
        return definite_.reached[vertex] != 0;
    }
    /// Both as they were when anything was last asked.
    bool was_possible(Vertex vertex) const { return possible_.reached[vertex] != 0; }
    bool was_definite(Vertex vertex) const { return definite_.reached[vertex] != 0; }
    /// The configurations in which the vertex is reached, exact within knowledge.possible().
    instants::Set exact(Vertex vertex, instants::Knowledge& knowledge);
    /// Works out exact() of all of `open` at once, which is less work than one after the other: these are the vertices
    /// that are possibly reached and not surely.
    void exact_everywhere(std::span<const Vertex> open, instants::Knowledge& knowledge);
    /// Vertices whose possible() or definite() has changed since this was last called; some may be told twice.
    std::vector<Vertex> take_changed() {
        catch_up();
        return std::exchange(changed_, {});
    }
    /// Outlets and the chambers' `out` that are possibly reached, in no order.
    const std::vector<Vertex>& marks() {
        catch_up();
        return marks_;
    }
    /// Takes in how the network has changed; every question does it by itself.
    void catch_up() {
        if (seen_ != network_.changes().size()) {
            update(std::span(network_.changes()).subspan(seen_));
            seen_ = network_.changes().size();
        }
    }
    /// Where the pressure that reducers are measured by is kept, after it has moved.
    void point_reducers_at(const meaning::Quantity& pressure) { spec_.reducers_pass_above = &pressure; }

    /// A path to a vertex over edges that `usable` accepts; empty if there is none. Edges in the order of the flow.
    std::vector<EdgeIndex> path(Vertex to, const std::function<bool(const Edge&)>& usable) const;
    bool uses(const Edge& edge) const {
        if ((edge.classes & spec_.classes) == 0 || far(edge) == spec_.blocked[0] || far(edge) == spec_.blocked[1]) {
            return false;
        }
        // Nearly all edges are asked no more than that.
        return (is_plain_ && edge.limits == nullptr && (edge.classes & (back | breath | relief)) == 0) ||
               uses_besides(edge);
    }
    const ReachSpec& spec() const { return spec_; }

  private:
    bool uses_besides(const Edge& edge) const;
    void update(std::span<const EdgeIndex> changed);
    void build();
    struct Tree {
        std::vector<char> reached;
        std::vector<EdgeIndex> parent; // none at the starts and outside
    };
    Vertex near(const Edge& edge) const { return spec_.direction == Direction::forward ? edge.from : edge.to; }
    Vertex far(const Edge& edge) const { return spec_.direction == Direction::forward ? edge.to : edge.from; }
    std::span<const EdgeIndex> onward(Vertex v) const {
        return spec_.direction == Direction::forward ? network_.out_of(v) : network_.into(v);
    }
    /// Where each of onward() leads to.
    std::span<const Vertex> ends_onward(Vertex v) const {
        return spec_.direction == Direction::forward ? network_.ends_out_of(v) : network_.ends_into(v);
    }
    /// Where each of backward() comes from.
    std::span<const Vertex> ends_backward(Vertex v) const {
        return spec_.direction == Direction::forward ? network_.ends_into(v) : network_.ends_out_of(v);
    }
    std::span<const EdgeIndex> backward(Vertex v) const {
        return spec_.direction == Direction::forward ? network_.into(v) : network_.out_of(v);
    }
    bool is_worked_out(Vertex vertex) const { return remembered_[vertex].first == version_; }
    instants::Set reached_over_edges(Vertex vertex, instants::Diagrams& diagrams) const;
    bool open(const Edge& edge, bool definite) const { return definite ? edge.definite : edge.possible; }
    /// Searches on from `queue_`.
    void extend(Tree& tree, bool definite);
    void reach_over(Tree& tree, bool definite, EdgeIndex opened);
    void take_out(Tree& tree, bool definite, EdgeIndex shut);
    void add(Tree& tree, bool definite, Vertex vertex, EdgeIndex by);
    void mark(Vertex vertex, bool reached);

    const Network& network_;
    const meaning::System& system_;
    ReachSpec spec_;
    bool is_plain_ = false; // asks nothing of an edge but its classes, limits and where it leads
    Tree possible_, definite_;
    std::vector<Vertex> marks_;
    std::vector<std::uint32_t> mark_at_; // per vertex: where it stands in marks_, one more; 0: it does not
    std::size_t seen_ = 0;               // of the network's changes
    std::uint64_t version_ = 1;          // grows with every change that could matter to an answer
    std::vector<std::pair<std::uint64_t, instants::Set>> remembered_; // per vertex: version and exact set
    std::vector<std::uint32_t> stamp_, member_;                       // marks of one search: equal to its number
    std::uint32_t now_ = 0;
    std::vector<Vertex> queue_, lost_; // of the search that is under way, kept so as not to ask for memory each time
    std::vector<EdgeIndex> touching_;  // likewise
    bool keeps_changes_ = false;
    std::vector<Vertex> changed_;
};

} // namespace curbstop::proofs
