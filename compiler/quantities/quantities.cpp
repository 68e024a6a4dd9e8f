#include "quantities/quantities.h"

#include <algorithm>

#include "proofs/transport/bounds.h"
#include "proofs/transport/claims.h"
#include "proofs/transport/pockets.h"
#include "quantities/amounts.h"
#include "quantities/statements.h"

namespace curbstop::quantities {

using namespace meaning;

namespace {

PocketKind kind_of(proofs::PocketKind kind) {
    switch (kind) {
    case proofs::PocketKind::run:
        return PocketKind::pipe;
    case proofs::PocketKind::chamber:
        return PocketKind::chamber;
    case proofs::PocketKind::body:
        return PocketKind::body;
    case proofs::PocketKind::vessel:
        return PocketKind::vessel;
    }
    return PocketKind::pipe;
}

std::vector<PocketVolume> all_pockets(const System& system) {
    std::vector<PocketVolume> all;
    const proofs::Pockets pockets(system);
    for (proofs::PocketIndex i = 0; i < pockets.size(); ++i) {
        const proofs::Pocket& pocket = pockets[i];
        all.push_back({kind_of(pocket.kind), pocket.label, pocket.index, pocket.volume, 1,
                       pocket.vented || pocket.runs_out, pocket.exists});
    }
    return all;
}

// What the step says has to come at least.
std::optional<double> written_least(const Flow& flow) {
    std::optional<Quantity> least = flow.at_least;
    if (flow.until && flow.until->kind == ObservationKind::reads_at_least && flow.until->least &&
        flow.until->least->dimension == Dimension::volume && (!least || *least < *flow.until->least)) {
        least = flow.until->least;
    }
    return least ? std::optional(to_double(*least, Unit::m3)) : std::nullopt;
}

/// A flow `until full` that goes on from `before`, which has filled some of it already.
using GoesOn = std::map<const Flow*, const Flow*>;

GoesOn goes_on(const Procedure& procedure) {
    GoesOn found;
    const Flow* last = nullptr;
    const Flow* kept = nullptr;
    for_each_statement(procedure, [&](const Statement& statement, std::uint64_t) {
        if (const auto* keep = std::get_if<KeepStatement>(&statement.what)) {
            kept = last != nullptr && last->outlets == keep->flow.outlets ? last : nullptr;
        } else if (const auto* flow = std::get_if<FlowStatement>(&statement.what)) {
            if (kept != nullptr && kept->outlets == flow->flow.outlets && flow->flow.until &&
                flow->flow.until->kind == ObservationKind::full) {
                found.emplace(&flow->flow, kept);
            }
            last = &flow->flow;
            kept = nullptr;
        }
    });
    return found;
}

/// What all of the sources give alike; nothing where two differ, or where nobody says.
std::optional<Quantity> rate_of(const System& system, const std::vector<SourceId>& sources) {
    if (sources.empty()) {
        return std::nullopt;
    }
    const std::optional<Quantity>& gives = system[sources.front()].gives;
    const bool alike = std::ranges::all_of(sources, [&](SourceId source) { return system[source].gives == gives; });
    return alike ? gives : std::nullopt;
}

FlowAmount flow_amount(const System& system, const proofs::FlowReport& report, const GoesOn& on) {
    FlowAmount amount{report.flow, report.step, report.needs, report.fill, report.again, report.most};
    amount.written_least = written_least(*report.flow);
    std::optional<double> brim; // no more has room
    if (report.flow->until && report.flow->until->kind == ObservationKind::full) {
        brim = report.needs;
        if (const auto before = on.find(report.flow); before != on.end()) {
            const Flow& first = *before->second;
            *brim -= written_least(first).value_or(0);
            amount.needs -= first.at_most ? to_double(*first.at_most, Unit::m3) : amount.needs;
        }
    }
    amount.throttled =
        std::ranges::any_of(report.sources,
                            [&](SourceId source) { return system[source].kind == SourceKind::supply; }) &&
        std::ranges::any_of(report.flow->outlets, [&](OutletId outlet) {
            const PartId part = system[outlet].part;
            return part && system[part].variable.valid();
        });
    amount.rate = report.flow->rate ? report.flow->rate : rate_of(system, report.sources);
    amount.throttled = amount.throttled && !report.flow->rate;
    if (amount.rate) {
        const double rate = to_double(*amount.rate, Unit::m3_per_h) / 3600;
        // What is to be filled is worked out for the worst case; where the step allows for less, that has not come
        // about.
        const double least = amount.written_least.value_or(amount.needs);
        amount.least_minutes = minutes(amount.most ? std::min(least, *amount.most) : least, rate);
        // What is filled to the brim runs over after that, whatever the step allows.
        const auto most = brim && amount.most ? std::min(*amount.most, *brim) : amount.most;
        if (most) {
            amount.most_minutes = minutes(*most, rate);
        }
    }
    for (const ChamberId vessel : report.into) {
        if (system[vessel].volume) {
            const double volume = report.most.value_or(report.needs);
            if (const auto count = trips(volume, to_double(*system[vessel].volume, Unit::m3))) {
                amount.trips.push_back({vessel, *count});
            }
        }
    }
    return amount;
}

std::optional<Dilution> dilution(const System& system, FluidId fluid) {
    const std::optional<double> strength = proofs::strengths_brought(system)[fluid.value];
    if (system[fluid].strengths.empty() || !strength) {
        return std::nullopt;
    }
    Dilution result;
    result.strength = *strength;
    result.thinned = diluted(result.strength, 1 - proofs::gas_after_emptying);
    result.freezes = freezes_at(system[fluid], result.strength);
    result.thinned_freezes = freezes_at(system[fluid], result.thinned);
    return result;
}

Supply supply(const System& system, const proofs::SupplyReport& report, const proofs::ProcedureReport& whole,
              const std::vector<PocketVolume>& pockets) {
    Supply result{.fluid = report.fluid};
    result.needs = report.needs;
    result.blown_first = report.fill;
    result.not_blown = report.not_blown;
    result.listed = report.brought;
    result.mixed_on_the_spot = !system[report.fluid].disinfects.empty();
    result.vessels = report.vessels;
    result.options = report.options;
    result.dilution = dilution(system, report.fluid);
    result.runs_out_at = report.outlets;
    if (whole.steps.empty()) {
        return result;
    }
    for (const proofs::PocketReport& held : whole.steps.back().pockets) {
        const auto part = std::ranges::find(held.fluids, report.fluid, &proofs::PocketReport::Part::fluid);
        const bool stays =
            held.gas < proofs::gas_after_emptying && part != held.fluids.end() && part->most > proofs::traces;
        if (!stays || held.index >= pockets.size() || pockets[held.index].kind == PocketKind::vessel) {
            continue;
        }
        if (pockets[held.index].open) {
            result.runs_into.push_back(pockets[held.index]);
        } else {
            result.stays_in.push_back(pockets[held.index]);
            result.stays_in.back().share = std::min(1.0, part->most);
            result.stays_in.back().drinking = held.drinking;
            result.stays += held.volume.value_or(0);
        }
    }
    return result;
}

// The chamber into which a vessel of the disinfectant is poured, and the reading that is asked of what is drawn from
// it.
std::optional<Dose> dose(const System& system, const Procedure& procedure, FluidId fluid,
                         const std::vector<FlowAmount>& flows) {
    Dose result{.fluid = fluid};
    bool used = false;
    double meant = 0; // that it says itself
    for_each_statement(procedure, [&](const Statement& statement, std::uint64_t) {
        if (const auto* pour = std::get_if<PourStatement>(&statement.what);
            pour != nullptr && system[pour->vessel].fluid == fluid) {
            used = true;
            meant = pour->dose ? std::max(meant, pour->dose->value.to_double()) : meant;
            if (const ChamberId into = system[pour->into].chamber; into.valid() && !result.chamber.valid()) {
                result.chamber = into;
            }
        }
    });
    std::uint32_t last = 0; // step that takes a reading
    for (const FlowAmount& amount : flows) {
        const std::optional<Observation>& seen = amount.flow->until;
        if (seen && seen->kind == ObservationKind::reads_at_least && seen->least &&
            seen->least->dimension == Dimension::concentration) {
            result.concentration = std::max(result.concentration, seen->least->value.to_double());
            last = std::max(last, amount.step);
        }
    }
    if (!used) {
        return std::nullopt;
    }
    const std::vector<Fluid::Disinfection>& points = system[fluid].disinfects;
    if (result.concentration == 0) {
        result.concentration = points.front().concentration.value.to_double();
    }
    for (const Fluid::Disinfection& point : points) {
        if (point.concentration.value.to_double() <= result.concentration * (1 + 1e-9)) {
            result.hours = to_double(point.time, Unit::h);
        }
    }
    result.concentration = meant > 0 ? meant : result.concentration;
    // Where nobody says which tank, for ten litres.
    result.volume = 10e-3;
    if (result.chamber.valid() && system[result.chamber].volume) {
        result.volume = to_double(*system[result.chamber].volume, Unit::m3);
    }
    for (const double strength : label_strengths) {
        result.rows.push_back({strength, bleach(result.volume, result.concentration, strength)});
    }
    // What is filled in from outside is drawn from afterwards: that is not counted twice.
    double drawn = 0;
    double from_outside = 0;
    for (const FlowAmount& amount : flows) {
        if (!amount.flow->until || amount.step <= last) {
            continue;
        }
        const ObservationKind seen = amount.flow->until->kind;
        drawn += seen == ObservationKind::clear ? amount.needs : 0;
        const bool comes_in = seen == ObservationKind::clear || seen == ObservationKind::full;
        from_outside += comes_in && !amount.flow->supplies.empty() ? amount.needs : 0;
    }
    result.flushing = std::max(drawn, from_outside);
    return result;
}

} // namespace

const FlowAmount* Quantities::of(const Flow& flow) const {
    const auto found = std::ranges::find(flows, &flow, &FlowAmount::flow);
    return found == flows.end() ? nullptr : &*found;
}

Quantities work_out(const System& system, const Procedure& procedure, const proofs::ProcedureReport& report) {
    Quantities result;
    result.pockets = all_pockets(system);
    const GoesOn on = goes_on(procedure);
    for (const proofs::FlowReport& flow : report.flows) {
        result.flows.push_back(flow_amount(system, flow, on));
    }
    for (const proofs::SupplyReport& each : report.supplies) {
        result.supplies.push_back(supply(system, each, report, result.pockets));
    }
    for (std::uint32_t i = 0; i < system.fluids.size(); ++i) {
        if (!system.fluids[i].disinfects.empty()) {
            if (auto found = dose(system, procedure, FluidId(i), result.flows)) {
                result.doses.push_back(std::move(*found));
            }
        }
    }
    for_each_statement(procedure, [&](const Statement& statement, std::uint64_t times) {
        const auto* pour = std::get_if<PourStatement>(&statement.what);
        if (pour == nullptr || system[pour->vessel].fluid.valid()) {
            return;
        }
        const auto known = std::ranges::find(result.carried, pour->vessel, &Carried::vessel);
        if (known == result.carried.end()) {
            result.carried.push_back({pour->vessel, times});
        } else {
            known->times += times;
        }
    });
    return result;
}

} // namespace curbstop::quantities
