"""How much comes into vessels and chambers that stand open, and whether there is room for it: in one configuration.

For: mixing.py, observations.py and the walk.  It knows nothing of what is in it.
"""

from pockets import EMPTIED

SAME = 1e-6                                         # litres


def is_open(network, slopes, node):
    """Whether gas is lost by amounts there: a vessel or an always vented chamber."""
    return node in network.vessels or node in slopes.always_vented


def leads_on(transport, node):
    """The chambers and vessels into which a chamber passes on all that comes in; None where it stays in it."""
    network, slopes = transport.network, transport.pipework.slopes
    if node in network.vessels:
        return None
    _, outlets, entered = transport.pipework.falling(transport.layout.by_node[node])
    vented = {n for n in entered if n in slopes.always_vented and n != node}
    if not outlets and not vented:
        return None
    landed = {n for x in outlets for n in transport.landing_pockets(x) if n in network.container_index}
    return vented | landed


def stays_in(transport, nodes, passed=()):
    """Where what comes into these chambers and vessels comes to rest."""
    found = set()
    for node in nodes:
        if node in passed:
            continue
        onward = leads_on(transport, node)
        found |= {node} if onward is None else stays_in(transport, onward, passed + (node,))
    return found


def comes_in(transport, pockets, nodes, litres, filled=()):
    """Takes gas from where so many litres come to rest; None: any amount.  What has no room for them is returned, but for
    what is `filled` until it is full."""
    network, slopes = transport.network, transport.pipework.slopes
    over = set()
    for node in stays_in(transport, nodes):
        if not is_open(network, slopes, node) or node in slopes.by_itself:
            continue
        room = pockets[node].gas * network.litres[node]
        if node not in filled and (litres is None or litres > room + SAME):
            over.add(node)
        pockets[node].loses(litres, network.litres[node])
    return over


def of_flow(s, transport, pockets, running):
    """(where a flow's liquid lands, how much comes at most) at its `until`."""
    network = transport.network
    landing = {node for d in running if not transport.is_gas(d[0]) for node in transport.landing_pockets(d[2])
               if node in network.container_index}
    amounts = [s.at_most] if s.at_most is not None else []
    if all(source in network.vessels and source not in landing for source in s.sources):
        amounts.append(sum(network.litres[v] * (1 - pockets[v].gas) for v in s.sources))
    return landing, min(amounts, default=None)


def passes_on(transport, node):
    return (is_open(transport.network, transport.pipework.slopes, node) and leads_on(transport, node) is not None)


def room_in(network, slopes, pockets):
    """The gas in everything that is judged."""
    return tuple((n, pockets[n].gas) for n in network.pockets if n in network.container_index
                 and is_open(network, slopes, n) and n not in slopes.by_itself)


def after_rounds(network, before, pockets, more):
    """What so many more rounds like the last one overfill; takes the gas that they take."""
    over = set()
    for node, gas in before:
        shrunk = (gas - pockets[node].gas) * network.litres[node] * more
        if shrunk > pockets[node].gas * network.litres[node] + SAME:
            over.add(node)
        if shrunk > 0:
            pockets[node].loses(shrunk, network.litres[node])
    return over
