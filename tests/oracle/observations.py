"""What is known of contents when a flow or drain has shown what it was to show, or a vessel has been poured.

For: the walk.  It knows what ran since when (a history, one record a discharge), and nothing of claims.
"""

from collections import namedtuple

import naming
import quantities
from expressions import container_named
from pipework import vertex_of
from mixing import is_pipe
from pockets import (DIRT, EMPTIED, FLUSHED, GAS_IN_HOUSING, GAS_LEFT, HEEL, LOOKS_ALIKE, RINSED, TRACES, Pocket, frozen, thawed)

# A discharge that runs.  began: contents just before it began; swept: ((target, pockets swept at every instant since), ...);
# origins: all that its source has drawn on since.
Record = namedtuple("Record", "began swept origins")
FELL_FULL = "fell full"


def history_after(history, transport, contents_before, glasses, falls):
    """The history at an instant: {discharge: Record} as a set of pairs, targets being the outlet and sight glasses; what
    falls into what is written down as well, ("blown", discharge) where only air has been seen since it began, and
    (FELL_FULL, chamber) of what was full when it began to run out."""
    known = dict(history)
    found = []
    for discharge in transport.state.discharges:
        origins = frozenset(transport.origins_of(discharge[0]))
        now = {target: transport.swept(target_vertices(transport, target)) for target in (discharge[2],) + glasses}
        record = known.get(discharge)
        if record:
            now = {target: now[target] & swept for target, swept in record.swept}
            origins |= record.origins
        found.append((discharge, Record(record.began if record else contents_before, tuple(now.items()), origins)))
    found += [(("blown", d), None) for d in transport.state.discharges if ("blown", d) in known]
    ran_out = {key[0] for key, _ in history if len(key) == 2 and key[0] in transport.network.container_index}
    pockets = thawed(contents_before, transport.network.pockets)
    for chamber in {chamber for chamber, _ in falls}:
        if (FELL_FULL, chamber) in known if chamber in ran_out else pockets[chamber].full:
            found.append(((FELL_FULL, chamber), None))
    return frozenset(found + [(fall, None) for fall in falls])


def target_vertices(transport, target):
    """The vertices of an outlet or, a part's name being given, those at which one sees what passes it."""
    if isinstance(target, tuple):
        return {vertex_of(target)}
    body = transport.network.body_of(target)
    return set(body) or {node for node, owner in transport.network.owner.items() if owner == target}


def said_of_volume(s, running):
    """`at least`, which says nothing of one outlet where several run."""
    return s.at_least if len({d[2] for d in running}) == 1 else None


def air_comes_from_elsewhere(s, transport, suction):
    """Whether air can be drawn but by emptying, from below, a chamber or vessel that the flow names."""
    network, layout, pipework = transport.network, transport.layout, transport.pipework
    graph = transport.drawn[suction_part(transport, suction)]
    for node in graph.vertices & (set(pipework.onward) | set(pipework.incoming) | {suction}):
        held = layout.by_node.get(node)
        if held is not None and node in layout.vented:
            named = any(naming.is_within(node, name, network) for name in s.sources)
            if not named or any(port in graph.vertices and node in graph.beside[port] for port in held.high):
                return True
        elif any(above is None for _, _, above in pipework.openings[node]) or pipework.vents[node]:
            return True
        if any(n == node and fluid in network.gases for _, n, fluid, _ in layout.supplies):
            return True
    return False


def has_drawn_empty(s, transport, node):
    """Whether a flow that ends with air has emptied a container: it ran out of it, and nothing else came, nor any air, but
    out of what it names."""
    running = [d for d in transport.state.discharges if naming.names_outlet(s, d[2], transport.network)]
    for source, suction in transport.suctions.items():
        origins = [(outlet, origin) for of, origin, outlet in running if of == source]
        if ("held", node) in [origin for _, origin in origins] and \
                all(naming.names_origin(s, origin, transport.network) for _, origin in origins) and \
                not air_comes_from_elsewhere(s, transport, suction):
            return True
    return False


class Until:
    """The `until` of a flow or drain in one trajectory."""

    def __init__(self, s, transport, contents, history):
        self.s = s
        self.transport = transport
        self.network = transport.network
        self.layout = transport.layout
        self.history = dict(history)
        self.now = thawed(contents, self.network.pockets)
        self.over = set()                           # what runs over
        self.blown = set()                          # discharges of which only air is seen now
        self.results = {}                           # name -> Pockets, one for each time it is credited
        self.running = [d for d in transport.state.discharges if naming.names(s, d[1], d[2], self.network)]
        self.volume = said_of_volume(s, self.running)

    def after(self):
        if self.s.form == "drain":
            self.rinse_ways_down()
            self.drain()
        else:
            self.lose_gas()
            for discharge in self.running:
                self.credit(discharge)
        for name, results in self.results.items():
            self.now[name] = weakest(results)
        return frozen(self.now, self.network.pockets)

    def result(self, name):
        """A copy of a pocket that will stand for it, unless another is weaker."""
        p = self.now[name]
        copy = Pocket(p.gas, p.full, p.squeeze, dict(p.most), dict(p.taken), dict(p.flowed), p.pushed, p.whole,
                      p.flooded)
        self.results.setdefault(name, []).append(copy)
        return copy

    # Flows

    def credit(self, discharge):
        source, origin, outlet = discharge
        until = self.s.until
        gases = self.network.gases
        record = self.history[discharge]
        swept = dict(record.swept)[outlet]
        if self.s.seen and self.s.seen != outlet[1]:
            swept = self.before_the_glass(discharge, swept)
        if not all(naming.names_origin(self.s, o, self.network) for o in record.origins):
            swept = frozenset()
        if until == "full":
            self.filled(discharge, thawed(record.began, self.network.pockets))
        elif self.transport.is_gas(source):
            if until == "only air":
                self.blown.add(discharge)
                for name in swept:
                    if name[0] in ("run", "body"):
                        self.result(name).empty(GAS_LEFT)
        elif until in ("stops", "only air") or until[:6] == "shows " and until[6:] in gases:
            if source[0] == "lift":
                self.drawn_out(source, origin, swept)
        elif self.shows_what_comes(until, origin):
            self.swept_out(discharge, swept, thawed(record.began, self.network.pockets))
        if not self.transport.is_gas(source) and self.volume:
            self.passed_on(discharge, thawed(record.began, self.network.pockets))

    def lose_gas(self):
        """What lands somewhere takes gas from where it comes to rest; what passes it on stands empty."""
        landing, litres = quantities.of_flow(self.s, self.transport, self.now, self.running)
        self.over |= quantities.comes_in(self.transport, self.now, landing, litres,
                                         landing if self.s.until == "full" else ())
        for node in landing:
            if quantities.passes_on(self.transport, node):
                self.now[node].empty(EMPTIED)

    def before_the_glass(self, discharge, swept):
        """Of the pockets that are swept those before the part at which it is seen, and its body, if that is swept."""
        graph = self.transport.graphs[discharge[0]]
        seen = target_vertices(self.transport, self.s.seen) & graph.vertices
        chain = self.transport.chain(discharge)
        if not seen or not self.transport.every_way_meets(discharge[0], seen, target_vertices(self.transport, discharge[2])):
            return frozenset()
        before = {q for q, _ in chain if q not in graph.vertices}
        before |= {q for q, _ in chain if q in graph.vertices and all(graph.is_before(q, v) for v in seen if v != q)}
        return swept & before

    def shows_what_comes(self, until, origin):
        """Whether what is seen is that what the origin holds has arrived."""
        holds = self.transport.composition(origin, self.now)
        if until.startswith("shows "):
            return holds.get(until[6:], 0) > TRACES
        may_be_clear = sum(share for f, share in holds.items() if not self.is_seen(f)) >= 1 - TRACES
        return until == "clear" and may_be_clear or until.startswith("reads") and until.endswith(("%", "mg/L"))

    def is_seen(self, liquid):
        """Whether a liquid is told from clear water."""
        return liquid == DIRT or any(f.name == liquid and f.shows and f.category > 2 for f in self.network.system.fluids)

    def swept_out(self, discharge, swept, began):
        """What the origin holds has arrived: pockets that are swept hold it, and traces of what they held."""
        _, origin, _ = discharge
        brought = self.transport.composition(origin, self.now)
        chain = self.chain_without_origin(discharge)
        for name, _ in chain:
            if name not in swept:
                continue
            if name in self.network.container_index:
                before = [(q, b) for q, b in chain if any(q in b for p, b in chain if p == name)]
                volume = self.fresh(before, brought, began)
                if name not in self.transport.pipework.slopes.always_vented and volume:
                    self.result(name).diluted(volume / self.network.litres[name], brought)
            elif not self.looks_alike(name, chain, brought, began):
                pocket = self.result(name)
                pocket.gas = pocket.squeeze = 0.0
                pocket.full = True
                replaced(pocket, brought)

    def chain_without_origin(self, discharge):
        return [(q, before) for q, before in self.transport.chain(discharge)
                if q != discharge[1][1] and q not in self.network.vessels]

    def fresh(self, chain, brought, began):
        """Of `at least` what is left for the origin's own, after what these pockets may have held of anything else."""
        other = {q for q, _ in chain if held_else(began[q], brought)}
        return max(0, (self.volume or 0) - sum(self.network.litres[q] for q in other))

    def looks_alike(self, name, chain, brought, began):
        has = {f for f, share in brought.items() if share > 0}
        litres = self.network.litres

        def is_other(q):
            full = began[q].gas == 0 if q in self.network.container_index else began[q].full
            return not full or held_else(began[q], brought)

        if not is_other(name):
            return False
        fouled = {q for q, _ in chain if is_other(q)}
        behind = fouled | {q for q, before in chain if not fouled.isdisjoint(before)}
        if self.volume is not None and self.volume >= 2 * sum(litres[q] for q in behind):
            return False
        alike = set(has)
        if self.s.until == "clear":
            alike |= {f.name for f in self.network.system.fluids if not self.is_seen(f.name)}
        on_to_outlet = {name} | {q for q, before in chain if name in before}
        held = [q for q in on_to_outlet if any(began[q].flowed.get(f, 0) > TRACES for f in alike)]
        return sum(litres[q] * (1 - began[q].effective()) for q in held) > LOOKS_ALIKE

    def filled(self, discharge, began):
        node = self.layout.landing(discharge[2])
        if node in self.network.container_index:
            pocket = self.result(node)
            if node in self.network.vessels:
                pocket.whole = True
            if began[node].effective() >= EMPTIED - 1e-9:
                own, taken = began[node].most, pocket.taken
                pocket.becomes({f: HEEL * own.get(f, 0) + (1 - HEEL) * taken.get(f, 0) for f in set(own) | set(taken)})
                pocket.full = True

    def drawn_out(self, source, origin, swept):
        """A lifting part has drawn until air came: credited where air can have come from what was emptied only."""
        if air_comes_from_elsewhere(self.s, self.transport, self.transport.suctions[source]):
            return
        if origin[0] == "held":
            self.result(origin[1]).emptied()
        housing = self.network.body_of(source[1])   # keeps most of what stood in it
        for name in {q for q, _ in self.transport.drawn_chain(source, origin)} & swept:
            if name[0] in ("run", "body"):
                pocket = self.result(name)
                pocket.empty(max(GAS_IN_HOUSING if name in housing else GAS_LEFT, pocket.effective()))

    # What goes on by gravity

    def passed_on(self, discharge, began):
        """What lands in a chamber goes on: it rinses what never stands full, and dilutes the chambers on every way."""
        node = self.layout.landing(discharge[2])
        brought = self.transport.composition(discharge[1], self.now)
        volume = self.fresh(self.chain_without_origin(discharge), brought, began)
        if node in self.layout.by_node and node not in self.network.vessels and volume:
            pass_on(self.transport, self.layout.by_node[node], volume, brought, self.result,
                    self.shows_what_comes(self.s.until, discharge[1]))

    # Drains

    def rinse_ways_down(self):
        """What a named chamber that is full holds rinses what every way to an outlet passes, if it is twice as much."""
        for chamber in self.layout.containers:
            if not chamber.owner or not any(naming.is_within(chamber.node, s, self.network) for s in self.s.sources):
                continue
            if (FELL_FULL, chamber.node) in self.history and self.transport.state.may_hold(chamber.node):
                self.rinse_way_down(chamber, self.now[chamber.node].most)

    def rinse_way_down(self, chamber, brought):
        graph, outlets, _ = self.transport.pipework.falling(chamber)
        for x in outlets:
            if not naming.names_outlet(self.s, x, self.network) or len(outlets) > 1:
                continue                            # of what runs out at two places nobody knows how much came by either
            chain = [q for q, _ in self.transport.pressed_chain(graph, vertex_of(x)) if q != chamber.node]
            if self.network.litres[chamber.node] < 2 * sum(self.network.litres[q] for q in chain) - 1e-9:
                continue
            for name in chain:
                if is_pipe(name) and graph.every_way_passes(name, [chamber.node], {vertex_of(x)}):
                    pocket = self.now[name]
                    replaced(pocket, brought)
                    pocket.gas = pocket.squeeze = 0.0
                    pocket.flooded = frozenset()
                    pocket.full = True

    def drain(self):
        drained = drained_pockets(self.s, self.transport)
        for names in drained.values():
            held = [dict(self.now[name].most) for name in names]
            for name in names:
                self.now[name].take(*held)
        for chamber in self.layout.containers:
            named = any(naming.is_within(chamber.node, s, self.network) for s in self.s.sources)
            if chamber.owner and (named or any(naming.falls_out(self.transport.state, self.s, chamber, o)
                                               for o in self.s.outlets if self.network.is_there(o, self.layout.sigma))):
                self.result(chamber.node).emptied()
        for vertex, names in drained.items():
            node = network_landing(self.transport, vertex)
            if node in self.network.container_index:
                self.now[node].take(*(self.now[name].most for name in names))
                litres = sum(self.network.litres[q] * (1 - self.now[q].gas) for q in names)
                if self.s.at_most is not None:
                    litres = min(litres, self.s.at_most)
                self.over |= quantities.comes_in(self.transport, self.now, [node], litres)
            for name in names:
                self.result(name).empty(GAS_LEFT)


def suction_part(transport, suction):
    return next(source for source, node in transport.suctions.items() if node == suction)


def replaced(pocket, brought):
    """What was brought has taken the place of all but traces."""
    pocket.becomes({f: max(brought.get(f, 0), min(pocket.most.get(f, 0), TRACES)) for f in set(brought) | set(pocket.most)})


def held_else(pocket, brought):
    """Whether it may hold more than traces of something that is not brought."""
    return any(share > TRACES for f, share in pocket.most.items() if brought.get(f, 0) <= 0)


def pass_on(transport, chamber, volume, brought, result, seen):
    """What a volume that lands in a chamber does to it, if that is what is seen, and to what it passes by gravity."""
    network, slopes = transport.network, transport.pipework.slopes
    graph, outlets, entered = transport.pipework.falling(chamber)
    ends = {vertex_of(x) for x in outlets}
    ends |= {n for n in entered & graph.vertices
             if n in slopes.always_vented or not graph.reached([n]) - {n} - set(transport.layout.by_node[n].ports)}
    if seen and chamber.node in slopes.by_itself and volume >= RINSED * network.litres[chamber.node]:
        replaced(result(chamber.node), brought)
    if not ends:
        return
    others = graph.vertices & set(network.container_index) - {chamber.node}
    for name in network.pockets:
        if name not in graph.vertices or name in ends or not graph.every_way_passes(name, [chamber.node], ends):
            continue
        if is_pipe(name):
            if name in slopes.by_itself and volume >= FLUSHED * network.litres[name] and \
                    name in reached_without(graph, chamber.node, others):
                replaced(result(name), brought)
        elif name not in slopes.always_vented:
            result(name).diluted(volume / network.litres[name], brought)


def reached_without(graph, start, others):
    """The vertices to which the arrows lead without passing any of these."""
    found = {start}
    waiting = [start]
    while waiting:
        for other in graph.onward[waiting.pop()] - others - found:
            found.add(other)
            waiting.append(other)
    return found


def drained_pockets(s, transport):
    """{outlet that a drain names, as a vertex: the runs that fall to it with air above, and the bodies on their way}"""
    network, pipework = transport.network, transport.pipework
    found = {}

    def drains(x):
        return naming.names_outlet(s, x, network)

    aired = pipework.aired(drains)
    for i in range(len(network.system.runs)):
        if not pipework.ends_of(i) or pipework.ends_of(i)[0] not in aired:
            continue
        graph = pipework.way_down(i)
        ends = {v for v in graph.vertices if isinstance(v, tuple) and v[0] in ("fall", "breach", "end") and drains(v)}
        ends |= {v for v in graph.vertices if v in network.container_index and v in transport.layout.vented
                 and drains(("fill", v))}
        for end in ends:
            bodies = {v for v in graph.vertices if v[0] == "body" and v in aired and end in graph.reached([v])}
            found.setdefault(end, set()).update({("run", i)} | bodies)
    return found


def network_landing(transport, vertex):
    return transport.layout.landing(vertex) if isinstance(vertex, tuple) else vertex


def weakest(results):
    """What is so whichever of these is true."""
    first, *others = results
    for other in others:
        first.gas = min(first.found_gas(), other.found_gas())
        first.squeeze = 0.0
        first.flooded |= other.flooded
        first.full = first.full and other.full
        first.pushed = first.pushed and other.pushed
        first.whole = first.whole and other.whole
        for held, more in ((first.most, other.most), (first.taken, other.taken), (first.flowed, other.flowed)):
            for f, share in more.items():
                held[f] = max(share, held.get(f, 0))
    return first


def poured(s, transport, contents):
    """(contents after a vessel was emptied into a place, a chamber or another vessel, what runs over)"""
    network = transport.network
    over = set()
    now = thawed(contents, network.pockets)
    vessel = now[s.vessel]
    if s.node not in network.places:
        node = container_named(network, s.node)
        chamber = network.containers[network.container_index[node]]
        now[node].take(vessel.most)
        now[node].full = now[node].full and quantities.is_open(network, transport.pipework.slopes, node)
        over = quantities.comes_in(transport, now, [node], network.litres[s.vessel] * (1 - vessel.gas))
        if not quantities.is_open(network, transport.pipework.slopes, node):
            now[node].gas = now[node].squeeze = 0.0
        if vessel.whole and chamber.owner:
            pass_on(transport, chamber, network.litres[s.vessel], vessel.most, now.get, True)
    now[s.vessel] = Pocket(gas=1.0)
    return frozen(now, network.pockets), over


def opened(network, before, after, contents):
    """(contents after what has become open has let dirt in, what runs over, what comes off: [(landing, what a body held)]);
    `before` and `after`: what is so around the move; at the start `before` is None."""
    was = {node for _, node in before.layout.breaches} | before.layout.open_ends if before else set()
    nodes = ({node for _, node in after.layout.breaches} | after.layout.open_ends) - was
    if not nodes:
        return contents, set(), []
    now = thawed(contents, network.pockets)
    runs = network.system.runs
    over = set()
    spilt = []
    for part, node in sorted(after.layout.breaches):
        for body in network.body_of(part) if node in nodes else []:
            if now[body].gas < GAS_LEFT:
                landing = after.layout.landing(("breach", part, node))
                litres = network.litres[body] * (1 - now[body].gas)
                spilt.append((landing, dict(now[body].most)))
                into = [n for n in after.transport().landing_pockets(("breach", part, node)) if n in network.container_index]
                for n in into:
                    now[n].take(now[body].most)
                    now[n].full = False
                    if not quantities.is_open(network, after.transport().pipework.slopes, n):
                        now[n].gas = now[n].squeeze = 0.0
                over |= quantities.comes_in(after.transport(), now, into, litres)
            now[body].empty(GAS_LEFT)
    for node in nodes:
        meeting = [("run", i) for i in range(len(runs)) if node in (runs[i].a, runs[i].b)
                   and network.run_is_there(runs[i], after.layout.sigma)]
        if node in network.owner:
            meeting += network.body_of(network.owner[node])
        for name in meeting:
            now[name].take({DIRT: 1.0})
    return frozen(now, network.pockets), over, spilt
