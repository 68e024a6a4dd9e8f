#include "proofs/transport/claims.h"

#include <algorithm>

#include "proofs/transport/freezing.h"

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

std::vector<std::optional<double>> strengths_brought(const System& system) {
    std::vector<std::optional<double>> brought(system.fluids.size());
    for (const Chamber& vessel : system.chambers) {
        if (vessel.vessel && vessel.fluid.valid() && vessel.strength) {
            const double strength = vessel.strength->value.to_double();
            std::optional<double>& least = brought[vessel.fluid.value];
            least = least ? std::min(*least, strength) : strength;
        }
    }
    return brought;
}

std::optional<double> protected_to(const System& system, const Liquids& liquids, const Bounds& bounds) {
    const std::vector<std::optional<double>> brought = strengths_brought(system);
    std::optional<double> lowest;
    for (std::uint32_t liquid = 0; liquid < liquids.dirt(); ++liquid) {
        const FluidId fluid = liquids.fluid(liquid);
        if (!brought[fluid.value] || bounds.most[liquid] == 0) {
            continue;
        }
        const double part = bounds.least[liquid];
        const auto point = freezing_point(system[fluid], part * *brought[fluid.value]);
        if (point && (!lowest || *point < *lowest)) {
            lowest = point;
        }
    }
    return lowest;
}

namespace {

// Where a pocket is there and is judged: a hose that hangs on nothing is not.
Set judged(Engine& engine, const Pocket& pocket) {
    Set where = engine.diagrams().both(engine.knowledge().truth(pocket.exists), engine.possible());
    if (!pocket.loose.empty()) {
        Set coupled = nothing;
        for (const VariableId end : pocket.loose) {
            ValueSet values = 0;
            const Variable& variable = engine.system()[end];
            for (std::size_t i = 0; i < variable.values.size(); ++i) {
                const NodeId partner = variable.values[i].partner;
                if (partner.valid() && engine.system()[partner].end.valid()) {
                    values |= ValueSet{1} << i;
                }
            }
            coupled = engine.diagrams().either(coupled, engine.knowledge().stands(end, values));
        }
        where = engine.diagrams().both(where, coupled);
    }
    return where;
}

} // namespace

std::vector<Shortfall> not_frost_safe(Engine& engine, const Quantity& temperature) {
    std::vector<Shortfall> found;
    Transport& transport = engine.transport();
    Inventory& inventory = transport.inventory();
    const double needed = temperature.value.to_double();
    for (PocketIndex i = 0; i < transport.pockets().size(); ++i) {
        const Pocket& pocket = transport.pockets()[i];
        if (pocket.kind == PocketKind::vessel) {
            continue;
        }
        const Set wrong = inventory.where(i, [&](const Bounds& bounds) {
            const double gas = bounds.gas.now();
            if (gas >= gas_to_freeze * (1 - gas)) {
                return false;
            }
            const auto point = protected_to(engine.system(), inventory.liquids(), bounds);
            return !point || *point > needed;
        });
        const Set where = wrong == nothing ? nothing : engine.diagrams().both(wrong, judged(engine, pocket));
        if (where != nothing) {
            found.push_back({i, where});
        }
    }
    return found;
}

bool is_spoilt_by(const System& system, const Liquids& liquids, std::uint32_t liquid, const Bounds& bounds) {
    if (bounds.part_of_volume(liquid) <= traces) {
        return false;
    }
    if (liquid == liquids.dirt()) {
        return true;
    }
    return system[liquids.fluid(liquid)].category > harmless_category;
}

namespace {

// Pockets of the drinking-water system of which this may be true.
template <typename Test>
std::vector<Shortfall> drinking_water_pockets(Engine& engine, const Test& wrong) {
    std::vector<Shortfall> found;
    Transport& transport = engine.transport();
    const std::vector<Set>& drinking = transport.drinking_water();
    for (PocketIndex i = 0; i < transport.pockets().size(); ++i) {
        if (drinking[i] == nothing) {
            continue;
        }
        const Set bad = engine.diagrams().both(
            drinking[i], transport.inventory().where(i, [&](const Bounds& bounds) { return wrong(i, bounds); }));
        const Set where =
            bad == nothing ? nothing : engine.diagrams().both(bad, judged(engine, transport.pockets()[i]));
        if (where != nothing) {
            found.push_back({i, where});
        }
    }
    return found;
}

} // namespace

std::vector<Shortfall> not_drinkable(Engine& engine) {
    const Liquids& liquids = engine.transport().inventory().liquids();
    return drinking_water_pockets(engine, [&](PocketIndex, const Bounds& bounds) {
        for (std::uint32_t liquid = 0; liquid < liquids.count(); ++liquid) {
            if (is_spoilt_by(engine.system(), liquids, liquid, bounds)) {
                return true;
            }
        }
        return false;
    });
}

std::vector<Shortfall> not_sanitised(Engine& engine, const Expression& claim) {
    const std::vector<bool> left_out = engine.transport().pockets_of(claim.parts);
    return drinking_water_pockets(engine, [&](PocketIndex pocket, const Bounds& bounds) {
        return !left_out[pocket] && !bounds.hygiene.sanitised;
    });
}

std::vector<Shortfall> never_flushed(Engine& engine) {
    return drinking_water_pockets(
        engine, [](PocketIndex, const Bounds& bounds) { return bounds.hygiene.stale > stale_left + 1e-9; });
}

} // namespace curbstop::proofs
