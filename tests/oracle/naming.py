"""Which origins and outlets a flow or drain names, and whether it runs.

For: coverage and the obligations on flows.  Origins are ("supply", PART) and ("held", CHAMBER or VESSEL); outlets are
those of layout.py.
"""


def is_within(name, named, network):
    """Whether `name`, a part, node or end, is `named` or belongs to the part `named`."""
    return name == named or name.startswith(named + ".") and named in network.instances


def names_origin(flow, origin, network):
    return any(is_within(origin[1], s, network) for s in flow.sources)


def outlet_of(named, outlet, network):
    """Whether the outlet is one of those of the thing named: a part has all its outlets, those of its inner parts, its
    open ends and its vented chambers."""
    return is_within(outlet[1], named, network)


def names_outlet(flow, outlet, network):
    return any(outlet_of(o, outlet, network) for o in flow.outlets)


def names(flow, origin, outlet, network):
    return names_origin(flow, origin, network) and names_outlet(flow, outlet, network)


def runs(flow, state):
    """Whether anything that the flow or drain names runs."""
    if flow.form == "drain":
        return any(names(flow, c, x, state.network) for c, x in state.gravities)
    return any(names(flow, o, x, state.network) for _, o, x in state.discharges)


def is_blocked(flow, state):
    """Whether, at its `until`, something named does not run, though it is there and may be asked to."""
    network, sigma = state.network, state.layout.sigma
    there = [s for s in flow.sources if s != "pipes" and network.is_there(s, sigma)]
    if not there:
        return False
    outlets = [o for o in flow.outlets if network.is_there(o, sigma)]
    if flow.form == "drain":
        chambers = [c for c in state.layout.containers if c.owner and names_origin(flow, ("held", c.node), network)]
        return not all(any(falls_out(state, c, o) for c in chambers) for o in outlets)
    return not all(any(names_origin(flow, origin, network) and outlet_of(o, outlet, network)
                       for _, origin, outlet in state.discharges) for o in outlets)


def falls_out(state, chamber, named):
    """Whether what a chamber holds can fall out of an outlet of the thing named, with air coming in elsewhere."""
    layout = state.layout
    height = state.network.instances[chamber.owner].height
    for outlet in layout.falls_from(chamber):
        other = layout.height_of(outlet)
        too_high = height is not None and other is not None and other > height
        if outlet_of(named, outlet, state.network) and not too_high and layout.air_inlet(chamber, outlet):
            return True
    return False
