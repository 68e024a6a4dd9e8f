#include "proofs/extent.h"

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;

Extent::Extent(const Network& network, std::uint8_t classes)
    : network_(network)
    , classes_(classes)
    , value_(network.vertex_count(), nothing)
    , rests_on_(network.vertex_count(), none)
    , reached_by_(network.vertex_count(), none)
    , noted_(network.vertex_count(), 0)
    , is_candidate_(network.vertex_count(), 0) {}

void Extent::start(std::uint32_t label, Vertex vertex, Set set) {
    for (Start& known : starts_) {
        if (known.label == label && known.vertex == vertex) {
            known.wanted = set;
            return;
        }
    }
    starts_.push_back({label, vertex, nothing, set});
}

void Extent::candidate(Vertex vertex) {
    if (is_candidate_[vertex] == 0) {
        is_candidate_[vertex] = 1;
        candidates_.push_back(vertex);
    }
}

void Extent::set(Vertex vertex, Set value, EdgeIndex rests_on, std::uint32_t by) {
    if (noted_[vertex] != update_) {
        noted_[vertex] = update_;
        changes_.push_back({vertex, value_[vertex]});
    }
    // What rested on something else rests on both: only one that had nothing can rest on this alone. So whatever a
    // vertex rests on has had its set for longer, and nothing rests on itself in a circle.
    rests_on_[vertex] = value_[vertex] == nothing ? rests_on : on_several;
    value_[vertex] = value;
    reached_by_[vertex] = by;
}

void Extent::lose(Vertex vertex) {
    if (value_[vertex] == nothing) {
        return;
    }
    if (noted_[vertex] != update_) {
        noted_[vertex] = update_;
        changes_.push_back({vertex, value_[vertex]});
    }
    value_[vertex] = nothing;
    rests_on_[vertex] = none;
    lost_.push_back(vertex);
    candidate(vertex);
}

void Extent::lose_what_rests_on(std::span<const EdgeIndex> shut) {
    for (const EdgeIndex index : shut) {
        const Edge& edge = network_.edge(index);
        if (uses(edge) && (rests_on_[edge.to] == index || rests_on_[edge.to] == on_several)) {
            lose(edge.to);
        }
    }
    for (std::size_t i = 0; i < lost_.size(); ++i) {
        for (const EdgeIndex index : network_.out_of(lost_[i])) {
            const Edge& edge = network_.edge(index);
            if (uses(edge) &&
                (rests_on_[edge.to] == index || (rests_on_[edge.to] == on_several && edge.open != nothing))) {
                lose(edge.to);
            }
        }
    }
    lost_.clear();
}

// What is reached in all configurations comes first: it is most, it costs no diagrams, and it rests on one edge each.
void Extent::take_in_full(instants::Knowledge& knowledge) {
    std::vector<Vertex> queue;
    for (const Start& start : starts_) {
        if (value_[start.vertex] != everything && start.set != nothing &&
            knowledge.diagrams().within(knowledge.possible(), start.set)) {
            set(start.vertex, everything, on_start, start.label);
            queue.push_back(start.vertex);
        }
    }
    for (const Vertex vertex : candidates_) {
        for (const EdgeIndex index : network_.into(vertex)) {
            const Edge& edge = network_.edge(index);
            if (value_[vertex] != everything && edge.definite && value_[edge.from] == everything && uses(edge)) {
                set(vertex, everything, index, reached_by_[edge.from]);
                queue.push_back(vertex);
            }
        }
    }
    while (!queue.empty()) {
        const Vertex vertex = queue.back();
        queue.pop_back();
        for (const EdgeIndex index : network_.out_of(vertex)) {
            const Edge& edge = network_.edge(index);
            if (value_[edge.to] == everything || !uses(edge) || edge.open == nothing) {
                continue;
            }
            if (edge.definite) {
                set(edge.to, everything, index, reached_by_[vertex]);
                queue.push_back(edge.to);
            } else {
                candidate(edge.to);
            }
        }
    }
}

void Extent::take_in(instants::Knowledge& knowledge) {
    instants::Diagrams& sets = knowledge.diagrams();
    for (const Start& start : starts_) {
        if (start.set != nothing && value_[start.vertex] != everything) {
            candidate(start.vertex);
        }
    }
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
        const Vertex vertex = candidates_[i];
        is_candidate_[vertex] = 0;
        if (value_[vertex] == everything) {
            continue;
        }
        Set sum = value_[vertex];
        EdgeIndex rests_on = none;
        std::uint32_t by = none;
        const auto take = [&](Set more, EdgeIndex from, std::uint32_t label) {
            const Set with = more == nothing ? sum : sets.either(sum, more);
            if (with != sum) {
                rests_on = rests_on == none ? from : on_several;
                sum = with;
                by = label;
            }
        };
        for (const Start& start : starts_) {
            if (start.vertex == vertex) {
                take(start.set, on_start, start.label);
            }
        }
        for (const EdgeIndex index : network_.into(vertex)) {
            const Edge& edge = network_.edge(index);
            if (value_[edge.from] != nothing && edge.open != nothing && uses(edge)) {
                take(sets.both(value_[edge.from], edge.open), index, reached_by_[edge.from]);
            }
        }
        if (sum == value_[vertex] || sets.disjoint(sets.without(sum, value_[vertex]), knowledge.possible())) {
            continue;
        }
        if (sets.within(knowledge.possible(), sum)) {
            sum = everything;
        }
        set(vertex, sum, rests_on, by);
        for (const EdgeIndex index : network_.out_of(vertex)) {
            const Edge& edge = network_.edge(index);
            if (edge.open != nothing && value_[edge.to] != everything && uses(edge)) {
                candidate(edge.to);
            }
        }
    }
    candidates_.clear();
}

void Extent::update(std::span<const EdgeIndex> shut, std::span<const EdgeIndex> opened,
                    instants::Knowledge& knowledge) {
    ++update_;
    changes_.clear();
    for (Start& start : starts_) {
        if (start.wanted == start.set) {
            continue;
        }
        if (!knowledge.diagrams().within(start.set, start.wanted) &&
            (rests_on_[start.vertex] == on_start || rests_on_[start.vertex] == on_several)) {
            lose(start.vertex);
        }
        start.set = start.wanted;
        candidate(start.vertex);
    }
    lose_what_rests_on(shut);
    for (const EdgeIndex index : opened) {
        const Edge& edge = network_.edge(index);
        if (uses(edge) && value_[edge.from] != nothing && value_[edge.to] != everything) {
            candidate(edge.to);
        }
    }
    if (candidates_.empty()) {
        return;
    }
    take_in_full(knowledge);
    take_in(knowledge);
    std::erase_if(changes_, [&](const Change& change) { return value_[change.vertex] == change.before; });
}

} // namespace curbstop::proofs
