#include "proofs/air_inlet.h"

#include <algorithm>
#include <optional>

namespace curbstop::proofs {

using instants::Set;
using namespace meaning;

namespace {

// Openings by which no air comes in: those of the drain, and those that stand lower than all of these.
std::vector<OutletId> no_inlets(const System& system, const Flow& flow) {
    std::vector<OutletId> outlets = flow.outlets;
    std::optional<Quantity> lowest;
    for (const OutletId outlet : flow.outlets) {
        if (!system[outlet].height) {
            return outlets;
        }
        if (!lowest || system[outlet].height->value < lowest->value) {
            lowest = system[outlet].height;
        }
    }
    for (std::size_t i = 0; lowest && i < system.outlets.size(); ++i) {
        const auto& height = system.outlets[i].height;
        if (height && height->value < lowest->value) {
            outlets.emplace_back(i);
        }
    }
    return outlets;
}

} // namespace

Set air_from(Engine& engine, std::vector<Vertex> starts, const Flow& flow) {
    ReachSpec spec{.starts = std::move(starts),
                   .direction = Direction::backward,
                   .classes = static_cast<std::uint8_t>(pass | breath)};
    spec.without_air_at = no_inlets(engine.system(), flow);
    Reach air(engine.network(), engine.system(), std::move(spec));
    Set result = air.exact(engine.network().air(), engine.knowledge());
    // A vented chamber that it is joined to lets air in as well, unless it is what is drained into. A vessel gives
    // what an end dips in.
    const auto drained_into = [&](ChamberId chamber) {
        return std::ranges::any_of(flow.outlets,
                                   [&](OutletId outlet) { return engine.system()[outlet].fills == chamber; });
    };
    for (const Vertex vertex : air.marks()) {
        if (const ChamberId chamber = engine.network().chamber_at_out(vertex);
            chamber.valid() && engine.system()[chamber].vented != Expressions::never() &&
            !engine.system()[chamber].vessel && !drained_into(chamber)) {
            const Set reached = air.exact(vertex, engine.knowledge());
            result = engine.diagrams().either(
                result, engine.diagrams().both(reached, engine.knowledge().truth(engine.system()[chamber].vented)));
        }
    }
    return result;
}

Set air_inlet(Engine& engine, ChamberId chamber, const Flow& drain, Set where) {
    const Set vented = engine.knowledge().truth(engine.system()[chamber].vented);
    if (engine.diagrams().within(where, vented)) {
        return vented;
    }
    const ChamberVertices& vertices = engine.network().chamber(chamber);
    return engine.diagrams().either(vented, air_from(engine, {vertices.in, vertices.out}, drain));
}

} // namespace curbstop::proofs
