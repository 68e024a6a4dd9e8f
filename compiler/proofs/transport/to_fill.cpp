// How much has to run before what is meant shows: what stands empty on the way, or holds something else.
#include <algorithm>

#include "proofs/coverage.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;
using namespace meaning;

std::vector<ToFill> Transport::to_fill(Engine& engine, const Flow& flow, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    std::vector<ToFill> all;
    for (const Stream& stream : streams_) {
        if (!names_outlet(flow, stream.outlet) || engine.is_gas(stream.source)) {
            continue;
        }
        for (const Stream::Way& way : stream.ways) {
            const Set here = sets.both(sets.both(when, way.where), knowledge_.possible());
            if (here == nothing || !names_origin(flow, way.origin)) {
                continue;
            }
            auto known = std::ranges::find_if(
                all, [&](const ToFill& one) { return one.origin == way.origin && one.source == stream.source; });
            if (known == all.end()) {
                known = all.insert(all.end(), ToFill{way.origin, stream.source, nothing, {}, {}});
            }
            known->where = sets.either(known->where, here);
            // What is held where it comes from in one variant pushes nothing out in another.
            for (const auto& [arriving, where] : arriving_from(way.origin)) {
                if (const Set there = sets.both(here, where); there != nothing) {
                    add_to_fill(engine, stream, way, arriving, there, *known);
                }
            }
        }
    }
    for (ToFill& one : all) {
        Region& pressed = *regions_[engine.index_of(one.source)].pressed;
        for (const Bladder& bladder : bladders_) {
            const Set there = sets.both(one.where, pressed.reached(bladder.vertex, knowledge_));
            if (there != nothing) {
                one.stores.emplace_back(bladder.pocket, there);
            }
        }
    }
    return all;
}

// The liquids of which there is more than traces, where that is so.
std::vector<std::pair<LiquidSet, Set>> Transport::arriving_from(const Origin& origin) {
    if (!origin.chamber.valid()) {
        const std::uint32_t liquid = inventory_.liquids().of(system_[origin.supply].fluid);
        return {{LiquidSet{1} << liquid, everything}};
    }
    std::vector<std::pair<LiquidSet, Set>> arriving;
    for (const Piece& piece : inventory_.pieces(pockets_.of_chamber(origin.chamber))) {
        const LiquidSet liquids = piece.bounds.more_than_traces();
        const auto known = std::ranges::find(arriving, liquids, &std::pair<LiquidSet, Set>::first);
        if (known == arriving.end()) {
            arriving.emplace_back(liquids, piece.where);
        } else {
            known->second = knowledge_.diagrams().either(known->second, piece.where);
        }
    }
    return arriving;
}

// In the order of the flow: what has to go, or to be pushed out, goes through all that lies behind it.
void Transport::add_to_fill(Engine& engine, const Stream& stream, const Stream::Way& way, LiquidSet arriving, Set here,
                            ToFill& into) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const auto lands = engine.lands_in(stream.outlet);
    const auto is_landing = [&](PocketIndex pocket) {
        return std::ranges::any_of(lands, [&](const auto& into) { return pockets_.of_chamber(into.first) == pocket; });
    };
    Set before = nothing;
    for (std::size_t begin = 0; begin < way.places.size();) {
        std::size_t end = begin;
        for (; end < way.places.size() && way.places[end].depth == way.places[begin].depth; ++end) {
            const std::vector<Found>* found =
                is_landing(way.places[end].pocket) ? nullptr : stream.found.find(way.places[end].pocket);
            for (std::size_t k = 0; found != nullptr && k < found->size(); ++k) {
                if (!(*found)[k].full || ((*found)[k].any & ~arriving) != 0) {
                    before = sets.either(before, sets.both(here, (*found)[k].where));
                }
            }
        }
        for (; begin < end && before != nothing; ++begin) {
            const PocketIndex pocket = way.places[begin].pocket;
            if (is_landing(pocket)) {
                continue;
            }
            auto part = std::ranges::find(into.parts, pocket, &ToFill::Part::pocket);
            if (part == into.parts.end()) {
                part = into.parts.insert(into.parts.end(), ToFill::Part{pocket, nothing, nothing});
            }
            part->fill = sets.either(part->fill, before);
            const std::vector<Found>* found = stream.found.find(pocket);
            for (std::size_t k = 0; found != nullptr && k < found->size(); ++k) {
                if (!(*found)[k].emptied && ((*found)[k].any & ~arriving) != 0) {
                    part->again = sets.either(part->again, sets.both(here, (*found)[k].where));
                }
            }
        }
        begin = end;
    }
}

} // namespace curbstop::proofs
