#include "proofs/transport/circuits.h"

#include <map>

#include "proofs/transport/arrows.h"

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

/// Per fluid where it is there of itself: from supplies, and in chambers that are no vessels.
std::map<FluidId, std::vector<Set>> origins(const System& system, std::size_t vertices,
                                            instants::Knowledge& knowledge) {
    std::map<FluidId, std::vector<Set>> found;
    const auto begin = [&](NodeId node, FluidId fluid, Set where) {
        if (fluid.valid() && !system[fluid].gas) {
            std::vector<Set>& at = found.try_emplace(fluid, vertices, nothing).first->second;
            at[Arrows::at(node)] = knowledge.diagrams().either(at[Arrows::at(node)], where);
        }
    };
    for (const Source& source : system.sources) {
        if (source.kind == SourceKind::supply) {
            begin(source.node, source.fluid, knowledge.truth(system[source.part].exists));
        }
    }
    for (const Chamber& chamber : system.chambers) {
        if (!chamber.vessel && chamber.part.valid()) {
            begin(chamber.node, chamber.fluid, knowledge.truth(system[chamber.part].exists));
        }
    }
    return found;
}

/// What it has whatever reaches it; none for most.
FluidId own_fluid(const System& system, const Pocket& pocket) {
    return pocket.kind == PocketKind::chamber ? system.chambers[pocket.index].fluid
           : pocket.kind == PocketKind::body  ? system.parts[pocket.index].holds
                                              : FluidId{};
}

void part(std::vector<Circuit>& circuits, FluidId fluid, Set reached, instants::Diagrams& sets) {
    for (std::size_t i = circuits.size(); i-- > 0;) {
        const Set with = sets.both(circuits[i].where, reached);
        const Set rest = sets.without(circuits[i].where, reached);
        if (with == nothing) {
            continue;
        }
        if (rest != nothing) {
            circuits.push_back({rest, circuits[i].fluids});
        }
        circuits[i] = {with, circuits[i].fluids | fluid_bit(fluid)};
    }
}

} // namespace

std::vector<std::vector<Circuit>> find_circuits(const System& system, const Pockets& pockets,
                                                const std::vector<PocketIndex>& passed,
                                                instants::Knowledge& knowledge) {
    instants::Diagrams& sets = knowledge.diagrams();
    const Arrows arrows(system, pockets, passed, knowledge,
                        [&](const Way& way) { return knowledge.truth(way.exists); });
    std::vector<std::vector<Circuit>> result(pockets.size());
    for (PocketIndex i = 0; i < pockets.size(); ++i) {
        if (pockets[i].kind != PocketKind::vessel) {
            const FluidId own = own_fluid(system, pockets[i]);
            const bool liquid = own.valid() && !system[own].gas;
            result[i] = {{knowledge.truth(pockets[i].exists), liquid ? fluid_bit(own) : 0}};
        }
    }
    const std::vector<Set> nowhere(arrows.size(), nothing);
    for (auto& [fluid, reached] : origins(system, arrows.size(), knowledge)) {
        arrows.spread(reached, sets, nowhere);
        for (PocketIndex i = 0; i < pockets.size(); ++i) {
            const Pocket& pocket = pockets[i];
            if (pocket.kind != PocketKind::vessel && !own_fluid(system, pocket).valid()) {
                const bool chamber = pocket.kind == PocketKind::chamber;
                const std::size_t at = chamber ? Arrows::at(system.chambers[pocket.index].node) : arrows.at(i);
                part(result[i], fluid, reached[at], sets);
            }
        }
    }
    for (PocketIndex i = 0; i < pockets.size(); ++i) {
        if (!result[i].empty()) { // where it is not there does not matter
            const Set absent = sets.without(everything, knowledge.truth(pockets[i].exists));
            result[i].front().where = sets.either(result[i].front().where, absent);
        }
    }
    return result;
}

} // namespace curbstop::proofs
