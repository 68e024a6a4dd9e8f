// Pockets that are pressed on and that nothing flows through: they take in what squeezes into them. What was worked out
// is kept, block by block, and looked at again only where something has changed.
#include <algorithm>

#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

void Transport::Legs::note_hollow(const LiveBlocks& tree, Block block, bool is_hollow) {
    const std::uint32_t was = hollow_at[block];
    const std::uint32_t now = is_hollow ? tree.top(block) : UINT32_MAX;
    if (was == now) {
        return;
    }
    hollow_at[block] = now;
    const auto count = [&](std::uint32_t vertex, std::uint32_t step, std::uint32_t last) {
        hollow[vertex] += step;
        if (hollow[vertex] == last && tree.reached(vertex)) {
            walk.queue(tree.home(vertex));
        }
    };
    if (was != UINT32_MAX) {
        count(was, UINT32_MAX, 0); // one less
    }
    if (now != UINT32_MAX) {
        count(now, 1, 1);
    }
}

void Transport::Legs::start_anew(const LiveBlocks& blocks, Carried origin, std::size_t pocket_count,
                                 std::size_t vertex_count) {
    walk.start_anew(blocks, std::move(origin));
    last.assign(vertex_count, {});
    behind_leg.assign(blocks.block_limit(), 0);
    root.assign(blocks.block_limit(), no_block);
    gassy.clear();
    hollow_at.assign(blocks.block_limit(), UINT32_MAX);
    hollow.assign(vertex_count, 0);
    flowing.assign(pocket_count, nothing);
}

void Transport::dead_legs(Engine& engine, std::size_t index) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const SourceState& source = engine.sources()[index];
    Regions& regions = regions_[index];
    Legs& legs = regions.legs;
    if (!source.possibly_on) {
        legs.known = false;
        return;
    }
    Set running = nothing;
    std::vector<std::pair<PocketIndex, Set>> flows; // where something flows through a pocket
    for (const Stream& stream : streams_) {
        if (stream.source != source.id) {
            continue;
        }
        running = sets.either(running, stream.now);
        for (const Stream::Way& way : stream.ways) {
            for (const Stream::Place& place : way.places) {
                flows.emplace_back(place.pocket, way.where);
            }
        }
    }
    join_by_pocket(flows);
    const bool liquid = !engine.is_gas(source.id);
    Carried origin = inventory_.carries_nothing();
    for (const auto& [drawn, where] : engine.origins_of(source)) {
        const Stream::Way way{sets.both(where, source.on), drawn, {}, 0};
        origin.join(composition(engine, Stream{.source = source.id}, way));
        if (regions.drawn) {
            join_drawn(*regions.drawn, drawn, way.where, origin);
        }
    }
    if (const PocketIndex body = pockets_.of_body(system_[source.id].part); body != no_pocket) {
        inventory_.join_into(origin, body, source.on);
    }
    origin.full = liquid;
    origin.hygiene.fresh = origin.hygiene.fresh && liquid;
    origin.gas.part = liquid ? 0 : 1;
    Region& region = *regions.pressed;
    region.settle(knowledge_);
    const LiveBlocks& tree = region.blocks();
    const double pressure = engine.greatest_pressure(source.id);
    if (!legs.known || legs.on != source.on || legs.possible != knowledge_.possible() || legs.walk.origin() != origin ||
        legs.pressure != pressure || legs.walk.is_overgrown(tree)) {
        legs.start_anew(tree, std::move(origin), pockets_.size(), network_.vertex_count());
        region.take_changed();
        legs.known = true;
        legs.on = source.on;
        legs.possible = knowledge_.possible();
        legs.pressed = sets.both(legs.on, legs.possible);
        legs.pressure = pressure;
        legs.flows.clear();
        legs.running = running;
        legs.seen = inventory_.changes().size();
        for (const auto& [pocket, where] : flows) {
            legs.flowing[pocket] = where;
        }
        legs.flows = flows;
    }
    const auto touch = [&](PocketIndex pocket, bool hanging_too) {
        for (const Vertex vertex : vertices_of_[pocket]) {
            if (!tree.reached(vertex)) {
                continue;
            }
            legs.walk.queue(tree.home(vertex));
            if (hanging_too) {
                tree.for_each_below(tree.home(vertex), [&](Block below) { legs.walk.queue(below); });
            }
        }
    };
    const std::vector<Block> changed = region.take_changed();
    if (!changed.empty() || legs.flows != flows) {
        for (const Block block : std::exchange(legs.gassy, {})) { // their legs may be longer now
            legs.walk.queue(block);
        }
    }
    for (const Block block : changed) {
        if (!tree.members(block).empty()) {
            legs.walk.ahead[block] = UINT32_MAX;
            legs.walk.queue(block);
        } else {
            legs.note_hollow(tree, block, false);
        }
    }
    if (legs.flows != flows) {
        for (const auto& [pocket, where] : legs.flows) {
            legs.flowing[pocket] = nothing;
        }
        for (const auto& [pocket, where] : flows) {
            legs.flowing[pocket] = where;
        }
        for (const auto* list : {&legs.flows, &flows}) {
            const auto& other = list == &flows ? legs.flows : flows;
            for (const auto& entry : *list) {
                if (!std::ranges::binary_search(other, entry)) {
                    touch(entry.first, true);
                }
            }
        }
        legs.flows = flows;
    }
    if (legs.running != running) {
        for (const Bladder& bladder : bladders_) {
            touch(bladder.pocket, false);
        }
        legs.running = running;
    }
    for (; legs.seen < inventory_.changes().size(); ++legs.seen) {
        touch(inventory_.changes()[legs.seen], false);
    }
    if (legs.walk.anew) {
        for (Block block = 0; block < tree.block_limit(); ++block) { // what hangs below comes first
            legs.note_hollow(tree, block, hollow_of(region, legs, block).any());
        }
        for (Block block = tree.block_limit(); block-- > 0;) {
            if (!tree.members(block).empty()) {
                press_block(region, legs, block, liquid);
            }
        }
        legs.walk.anew = false;
        return; // what it changed itself is looked at the next time round
    }
    // Blocks come out of the tree from below: the one with the greatest number is nearest to the root.
    while (!legs.walk.work.empty()) {
        press_block(region, legs, legs.walk.work.take(), liquid);
    }
}

// What stands between an origin and the pump that draws on it comes, too.
void Transport::join_drawn(Region& drawn, const Origin& origin, Set where, Carried& into) {
    const Vertex from = origin_vertex(origin);
    for (const Passage& passage : drawn.chains_to(from, where, knowledge_)) {
        for (const PassageStep& step : passage.steps) {
            const PocketIndex pocket = pocket_of_[step.vertex];
            if (pocket != no_pocket && !(origin.chamber.valid() && pocket == pockets_.of_chamber(origin.chamber))) {
                inventory_.join_into(into, pocket, passage.where);
            }
        }
    }
}

bool Transport::is_full(PocketIndex pocket) const {
    return std::ranges::all_of(inventory_.pieces(pocket), [](const Piece& piece) { return piece.bounds.full; });
}

bool Transport::may_hold_gas(PocketIndex pocket) const {
    return std::ranges::any_of(inventory_.pieces(pocket), [](const Piece& piece) {
        return piece.bounds.gas.part > 0 && piece.bounds.gas.shared < 1;
    });
}

// Of the pockets in a block, and all that hang from it, that gas may gather in: none that lies behind a full one.
double Transport::leg_volume(const Region& region, Legs& legs, Block root) const {
    std::vector<Block>& blocks = legs.leg_blocks;
    std::vector<PocketIndex>& pockets = legs.leg_pockets;
    blocks.assign(1, root);
    pockets.clear();
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        bool parted = false;
        const std::size_t before = pockets.size();
        for (const std::uint32_t member : region.blocks().members(blocks[i])) {
            const PocketIndex pocket = pocket_of_[member];
            parted = parted || pocket != no_pocket;
            if (pocket != no_pocket && !is_full(pocket)) {
                pockets.push_back(pocket);
            }
        }
        if (!parted || pockets.size() != before) {
            region.blocks().for_each_below(blocks[i], [&](Block below) { blocks.push_back(below); });
        }
    }
    std::ranges::sort(pockets); // a chamber is several vertices
    pockets.erase(std::unique(pockets.begin(), pockets.end()), pockets.end());
    double volume = 0;
    for (const PocketIndex pocket : pockets) {
        volume += pockets_[pocket].volume.value_or(unlimited);
    }
    return volume;
}

// Whether a pocket stands off the flows somewhere and may not be full.
bool Transport::gives_way(const Region& region, const Legs& legs, PocketIndex pocket, std::uint32_t member) {
    instants::Diagrams& sets = knowledge_.diagrams();
    if (pocket == no_pocket || (is_full(pocket) && !pockets_[pocket].stores) ||
        (pockets_[pocket].kind == PocketKind::chamber && pockets_[pocket].vented)) {
        return false;
    }
    const Set pressed = sets.both(legs.pressed, region.reached_inside(member));
    return !sets.within(pressed, legs.flowing[pocket]);
}

// What of a block, or of what hangs from it, so gives way.
Transport::Hollow Transport::hollow_of(const Region& region, const Legs& legs, Block block) {
    Hollow found;
    for (const std::uint32_t member : region.blocks().members(block)) {
        const PocketIndex pocket = pocket_of_[member];
        found.several = found.several || legs.hollow[member] != 0;
        if (!found.several && pocket != found.one && gives_way(region, legs, pocket, member)) {
            found.several = found.one != no_pocket;
            found.one = pocket;
        }
    }
    return found;
}

// The leg that a block belongs to goes up as far as gas may stand, over what nothing flows through somewhere.
Block Transport::leg_root(const Region& region, const Legs& legs, Block block) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const LiveBlocks& tree = region.blocks();
    const std::uint32_t top = tree.top(block);
    const Block above = top == UINT32_MAX ? no_block : legs.root[tree.home(top)];
    bool has_pockets = false;
    for (const std::uint32_t member : tree.members(block)) {
        const PocketIndex pocket = pocket_of_[member];
        if (pocket == no_pocket) {
            continue;
        }
        has_pockets = true;
        const Set pressed = sets.both(legs.pressed, region.reached_inside(member));
        if (!is_full(pocket) && !sets.within(pressed, legs.flowing[pocket])) {
            return above == no_block ? block : above;
        }
    }
    return has_pockets ? no_block : above;
}

void Transport::press_block(Region& region, Legs& legs, Block block, bool liquid) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const LiveBlocks& tree = region.blocks();
    if (tree.members(block).empty()) {
        return; // no longer a block
    }
    const std::uint32_t top = tree.top(block);
    bool behind_leg = false; // something off the ways of the flows lies before it
    if (top != UINT32_MAX) {
        const PocketIndex above = pocket_of_[top];
        const bool off = above != no_pocket && !sets.within(legs.pressed, legs.flowing[above]);
        behind_leg = legs.behind_leg[tree.home(top)] != 0 || off;
    }
    const std::uint32_t now = carried_to(region, legs.walk, block, legs.on);
    const Block root = liquid ? leg_root(region, legs, block) : no_block;
    const bool same =
        legs.walk.ahead[block] == now && (legs.behind_leg[block] != 0) == behind_leg && legs.root[block] == root;
    legs.walk.ahead[block] = now;
    legs.behind_leg[block] = behind_leg;
    legs.root[block] = root;
    if (!same) {
        tree.for_each_below(block, [&](Block below) { legs.walk.queue(below); });
    }
    const Hollow hollow = hollow_of(region, legs, block);
    legs.note_hollow(tree, block, hollow.any());
    for (const std::uint32_t member : tree.members(block)) {
        const PocketIndex pocket = pocket_of_[member];
        const Carried& here = legs.walk.pool[now];
        if (pocket == no_pocket || (pockets_[pocket].kind == PocketKind::chamber && pockets_[pocket].vented)) {
            continue;
        }
        // What is full takes in nothing while all behind it is full, too; but gas that presses on it may rise into it.
        const WhileFull takes = hollow.beside(pocket) ? WhileFull::all
                                : behind_leg          ? WhileFull::nothing
                                                      : WhileFull::traces;
        if (liquid && takes == WhileFull::nothing && is_full(pocket) && !pockets_[pocket].stores) {
            continue; // nothing squeezes into it
        }
        const Set pressed = sets.both(legs.on, region.reached_inside(member));
        const Set dead = sets.without(pressed, legs.flowing[pocket]);
        if (sets.disjoint(dead, knowledge_.possible())) {
            continue;
        }
        if (!pockets_[pocket].stores || top == UINT32_MAX) {
            const double own_volume = pockets_[pocket].volume.value_or(0);
            double shared = 0;
            if (root != no_block && may_hold_gas(pocket)) {
                legs.gassy.push_back(block);
                const double others = leg_volume(region, legs, root) - own_volume;
                shared = own_volume > 0 ? others / own_volume : 1;
            }
            const Legs::Press press{now, dead, takes, shared, inventory_.changed_at(pocket)};
            if (legs.last[member] == press) {
                continue; // it changed nothing then
            }
            legs.last[member] = press;
            inventory_.change(pocket, dead, cause(CauseKind::pressed), [&](const Bounds& own) {
                Bounds bounds = own;
                bounds.full = own.full && liquid;
                return pressed_on(bounds, here, legs.pressure, takes, shared);
            });
        } else if (liquid) {
            // Charged with air beforehand, it takes nothing in while the line is open somewhere.
            refill_bladder(region, block, pocket, sets.without(dead, legs.running), legs.walk.origin(), legs.pressure);
        } else {
            // Filled with air it pushes out air: what came in ahead of it stays in its heel.
            inventory_.flow_through(pocket, dead, cause(CauseKind::pressed), here, true, true);
        }
    }
}

} // namespace curbstop::proofs
