#include "proofs/transport/excerpt.h"

#include <algorithm>

#include "proofs/transport/blocks.h"

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;

namespace {

/// So many sets of open ways are told apart on the way to one target.
constexpr std::size_t most_classes = 16;

/// The ways in the configurations `here`, where the edges of the excerpt are open for which `is_open` has a 1; with no
/// steps if there are none.
Passage ways_in(const Excerpt& excerpt, Set here, const std::vector<char>& is_open, bool ranks) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> open;
    open.reserve(excerpt.edges.size());
    for (std::size_t i = 0; i < excerpt.edges.size(); ++i) {
        if (is_open[i] != 0) {
            open.emplace_back(excerpt.edges[i].from, excerpt.edges[i].to);
        }
    }
    const Adjacency graph = Adjacency::from(static_cast<std::uint32_t>(excerpt.vertices.size()), open);
    const BlockTree found(graph, excerpt.roots);
    Passage passage{here, {}};
    if (!found.reached(excerpt.target)) {
        return passage;
    }
    std::vector<std::uint32_t> rank(excerpt.vertices.size(), 0);
    if (ranks) {
        std::uint32_t next = 0;
        for (const std::uint32_t passed : on_every_way(graph, excerpt.roots, excerpt.sinks)) {
            rank[passed] = ++next;
        }
    }
    for (const Block block : found.chain(excerpt.target)) {
        for (const std::uint32_t member : found.members(block)) {
            passage.steps.push_back({excerpt.vertices[member], found.depth(member), rank[member]});
        }
    }
    std::ranges::stable_sort(passage.steps, {}, &PassageStep::depth);
    return passage;
}

} // namespace

std::vector<Passage> passages_through(const Excerpt& excerpt, instants::Diagrams& sets) {
    // The different sets in which edges are open that are not always open, and per edge which of them is its own.
    constexpr std::uint32_t always = UINT32_MAX;
    std::vector<Set> varying;
    std::vector<std::uint32_t> of_edge;
    of_edge.reserve(excerpt.edges.size());
    for (const Excerpt::Edge& edge : excerpt.edges) {
        if (edge.open == everything) {
            of_edge.push_back(always);
            continue;
        }
        const auto known = std::ranges::find(varying, edge.open);
        of_edge.push_back(static_cast<std::uint32_t>(known - varying.begin()));
        if (known == varying.end()) {
            varying.push_back(edge.open);
        }
    }
    std::vector<Passage> passages;
    std::vector<char> is_open(excerpt.edges.size(), 1), holds(varying.size(), 0);
    const auto tell = [&](Set here, bool ranks) {
        Passage passage = ways_in(excerpt, here, is_open, ranks);
        if (!passage.steps.empty()) {
            passages.push_back(std::move(passage));
        }
    };
    Set left = excerpt.where;
    for (std::size_t told = 0; left != nothing && told < most_classes; ++told) {
        Set here = left;
        for (std::size_t i = 0; i < varying.size(); ++i) {
            const Set inside = sets.both(here, varying[i]);
            holds[i] = inside != nothing ? 1 : 0;
            here = inside != nothing ? inside : here; // of which it is open nowhere
        }
        for (std::size_t i = 0; i < is_open.size(); ++i) {
            is_open[i] = of_edge[i] == always ? 1 : holds[of_edge[i]];
        }
        tell(here, excerpt.ranks);
        left = sets.without(left, here);
    }
    if (left != nothing) {
        std::ranges::fill(is_open, 1);
        tell(left, false);
    }
    return passages;
}

} // namespace curbstop::proofs
