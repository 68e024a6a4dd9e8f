#include "proofs/engine.h"

#include <algorithm>

#include "meaning/expression_builder.h"
#include "proofs/transport/claims.h"
#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::Set;

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

void Engine::saw_holds(ChamberId chamber, FluidId fluid, Set where) {
    contents_.holds(chamber, fluid.valid() ? fluid_bit(fluid) : 0, where);
    transport_->saw_holds(chamber, fluid, where);
}

void Engine::saw_empty(ChamberId chamber, Set where) {
    contents_.empty(chamber, where);
    transport_->saw_empty(chamber, where);
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

void Engine::refresh_source(SourceState& state) {
    state.on = diagrams().both(knowledge_.truth(system_[state.id].on), gives_more_than(state.id, nothing_at_all));
    state.possibly_on = !diagrams().disjoint(state.on, possible());
    charge_.runs(state.id, state.on);
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

} // namespace curbstop::proofs
