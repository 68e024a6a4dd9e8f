"""What is claimed of contents, and what may be brought where: judged in one configuration.

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
    how strong it is."""
    own = {w.fluid for w in network.ways if w.form == "supplies"} | {i.holds for i in network.instances.values()}
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
    return [name for name, fit in system.items() if network.pocket_is_there(name, state.layout.sigma) and any(
        share > TRACES + 1e-9 and (f == DIRT or network.category[f] > fit) for f, share in pockets[name].most.items())]


# Places


def wrongly_brought(network, landing, own, origin, chain):
    """The fluids that a place, a vessel or the ground does not accept: `own` the origin's own fluids, `origin` what may be
    in the origin, `chain` what the pockets on the chain may hold."""
    accepts, mixed, traces = accepted(network, landing)
    found = []
    for f in set(origin).union(*chain) - {DIRT}:
        most = max([0] + [c.get(f, 0) for c in chain])
        if origin.get(f, 0) > 0 and f in own:
            grades = accepts
        elif origin.get(f, 0) > 0 or most > TRACES + 1e-9:
            grades = accepts | mixed
        else:
            grades = accepts | mixed | traces
        if f not in grades:
            found.append(f)
    return found


def accepted(network, place):
    fluids = network.system.fluids
    if place == "ground":
        return {f.name for f in fluids if f.category <= 2}, set(), set()
    lists = network.system.accepts.get(place, ([f.name for f in fluids], (), ()))
    return tuple(set(words) for words in lists)


def own_fluids(network, origin):
    """What an origin is declared to give: a supply's fluid, what a chamber holds in use, what a vessel is filled with."""
    if origin[0] == "supply":
        return {w.fluid for w in network.ways if w.form == "supplies" and w.owner == origin[1]}
    return set(network.containers[network.container_index[origin[1]]].fluids)


def wrong_at(transport, pockets):
    """{(origin, outlet, landing, fluid)} of all that runs or falls at an instant and is brought to the wrong place."""
    network, layout = transport.network, transport.layout
    found = set()

    def judge(origin, outlet, brought, chain):
        landing = layout.landing(outlet)
        if landing in network.places or landing in network.vessels:
            wrong = wrongly_brought(network, landing, own_fluids(network, origin), brought,
                                    [pockets[q].most for q, _ in chain if q != origin[1]])
            found.update((origin, outlet, landing, f) for f in wrong)

    for running in transport.running:
        _, origin, outlet = running.discharge
        judge(origin, outlet, {} if running.gas else transport.composition(origin, pockets),
              [(q, b) for q, b in running.chain if q != landing_of_fill(outlet)])
    for falling in transport.falling:
        for outlet, chain in falling.outlets.items():
            judge(("held", falling.chamber), outlet, pockets[falling.chamber].most,
                  [(q, b) for q, b in chain if q != landing_of_fill(outlet)])
    return found


def landing_of_fill(outlet):
    return outlet[1] if outlet[0] == "fill" else None
