#include "proofs/transport/drinking_water.h"

#include "meaning/possibility.h"
#include "proofs/transport/arrows.h"
#include "proofs/transport/bounds.h"

namespace curbstop::proofs {

using instants::everything;
using instants::nothing;
using instants::Set;
using namespace meaning;

namespace {

struct OfSets {
    instants::Diagrams& sets;
    Set yes = everything;
    Set no = nothing;
    Set both(Set a, Set b) const { return sets.both(a, b); }
    Set either(Set a, Set b) const { return sets.either(a, b); }
};

/// Everything as in the line-up `for use`; what draws, and what that line-up does not name, in any way.
class InUse {
  public:
    InUse(const System& system, instants::Knowledge& knowledge)
        : system_(system)
        , knowledge_(knowledge)
        , may_stand_(system.variables.size(), ~ValueSet{0}) {
        if (!system.use.valid()) {
            return;
        }
        for (const Lineup::Entry& entry : system[system.use].entries) {
            const PartId part = system[entry.variable].part;
            const bool draws =
                part.valid() && system[entry.variable].kind == VariableKind::position && !system[part].outlets.empty();
            if (!draws) {
                may_stand_[entry.variable.value] = entry.values;
            }
        }
    }

    Set can_hold(ExpressionId expression) const {
        const auto leaf = [this](ExpressionId id, const Expression& e) { return of_leaf(id, e); };
        return chances<Set>(system_, expression, OfSets{knowledge_.diagrams()}, leaf).hold;
    }

  private:
    Chances<Set> of_leaf(ExpressionId id, const Expression& e) const {
        instants::Diagrams& sets = knowledge_.diagrams();
        if (e.kind == ExpressionKind::stands) { // what is said of a part that is not there is true
            const ValueSet standing = may_stand_[e.variable.value];
            const Set there = knowledge_.truth(system_[e.variable].exists);
            return {(standing & e.values) != 0 ? everything : sets.without(everything, there),
                    (standing & ~e.values) != 0 ? there : nothing};
        }
        if (e.kind == ExpressionKind::option) {
            const Set taken = knowledge_.truth(id);
            return {taken, sets.without(everything, taken)};
        }
        return {everything, everything}; // what hangs on the moment
    }

    const System& system_;
    instants::Knowledge& knowledge_;
    std::vector<ValueSet> may_stand_;
};

} // namespace

std::vector<Set> drinking_water_system(const System& system, const Pockets& pockets,
                                       const std::vector<PocketIndex>& passed, instants::Knowledge& knowledge) {
    instants::Diagrams& sets = knowledge.diagrams();
    const InUse in_use(system, knowledge);
    const Arrows arrows(system, pockets, passed, knowledge,
                        [&](const Way& way) { return in_use.can_hold(way.condition); });
    std::vector<Set> fit(arrows.size(), nothing);
    std::vector<Set> unfit = fit;
    const auto begin = [&](NodeId node, FluidId fluid, Set where) {
        if (!fluid.valid() || system[fluid].gas) {
            return;
        }
        const int category = system[fluid].category;
        if (category == 1) {
            fit[node.value] = sets.either(fit[node.value], where);
        } else if (category > harmless_category) {
            unfit[node.value] = sets.either(unfit[node.value], where);
        }
    };
    for (const Source& source : system.sources) {
        if (source.kind == SourceKind::supply) { // water is for drinking, be its valve shut in use or not
            const bool drinking = source.fluid.valid() && system[source.fluid].category == 1;
            begin(source.node, source.fluid,
                  drinking ? knowledge.truth(system[source.part].exists) : in_use.can_hold(source.on));
        }
    }
    for (const Chamber& chamber : system.chambers) {
        if (!chamber.vessel && chamber.part.valid()) {
            begin(chamber.node, chamber.fluid, knowledge.truth(system[chamber.part].exists));
        }
    }
    const std::vector<Set> nowhere(arrows.size(), nothing);
    arrows.spread(unfit, sets, nowhere);
    // Where something has a fluid of its own, that is what it holds, whatever reaches it.
    std::vector<Set> stops(arrows.size(), nothing);
    const auto own = [&](FluidId fluid) { return system[fluid].category > harmless_category ? everything : nothing; };
    for (PocketIndex i = 0; i < pockets.size(); ++i) {
        const Pocket& pocket = pockets[i];
        if (pocket.kind == PocketKind::chamber) {
            const Chamber& chamber = system.chambers[pocket.index];
            stops[chamber.node.value] = chamber.fluid.valid() ? own(chamber.fluid) : unfit[chamber.node.value];
        } else if (pocket.kind != PocketKind::vessel) {
            const bool body = pocket.kind == PocketKind::body && system.parts[pocket.index].holds.valid();
            stops[arrows.at(i)] = body ? own(system.parts[pocket.index].holds) : unfit[arrows.at(i)];
        }
    }
    arrows.spread(fit, sets, stops);
    std::vector<Set> result(pockets.size(), nothing);
    for (PocketIndex i = 0; i < pockets.size(); ++i) {
        const Pocket& pocket = pockets[i];
        if (pocket.kind == PocketKind::chamber) {
            result[i] = fit[system.chambers[pocket.index].node.value];
        } else if (pocket.kind != PocketKind::vessel) {
            result[i] = fit[arrows.at(i)];
        }
    }
    return result;
}

} // namespace curbstop::proofs
