"""What is so at one instant in one configuration: discharges, gravity flows, faults.

For: the walk, which compares one instant with the next.  It knows nothing of what is declared.
"""

from expressions import evaluate
from layout import Layout


class State:
    """One configuration with the liquids of its containers: ((fluids it may hold, whether surely), ...)."""

    def __init__(self, network, layout, liquid):
        self.network = network
        self.layout = layout
        self.liquid = liquid
        self.discharges = frozenset(self.find_discharges())     # (source, origin, outlet)
        self.gravities = frozenset(self.find_gravities())       # (origin, outlet)
        self.faults = frozenset(self.find_faults())             # (slug, ...)

    def holds(self, e):
        return evaluate(e, self.network, self.layout, self.liquid)

    def may_hold(self, node):
        return self.liquid[self.network.container_index[node]][0]

    def fluids_of(self, origin):
        """The liquids that come from an origin."""
        if origin[0] == "held":
            return self.may_hold(origin[1])
        fluids = {fluid for part, _, fluid, _ in self.layout.supplies if part == origin[1]}
        return frozenset(fluids - self.network.gases)

    def find_discharges(self):
        layout = self.layout
        for part, node, fluid, pressure in layout.supplies:
            for outlet in layout.outlets_of(node, fluid in self.network.gases, pressure):
                yield ("supply", part), ("supply", part), outlet
        for part, suction, delivery, pressure, _ in layout.lifts:
            _, origins = layout.drawn(suction, self.liquid)
            for outlet in layout.outlets_of(delivery, False, pressure):
                for origin in origins:
                    if layout.may_give(origin, self.liquid):
                        yield ("lift", part), origin, outlet

    def find_gravities(self):
        for chamber in self.layout.containers:
            if not chamber.owner or not self.may_hold(chamber.node):
                continue
            height = self.network.instances[chamber.owner].height
            for outlet in self.layout.falls_from(chamber):
                other = self.layout.height_of(outlet)
                if height is None or other is None or other < height:
                    yield ("held", chamber.node), outlet

    def find_faults(self):
        layout = self.layout
        for part, suction, delivery, pressure, own_switch in layout.lifts:
            if not own_switch and not layout.outlets_of(delivery, False, pressure):
                yield ("dead-head", part)
            if not self.network.instances[part].kind.runs_dry and not layout.reaches_liquid(suction, self.liquid):
                yield ("dry-run", part)
        for node, rating in self.ratings():
            for source in layout.exceeds(node, rating):
                yield ("over-pressure", source, node)
        for path, instance in self.network.instances.items():
            if not layout.there[path]:
                continue
            for number, (when, position, needs) in enumerate(instance.guards):
                if when == "while" and layout.sigma[self.network.index[path]] == position and not self.holds(needs):
                    yield ("guard", path, number)

    def ratings(self):
        """Each node with its rating: the least of its part's and of the pipes that meet there."""
        network = self.network
        rated = {}

        def rate(node, rating):
            if rating is not None:
                rated[node] = min(rating, rated.get(node, rating))

        for node, path in network.owner.items():
            if self.layout.there[path]:
                rate(node, network.instances[path].rated)
        for run in network.system.runs:
            if run.b in self.layout.both[run.a]:
                rate(run.a, network.system.pipes[run.pipe])
                rate(run.b, network.system.pipes[run.pipe])
        return list(rated.items())


class States:
    """The states of a network, each worked out once."""

    def __init__(self, network):
        self.network = network
        self.layouts = {}
        self.states = {}

    def at(self, sigma, liquid):
        state = self.states.get((sigma, liquid))
        if state is None:
            layout = self.layouts.get(sigma)
            if layout is None:
                layout = self.layouts[sigma] = Layout(self.network, sigma)
            state = self.states[sigma, liquid] = State(self.network, layout, liquid)
        return state
