// How much comes into what stands open above: vessels and vented chambers. What runs on as it comes is passed on.
#include <algorithm>

#include "proofs/coverage.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

void Transport::add_receivers(Engine& engine, ChamberId chamber, Set where, std::vector<ChamberId>& passed,
                              std::vector<Receiver>& found) {
    instants::Diagrams& sets = knowledge_.diagrams();
    if (std::ranges::find(passed, chamber) != passed.end() || sets.disjoint(where, knowledge_.possible())) {
        return;
    }
    passed.push_back(chamber);
    Set runs_on = nothing;
    if (gravity_[chamber.value]) {
        Region& region = *gravity_[chamber.value];
        for (const Vertex target : region.reach().marks()) {
            const OutletId outlet = network_.outlet_at(target);
            const ChamberId into = network_.chamber_at_low(target);
            const bool onward =
                outlet.valid() || (into.valid() && into != chamber && pockets_[pockets_.of_chamber(into)].vented);
            const Set there = onward ? sets.both(where, region.reached(target, knowledge_)) : nothing;
            if (sets.disjoint(there, knowledge_.possible())) {
                continue;
            }
            runs_on = sets.either(runs_on, there);
            if (!outlet.valid()) {
                add_receivers(engine, into, there, passed, found);
                continue;
            }
            for (const auto& [landing, lands] : engine.lands_in(outlet)) {
                add_receivers(engine, landing, sets.both(there, lands), passed, found);
            }
        }
    }
    passed.pop_back();
    const Set stays = sets.both(sets.without(where, runs_on), knowledge_.possible());
    if (stays == nothing) {
        return;
    }
    const auto known = std::ranges::find(found, chamber, &Receiver::chamber);
    if (known != found.end()) {
        known->where = sets.either(known->where, stays);
    } else {
        found.push_back({chamber, stays});
    }
}

void Transport::receive(const std::vector<Receiver>& receivers, double volume, CauseKind kind, ChamberId filled) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (const auto& [chamber, where] : receivers) {
        const PocketIndex pocket = pockets_.of_chamber(chamber);
        const Pocket& in = pockets_[pocket];
        if (in.runs_out || !in.is_open_above()) {
            continue;
        }
        const double size = in.volume.value_or(0);
        for (const Piece& piece : inventory_.pieces(pocket)) {
            const Set there = sets.both(piece.where, where);
            const double room = size * piece.bounds.gas.part;
            if (chamber != filled && volume > room + 1e-9 * std::max(1.0, size) &&
                !sets.disjoint(there, knowledge_.possible())) {
                too_much_.push_back(
                    {chamber, volume, room, sets.both(there, knowledge_.possible()), piece.cause, kind});
            }
        }
        lose_gas(chamber, volume, where, kind);
    }
}

void Transport::come_in(Engine& engine, ChamberId chamber, double volume, Set where, CauseKind kind) {
    std::vector<ChamberId> passed;
    std::vector<Receiver> receivers;
    add_receivers(engine, chamber, where, passed, receivers);
    receive(receivers, volume, kind, {});
}

// At the `until` of a flow of liquid: what it lands in, once each, whatever brings it there.
void Transport::count_flow(Engine& engine, const Flow& flow, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    std::vector<Receiver> receivers;
    ChamberId filled;
    Set lands_anew = nothing; // in what the flow comes from
    for (const Stream& stream : streams_) {
        if (!names_outlet(flow, stream.outlet) || engine.is_gas(stream.source)) {
            continue;
        }
        Set meant = nothing;
        for (const auto& [origin, where] : stream.origins) {
            meant = names_origin(flow, origin) ? sets.either(meant, where) : meant;
        }
        for (const auto& [chamber, there] : engine.lands_in(stream.outlet)) {
            std::vector<ChamberId> passed;
            add_receivers(engine, chamber, sets.both(sets.both(when, meant), there), passed, receivers);
            filled = flow.until->kind == ObservationKind::full ? chamber : filled;
            if (std::ranges::find(flow.chambers, chamber) != flow.chambers.end()) {
                lands_anew = sets.either(lands_anew, there);
            }
        }
    }
    // Vessels give no more than is in them.
    double given = 0;
    for (const ChamberId chamber : flow.chambers) {
        Carried carried;
        const PocketIndex pocket = pockets_.of_chamber(chamber);
        inventory_.join_into(carried, pocket, when);
        given += system_[chamber].vessel ? *pockets_[pocket].volume * (1 - std::min(1.0, carried.gas.part)) : unlimited;
    }
    const bool limited = flow.supplies.empty() && lands_anew == nothing;
    receive(receivers, std::min(volume_of(flow.at_most, unlimited), limited ? given : unlimited), CauseKind::flow,
            filled);
}

} // namespace curbstop::proofs
