"""What reaches what by the system alone, whatever stands how: circuits, the start, and the drinking-water system.

For: the walk.  It knows nothing of one configuration but which options it has.
"""

from collections import defaultdict

from expressions import lineup
from pockets import EMPTIED, Pocket


class Reach:
    """Arrows between nodes, runs and bodies of all that the options leave in.

    `stands(part)`: the positions in which a part may stand, None for any.  `may_couple(a, b)`: whether two ends may be
    coupled.  Falls lead into ports only."""

    def __init__(self, network, sigma, stands, may_couple):
        self.network = network
        self.arrows = defaultdict(set)
        self.supplies = []                          # (node, liquid) of the supplies that may run
        self.all_supplies = []                      # and of those that may not
        for way in network.ways:
            positions = stands(way.owner)
            if not network.is_there(way.owner, sigma):
                continue
            if way.form == "supplies" and way.fluid not in network.gases:
                self.all_supplies.append((way.a, way.fluid))
            if way.form not in ("lifts", "supplies", "stores") and way.position is not None and positions is not None and way.position not in positions:
                continue
            self.add(way)
            may_run = positions is None or way.position is None or way.position in positions
            if way.form == "supplies" and way.fluid not in network.gases and may_run:
                self.supplies.append((way.a, way.fluid))
        for i, run in zip(range(len(network.system.runs)), network.system.runs):
            if network.run_is_there(run, sigma):
                self.path(run.a, ("run", i), run.b)
                self.path(run.b, ("run", i), run.a)
        ends = [e for e in network.ends if network.is_there(e, sigma)]
        for a in ends:
            for b in ends:
                if a != b and network.ends[a][0].fit == network.ends[b][0].fit and may_couple(a, b):
                    self.path(a, b)

    def path(self, *vertices):
        for a, b in zip(vertices, vertices[1:]):
            self.arrows[a].add(b)

    def add(self, way):
        network = self.network
        through = () if way.joins else network.body_of(way.owner)
        if way.form == "both":
            self.path(way.a, *through, way.b)
            self.path(way.b, *reversed(through), way.a)
        elif way.form in ("forward", "lifts"):
            self.path(way.a, *through, way.b)
        elif way.form == "fall":
            landing = network.falls_into(("fall", way.owner, way.b))
            self.path(way.a, *through, *([landing] if self.is_port(landing) else []))
        elif way.form in ("breach", "vent"):
            self.path(way.a, *through)
        elif way.form == "stores":
            self.path(way.a, *through)
        elif way.form == "supplies":
            self.path(way.a, *through)

    def is_port(self, landing):
        return landing in self.network.owner and landing not in self.network.container_index

    def reached(self, start, stops=lambda vertex: False):
        """The vertices to which the arrows lead from `start`; those that `stops` are not entered."""
        found = {start}
        waiting = [start]
        while waiting:
            for other in self.arrows[waiting.pop()]:
                if other not in found and not stops(other):
                    found.add(other)
                    waiting.append(other)
        return found

    def liquids(self):
        """{vertex: the liquids that reach it} from supplies and from the own fluids of chambers that are no vessels."""
        found = defaultdict(set)
        origins = list(self.supplies)
        origins += [(c.node, fluid) for c in self.network.containers if c.owner for fluid in c.fluids]
        for node, fluid in origins:
            for vertex in self.reached(node):
                found[vertex].add(fluid)
        for path, instance in self.network.instances.items():
            if instance.holds:                      # its body has that instead
                found["body", path] = {instance.holds} - self.network.gases
        return found


def circuits(network, sigma):
    """{pocket: its liquids}, whatever stands how, what is coupled too."""
    liquids = Reach(network, sigma, lambda part: None, lambda a, b: True).liquids()
    return {pocket: frozenset(liquids[pocket]) for pocket in network.pockets}


def at_the_start(network, sigma):
    """{name: Pocket} of everything, before a `requires` says otherwise."""
    found = {}
    known = circuits(network, sigma)
    stores = {w.owner for w in network.ways if w.form == "stores"}
    for name in network.pockets:
        circuit = {liquid: 1.0 for liquid in known[name]}
        if name not in network.container_index:
            if circuit:
                full = not (name[0] == "body" and name[1] in stores)
                found[name] = Pocket(gas=0.0, full=full, most=circuit)
            else:
                found[name] = Pocket(gas=1.0)
            continue
        container = network.containers[network.container_index[name]]
        own = {liquid: 1.0 for liquid in container.fluids}
        if container.owner:
            found[name] = Pocket(most=own or circuit) if own or circuit else Pocket(gas=1.0)
        elif own:
            found[name] = Pocket(full=True, most=own, whole=True)
        else:
            found[name] = Pocket(gas=1.0)
    return found


def said(pocket, term):
    """A pocket after a `requires` or `verify` says what a chamber or vessel holds."""
    if term[0] == "empty":
        pocket.emptied()
        pocket.gas = EMPTIED
    elif term[2] != "liquid":
        pocket.becomes({term[2]: 1.0})
        pocket.taken = {}


# The drinking-water system


def drinking_system(network, sigma):
    """{pocket of the drinking-water system: the category that is still fit there}."""
    system = network.system
    entries = dict(lineup(system, system.for_use))
    with_outlet = {w.owner for w in network.ways if w.form in ("fall", "breach")}

    def stands(part):
        return None if part in with_outlet or part not in entries else (entries[part],)

    def may_couple(a, b):
        return entries.get(a, ("coupled", b)) == ("coupled", b) and entries.get(b, ("coupled", a)) == ("coupled", a)

    reach = Reach(network, sigma, stands, may_couple)
    liquids = reach.liquids()
    category = network.category

    def is_unfit(vertex):
        return vertex in network.litres and any(category[f] >= 3 for f in own_or(vertex))

    def own_or(vertex):
        if vertex in network.container_index:
            return network.containers[network.container_index[vertex]].fluids or liquids[vertex]
        return liquids[vertex]

    origins = [node for node, fluid in reach.all_supplies if category[fluid] == 1]
    origins += [c.node for c in network.containers if c.owner and any(category[f] == 1 for f in c.fluids)]
    found = set()
    for node in origins:
        if network.is_there(node, sigma):
            found |= reach.reached(node, is_unfit)
    circuit = circuits(network, sigma)
    return {pocket: max([1] + [category[f] for f in circuit[pocket] if category[f] == 2])
            for pocket in network.pockets
            if pocket in found and not (pocket in network.container_index and not
                                        network.containers[network.container_index[pocket]].owner)}
