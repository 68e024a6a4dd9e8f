"""What is still under pressure once nothing presses on it.

The charge of a trajectory is (nodes charged with liquid, nodes charged with gas), as frozensets; what a running source
presses on is among them.

For: the walk.  It knows nothing of what opens a node, or of what is refused.
"""

from expressions import conjuncts
from layout import Layout
from naming import names_outlet


def after_event(charge, layout, named=None):
    """The charge after an event.  `named` is the flow or drain whose `until` it is, where it acts."""
    liquid, gas = charge
    pressing = pressed(layout, False) | pressed(layout, True)
    if named is not None:
        gas = gas - {n for n in gas if way_out(layout, n, True, pressing, lambda x, n: names_outlet(named, x, layout.network))}
    stores = {n for n in layout.stores if n in pressing}
    gas = pressed(layout, True) | reached(layout, set(gas) | stores, True)
    gas = {n for n in gas if n in pressing or not way_out(layout, n, True, pressing, lambda x, n: stands_open(layout, x, n))}
    liquid = reached(layout, set(liquid) | layout.heated(), False)
    liquid = {n for n in liquid if n not in gas and not way_out(layout, n, False, pressing | gas, lambda x, n: True)}
    return frozenset(liquid | pressed(layout, False)), frozenset(gas)


def at_start(network, layout):
    """What may be charged before anyone comes."""
    free = FreeLayout(network, layout.sigma)
    could = pressed(free, False) | pressed(free, True)
    gas = pressed(free, True) | reached(free, {n for n in free.stores if n in could}, True)
    liquid = pressed(free, False) | reached(free, free.heated(), False)
    pressing = pressed(layout, False) | pressed(layout, True)
    gas = {n for n in gas if n not in layout.vented and not way_out(layout, n, True, pressing, lambda x, n: True)}
    gas |= pressed(layout, True)
    liquid = {n for n in liquid if n not in layout.vented and n not in gas
              and not way_out(layout, n, False, pressing | gas, lambda x, n: True)}
    return frozenset(liquid | pressed(layout, False)), frozenset(gas)


def seen_without(charge, layout, e):
    """The charge after a `requires` or `verify` has said outright that there is no pressure somewhere."""
    network = layout.network
    for term in conjuncts(e):
        if term[0] != "no pressure":
            continue
        liquid, gas = charge if term[1] else ((), ())
        for node in term[1]:
            if network.is_there(node, layout.sigma):
                liquid = [n for n in liquid if node not in reached(layout, {n}, False)]
                gas = [n for n in gas if node not in reached(layout, {n}, True)]
        charge = frozenset(liquid) | pressed(layout, False), frozenset(gas) | pressed(layout, True)
    return charge


def charged(charge):
    return charge[0] | charge[1]


def pressed(layout, gas):
    """What a running source of liquid, or of gas, presses on."""
    found = set()
    for _, start, fluid, _ in layout.sources_on():
        if (fluid in layout.network.gases) == gas:
            found |= layout.pressurised(start, gas)
    return found


def reached(layout, starts, gas):
    """The starts and whatever liquid or gas would reach from them, as pressure is."""
    return set().union(*(layout.pressurised(start, gas) for start in starts))


def way_out(layout, node, gas, closed, is_meant):
    """Whether a node has a way out over nothing that is in `closed`, to an outlet that is meant."""
    if node in closed or node in layout.vented:
        return False
    seen = {node}
    waiting = [node]
    while waiting:
        here = waiting.pop()
        if any(is_meant(x, here) for x in layout.outlets_beside(here)):
            return True
        for other in layout.pressed_from(here, gas, None):
            if other not in seen and other not in closed and other not in layout.vented:
                seen.add(other)
                waiting.append(other)
    return False


def stands_open(layout, outlet, node):
    """Whether no hand shuts the outlet at this node."""
    word = outlet[0]
    if word == "end":
        return True
    if word == "fill":
        return outlet[1] in layout.network.vessels or outlet[1] in layout.always_vented
    return (outlet[1], node, outlet[2] if word == "fall" else ()) in layout.standing_open


def opened(before, after):
    """The nodes that a move opens, from the layouts before and after it: where a breach is active after it and was not
    before; the ends that are open after it and were coupled or capped."""
    nodes = {node for _, node in after.breaches} - {node for _, node in before.breaches}
    index = before.network.index
    for end in after.open_ends - before.open_ends:
        value = before.sigma[index[end]]
        if value == "capped" or value[0] == "coupled":
            nodes.add(end)
    return nodes


class FreeLayout(Layout):
    """Every way that could be active with parts, dials and covers in any position; ends and vessels as they are."""

    def takes(self, way):
        return all(could(c, True, self) for c in way.conditions)

    def pressure_of(self, way):
        return None if isinstance(way.pressure, tuple) else way.pressure

    def vent_is_sure(self, way):
        return way.position is None and not any(could(c, False, self) for c in way.conditions)


def could(e, wanted, layout):
    """Whether an expression could be true (or false) with parts, dials and covers in any position."""
    form = e[0]
    if form == "true":
        return wanted
    if form in ("is", "is not"):
        each = [one_could(name, e[2], wanted == (form == "is"), layout) for name in e[1]]
        return all(each) if wanted else any(each)
    if form == "not":
        return could(e[1], not wanted, layout)
    if form == "implies":
        return could(("or", ("not", e[1]), e[2]), wanted, layout)
    both = could(e[1], wanted, layout), could(e[2], wanted, layout)
    return all(both) if (form == "and") == wanted else any(both)


def one_could(name, position, wanted, layout):
    """Of one comparison `name is position`; what is not there stands any way one asks."""
    if not layout.network.is_there(name, layout.sigma):
        return wanted
    if layout.network.sort[name] in ("part", "dial", "cover"):
        return True
    return (layout.sigma[layout.network.index[name]] == position) == wanted
