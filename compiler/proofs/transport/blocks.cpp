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

// One way is found; what every way passes lies on it. Along it, `furthest` is how far ahead one gets from what has been
// passed without touching the way in between: a vertex that nobody gets past is passed by all. Every edge is looked at
// twice.
std::vector<std::uint32_t> on_every_way(const Adjacency& graph, std::span<const std::uint32_t> roots,
                                        std::span<const std::uint32_t> targets) {
    std::vector<char> is_target(graph.count(), 0);
    for (const std::uint32_t target : targets) {
        is_target[target] = 1;
    }
    std::vector<std::uint32_t> reached, before(graph.count(), unseen); // a root comes before itself
    reached.reserve(graph.count());
    const auto reach = [&](std::uint32_t vertex, std::uint32_t from) {
        if (before[vertex] == unseen) {
            before[vertex] = from;
            reached.push_back(vertex);
        }
    };
    for (const std::uint32_t root : roots) {
        reach(root, root);
    }
    std::size_t first = 0;
    for (; first < reached.size() && is_target[reached[first]] == 0; ++first) {
        for (const std::uint32_t to : graph.of(reached[first])) {
            reach(to, reached[first]);
        }
    }
    if (first == reached.size()) {
        return {};
    }
    std::vector<std::uint32_t> way{reached[first]};
    while (before[way.back()] != way.back()) {
        way.push_back(before[way.back()]);
    }
    std::ranges::reverse(way);
    const auto end = static_cast<std::uint32_t>(way.size()); // beyond the last: whatever is at a target is there
    std::vector<std::uint32_t> place(graph.count(), unseen); // on the way; of what has been passed beside it: `end`
    for (std::uint32_t i = 0; i < end; ++i) {
        place[way[i]] = i;
    }
    std::uint32_t furthest = 0;
    std::vector<std::uint32_t>& waiting = reached;
    waiting.clear();
    const auto touch = [&](std::uint32_t vertex) {
        if (place[vertex] == unseen) {
            place[vertex] = end;
            waiting.push_back(vertex);
        } else if (place[vertex] != end) {
            furthest = std::max(furthest, place[vertex]);
        }
    };
    for (const std::uint32_t root : roots) {
        touch(root);
    }
    std::vector<std::uint32_t> result;
    for (std::uint32_t i = 0; i < end; ++i) {
        const auto leave = [&](std::uint32_t vertex) {
            furthest = is_target[vertex] != 0 ? end : furthest;
            for (const std::uint32_t to : graph.of(vertex)) {
                touch(to);
            }
        };
        const auto work_off = [&] {
            while (!waiting.empty()) {
                const std::uint32_t vertex = waiting.back();
                waiting.pop_back();
                leave(vertex);
            }
        };
        work_off(); // beside the way, from the roots or from what came before
        if (furthest <= i) {
            result.push_back(way[i]);
        }
        leave(way[i]);
    }
    std::ranges::reverse(result);
    return result;
}

} // namespace curbstop::proofs
