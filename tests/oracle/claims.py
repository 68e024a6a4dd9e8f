"""What is claimed of contents: judged in one configuration.

For: the walk.  It knows nothing of how the contents came about.
"""

from circuits import drinking_system
from expressions import lineup, stands
from pockets import DIRT, EXPANSION, TRACES

CLAIMS = {"frost safe": "frost-risk", "drinkable": "not-drinkable", "restored": "not-restored"}


def refuted(term, state, pockets):
    """What speaks against a claim: the pockets, or the entries of the line-up."""
    if term[0] == "frost safe":
        return frost_risks(state, pockets, term[1])
    if term[0] == "drinkable":
        return undrinkable(state, pockets)
    network = state.network
    return [name for name, position in lineup(network.system, network.system.for_use)
            if not stands(name, position, network, state.layout)]


# Frost


def frost_risks(state, pockets, degrees):
    network = state.network
    return [name for name in network.pockets if is_judged(state, name)
            and not outlasts_frost(network, pockets[name], degrees)]


def is_judged(state, name):
    """Whether it is there, is no vessel, and belongs to no part that lies loose."""
    network, sigma = state.network, state.layout.sigma
    if name in network.vessels or not network.pocket_is_there(name, sigma):
        return False
    path = "" if name[0] == "run" else name[1] if name[0] == "body" else network.owner[name]
    kind = network.instances[path].kind if path else None
    if kind and kind.ends and not kind.ports:
        return any(is_coupled(sigma[network.index[f"{path}.{end.name}"]]) for end in kind.ends)
    return True


def is_coupled(value):
    return isinstance(value, tuple) and value[0] == "coupled"


def outlasts_frost(network, pocket, degrees):
    gas = pocket.effective()
    if gas >= EXPANSION * (1 - gas):
        return True
    liquids = {f: share for f, share in pocket.most.items() if f != DIRT and share > 0}
    if not liquids:
        return True                                 # nothing is in it that could freeze
    for fluid in network.system.fluids:
        others = sum(share for f, share in liquids.items() if f != fluid.name)
        if fluid.freezes and freezing_point(fluid, strength(network, fluid.name) * (1 - others)) <= degrees:
            return True
    return False


def strength(network, fluid):
    """The least at which a vessel is filled with it; where a supply, a chamber or a body has it of its own, nobody knows
    how strong it is.  Which of it is where is not followed here: compare.py asks once more with all of it known."""
    if getattr(network.system, "strength_is_known", False):
        return min((v.strength for v in network.system.vessels if v.filled == fluid), default=0)
    own = {w.fluid for w in network.ways if w.form == "supplies"}
    own |= {i.holds for path, i in network.instances.items() if network.body_of(path)}
    own |= {f for c in network.containers if c.owner for f in c.fluids}
    filled = [v.strength for v in network.system.vessels if v.filled == fluid]
    return 0 if fluid in own else min(filled, default=0)


def freezing_point(fluid, strength_left):
    """Linear between the points that are given and none at 0 degC; beyond the last point as at the last."""
    points = ((0, 0),) + tuple(fluid.freezes)
    for (s, t), (s_next, t_next) in zip(points, points[1:]):
        if strength_left <= s_next:
            return t + (t_next - t) * (max(strength_left, 0) - s) / (s_next - s)
    return points[-1][1]


# Drinking water


def undrinkable(state, pockets):
    network = state.network
    system = drinking_system(network, state.layout.sigma)
    return [name for name, fit in system.items() if is_judged(state, name) and any(
        part_of_volume(pockets[name], f) > TRACES + 1e-9 and (f == DIRT or network.category[f] > fit)
        for f in pockets[name].most)]


def part_of_volume(pocket, liquid):
    """Of what has fallen in only as traces: what was there."""
    return pocket.most[liquid] * (1 if liquid in pocket.flooded else 1 - pocket.found_gas())
