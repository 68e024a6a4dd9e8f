// The blocks (biconnected components) of what is reached from a root, as a tree that hangs from it. What lies on some
// way without turning back between the root and a vertex is the chain of blocks up from that vertex; what lies on every
// one of them is where they meet. After R. Tarjan, "Depth-first search and linear graph algorithms", SIAM Journal on
// Computing 1 (1972).
// Must not know: fluids, pockets, what the edges are.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace curbstop::proofs {

/// A directed graph as lists: `next[start[v] .. start[v + 1]]` are the vertices that v leads to.
struct Adjacency {
    std::vector<std::uint32_t> start = {0};
    std::vector<std::uint32_t> next;

    /// From pairs (from, to) of vertices below `count`.
    static Adjacency from(std::uint32_t count, std::span<const std::pair<std::uint32_t, std::uint32_t>> edges);
    std::span<const std::uint32_t> of(std::uint32_t v) const {
        return {next.data() + start[v], next.data() + start[v + 1]};
    }
    std::uint32_t count() const { return static_cast<std::uint32_t>(start.size()) - 1; }
};

using Block = std::uint32_t;
inline constexpr std::uint32_t no_block = UINT32_MAX;

/// The blocks of the vertices that can be reached along the arrows from the roots; within them arrows do not count.
class BlockTree {
  public:
    BlockTree() = default;
    BlockTree(const Adjacency& graph, std::span<const std::uint32_t> roots);

    bool reached(std::uint32_t vertex) const { return depth_of_vertex_[vertex] != no_block; }
    /// How many blocks lie between the root and the vertex; 0 for a root. Less is before, the same is not parted.
    std::uint32_t depth(std::uint32_t vertex) const { return depth_of_vertex_[vertex]; }
    /// The block in which a vertex hangs from the root.
    Block home(std::uint32_t vertex) const { return home_[vertex]; }
    /// The vertex by which a block hangs: it belongs to the block above as well. UINT32_MAX where that is the root.
    std::uint32_t top(Block block) const { return top_[block]; }
    /// The vertices that have this block as their home.
    std::span<const std::uint32_t> members(Block block) const {
        return {members_.data() + member_start_[block], members_.data() + member_start_[block + 1]};
    }
    std::uint32_t block_count() const { return static_cast<std::uint32_t>(top_.size()); }
    /// The blocks from the root down to the vertex. Empty for what is not reached.
    std::vector<Block> chain(std::uint32_t vertex) const;

  private:
    std::vector<Block> home_;
    std::vector<std::uint32_t> depth_of_vertex_;
    std::vector<std::uint32_t> top_;
    std::vector<std::uint32_t> member_start_, members_;
};

/// The vertices that every way along the arrows from the roots to any of the targets passes, targets and roots
/// included where that is so. Empty where no target is reached.
std::vector<std::uint32_t> on_every_way(const Adjacency& graph, std::span<const std::uint32_t> roots,
                                        std::span<const std::uint32_t> targets);

} // namespace curbstop::proofs
