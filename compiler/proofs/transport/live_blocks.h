// The blocks of what a root reaches, kept up to date while edges open and shut. The blocks of all edges that could ever
// be open part the graph once and for all: an edge that opens or shuts changes only the blocks inside its own part, and
// whether what hangs from that part is reached. So a move costs the part it happens in, not the network.
// Must not know: fluids, pockets, what the edges are.
#pragma once

#include <vector>

#include "proofs/transport/blocks.h"
#include "proofs/transport/function_ref.h"

namespace curbstop::proofs {

class LiveBlocks {
  public:
    struct Arrow {
        std::uint32_t from = 0, to = 0;
        std::uint32_t name = 0; ///< what the user calls this edge: below `names`
    };

    LiveBlocks() = default;
    /// Of vertices below `count`; `edges` are all that could ever be open. None counts as open until update() is told.
    LiveBlocks(std::uint32_t count, std::span<const Arrow> edges, std::uint32_t names,
               std::span<const std::uint32_t> roots);

    /// Edges (by name) that have opened or shut; names that are no edge are passed over.
    void update(std::span<const std::uint32_t> changed, FunctionRef<bool(std::uint32_t)> is_open);
    /// Everything anew.
    void rebuild(FunctionRef<bool(std::uint32_t)> is_open);
    /// Whether an edge of this name could ever be open here.
    bool has(std::uint32_t name) const { return part_of_edge_[name] != no_block; }

    bool reached(std::uint32_t vertex) const { return home_[vertex] != no_block; }
    /// As BlockTree: where a vertex hangs from the root, what a block hangs by, what has it as its home.
    Block home(std::uint32_t vertex) const { return home_[vertex]; }
    std::uint32_t top(Block block) const { return top_[block]; }
    std::span<const std::uint32_t> members(Block block) const {
        return {members_.data() + member_start_[block], member_count_[block]};
    }
    /// Blocks are numbered below this; not every number is in use (one that is not has no members). Whatever hangs from
    /// a block has a lower number.
    std::uint32_t block_limit() const { return static_cast<std::uint32_t>(top_.size()); }
    /// Calls `visit` with each block that hangs from this one.
    void for_each_below(Block block, FunctionRef<void(Block)> visit) const;
    /// The blocks that may differ from what they were when this was last called.
    std::vector<Block> take_changed();

  private:
    /// A block of the graph of all edges.
    struct Part {
        std::uint32_t first = 0, size = 0;          ///< numbers of its blocks, and its slice of `members_`
        std::uint32_t top = UINT32_MAX;             ///< the vertex it hangs by; UINT32_MAX: the root
        std::uint32_t used = 0;                     ///< so many of its numbers are in use
        std::uint32_t edge_start = 0, edge_end = 0; ///< its slice of `edges_`
        Block first_at_top = no_block;              ///< its blocks that hang by its own top, as a list
        bool queued = false, changed = false;
    };
    void queue(std::uint32_t part);
    void work_off(FunctionRef<bool(std::uint32_t)> is_open);
    void renew(Part& part, FunctionRef<bool(std::uint32_t)> is_open);
    void renew_single(Part& part, FunctionRef<bool(std::uint32_t)> is_open);
    void clear(Part& part);

    std::vector<Part> parts_;
    std::vector<Arrow> edges_;                           ///< by part
    std::vector<std::uint32_t> part_of_edge_;            ///< by name
    std::vector<std::uint32_t> static_members_;          ///< by part
    std::vector<std::uint32_t> hanging_start_, hanging_; ///< per vertex: the parts that hang by it
    std::vector<char> is_root_;

    std::vector<Block> home_;        ///< per vertex
    std::vector<Block> first_below_; ///< per vertex: the blocks of its own part that hang by it, as a list
    std::vector<std::uint32_t> top_; ///< per block, as are the next three
    std::vector<std::uint32_t> member_start_, member_count_;
    std::vector<Block> next_beside_;
    std::vector<std::uint32_t> members_;
    std::vector<std::uint32_t> local_; ///< vertex to its number in the part that is being looked at
    std::vector<std::uint32_t> heap_, changed_;
};

} // namespace curbstop::proofs
