"""What is brought to a vessel, a place or the ground that does not accept it: judged in one configuration.

For: the walk.  It knows nothing of how the contents came about.
"""

from pockets import DIRT, EMPTIED, TRACES


def wrongly_brought(network, landing, own, origin, chain):
    """The fluids that a place, a vessel or the ground does not accept: `own` the origin's own fluids, `origin` what may be
    in the origin, `chain` what the pockets on the chain may hold."""
    accepts, mixed, traces = accepted(network, landing)
    found = []
    for f in sorted(set(origin).union(*chain) - {DIRT}):
        shares = [(origin.get(f, 0), accepts if f in own else accepts | mixed)]
        shares += [(held.get(f, 0), accepts | mixed) for held in chain]
        if any(share > 0 and f not in (grades if share > TRACES + 1e-9 else accepts | mixed | traces)
               for share, grades in shares):
            found.append(f)
    return found


def accepted(network, place):
    """The fluids it accepts as what it is for, mixed with that, and in traces."""
    fluids = network.system.fluids
    if place == "ground":
        return {f.name for f in fluids if f.category <= 2}, set(), {f.name for f in fluids if f.category == 3}
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
    by_itself = transport.pipework.slopes.by_itself
    found = set()

    def gives(origin):
        node = origin[1]
        return origin[0] == "supply" or pockets[node].effective() < EMPTIED - 1e-9 or node in by_itself

    def judge(origin, outlet, brought, chain):
        landing = layout.landing(outlet)
        if layout.ends_a_fall(landing) and gives(origin):
            held = [pockets[q].most for q, _ in chain if q not in (origin[1], landing)]
            wrong = wrongly_brought(network, landing, own_fluids(network, origin), brought, held)
            found.update((origin, outlet, landing, f) for f in wrong)

    for running in transport.running:
        _, origin, outlet = running.discharge
        judge(origin, outlet, {} if running.gas else transport.composition(origin, pockets), running.chain)
    # Where it falls to is told more widely than what it passes: pipes that rise are none of its chain.
    for falling in transport.falling:
        for outlet in layout.falls_from(layout.by_node[falling.chamber])[0] | set(falling.outlets):
            judge(("held", falling.chamber), outlet, pockets[falling.chamber].most, falling.outlets.get(outlet, ()))
    return found
