// Pressure that stays: what an event changes. Where what ran out went: charge_out.cpp; how it began: charge_start.cpp.
#include "proofs/charge.h"

#include <algorithm>

#include "meaning/expression_builder.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;

Charge::Charge(const System& system, const Network& network, instants::Knowledge& knowledge)
    : system_(system)
    , network_(network)
    , knowledge_(knowledge)
    , asked_for_(is_asked_for(system))
    , liquid_press_(network, pass)
    , gas_press_(network, pass | gas_fall)
    , liquid_(network.vertex_count(), nothing)
    , gas_(network.vertex_count(), nothing)
    , out_(network.vertex_count(), nothing)
    , last_press_(network.vertex_count())
    , past_(network.vertex_count()) {
    for (Marked* marked : {&gas_work_, &liquid_work_, &gas_out_, &liquid_out_}) {
        marked->is.resize(network.vertex_count());
    }
    for (std::uint32_t i = 0; i < system.sources.size(); ++i) {
        const Source& source = system.sources[i];
        std::vector<VariableId> variables;
        variables_in(system, source.on, variables);
        switch (source.kind) {
        case SourceKind::store:
            stores_.push_back({SourceId(i), network.source_vertex(source.node), std::move(variables)});
            break;
        case SourceKind::heat:
            if (source.heats.valid()) {
                heats_.push_back({SourceId(i), network.chamber(source.heats).out, std::move(variables)});
            }
            break;
        case SourceKind::supply:
        case SourceKind::lift:
            break;
        }
    }
    find_edges();
}

// Whether anything can be opened by hand, asks for no pressure, or is pressed with gas.
bool Charge::is_asked_for(const System& system) {
    for (const Way& way : system.ways) {
        if (way.kind == WayKind::breach || way.kind == WayKind::open_end) {
            return true;
        }
    }
    for (const Source& source : system.sources) {
        if (source.kind == SourceKind::store || (source.fluid.valid() && system[source.fluid].gas)) {
            return true;
        }
    }
    for (std::size_t i = 0; i < system.expressions.size(); ++i) {
        if (system[ExpressionId(i)].kind == ExpressionKind::no_pressure) {
            return true;
        }
    }
    return false;
}

void Charge::find_edges() {
    const auto moves_with_a_part = [&](ExpressionId condition) {
        std::vector<VariableId> variables;
        variables_in(system_, condition, variables);
        return std::ranges::any_of(variables, [&](VariableId variable) {
            const VariableKind kind = system_[variable].kind;
            return kind == VariableKind::position || kind == VariableKind::dial || kind == VariableKind::cover;
        });
    };
    through_.assign(system_.chambers.size(), none);
    entered_.resize(network_.vertex_count());
    for (std::size_t i = 0; i < system_.chambers.size(); ++i) {
        const Chamber& chamber = system_.chambers[i];
        always_vented_.push_back(static_cast<char>(
            chamber.vessel || std::ranges::any_of(system_.ways, [&](const Way& way) {
                return way.kind == WayKind::vent && way.from == chamber.node && !moves_with_a_part(way.condition);
            })));
        const ChamberVertices& vertices = network_.chamber(ChamberId(i));
        entered_[vertices.in] = ChamberId(i);
        for (const EdgeIndex index : network_.out_of(vertices.in)) {
            const Edge& edge = network_.edge(index);
            if (edge.to == vertices.out && edge.only_unvented == ChamberId(i) && !edge.way.valid()) {
                through_[i] = index;
            }
        }
    }
    for (const Edge& edge : network_.edges()) {
        standing_open_.push_back(
            static_cast<char>((edge.classes & (outlet | outlet_inside)) != 0 && !moves_with_a_part(edge.condition)));
        seen_open_.push_back(edge.open);
    }
}

Charge::Set Charge::can_be_charged(Vertex vertex) const {
    const ChamberId left = network_.chamber_at_out(vertex);
    const ChamberId chamber = left.valid() ? left : entered_[vertex];
    return chamber.valid() ? unvented(chamber) : everything;
}

void Charge::runs(SourceId id, Set set) {
    const Source& source = system_[id];
    const Vertex vertex = network_.source_vertex(source.node);
    if (network_.chamber_at_out(vertex).valid()) {
        const auto known = std::ranges::find(chamber_sources_, id, &std::pair<SourceId, Set>::first);
        if (known == chamber_sources_.end()) {
            chamber_sources_.emplace_back(id, set);
        } else {
            known->second = set;
        }
        return; // started with the event, where its chamber is not vented
    }
    const bool gas = source.fluid.valid() && system_[source.fluid].gas;
    (gas ? gas_press_ : liquid_press_).start(id.value, vertex, set);
}

void Charge::start_at_chambers() {
    for (const auto& [id, on] : chamber_sources_) {
        const Source& source = system_[id];
        const Vertex vertex = network_.source_vertex(source.node);
        const bool gas = source.fluid.valid() && system_[source.fluid].gas;
        (gas ? gas_press_ : liquid_press_).start(id.value, vertex, sets().both(on, can_be_charged(vertex)));
    }
}

void Charge::next_procedure() {
    ++procedure_;
    step_ = 0;
}

// What changed, as edges that open and edges that shut; an edge may do both.
void Charge::sort_out(std::span<const EdgeIndex> changed) {
    opened_.clear();
    shut_.clear();
    vents_.clear();
    for (const EdgeIndex index : changed) {
        const Edge& edge = network_.edge(index);
        const Set before = seen_open_[index];
        if (edge.open == before) {
            continue;
        }
        seen_open_[index] = edge.open;
        if (some(sets().without(edge.open, before))) {
            opened_.push_back(index);
        }
        if (some(sets().without(before, edge.open))) {
            shut_.push_back(index);
        }
        if (const ChamberId chamber = entered_[edge.from]; chamber.valid() && through_[chamber.value] == index) {
            vents_.push_back({chamber, before});
        }
    }
}

void Charge::event(std::span<const EdgeIndex> changed, std::span<const VariableId> moved) {
    if (!asked_for_) {
        return;
    }
    sort_out(changed);
    for (auto* keepers : {&stores_, &heats_}) {
        for (Keeper& keeper : *keepers) {
            if (std::ranges::any_of(keeper.variables,
                                    [&](VariableId v) { return std::ranges::find(moved, v) != moved.end(); })) {
                refresh(keeper);
            }
        }
    }
    start_at_chambers();
    liquid_press_.update(shut_, opened_, knowledge_);
    gas_press_.update(shut_, opened_, knowledge_);
    vents_move();
    take_over_presses();
    gas_settles();
    liquid_settles();
}

// A chamber that is vented is charged no longer; one that no longer is can be charged by what it is joined to.
void Charge::vents_move() {
    for (const Vent& vent : vents_) {
        const ChamberVertices& vertices = network_.chamber(vent.chamber);
        for (const Vertex vertex : {vertices.in, vertices.out}) {
            gas_[vertex] = sets().both(gas_[vertex], unvented(vent.chamber));
            liquid_[vertex] = sets().both(liquid_[vertex], unvented(vent.chamber));
        }
        for (const EdgeIndex index : network_.into(vertices.in)) {
            const Vertex before = network_.edge(index).from;
            gas_work_.add(before);
            liquid_work_.add(before);
            gas_out_.add(before);
            liquid_out_.add(before);
        }
    }
}

void Charge::note_press(Vertex vertex, const Extent& extent, Set grown) {
    if (some(grown)) {
        last_press_[vertex] = {SourceId(extent.reached_by(vertex)), step_, procedure_};
        liquid_[vertex] = sets().without(liquid_[vertex], extent.at(vertex));
    }
}

// What was pressed on stays charged.
void Charge::lose_press(std::vector<Set>& charged, const Extent::Change& change, Set now) {
    Set lost = sets().without(change.before, now);
    if (const ChamberId chamber = entered_[change.vertex]; chamber.valid()) {
        // Its `in` is pressed on while it is vented, too: it was charged only where it was not.
        for (const Vent& vent : vents_) {
            if (vent.chamber == chamber) {
                lost = sets().both(lost, vent.unvented_before);
            }
        }
    }
    const Press& press = last_press_[change.vertex];
    charge(charged, change.vertex, lost, {nothing, press.by, press.step, step_, !liquid(charged)});
}

void Charge::take_over_presses() {
    for (const Extent::Change& change : gas_press_.changes()) {
        const Set now = gas_press_.at(change.vertex);
        lose_press(gas_, change, now);
        gas_[change.vertex] = sets().without(gas_[change.vertex], now);
    }
    for (Keeper& store : stores_) {
        const Set pressed = sets().both(store.on, pressed_on(store.vertex));
        const Extent& presses = some(liquid_press_.at(store.vertex)) ? liquid_press_ : gas_press_;
        if (some(pressed)) {
            charge(gas_, store.vertex, pressed,
                   {nothing, SourceId(presses.reached_by(store.vertex)), step_, step_, true});
        }
    }
    for (const Extent::Change& change : liquid_press_.changes()) {
        if (gas_[change.vertex] != nothing) {
            gas_out_.add(change.vertex); // no longer pressed on, it may run out
        }
    }
}

bool Charge::charge(std::vector<Set>& charged, Vertex vertex, Set more, const ChargeStory& story) {
    if (more == nothing) {
        return false;
    }
    more = sets().both(more, can_be_charged(vertex));
    more = sets().without(more, charged[vertex]);
    more = sets().without(more, gas_press_.at(vertex));
    if (liquid(charged)) {
        more = sets().without(sets().without(more, liquid_press_.at(vertex)), gas_[vertex]);
    }
    if (!some(more)) {
        return false;
    }
    charged[vertex] = sets().either(charged[vertex], more);
    if (sets().within(knowledge_.possible(), charged[vertex])) {
        charged[vertex] = everything;
    }
    std::vector<Past>& past = past_[vertex];
    std::erase_if(past, [&](const Past& old) { return sets().within(old.where, more); });
    Past told;
    static_cast<ChargeStory&>(told) = story;
    told.where = more;
    told.pressed_procedure = last_press_[vertex].procedure;
    told.cut_off_procedure = procedure_;
    past.push_back(told);
    (liquid(charged) ? liquid_work_ : gas_work_).add(vertex);
    (liquid(charged) ? liquid_out_ : gas_out_).add(vertex);
    return true;
}

void Charge::spread_on(std::vector<Set>& charged, Marked& work) {
    for (std::size_t i = 0; i < work.list.size(); ++i) {
        const Vertex vertex = work.list[i];
        work.is[vertex] = 0; // it may be charged further
        if (charged[vertex] == nothing) {
            continue;
        }
        for (const EdgeIndex index : network_.out_of(vertex)) {
            const Edge& edge = network_.edge(index);
            if (edge.open == nothing || (edge.classes & classes(charged)) == 0) {
                continue;
            }
            const Set more = sets().both(charged[vertex], edge.open);
            if (more == nothing || more == charged[edge.to]) {
                continue;
            }
            ChargeStory story{nothing, {}, 0, step_, !liquid(charged)};
            for (const Past& past : past_[vertex]) {
                if (!sets().disjoint(past.where, more)) {
                    story.by = past.by;
                    story.pressed_in = past.pressed_in;
                }
            }
            charge(charged, edge.to, more, story);
        }
    }
    work.list.clear();
}

void Charge::gas_settles() {
    for (const EdgeIndex index : opened_) {
        const Edge& edge = network_.edge(index);
        if (gas_[edge.from] == nothing) {
            continue;
        }
        if ((edge.classes & (pass | gas_fall)) != 0) {
            gas_work_.add(edge.from);
        }
        gas_out_.add(edge.from);
    }
    spread_on(gas_, gas_work_);
    standing_open_run_out();
}

void Charge::liquid_settles() {
    // Gas takes its place.
    for (const Vertex vertex : gas_out_.list) {
        if (liquid_[vertex] != nothing) {
            liquid_[vertex] = sets().without(liquid_[vertex], gas_[vertex]);
        }
    }
    gas_out_.clear();
    for (const Extent::Change& change : liquid_press_.changes()) {
        lose_press(liquid_, change, liquid_press_.at(change.vertex));
    }
    for (const Extent* extent : {&gas_press_, &liquid_press_}) {
        for (const Extent::Change& change : extent->changes()) {
            note_press(change.vertex, *extent, sets().without(extent->at(change.vertex), change.before));
        }
    }
    for (const Keeper& heat : heats_) {
        if (heat.on != nothing) {
            charge(liquid_, heat.vertex, heat.on, {nothing, heat.id, step_, step_, false});
        }
    }
    for (const EdgeIndex index : opened_) {
        const Edge& edge = network_.edge(index);
        if (liquid_[edge.from] == nothing) {
            continue;
        }
        if ((edge.classes & pass) != 0) {
            liquid_work_.add(edge.from);
        }
        liquid_out_.add(edge.from);
    }
    spread_on(liquid_, liquid_work_);
    all_run_out(liquid_, liquid_out_.list);
    liquid_out_.clear();
}

// Gas there has run out: what stands before it may come after. Liquid that does takes all before it along.
void Charge::look_again_before(Vertex vertex, const std::vector<Set>& ran_out) {
    if (liquid(ran_out)) {
        return;
    }
    for (const EdgeIndex index : network_.into(vertex)) {
        const Edge& edge = network_.edge(index);
        if (edge.open != nothing && (edge.classes & (pass | gas_fall)) != 0) {
            gas_work_.add(edge.from);
            liquid_work_.add(edge.from);
        }
    }
}

Charge::Set Charge::under_pressure(NodeId node) {
    const Vertex vertex = network_.source_vertex(node);
    return sets().either(pressed_on(vertex), sets().either(liquid_[vertex], gas_[vertex]));
}

Charge::Set Charge::under_pressure_anywhere() {
    Set result = pressed_anywhere();
    for (Vertex vertex = 0; vertex < network_.vertex_count(); ++vertex) {
        if (liquid_[vertex] != nothing || gas_[vertex] != nothing) {
            result = sets().either(result, sets().either(liquid_[vertex], gas_[vertex]));
        }
    }
    return result;
}

Charge::Set Charge::pressed_anywhere() {
    Set result = nothing;
    for (const Source& source : system_.sources) {
        if (source.kind == SourceKind::supply || source.kind == SourceKind::lift) {
            result = sets().either(result, pressed(source.node));
        }
    }
    return result;
}

NodeId Charge::somewhere(const std::vector<bool>& configuration) const {
    for (std::uint32_t i = 0; i < system_.nodes.size(); ++i) {
        const Vertex vertex = network_.source_vertex(NodeId(i));
        if (sets().contains(pressed_on(vertex), configuration) || sets().contains(liquid_[vertex], configuration) ||
            sets().contains(gas_[vertex], configuration)) {
            return NodeId(i);
        }
    }
    return {};
}

std::optional<ChargeStory> Charge::story(NodeId node, const std::vector<bool>& configuration) const {
    const Vertex vertex = network_.source_vertex(node);
    if (sets().contains(pressed_on(vertex), configuration)) {
        const Press& press = last_press_[vertex];
        return ChargeStory{everything, press.by, press.procedure == procedure_ ? press.step : 0, 0,
                           sets().contains(gas_press_.at(vertex), configuration)};
    }
    for (auto past = past_[vertex].rbegin(); past != past_[vertex].rend(); ++past) {
        if (sets().contains(past->where, configuration)) {
            ChargeStory story = *past;
            story.pressed_in = past->pressed_procedure == procedure_ ? story.pressed_in : 0;
            story.cut_off_in = past->cut_off_procedure == procedure_ ? story.cut_off_in : 0;
            return story;
        }
    }
    return std::nullopt;
}

} // namespace curbstop::proofs
