"""What runs, presses and falls at one instant in one configuration does to what the pockets hold.

The rules of an instant are found here once from the plumbing: who is before whom on which chain.  mixing.py applies them.

For: the walk.  It knows nothing of flows that are written, nor of claims.
"""

from collections import namedtuple

from mixing import Mixing
from pipework import Pipework, vertex_of
from backflow import comes_back
from places import wrong_at
from pockets import thawed

# A discharge.  chain: [(pocket, pockets before it)] from the origin to the outlet; landing: pockets it comes into.
Running = namedtuple("Running", "discharge gas air chain landing")
# A pocket that is pressed on and lies on no chain.  chain: pockets before it; origins: what its source draws on;
# pressed: kPa; near: nothing off the chains is before it; behind: the dead legs that it is before; store: it only stores;
# stretches: of a store the pockets on the way to it; None where something of the source runs.
DeadLeg = namedtuple("DeadLeg", "pocket chain origins gas pressed near behind store stretches")
# What falls from a chamber.  chains: [([(pocket, pockets before it)], what it lands in)]; standing: [(pocket, pockets
# before it)] of what is reached and lies on none of them; outlets: {outlet: [(pocket, pockets before it)]}; into: the chambers and vessels it comes into.
Falling = namedtuple("Falling", "chamber chains standing outlets into")
# A store that nothing presses on and that has an outlet; chains as for what falls.
Pushing = namedtuple("Pushing", "body chains")


class Transport:
    def __init__(self, state):
        self.state = state
        self.layout = state.layout
        self.network = state.network
        self.pipework = Pipework(state.layout)
        self.graphs = {}                            # source -> Graph of what it presses on
        self.drawn = {}                             # lift -> Graph of what it draws on
        self.sources = {s: (start, fluid, pressure) for s, start, fluid, pressure in self.layout.sources_on()}
        self.suctions = {("lift", part): suction for part, suction, _, _, _ in self.layout.lifts}
        for source, (start, fluid, pressure) in self.sources.items():
            self.graphs[source] = self.pipework.pressed(start, self.is_gas(source), pressure)
        for source, suction in self.suctions.items():
            self.drawn[source] = self.pipework.drawn(suction)
        self.running = [self.find_running(d) for d in state.discharges]
        self.dead_legs = [leg for source in self.sources for leg in self.find_dead_legs(source)]
        self.falling = [f for f in (self.find_falling(c) for c in self.layout.containers) if f]
        self.pushing = [p for p in (self.find_pushing(body, port) for body, port in self.pipework.stores) if p]
        self.known = {}
        self.wrong_known = {}
        self.back_known = {}
        self.swept_known = {}

    def is_gas(self, source):
        return self.sources[source][1] in self.network.gases

    def pockets_of(self, vertices):
        return [v for v in self.network.pockets if v in vertices]

    def composition(self, origin, pockets):
        if origin[0] == "supply":
            return {fluid: 1 for fluid in self.supplied(origin[1]) if fluid not in self.network.gases}
        return pockets[origin[1]].most

    def supplied(self, part):
        return {fluid for owner, _, fluid, _ in self.layout.supplies if owner == part}

    # Chains

    def origin_vertices(self, origin):
        if origin[0] == "held":
            return [origin[1]]
        return [node for part, node, _, _ in self.layout.supplies if part == origin[1]]

    def drawn_chain(self, source, origin):
        """[(pocket, pockets before it)] from an origin to the lifting part and through its body.  Before and behind are
        exchanged: the graph is rooted at the part."""
        graph = self.drawn[source]
        found = []
        for vertex in self.origin_vertices(origin):
            if vertex in graph.vertices:
                chain = self.pockets_of(graph.chain(vertex))
                found += [(q, [p for p in chain if p != q and graph.is_before(q, p)]) for q in chain]
        everything = [q for q, _ in found]
        return found + [(body, everything) for body in self.network.body_of(source[1])]

    def own_body(self, source):
        """A supply comes through the body of its part."""
        return [(body, []) for body in self.network.body_of(source[1])]

    def pressed_chain(self, graph, vertex, before=()):
        """[(pocket, pockets before it)] from a graph's root to a vertex; `before` is before all of them."""
        chain = self.pockets_of(graph.chain(vertex))
        return [(q, list(before) + [p for p in chain if p != q and graph.is_before(p, q)]) for q in chain]

    def chain(self, discharge, vertex=None):
        """The chain of a discharge to its outlet, or to another vertex."""
        source, origin, outlet = discharge
        found = self.drawn_chain(source, origin) if source[0] == "lift" else self.own_body(source)
        graph = self.graphs[source]
        return found + self.pressed_chain(graph, vertex_of(outlet) if vertex is None else vertex,
                                          [q for q, _ in found])

    # The rules of this instant

    def find_running(self, discharge):
        source, _, outlet = discharge
        air = source in self.suctions and self.layout.drawn(self.suctions[source], self.state.liquid)[0]
        return Running(discharge, self.is_gas(source), air, self.chain(discharge), self.landing_pockets(outlet))

    def landing_pockets(self, outlet):
        """What an outlet lands in: a chamber or vessel; of a port, all that gravity reaches from there."""
        landing = self.layout.landing(outlet)
        if landing in self.network.container_index:
            return [landing]
        if self.layout.ends_a_fall(landing):
            return []
        graph, _, _ = self.pipework.from_landing(landing)
        return self.pockets_of(graph.vertices)

    def origins_of(self, source):
        if source[0] == "supply":
            return [source]
        _, origins = self.layout.drawn(self.suctions[source], self.state.liquid)
        return [o for o in origins if self.layout.may_give(o, self.state.liquid)]

    def find_dead_legs(self, source):
        graph = self.graphs[source]
        _, _, pressure = self.sources[source]
        on_chains = set()
        for _, _, outlet in (d for d in self.state.discharges if d[0] == source):
            on_chains |= graph.chain(vertex_of(outlet))
        dead = [q for q in self.pockets_of(graph.vertices) if q not in on_chains and q not in self.layout.vented]
        stores = dict(self.pipework.stores)
        origins = self.origins_of(source)
        drawn = [q for q, _ in self.own_body(source)]
        if source[0] == "lift":
            drawn = [q for o in origins for q, _ in self.drawn_chain(source, o)]
        for q in dead:
            chain = [p for p in self.pockets_of(graph.chain(q)) if p != q]
            behind = [r for r in dead if r != q and q in graph.chain(r)]
            yield DeadLeg(q, drawn + chain, origins, self.is_gas(source), pressure,
                          not any(p in dead for p in chain), behind, q in stores,
                          self.stretches(graph, chain) if q in stores and not on_chains else None)

    def stretches(self, graph, chain):
        """The pockets on the way to a store, what stands nearest first; those that nothing parts are together."""
        found = []
        for q in chain:
            together = [p for p in chain if graph.is_before(p, q) and graph.is_before(q, p)]
            farther = sum(graph.is_before(p, q) and not graph.is_before(q, p) for p in chain)
            if q not in [p for _, stretch in found for p in stretch]:
                found.append((farther, together))
        return [stretch for _, stretch in sorted(found, key=lambda one: -one[0])]

    def find_falling(self, chamber):
        if not chamber.owner or not self.state.may_hold(chamber.node):
            return None
        graph, outlets, entered = self.pipework.falling(chamber)
        to_outlets = {x: self.pressed_chain(graph, vertex_of(x)) for x in outlets}
        chains = [(chain, self.landing_pockets(x)) for x, chain in to_outlets.items()]
        chains += [(self.pressed_chain(graph, node), []) for node in entered & graph.vertices]
        passed = {q for chain, _ in chains for q, _ in chain} | {chamber.node}
        standing = [(q, [p for p in self.pockets_of(graph.chain(q)) if p != q])
                    for q in self.pockets_of(graph.vertices) if q not in passed]
        return Falling(chamber.node, chains, standing, to_outlets, entered)

    def find_pushing(self, body, port):
        if self.layout.under_pressure(port):
            return None
        outlets = self.layout.outlets_of(port, False, 0)
        if not outlets:
            return None
        graph = self.pipework.pressed(port, False, 0)
        return Pushing(body, [(self.pressed_chain(graph, vertex_of(x)), self.landing_pockets(x)) for x in outlets])

    # Applying them

    def after(self, contents, history, limits=frozenset()):
        """(contents after all that runs at this instant has been applied until nothing changes, what falls into what,
        what runs over); `history`: what ran and fell before, see observations.py; `limits`: see mixing.py, as pairs."""
        key = contents, frozenset(key for key, _ in history), limits
        result = self.known.get(key)
        if result is None:
            result = self.known[key] = Mixing(self, contents, key[1], dict(limits)).result()
        return result

    def wrong(self, contents):
        """What is brought to the wrong place at this instant."""
        result = self.wrong_known.get(contents)
        if result is None:
            result = self.wrong_known[contents] = frozenset(wrong_at(self, thawed(contents, self.network.pockets)))
        return result

    def coming_back(self, contents):
        """What can come back to a supply of drinking water at this instant."""
        result = self.back_known.get(contents)
        if result is None:
            result = self.back_known[contents] = comes_back(self, contents)
        return result

    # Swept

    def swept(self, target):
        """The pockets that every way passes along the arrows from the origins of each source to one of these vertices; of
        a source of gas, every way to any opening."""
        key = frozenset(target)
        if key not in self.swept_known:
            self.swept_known[key] = self.find_swept(key)
        return self.swept_known[key]

    def find_swept(self, target):
        reaching = [s for s, graph in self.graphs.items() if not graph.vertices.isdisjoint(target) and self.origins_of(s)]
        if not reaching:
            return frozenset()
        return frozenset(v for v in self.network.pockets if all(self.passes(v, s, target) for s in reaching))

    def every_way_meets(self, source, seen, target):
        """Whether every way from where a source presses to one of the targets passes one of these vertices."""
        graph = self.graphs[source]
        found = {graph.root} - seen
        waiting = list(found)
        while waiting:
            for other in graph.onward[waiting.pop()] - seen - found:
                found.add(other)
                waiting.append(other)
        return found.isdisjoint(target)

    def passes(self, pocket, source, target):
        start, _, pressure = self.sources[source]
        if self.is_gas(source):
            target = self.pipework.gas_openings(start, pressure)
        if self.graphs[source].every_way_passes(pocket, [start], target):
            return True
        if source not in self.suctions or pocket in self.network.body_of(source[1]):
            return pocket in self.network.body_of(source[1])
        starts = [v for o in self.origins_of(source) for v in self.origin_vertices(o)]
        return self.drawn[source].every_way_passes(pocket, starts, [self.suctions[source]])
