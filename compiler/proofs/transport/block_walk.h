// Which blocks of a tree are to be looked at again, nearest to the root first, and what lies ahead of each.
// Must not know: what makes a block change, what is done with it.
#pragma once

#include <algorithm>
#include <vector>

#include "proofs/transport/bounds.h"
#include "proofs/transport/live_blocks.h"

namespace curbstop::proofs {

struct BlockWalk {
    std::vector<Carried> pool;        ///< what `ahead` counts into
    std::vector<std::uint32_t> ahead; ///< per block: all that lies from the root to it, itself included
    std::vector<char> queued;         ///< per block
    std::vector<Block> work;          ///< a heap
    bool anew = false;                ///< all of it is to be looked at

    /// What has been joined and is no longer asked for is let go with all the rest.
    bool is_overgrown(const LiveBlocks& tree) const { return pool.size() > std::size_t{4} * tree.block_limit() + 64; }

    void start_anew(const LiveBlocks& tree) {
        pool.clear();
        ahead.assign(tree.block_limit(), UINT32_MAX);
        queued.assign(tree.block_limit(), 0);
        work.clear();
        anew = true;
    }

    void queue(Block block) {
        if (block != no_block && !anew && queued[block] == 0) {
            queued[block] = 1;
            work.push_back(block);
            std::ranges::push_heap(work);
        }
    }

    /// Whatever hangs from a block has a lower number: the greatest is nearest to the root.
    Block next() {
        std::ranges::pop_heap(work);
        const Block block = work.back();
        work.pop_back();
        queued[block] = 0;
        return block;
    }
};

} // namespace curbstop::proofs
