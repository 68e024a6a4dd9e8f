// Which discharges run now, on which ways, and what every way has passed since they began.
#include <algorithm>

#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

// What was written down for these configurations is written down anew.
template <typename Note>
void forget(instants::Diagrams& sets, std::vector<Note>& notes, Set then) {
    for (Note& was : notes) {
        was.where = sets.without(was.where, then);
    }
    std::erase_if(notes, [](const Note& was) { return was.where == nothing; });
}

/// Whether all that goes this way passes a pocket.
bool passes(const Stream::Way& way, PocketIndex pocket) {
    return std::ranges::any_of(way.places,
                               [&](const Stream::Place& place) { return place.pocket == pocket && place.rank != 0; });
}

} // namespace

void Transport::gather_streams(Engine& engine) {
    instants::Diagrams& sets = knowledge_.diagrams();
    std::vector<Stream> before = std::move(streams_);
    streams_.clear();
    for (const DischargeState& state : engine.discharges()) {
        if (state.now == nothing || sets.disjoint(state.now, knowledge_.possible())) {
            continue;
        }
        auto stream = std::ranges::find_if(streams_, [&](const Stream& known) {
            return known.source == state.key.source && known.outlet == state.key.outlet;
        });
        if (stream == streams_.end()) {
            Stream fresh;
            fresh.source = state.key.source;
            fresh.outlet = state.key.outlet;
            streams_.push_back(std::move(fresh));
            stream = std::prev(streams_.end());
        }
        stream->now = sets.either(stream->now, state.now);
        stream->origins.emplace_back(state.key.origin, state.now);
    }
    for (Stream& stream : streams_) {
        const auto old = std::ranges::find_if(before, [&](const Stream& known) {
            return known.source == stream.source && known.outlet == stream.outlet;
        });
        const bool known = old != before.end();
        const Set ran = known ? old->now : nothing;
        const Regions& regions = regions_[engine.index_of(stream.source)];
        stream.stamp = {regions.pressed->version(), regions.drawn ? regions.drawn->version() : 0,
                        network_.version_into(network_.outlet_vertex(stream.outlet))};
        if (known && old->stamp == stream.stamp && old->now == stream.now && old->origins == stream.origins &&
            old->possible == knowledge_.possible() && !engine.is_gas(stream.source)) {
            Stream same = std::move(*old);
            stream = std::move(same);
            continue;
        }
        stream.possible = knowledge_.possible();
        find_ways(engine, stream);
        // Swept now: on every way of all that is drawn.
        ByPocket<Set> swept_now;
        for (const Stream::Way& way : stream.ways) {
            for (const Stream::Place& place : way.places) {
                if (place.rank != 0) {
                    Set& where = swept_now.at(place.pocket, nothing);
                    where = sets.either(where, way.where);
                }
            }
        }
        const Set going_on = sets.both(stream.now, ran);
        const Set begun = sets.without(stream.now, going_on);
        for (auto& [pocket, where] : swept_now) {
            for (const Stream::Way& way : stream.ways) {
                if (!passes(way, pocket)) {
                    where = sets.without(where, way.where);
                }
            }
            // And before: where it has begun just now nothing came before.
            const Set* was = known ? old->swept.find(pocket) : nullptr;
            where = sets.both(where, sets.either(begun, was == nullptr ? nothing : *was));
        }
        stream.swept = std::move(swept_now);
        if (known) {
            stream.held = std::move(old->held);
            stream.found = std::move(old->found);
            stream.landing = std::move(old->landing);
            stream.brought = old->brought;
            stream.blown = sets.both(old->blown, going_on);
        }
        const Set began = sets.both(sets.without(stream.now, ran), knowledge_.possible());
        begin_stream(engine, stream, began);
    }
    leave_what_all_pass();
}

// Where another source runs out at the same outlet, what is seen there may have come from that one: only what lies on
// its ways as well has surely been swept.
void Transport::leave_what_all_pass() {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (Stream& stream : streams_) {
        for (const Stream& other : streams_) {
            if (&other == &stream || other.outlet != stream.outlet || sets.disjoint(other.now, stream.now)) {
                continue;
            }
            for (auto& [pocket, where] : stream.swept) {
                for (const Stream::Way& way : other.ways) {
                    if (!passes(way, pocket)) {
                        where = sets.without(where, way.where);
                    }
                }
            }
        }
    }
}

void Transport::note_found(Stream& stream, PocketIndex pocket, Set then) {
    std::vector<Found>& found = stream.found.at(pocket, {});
    forget(knowledge_.diagrams(), found, then);
    inventory_.add_found(found, pocket, pockets_[pocket].kind == PocketKind::chamber, then);
}

void Transport::begin_stream(Engine& engine, Stream& stream, Set began) {
    instants::Diagrams& sets = knowledge_.diagrams();
    if (began != nothing && sets.within(stream.now, began)) {
        stream.held.clear(); // all of it has begun just now
        stream.found.clear();
    }
    // What is on the ways now and was not asked about yet is told as it is now.
    std::vector<PocketIndex> known; // in their order
    for (const auto& [pocket, held] : stream.held) {
        known.push_back(pocket);
    }
    for (const Stream::Way& way : stream.ways) {
        for (const Stream::Place& place : way.places) {
            const bool told = std::ranges::binary_search(known, place.pocket);
            const Set then = told ? sets.both(way.where, began) : way.where;
            if (then == nothing) {
                continue;
            }
            std::vector<Held>& held = stream.held.at(place.pocket, {});
            forget(sets, held, then);
            inventory_.add_held(held, place.pocket, pockets_[place.pocket].kind == PocketKind::chamber, then);
            note_found(stream, place.pocket, then);
        }
    }
    if (began == nothing) {
        return;
    }
    if (sets.within(stream.now, began)) {
        stream.landing.clear();
        stream.brought = false;
    }
    for (const auto& [chamber, where] : engine.lands_in(stream.outlet)) {
        const PocketIndex pocket = pockets_.of_chamber(chamber);
        for (const Piece& piece : inventory_.pieces(pocket)) {
            if (sets.disjoint(sets.both(piece.where, began), sets.both(where, knowledge_.possible()))) {
                continue;
            }
            Bounds& landing = stream.landing.at(pocket, piece.bounds);
            landing = joined(landing, piece.bounds);
        }
    }
    if (!engine.is_gas(stream.source)) {
        return;
    }
    // Air pushes on what stands in the pipes, and no more than that: so much may come to rest in chambers.
    double volume = 0;
    std::vector<PocketIndex> passed;
    for (const Stream::Way& way : stream.ways) {
        double chain = 0;
        for (const Stream::Place& place : way.places) {
            if (pockets_[place.pocket].kind == PocketKind::chamber) {
                passed.push_back(place.pocket);
                continue;
            }
            Carried carried;
            inventory_.join_into(carried, place.pocket, began);
            chain += pockets_[place.pocket].volume.value_or(unlimited) * (1 - carried.gas.now());
        }
        volume = std::max(volume, chain);
    }
    for (const auto& [chamber, where] : engine.lands_in(stream.outlet)) {
        come_in(engine, chamber, volume, sets.both(began, where), CauseKind::flow);
    }
    std::ranges::sort(passed);
    passed.erase(std::unique(passed.begin(), passed.end()), passed.end());
    for (const PocketIndex pocket : passed) {
        lose_gas(ChamberId(pockets_[pocket].index), volume, began, CauseKind::flow);
    }
}

std::vector<Vertex> Transport::openings(Engine& engine, std::size_t source) const {
    std::vector<Vertex> sinks;
    Region& region = *regions_[source].pressed;
    const auto lets_out = [&](OutletId outlet) { // a relief valve that is not pressed open is no opening
        const bool is_relief = std::ranges::any_of(network_.into(network_.outlet_vertex(outlet)), [&](EdgeIndex index) {
            return (network_.edge(index).classes & relief) != 0;
        });
        return !is_relief || std::ranges::any_of(streams_, [&](const Stream& stream) {
            return stream.outlet == outlet && engine.index_of(stream.source) == source;
        });
    };
    for (const Vertex vertex : region.reach().marks()) {
        if (const OutletId outlet = network_.outlet_at(vertex); outlet.valid() && lets_out(outlet)) {
            sinks.push_back(vertex);
        }
    }
    for (const Way& way : system_.ways) {
        const Vertex vertex = way.kind == WayKind::vent ? network_.arrival(way.from) : none;
        if (vertex != none && region.reach().possible(vertex) &&
            !knowledge_.diagrams().disjoint(engine.knowledge().truth(way.condition), knowledge_.possible())) {
            sinks.push_back(vertex);
        }
    }
    return sinks;
}

Vertex Transport::origin_vertex(const Origin& origin) const {
    return origin.chamber.valid() ? network_.chamber(origin.chamber).out
                                  : network_.source_vertex(system_[origin.supply].node);
}

void Transport::find_ways(Engine& engine, Stream& stream) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const std::size_t index = engine.index_of(stream.source);
    const Regions& regions = regions_[index];
    const Vertex target = network_.outlet_vertex(stream.outlet);
    const std::vector<Vertex> sinks =
        engine.is_gas(stream.source) ? openings(engine, index) : std::vector<Vertex>{target};
    const Set now = sets.both(stream.now, knowledge_.possible());
    const std::vector<Passage>& pressed = regions.pressed->passages(target, sinks, now, knowledge_);
    const auto add_places = [&](std::vector<Stream::Place>& places, const Passage& passage, std::uint32_t first) {
        const bool towards_root = first == 0; // of what is drawn the root is the pump
        for (const PassageStep& step : passage.steps) {
            const PocketIndex pocket = pocket_of_[step.vertex];
            if (pocket == no_pocket) {
                continue;
            }
            const auto known = std::ranges::find(places, pocket, &Stream::Place::pocket);
            if (known == places.end()) {
                places.push_back({pocket, first + step.depth, step.rank});
            } else {
                known->rank = std::max(known->rank, step.rank); // a chamber is several vertices
            }
        }
        for (Stream::Place& place : places) {
            if (place.depth >= first && place.rank != 0 && pockets_[place.pocket].kind == PocketKind::chamber) {
                place.by_top = leaves_by_top(place.pocket, passage, place.rank, towards_root);
            }
        }
    };
    constexpr std::uint32_t between = 1U << 30;
    for (const auto& [origin, drawn_where] : stream.origins) {
        std::vector<Passage> drawn;
        if (regions.drawn) {
            const Vertex from = origin_vertex(origin);
            drawn = regions.drawn->passages(from, std::array{from}, sets.both(now, drawn_where), knowledge_);
        } else {
            drawn.push_back({sets.both(now, drawn_where), {}});
        }
        for (const Passage& suction : drawn) {
            for (const Passage& delivery : pressed) {
                const Set where = sets.both(suction.where, delivery.where);
                if (where == nothing) {
                    continue;
                }
                Stream::Way way{where, origin, {}, 0};
                // Seen from the pump the origin is farthest: the other way round it is first.
                add_places(way.places, suction, 0);
                const PocketIndex first =
                    way.origin.chamber.valid() ? pockets_.of_chamber(way.origin.chamber) : no_pocket;
                std::erase_if(way.places, [&](const Stream::Place& place) { return place.pocket == first; });
                for (Stream::Place& place : way.places) {
                    place.depth = between - 1 - place.depth;
                }
                std::ranges::reverse(way.places);
                // What a pump lifts, and what a supply gives, comes through its own body.
                if (const PocketIndex body = pockets_.of_body(system_[stream.source].part); body != no_pocket) {
                    way.places.push_back({body, between, 1});
                }
                way.drawn = way.places.size();
                add_places(way.places, delivery, between + 1);
                stream.ways.push_back(std::move(way));
            }
        }
    }
}

bool Transport::gather_falls(Engine& engine) {
    instants::Diagrams& sets = knowledge_.diagrams();
    std::vector<Fall> before = std::move(falls_);
    falls_.clear();
    for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
        const ChamberId from(i);
        const Set holds = sets.both(engine.contents().may_hold(from), knowledge_.possible());
        const Set giving = holds == nothing ? nothing : gives(from, holds);
        if (!gravity_[i] || giving == nothing) {
            continue;
        }
        Region& region = *gravity_[i];
        for (const Vertex target : region.reach().marks()) {
            const OutletId outlet = network_.outlet_at(target);
            const ChamberId into = network_.chamber_at_low(target);
            if (!outlet.valid() && (!into.valid() || into == from)) {
                continue;
            }
            const Set now = sets.both(holds, region.reached(target, knowledge_));
            if (now != nothing) {
                Fall running;
                running.from = from;
                running.target = target;
                running.now = now;
                running.giving = sets.both(now, giving);
                running.stamp = {region.version(), 0, network_.version_into(target)};
                if (outlet.valid()) {
                    running.lands = engine.lands_in(outlet);
                }
                gather_fall(before, std::move(running));
            }
        }
    }
    falls_version_ += falls_.size() != before.size() ? 1 : 0; // some have ended
    const bool begun = !begun_falls_.empty();
    count_falls(engine);
    return begun;
}

void Transport::gather_fall(std::vector<Fall>& before, Fall running) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const auto old = std::ranges::find_if(
        before, [&](const Fall& known) { return known.from == running.from && known.target == running.target; });
    const Set ran = old == before.end() ? nothing : old->now;
    Set running_out = nothing; // by whatever way
    for (const Fall& known : before) {
        if (known.from == running.from) {
            running_out = sets.either(running_out, known.giving);
            running.full = sets.either(running.full, known.full);
        }
    }
    const Set full =
        inventory_.where(pockets_.of_chamber(running.from), [](const Bounds& bounds) { return bounds.full; });
    running.full = sets.both(running.giving, sets.either(running.full, sets.without(full, running_out)));
    Set began = sets.without(running.giving, old == before.end() ? nothing : old->giving);
    for (const auto& [chamber, where] : running.lands) { // what stands there now catches it from now on
        Set caught = nothing;
        if (old != before.end()) {
            const auto was = std::ranges::find(old->lands, chamber, &std::pair<ChamberId, Set>::first);
            caught = was == old->lands.end() ? nothing : was->second;
        }
        began = sets.either(began, sets.without(sets.both(running.giving, where), caught));
    }
    if (began != nothing) {
        begun_falls_.emplace_back(falls_.size(), began);
    }
    if (ran == running.now && old->stamp == running.stamp) {
        old->applied = old->lands == running.lands ? old->applied : 0;
        old->lands = std::move(running.lands);
        old->giving = running.giving;
        old->full = running.full;
        falls_.push_back(std::move(*old));
        return;
    }
    ++falls_version_;
    running.passages = gravity_[running.from.value]->chains_to(running.target, running.now, knowledge_);
    falls_.push_back(std::move(running));
}

// What has just begun to fall brings what stands above it, or as little as the drain that is meant says.
void Transport::count_falls(Engine& engine) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (const auto& [index, began] : std::exchange(begun_falls_, {})) {
        const ChamberId from = falls_[index].from;
        const Vertex target = falls_[index].target;
        const PocketIndex pocket = pockets_.of_chamber(from);
        Carried carried;
        inventory_.join_into(carried, pocket, began);
        double volume = pockets_[pocket].volume.value_or(unlimited) * (1 - std::min(1.0, carried.gas.part));
        if (const OutletId outlet = network_.outlet_at(target); outlet.valid()) {
            if (const auto limit = limit_ ? limit_({{}, {from, {}}, outlet}, began) : std::nullopt) {
                volume = std::min(volume, *limit);
            }
            for (const auto& [chamber, where] : engine.lands_in(outlet)) {
                come_in(engine, chamber, volume, sets.both(began, where), CauseKind::gravity);
            }
        } else if (const ChamberId into = network_.chamber_at_low(target); pockets_[pockets_.of_chamber(into)].vented) {
            come_in(engine, into, volume, began, CauseKind::gravity); // of one that is closed there is another fall
        }
    }
}

} // namespace curbstop::proofs
