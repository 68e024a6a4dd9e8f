#include "proofs/transport/blocks.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <random>

using namespace curbstop::proofs;

namespace {

using Edges = std::vector<std::pair<std::uint32_t, std::uint32_t>>;

Edges both_ways(const Edges& edges) {
    Edges result;
    for (const auto& [a, b] : edges) {
        result.emplace_back(a, b);
        result.emplace_back(b, a);
    }
    return result;
}

// What is reached from the roots without one vertex.
std::vector<bool> reached_without(std::uint32_t count, const Edges& edges, const std::vector<std::uint32_t>& roots,
                                  std::uint32_t without) {
    std::vector<bool> seen(count);
    std::vector<std::uint32_t> queue;
    for (const std::uint32_t root : roots) {
        if (root != without && !seen[root]) {
            seen[root] = true;
            queue.push_back(root);
        }
    }
    for (std::size_t i = 0; i < queue.size(); ++i) {
        for (const auto& [from, to] : edges) {
            if (from == queue[i] && to != without && !seen[to]) {
                seen[to] = true;
                queue.push_back(to);
            }
        }
    }
    return seen;
}

} // namespace

// The example of the Boost Graph Library, example/biconnected_components.cpp: nine vertices A to I, four components,
// articulation points A, B and G.
TEST_CASE("the published example has four blocks that hang together at A, B and G") {
    const Edges edges{{0, 5}, {0, 1}, {0, 6}, {1, 2}, {1, 3}, {1, 4}, {2, 3}, {4, 5}, {6, 8}, {6, 7}, {7, 8}};
    const BlockTree tree(Adjacency::from(9, both_ways(edges)), std::array<std::uint32_t, 1>{0});
    // One more block joins the root to what leads to all roots.
    CHECK(tree.block_count() == 5);
    std::vector<std::uint32_t> tops;
    for (Block block = 0; block < tree.block_count(); ++block) {
        if (tree.top(block) != UINT32_MAX) {
            tops.push_back(tree.top(block));
        }
    }
    std::ranges::sort(tops);
    CHECK(tops == std::vector<std::uint32_t>{0, 0, 1, 6});
    CHECK(tree.chain(2).size() == 3);
    CHECK(tree.depth(8) == 2);
}

TEST_CASE("a vertex is before another unless taking one out parts them") {
    std::mt19937 random(11);
    for (int round = 0; round < 400; ++round) {
        const std::uint32_t count = 3 + random() % 8;
        Edges edges;
        for (std::uint32_t i = 0; i < count + random() % count; ++i) {
            edges.emplace_back(random() % count, random() % count);
        }
        const Edges both = both_ways(edges);
        const std::vector<std::uint32_t> roots{0};
        const BlockTree tree(Adjacency::from(count, both), roots);
        const std::vector<bool> reached = reached_without(count, both, roots, UINT32_MAX);
        for (std::uint32_t target = 0; target < count; ++target) {
            REQUIRE(tree.reached(target) == reached[target]);
            if (!reached[target]) {
                continue;
            }
            std::vector<std::uint32_t> chain;
            for (const Block block : tree.chain(target)) {
                const auto members = tree.members(block);
                chain.insert(chain.end(), members.begin(), members.end());
            }
            for (const std::uint32_t p : chain) {
                for (const std::uint32_t q : chain) {
                    bool parted = false; // taking out c leaves q (or is q) and loses p
                    for (std::uint32_t c = 0; c < count && p != q; ++c) {
                        const std::vector<bool> left = reached_without(count, both, roots, c);
                        parted = parted || (c != p && !left[p] && (c == q || left[q]));
                    }
                    INFO(count << " " << target << " " << p << " " << q);
                    CHECK((tree.depth(p) <= tree.depth(q)) == !parted);
                }
            }
        }
    }
}

TEST_CASE("what every way passes is what no way can do without") {
    std::mt19937 random(5);
    for (int round = 0; round < 600; ++round) {
        const std::uint32_t count = 3 + random() % 9;
        Edges edges;
        for (std::uint32_t i = 0; i < count + random() % (2 * count); ++i) {
            edges.emplace_back(random() % count, random() % count);
        }
        std::vector<std::uint32_t> roots{static_cast<std::uint32_t>(random() % count)};
        if (random() % 3 == 0) {
            roots.push_back(random() % count);
        }
        std::vector<std::uint32_t> targets{static_cast<std::uint32_t>(random() % count)};
        if (random() % 2 == 0) {
            targets.push_back(random() % count);
        }
        const std::vector<bool> reached = reached_without(count, edges, roots, UINT32_MAX);
        const bool any = std::ranges::any_of(targets, [&](std::uint32_t target) { return reached[target]; });
        std::vector<std::uint32_t> needed;
        for (std::uint32_t v = 0; v < count && any; ++v) {
            const std::vector<bool> left = reached_without(count, edges, roots, v);
            if (std::ranges::all_of(targets, [&](std::uint32_t target) { return !reached[target] || !left[target]; })) {
                needed.push_back(v);
            }
        }
        std::vector<std::uint32_t> found = on_every_way(Adjacency::from(count, edges), roots, targets);
        std::ranges::sort(found);
        CHECK(found == needed);
    }
}
