// What lies ahead of each block of a tree, and which blocks are to be looked at again, nearest to the root first.
// Must not know: what makes a block change, what is done with it.
#pragma once

#include <utility>
#include <vector>

#include "proofs/transport/bounds.h"
#include "proofs/transport/greatest_first.h"
#include "proofs/transport/live_blocks.h"

namespace curbstop::proofs {

struct BlockWalk {
    /// What the number of a block in the pool was found with: the number before it, the version of the inventory.
    struct Joined {
        std::uint32_t before = UINT32_MAX;
        std::uint64_t at = 0;
    };
    static constexpr std::uint32_t of_origin = 0; ///< its number in the pool

    std::vector<Carried> pool;        ///< what `ahead` counts into
    std::vector<std::uint32_t> ahead; ///< per block: all that lies from the root to it, itself included
    std::vector<Joined> joined;       ///< per block
    GreatestFirst work;               ///< blocks; whatever hangs from one has a lower number
    bool anew = false;                ///< all of it is to be looked at

    /// What has been joined and is no longer asked for is let go with all the rest.
    bool is_overgrown(const LiveBlocks& tree) const { return pool.size() > std::size_t{4} * tree.block_limit() + 64; }

    void start_anew(const LiveBlocks& tree, Carried origin) {
        pool.clear();
        pool.push_back(std::move(origin));
        ahead.assign(tree.block_limit(), UINT32_MAX);
        joined.assign(tree.block_limit(), {});
        work = GreatestFirst(tree.block_limit());
        anew = true;
    }

    /// What was joined counts otherwise now.
    void join_anew() { joined.assign(joined.size(), {}); }

    void queue(Block block) {
        if (block != no_block && !anew) {
            work.insert(block);
        }
    }

    const Carried& origin() const { return pool[of_origin]; }
    /// The number of what lies before a block.
    std::uint32_t before(const LiveBlocks& tree, Block block) const {
        const std::uint32_t top = tree.top(block);
        return top == UINT32_MAX ? of_origin : ahead[tree.home(top)];
    }
};

} // namespace curbstop::proofs
