"""Which chambers are hot, and how long one has waited since they were heated.

The heat of a trajectory is a frozenset of (chamber, minutes waited), one pair for each chamber that is hot.

For: the walk.  It knows nothing of what opens a chamber, or of what is refused.
"""

from expressions import conjuncts, container_named


def at_start(network):
    """Whatever can be heated is hot."""
    return frozenset((way.a, 0) for way in network.ways if way.form == "heats")


def hot(heat):
    return frozenset(chamber for chamber, _ in heat)


def heated_now(heat, layout):
    """After an event: what is heated is hot, and no time has passed."""
    heated = layout.heated()
    return frozenset(pair for pair in heat if pair[0] not in heated) | frozenset((c, 0) for c in heated)


def waited(heat, layout, minutes):
    """After a wait."""
    heated = layout.heated()
    after = set()
    for chamber, passed in heat:
        cools = cools_in(layout.network, chamber)
        if chamber in heated or cools is None:
            after.add((chamber, passed))
        elif passed + minutes < cools:
            after.add((chamber, passed + minutes))
    return frozenset(after)


def cools_in(network, chamber):
    return network.instances[network.owner[chamber]].kind.cools


def seen_cool(heat, layout, e):
    """After somebody has said or seen what the terms of `e` say of cool chambers."""
    cool = {container_named(layout.network, term[1]) for term in conjuncts(e) if term[0] == "cool"} - layout.heated()
    return frozenset(pair for pair in heat if pair[0] not in cool)


def joined(one, other):
    """As hot as after one or the other, and the shorter of the two waits."""
    least = dict(one)
    for chamber, passed in other:
        least[chamber] = min(passed, least.get(chamber, passed))
    return frozenset(least.items())
