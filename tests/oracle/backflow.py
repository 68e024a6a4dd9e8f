"""What can come back to a supply of drinking water against the arrows: judged in one configuration.

For: the walk.  It knows nothing of how the contents came about.
"""

from graphs import Graph
from pockets import EMPTIED, TRACES, thawed

PLAIN_CHECK_VALVE = 2
HARMLESS = 2


def steps_back(pipework, category):
    """{node: [(vertices between, node)]} against the arrows of what does not keep back this category."""
    found = {}
    for form, way in pipework.layout.active:
        if form in ("forward", "passes") and (way.protects if form == "forward" else PLAIN_CHECK_VALVE) < category:
            through = () if way.joins else pipework.network.body_of(way.owner)
            found.setdefault(way.b, []).append((tuple(reversed(through)), way.a))
    return found


def pushed(pipework, start, gas, category):
    """Everything that a source presses on, and what it could push back."""
    layout = pipework.layout
    back = steps_back(pipework, category)
    graph = Graph(start)
    reached = {start}
    waiting = [] if start in layout.vented else [start]
    while waiting:
        node = waiting.pop()
        steps = pipework.onward[node] + back.get(node, [])
        if gas:
            steps = steps + [(through + (outlet,), layout.landing(outlet))
                             for through, outlet, above in pipework.openings[node]
                             if above is None and outlet[0] == "fall" and not layout.ends_a_fall(layout.landing(outlet))]
        for through, other in steps:
            if other in pipework.network.vessels:
                continue
            graph.join(node, *through, other)
            if other not in reached and other not in layout.vented:
                reached.add(other)
                waiting.append(other)
    return graph, reached


def fallen(pipework, chamber, category):
    """Everything that could run from a chamber by its own weight, back over one-way ways as well."""
    layout = pipework.layout
    back = steps_back(pipework, category)
    ports = chamber.low
    if pipework.network.instances[chamber.owner].height is not None:
        ports = [p for p in chamber.ports if chamber.node not in layout.vented or p not in chamber.high]
    graph = Graph(chamber.node)
    reached = {chamber.node}
    waiting = []

    def go(node, steps):
        for through, other in steps:
            if other in pipework.network.vessels or not pipework.falls_or_is_level(node, through) or other == chamber.node:
                continue
            graph.join(node, *through, other)
            if other not in reached:
                reached.add(other)
                waiting.append(other)

    own = [(through, other) for through, other in pipework.onward[chamber.node] + back.get(chamber.node, [])
           if other not in chamber.ports]
    go(chamber.node, [((), port) for port in ports] + own)
    while waiting:
        node = waiting.pop()
        if node in pipework.slopes.always_vented:
            continue
        steps = pipework.steps_down(node) + back.get(node, [])
        for through, outlet, above in pipework.openings[node]:
            if above is None and not layout.ends_a_fall(layout.landing(outlet)) and outlet[0] == "fall":
                steps = steps + [(through + (outlet,), layout.landing(outlet))]
        go(node, steps)
    return graph, reached


def comes_back(transport, contents):
    """{(start, supply, liquid)} of all that can come back."""
    network, layout, pipework = transport.network, transport.layout, transport.pipework
    pockets = thawed(contents, network.pockets)
    by_itself = pipework.slopes.by_itself
    wells = [(way.owner, way.a) for form, way in layout.active if form == "supplies"    # on or off
             and way.fluid not in network.gases and network.category[way.fluid] == 1]
    harmful = [f.name for f in network.system.fluids if f.category > HARMLESS and f.name not in network.gases]
    found = set()

    def gives(node):
        return pockets[node].effective() < EMPTIED - 1e-9 or node in by_itself

    def held(names, fluid):
        return any(pockets[name].most.get(fluid, 0) > TRACES + 1e-9 for name in names)

    def of_origins(source, fluid):
        """Whether a source gives this fluid itself."""
        if source[0] == "supply":
            return any(fluid == f for part, _, f, _ in layout.supplies if part == source[1])
        drawn = [o for o in transport.origins_of(source) if o[0] == "supply" or gives(o[1])]
        given = [name for o in drawn if o[0] == "held" for name in [o[1]]] + list(network.body_of(source[1]))
        return held(given, fluid) or any(f == fluid for o in drawn if o[0] == "supply"
                                         for part, _, f, _ in layout.supplies if part == o[1])

    for fluid in harmful if wells else []:
        category = network.category[fluid]
        for source, (start, of, _) in transport.sources.items():
            graph, reached = pushed(pipework, start, of in network.gases, category)
            for part, node in wells:
                if node in reached and source != ("supply", part) and (
                        of_origins(source, fluid) or held(transport.pockets_of(graph.chain(node)), fluid)):
                    found.add((source, part, fluid))
        for chamber in layout.containers:
            if not chamber.owner or not transport.state.may_hold(chamber.node) or not gives(chamber.node):
                continue
            graph, reached = fallen(pipework, chamber, category)
            for part, node in wells:
                above, below = (network.instances[p].height for p in (chamber.owner, part))
                low = above is not None and below is not None and above <= below
                if node in reached and not low and held(
                        [chamber.node] + transport.pockets_of(graph.chain(node)), fluid):
                    found.add((("held", chamber.node), part, fluid))
    return frozenset(found)
