// What comes to rest where it lands: what a flow that has been seen to its end, or a vessel that is poured, has brought
// to a chamber, and on through what the chamber falls to.
#include <algorithm>
#include <cmath>

#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

void Transport::credit_landing(Engine& engine, const Flow& flow, const Stream& stream, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    if (engine.is_gas(stream.source)) {
        return;
    }
    Carried origins;
    std::vector<std::pair<double, LiquidSet>> before; // what stood in the pipes comes in once
    for (const Stream::Way& way : stream.ways) {
        if (sets.disjoint(way.where, when)) {
            continue;
        }
        origins.join(composition(engine, stream, way));
        for (const Stream::Place& place : way.places) {
            if (const std::vector<Held>* held = stream.held.find(place.pocket)) {
                LiquidSet any = 0;
                for (const Held& piece : *held) {
                    any |= sets.disjoint(piece.where, when) ? 0 : piece.any;
                }
                before.emplace_back(pockets_[place.pocket].volume.value_or(unlimited), any);
            }
        }
    }
    for (const auto& [chamber, there] : engine.lands_in(stream.outlet)) {
        const Set where = sets.both(when, there);
        const PocketIndex pocket = pockets_.of_chamber(chamber);
        const double size = pockets_[pocket].volume.value_or(0);
        const Bounds* then = stream.landing.find(pocket);
        if (flow.until->kind == ObservationKind::full && then != nullptr && size > 0 &&
            then->gas.now() >= gas_in_emptied_chamber) {
            Carried came = origins;
            for (const auto& [volume, any] : before) {
                for (std::size_t i = 0; i < came.most.size(); ++i) {
                    came.most[i] = std::min(1.0, came.most[i] + ((any >> i & 1) != 0 ? volume / size : 0));
                    came.least[i] = std::max(0.0, came.least[i] - volume / size);
                }
            }
            inventory_.change(pocket, where, cause(CauseKind::filled), [&](const Bounds& own) {
                Bounds filled = mixed_with(*then, came, -std::log(1 - gas_in_emptied_chamber));
                filled.gas.part = 0;
                filled.full = true;
                filled.hygiene = own.hygiene; // what came in since it began has been counted there
                thinned(filled.hygiene, origins.hygiene, 1 - gas_in_emptied_chamber);
                return filled;
            });
            const auto live = std::ranges::find_if(streams_, [&](const Stream& one) {
                return one.source == stream.source && one.outlet == stream.outlet;
            });
            live->brought = sets.within(sets.both(live->now, knowledge_.possible()), where);
        }
        if (flow.until->kind == ObservationKind::full && pockets_[pocket].vented) {
            // Full to its top: whatever is in it has met every wall, though more may run in and out.
            inventory_.change(pocket, where, cause(CauseKind::filled), [&](const Bounds& own) {
                Bounds bounds = own;
                bounds.hygiene.brimful = true;
                return bounds;
            });
        }
        // Where it runs on as it comes, it never fills: it is as a basin then.
        Set runs_on = nothing;
        for (const Fall& onward : falls_) {
            const ChamberId into = network_.chamber_at_low(onward.target);
            if (onward.from == chamber && (!into.valid() || pockets_[pockets_.of_chamber(into)].vented)) {
                runs_on = sets.either(runs_on, onward.now);
            }
        }
        runs_on = sets.both(runs_on, where);
        if (pockets_[pocket].is_open_above()) {
            inventory_.change(pocket, runs_on, cause(CauseKind::drained),
                              [](const Bounds& own) { return emptied(own, gas_in_emptied_chamber); });
        }
        // What stood in the pipes and is something else comes first, and counts for nothing.
        double other = 0;
        for (const auto& [volume, any] : before) {
            for (std::size_t i = 0; i < origins.most.size(); ++i) {
                if ((any >> i & 1) != 0 && origins.most[i] <= traces) {
                    other += volume;
                    break;
                }
            }
        }
        const double least = std::max(0.0, volume_of(flow.at_least, 0) - other);
        if (flow.until->kind != ObservationKind::reads_at_least && shows_arrival(flow, origins)) {
            credit_basin(chamber, origins, least, runs_on);
        }
        credit_passing(chamber, origins, least, where);
    }
}

// A basin that runs out by itself holds no more than its heel: once more than that has passed, it is what passed last.
void Transport::credit_basin(ChamberId basin, const Carried& what, double volume, Set when) {
    const PocketIndex pocket = pockets_.of_chamber(basin);
    const double heel = pockets_[pocket].volume.value_or(unlimited) * (1 - gas_in_emptied_chamber);
    if (volume >= heel) {
        inventory_.change(pocket, when, cause(CauseKind::swept), [&](const Bounds& own) {
            Bounds bounds = swept_by(own, what);
            bounds.gas.part = own.gas.part;
            bounds.full = false;
            return bounds;
        });
    }
}

void Transport::credit_passing(ChamberId first, const Carried& what, double volume, Set when) {
    if (volume <= 0 || !gravity_[first.value]) {
        return;
    }
    Region& region = *gravity_[first.value];
    std::vector<Vertex> sinks;
    for (const Vertex vertex : region.reach().marks()) {
        const ChamberId chamber = network_.chamber_at_low(vertex);
        if (network_.outlet_at(vertex).valid() ||
            (chamber.valid() && chamber != first && pockets_[pockets_.of_chamber(chamber)].vented)) {
            sinks.push_back(vertex);
        }
    }
    if (sinks.empty()) {
        return;
    }
    for (const Passage& passage : region.passages(sinks.front(), sinks, when, knowledge_)) {
        std::vector<PocketIndex> done; // a chamber is several vertices
        bool pure = true;              // before the first chamber on the way: from there on it is thinned
        for (const PassageStep& step : passage.steps) {
            const PocketIndex pocket = pocket_of_[step.vertex];
            if (pocket == no_pocket || pocket == pockets_.of_chamber(first) ||
                std::ranges::find(done, pocket) != done.end()) {
                continue;
            }
            done.push_back(pocket);
            const Pocket& on = pockets_[pocket];
            if (on.kind == PocketKind::chamber) {
                pure = false;
                if (step.rank != 0 && !on.vented && on.volume) {
                    inventory_.change(pocket, passage.where, cause(CauseKind::mixed),
                                      [&](const Bounds& own) { return mixed_with(own, what, volume / *on.volume); });
                }
            } else if (pure && step.rank != 0 && on.runs_out && on.volume &&
                       volume >= *on.volume * (1 - gas_after_emptying)) {
                inventory_.change(pocket, passage.where, cause(CauseKind::swept),
                                  [&](const Bounds& own) { return swept_by(own, what); });
            }
        }
    }
}

void Transport::poured(Engine& engine, ChamberId vessel, NodeId into, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const Set here = sets.both(when, knowledge_.possible());
    const PocketIndex from = pockets_.of_chamber(vessel);
    Carried carried;
    inventory_.join_into(carried, from, here);
    if (const ChamberId chamber = system_[into].chamber; chamber.valid() && here != nothing) {
        const double volume = pockets_[from].volume.value_or(unlimited);
        take_in(chamber, carried, here, CauseKind::poured);
        come_in(engine, chamber, volume * (1 - std::min(1.0, carried.gas.part)), here, CauseKind::poured);
        // Of one that has been drawn on nobody knows how much is left.
        const Set whole = inventory_.where(from, [](const Bounds& bounds) { return bounds.full; });
        const Set surely = sets.both(here, sets.both(whole, engine.contents().surely_holds(vessel)));
        // What was poured falls on at once: the chambers on its way take it in before they are credited.
        engine.contents_changed();
        if (pockets_[pockets_.of_chamber(chamber)].runs_out) {
            credit_basin(chamber, carried, volume, surely);
        }
        credit_passing(chamber, carried, volume, surely);
    }
    inventory_.change(from, here, cause(CauseKind::poured), [](const Bounds& own) {
        Bounds bounds = emptied(own, 1);
        std::ranges::fill(bounds.most, 0);
        return bounds;
    });
}

} // namespace curbstop::proofs
