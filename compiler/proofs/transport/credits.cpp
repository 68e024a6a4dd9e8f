// What an observation proves: pockets that were swept, blown out, filled, flushed through, drained.
#include <algorithm>
#include <cmath>
#include <utility>

#include "proofs/coverage.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

/// So many kinds of configurations are told apart when it is asked what stood on a way.
constexpr std::size_t most_alike = 16;

bool reads_concentration(const Observation& seen) {
    return seen.kind == ObservationKind::reads_at_least && seen.least &&
           seen.least->dimension == Dimension::concentration;
}

} // namespace

bool seen_before(const Stream::Place& place, const Stream::Place* glass) {
    return glass == nullptr || place.depth < glass->depth || &place == glass;
}

std::vector<double> volumes_ahead(const Stream::Way& way, std::span<const double> volumes) {
    std::vector<double> ahead(volumes.size());
    double sum = 0;
    for (std::size_t end = volumes.size(); end > 0;) {
        std::size_t begin = end;
        for (; begin > 0 && way.places[begin - 1].depth == way.places[end - 1].depth; --begin) {
            sum += volumes[begin - 1];
        }
        std::fill(ahead.begin() + static_cast<std::ptrdiff_t>(begin), ahead.begin() + static_cast<std::ptrdiff_t>(end),
                  sum);
        end = begin;
    }
    return ahead;
}

void Transport::until(Engine& engine, const Flow& flow, Set when) {
    const Set here = knowledge_.diagrams().both(when, knowledge_.possible());
    if (here == nothing || !flow.until) {
        return;
    }
    if (flow.gravity) {
        credit_drain(engine, flow, here);
        return;
    }
    count_flow(engine, flow, here);
    for (const Stream& stream : std::as_const(streams_)) { // credits change nothing of what runs
        if (!names_outlet(flow, stream.outlet)) {
            continue;
        }
        // Only where all that is drawn is meant.
        Set meant = knowledge_.diagrams().both(here, stream.now);
        for (const auto& [origin, where] : stream.origins) {
            if (!names_origin(flow, origin)) {
                meant = knowledge_.diagrams().without(meant, where);
            }
        }
        // Air that comes in beside what is emptied tells nothing of it.
        const SourceState* source = engine.source(stream.source);
        if (source != nullptr && source->draw && draws_air(system_, flow)) {
            meant = knowledge_.diagrams().without(meant, engine.draws_air_besides(*source->draw, flow.chambers));
        }
        if (meant != nothing) {
            credit_sweep(engine, flow, stream, meant);
            if (draws_air(system_, flow) && !engine.is_gas(stream.source)) {
                credit_drawn_out(flow, stream, meant);
            }
            credit_landing(engine, flow, stream, meant);
        }
    }
    for (Stream& stream : streams_) {
        if (!names_outlet(flow, stream.outlet)) {
            continue;
        }
        if (engine.is_gas(stream.source) && flow.until->kind == ObservationKind::only_air) {
            stream.blown = knowledge_.diagrams().either(stream.blown, knowledge_.diagrams().both(here, stream.now));
        }
        for (const Stream::Way& way : stream.ways) {
            const Set then = knowledge_.diagrams().both(here, way.where);
            if (then == nothing) {
                continue;
            }
            for (const Stream::Place& place : way.places) {
                note_found(stream, place.pocket, then);
            }
        }
    }
}

// A lifting part has drawn until air came: what the flow names and it drew from is empty.
void Transport::credit_drawn_out(const Flow& flow, const Stream& stream, Set when) {
    for (const auto& [origin, where] : stream.origins) {
        if (origin.chamber.valid() && std::ranges::find(flow.chambers, origin.chamber) != flow.chambers.end()) {
            inventory_.change(pockets_.of_chamber(origin.chamber), knowledge_.diagrams().both(when, where),
                              cause(CauseKind::drained),
                              [](const Bounds& own) { return emptied(own, gas_in_emptied_chamber); });
        }
    }
}

void Transport::credit_sweep(Engine& engine, const Flow& flow, const Stream& stream, Set when) {
    const bool gas = engine.is_gas(stream.source);
    if (gas ? flow.until->kind == ObservationKind::only_air : draws_air(system_, flow)) {
        credit_air(flow, stream, when, gas);
        return;
    }
    if (!gas) {
        credit_clear(engine, flow, stream, when);
    }
    if (!gas && reads_concentration(*flow.until)) {
        credit_reading(engine, flow, stream, when);
    }
}

// Blown until nothing but air comes: all that was swept is empty. Drawn until air came: so is the line to the pump, but
// its own housing keeps most of what stood in it.
void Transport::credit_air(const Flow& flow, const Stream& stream, Set when, bool gas) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const PocketIndex housing = gas ? no_pocket : pockets_.of_body(system_[stream.source].part);
    for (const Stream::Way& way : stream.ways) {
        const std::optional<const Stream::Place*> glass = glass_of(flow, stream, way);
        if (!glass) {
            continue;
        }
        const Set here = sets.both(when, way.where);
        for (std::size_t i = 0; i < (gas ? way.places.size() : way.drawn); ++i) {
            const Stream::Place& place = way.places[i];
            const Set* swept = stream.swept.find(place.pocket);
            if (swept != nullptr && pockets_[place.pocket].kind != PocketKind::chamber && seen_before(place, *glass)) {
                const double gas_left = place.pocket == housing ? gas_in_housing : gas_after_emptying;
                inventory_.change(place.pocket, sets.both(here, *swept),
                                  cause(gas ? CauseKind::blown : CauseKind::drained),
                                  [&](const Bounds& own) { return emptied(own, std::max(gas_left, own.gas.now())); });
            }
        }
    }
}

// A colour proves nothing where the origin cannot hold what has it, nor a lack of colour where it cannot be clear.
bool Transport::shows_arrival(const Flow& flow, const Carried& what) const {
    const Liquids& liquids = inventory_.liquids();
    switch (flow.until->kind) {
    case ObservationKind::shows: {
        const std::uint32_t shown = liquids.of(flow.until->fluid);
        return shown != UINT32_MAX && (what.more_than_traces() >> shown & 1) != 0;
    }
    case ObservationKind::clear: {
        double clear = 0;
        for (std::size_t i = 0; i < what.most.size(); ++i) {
            clear += (liquids.unseen() >> i & 1) != 0 ? what.most[i] : 0;
        }
        return clear >= 1 - traces;
    }
    case ObservationKind::reads_at_least:
        return reads_concentration(*flow.until);
    case ObservationKind::stops:
    case ObservationKind::only_air:
    case ObservationKind::full:
    case ObservationKind::holds_pressure:
        return false;
    }
    return false;
}

std::optional<const Stream::Place*> Transport::glass_of(const Flow& flow, const Stream& stream,
                                                        const Stream::Way& way) const {
    if (!flow.seen_at.valid()) {
        return nullptr;
    }
    const auto found = std::ranges::find(way.places, pockets_.of_body(flow.seen_at), &Stream::Place::pocket);
    if (found != way.places.end() && found->rank != 0) {
        return &*found;
    }
    return system_[stream.outlet].part == flow.seen_at ? std::optional<const Stream::Place*>(nullptr) : std::nullopt;
}

void Transport::credit_clear(Engine& engine, const Flow& flow, const Stream& stream, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (const Stream::Way& way : stream.ways) {
        const Set here = sets.both(when, way.where);
        if (here == nothing) {
            continue;
        }
        const Carried what = composition(engine, stream, way);
        const std::optional<const Stream::Place*> seen = glass_of(flow, stream, way);
        if (!seen || !shows_arrival(flow, what)) {
            continue;
        }
        const Stream::Place* glass = *seen;
        const std::vector<Alike> alike = looks_alike(flow, stream, way, what, here);
        for (std::size_t i = 0; i < way.places.size(); ++i) {
            const Stream::Place& place = way.places[i];
            const Set* swept = stream.swept.find(place.pocket);
            if (place.rank == 0 || swept == nullptr || !seen_before(place, glass)) {
                continue;
            }
            const Set credited = sets.both(here, *swept);
            const Pocket& pocket = pockets_[place.pocket];
            if (pocket.kind == PocketKind::chamber) {
                if (!pocket.vented && pocket.volume) {
                    const double times = volume_of(flow.at_least, 0) / *pocket.volume;
                    inventory_.change(place.pocket, credited, cause(CauseKind::mixed),
                                      [&](const Bounds& own) { return mixed_with(own, what, times); });
                }
                continue;
            }
            for (const Alike& one : alike) {
                if (one.places[i] == 0) {
                    inventory_.change(place.pocket, sets.both(credited, one.where), cause(CauseKind::swept),
                                      [&](const Bounds& own) { return swept_by(own, what); });
                }
            }
        }
    }
}

// What arrives may have stood from a place on to the outlet already, so that seeing it come says nothing. Told apart
// are configurations in which other things stood there; where there are too many of them, the worst of all counts.
std::vector<Transport::Alike> Transport::looks_alike(const Flow& flow, const Stream& stream, const Stream::Way& way,
                                                     const Carried& what, Set when) {
    const LiquidSet arriving = what.more_than_traces();
    std::vector<Alike> result;
    for (const Set one : beginnings(stream, way, when)) {
        result.push_back({one, alike_within(flow, stream, way, arriving, one)});
    }
    return result;
}

std::vector<Set> Transport::beginnings(const Stream& stream, const Stream::Way& way, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    std::vector<Set> classes{sets.both(when, knowledge_.possible())};
    for (const Stream::Place& place : way.places) {
        const std::vector<Held>* held = stream.held.find(place.pocket);
        if (held == nullptr || held->size() < 2) {
            continue;
        }
        std::vector<Set> finer;
        for (const Set one : classes) {
            for (const Held& piece : *held) {
                if (const Set inside = sets.both(one, piece.where); inside != nothing) {
                    finer.push_back(inside);
                }
            }
        }
        if (finer.size() > most_alike) {
            classes.assign(1, sets.both(when, knowledge_.possible()));
            break;
        }
        classes = std::move(finer);
    }
    return classes;
}

std::vector<char> Transport::alike_within(const Flow& flow, const Stream& stream, const Stream::Way& way,
                                          LiquidSet arriving, Set where) {
    // What has no colour of its own looks as clear as what comes.
    const LiquidSet like =
        flow.until->kind == ObservationKind::clear ? arriving | inventory_.liquids().unseen() : arriving;
    // From the first pocket on that holds something else or gas; what stands before it is the origin's already.
    double chain = 0;
    std::vector<char> others(way.places.size());
    std::vector<double> same(way.places.size()); // volume that may have held the same
    for (std::size_t i = 0; i < way.places.size(); ++i) {
        const double volume = pockets_[way.places[i].pocket].volume.value_or(unlimited);
        const std::vector<Held>* held = stream.held.find(way.places[i].pocket);
        others[i] = held == nullptr ? 1 : 0;
        for (std::size_t k = 0; held != nullptr && k < held->size(); ++k) {
            const Held& piece = (*held)[k];
            if (!knowledge_.diagrams().disjoint(piece.where, where)) {
                others[i] = others[i] != 0 || !piece.full || (piece.any & ~arriving) != 0 ? 1 : 0;
                same[i] = std::max(same[i], (piece.flowed & like) != 0 ? volume * piece.liquid : 0);
            }
        }
        chain += chain > 0 || others[i] != 0 ? volume : 0;
    }
    const bool enough = volume_of(flow.at_least, 0) >= 2 * chain;
    const std::vector<double> ahead = volumes_ahead(way, same);
    std::vector<char> alike(way.places.size());
    for (std::size_t i = 0; i < alike.size(); ++i) {
        alike[i] = others[i] != 0 && ahead[i] > looks_alike_volume && !enough ? 1 : 0;
    }
    return alike;
}

} // namespace curbstop::proofs
