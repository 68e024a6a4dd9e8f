"""The plumbing of one configuration with runs and bodies as vertices: the graphs that the page names.

Vertices are nodes, ("run", NUMBER), ("body", PART), and outlets; an outlet ("fill", NODE) is the vented chamber or vessel
itself.  A vent on a node is the vertex ("vent", PART, NODE).

For: transport.py and observations.py.  It knows nothing of what is in the pockets.
"""

from collections import defaultdict

from graphs import Graph
from slopes import Slopes


def vertex_of(outlet):
    return outlet[1] if outlet[0] == "fill" else outlet


class Pipework:
    def __init__(self, layout):
        self.layout = layout
        self.network = layout.network
        self.onward = defaultdict(list)             # node -> [(vertices between, node)], along the arrows
        self.incoming = defaultdict(list)           # the same against them
        self.pumped = defaultdict(list)             # node -> what of `onward` leads through a pump
        self.openings = defaultdict(list)           # node -> [(vertices between, outlet, `above` of a fall or None)]
        self.vents = defaultdict(list)              # node -> [(vertices between, vertex)]
        self.slopes = Slopes(layout)
        self.stores = []                            # (body, port) of the parts that do nothing but store
        self.join_ways()
        self.join_runs()
        for name in layout.open_ends:
            self.openings[name].append(((), ("end", name), None))

    def arrow(self, a, through, b):
        self.onward[a].append((through, b))
        self.incoming[b].append((through, a))

    def join_ways(self):
        network = self.network
        doing_more = {w.owner for w in network.ways if not w.joins and w.form != "stores"}
        for form, way in self.layout.active:
            through = () if way.joins else network.body_of(way.owner)
            if form == "both":
                self.arrow(way.a, through, way.b)
                self.arrow(way.b, through, way.a)
            elif form in ("forward", "passes"):
                self.arrow(way.a, through, way.b)
                if form == "passes":
                    self.pumped[way.a].append((through, way.b))
            elif form == "fall":
                self.openings[way.a].append((through, ("fall", way.owner, way.b), way.pressure))
            elif form == "breach":
                self.openings[way.a].append(((), ("breach", way.owner, way.a), None))
            elif form == "vent" and way.a not in network.container_index:
                self.vents[way.a].append((through, ("vent", way.owner, way.a)))
            elif form == "stores" and through and way.owner not in doing_more:
                self.stores.append((through[0], way.a))

    def join_runs(self):
        network, sigma = self.network, self.layout.sigma
        for i, run in zip(range(len(network.system.runs)), network.system.runs):
            if network.run_is_there(run, sigma):
                self.arrow(run.a, (("run", i),), run.b)
                self.arrow(run.b, (("run", i),), run.a)
        for name in network.ends:
            value = sigma[network.index[name]]
            if isinstance(value, tuple) and network.is_there(name, sigma):
                self.arrow(name, (), value[1])      # the other end has its own arrow; a vessel has none yet
                if value[0] == "in":
                    self.arrow(value[1], (), name)

    # Pressure

    def pressed(self, start, gas, pressure):
        """Everything that a source presses on at `start`, rooted there."""
        layout = self.layout
        graph = Graph(start)
        reached = layout.pressurised(start, gas)
        for node in reached:
            for through, other in self.onward[node]:
                if other in reached or other in layout.vented:
                    graph.join(node, *through, other)
            for through, outlet, above in self.openings[node]:
                if above is not None and not (pressure > above and node in layout.pressurised(start, gas, above)):
                    continue
                graph.join(node, *through, outlet)
                if gas and outlet[0] == "fall" and above is None and layout.landing(outlet) in reached:
                    graph.join(outlet, layout.landing(outlet))
            for through, vent in self.vents[node]:
                graph.join(node, *through, vent)
            for body, port in self.stores:
                if port == node:
                    graph.join(node, body)
        return graph

    def gas_openings(self, start, pressure):
        """The vertices at which gas that presses at `start` comes out."""
        found = {vertex_of(x) for x in self.layout.outlets_of(start, True, pressure)}
        return found | {vent for node in self.layout.pressurised(start, True) for _, vent in self.vents[node]}

    def drawn(self, start):
        """Everything that is drawn on at `start`, rooted there; the arrows lead to it."""
        graph = Graph(start)
        reached = {start}
        waiting = [start]
        while waiting:
            node = waiting.pop()
            if node in self.layout.vented:
                continue
            for through, other in self.incoming[node]:
                graph.join(other, *reversed(through), node)
                if other not in reached:
                    reached.add(other)
                    waiting.append(other)
        return graph

    # Gravity

    def falling(self, chamber):
        """(the graph of what falls from a chamber, its outlets, the chambers and vessels that it comes into)"""
        layout = self.layout
        height = self.network.instances[chamber.owner].height
        first = chamber.low
        if height is not None:
            first = [p for p in chamber.ports if chamber.node not in layout.vented or p not in chamber.high]
        steps = [((), port) for port in first]
        steps += [(through, other) for through, other in self.onward[chamber.node] if other not in chamber.ports]
        return self.fallen(chamber.node, [s for s in steps if self.falls_or_is_level(chamber.node, s[0])], height, True)

    def fallen(self, root, steps, height, downwards=False):
        """What falls from a root whose first steps are given; `downwards`: over no run that falls the other way."""
        layout = self.layout
        graph = Graph(root)
        outlets = set()
        reached = {root}
        waiting = []

        def go(node, steps):
            for through, other in steps:
                if other == root:                   # what falls back into it is in it
                    continue
                graph.join(node, *through, other)
                if other not in reached:
                    reached.add(other)
                    if other in self.network.vessels:
                        outlets.add(("fill", other))
                    else:
                        waiting.append(other)
            for through, outlet, above in self.openings[node]:
                if above is not None or self.stands_as_high(outlet, height):
                    continue
                graph.join(node, *through, outlet)
                landing = layout.landing(outlet)
                if layout.ends_a_fall(landing):
                    outlets.add(outlet)
                else:
                    go(outlet, [((), landing)])

        go(root, steps)
        while waiting:
            node = waiting.pop()
            if node in self.slopes.always_vented:
                continue
            go(node, [s for s in self.steps_down(node) if not downwards or self.falls_or_is_level(node, s[0])])
        entered = (reached - {root}) & set(layout.by_node)
        return graph, outlets, entered | {layout.landing(x) for x in outlets if layout.landing(x) in self.network.vessels}

    def stands_as_high(self, outlet, height):
        above = self.layout.height_of(outlet)
        return height is not None and above is not None and above >= height

    def steps_down(self, node):
        """Where what falls goes on from a node: a vented chamber is left by its low ports."""
        held = self.layout.by_node.get(node)
        if node in self.slopes.always_vented:       # what comes into it has come to rest
            return []
        if held is None or node not in self.layout.vented:
            return self.onward[node]
        return [((), port) for port in held.low] + [(t, other) for t, other in self.onward[node] if other not in held.ports]

    def from_landing(self, node):
        """(the graph of where what lands on a port runs, its outlets, the chambers or vessels it comes into)"""
        return self.fallen(node, self.steps_down(node), None)

    # Runs that fall

    def ends_of(self, i):
        return self.slopes.ends_of(i)

    def falls_on(self, node, through):
        """Whether a step from a node is no run, or a run that falls from there."""
        return not (through and through[0][0] == "run") or (self.ends_of(through[0][1]) or ("",))[0] == node

    def falls_or_is_level(self, node, through):
        level = through and through[0][0] == "run" and not self.ends_of(through[0][1])
        return level or self.falls_on(node, through)

    def way_down(self, i):
        """The graph of where a run that falls surely leads down to, rooted at its lower end: of runs only those that fall
        on, and through no pump."""
        _, lower = self.ends_of(i)
        layout = self.layout
        graph = Graph(lower)
        reached = {lower}
        waiting = [lower]
        while waiting:
            node = waiting.pop()
            if node in self.network.vessels or node in self.network.places:
                continue
            steps = [step for step in self.steps_down(node) if self.falls_on(node, step[0]) and step not in self.pumped[node]]
            for through, other in steps:
                graph.join(node, *through, other)
            for through, outlet, above in self.openings[node]:
                if above is None:
                    graph.join(node, *through, outlet, layout.landing(outlet))
                    steps.append(((), layout.landing(outlet)))
            for _, other in steps:
                if other not in reached:
                    reached.add(other)
                    waiting.append(other)
        return graph

    def aired(self, is_drained_through):
        """The vertices to which air comes from a vented chamber or an opening that is not drained through, along the
        arrows; a run that falls lets it pass from its upper end only, a pump not at all."""
        layout = self.layout
        graph = Graph("air")
        for node in list(self.onward) + list(self.incoming) + list(self.openings) + list(self.vents):
            if node in self.network.vessels:
                continue
            if node in layout.vented:
                graph.join("air", node)
            for through, _ in self.vents[node]:
                graph.join("air", *reversed(through), node)
            for through, outlet, above in self.openings[node]:
                if above is None and not is_drained_through(outlet):
                    graph.join("air", *reversed(through), node)
                if above is None:                   # down to the outlet as well
                    graph.join(node, *through)
            for through, other in self.onward[node]:
                if (other not in self.network.vessels and self.falls_or_is_level(node, through)
                        and (through, other) not in self.pumped[node]):
                    graph.join(node, *through, other)
        return graph.reached(["air"])

