#include "proofs/transport/claims.h"
#include "meaning/possibility.h"

#include <algorithm>

#include "meaning/possibility.h"
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
            const double gas = bounds.gas_now();
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

namespace {

/// Whether an expression can be true with everything as the line-up says and what is free standing in any way; what is
/// said of a part that is not there is true.
bool can_hold(const System& system, const std::vector<ValueSet>& may_stand, ExpressionId expression) {
    return possibility(system, expression,
                       [&](const Expression& e) {
                           const ValueSet standing = may_stand[e.variable.value];
                           const bool always_there = system[e.variable].exists == Expressions::always();
                           return Possibility{(standing & e.values) != 0 || !always_there, (standing & ~e.values) != 0};
                       })
        .can_hold;
}

} // namespace

std::vector<bool> drinking_water_system(const System& system, const Pockets& pockets) {
    std::vector<ValueSet> may_stand(system.variables.size(), ~ValueSet{0});
    if (system.use.valid()) {
        for (const Lineup::Entry& entry : system[system.use].entries) {
            const PartId part = system[entry.variable].part;
            const bool draws =
                part.valid() && system[entry.variable].kind == VariableKind::position && !system[part].outlets.empty();
            if (!draws) {
                may_stand[entry.variable.value] = entry.values;
            }
        }
    }
    std::vector<char> reached(system.nodes.size(), 0);
    std::vector<std::vector<std::uint32_t>> ways_at(system.nodes.size());
    for (std::uint32_t i = 0; i < system.ways.size(); ++i) {
        ways_at[system.ways[i].from.value].push_back(i);
        if (system.ways[i].to.valid()) {
            ways_at[system.ways[i].to.value].push_back(i);
        }
    }
    std::vector<NodeId> queue;
    const auto add = [&](NodeId node) {
        if (reached[node.value] == 0) {
            reached[node.value] = 1;
            queue.push_back(node);
        }
    };
    for (const Source& source : system.sources) {
        if (source.kind == SourceKind::supply && !system[source.fluid].gas && system[source.fluid].category == 1) {
            add(source.node);
        }
    }
    for (const Chamber& chamber : system.chambers) {
        if (!chamber.vessel && chamber.fluid.valid() && !system[chamber.fluid].gas &&
            system[chamber.fluid].category == 1) {
            add(chamber.node);
        }
    }
    std::vector<bool> passed(system.ways.size());
    while (!queue.empty()) {
        const NodeId node = queue.back();
        queue.pop_back();
        for (const std::uint32_t index : ways_at[node.value]) {
            const Way& way = system.ways[index];
            if (way.kind == WayKind::open_end || !can_hold(system, may_stand, way.condition)) {
                continue;
            }
            if (way.from == node) {
                passed[index] = true;
                const bool inside = way.to.valid() && system[way.to].kind != meaning::NodeKind::place &&
                                    system[way.to].kind != meaning::NodeKind::vessel;
                if (way.kind != WayKind::fall && inside) { // of a breach or vent only the body behind it
                    add(way.to);
                }
            } else if (way.kind == WayKind::two_way) {
                passed[index] = true;
                add(way.from);
            }
        }
    }
    std::vector<bool> result(pockets.size());
    for (PocketIndex i = 0; i < pockets.size(); ++i) {
        const Pocket& pocket = pockets[i];
        if (pocket.kind == PocketKind::run) {
            result[i] =
                reached[system.runs[pocket.index].from.value] != 0 || reached[system.runs[pocket.index].to.value] != 0;
        } else if (pocket.kind == PocketKind::chamber) {
            result[i] = reached[system.chambers[pocket.index].node.value] != 0;
        } else if (pocket.kind == PocketKind::body) {
            for (std::uint32_t way = 0; way < system.ways.size(); ++way) {
                result[i] = result[i] || (passed[way] && system.ways[way].part == pocket.part);
            }
            for (const Source& source : system.sources) { // what it gives comes through its body
                result[i] = result[i] || (source.kind == SourceKind::supply && source.part == pocket.part &&
                                          reached[source.node.value] != 0 && can_hold(system, may_stand, source.on));
            }
            result[i] = result[i] || (pocket.stores && std::ranges::any_of(system[pocket.part].nodes, [&](NodeId n) {
                                          return reached[n.value] != 0;
                                      }));
        }
        for (std::uint32_t fluid = 0; fluid < system.fluids.size(); ++fluid) {
            if ((pocket.circuit & fluid_bit(FluidId(fluid))) != 0 && system.fluids[fluid].category > 2) {
                result[i] = false;
            }
        }
    }
    return result;
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
    const std::vector<bool> drinking = drinking_water_system(engine.system(), transport.pockets());
    for (PocketIndex i = 0; i < transport.pockets().size(); ++i) {
        if (!drinking[i]) {
            continue;
        }
        const Set bad = transport.inventory().where(i, [&](const Bounds& bounds) { return wrong(i, bounds); });
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
