"""What an expression says in one configuration.

For: ways with a condition, guards, contracts and `verify`.  What is said of a part that is not there counts as true,
one comparison at a time; `not`, `and`, `or` and `implies` then join the truth values as usual.
"""

import model


def evaluate(e, network, layout, liquid, fluids=None, plausible=False, hot=frozenset(), charge=None):
    """Whether `e` holds.  `liquid`: ((whether it may hold liquid, whether surely), ...) and `fluids`: (which, ...) by
    container; they may be None where contents and suction are not asked about.  `hot`: which chambers are.
    `charge`: the nodes charged with liquid, with gas.  With `plausible`, of contents and heat whether it could be seen: whether the contrary is not sure."""
    form = e[0]

    def again(inner):
        return evaluate(inner, network, layout, liquid, fluids, plausible, hot, charge)

    if form == "true":
        return True
    if form == "is":
        return all(stands(name, e[2], network, layout) for name in model.spread(network.system, e[1]))
    if form == "is not":
        return all(not network.is_there(name, layout.sigma) or other_end_missing(e[2], network, layout)
                   or not stands(name, e[2], network, layout) for name in model.spread(network.system, e[1]))
    if form == "lineup":
        return all(stands(name, position, network, layout) for name, position in lineup(network.system, e[1], e[2]))
    if form == "no pressure":
        under = charge[0] | charge[1]
        return not under if not e[1] else not any(n in under and network.is_there(n, layout.sigma) for n in e[1])
    if form == "below":
        return not network.is_there(e[1], layout.sigma) or not layout.presses_at_least(e[1], e[2])
    if form == "reaches liquid":
        return not network.is_there(e[1], layout.sigma) or layout.reaches_liquid(e[1], liquid)
    if form == "cool":
        node = container_named(network, e[1])
        return not network.is_there(node, layout.sigma) or node not in (layout.heated() if plausible else hot)
    if form in ("holds", "empty"):
        node = container_named(network, e[1])
        if not network.is_there(node, layout.sigma):
            return True
        i = network.container_index[node]
        may, surely = liquid[i]
        if form == "empty":
            return not (surely if plausible else may)
        if plausible:
            return may and (e[2] == "liquid" or e[2] in fluids[i])
        return surely and (e[2] == "liquid" or fluids[i] == {e[2]})
    if form == "not":
        return not again(e[1])
    if form == "and":
        return again(e[1]) and again(e[2])
    if form == "or":
        return again(e[1]) or again(e[2])
    if form == "implies":
        return not again(e[1]) or again(e[2])
    raise ValueError(form)


def other_end_missing(position, network, layout):
    """Whether the position is `coupled to`, `under` something that is not there."""
    return isinstance(position, tuple) and not network.is_there(position[1], layout.sigma)


def stands(name, position, network, layout):
    """Whether a part, cover, end, dial or vessel stands so; true of what is not there."""
    sigma = layout.sigma
    if not network.is_there(name, sigma) or other_end_missing(position, network, layout):
        return True
    value = sigma[network.index[name]]
    if position == "uncoupled":
        return not (isinstance(value, tuple) and value[0] == "coupled")
    if isinstance(position, tuple) and position[0] == "under" and isinstance(value, tuple):
        return node_place(network, value[1]) == node_place(network, position[1])
    return value == position


def node_place(network, node):
    """A vessel stands under a part or a free end, whichever of the part's nodes is named."""
    return network.owner_of(node) or node


def lineup(system, name, left_out=()):
    """The entries of a line-up, groups written out, without what is left out."""
    entries = {}
    for target, position in system.lineups[name]:
        for one in model.spread(system, [target]):
            entries[one] = position
    skipped = set(model.spread(system, left_out))
    return [(one, position) for one, position in entries.items() if one not in skipped]


def container_named(network, name):
    """The node of the chamber or vessel that a name means: itself, or the one chamber of a part."""
    if name in network.container_index:
        return name
    held = [c.node for c in network.containers if c.owner == name]
    if len(held) != 1:
        raise ValueError(f"{name} has {len(held)} chambers")
    return held[0]


def conjuncts(e):
    """The terms that `and` joins at the top."""
    if e[0] == "and":
        return conjuncts(e[1]) + conjuncts(e[2])
    return [e]


def looked_at(e, network):
    """The parts, dials, covers and ends at whose standing one looks; not the contents and pressures."""
    form = e[0]
    if form in ("is", "is not"):
        return set(model.spread(network.system, e[1]))
    if form == "lineup":
        return {one for one, _ in lineup(network.system, e[1], e[2])}
    if form in ("no pressure", "below", "reaches liquid", "holds", "empty", "cool", "true"):
        return set()
    return set().union(*(looked_at(x, network) for x in e[1:]))


def pressures_in(e):
    """The pressures that an expression compares with."""
    form = e[0]
    if form in ("is", "is not"):
        return {e[2]} if isinstance(e[2], (int, float)) else set()
    if form == "below":
        return {e[2]}
    if form in ("not", "and", "or", "implies"):
        return set().union(*(pressures_in(x) for x in e[1:]))
    return set()
