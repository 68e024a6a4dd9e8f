#include "proofs/takings.h"

#include <algorithm>
#include <cmath>

#include "proofs/transport/transport.h"

namespace curbstop::proofs {

using namespace meaning;
using instants::everything;
using instants::nothing;
using instants::Set;

bool Takings::counts(const System& system, ChamberId vessel) const {
    const Chamber& chamber = system[vessel];
    return chamber.vessel && chamber.fluid.valid() && !system[chamber.fluid].gas && chamber.volume.has_value();
}

void Takings::start(Event& event) {
    const std::size_t count = event.engine.system().chambers.size();
    taken_.assign(count, {});
    fill_.assign(count, {});
    twice_.assign(count, {});
    refilled_.assign(count, nothing);
}

void Takings::step_begins(Event&, const instants::StepBegin& step) {
    step_ = step.number;
}

void Takings::instant(Event& event, const instants::Move&) {
    for (auto& [source, where] : on_) {
        where = event.diagrams().both(where, event.engine.source(SourceId(source))->on);
    }
}

void Takings::note(Event& event, ChamberId vessel, double volume) {
    if (volume > 0) {
        takings_.push_back({vessel, step_, event.span, volume});
    }
}

void Takings::take(Event& event, ChamberId vessel, const Tally& volume, Set where) {
    const Set from_it = event.diagrams().without(where, refilled_[vessel.value]);
    taken_[vessel.value].add(event.diagrams(), from_it, volume);
    note(event, vessel, volume.most(event.diagrams(), event.diagrams().both(from_it, event.engine.possible())));
    for (const Tally::Piece& piece : volume.pieces()) {
        const Set there = event.diagrams().both(piece.where, from_it);
        if (piece.volume > 0 && there != nothing && !takings_.empty()) {
            log_.push_back({there, vessel, {}, takings_.size() - 1, piece.volume});
        }
    }
}

void Takings::take_all(Event& event, ChamberId vessel, Set where) {
    const double volume = to_double(*event.engine.system()[vessel].volume, Unit::m3);
    const Set from_it = event.diagrams().without(where, refilled_[vessel.value]);
    if (event.diagrams().disjoint(from_it, event.engine.possible())) {
        return;
    }
    const double before = taken_[vessel.value].most(event.diagrams(), event.engine.possible());
    for (Tally* tally : {&taken_[vessel.value], &fill_[vessel.value], &twice_[vessel.value]}) {
        tally->raise(event.diagrams(), from_it, volume);
    }
    note(event, vessel, volume - std::min(before, volume));
}

void Takings::note_refilled(Event& event, const Flow& flow) {
    for (const OutletId outlet : flow.outlets) {
        for (const auto& [chamber, where] : event.engine.lands_in(outlet)) {
            if (event.engine.system()[chamber].vessel) {
                Set& refilled = refilled_[chamber.value];
                refilled = event.diagrams().either(refilled, event.diagrams().both(where, event.here()));
            }
        }
    }
}

void Takings::until(Event& event, const Flow& flow) {
    Engine& engine = event.engine;
    const System& system = engine.system();
    instants::Diagrams& sets = event.diagrams();
    FlowReport told{&flow, step_};
    for (const OutletId outlet : flow.outlets) {
        for (const auto& [chamber, where] : engine.lands_in(outlet)) {
            if (system[chamber].vessel && !sets.disjoint(where, event.here()) &&
                std::ranges::find(told.into, chamber) == told.into.end()) {
                told.into.push_back(chamber);
            }
        }
    }
    if (flow.at_most) {
        told.most = to_double(*flow.at_most, Unit::m3);
    }
    if (flow.gravity) {
        if (!flow.pipes && !told.most) {
            double held = 0;
            for (const ChamberId chamber : flow.chambers) {
                Carried carried;
                const PocketIndex pocket = engine.transport().pockets().of_chamber(chamber);
                engine.transport().inventory().join_into(carried, pocket, event.here());
                held += engine.transport().pockets()[pocket].volume.value_or(0) * (1 - std::min(1.0, carried.gas.part));
            }
            told.most = held;
        }
        report(event, told);
        note_refilled(event, flow);
        return;
    }
    const Pockets& pockets = engine.transport().pockets();
    const bool draws_empty = draws_air(system, flow);
    std::map<ChamberId, Set> filled_up; // what runs `until full`
    for (const OutletId outlet : flow.outlets) {
        for (const auto& [chamber, where] : engine.lands_in(outlet)) {
            Set& there = filled_up.try_emplace(chamber, nothing).first->second;
            there = flow.until->kind == ObservationKind::full ? sets.either(there, where) : nothing;
        }
    }
    for (const ToFill& one : engine.transport().to_fill(engine, flow, event.here())) {
        Tally fill, again, needs;
        for (std::size_t i = 0; i < one.parts.size() && !draws_empty; ++i) {
            const ToFill::Part& part = one.parts[i];
            fill.add(sets, part.fill, pockets[part.pocket].volume.value_or(0));
            again.add(sets, part.again, pockets[part.pocket].volume.value_or(0));
        }
        const bool lifts = system[one.source].kind == SourceKind::lift;
        Set filled = nothing; // stores, earlier
        if (lifts) {
            Set& since = on_.try_emplace(one.source.value, nothing).first->second;
            filled = since;
            since = sets.either(since, one.where);
        }
        const Tally pipes = fill; // what water could stand in
        for (const auto& [pocket, where] : one.stores) {
            fill.add(sets, sets.without(where, filled), gas_after_emptying * pockets[pocket].volume.value_or(0));
        }
        for (const auto& [chamber, where] : filled_up) {
            fill.add(sets, sets.both(where, one.where), pockets[pockets.of_chamber(chamber)].volume.value_or(0));
        }
        needs = fill;
        needs.add(sets, one.where, again);
        if (flow.at_least) {
            needs.raise(sets, one.where, to_double(*flow.at_least, Unit::m3));
        }
        told.fill = std::max(told.fill, fill.most(sets, event.here()));
        told.again = std::max(told.again, again.most(sets, event.here()));
        told.needs = std::max(told.needs, needs.most(sets, event.here()));
        if (std::ranges::find(told.sources, one.source) == told.sources.end()) {
            told.sources.push_back(one.source);
        }
        if (const ChamberId vessel = one.origin.chamber; vessel.valid() && counts(system, vessel)) {
            take(event, vessel, needs, one.where);
            const Set from_it = sets.without(one.where, refilled_[vessel.value]);
            fill_[vessel.value].add(sets, from_it, fill);
            twice_[vessel.value].add(sets, from_it, fill);
            twice_[vessel.value].add(sets, from_it, pipes);
            std::vector<OutletId>& outlets = outlets_[system[vessel].fluid.value];
            for (const OutletId outlet : flow.outlets) {
                if (std::ranges::find(outlets, outlet) == outlets.end()) {
                    outlets.push_back(outlet);
                }
            }
            if (draws_empty) {
                take_all(event, vessel, one.where);
            }
        }
    }
    report(event, told);
    note_refilled(event, flow);
}

void Takings::report(Event&, const FlowReport& flow) {
    const auto known = std::ranges::find_if(
        flows_, [&](const FlowReport& one) { return one.flow == flow.flow && one.step == flow.step; });
    if (known == flows_.end()) {
        flows_.push_back(flow);
        return;
    }
    known->fill = std::max(known->fill, flow.fill); // a further round
    known->again = std::max(known->again, flow.again);
    known->needs = std::max(known->needs, flow.needs);
    known->most = known->most && flow.most ? std::optional(std::max(*known->most, *flow.most)) : std::nullopt;
}

void Takings::pour(Event& event, const PourStatement& pour) {
    const System& system = event.engine.system();
    if (counts(system, pour.vessel)) {
        take_all(event, pour.vessel, event.here());
    }
    if (const ChamberId into = system[pour.into].chamber; into.valid() && system[into].vessel) {
        refilled_[into.value] = event.diagrams().either(refilled_[into.value], event.here());
    }
}

void Takings::bring(Event& event, const BringStatement& bring) {
    if (!bring.fluid || event.engine.system()[bring.fluid].gas) {
        return;
    }
    Brought& brought = brought_[bring.fluid.value];
    if (!bring.amount) {
        brought.left_open = event.diagrams().either(brought.left_open, event.here());
        return;
    }
    Set first = event.here();
    for (const auto& [span, where] : brought.listed) {
        first = event.diagrams().without(first, where);
    }
    if (first != nothing) {
        brought.listed.emplace_back(event.span, first);
    }
    const double volume = to_double(*bring.amount, Unit::m3);
    brought.volume.add(event.diagrams(), event.here(), volume);
    log_.push_back({event.here(), {}, bring.fluid, 0, volume});
}

// Rounds that are not followed do what the last one has done.
void Takings::round_ends(Event& event, const instants::RoundEnd& round) {
    const auto begun = rounds_.find(round.repeat);
    if (!round.last || begun == rounds_.end()) {
        rounds_[round.repeat] = log_.size();
        return;
    }
    const std::size_t end = log_.size();
    for (std::size_t i = begun->second; i < end && round.left > 0; ++i) {
        Entry more = log_[i];
        more.volume *= round.left;
        if (more.vessel.valid()) {
            taken_[more.vessel.value].add(event.diagrams(), more.where, more.volume);
            takings_[more.taking].volume += more.volume;
        } else {
            brought_[more.fluid.value].volume.add(event.diagrams(), more.where, more.volume);
        }
        log_.push_back(more);
    }
    rounds_.erase(round.repeat);
}

const Takings::Brought* Takings::brought(FluidId fluid) const {
    const auto found = brought_.find(fluid.value);
    return found == brought_.end() ? nullptr : &found->second;
}

Tally Takings::taken(Event& event, FluidId fluid) const {
    Tally all;
    for (std::uint32_t i = 0; i < taken_.size(); ++i) {
        if (counts(event.engine.system(), ChamberId(i)) && event.engine.system().chambers[i].fluid == fluid) {
            all.add(event.diagrams(), everything, taken_[i]);
        }
    }
    return all;
}

std::vector<SupplyReport> Takings::supply_reports(Event& event) const {
    const System& system = event.engine.system();
    instants::Diagrams& sets = event.diagrams();
    const Set possible = event.engine.possible();
    std::vector<SupplyReport> reports;
    for (std::uint32_t i = 0; i < system.fluids.size(); ++i) {
        SupplyReport report{FluidId(i)};
        const Tally all = taken(event, FluidId(i));
        Tally fill, twice;
        for (std::uint32_t k = 0; k < taken_.size(); ++k) {
            const double needs = taken_[k].most(sets, possible);
            if (counts(system, ChamberId(k)) && system.chambers[k].fluid == FluidId(i) && needs > 0) {
                report.vessels.push_back({ChamberId(k), needs});
                fill.add(sets, everything, fill_[k]);
                twice.add(sets, everything, twice_[k]);
            }
        }
        report.needs = all.most(sets, possible);
        report.fill = fill.most(sets, possible);
        report.not_blown = twice.most(sets, possible);
        if (const Brought* brought = this->brought(FluidId(i));
            brought != nullptr && sets.disjoint(brought->left_open, possible)) {
            report.brought = brought->volume.most(sets, possible);
        }
        for (std::uint32_t k = 0; k < system.options.size(); ++k) {
            const Set with = event.engine.knowledge().option(OptionId(k));
            const double with_it = all.most(sets, sets.both(possible, with));
            const double without = all.most(sets, sets.without(possible, with));
            if (std::abs(with_it - without) > same_volume && !sets.disjoint(with, possible) &&
                !sets.within(possible, with)) {
                report.options.push_back({OptionId(k), with_it, without});
            }
        }
        if (const auto outlets = outlets_.find(i); outlets != outlets_.end()) {
            report.outlets = outlets->second;
        }
        if (!report.vessels.empty() || brought(FluidId(i)) != nullptr) {
            reports.push_back(std::move(report));
        }
    }
    return reports;
}

} // namespace curbstop::proofs
