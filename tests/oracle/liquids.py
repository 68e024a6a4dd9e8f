"""What statements do to the liquids: ((fluids it may hold, whether surely), ...) in the order of the containers.

For: the walk.  It knows nothing of findings.
"""

from expressions import conjuncts, container_named
from naming import is_within, names


def at_start(network, requires):
    """The liquids at the start: what parts name and vessels are filled with, unless a `requires` says otherwise."""
    liquid = [(c.fluids, c.surely) for c in network.containers]
    for e in requires:
        say_so(network, liquid, e)
    return tuple(liquid)


def say_so(network, liquid, e):
    """Takes over what an expression says of contents, as far as `and` joins it at the top."""
    for term in conjuncts(e):
        if term[0] not in ("holds", "empty"):
            continue
        i = network.container_index[container_named(network, term[1])]
        if term[0] == "empty":
            liquid[i] = (frozenset(), False)
        elif term[2] == "liquid":
            liquid[i] = (liquid[i][0], True)
        else:
            liquid[i] = (frozenset([term[2]]), True)


def without_contents(e):
    """The terms of an expression that configurations are asked about."""
    return [term for term in conjuncts(e) if term[0] not in ("holds", "empty")]


def after_flow(flow, state):
    """The liquids after the `until` of a flow or drain."""
    network = state.network
    liquid = list(state.liquid)
    if flow.form == "drain":
        running = [(c, x) for c, x in state.gravities if names(flow, c, x, network)]
    else:
        running = [(o, x) for _, o, x in state.discharges if names(flow, o, x, network)]
    for origin, outlet in running:
        for node in lands_in(state.layout, state.layout.landing(outlet)):
            i = network.container_index[node]
            fluids, surely = liquid[i]
            full = flow.form == "flow" and flow.until == "full"
            liquid[i] = (fluids | state.fluids_of(origin), surely or full)
    if flow.form == "drain" or flow.until in ("stops", "only air"):
        for i, container in enumerate(network.containers):
            if any(is_within(container.node, s, network) for s in flow.sources):
                liquid[i] = (frozenset(), False)
    return tuple(liquid)


def lands_in(layout, landing):
    """The chambers or vessels that what lands on a node comes into first."""
    found = set()
    reached = {landing}
    waiting = [landing]
    while waiting:
        node = waiting.pop()
        if node in layout.by_node:
            found.add(node)
            continue
        if layout.ends_a_fall(node):
            continue
        for other in layout.onward(node, (), set()):
            if other not in reached:
                reached.add(other)
                waiting.append(other)
    return found


def after_pour(network, liquid, vessel, place):
    """The liquids after a vessel was emptied into a place, a chamber or another vessel."""
    liquid = list(liquid)
    i = network.container_index[vessel]
    fluids, _ = liquid[i]
    liquid[i] = (frozenset(), False)
    if place not in network.places:
        j = network.container_index[container_named(network, place)]
        liquid[j] = (liquid[j][0] | fluids, liquid[j][1])
    return tuple(liquid)
