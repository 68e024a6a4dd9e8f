// What the checker's graph searches answer about graphs on standard input, one JSON object for each, for a graph
// library to judge. A graph is numbers: how many vertices; how many roots, and these; how many targets, and these; how
// many edges, and of each from, to, whether it is open at first and whether it is open in the end.

#include "proofs/transport/blocks.h"
#include "proofs/transport/live_blocks.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <span>
#include <utility>
#include <vector>

using namespace curbstop::proofs;

namespace {

std::uint32_t number() {
    std::uint32_t value = 0;
    if (!(std::cin >> value)) {
        std::cerr << "a graph ends too early\n";
        std::exit(2);
    }
    return value;
}

std::vector<std::uint32_t> numbers() {
    std::vector<std::uint32_t> result(number());
    for (std::uint32_t& each : result) {
        each = number();
    }
    return result;
}

// One block as [what it hangs by, its other vertices], -1 for the root that leads to all roots.
template <typename Blocks>
std::string told(const Blocks& blocks, Block block) {
    std::vector<std::int64_t> vertices{blocks.top(block) == UINT32_MAX ? -1 : std::int64_t{blocks.top(block)}};
    for (const std::uint32_t member : blocks.members(block)) {
        vertices.push_back(member);
    }
    return fmt::format("[{}]", fmt::join(vertices, ","));
}

std::string told_all(const BlockTree& tree) {
    std::vector<std::string> all;
    for (Block block = 0; block < tree.block_count(); ++block) {
        all.push_back(told(tree, block));
    }
    return fmt::format("[{}]", fmt::join(all, ","));
}

std::string told_all(const LiveBlocks& live) {
    std::vector<std::string> all;
    for (Block block = 0; block < live.block_limit(); ++block) {
        if (!live.members(block).empty()) {
            all.push_back(told(live, block));
        }
    }
    return fmt::format("[{}]", fmt::join(all, ","));
}

// From the root down to each vertex, which blocks; empty for what is not reached.
std::string chains(const BlockTree& tree, std::uint32_t count) {
    std::vector<std::string> all;
    for (std::uint32_t vertex = 0; vertex < count; ++vertex) {
        all.push_back(fmt::format("[{}]", fmt::join(tree.chain(vertex), ",")));
    }
    return fmt::format("[{}]", fmt::join(all, ","));
}

void answer(std::uint32_t count) {
    const std::vector<std::uint32_t> roots = numbers();
    const std::vector<std::uint32_t> targets = numbers();
    std::vector<LiveBlocks::Arrow> arrows(number());
    std::vector<bool> before;
    std::vector<bool> after;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> open;
    std::vector<std::uint32_t> changed;
    for (std::uint32_t i = 0; i < arrows.size(); ++i) {
        const std::uint32_t from = number();
        const std::uint32_t to = number();
        arrows[i] = {from, to, i};
        before.push_back(number() != 0);
        after.push_back(number() != 0);
        if (after.back()) {
            open.emplace_back(from, to);
        }
        if (before.back() != after.back()) {
            changed.push_back(i);
        }
    }
    const Adjacency graph = Adjacency::from(count, open);
    const BlockTree tree(graph, roots);
    LiveBlocks live(count, arrows, static_cast<std::uint32_t>(arrows.size()), roots);
    live.rebuild([&](std::uint32_t name) { return before[name]; });
    live.update(changed, [&](std::uint32_t name) { return after[name]; });
    fmt::print(R"({{"blocks":{},"chains":{},"live":{},"every":[{}]}})"
               "\n",
               told_all(tree), chains(tree, count), told_all(live),
               fmt::join(on_every_way(graph, roots, targets), ","));
}

} // namespace

int main() {
    std::uint32_t count = 0;
    while (std::cin >> count) {
        answer(count);
    }
    return 0;
}
