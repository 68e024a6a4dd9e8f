#include "proofs/transport/blocks.h"

#include <algorithm>
#include <numeric>

namespace curbstop::proofs {

namespace {

constexpr std::uint32_t unseen = UINT32_MAX;

// The edges between what is reached, along and against the arrows, with one more vertex that leads to the roots.
// `reached` begins with the roots; the rest is added.
Adjacency both_ways(const Adjacency& graph, std::vector<std::uint32_t>& reached) {
    const std::size_t roots = reached.size();
    const std::uint32_t root = graph.count();
    std::vector<char> seen(graph.count(), 0);
    Adjacency both;
    both.start.assign(graph.count() + 2, 0);
    const auto count = [&](std::uint32_t from, std::uint32_t to) {
        ++both.start[from + 1];
        ++both.start[to + 1];
    };
    for (std::size_t i = 0; i < roots; ++i) {
        seen[reached[i]] = 1;
        count(root, reached[i]);
    }
    for (std::size_t i = 0; i < reached.size(); ++i) {
        for (const std::uint32_t to : graph.of(reached[i])) {
            count(reached[i], to);
            if (seen[to] == 0) {
                seen[to] = 1;
                reached.push_back(to);
            }
        }
    }
    std::partial_sum(both.start.begin(), both.start.end(), both.start.begin());
    both.next.resize(both.start.back());
    std::vector<std::uint32_t> at(both.start.begin(), both.start.end() - 1);
    const auto add = [&](std::uint32_t from, std::uint32_t to) {
        both.next[at[from]++] = to;
        both.next[at[to]++] = from;
    };
    for (std::size_t i = 0; i < roots; ++i) {
        add(root, reached[i]);
    }
    for (const std::uint32_t from : reached) {
        for (const std::uint32_t to : graph.of(from)) {
            add(from, to);
        }
    }
    return both;
}

} // namespace

Adjacency Adjacency::from(std::uint32_t count, std::span<const std::pair<std::uint32_t, std::uint32_t>> edges) {
    Adjacency graph;
    graph.start.assign(count + 1, 0);
    for (const auto& [from, to] : edges) {
        ++graph.start[from + 1];
    }
    std::partial_sum(graph.start.begin(), graph.start.end(), graph.start.begin());
    graph.next.resize(edges.size());
    std::vector<std::uint32_t> at(graph.start.begin(), graph.start.end() - 1);
    for (const auto& [from, to] : edges) {
        graph.next[at[from]++] = to;
    }
    return graph;
}

BlockTree::BlockTree(const Adjacency& graph, std::span<const std::uint32_t> roots)
    : home_(graph.count(), no_block)
    , depth_of_vertex_(graph.count(), no_block) {
    const std::uint32_t root = graph.count(); // leads to all the roots, so that they need not be one
    std::vector<std::uint32_t> reached(roots.begin(), roots.end());
    reached.reserve(graph.count() + roots.size());
    const Adjacency both = both_ways(graph, reached);
    // Low points. A block is complete when its first edge from `at` has been searched through.
    struct Search {
        std::uint32_t number = unseen, low = 0, next_edge = 0, parent = unseen;
    };
    std::vector<Search> search(graph.count() + 1);
    for (std::uint32_t vertex = 0; vertex <= root; ++vertex) {
        search[vertex].next_edge = both.start[vertex];
    }
    std::vector<std::uint32_t> path, waiting;
    path.reserve(reached.size() + 1);
    waiting.reserve(reached.size());
    members_.reserve(reached.size());
    std::uint32_t now = 0;
    path.push_back(root);
    search[root].number = search[root].low = now++;
    member_start_.push_back(0);
    while (!path.empty()) {
        const std::uint32_t at = path.back();
        Search& here = search[at];
        if (here.next_edge < both.start[at + 1]) {
            const std::uint32_t to = both.next[here.next_edge++];
            Search& there = search[to];
            if (there.number == unseen) {
                there.number = there.low = now++;
                there.parent = at;
                path.push_back(to);
                waiting.push_back(to);
            } else if (to != here.parent) {
                here.low = std::min(here.low, there.number);
            }
            continue;
        }
        path.pop_back();
        const std::uint32_t above = here.parent;
        if (above == unseen) {
            continue;
        }
        search[above].low = std::min(search[above].low, here.low);
        if (here.low >= search[above].number) {
            const Block block = static_cast<Block>(top_.size());
            top_.push_back(above == root ? unseen : above);
            while (true) {
                const std::uint32_t member = waiting.back();
                waiting.pop_back();
                home_[member] = block;
                members_.push_back(member);
                if (member == at) {
                    break;
                }
            }
            member_start_.push_back(static_cast<std::uint32_t>(members_.size()));
        }
    }
    // Blocks come out from below; tops are above, so depths follow from the last block to the first.
    std::vector<std::uint32_t> depth(top_.size(), 0);
    for (std::size_t i = top_.size(); i-- > 0;) {
        depth[i] = top_[i] == unseen ? 0 : depth[home_[top_[i]]] + 1;
        for (const std::uint32_t member : members(static_cast<Block>(i))) {
            depth_of_vertex_[member] = depth[i];
        }
    }
}

std::vector<Block> BlockTree::chain(std::uint32_t vertex) const {
    std::vector<Block> blocks;
    while (vertex != unseen && home_[vertex] != no_block) {
        blocks.push_back(home_[vertex]);
        vertex = top_[home_[vertex]];
    }
    std::ranges::reverse(blocks);
    return blocks;
}

// Dominators by the fixpoint of K. Cooper, T. Harvey and K. Kennedy, "A Simple, Fast Dominance Algorithm" (2001).
std::vector<std::uint32_t> on_every_way(const Adjacency& graph, std::span<const std::uint32_t> roots,
                                        std::span<const std::uint32_t> targets) {
    const std::uint32_t root = graph.count();
    const std::uint32_t count = root + 1;
    const auto onward = [&](std::uint32_t vertex) { return vertex == root ? roots : graph.of(vertex); };
    // Reverse postorder of what is reached.
    std::vector<std::uint32_t> order, rank(count, unseen);
    std::vector<char> seen(count, 0);
    std::vector<std::pair<std::uint32_t, std::uint32_t>> path{{root, 0}}; // with how many edges have been followed
    order.reserve(count);
    path.reserve(count);
    seen[root] = 1;
    while (!path.empty()) {
        auto& [at, followed] = path.back();
        if (const auto next = onward(at); followed < next.size()) {
            const std::uint32_t to = next[followed++];
            if (seen[to] == 0) {
                seen[to] = 1;
                path.emplace_back(to, 0);
            }
            continue;
        }
        order.push_back(at);
        path.pop_back();
    }
    std::ranges::reverse(order);
    for (std::uint32_t i = 0; i < order.size(); ++i) {
        rank[order[i]] = i;
    }
    // By rank from here on, which keeps what leads to a vertex beside it.
    std::vector<std::pair<std::uint32_t, std::uint32_t>> edges;
    edges.reserve(graph.next.size() + roots.size());
    for (std::uint32_t i = 0; i < order.size(); ++i) {
        for (const std::uint32_t to : onward(order[i])) {
            edges.emplace_back(rank[to], i);
        }
    }
    const Adjacency backward = Adjacency::from(static_cast<std::uint32_t>(order.size()), edges);
    std::vector<std::uint32_t> above(order.size(), unseen);
    above[0] = 0;
    const auto meet = [&](std::uint32_t a, std::uint32_t b) {
        while (a != b) {
            (a > b ? a : b) = above[a > b ? a : b];
        }
        return a;
    };
    for (bool changed = true; changed;) {
        changed = false;
        for (std::uint32_t i = 1; i < order.size(); ++i) {
            std::uint32_t best = unseen;
            for (const std::uint32_t from : backward.of(i)) {
                if (above[from] != unseen) {
                    best = best == unseen ? from : meet(best, from);
                }
            }
            changed = changed || best != above[i];
            above[i] = best;
        }
    }
    std::uint32_t common = unseen;
    for (const std::uint32_t target : targets) {
        if (rank[target] != unseen) {
            common = common == unseen ? rank[target] : meet(common, rank[target]);
        }
    }
    std::vector<std::uint32_t> result;
    for (std::uint32_t at = common; at != unseen && at != 0; at = above[at]) {
        result.push_back(order[at]);
    }
    return result;
}

} // namespace curbstop::proofs
