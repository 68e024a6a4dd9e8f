// What is carried from the root of a tree to its blocks. The walk itself knows no pockets: Transport does.
#include <algorithm>

#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::Set;

// What lies ahead of a block and in it, as its number in the pool. It stays the same number as long as it is the same.
std::uint32_t Transport::carried_to(const Region& region, BlockWalk& walk, Block block, Set on) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const std::uint32_t before = walk.before(region.blocks(), block);
    const std::span<const std::uint32_t> members = region.blocks().members(block);
    const std::uint32_t was = walk.ahead[block];
    BlockWalk::Joined& joined = walk.joined[block];
    if (was != UINT32_MAX && joined.before == before && std::ranges::none_of(members, [&](std::uint32_t member) {
            return pocket_of_[member] != no_pocket && inventory_.changed_at(pocket_of_[member]) > joined.at;
        })) {
        return was;
    }
    joined = {before, inventory_.version()};
    std::uint32_t now = before;
    for (const std::uint32_t member : members) {
        const PocketIndex pocket = pocket_of_[member];
        if (pocket == no_pocket || covers(walk.pool[now], inventory_.pieces(pocket))) {
            continue;
        }
        if (now == before) {
            walk.pool.push_back(Carried(walk.pool[before]));
            now = static_cast<std::uint32_t>(walk.pool.size() - 1);
        }
        inventory_.join_into(walk.pool[now], pocket, sets.both(on, region.reached_inside(member)));
    }
    if (was != UINT32_MAX && walk.pool[was] == walk.pool[now]) {
        if (now != before) {
            walk.pool.pop_back();
        }
        return was;
    }
    return now;
}

} // namespace curbstop::proofs
