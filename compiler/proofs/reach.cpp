#include "proofs/reach.h"

#include <algorithm>

namespace curbstop::proofs {

using instants::Set;

ReachSpec gravity_from(const meaning::System& system, const Network& network, meaning::ChamberId id) {
    const meaning::Chamber& chamber = system[id];
    const ChamberVertices& vertices = network.chamber(id);
    ReachSpec spec{.classes = static_cast<std::uint8_t>(pass | gas_fall | settle | outlet)};
    const bool has_height = chamber.part.valid() && system[chamber.part].height.has_value();
    // What falls back into it is in it.
    spec.blocked = {vertices.in, has_height ? none : vertices.out};
    if (chamber.vessel) {
        return spec;
    }
    spec.starts = {vertices.low};
    if (has_height) {
        spec.starts = {vertices.out, vertices.low};
        spec.below = system[chamber.part].height;
    }
    return spec;
}

Reach::Reach(const Network& network, const meaning::System& system, ReachSpec spec)
    : network_(network)
    , system_(system)
    , spec_(std::move(spec))
    , is_plain_(!spec_.settles && !spec_.below)
    , seen_(network.changes().size()) {
    build();
}

bool Reach::uses_besides(const Edge& edge) const {
    if ((edge.classes & back) != 0 && system_[edge.way].protects >= spec_.not_kept_back) {
        return false;
    }
    if (spec_.settles) {
        const meaning::ChamberId chamber = network_.chamber_at_low(near(edge));
        if (chamber.valid() && system_.is_always_vented(chamber) &&
            std::ranges::find(spec_.starts, near(edge)) == spec_.starts.end()) {
            return false;
        }
        if (edge.way.valid() && system_[edge.way].run != UINT32_MAX) {
            const std::uint32_t index = system_[edge.way].run;
            const meaning::Run& run = system_.runs[index];
            const meaning::NodeId upper = run.falls_to == run.from ? run.to : run.from;
            if (run.falls_to.valid() &&
                (edge.to == network_.run_vertex(index) ? edge.from != network_.source_vertex(upper)
                                                       : edge.to != network_.arrival(run.falls_to))) {
                return false;
            }
        }
    }
    if (spec_.below && edge.way.valid() && system_[edge.way].outlet.valid()) {
        const auto& height = system_[system_[edge.way].outlet].height;
        if (height && !(height->value < spec_.below->value)) {
            return false;
        }
    }
    if (edge.limits != nullptr && spec_.reducers_pass_above != nullptr &&
        edge.limits->value <= spec_.reducers_pass_above->value) {
        return false;
    }
    if (edge.limits != nullptr && spec_.reducers_pass_below != nullptr &&
        edge.limits->value < spec_.reducers_pass_below->value) {
        return false;
    }
    if ((edge.classes & breath) != 0 && !spec_.without_air_at.empty() && edge.way.valid() &&
        system_[edge.way].outlet.valid() &&
        std::ranges::find(spec_.without_air_at, system_[edge.way].outlet) != spec_.without_air_at.end()) {
        return false;
    }
    if ((edge.classes & relief) != 0) {
        return spec_.all_reliefs || (spec_.relief_at && system_[edge.way].above->value == spec_.relief_at->value);
    }
    return true;
}

void Reach::mark(Vertex vertex, bool reached) {
    if (!network_.outlet_at(vertex).valid() && !network_.chamber_at_out(vertex).valid() &&
        !network_.chamber_at_low(vertex).valid()) {
        return;
    }
    if (reached) {
        marks_.push_back(vertex);
        mark_at_[vertex] = static_cast<std::uint32_t>(marks_.size());
    } else if (const std::uint32_t at = std::exchange(mark_at_[vertex], 0); at != 0) {
        marks_[at - 1] = marks_.back(); // the last takes its place
        mark_at_[marks_.back()] = at;
        mark_at_[vertex] = 0;
        marks_.pop_back();
    }
}

void Reach::add(Tree& tree, bool definite, Vertex vertex, EdgeIndex by) {
    tree.reached[vertex] = 1;
    tree.parent[vertex] = by;
    if (keeps_changes_) {
        changed_.push_back(vertex);
    }
    if (!definite) {
        mark(vertex, true);
    }
}

void Reach::extend(Tree& tree, bool definite) {
    while (!queue_.empty()) {
        const Vertex vertex = queue_.back();
        queue_.pop_back();
        const std::span<const EdgeIndex> edges = onward(vertex);
        const std::span<const Vertex> ends = ends_onward(vertex);
        for (std::size_t i = 0; i < edges.size(); ++i) {
            if (tree.reached[ends[i]] != 0) {
                continue;
            }
            const Edge& edge = network_.edge(edges[i]);
            if (open(edge, definite) && uses(edge)) {
                add(tree, definite, ends[i], edges[i]);
                queue_.push_back(ends[i]);
            }
        }
    }
}

void Reach::build() {
    mark_at_.assign(network_.vertex_count(), 0);
    remembered_.assign(network_.vertex_count(), {0, instants::nothing});
    stamp_.assign(network_.vertex_count(), 0);
    member_.assign(network_.vertex_count(), 0);
    for (Tree* tree : {&possible_, &definite_}) {
        tree->reached.assign(network_.vertex_count(), 0);
        tree->parent.assign(network_.vertex_count(), none);
        for (const Vertex start : spec_.starts) {
            if (tree->reached[start] == 0) {
                add(*tree, tree == &definite_, start, none);
                queue_.push_back(start);
            }
        }
        extend(*tree, tree == &definite_);
    }
}

void Reach::take_out(Tree& tree, bool definite, EdgeIndex shut) {
    const Vertex top = far(network_.edge(shut));
    if (tree.parent[top] != shut) {
        return;
    }
    lost_.clear();
    const auto lose = [&](Vertex vertex) {
        tree.reached[vertex] = 0;
        tree.parent[vertex] = none;
        if (keeps_changes_) {
            changed_.push_back(vertex);
        }
        if (!definite) {
            mark(vertex, false);
        }
        lost_.push_back(vertex);
    };
    lose(top);
    for (std::size_t i = 0; i < lost_.size(); ++i) {
        const std::span<const EdgeIndex> edges = onward(lost_[i]);
        const std::span<const Vertex> ends = ends_onward(lost_[i]);
        for (std::size_t k = 0; k < edges.size(); ++k) {
            if (tree.parent[ends[k]] == edges[k] && tree.reached[ends[k]] != 0) {
                lose(ends[k]);
            }
        }
    }
    // Starts have no parent and are never lost. What still hangs on something else is taken in again from there.
    for (const Vertex vertex : lost_) {
        if (tree.reached[vertex] != 0) {
            continue;
        }
        const std::span<const EdgeIndex> edges = backward(vertex);
        const std::span<const Vertex> ends = ends_backward(vertex);
        for (std::size_t k = 0; k < edges.size(); ++k) {
            if (tree.reached[ends[k]] == 0) {
                continue;
            }
            const Edge& edge = network_.edge(edges[k]);
            if (open(edge, definite) && uses(edge)) {
                add(tree, definite, vertex, edges[k]);
                queue_.assign(1, vertex);
                extend(tree, definite);
                break;
            }
        }
    }
}

// An edge that begins where nothing is reached changes nothing by itself, so most regions are done with a move at once;
// what is reached anew is searched on from over all edges as they then are.
void Reach::update(std::span<const EdgeIndex> changed) {
    touching_.clear();
    bool touched = false;
    for (const EdgeIndex index : changed) {
        const Edge& edge = network_.edge(index);
        const bool possibly = possible_.reached[near(edge)] != 0;
        if ((possibly || definite_.reached[near(edge)] != 0) && uses(edge)) {
            touching_.push_back(index);
            touched = touched || possibly;
        }
    }
    for (const EdgeIndex index : touching_) {
        if (!network_.edge(index).possible) {
            take_out(possible_, false, index);
        }
        if (!network_.edge(index).definite) {
            take_out(definite_, true, index);
        }
    }
    if (!touched) {
        return;
    }
    for (const EdgeIndex index : touching_) {
        const Edge& edge = network_.edge(index);
        if (edge.possible) {
            reach_over(possible_, false, index);
        }
        if (edge.definite) {
            reach_over(definite_, true, index);
        }
    }
    ++version_;
}

void Reach::reach_over(Tree& tree, bool definite, EdgeIndex opened) {
    const Edge& edge = network_.edge(opened);
    if (tree.reached[near(edge)] != 0 && tree.reached[far(edge)] == 0) {
        add(tree, definite, far(edge), opened);
        queue_.assign(1, far(edge));
        extend(tree, definite);
    }
}

Set Reach::exact(Vertex vertex, instants::Knowledge& knowledge) {
    catch_up();
    if (possible_.reached[vertex] == 0) {
        return instants::nothing;
    }
    if (definite_.reached[vertex] != 0) {
        return instants::everything;
    }
    if (is_worked_out(vertex)) {
        return remembered_[vertex].second;
    }
    // What lies between: vertices that are possibly reached, lead here, and are neither surely reached nor worked out.
    std::vector<Vertex> between{vertex};
    remembered_[vertex] = {version_, instants::nothing};
    for (std::size_t i = 0; i < between.size(); ++i) {
        for (const EdgeIndex index : backward(between[i])) {
            const Edge& edge = network_.edge(index);
            const Vertex before = near(edge);
            if (edge.possible && possible_.reached[before] != 0 && definite_.reached[before] == 0 &&
                !is_worked_out(before) && uses(edge)) {
                remembered_[before] = {version_, instants::nothing};
                between.push_back(before);
            }
        }
    }
    const std::uint32_t member = ++now_;
    for (const Vertex v : between) {
        member_[v] = member;
    }
    // Least fixpoint by worklist; the vertices nearest to what is surely reached come first. All that leads to one of
    // them is known or among them, so each of them is worked out.
    std::vector<Vertex> work(between.rbegin(), between.rend());
    std::vector<Vertex> next;
    while (!work.empty()) {
        next.clear();
        ++now_;
        for (const Vertex v : work) {
            const Set set = reached_over_edges(v, knowledge.diagrams());
            if (set == remembered_[v].second) {
                continue;
            }
            remembered_[v].second = set;
            for (const EdgeIndex index : onward(v)) {
                const Edge& edge = network_.edge(index);
                const Vertex after = far(edge);
                if (edge.possible && member_[after] == member && stamp_[after] != now_ && uses(edge)) {
                    stamp_[after] = now_;
                    next.push_back(after);
                }
            }
        }
        work.swap(next);
    }
    return remembered_[vertex].second;
}

// Where it is reached, by what is written down so far of it and of all that leads to it.
Set Reach::reached_over_edges(Vertex vertex, instants::Diagrams& diagrams) const {
    Set set = remembered_[vertex].second;
    for (const EdgeIndex index : backward(vertex)) {
        const Edge& edge = network_.edge(index);
        const Vertex before = near(edge);
        if (edge.possible && possible_.reached[before] != 0 && uses(edge)) {
            const Set from = definite_.reached[before] != 0 ? instants::everything : remembered_[before].second;
            if (from != instants::nothing) {
                set = diagrams.either(set, diagrams.both(from, edge.open));
            }
        }
    }
    return set;
}

void Reach::exact_everywhere(std::span<const Vertex> open, instants::Knowledge& knowledge) {
    catch_up();
    if (std::ranges::all_of(open, [&](Vertex vertex) { return is_worked_out(vertex); })) {
        return;
    }
    for (const Vertex vertex : open) {
        remembered_[vertex] = {version_, instants::nothing};
    }
    // Least fixpoint, as above; what is told first is what lies next to what is surely reached.
    std::vector<Vertex> work;
    const std::uint32_t waiting = ++now_;
    for (const Vertex vertex : open) {
        for (const EdgeIndex index : backward(vertex)) {
            const Edge& edge = network_.edge(index);
            if (edge.possible && definite_.reached[near(edge)] != 0 && stamp_[vertex] != waiting && uses(edge)) {
                stamp_[vertex] = waiting;
                work.push_back(vertex);
            }
        }
    }
    for (const Vertex start : spec_.starts) {
        if (definite_.reached[start] == 0 && possible_.reached[start] != 0) {
            work.push_back(start);
        }
    }
    for (std::size_t i = 0; i < work.size(); ++i) {
        const Vertex vertex = work[i];
        stamp_[vertex] = 0;
        const Set set = reached_over_edges(vertex, knowledge.diagrams());
        if (set == remembered_[vertex].second) {
            continue;
        }
        remembered_[vertex].second = set;
        for (const EdgeIndex index : onward(vertex)) {
            const Edge& edge = network_.edge(index);
            const Vertex after = far(edge);
            if (edge.possible && definite_.reached[after] == 0 && stamp_[after] != waiting && uses(edge)) {
                stamp_[after] = waiting;
                work.push_back(after);
            }
        }
    }
}

std::vector<EdgeIndex> Reach::path(Vertex to, const std::function<bool(const Edge&)>& usable) const {
    std::vector<EdgeIndex> parent(network_.vertex_count(), none);
    std::vector<char> seen(network_.vertex_count(), 0);
    std::vector<Vertex> queue(spec_.starts.begin(), spec_.starts.end());
    for (const Vertex start : spec_.starts) {
        seen[start] = 1;
    }
    for (std::size_t i = 0; i < queue.size() && seen[to] == 0; ++i) {
        for (const EdgeIndex index : onward(queue[i])) {
            const Edge& edge = network_.edge(index);
            if (seen[far(edge)] == 0 && uses(edge) && usable(edge)) {
                seen[far(edge)] = 1;
                parent[far(edge)] = index;
                queue.push_back(far(edge));
            }
        }
    }
    std::vector<EdgeIndex> edges;
    if (seen[to] == 0) {
        return edges;
    }
    for (Vertex at = to; parent[at] != none; at = near(network_.edge(parent[at]))) {
        edges.push_back(parent[at]);
    }
    if (spec_.direction == Direction::forward) {
        std::ranges::reverse(edges);
    }
    return edges;
}

} // namespace curbstop::proofs
