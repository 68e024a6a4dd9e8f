#include "proofs/engine.h"

#include <algorithm>

#include "meaning/expression_builder.h"
#include "proofs/transport/claims.h"
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

namespace {

/// A source whose dial is at zero presses on nothing.
constexpr Quantity nothing_at_all{Dimension::pressure, Rational(0)};

} // namespace

bool takes_apart(instants::MoveKind kind) {
    return kind == instants::MoveKind::uncouple || kind == instants::MoveKind::uncap ||
           kind == instants::MoveKind::lift_out;
}

ValueSet together(const System& system, const instants::Move& move) {
    if (!takes_apart(move.kind)) {
        return 0;
    }
    ValueSet values = 0;
    const Variable& end = system[move.settings.front().variable];
    for (std::size_t value = 0; value < end.values.size(); ++value) {
        const NodeId partner = end.values[value].partner;
        const bool coupled = partner.valid() && system[partner].end.valid();
        const bool dipped = partner.valid() && !coupled;
        const bool capped = value != 0 && !partner.valid();
        if (move.kind == instants::MoveKind::uncouple   ? coupled
            : move.kind == instants::MoveKind::lift_out ? dipped
                                                        : capped) {
            values |= ValueSet{1} << value;
        }
    }
    return values;
}

Engine::Engine(const System& system, instants::Knowledge& knowledge)
    : system_(system)
    , knowledge_(knowledge)
    , network_(system, knowledge)
    , contents_(system, knowledge)
    , heat_(system, knowledge)
    , charge_(system, network_, knowledge) {
    build_sources();
    build_gravity();
    for (SourceState& state : sources_) {
        refresh_source(state);
    }
    charge_.begin();
    work_out_discharges();
    work_out_gravity();
    transport_ = std::make_unique<Transport>(system, knowledge);
}

Engine::~Engine() = default;

std::size_t Engine::index_of(SourceId source) const {
    return static_cast<std::size_t>(std::ranges::find(sources_, source, &SourceState::id) - sources_.begin());
}

std::vector<std::pair<Origin, Set>> Engine::origins_of(const SourceState& source) {
    if (source.draw) {
        return draws_on(*source.draw);
    }
    return {{Origin{{}, source.id}, everything}};
}

double Engine::greatest_pressure(SourceId source) {
    if (!system_[source].dial.valid()) {
        return system_[source].pressure ? to_double(*system_[source].pressure, Unit::Pa) : 0;
    }
    double greatest = 0;
    const Variable& dial = system_[system_[source].dial];
    const ValueSet values = knowledge_.possible_values(system_[source].dial);
    for (std::size_t i = 0; i < dial.values.size(); ++i) {
        if ((values >> i & 1) != 0) {
            greatest = std::max(greatest, to_double(*dial.values[i].setting, Unit::Pa));
        }
    }
    return greatest;
}

void Engine::saw_holds(ChamberId chamber, FluidId fluid, Set where) {
    contents_.holds(chamber, fluid.valid() ? fluid_bit(fluid) : 0, where);
    transport_->saw_holds(chamber, fluid, where);
}

void Engine::saw_empty(ChamberId chamber, Set where) {
    contents_.empty(chamber, where);
    transport_->saw_empty(chamber, where);
}

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

void Engine::begin() {
    begun_ = true;
    work_out(); // contents spread before the start, too
    for (auto* list : {&discharges_, &gravity_}) {
        for (DischargeState& state : *list) {
            state.before = state.now; // nothing is new at the start
        }
    }
}

bool Engine::is_gas(SourceId source) const {
    return system_[source].fluid.valid() && system_[system_[source].fluid].gas;
}

void Engine::build_sources() {
    sources_by_variable_.resize(system_.variables.size());
    for (std::uint32_t i = 0; i < system_.sources.size(); ++i) {
        const Source& source = system_.sources[i];
        if (source.kind != SourceKind::supply && source.kind != SourceKind::lift) {
            continue;
        }
        SourceState state;
        state.id = SourceId(i);
        const auto base = static_cast<std::uint8_t>(pass | outlet | outlet_inside | (is_gas(state.id) ? gas_fall : 0));
        const Vertex start = network_.source_vertex(source.node);
        state.reach =
            std::make_unique<Reach>(network_, system_, ReachSpec{.starts = {start}, .classes = base, .relief_at = {}});
        if (source.kind == SourceKind::lift) {
            state.draw = std::make_unique<Reach>(network_, system_,
                                                 ReachSpec{.starts = {network_.drawn_vertex(source.suction)},
                                                           .direction = Direction::backward,
                                                           .classes = static_cast<std::uint8_t>(pass | breath),
                                                           .relief_at = {}});
        }
        // Ratings and relief settings below what the source can give.
        std::optional<Quantity> greatest = source.pressure;
        if (source.dial.valid()) {
            greatest = system_[source.dial].values.front().setting;
        }
        if (greatest) {
            std::vector<Quantity> ratings, reliefs;
            for (const Rating& rating : system_.ratings) {
                if (rating.limit.value < greatest->value) {
                    ratings.push_back(rating.limit);
                }
            }
            for (const Way& way : system_.ways) {
                if (way.above && way.above->value < greatest->value) {
                    reliefs.push_back(*way.above);
                }
            }
            for (auto* list : {&ratings, &reliefs}) {
                std::ranges::sort(*list);
                list->erase(std::unique(list->begin(), list->end()), list->end());
                for (const Quantity& at : *list) {
                    Threshold threshold{at, nullptr, list == &reliefs};
                    for (const Rating& rating : system_.ratings) {
                        if (!threshold.is_relief && rating.limit.value == at.value) {
                            threshold.weak.push_back(rating);
                        }
                    }
                    state.thresholds.push_back(std::move(threshold));
                }
            }
            for (Threshold& threshold : state.thresholds) {
                threshold.reach = std::make_unique<Reach>(
                    network_, system_,
                    ReachSpec{.starts = {start},
                              .classes = static_cast<std::uint8_t>(base | relief),
                              .reducers_pass_above = &threshold.at,
                              .relief_at = threshold.is_relief ? std::optional(threshold.at) : std::nullopt});
            }
        }
        std::vector<VariableId> variables;
        variables_in(system_, source.on, variables);
        if (source.dial.valid()) {
            variables.push_back(source.dial);
        }
        for (const VariableId variable : variables) {
            sources_by_variable_[variable.value].push_back(static_cast<std::uint32_t>(sources_.size()));
        }
        sources_.push_back(std::move(state));
        // The threshold's quantity is pointed at by its search: it must not move again.
        for (Threshold& threshold : sources_.back().thresholds) {
            threshold.reach->point_reducers_at(threshold.at);
        }
    }
}

void Engine::build_gravity() {
    for (std::uint32_t i = 0; i < system_.chambers.size(); ++i) {
        gravity_reach_.push_back(
            std::make_unique<Reach>(network_, system_, gravity_from(system_, network_, ChamberId(i))));
    }
    for (const HeatedChamber& heated : heat_.chambers()) {
        bursting_reach_.push_back(
            std::make_unique<Reach>(network_, system_,
                                    ReachSpec{.starts = {network_.chamber(heated.chamber).out},
                                              .classes = static_cast<std::uint8_t>(pass | outlet | outlet_inside),
                                              .relief_at = {}}));
    }
    for (const Outlet& outlet : system_.outlets) {
        const bool on_port =
            outlet.lands.valid() && !outlet.fills.valid() &&
            (system_[outlet.lands].kind == NodeKind::port || system_[outlet.lands].kind == NodeKind::tee ||
             system_[outlet.lands].kind == NodeKind::end);
        landing_reach_.push_back(
            on_port ? std::make_unique<Reach>(network_, system_,
                                              ReachSpec{.starts = {network_.arrival(outlet.lands)},
                                                        .classes = static_cast<std::uint8_t>(pass | gas_fall | settle),
                                                        .relief_at = {}})
                    : nullptr);
    }
}

const SourceState* Engine::source(SourceId id) const {
    const auto found = std::ranges::find(sources_, id, &SourceState::id);
    return found == sources_.end() ? nullptr : &*found;
}

Reach& Engine::drawing_at(NodeId node) {
    for (const auto& [at, reach] : drawing_) {
        if (at == node) {
            return *reach;
        }
    }
    drawing_.emplace_back(node, std::make_unique<Reach>(network_, system_,
                                                        ReachSpec{.starts = {network_.drawn_vertex(node)},
                                                                  .direction = Direction::backward,
                                                                  .classes = static_cast<std::uint8_t>(pass | breath),
                                                                  .relief_at = {}}));
    return *drawing_.back().second;
}

void Engine::refresh_source(SourceState& state) {
    state.on = diagrams().both(knowledge_.truth(system_[state.id].on), gives_more_than(state.id, nothing_at_all));
    state.possibly_on = !diagrams().disjoint(state.on, possible());
    charge_.runs(state.id, state.on);
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

std::vector<Placement> Engine::placements(const instants::Move& move, Set when) {
    std::vector<Placement> placements;
    // Taking apart acts on what is together, and on nothing else.
    if (const ValueSet values = together(system_, move); values != 0 || takes_apart(move.kind)) {
        when = diagrams().both(when, knowledge_.stands(move.settings.front().variable, values));
    }
    // Whatever an end was coupled to is left open by what becomes of the end.
    for (const Setting& setting : move.settings) {
        const Variable& variable = system_[setting.variable];
        if (variable.kind != VariableKind::end) {
            continue;
        }
        for (std::uint32_t value = 0; value < variable.values.size(); ++value) {
            const NodeId partner = variable.values[value].partner;
            if (value == setting.value || !partner.valid() || !system_[partner].end.valid()) {
                continue;
            }
            const Set coupled = diagrams().both(when, knowledge_.stands(setting.variable, ValueSet{1} << value));
            if (!diagrams().disjoint(coupled, possible())) {
                placements.push_back({system_[partner].end, 0, coupled});
            }
        }
    }
    for (const Setting& setting : move.settings) {
        placements.push_back({setting.variable, setting.value, when});
    }
    return placements;
}

void Engine::move(const instants::Move& move, Set when) {
    std::vector<EdgeIndex> changed;
    std::vector<EdgeIndex> changed_in_detail;
    std::vector<VariableId> variables;
    std::vector<std::uint32_t> touched_sources;
    for (const auto& [variable, value, where] : placements(move, when)) {
        knowledge_.put(variable, value, where);
        variables.push_back(variable);
        const auto& edges = network_.edges_of(variable);
        changed.insert(changed.end(), edges.begin(), edges.end());
        const auto& fine = transport_->network().edges_of(variable);
        changed_in_detail.insert(changed_in_detail.end(), fine.begin(), fine.end());
        const auto& sources = sources_by_variable_[variable.value];
        touched_sources.insert(touched_sources.end(), sources.begin(), sources.end());
    }
    for (const std::uint32_t index : touched_sources) {
        refresh_source(sources_[index]);
    }
    for (const VariableId variable : variables) {
        heat_.moved(variable);
    }
    moved(std::move(changed), std::move(changed_in_detail), variables);
}

// Pressure is judged by the ways as they are after the move.
void Engine::moved(std::vector<EdgeIndex> changed, std::vector<EdgeIndex> changed_in_detail,
                   std::span<const VariableId> variables) {
    network_.refresh(changed, knowledge_);
    charge_.event(changed, variables);
    transport_->refresh(std::move(changed_in_detail));
    work_out();
}

void Engine::narrow(Set set) {
    const Set before = possible();
    knowledge_.narrow(set);
    if (possible() == before) {
        return;
    }
    for (SourceState& state : sources_) {
        refresh_source(state);
    }
    std::vector<EdgeIndex> changed = network_.varying();
    network_.refresh(changed, knowledge_);
    transport_->refresh(transport_->network().varying());
    work_out();
}

void Engine::let_off(std::span<const OutletId> outlets, Set when) {
    charge_.let_off(outlets, when);
    charge_.event({}, {});
}

void Engine::contents_changed() {
    work_out();
}

void Engine::forget(VariableId variable) {
    knowledge_.forget(variable);
    heat_.moved(variable);
    for (SourceState& state : sources_) {
        refresh_source(state);
    }
    moved(network_.edges_of(variable), transport_->network().edges_of(variable), {{variable}});
}

std::vector<std::pair<Origin, Set>> Engine::draws_on(Reach& draw) {
    std::vector<std::pair<Origin, Set>> origins;
    for (const Vertex vertex : draw.marks()) {
        if (const ChamberId chamber = network_.chamber_at_out(vertex); chamber.valid()) {
            const Set from = diagrams().both(draw.exact(vertex, knowledge_), contents_.may_hold(chamber));
            if (!diagrams().disjoint(from, possible())) {
                origins.push_back({{chamber, {}}, from});
            }
        }
    }
    for (const SourceState& supply : sources_) {
        const Source& source = system_[supply.id];
        if (source.kind == SourceKind::supply && supply.possibly_on && !is_gas(supply.id)) {
            const Set from = diagrams().both(draw.exact(network_.source_vertex(source.node), knowledge_), supply.on);
            if (!diagrams().disjoint(from, possible())) {
                origins.push_back({{{}, supply.id}, from});
            }
        }
    }
    std::ranges::sort(origins, {}, &std::pair<Origin, Set>::first);
    return origins;
}

Set Engine::draws_something(Reach& draw) {
    Set result = nothing;
    for (const Vertex vertex : draw.marks()) {
        if (const ChamberId chamber = network_.chamber_at_out(vertex); chamber.valid()) {
            const Set drawn = diagrams().both(draw.exact(vertex, knowledge_), contents_.may_hold(chamber));
            result = diagrams().either(result, drawn);
        }
    }
    for (const SourceState& supply : sources_) {
        const Source& source = system_[supply.id];
        if (source.kind == SourceKind::supply && supply.possibly_on && !is_gas(supply.id)) {
            result = diagrams().either(
                result, diagrams().both(draw.exact(network_.source_vertex(source.node), knowledge_), supply.on));
        }
    }
    return result;
}

// From openings and supplies of gas, and from vented chambers where `gives_air` says so.
Set Engine::draws_air(Reach& draw, const std::function<Set(ChamberId)>& gives_air) {
    Set result = draw.exact(network_.air(), knowledge_);
    for (const Vertex vertex : draw.marks()) {
        if (const ChamberId chamber = network_.chamber_at_out(vertex);
            chamber.valid() && system_[chamber].vented != Expressions::never()) {
            const Set vented = knowledge_.truth(system_[chamber].vented);
            const Set reached = diagrams().both(draw.exact(vertex, knowledge_), vented);
            result = diagrams().either(result, diagrams().both(reached, gives_air(chamber)));
        }
    }
    for (const SourceState& supply : sources_) {
        if (supply.possibly_on && is_gas(supply.id)) {
            const Vertex vertex = network_.source_vertex(system_[supply.id].node);
            result = diagrams().either(result, diagrams().both(draw.exact(vertex, knowledge_), supply.on));
        }
    }
    return result;
}

Set Engine::draws_air(Reach& draw) {
    return draws_air(draw,
                     [this](ChamberId chamber) { return diagrams().complement(contents_.surely_holds(chamber)); });
}

Set Engine::draws_air_besides(Reach& draw, std::span<const ChamberId> emptied) {
    return draws_air(draw, [&](ChamberId chamber) {
        return std::ranges::find(emptied, chamber) == emptied.end() ? everything : nothing;
    });
}

Set Engine::gives_more_than(SourceId id, const Quantity& pressure, bool or_equal) {
    const Source& source = system_[id];
    const auto more = [&](const Quantity& gives) {
        return or_equal ? !(gives.value < pressure.value) : pressure.value < gives.value;
    };
    if (!source.dial.valid()) {
        return !source.pressure || more(*source.pressure) ? everything : nothing;
    }
    ValueSet values = 0;
    const Variable& dial = system_[source.dial];
    for (std::size_t i = 0; i < dial.values.size(); ++i) {
        if (more(*dial.values[i].setting)) {
            values |= ValueSet{1} << i;
        }
    }
    return knowledge_.stands(source.dial, values);
}

Set Engine::pressed_with(NodeId node, const Quantity& pressure) {
    Set result = nothing;
    const Vertex vertex = network_.source_vertex(node);
    for (const SourceState& state : sources_) {
        if (!state.possibly_on) {
            continue;
        }
        const Set strong = diagrams().both(state.on, gives_more_than(state.id, pressure, true));
        if (diagrams().disjoint(strong, possible()) || !state.reach->possible(vertex)) {
            continue;
        }
        // A question of its own: searched for when it is asked. Reducers to less than the pressure hold it back.
        ReachSpec spec = state.reach->spec();
        spec.reducers_pass_below = &pressure;
        Reach reach(network_, system_, std::move(spec));
        result = diagrams().either(result, diagrams().both(strong, reach.exact(vertex, knowledge_)));
    }
    return result;
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

ValueSet Engine::values_where_there(VariableId variable) {
    const Set there = diagrams().both(knowledge_.truth(system_[variable].exists), possible());
    if (there == nothing) {
        return knowledge_.possible_values(variable);
    }
    ValueSet values = 0;
    for (std::size_t i = 0; i < system_[variable].values.size(); ++i) {
        if (!diagrams().disjoint(there, knowledge_.stands(variable, ValueSet{1} << i))) {
            values |= ValueSet{1} << i;
        }
    }
    return values;
}

Set Engine::left_out(const Expression& fact) {
    PartId part;
    if (fact.node.valid()) {
        part = system_[fact.node].part;
    } else if (fact.chamber.valid()) {
        part = system_[fact.chamber].part;
    }
    return part.valid() ? diagrams().complement(knowledge_.truth(system_[part].exists)) : nothing;
}

Set Engine::fact(const Expression& fact) {
    const auto kept = [&](const std::vector<Shortfall>& broken) {
        Set where = everything;
        for (const Shortfall& pocket : broken) {
            where = diagrams().without(where, pocket.where);
        }
        return where;
    };
    switch (fact.kind) {
    case ExpressionKind::no_pressure:
        return diagrams().complement(fact.node.valid() ? charge_.under_pressure(fact.node)
                                                       : charge_.under_pressure_anywhere());
    case ExpressionKind::pressure_below:
        return diagrams().complement(pressed_with(fact.node, fact.quantity));
    case ExpressionKind::holds: {
        const Set surely = contents_.surely_holds(fact.chamber);
        if (!fact.fluid.valid()) {
            return surely;
        }
        return contents_.fluids(fact.chamber) == fluid_bit(fact.fluid) ? surely : nothing;
    }
    case ExpressionKind::empty:
        return diagrams().complement(contents_.may_hold(fact.chamber));
    case ExpressionKind::reaches_liquid: {
        Reach& draw = drawing_at(fact.node);
        return diagrams().without(draws_something(draw), draws_air(draw));
    }
    case ExpressionKind::cool:
        return diagrams().complement(heat_.hot(fact.chamber));
    case ExpressionKind::frost_safe:
        return kept(not_frost_safe(*this, fact.quantity));
    case ExpressionKind::drinkable:
        return kept(not_drinkable(*this));
    case ExpressionKind::sanitised:
        return kept(not_sanitised(*this, fact));
    case ExpressionKind::restored: {
        Set back = everything;
        for (const Lineup::Entry& entry : system_[system_.use].entries) {
            const Set gone = diagrams().complement(knowledge_.truth(system_[entry.variable].exists));
            back = diagrams().both(back, diagrams().either(gone, knowledge_.stands(entry.variable, entry.values)));
        }
        return back;
    }
    case ExpressionKind::always:
    case ExpressionKind::never:
    case ExpressionKind::all:
    case ExpressionKind::any:
    case ExpressionKind::negation:
    case ExpressionKind::stands:
    case ExpressionKind::option:
    case ExpressionKind::branch:
        break;
    }
    return nothing;
}

Set Engine::truth(ExpressionId expression) {
    return knowledge_.truth(
        expression, [this](const Expression& about) { return diagrams().either(fact(about), left_out(about)); });
}

Set Engine::plausible(ExpressionId expression) {
    return knowledge_.truth(expression, [this](const Expression& about) {
        Set seen = nothing;
        if (about.kind == ExpressionKind::empty) {
            seen = diagrams().complement(contents_.surely_holds(about.chamber));
        } else if (about.kind == ExpressionKind::holds) {
            const bool may_be_this =
                !about.fluid.valid() || (contents_.fluids(about.chamber) & fluid_bit(about.fluid)) != 0;
            seen = may_be_this ? contents_.may_hold(about.chamber) : nothing;
        } else if (about.kind == ExpressionKind::cool) {
            seen = diagrams().complement(heat_.heated(about.chamber));
        } else {
            seen = fact(about);
        }
        return diagrams().either(seen, left_out(about));
    });
}

} // namespace curbstop::proofs
