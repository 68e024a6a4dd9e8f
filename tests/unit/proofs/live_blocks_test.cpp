#include "proofs/transport/live_blocks.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <set>

using namespace curbstop::proofs;

namespace {

using Edges = std::vector<std::pair<std::uint32_t, std::uint32_t>>;
using Chain = std::vector<std::set<std::uint32_t>>;

// The chain of a vertex, as what its blocks hold, from the vertex up.
template <typename Blocks>
Chain chain_of(const Blocks& blocks, std::uint32_t vertex) {
    Chain chain;
    while (vertex != UINT32_MAX) {
        const Block home = blocks.home(vertex);
        const auto members = blocks.members(home);
        chain.emplace_back(members.begin(), members.end());
        vertex = blocks.top(home);
    }
    return chain;
}

} // namespace

// Worked out anew after every change by BlockTree, which has its own test against plain reachability.
TEST_CASE("blocks that are kept up to date are those that are worked out anew") {
    std::mt19937 random(29);
    int parted = 0;
    for (int round = 0; round < 300; ++round) {
        const std::uint32_t count = 3 + random() % 12;
        std::vector<LiveBlocks::Arrow> all;
        for (std::uint32_t i = 0; i < count + random() % count; ++i) {
            const auto a = static_cast<std::uint32_t>(random() % count);
            const auto b = static_cast<std::uint32_t>(random() % count);
            all.push_back({a, b, static_cast<std::uint32_t>(all.size())});
            if (random() % 2 == 0) {
                all.push_back({b, a, static_cast<std::uint32_t>(all.size())});
            }
        }
        std::vector<std::uint32_t> roots{static_cast<std::uint32_t>(random() % count)};
        if (random() % 3 == 0) {
            roots.push_back((roots.front() + 1) % count);
        }
        std::vector<char> open(all.size());
        for (char& edge : open) {
            edge = static_cast<char>(random() % 2);
        }
        const auto is_open = [&](std::uint32_t name) { return open[name] != 0; };
        LiveBlocks live(count, all, static_cast<std::uint32_t>(all.size()), roots);
        live.rebuild(is_open);
        for (int move = 0; move < 12; ++move) {
            std::vector<std::uint32_t> changed;
            for (std::uint32_t i = 0; i < 1 + random() % 3; ++i) {
                changed.push_back(static_cast<std::uint32_t>(random() % all.size()));
                open[changed.back()] ^= 1;
            }
            std::vector<Chain> before(count);
            for (std::uint32_t vertex = 0; vertex < count; ++vertex) {
                before[vertex] = live.reached(vertex) ? chain_of(live, vertex) : Chain{};
            }
            live.take_changed();
            live.update(changed, is_open);
            Edges now;
            for (const LiveBlocks::Arrow& edge : all) {
                if (is_open(edge.name)) {
                    now.emplace_back(edge.from, edge.to);
                }
            }
            const BlockTree anew(Adjacency::from(count, now), roots);
            const std::vector<Block> told = live.take_changed();
            for (std::uint32_t vertex = 0; vertex < count; ++vertex) {
                REQUIRE(live.reached(vertex) == anew.reached(vertex));
                if (!live.reached(vertex)) {
                    continue;
                }
                const Chain chain = chain_of(live, vertex);
                REQUIRE(chain == chain_of(anew, vertex));
                parted += chain.size() > 2 ? 1 : 0;
                // What has another block than before is told.
                if (before[vertex].empty() || before[vertex].front() != chain.front()) {
                    CHECK(std::ranges::find(told, live.home(vertex)) != told.end());
                }
                // What hangs from a block is found from it, and has a lower number.
                if (const std::uint32_t top = live.top(live.home(vertex)); top != UINT32_MAX) {
                    bool found = false;
                    live.for_each_below(live.home(top), [&](Block below) {
                        found = found || below == live.home(vertex);
                        CHECK(below < live.home(top));
                    });
                    CHECK(found);
                }
            }
        }
    }
    CHECK(parted > 1000);
}
