// What an observation proves: pockets that were swept, blown out, filled, flushed through, drained.
#include <algorithm>
#include <cmath>

#include "proofs/coverage.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

/// What may look like it has arrived already without anyone noticing, m3. Common practice, no source.
constexpr double looks_alike_volume = 0.1e-3;

double volume_of(const std::optional<Quantity>& quantity, double otherwise) {
    return quantity && quantity->dimension == Dimension::volume ? to_double(*quantity, Unit::m3) : otherwise;
}

} // namespace

bool Transport::draws_air(const Flow& flow) const {
    const ObservationKind seen = flow.until->kind;
    return seen == ObservationKind::stops || seen == ObservationKind::only_air ||
           (seen == ObservationKind::shows && system_[flow.until->fluid].gas);
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
    const std::vector<Stream> running = streams_; // credits change nothing of what runs
    for (const Stream& stream : running) {
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
        if (meant != nothing) {
            credit_sweep(engine, flow, stream, meant);
            credit_landing(engine, flow, stream, meant);
        }
    }
    if (draws_air(flow)) {
        for (const ChamberId chamber : flow.chambers) {
            inventory_.change(pockets_.of_chamber(chamber), here, cause(CauseKind::drained),
                              [](const Bounds& own) { return emptied(own, gas_in_emptied_chamber); });
        }
    }
}

void Transport::credit_sweep(Engine& engine, const Flow& flow, const Stream& stream, Set when) {
    const ObservationKind seen = flow.until->kind;
    const bool gas = engine.is_gas(stream.source);
    if (gas && draws_air(flow)) {
        for (const auto& [pocket, where] : stream.swept) {
            if (pockets_[pocket].kind != PocketKind::chamber) {
                inventory_.change(pocket, knowledge_.diagrams().both(when, where), cause(CauseKind::blown),
                                  [](const Bounds& own) { return emptied(own, gas_after_emptying); });
            }
        }
        return;
    }
    if (!gas && draws_air(flow)) {
        // Drawn until air came: the line to the pump is clear.
        for (const Stream::Way& way : stream.ways) {
            for (std::size_t i = 0; i < way.drawn; ++i) {
                const auto swept =
                    std::ranges::find(stream.swept, way.places[i].pocket, &std::pair<PocketIndex, Set>::first);
                if (swept != stream.swept.end() && pockets_[swept->first].kind != PocketKind::chamber) {
                    inventory_.change(swept->first, knowledge_.diagrams().both(when, swept->second),
                                      cause(CauseKind::drained),
                                      [](const Bounds& own) { return emptied(own, gas_after_emptying); });
                }
            }
        }
        return;
    }
    const bool clears = seen == ObservationKind::shows || seen == ObservationKind::clear ||
                        (seen == ObservationKind::reads_at_least && flow.until->least &&
                         flow.until->least->dimension == Dimension::concentration);
    if (!gas && clears) {
        credit_clear(engine, flow, stream, when);
    }
}

void Transport::credit_clear(Engine& engine, const Flow& flow, const Stream& stream, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    for (const Stream::Way& way : stream.ways) {
        const Set here = sets.both(when, way.where);
        if (here == nothing) {
            continue;
        }
        const Carried what = composition(engine, stream, way);
        const Stream::Place* glass = nullptr; // seen there: nothing behind it is known
        if (flow.seen_at.valid()) {
            const PocketIndex body = pockets_.of_body(flow.seen_at);
            const auto found = std::ranges::find(way.places, body, &Stream::Place::pocket);
            const bool at_the_outlet = system_[stream.outlet].part == flow.seen_at;
            if (found != way.places.end() && found->rank != 0) {
                glass = &*found;
            } else if (!at_the_outlet) {
                continue;
            }
        }
        for (const Stream::Place& place : way.places) {
            const auto swept = std::ranges::find(stream.swept, place.pocket, &std::pair<PocketIndex, Set>::first);
            if (place.rank == 0 || swept == stream.swept.end() ||
                (glass != nullptr && place.depth >= glass->depth && &place != glass)) {
                continue;
            }
            const Set credited = sets.both(here, swept->second);
            const Pocket& pocket = pockets_[place.pocket];
            if (pocket.kind == PocketKind::chamber) {
                if (!pocket.vented && pocket.volume) {
                    const double times = volume_of(flow.at_least, 0) / *pocket.volume;
                    inventory_.change(place.pocket, credited, cause(CauseKind::mixed),
                                      [&](const Bounds& own) { return mixed_with(own, what, times); });
                }
            } else if (!looks_alike(flow, stream, way, place, what)) {
                inventory_.change(place.pocket, credited, cause(CauseKind::swept),
                                  [&](const Bounds& own) { return swept_by(own, what); });
            }
        }
    }
}

bool Transport::looks_alike(const Flow& flow, const Stream& stream, const Stream::Way& way, const Stream::Place& place,
                            const Carried& what) const {
    // From the first pocket on that holds something else; what stands before it is the origin's already.
    double chain = 0;
    double alike = 0;
    bool begun = false;
    bool other = false;
    for (const Stream::Place& on : way.places) {
        const double volume = pockets_[on.pocket].volume.value_or(unlimited);
        const auto held = std::ranges::find(stream.held, on.pocket, &std::pair<PocketIndex, Held>::first);
        bool same = false;
        bool others = held == stream.held.end();
        for (std::size_t i = 0; !others && i < what.most.size(); ++i) {
            const bool arrives = what.most[i] > traces;
            same = same || (arrives && held->second.flowed[i]);
            others = others || (!arrives && held->second.any[i]);
        }
        begun = begun || others;
        chain += begun ? volume : 0;
        other = other || (others && on.pocket == place.pocket);
        alike += same && on.depth >= place.depth ? volume : 0;
    }
    return other && alike > looks_alike_volume && volume_of(flow.at_least, 0) < 2 * chain;
}

void Transport::credit_landing(Engine& engine, const Flow& flow, const Stream& stream, Set when) {
    instants::Diagrams& sets = knowledge_.diagrams();
    const bool gas = engine.is_gas(stream.source);
    if (gas) {
        return;
    }
    Carried origins;
    std::vector<std::pair<double, std::vector<bool>>> before; // what stood in the pipes comes in once
    for (const Stream::Way& way : stream.ways) {
        if (sets.disjoint(way.where, when)) {
            continue;
        }
        origins.join(composition(engine, stream, way));
        for (const Stream::Place& place : way.places) {
            const auto held = std::ranges::find(stream.held, place.pocket, &std::pair<PocketIndex, Held>::first);
            if (held != stream.held.end()) {
                before.emplace_back(pockets_[place.pocket].volume.value_or(unlimited), held->second.any);
            }
        }
    }
    for (const auto& [chamber, there] : engine.lands_in(stream.outlet)) {
        const Set where = sets.both(when, there);
        const PocketIndex pocket = pockets_.of_chamber(chamber);
        const double size = pockets_[pocket].volume.value_or(0);
        const auto then = std::ranges::find(stream.landing, pocket, &std::pair<PocketIndex, Bounds>::first);
        if (flow.until->kind == ObservationKind::full && then != stream.landing.end() && size > 0 &&
            then->second.gas >= gas_in_emptied_chamber) {
            Carried came = origins;
            for (const auto& [volume, any] : before) {
                for (std::size_t i = 0; i < came.most.size(); ++i) {
                    came.most[i] = std::min(1.0, came.most[i] + (any[i] ? volume / size : 0));
                    came.least[i] = std::max(0.0, came.least[i] - volume / size);
                }
            }
            inventory_.change(pocket, where, cause(CauseKind::filled), [&](const Bounds&) {
                Bounds filled = mixed_with(then->second, came, -std::log(1 - gas_in_emptied_chamber));
                filled.gas = 0;
                filled.full = true;
                return filled;
            });
            const auto live = std::ranges::find_if(streams_, [&](const Stream& one) {
                return one.source == stream.source && one.outlet == stream.outlet;
            });
            live->brought = sets.within(sets.both(live->now, knowledge_.possible()), where);
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
        const double amount = volume_of(flow.at_most, unlimited);
        if (pockets_[pocket].vented || pockets_[pocket].kind == PocketKind::vessel) {
            lose_gas(chamber, amount, sets.without(where, runs_on), CauseKind::flow);
            inventory_.change(pocket, runs_on, cause(CauseKind::drained),
                              [](const Bounds& own) { return emptied(own, gas_in_emptied_chamber); });
        }
        for (const Fall& onward : falls_) {
            const ChamberId into = network_.chamber_at_low(onward.target);
            if (onward.from == chamber && into.valid() && pockets_[pockets_.of_chamber(into)].vented) {
                lose_gas(into, amount, sets.both(where, onward.now), CauseKind::gravity);
            }
        }
        const bool clears = flow.until->kind == ObservationKind::shows || flow.until->kind == ObservationKind::clear;
        // What stood in the pipes and is something else comes first, and counts for nothing.
        double other = 0;
        for (const auto& [volume, any] : before) {
            for (std::size_t i = 0; i < any.size(); ++i) {
                if (any[i] && origins.most[i] <= traces) {
                    other += volume;
                    break;
                }
            }
        }
        const double least = std::max(0.0, volume_of(flow.at_least, 0) - other);
        if (clears) {
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
            bounds.gas = own.gas;
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
        if (pockets_[pockets_.of_chamber(chamber)].vented) {
            lose_gas(chamber, volume, here, CauseKind::poured);
        }
        const Set surely = sets.both(here, engine.contents().surely_holds(vessel));
        for (const Fall& onward : falls_) {
            if (onward.from == chamber && network_.chamber_at_low(onward.target).valid()) {
                lose_gas(network_.chamber_at_low(onward.target), volume, here, CauseKind::poured);
            }
        }
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
