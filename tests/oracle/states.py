"""What is so at one instant in one configuration: discharges, gravity flows, faults.

For: the walk, which compares one instant with the next.  It knows nothing of what is declared.
"""

from expressions import evaluate
from layout import Layout
from transport import Transport


class State:
    """One configuration with ((whether it may hold liquid, whether surely), ...) and (which liquids, ...) by container,
    and with the chambers that are hot and the nodes charged with (liquid, gas)."""

    def __init__(self, network, layout, liquid, fluids, hot, charge):
        self.network = network
        self.layout = layout
        self.liquid = liquid
        self.fluids = fluids
        self.hot = hot
        self.charge = charge
        self.discharges = frozenset(self.find_discharges())     # (source, origin, outlet)
        self.gravities = frozenset(self.find_gravities())       # (origin, outlet)
        self.inflows = frozenset(self.find_inflows())           # (origin, container that its liquid comes into)
        self.scalding = frozenset(self.find_scalding())         # (hot chamber, outlet at which it comes out)
        self.faults = frozenset(self.find_faults())             # (slug, ...)
        self.found_transport = None

    def holds(self, e, plausible=False):
        return evaluate(e, self.network, self.layout, self.liquid, self.fluids, plausible, self.hot,
                        self.charge)

    def transport(self):
        """What runs, presses and falls here does to contents."""
        if self.found_transport is None:
            self.found_transport = Transport(self)
        return self.found_transport

    def may_hold(self, node):
        return self.liquid[self.network.container_index[node]][0]

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
            if chamber.owner and self.may_hold(chamber.node):
                for outlet in self.layout.falls_from(chamber)[0]:
                    yield ("held", chamber.node), outlet

    def find_inflows(self):
        """What runs brings liquid to where it lands and into every closed chamber it presses on; what falls brings it
        into every chamber on its way."""
        layout = self.layout
        starts = {source: (start, fluid) for source, start, fluid, _ in layout.sources_on()}
        for source, origin, outlet in self.discharges:
            start, fluid = starts[source]
            if fluid in self.network.gases:
                continue
            pressed = layout.pressurised(start, False) & set(layout.by_node)
            for node in pressed | layout.comes_into(layout.landing(outlet)):
                if origin != ("held", node):
                    yield origin, node
        for chamber in layout.containers:
            if chamber.owner and self.may_hold(chamber.node):
                for node in layout.falls_from(chamber)[1]:
                    yield ("held", chamber.node), node

    def find_scalding(self):
        for chamber in self.layout.containers:
            if chamber.node in self.hot and self.may_hold(chamber.node):
                for outlet in self.layout.opened_by_hand(chamber) | self.layout.falls_from(chamber)[0]:
                    yield chamber.node, outlet

    def find_faults(self):
        layout = self.layout
        for part, chamber in layout.heats:
            may, surely = self.liquid[self.network.container_index[chamber]]
            if not surely:
                yield ("dry-fire", part, chamber, "perhaps")
            if not may:
                yield ("dry-fire", part, chamber, "empty")
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

    def layout(self, sigma):
        layout = self.layouts.get(sigma)
        if layout is None:
            layout = self.layouts[sigma] = Layout(self.network, sigma)
        return layout

    def at(self, sigma, liquid, fluids, hot, charge):
        state = self.states.get((sigma, liquid, fluids, hot, charge))
        if state is None:
            layout = self.layout(sigma)
            state = self.states[sigma, liquid, fluids, hot, charge] = State(self.network, layout, liquid, fluids, hot, charge)
        return state
