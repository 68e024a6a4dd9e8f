// What runs, presses and falls brings to the pockets on its ways.
#include <algorithm>

#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

// What is drawn: of a supply its fluid, of a chamber or vessel what may be in it. Gas is nothing.
Carried Transport::composition(Engine& engine, const Stream& stream, const Stream::Way& way) {
    Carried carried;
    if (way.origin.chamber.valid()) {
        inventory_.join_into(carried, pockets_.of_chamber(way.origin.chamber), way.where);
        carried.gas = {};
        carried.full = true;
    } else if (!engine.is_gas(stream.source)) {
        carried.most.assign(inventory_.liquids().count(), 0);
        carried.least = carried.most;
        const std::uint32_t liquid = inventory_.liquids().of(system_[way.origin.supply].fluid);
        carried.most[liquid] = 1;
        carried.least[liquid] = 1;
        carried.hygiene.no_reading(); // how strong a dosing pump doses is not followed
        carried.hygiene.clean = is_clean(system_, system_[way.origin.supply].fluid);
    }
    carried.most.resize(inventory_.liquids().count(), 0);
    carried.least.resize(inventory_.liquids().count(), 1);
    for (std::uint32_t liquid = 0; liquid < inventory_.liquids().count(); ++liquid) {
        const bool stranger =
            liquid == inventory_.liquids().dirt() || system_[inventory_.liquids().fluid(liquid)].category != 1;
        carried.hygiene.fresh = carried.hygiene.fresh && !(stranger && carried.most[liquid] > traces);
    }
    return carried;
}

Set Transport::gives(ChamberId chamber, Set where) {
    const PocketIndex pocket = pockets_.of_chamber(chamber);
    if (pockets_[pocket].runs_out) {
        return where;
    }
    const Set emptied =
        inventory_.where(pocket, [](const Bounds& bounds) { return bounds.gas.now() >= gas_in_emptied_chamber; });
    return knowledge_.diagrams().without(where, emptied);
}

void Transport::take_in(ChamberId chamber, const Carried& carried, Set where, CauseKind kind) {
    const PocketIndex pocket = pockets_.of_chamber(chamber);
    // What stands open to the air loses gas by amounts; what does not is filled by whatever comes.
    const bool open = pockets_[pocket].is_open_above();
    inventory_.flow_through(pocket, where, cause(kind), carried, true, open);
}

void Transport::land(Engine& engine, OutletId outlet, const Carried& carried, Set where, CauseKind kind) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (const auto& [chamber, there] : engine.lands_in(outlet)) {
        take_in(chamber, carried, sets.both(where, there), kind);
    }
    if (const auto& onward = landing_[outlet.value]) {
        for (PocketIndex pocket = 0; pocket < pockets_.size(); ++pocket) {
            const Pocket& on = pockets_[pocket];
            const Vertex vertex = on.kind == PocketKind::run    ? network_.run_vertex(on.index)
                                  : on.kind == PocketKind::body ? network_.body_vertex(PartId(on.index))
                                                                : none;
            if (vertex != none && onward->reach().possible(vertex)) {
                // What only stores is charged with air: nothing runs into it by its own weight.
                const bool keeps_gas = on.runs_out || on.stores;
                inventory_.flow_through(pocket, sets.both(where, onward->reached(vertex, knowledge_)), cause(kind),
                                        carried, true, keeps_gas);
            }
        }
    }
}

void Transport::flow(Engine& engine, const Stream& stream) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const SourceState* source = engine.source(stream.source);
    const Set air = source != nullptr && source->draw ? engine.draws_air(*source->draw) : stream.blown;
    for (Stream::Way way : stream.ways) {
        if (way.origin.chamber.valid()) {
            way.where = gives(way.origin.chamber, way.where);
        }
        for (const Set one : differently_clean(way)) {
            for (const bool with_air : {false, true}) {
                way.where = with_air ? sets.both(one, air) : sets.without(one, air);
                if (way.where != nothing) {
                    flow(engine, stream, way, with_air);
                }
            }
        }
    }
}

// Where one variant of a system has been disinfected so far and another not, the one must not spoil the other. Beyond
// so many kinds of configurations they are taken together.
std::vector<Set> Transport::differently_clean(const Stream::Way& way) {
    constexpr std::size_t most_kinds = 16;
    instants::Diagrams& sets = knowledge_.diagrams();
    std::vector<Set> kinds;
    if (way.where != nothing) {
        kinds.push_back(way.where);
    }
    const auto part = [&](PocketIndex pocket) {
        const std::vector<Piece>& pieces = inventory_.pieces(pocket);
        const bool matters = std::ranges::any_of(
            pieces, [](const Piece& piece) { return piece.bounds.hygiene.reading > 0 || piece.bounds.hygiene.clean; });
        if (pieces.size() < 2 || !matters || kinds.size() > most_kinds) {
            return;
        }
        std::vector<std::pair<Brought, Set>> unlike;
        for (const Piece& piece : pieces) {
            Brought brought;
            brought.join(piece.bounds.hygiene);
            const auto same = std::ranges::find(unlike, brought, &std::pair<Brought, Set>::first);
            if (same != unlike.end()) {
                same->second = sets.either(same->second, piece.where);
            } else {
                unlike.emplace_back(brought, piece.where);
            }
        }
        if (unlike.size() < 2) {
            return;
        }
        std::vector<Set> finer;
        for (const Set kind : kinds) {
            for (const auto& [brought, where] : unlike) {
                if (const Set inside = sets.both(kind, where); !sets.disjoint(inside, knowledge_.possible())) {
                    finer.push_back(inside);
                }
            }
        }
        kinds = std::move(finer);
    };
    if (way.origin.chamber.valid()) {
        part(pockets_.of_chamber(way.origin.chamber));
    }
    for (const Stream::Place& place : way.places) {
        part(place.pocket);
    }
    if (kinds.size() > most_kinds) {
        kinds.assign(1, way.where);
    }
    return kinds;
}

void Transport::flow(Engine& engine, const Stream& stream, const Stream::Way& way, bool with_air) {
    const bool liquid = !engine.is_gas(stream.source);
    Carried carried = composition(engine, stream, way);
    carried.full = carried.full && !with_air; // a pump that may draw air leaves some of it on its way
    const Carried given = carried;
    if (way.origin.chamber.valid()) {
        inventory_.change(pockets_.of_chamber(way.origin.chamber), way.where, cause(CauseKind::flow),
                          [](const Bounds& own) { return drawn_on(own); });
    }
    for (std::size_t i = 0; i < way.places.size();) {
        // All that is not parted comes first, then each of it takes in.
        std::size_t end = i;
        for (; end < way.places.size() && way.places[end].depth == way.places[i].depth; ++end) {
            const Gas gas = carried.gas;
            inventory_.join_into(carried, way.places[end].pocket, way.where);
            if (pockets_[way.places[end].pocket].kind == PocketKind::chamber && !liquid && with_air) {
                carried.gas = gas; // what air pushed out of a chamber has come
            }
        }
        for (; i < end; ++i) {
            const PocketIndex pocket = way.places[i].pocket;
            const Pocket& on = pockets_[pocket];
            const bool keeps_gas = on.is_open_above() || (on.kind == PocketKind::chamber && !liquid);
            inventory_.flow_through(pocket, way.where, cause(CauseKind::flow), carried, liquid, keeps_gas);
        }
    }
    land(engine, stream.outlet, stream.brought ? given : carried, way.where, CauseKind::flow);
}

void Transport::fall(Engine& engine, const Fall& running) {
    const PocketIndex from = pockets_.of_chamber(running.from);
    for (Passage passage : running.passages) {
        passage.where = gives(running.from, passage.where);
        if (passage.where == nothing) {
            continue;
        }
        inventory_.change(from, passage.where, cause(CauseKind::gravity),
                          [](const Bounds& own) { return drawn_on(own); });
        Carried carried; // what falls lets air pass
        inventory_.join_into(carried, from, passage.where);
        for (std::size_t i = 0; i < passage.steps.size();) {
            std::size_t end = i;
            for (; end < passage.steps.size() && passage.steps[end].depth == passage.steps[i].depth; ++end) {
                if (const PocketIndex pocket = pocket_of_[passage.steps[end].vertex]; pocket != no_pocket) {
                    inventory_.join_into(carried, pocket, passage.where);
                }
            }
            for (; i < end; ++i) {
                const PocketIndex pocket = pocket_of_[passage.steps[i].vertex];
                if (pocket == no_pocket || pocket == from) {
                    continue;
                }
                const Pocket& on = pockets_[pocket];
                const bool keeps_gas = on.runs_out || on.is_open_above();
                inventory_.flow_through(pocket, passage.where, cause(CauseKind::gravity), carried, true, keeps_gas);
            }
        }
        if (const OutletId outlet = network_.outlet_at(running.target); outlet.valid()) {
            land(engine, outlet, carried, passage.where, CauseKind::gravity);
        }
    }
}

void Transport::lose_gas(ChamberId chamber, double volume, Set where, CauseKind kind) {
    const PocketIndex pocket = pockets_.of_chamber(chamber);
    if (pockets_[pocket].runs_out) {
        return;
    }
    const double size = pockets_[pocket].volume.value_or(0);
    inventory_.change(pocket, where, cause(kind), [&](const Bounds& own) {
        Bounds bounds = own;
        bounds.gas.part = size > 0 ? std::max(0.0, own.gas.part - volume / size) : 0;
        return bounds;
    });
}

// A bladder that had pushed out what it held takes in nine tenths of its volume: what stands nearest first, then what
// lies before that, and last what the source gives. What lies nearest is left with what came after it.
void Transport::refill_bladder(Region& region, Block block, PocketIndex bladder, Set dead, const Carried& origin,
                               double pressure) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const LiveBlocks& tree = region.blocks();
    struct Stretch {
        std::vector<PocketIndex> pockets;
        Carried holds;
        double full = 0;    // volume of what surely stands full
        double partial = 0; // of the rest
    };
    const double need = gas_after_emptying * pockets_[bladder].volume.value_or(0);
    const std::vector<Piece> pieces = inventory_.pieces(bladder);
    for (const Piece& piece : pieces) {
        const Set where = sets.both(dead, piece.where);
        if (sets.disjoint(where, knowledge_.possible())) {
            continue;
        }
        std::vector<Stretch> way; // from the bladder towards the source
        for (std::uint32_t top = tree.top(block); top != UINT32_MAX; top = tree.top(tree.home(top))) {
            Stretch stretch;
            for (const std::uint32_t member : tree.members(tree.home(top))) {
                const PocketIndex pocket = pocket_of_[member];
                if (pocket == no_pocket || std::ranges::find(stretch.pockets, pocket) != stretch.pockets.end()) {
                    continue;
                }
                const Set there = sets.both(where, region.reached_inside(member));
                if (sets.disjoint(there, knowledge_.possible())) {
                    continue;
                }
                stretch.pockets.push_back(pocket);
                Carried one;
                inventory_.join_into(one, pocket, there);
                (one.full ? stretch.full : stretch.partial) += pockets_[pocket].volume.value_or(unlimited);
                stretch.holds.join(one);
            }
            if (!stretch.pockets.empty()) {
                way.push_back(std::move(stretch));
            }
        }
        if (piece.bounds.gas.part < gas_after_emptying || piece.bounds.gas.squeeze != 0 || need <= 0) {
            Carried ahead = origin;
            for (const Stretch& stretch : way) {
                ahead.join(stretch.holds);
            }
            inventory_.change(bladder, where, cause(CauseKind::pressed),
                              [&](const Bounds& own) { return pressed_on(own, ahead, pressure, WhileFull::all, 0); });
            continue;
        }
        Carried taken;
        taken.hygiene.no_reading();
        taken.most.assign(inventory_.liquids().count(), 0);
        taken.least.assign(inventory_.liquids().count(), 0);
        double come = 0;
        double unsure = 0;
        const auto add = [&](const Carried& what, double surely, double perhaps) {
            for (std::size_t i = 0; i < taken.most.size() && i < what.most.size(); ++i) {
                taken.most[i] = std::min(1.0, taken.most[i] + (surely + perhaps) / need * what.most[i]);
                taken.least[i] += surely / need * what.least[i];
            }
            if (surely > 0 || perhaps > 0) {
                taken.hygiene.clean = taken.hygiene.clean && what.hygiene.clean;
            }
            const bool same = taken.hygiene.agent == no_liquid || taken.hygiene.agent == what.hygiene.agent;
            if (same && what.hygiene.agent != no_liquid) {
                taken.hygiene.agent = what.hygiene.agent;
                taken.hygiene.reading += surely / need * what.hygiene.reading;
            }
            come += surely;
            unsure += perhaps;
        };
        std::size_t reached = 0;
        for (; reached < way.size() && come < need; ++reached) {
            add(way[reached].holds, std::min(way[reached].full, need - come), std::min(way[reached].partial, need));
        }
        add(origin, std::max(0.0, need - come), 0);
        for (double& least : taken.least) {
            least *= std::max(0.0, 1 - unsure / need);
        }
        taken.hygiene.reading *= std::max(0.0, 1 - unsure / need);
        inventory_.change(bladder, where, cause(CauseKind::pressed),
                          [&](const Bounds& own) { return refilled(own, taken, pressure); });
        // Twice over what stood nearest has gone in: there is now what stood farther.
        Carried after = origin;
        double nearer = 0;
        std::size_t near = 0;
        for (std::size_t i = 0; i < way.size(); ++i) {
            nearer += way[i].full + way[i].partial;
            if (nearer <= need / 2) {
                near = i + 1;
            } else if (i < reached) {
                after.join(way[i].holds);
            }
        }
        for (std::size_t i = 0; i < near; ++i) {
            const PocketIndex pocket = way[i].pockets.front();
            if (way[i].pockets.size() == 1 && pockets_[pocket].kind != PocketKind::chamber) {
                inventory_.change(pocket, where, cause(CauseKind::pressed), [&](const Bounds& own) {
                    Bounds bounds = swept_by(own, after);
                    displaced(bounds.hygiene, after.hygiene, left_by_sweeping);
                    return bounds;
                });
            }
        }
    }
}

// A bladder that nothing presses on pushes out what it holds wherever it can, over all that lies between.
void Transport::bladders(Engine& engine) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (Bladder& bladder : bladders_) {
        Set holds = inventory_.where(bladder.pocket, [](const Bounds& own) {
            return own.gas.part < gas_after_emptying || own.gas.squeeze != 0;
        });
        holds = sets.without(sets.both(holds, knowledge_.truth(bladder.on)), bladder.pushed);
        if (holds == nothing) {
            continue;
        }
        Set pressed = nothing;
        for (std::size_t i = 0; i < regions_.size(); ++i) {
            const SourceState& source = engine.sources()[i];
            if (source.possibly_on) {
                pressed = sets.either(pressed,
                                      sets.both(source.on, regions_[i].pressed->reached(bladder.vertex, knowledge_)));
            }
        }
        Set out = nothing;
        for (const Vertex vertex : bladder.lets_out->reach().marks()) {
            const OutletId outlet = network_.outlet_at(vertex);
            if (!outlet.valid()) {
                continue;
            }
            const Set here = sets.without(sets.both(holds, bladder.lets_out->reached(vertex, knowledge_)), pressed);
            if (here == nothing) {
                continue;
            }
            out = sets.either(out, here);
            for (const Passage& passage : bladder.lets_out->chains_to(vertex, here, knowledge_)) {
                push_out(engine, bladder, outlet, passage);
            }
        }
        bladder.pushed = sets.either(bladder.pushed, out);
        inventory_.change(bladder.pocket, out, cause(CauseKind::drained),
                          [](const Bounds& own) { return emptied(own, gas_after_emptying); });
    }
}

void Transport::push_out(Engine& engine, const Bladder& bladder, OutletId outlet, const Passage& passage) {
    Carried carried;
    inventory_.join_into(carried, bladder.pocket, passage.where);
    carried.full = false;
    for (const PassageStep& step : passage.steps) {
        if (const PocketIndex pocket = pocket_of_[step.vertex]; pocket != no_pocket && pocket != bladder.pocket) {
            inventory_.join_into(carried, pocket, passage.where);
            const bool open = pockets_[pocket].kind == PocketKind::chamber && pockets_[pocket].vented;
            inventory_.flow_through(pocket, passage.where, cause(CauseKind::flow), carried, true, open);
        }
    }
    land(engine, outlet, carried, passage.where, CauseKind::flow);
}

} // namespace curbstop::proofs
