"""What statements do to contents.

Contents are kept in two pieces.  Per trajectory ((whether it may hold liquid, whether surely), ...) by container; and,
once for all trajectories, (which liquids it may hold, ...) by container.

For: the walk.  It knows nothing of findings.
"""

from expressions import conjuncts, container_named
from naming import falls_out, is_within, names_outlet
from observations import has_drawn_empty

EMPTY = (False, False)


def without_contents(e):
    """The terms of an expression that configurations are asked about."""
    return [term for term in conjuncts(e) if term[0] not in ("holds", "empty", "cool")]


def contents_in(e):
    """The terms of an expression that are taken over as what contents are."""
    return [term for term in conjuncts(e) if term[0] in ("holds", "empty")]


class Contents:
    """Changes contents of some trajectories; `fluids` is the list for all of them as it was before and is after."""

    def __init__(self, network, fluids):
        self.network = network
        self.fluids = list(fluids)

    def said(self, term, liquid):
        """`liquid` after a term of a `requires` or `verify` was taken over."""
        i = self.network.container_index[container_named(self.network, term[1])]
        return put(liquid, i, EMPTY if term[0] == "empty" else (True, True))

    def said_of_all(self, term, everywhere):
        """The same for the list: with `everywhere`, in all trajectories nothing but the fluid named is in it."""
        i = self.network.container_index[container_named(self.network, term[1])]
        if term[0] == "holds" and term[2] != "liquid":
            self.fluids[i] = frozenset([term[2]]) if everywhere else self.fluids[i] | {term[2]}

    def settled(self, trajectories_liquid):
        """Forgets the liquids of what holds nothing in any trajectory."""
        for i in range(len(self.fluids)):
            if not any(liquid[i][0] for liquid in trajectories_liquid):
                self.fluids[i] = frozenset()

    def named_fluids(self, flow):
        """The liquids that come from the origins a flow names."""
        network = self.network
        found = set()
        for i, container in zip(range(len(network.containers)), network.containers):
            if any(is_within(container.node, s, network) for s in flow.sources):
                found |= self.fluids[i]
        for way in network.ways:
            if way.form == "supplies" and flow.form != "drain":
                if any(is_within(way.owner, s, network) for s in flow.sources):
                    found.add(way.fluid)
        return found - network.gases

    def after_until(self, flow, state, brought):
        """The liquid of a trajectory after the `until` of a flow or drain that brings the fluids `brought`."""
        network, layout = self.network, state.layout
        liquid = state.liquid
        if brought:
            for outlet in network.all_outlets:
                if names_outlet(flow, outlet, network) and network.is_there(outlet[1], layout.sigma):
                    landing = layout.landing(outlet)
                    for node in layout.comes_into(landing):
                        i = network.container_index[node]
                        full = flow.form == "flow" and flow.until == "full" and node == landing
                        liquid = put(liquid, i, (True, liquid[i][1] or full))
                        self.fluids[i] |= brought
        if flow.form == "drain" or flow.until in ("stops", "only air"):
            for i, container in zip(range(len(liquid)), network.containers):
                if any(is_within(container.node, s, network) for s in flow.sources) and \
                        (flow.form == "drain" or has_drawn_empty(flow, state.transport(), container.node)):
                    liquid = put(liquid, i, EMPTY)
        if flow.form == "drain":                    # what falls to where nothing falls any more has run out too
            for chamber in layout.containers:
                if chamber.owner and any(falls_out(state, flow, chamber, o) for o in flow.outlets
                                         if network.is_there(o, layout.sigma)):
                    liquid = put(liquid, network.container_index[chamber.node], EMPTY)
        return liquid

    def after_pour(self, liquid, vessel, place):
        """The liquid of a trajectory after a vessel was emptied into a place, a chamber or another vessel."""
        i = self.network.container_index[vessel]
        if place not in self.network.places and liquid[i][0]:
            j = self.network.container_index[container_named(self.network, place)]
            liquid = put(liquid, j, (True, liquid[j][1]))
            self.fluids[j] |= self.fluids[i]
        return put(liquid, i, EMPTY)


def put(liquid, i, what):
    return liquid[:i] + (what,) + liquid[i + 1:]
