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
    ends and its vented chambers; a chamber that is filled has those that fall into it."""
    if named in network.container_index:
        return outlet == ("fill", named) or network.falls_into(outlet) == named
    return is_within(outlet[1], named, network)


def names_outlet(flow, outlet, network):
    return any(outlet_of(o, outlet, network) for o in flow.outlets)


def names(flow, origin, outlet, network):
    """Whether a flow or a drain names this origin and this outlet."""
    return names_origin(flow, origin, network) and names_outlet(flow, outlet, network)


def declares_fall(flow, chamber, outlet, network):
    """Whether it declares what falls: a drain that names both, or a flow that names the outlet."""
    return names_outlet(flow, outlet, network) and (flow.form != "drain" or names_origin(flow, chamber, network))


def names_all_of(outer, inner, network):
    """Whether one flow names everything that another names."""
    def origins(flow):
        return {o for o in network.all_origins if names_origin(flow, o, network)}

    def outlets(flow):
        return {x for x in network.all_outlets if names_outlet(flow, x, network)}

    return origins(inner) <= origins(outer) and outlets(inner) <= outlets(outer)


def runs(flow, state):
    """Whether anything that the flow or drain names runs."""
    if flow.form == "drain":
        return any(names(flow, c, x, state.network) for c, x in state.gravities)
    return any(names(flow, o, x, state.network) for _, o, x in state.discharges)


def some_there(names_, network, sigma):
    return any(network.is_there(n, sigma) for n in names_ if n != "pipes")


def is_blocked(flow, state):
    """Whether, at its `until`, something named does not run: an outlet that is there though some origin is, or a chamber
    of a drain."""
    network, sigma = state.network, state.layout.sigma
    origins = [s for s in flow.sources if network.is_there(s, sigma)]
    outlets = [o for o in flow.outlets if network.is_there(o, sigma)]
    if not origins:
        return False
    if flow.form == "drain":
        chambers = [c for c in state.layout.containers if c.owner and network.is_there(c.node, sigma)
                    and any(is_within(c.node, s, network) for s in origins)]
        return not all(any(falls_out(state, flow, c, o) for c in chambers)
                       or "pipes" in flow.sources and runs_out_of_pipes(state, flow, o) for o in outlets) or \
            not all(any(falls_out(state, flow, c, o) for o in outlets) for c in chambers)
    running = {outlet for _, origin, outlet in state.discharges if names_origin(flow, origin, network)}
    if any(w.form == "supplies" and w.fluid in network.gases and any(is_within(w.owner, s, network) for s in flow.sources)
           for w in network.ways):
        running |= {x for node in state.charge[1] for x in state.layout.outlets_beside(node)}
    return not all(any(outlet_of(o, outlet, network) for outlet in running) for o in outlets)


def drained_into(flow, state):
    """The chambers that the flow fills."""
    return {x[1] for x in state.network.all_outlets if x[0] == "fill" and names_outlet(flow, x, state.network)}


def gives_no_air_to(flow, state):
    """A function that tells of an outlet whether it lets in no air while the flow drains: named, or lower than all named."""
    network = state.network
    heights = [state.layout.height_of(x) for x in network.all_outlets if names_outlet(flow, x, network)]
    lowest = min(heights) if None not in heights else None

    def gives_no_air(x):
        height = state.layout.height_of(x)
        return names_outlet(flow, x, network) or lowest is not None and height is not None and height < lowest

    return gives_no_air


def runs_out_of_pipes(state, flow, named):
    """Whether the pipes can run out of an outlet of the thing named, with air coming in elsewhere."""
    layout = state.layout
    inner = [node for part, node, target, above in layout.falls
             if above is None and outlet_of(named, ("fall", part, target), state.network)]
    inner += [node for part, node in layout.breaches if outlet_of(named, ("breach", part, node), state.network)]
    inner += [name for name in layout.open_ends if outlet_of(named, ("end", name), state.network)]
    charged = any(outlet_of(named, x, state.network) for node in state.charge[1] for x in layout.outlets_beside(node))
    return charged or any(layout.air_comes_to(node, gives_no_air_to(flow, state)) for node in inner)


def falls_out(state, flow, chamber, named):
    """Whether what a chamber holds can fall out of an outlet of the thing named, with air coming in elsewhere."""
    outlets, _ = state.layout.falls_from(chamber)
    return any(outlet_of(named, x, state.network) for x in outlets) and \
        state.layout.air_inlet(chamber, gives_no_air_to(flow, state), drained_into(flow, state) - {chamber.node})
