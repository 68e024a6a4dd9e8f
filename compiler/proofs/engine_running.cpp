// Which discharges run and which chambers run out after an event, and what lands where.
#include <algorithm>

#include "proofs/engine.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

namespace {

// An event begins: what runs now is what ran before it.
void age(std::vector<DischargeState>& states) {
    std::erase_if(states, [](const DischargeState& state) { return state.now == nothing; });
    for (DischargeState& state : states) {
        state.before = state.now;
    }
}

// Takes over what runs now: what was not listed ran nowhere before, what is listed no longer has stopped.
void take_over(std::vector<DischargeState>& states, std::vector<std::pair<DischargeKey, Set>> now) {
    std::ranges::sort(now, {}, &std::pair<DischargeKey, Set>::first);
    std::vector<DischargeState> merged;
    merged.reserve(std::max(now.size(), states.size()));
    auto old = states.begin();
    for (const auto& [key, set] : now) {
        for (; old != states.end() && old->key < key; ++old) {
            merged.push_back({old->key, nothing, old->before});
        }
        const bool known = old != states.end() && old->key == key;
        merged.push_back({key, set, known ? old->before : nothing});
        if (known) {
            ++old;
        }
    }
    for (; old != states.end(); ++old) {
        merged.push_back({old->key, nothing, old->before});
    }
    states = std::move(merged);
}

} // namespace

std::vector<std::pair<ChamberId, Set>> Engine::vessels_under(OutletId outlet) {
    std::vector<std::pair<ChamberId, Set>> vessels;
    for (const auto& [whereabouts, under] : network_.catchers(outlet)) {
        for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
            if (system_.chambers[i].whereabouts == whereabouts) {
                vessels.emplace_back(ChamberId(i), knowledge_.stands(whereabouts, under));
            }
        }
    }
    std::erase_if(vessels, [&](const auto& vessel) { return diagrams().disjoint(vessel.second, possible()); });
    return vessels;
}

std::vector<std::pair<ChamberId, Set>> Engine::lands_in(OutletId id) {
    const Outlet& outlet = system_[id];
    std::vector<std::pair<ChamberId, Set>> chambers = vessels_under(id); // what stands under it is nearest
    const Set past_vessels = diagrams().complement(network_.caught(id, knowledge_));
    if (!outlet.lands.valid()) {
        return chambers;
    }
    if (system_[outlet.lands].chamber.valid()) {
        chambers.emplace_back(system_[outlet.lands].chamber, past_vessels);
    } else if (landing_reach_[id.value]) {
        Reach& onward = *landing_reach_[id.value];
        for (const Vertex vertex : onward.marks()) {
            if (const ChamberId chamber = network_.chamber_at_low(vertex); chamber.valid()) {
                chambers.emplace_back(chamber, diagrams().both(past_vessels, onward.exact(vertex, knowledge_)));
            }
        }
    }
    return chambers;
}

void Engine::work_out() {
    ++version_;
    age(discharges_);
    age(gravity_);
    // What runs brings liquid to chambers, and liquid in chambers lets more run. Each turn adds some; chambers are few.
    std::uint64_t contents_before = 0;
    do {
        contents_before = contents_.version();
        work_out_discharges();
        work_out_gravity();
        spread_contents();
    } while (contents_.version() != contents_before);
    if (begun_) {
        transport_->after_event(*this);
    }
}

void Engine::spread_contents() {
    instants::Diagrams& sets = diagrams();
    for (const DischargeState& state : discharges_) {
        const SourceState& pushed_by = *source(state.key.source);
        if (state.now == nothing || is_gas(state.key.source)) {
            continue;
        }
        const FluidSet fluids = fluids_of(state.key.origin);
        for (const auto& [chamber, where] : lands_in(state.key.outlet)) {
            contents_.take_in(chamber, fluids, sets.both(state.now, where));
        }
        // Every closed chamber that is pressed on may be on the way.
        for (const Vertex vertex : pushed_by.reach->marks()) {
            if (const ChamberId chamber = network_.chamber_at_out(vertex);
                chamber.valid() && chamber != state.key.origin.chamber) {
                contents_.take_in(chamber, fluids, sets.both(state.now, pushed_by.reach->exact(vertex, knowledge_)));
            }
        }
    }
    for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
        const ChamberId from(i);
        if (system_[from].vessel || sets.disjoint(contents_.may_hold(from), possible())) {
            continue;
        }
        for (const Vertex vertex : gravity_reach_[i]->marks()) {
            if (const ChamberId to = network_.chamber_at_low(vertex); to.valid() && to != from) {
                contents_.take_in(to, contents_.fluids(from),
                                  sets.both(contents_.may_hold(from), gravity_reach_[i]->exact(vertex, knowledge_)));
            }
        }
    }
}

Set Engine::has_outlet(const SourceState& source) {
    Set result = nothing;
    for (const Vertex vertex : source.reach->marks()) {
        if (network_.outlet_at(vertex).valid()) {
            result = diagrams().either(result, source.reach->exact(vertex, knowledge_));
        }
    }
    for (const Threshold& threshold : source.thresholds) {
        for (const Vertex vertex : threshold.reach->marks()) {
            if (threshold.is_relief && network_.outlet_at(vertex).valid() && threshold.reach->possible(vertex)) {
                result = diagrams().either(result, diagrams().both(threshold.reach->exact(vertex, knowledge_),
                                                                   gives_more_than(source.id, threshold.at)));
            }
        }
    }
    return result;
}

Set Engine::active(OutletId outlet) {
    Set result = nothing;
    for (const EdgeIndex index : network_.into(network_.outlet_vertex(outlet))) {
        result = diagrams().either(result, network_.edge(index).open);
    }
    return result;
}

Set Engine::falls(ChamberId chamber, OutletId outlet) {
    return gravity_reach(chamber).exact(network_.outlet_vertex(outlet), knowledge_);
}

FluidSet Engine::fluids_of(const Origin& origin) const {
    if (origin.chamber.valid()) {
        return contents_.fluids(origin.chamber);
    }
    return fluid_bit(system_[origin.supply].fluid);
}

void Engine::work_out_discharges() {
    std::vector<std::pair<DischargeKey, Set>> now;
    for (SourceState& state : sources_) {
        if (!state.possibly_on) {
            continue;
        }
        std::vector<std::pair<OutletId, Set>> outlets;
        for (const Vertex vertex : state.reach->marks()) {
            if (const OutletId outlet = network_.outlet_at(vertex); outlet.valid()) {
                outlets.emplace_back(outlet, diagrams().both(state.on, state.reach->exact(vertex, knowledge_)));
            }
        }
        for (const Threshold& threshold : state.thresholds) {
            if (!threshold.is_relief) {
                continue;
            }
            for (const Vertex vertex : threshold.reach->marks()) {
                const OutletId outlet = network_.outlet_at(vertex);
                if (!outlet.valid() || system_[outlet].ways.empty() || !system_[system_[outlet].ways.front()].above) {
                    continue;
                }
                const Set strong = diagrams().both(state.on, gives_more_than(state.id, threshold.at));
                outlets.emplace_back(outlet, diagrams().both(strong, threshold.reach->exact(vertex, knowledge_)));
            }
        }
        if (outlets.empty()) {
            continue;
        }
        std::vector<std::pair<Origin, Set>> origins;
        if (state.draw) {
            origins = draws_on(*state.draw);
        } else {
            origins = {{Origin{{}, state.id}, everything}};
        }
        for (const auto& [outlet, reached] : outlets) {
            for (const auto& [origin, drawn] : origins) {
                const Set runs = diagrams().both(reached, drawn);
                if (!diagrams().disjoint(runs, possible())) {
                    now.push_back({{state.id, origin, outlet}, runs});
                }
            }
        }
    }
    take_over(discharges_, std::move(now));
}

void Engine::work_out_gravity() {
    std::vector<std::pair<DischargeKey, Set>> now;
    for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
        const ChamberId chamber(i);
        if (system_[chamber].vessel || diagrams().disjoint(contents_.may_hold(chamber), possible())) {
            continue;
        }
        for (const Vertex vertex : gravity_reach_[i]->marks()) {
            const OutletId outlet = network_.outlet_at(vertex);
            if (!outlet.valid()) {
                continue;
            }
            const Set runs = diagrams().both(gravity_reach_[i]->exact(vertex, knowledge_), contents_.may_hold(chamber));
            if (!diagrams().disjoint(runs, possible())) {
                now.push_back({{{}, {chamber, {}}, outlet}, runs});
            }
        }
    }
    take_over(gravity_, std::move(now));
}

} // namespace curbstop::proofs
