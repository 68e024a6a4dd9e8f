// What falls from a chamber does not only run to where it comes out: it also runs into whatever it reaches beside its
// ways that is not full, and stays there. What was worked out is kept, block by block, and looked at again only where
// something has changed.
#include <algorithm>

#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

// Most chambers have nothing but full pockets beneath them, and nothing is made for those.
bool Transport::reaches_hollow(Region& region) const {
    region.reach().catch_up();
    return std::ranges::any_of(hollow_.pockets, [&](PocketIndex pocket) {
        return std::ranges::any_of(vertices_of_[pocket], [&](Vertex v) { return region.reach().was_possible(v); });
    });
}

void Transport::Hollows::note(PocketIndex pocket, bool is_hollow) {
    std::uint32_t& at = place[pocket];
    if (is_hollow == (at != 0)) {
        return;
    }
    ++version;
    if (is_hollow) {
        pockets.push_back(pocket);
        at = static_cast<std::uint32_t>(pockets.size());
        return;
    }
    pockets[at - 1] = pockets.back(); // the last takes its place
    place[pockets.back()] = at;
    at = 0;
    pockets.pop_back();
}

void Transport::note_hollows() {
    const auto note = [&](PocketIndex pocket) {
        const bool pipe = pockets_[pocket].kind == PocketKind::run || pockets_[pocket].kind == PocketKind::body;
        hollow_.note(pocket, pipe && !is_full(pocket));
    };
    if (hollow_.place.empty()) {
        hollow_.place.assign(pockets_.size(), 0);
        for (PocketIndex pocket = 0; pocket < pockets_.size(); ++pocket) {
            note(pocket);
        }
    }
    for (; hollow_.seen < inventory_.changes().size(); ++hollow_.seen) {
        note(inventory_.changes()[hollow_.seen]);
    }
}

// Where something falls through each pocket: the rule of falls has seen to it there.
std::vector<std::pair<PocketIndex, Set>> Transport::fallen_through(ChamberId from) {
    std::vector<std::pair<PocketIndex, Set>> found;
    for (const Fall& running : falls_) {
        for (std::size_t i = 0; running.from == from && i < running.passages.size(); ++i) {
            for (const PassageStep& step : running.passages[i].steps) {
                if (pocket_of_[step.vertex] != no_pocket) {
                    found.emplace_back(pocket_of_[step.vertex], running.passages[i].where);
                }
            }
        }
    }
    join_by_pocket(found);
    return found;
}

// By pocket, each once.
void Transport::join_by_pocket(std::vector<std::pair<PocketIndex, Set>>& where) {
    std::ranges::sort(where);
    std::size_t kept = 0;
    for (std::size_t i = 0; i < where.size(); ++i) {
        if (kept != 0 && where[kept - 1].first == where[i].first) {
            where[kept - 1].second = knowledge_.diagrams().either(where[kept - 1].second, where[i].second);
        } else {
            where[kept++] = where[i];
        }
    }
    where.resize(kept);
}

void Transport::stand_beside(Engine& engine, ChamberId from) {
    instants::Diagrams& sets = knowledge_.diagrams();
    Standing& standing = standing_[from.value];
    if (!gravity_[from.value]) {
        return;
    }
    const Set holds = gives(from, sets.both(engine.contents().may_hold(from), knowledge_.possible()));
    Region& region = *gravity_[from.value];
    if (holds == nothing) {
        standing.known = false;
        return;
    }
    const std::array<std::uint64_t, 2> versions{region.version(), hollow_.version};
    if (!standing.known && (standing.idle_at == versions || !reaches_hollow(region))) {
        standing.idle_at = versions;
        return;
    }
    region.settle(knowledge_);
    const LiveBlocks& tree = region.blocks();
    BlockWalk& walk = standing.walk;
    const std::vector<Block> changed = region.take_changed();
    Carried origin = inventory_.carries_nothing();
    inventory_.join_into(origin, pockets_.of_chamber(from), holds);
    if (!standing.known || standing.holds != holds || standing.possible != knowledge_.possible() ||
        walk.origin() != origin || walk.is_overgrown(tree)) {
        walk.start_anew(tree, std::move(origin));
        standing.known = true;
        standing.holds = holds;
        standing.possible = knowledge_.possible();
        standing.seen = inventory_.changes().size();
        standing.falls = fallen_through(from);
        standing.falls_version = falls_version_;
    }
    const auto touch = [&](PocketIndex pocket) {
        for (const Vertex vertex : vertices_of_[pocket]) {
            walk.queue(tree.home(vertex));
        }
    };
    for (const Block block : changed) {
        if (!tree.members(block).empty() && !walk.anew) {
            walk.ahead[block] = UINT32_MAX;
            walk.queue(block);
        }
    }
    if (standing.falls_version != falls_version_) {
        std::vector<std::pair<PocketIndex, Set>> falls = fallen_through(from);
        for (const auto& [pocket, where] : standing.falls) {
            if (!std::ranges::binary_search(falls, std::pair(pocket, where))) {
                touch(pocket);
            }
        }
        standing.falls = std::move(falls);
        standing.falls_version = falls_version_;
    }
    for (; standing.seen < inventory_.changes().size(); ++standing.seen) {
        touch(inventory_.changes()[standing.seen]);
    }
    if (walk.anew) {
        for (Block block = tree.block_limit(); block-- > 0;) {
            stand_in_block(from, block);
        }
        walk.anew = false; // what it changed itself is looked at the next time round
        return;
    }
    while (!walk.work.empty()) {
        stand_in_block(from, walk.work.take());
    }
}

// All that lies from the chamber to a pocket in a block, but for itself.
Carried Transport::comes_beside(const Standing& standing, const Region& region, Block block, PocketIndex pocket) {
    Carried comes = standing.walk.pool[standing.walk.before(region.blocks(), block)];
    for (const std::uint32_t member : region.blocks().members(block)) {
        if (pocket_of_[member] != no_pocket && pocket_of_[member] != pocket) {
            inventory_.join_into(comes, pocket_of_[member],
                                 knowledge_.diagrams().both(standing.holds, region.reached_inside(member)));
        }
    }
    return comes;
}

void Transport::stand_in_block(ChamberId from, Block block) {
    instants::Diagrams& sets = knowledge_.diagrams();
    Standing& standing = standing_[from.value];
    const Region& region = *gravity_[from.value];
    const LiveBlocks& tree = region.blocks();
    BlockWalk& walk = standing.walk;
    if (tree.members(block).empty()) {
        return; // no longer a block
    }
    const std::uint32_t now = carried_to(region, walk, block, standing.holds);
    const bool same = walk.ahead[block] == now;
    walk.ahead[block] = now;
    if (!same) {
        tree.for_each_below(block, [&](Block below) { walk.queue(below); });
    }
    for (const std::uint32_t member : tree.members(block)) {
        const PocketIndex pocket = pocket_of_[member];
        if (pocket == no_pocket || hollow_.place[pocket] == 0) {
            continue;
        }
        const auto falls = std::ranges::lower_bound(standing.falls, pocket, {}, &std::pair<PocketIndex, Set>::first);
        Set beside = sets.both(standing.holds, region.reached_inside(member));
        if (falls != standing.falls.end() && falls->first == pocket) {
            beside = sets.without(beside, falls->second);
        }
        const bool keeps_gas = pockets_[pocket].runs_out || pockets_[pocket].stores;
        const Carried comes = comes_beside(standing, region, block, pocket);
        inventory_.change(pocket, beside, cause(CauseKind::gravity),
                          [&](const Bounds& own) { return own.full ? own : flooded_by(own, comes, keeps_gas); });
    }
}

} // namespace curbstop::proofs
