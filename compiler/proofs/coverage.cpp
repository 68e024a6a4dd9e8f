#include "proofs/coverage.h"

#include <algorithm>

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

bool names_origin(const Flow& flow, const Origin& origin) {
    return origin.chamber.valid() ? std::ranges::find(flow.chambers, origin.chamber) != flow.chambers.end()
                                  : std::ranges::find(flow.supplies, origin.supply) != flow.supplies.end();
}

bool names_outlet(const Flow& flow, OutletId outlet) {
    return std::ranges::find(flow.outlets, outlet) != flow.outlets.end();
}

bool names(const Flow& flow, const DischargeKey& key) {
    if (!names_outlet(flow, key.outlet)) {
        return false;
    }
    if (key.source.valid()) {
        return !flow.gravity && names_origin(flow, key.origin);
    }
    return !flow.gravity || names_origin(flow, key.origin);
}

bool names_all_of(const Flow& outer, const Flow& inner) {
    const auto in = [](const auto& list, const auto& item) { return std::ranges::find(list, item) != list.end(); };
    return outer.gravity == inner.gravity &&
           std::ranges::all_of(inner.chambers, [&](ChamberId c) { return in(outer.chambers, c); }) &&
           std::ranges::all_of(inner.supplies, [&](meaning::SourceId s) { return in(outer.supplies, s); }) &&
           std::ranges::all_of(inner.outlets, [&](OutletId o) { return in(outer.outlets, o); });
}

void Coverage::at(std::size_t operation) {
    at_ = operation;
}

void Coverage::step_begins() {
    past_.clear();
    seen_.clear();
    kept_.clear();
}

void Coverage::step_ends() {}

void Coverage::until(const Flow& flow, Set when) {
    const auto around = std::ranges::find(meanwhile_, &flow, &Window::flow);
    if (around != meanwhile_.end()) {
        meanwhile_.erase(around);
        seen_.push_back({&flow, when});
        return;
    }
    past_.push_back({&flow, when});
    seen_.push_back({&flow, when});
}

void Coverage::keep(const Flow& flow, Set when) {
    kept_.push_back({&flow, when});
    seen_.push_back({&flow, when});
}

void Coverage::meanwhile(const Flow& flow, Set when) {
    meanwhile_.push_back({&flow, when});
}

Set Coverage::runs(const Flow& flow) const {
    Set result = nothing;
    for (const DischargeState& state : flow.gravity ? engine_.gravity() : engine_.discharges()) {
        if (names(flow, state.key)) {
            result = engine_.diagrams().either(result, state.now);
        }
    }
    return result;
}

void Coverage::after_event() {
    for (Window& window : past_) {
        window.where = engine_.diagrams().both(window.where, runs(*window.flow));
    }
}

template <typename Tell>
void Coverage::each_covering(const Tell& tell) const {
    instants::Diagrams& diagrams = engine_.diagrams();
    for (const auto* list : {&past_, &kept_, &meanwhile_}) {
        for (const Window& window : *list) {
            tell(*window.flow, window.where);
        }
    }
    // The next `until` of the step, per configuration: what lies behind it is covered by a later one.
    Set taken = nothing;
    for (std::size_t i = at_; i < program_.operations.size(); ++i) {
        const instants::Operation& operation = program_.operations[i];
        if (std::holds_alternative<instants::StepEnd>(operation.what)) {
            break;
        }
        const auto* until = std::get_if<instants::Until>(&operation.what);
        if (until == nullptr) {
            continue;
        }
        tell(*until->flow, diagrams.without(operation.when, taken));
        taken = diagrams.either(taken, operation.when);
        if (taken == everything) {
            break;
        }
    }
}

template <typename Names>
Set Coverage::covered(const Names& names) const {
    Set covered = nothing;
    each_covering([&](const Flow& flow, Set where) {
        if (names(flow)) {
            covered = engine_.diagrams().either(covered, where);
        }
    });
    return covered;
}

std::optional<double> Coverage::at_most(const DischargeKey& key, Set where) const {
    std::optional<double> least;
    each_covering([&](const Flow& flow, Set there) {
        if (flow.gravity && flow.at_most && names(flow, key) &&
            engine_.diagrams().within(engine_.diagrams().both(where, engine_.possible()), there)) {
            const double volume = to_double(*flow.at_most, Unit::m3);
            least = least ? std::min(*least, volume) : volume;
        }
    });
    return least;
}

Set Coverage::of(const DischargeKey& key) const {
    return covered([&](const Flow& flow) { return names(flow, key); });
}

Set Coverage::drawn_at(OutletId outlet) const {
    return covered([&](const Flow& flow) { return !flow.gravity && names_outlet(flow, outlet); });
}

Set Coverage::kept(const DischargeKey& key) const {
    Set kept = nothing;
    for (const auto* list : {&kept_, &meanwhile_}) {
        for (const Window& window : *list) {
            if (names(*window.flow, key)) {
                kept = engine_.diagrams().either(kept, window.where);
            }
        }
    }
    return kept;
}

const Flow* Coverage::naming(const DischargeKey& key) const {
    for (auto window = seen_.rbegin(); window != seen_.rend(); ++window) {
        if (names(*window->flow, key)) {
            return window->flow;
        }
    }
    return nullptr;
}

} // namespace curbstop::proofs
