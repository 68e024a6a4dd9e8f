#include "proofs/transport/blocks.h"

#include <algorithm>
#include <numeric>

namespace curbstop::proofs {

namespace {

constexpr std::uint32_t unseen = UINT32_MAX;

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
    std::vector<char> seen(graph.count(), 0);
    for (const std::uint32_t vertex : roots) {
        seen[vertex] = 1;
    }
    std::vector<std::pair<std::uint32_t, std::uint32_t>> edges;
    for (const std::uint32_t vertex : roots) {
        edges.emplace_back(root, vertex);
        edges.emplace_back(vertex, root);
    }
    for (std::size_t i = 0; i < reached.size(); ++i) {
        for (const std::uint32_t to : graph.of(reached[i])) {
            edges.emplace_back(reached[i], to);
            edges.emplace_back(to, reached[i]);
            if (seen[to] == 0) {
                seen[to] = 1;
                reached.push_back(to);
            }
        }
    }
    const Adjacency both = Adjacency::from(graph.count() + 1, edges);
    // Low points. A block is complete when its first edge from `at` has been searched through.
    std::vector<std::uint32_t> number(graph.count() + 1, unseen), low(graph.count() + 1, 0);
    std::vector<std::uint32_t> next_edge(both.start.begin(), both.start.end() - 1);
    std::vector<std::uint32_t> path{root}, waiting;
    std::vector<std::uint32_t> parent(graph.count() + 1, unseen);
    std::uint32_t now = 0;
    number[root] = low[root] = now++;
    member_start_.push_back(0);
    while (!path.empty()) {
        const std::uint32_t at = path.back();
        if (next_edge[at] < both.start[at + 1]) {
            const std::uint32_t to = both.next[next_edge[at]++];
            if (number[to] == unseen) {
                number[to] = low[to] = now++;
                parent[to] = at;
                path.push_back(to);
                waiting.push_back(to);
            } else if (to != parent[at]) {
                low[at] = std::min(low[at], number[to]);
            }
            continue;
        }
        path.pop_back();
        const std::uint32_t above = parent[at];
        if (above == unseen) {
            continue;
        }
        low[above] = std::min(low[above], low[at]);
        if (low[at] >= number[above]) {
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
    std::vector<std::pair<std::uint32_t, std::uint32_t>> edges;
    for (const std::uint32_t vertex : roots) {
        edges.emplace_back(root, vertex);
    }
    for (std::uint32_t v = 0; v < graph.count(); ++v) {
        for (const std::uint32_t to : graph.of(v)) {
            edges.emplace_back(v, to);
        }
    }
    const Adjacency forward = Adjacency::from(count, edges);
    for (auto& [from, to] : edges) {
        std::swap(from, to);
    }
    const Adjacency backward = Adjacency::from(count, edges);
    // Reverse postorder of what is reached.
    std::vector<std::uint32_t> order, rank(count, unseen);
    std::vector<char> seen(count, 0);
    std::vector<std::uint32_t> path{root}, next_edge(forward.start.begin(), forward.start.end() - 1);
    seen[root] = 1;
    while (!path.empty()) {
        const std::uint32_t at = path.back();
        if (next_edge[at] < forward.start[at + 1]) {
            const std::uint32_t to = forward.next[next_edge[at]++];
            if (seen[to] == 0) {
                seen[to] = 1;
                path.push_back(to);
            }
            continue;
        }
        path.pop_back();
        order.push_back(at);
    }
    std::ranges::reverse(order);
    for (std::uint32_t i = 0; i < order.size(); ++i) {
        rank[order[i]] = i;
    }
    std::vector<std::uint32_t> above(order.size(), unseen); // by rank
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
            for (const std::uint32_t from : backward.of(order[i])) {
                const std::uint32_t r = rank[from];
                if (r != unseen && above[r] != unseen) {
                    best = best == unseen ? r : meet(best, r);
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
