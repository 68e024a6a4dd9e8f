"""Disinfection in one configuration: what has been read of a disinfectant, how long it has stood, what spoils it.

Kept beside the contents of a trajectory: one Care a pocket.  Concentrations are mg/L, times minutes.

For: the walk.  Written from the page's section Disinfection; it knows nothing of how contents move, only what they are
before and after.  Systems with stores are not told here, nor what gravity sweeps.
"""

import math
import re
from collections import namedtuple

import naming
from circuits import drinking_system
from observations import Until
from mixing import is_pipe
from pipework import vertex_of
from pockets import DIRT, EMPTIED, LOOKS_ALIKE, TRACES, frozen, thawed

# agent: the disinfectant of which there is a reading; stood: minutes for each of its lines.  full, brimful, wetted: of
# chambers; a pipe is full as contents say.
Care = namedtuple("Care", "agent reading stood sanitised clean full brimful wetted stale")
BLANK = Care("", 0, (), False, False, False, False, False, 1.0)
LEFT_BY_SWEEPING = 0.005
STALE = 0.1
READS = re.compile(r"reads at least (\d+) mg/L")
SEE = ("shows", "clear", "reads")


def has_stores(network):
    return any(way.form == "stores" for way in network.ways)


def doses(network, fluid):
    """[(mg/L, minutes)] of a disinfectant."""
    return next((f.disinfects for f in network.system.fluids if f.name == fluid), ())


def harmless(network, fluid):
    return network.category[fluid] <= 2 or bool(doses(network, fluid))


def at_start(network, contents):
    pockets = thawed(contents, network.pockets)
    cares = []
    for name in network.pockets:
        care = BLANK._replace(stale=1 - pockets[name].gas)
        if name in network.vessels:
            held = [f for f, share in pockets[name].most.items() if share > 0]
            care = care._replace(clean=all(f != DIRT and harmless(network, f) for f in held))
        cares.append(care)
    return tuple(cares)


def take_in(care, others, gas=False):
    """A pocket after it has taken in what has these cares."""
    for other in others:
        if care.reading:
            weaker = min(care.reading, other.reading) if other.agent == care.agent else 0
            care = care._replace(reading=weaker)
        care = care._replace(clean=care.clean and other.clean, sanitised=care.sanitised and other.clean)
    return care._replace(wetted=False, brimful=care.brimful and not gas)


def emptied(care, left):
    return care._replace(full=False, brimful=False, wetted=False, stale=min(care.stale, left))


class Cares:
    """The cares of a trajectory as they change; `pockets`: its contents."""

    def __init__(self, network, cares, pockets, left_out):
        self.network = network
        self.care = dict(zip(network.pockets, cares))
        self.pockets = pockets
        self.left_out = left_out

    def result(self):
        return tuple(self.settled(name) for name in self.network.pockets)

    def is_full(self, name):
        return self.pockets[name].full if is_pipe(name) else self.care[name].full

    def stands_full(self, name):
        care = self.care[name]
        return self.is_full(name) or care.brimful or care.wetted

    def settled(self, name):
        """Times begin anew where what stands there is too weak, or gas has come between."""
        care = self.care[name]
        if not care.reading:
            return care._replace(agent="", stood=())
        lines = doses(self.network, care.agent)
        stood = care.stood or (0,) * len(lines)
        kept = self.stands_full(name)
        return care._replace(stood=tuple(passed if kept and care.reading >= strength else 0
                                         for passed, (strength, _) in zip(stood, lines)))

    def brought(self, name):
        """What comes from a pocket: of what is left out somebody answers for."""
        care = self.care[name]
        return care._replace(clean=True) if name in self.left_out else care

    # An instant

    def run(self, transport):
        slopes = transport.pipework.slopes

        def gives(node):
            return self.pockets[node].effective() < EMPTIED - 1e-9 or node in slopes.by_itself

        def held(names):
            return [self.brought(n) for n in names if n not in self.network.container_index or gives(n)]

        def is_open(node):
            return node in self.network.vessels or node in slopes.always_vented

        def passes(chain, origin, gas):
            for q, before in chain:
                if is_pipe(q) or not is_open(q):
                    full = self.is_full(q) and not gas and all(self.is_full(p) for p in before
                                                               if p not in self.network.container_index or not is_open(p))
                    if not is_pipe(q):
                        self.care[q] = self.care[q]._replace(full=full)
                self.care[q] = take_in(self.care[q], origin + held(before), gas)

        def lands(nodes, things, gas):
            for node in nodes:
                self.care[node] = take_in(self.care[node], things, gas)

        drawn = {r.discharge[1][1] for r in transport.running if r.discharge[1][0] == "held" and gives(r.discharge[1][1])}
        drawn |= {f.chamber for f in transport.falling if gives(f.chamber)}
        for node in drawn:
            if not is_pipe(node):
                care = self.care[node]
                self.care[node] = care._replace(wetted=care.full or care.brimful or care.wetted, full=False, brimful=False)
        standing = {node: self.care[node].wetted for node in drawn}
        entered = set()                             # being drawn on brings nothing in
        before = None
        while before != self.care:
            before = dict(self.care)
            for r in transport.running:
                _, origin, _ = r.discharge
                if origin[0] == "held" and not gives(origin[1]):
                    continue
                own = [] if r.gas else [self.brought(origin[1])] if origin[0] == "held" else [
                    BLANK._replace(clean=harmless(self.network, f)) for f in transport.supplied(origin[1])]
                chain = [(q, [p for p in b if p != origin[1]]) for q, b in r.chain if q != origin[1]]
                passes(chain, own, r.gas)
                lands(r.landing, own + held([q for q, _ in chain]), r.gas)
            for leg in transport.dead_legs:
                full = self.is_full(leg.pocket)
                if full and all(self.is_full(p) for p in leg.behind) and not leg.gas:
                    continue                        # traces, at its mouth
                own = [] if leg.gas else [self.source_care(transport, o) for o in leg.origins]
                care = self.care[leg.pocket]
                self.care[leg.pocket] = take_in(care, own + held(leg.chain), leg.gas)
            for f in transport.falling:
                if gives(f.chamber):
                    for chain, landing in f.chains:
                        chain = [(q, b) for q, b in chain if q != f.chamber]
                        passes(chain, [self.brought(f.chamber)], False)
                        lands(landing, [self.brought(f.chamber)] + held([q for q, _ in chain]), False)
                    for q, chain in f.standing:
                        if not self.is_full(q):
                            self.care[q] = take_in(self.care[q], [self.brought(f.chamber)] + held(chain))
            for node, was in standing.items():
                if before[node]._replace(wetted=False) != self.care[node]._replace(wetted=False):
                    entered.add(node)               # for good: else it would take turns with what is wetted
                self.care[node] = self.care[node]._replace(wetted=was and node not in entered or self.care[node].wetted)

    def source_care(self, transport, origin):
        if origin[0] == "held":
            return self.brought(origin[1])
        return BLANK._replace(clean=all(harmless(self.network, f) for f in transport.supplied(origin[1])))


def after_instant(transport, cares, contents, left_out):
    """After what runs, presses and falls has moved contents, which are now these."""
    c = Cares(transport.network, cares, thawed(contents, transport.network.pockets), left_out)
    c.run(transport)
    return c.result()


def after_until(s, transport, cares, before, after, history, left_out):
    """(cares, contents) after the `until` of a flow or drain that has changed contents so."""
    network = transport.network
    was, now = thawed(before, network.pockets), thawed(after, network.pockets)
    c = Cares(network, cares, now, left_out)
    for name in network.pockets:
        if now[name].gas > was[name].gas:
            c.care[name] = emptied(c.care[name], 1 - now[name].gas)
    if s.form == "flow":
        u = Until(s, transport, before, history)
        for discharge in u.running:
            credit(u, c, discharge)
    return c.result(), frozen(c.pockets, network.pockets)


def credit(u, c, discharge):
    source, origin, outlet = discharge
    network, transport = u.network, u.transport
    record = u.history[discharge]
    began = thawed(record.began, network.pockets)
    if transport.is_gas(source):
        return
    if u.s.until == "full":
        node = u.layout.landing(outlet)
        if node in network.container_index:
            care = c.care[node]
            if node in transport.pipework.slopes.always_vented:
                care = care._replace(brimful=True)
            if began[node].effective() >= EMPTIED - 1e-9:
                care = care._replace(full=True, stale=care.stale * (1 - EMPTIED))
            c.care[node] = care
        return
    swept = dict(record.swept)[outlet]
    if u.s.seen and u.s.seen != outlet[1]:
        swept = u.before_the_glass(discharge, swept)
    if not all(naming.names_origin(u.s, o, network) for o in record.origins):
        return
    brought = transport.composition(origin, u.now)
    if u.s.until.startswith(SEE) and u.shows_what_comes(u.s.until, origin):
        fresh = all(f != DIRT and network.category[f] == 1 for f, share in brought.items() if share > TRACES)
        clean = c.source_care(transport, origin).clean
        chain = u.chain_without_origin(discharge)
        for name, _ in chain:
            if name in swept and is_pipe(name) and not u.looks_alike(name, chain, brought, began):
                care = c.care[name]
                c.care[name] = care._replace(clean=clean, sanitised=care.sanitised and clean,
                                             stale=min(care.stale, LEFT_BY_SWEEPING) if fresh else care.stale)
            elif name in swept and not is_pipe(name) and u.volume and fresh:
                care = c.care[name]
                c.care[name] = care._replace(stale=care.stale * math.exp(-u.volume / network.litres[name]))
    told = READS.fullmatch(u.s.until)
    agents = [f for f in brought if f != DIRT and brought[f] > 0 and doses(network, f)]
    if told and origin[0] == "held" and len(agents) == 1:
        read(u, c, discharge, swept, began, agents[0], int(told[1]))


def read(u, c, discharge, swept, began, agent, strength):
    """A reading at an outlet: of all that is swept, and of the origin."""
    _, origin, _ = discharge
    network = u.network
    chain = u.chain_without_origin(discharge)
    litres = network.litres

    def weak(name):
        care = c.care[name]
        return care.agent != agent or care.reading < 0.99 * strength

    def had(name):
        return began[name].flowed.get(agent, 0) > TRACES

    weak_ones = {q for q, _ in chain if weak(q)}
    behind = weak_ones | {q for q, before in chain if not weak_ones.isdisjoint(before)}
    if weak(origin[1]):
        behind = {q for q, _ in chain}
    enough = u.s.at_least is not None and u.s.at_least >= 2 * sum(litres[q] for q in behind)

    def reads_alike(name, onward):
        if sum(litres[q] for q in onward if had(q)) <= LOOKS_ALIKE:
            return False
        return not enough or any(had(q) and not is_pipe(q) for q in onward if q != name)

    def reads(name, full):
        care = c.care[name]
        if care.agent != agent:
            care = care._replace(agent=agent, reading=0, stood=())
        care = care._replace(reading=max(care.reading, strength))
        if full:                                    # what gas it had went ahead
            c.pockets[name].full = True
            c.pockets[name].gas = c.pockets[name].squeeze = 0.0
            care = care._replace(full=not is_pipe(name))
        c.care[name] = care

    credited = []
    if not reads_alike(origin[1], [q for q, _ in chain]) and len(u.transport.origins_of(discharge[0])) == 1:
        credited.append((origin[1], False))
    for name, _ in chain:
        onward = [name] + [q for q, before in chain if name in before]
        if name in swept and not reads_alike(name, onward):
            if is_pipe(name):
                credited.append((name, True))
            elif name not in u.transport.pipework.slopes.always_vented:
                credited.append((name, leaves_by_top(u, discharge, name)))
    for name, full in credited:
        reads(name, full)


def leaves_by_top(u, discharge, chamber):
    """Whether every way from the chamber on to the outlet passes one of its ports at its top."""
    graph = u.transport.graphs[discharge[0]]
    tops = [port for port in u.layout.by_node[chamber].high if port in graph.vertices]
    return any(graph.every_way_passes(port, [chamber], {vertex_of(discharge[2])}) for port in tops)


def poured(network, cares, vessel, node, contents, left_out):
    """After a vessel was poured into a chamber or vessel."""
    c = Cares(network, cares, thawed(contents, network.pockets), left_out)
    if node in network.container_index:
        c.care[node] = take_in(c.care[node], [c.brought(vessel)])
    c.care[vessel] = emptied(c.care[vessel], 0.0)
    return c.result()


def opened(network, cares, names, contents, left_out):
    """After dirt has come into these pockets."""
    c = Cares(network, cares, thawed(contents, network.pockets), left_out)
    for name in names:
        c.care[name] = c.care[name]._replace(reading=0, clean=False, sanitised=False)
    return c.result()


def waited(transport, cares, contents, minutes, left_out):
    """After nothing was done for so long."""
    c = Cares(transport.network, cares, thawed(contents, transport.network.pockets), left_out)
    running_out = {f.chamber for f in transport.falling
                   if c.pockets[f.chamber].effective() < EMPTIED - 1e-9 or f.chamber in transport.pipework.slopes.by_itself}
    for name in transport.network.pockets:
        care = c.care[name]
        if not care.reading or not c.stands_full(name) or name in running_out:
            continue
        lines = doses(transport.network, care.agent)
        stood = tuple(passed + minutes if care.reading >= strength else 0
                      for passed, (strength, _) in zip(care.stood or (0,) * len(lines), lines))
        done = any(passed >= needed for passed, (_, needed) in zip(stood, lines))
        c.care[name] = care._replace(stood=stood, sanitised=care.sanitised or done, clean=care.clean or done)
    return c.result()


def parts_left_out(network, parts):
    """The pockets of these parts, and the runs with an end at one of them."""
    def is_one(path):
        return any(path == part or path.startswith(part + ".") for part in parts)

    def owner(node):
        return network.owner.get(node, "")

    runs = network.system.runs
    return frozenset(name for name in network.pockets if name not in network.vessels and (
        is_one(owner(runs[name[1]].a)) or is_one(owner(runs[name[1]].b)) if name[0] == "run"
        else is_one(name[1]) if name[0] == "body" else is_one(owner(name))))


def left_out_everywhere(network, claimed):
    """What every `sanitised` leaves out."""
    lists = [parts_left_out(network, term[1]) for term in claimed if term[0] == "sanitised"]
    return frozenset.intersection(*lists) if lists else frozenset()


def not_sanitised(network, sigma, cares, except_parts):
    care = dict(zip(network.pockets, cares))
    left_out = parts_left_out(network, except_parts)
    return [name for name in drinking_system(network, sigma)
            if network.pocket_is_there(name, sigma) and name not in left_out and not care[name].sanitised]


def never_flushed(network, sigma, cares):
    care = dict(zip(network.pockets, cares))
    return [name for name in drinking_system(network, sigma)
            if network.pocket_is_there(name, sigma) and care[name].stale > STALE + 1e-9]
