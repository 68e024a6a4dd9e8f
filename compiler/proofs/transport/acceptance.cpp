#include "proofs/transport/acceptance.h"

#include <algorithm>

namespace curbstop::proofs {

using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

// Of what is a slight hazard the ground may take what a flush leaves: common practice, no source.
constexpr int ground_takes_traces_of = 3;

const std::vector<Chamber::Acceptance>* list_of(const System& system, NodeId node) {
    if (system[node].chamber.valid()) {
        return &system[system[node].chamber].accepts;
    }
    const auto place = std::ranges::find(system.places, node, &Place::node);
    return place == system.places.end() ? nullptr : &place->accepts;
}

} // namespace

Accepted accepted_by(const System& system, const Liquids& liquids, NodeId node) {
    Accepted accepted;
    const LiquidSet dirt = LiquidSet{1} << liquids.dirt();
    accepted.holds = accepted.mixed = accepted.traces = dirt;
    if (node == system.places.front().node) {
        for (std::uint32_t i = 0; i < liquids.dirt(); ++i) {
            const int category = system[liquids.fluid(i)].category;
            accepted.holds |= category <= harmless_category ? LiquidSet{1} << i : 0;
            accepted.traces |= category <= ground_takes_traces_of ? LiquidSet{1} << i : 0;
        }
        accepted.mixed = accepted.holds;
        return accepted;
    }
    const std::vector<Chamber::Acceptance>* list = list_of(system, node);
    for (const Chamber::Acceptance& one : list == nullptr ? std::vector<Chamber::Acceptance>() : *list) {
        const std::uint32_t liquid = liquids.of(one.fluid);
        if (liquid == UINT32_MAX) {
            continue; // a gas
        }
        const LiquidSet bit = LiquidSet{1} << liquid;
        using enum Chamber::Acceptance::Grade;
        accepted.holds |= one.grade == holds ? bit : 0;
        accepted.mixed |= one.grade == holds || one.grade == mixed ? bit : 0;
        accepted.traces |= bit;
    }
    return accepted;
}

std::vector<Landing> rests_in(Engine& engine, OutletId id) {
    const System& system = engine.system();
    const Outlet& outlet = system[id];
    instants::Diagrams& sets = engine.diagrams();
    std::vector<Landing> landings;
    Set in_vessels = nothing; // what stands under it is nearest
    for (const auto& [vessel, there] : engine.vessels_under(id)) {
        in_vessels = sets.either(in_vessels, there);
        landings.push_back({system[vessel].node, there});
    }
    const NodeId ground = system.places.front().node;
    const NodeId lands = outlet.lands.valid() ? outlet.lands : ground;
    const Set past = sets.complement(in_vessels);
    if (system[lands].kind == meaning::NodeKind::place || system[lands].kind == meaning::NodeKind::vessel) {
        landings.push_back({lands, past});
    } else {
        // What the variant lacks catches nothing: it falls to the ground.
        landings.push_back({ground, sets.both(past, engine.network().caught(id, engine.knowledge()))});
    }
    std::erase_if(landings, [&](const Landing& one) { return sets.disjoint(one.where, engine.possible()); });
    return landings;
}

const std::string& landing_label(const System& system, NodeId node) {
    return system[node].chamber.valid() ? system[system[node].chamber].label : system[node].label;
}

} // namespace curbstop::proofs
