"""Applies what runs, presses and falls at an instant to contents, until nothing changes.

For: transport.py, which finds the rules.  It knows nothing of where anything is.
"""

import quantities
from pockets import EMPTIED, GAS_LEFT, NARROW_NECK, STORE_LEFT, TRACES, frozen, thawed


class Mixing:
    def __init__(self, transport, contents, before, limits):
        """`before`: the discharges, and the falls (chamber, what it falls into), that there were at the last instant;
        `limits`: {(chamber, outlet): how many litres fall at most}."""
        self.transport = transport
        self.network = transport.network
        self.slopes = transport.pipework.slopes
        self.before = before
        self.limits = limits
        self.over = set()
        self.pockets = thawed(contents, self.network.pockets)

    def result(self):
        self.blow_into_chambers()
        self.push()
        self.bases = self.find_bases()
        known = set(self.before)
        while True:
            self.settle()
            falls = self.falls()
            new = falls - known
            if not new:
                break
            for chamber, into in new:
                held = self.network.litres[chamber] * (1 - self.pockets[chamber].gas)
                if into in self.network.vessels:
                    held = min([held] + [self.limits[chamber, x] for x in self.outlets_into(chamber, into)
                                         if (chamber, x) in self.limits])
                if self.loses_by_amounts(into):
                    self.over |= quantities.comes_in(self.transport, self.pockets, [into], held)
            known |= new
        for leg in self.transport.dead_legs:
            if leg.store and not leg.gas:
                self.pockets[leg.pocket].pushed = False
        return frozen(self.pockets, self.network.pockets), frozenset(falls), frozenset(self.over)

    def outlets_into(self, chamber, vessel):
        return [x for f in self.transport.falling if f.chamber == chamber for x in f.outlets
                if self.transport.layout.landing(x) == vessel]

    def settle(self):
        before = None
        while True:
            for name in self.slopes.by_itself:
                dry(self.pockets[name], name, self.network)
            now = frozen(self.pockets, self.network.pockets)
            if now == before:
                return
            before = now
            for running in self.transport.running:
                self.run(running)
            for leg in self.transport.dead_legs:
                self.press(leg)
            for falling in self.transport.falling:
                self.fall(falling)

    # What gives, and what gas gives way

    def gives(self, node):
        """Whether anything comes out of a chamber or vessel: of one that is emptied nothing, unless it always lets out."""
        return self.pockets[node].effective() < EMPTIED - 1e-9 or node in self.slopes.by_itself

    def loses_by_amounts(self, node):
        return node in self.network.vessels or node in self.slopes.always_vented

    def held(self, name):
        """What a pocket brings to those behind it."""
        if name in self.network.container_index and not self.gives(name):
            return {}
        return self.pockets[name].most

    def composition(self, origin):
        if origin[0] == "held" and not self.gives(origin[1]):
            return {}
        return self.transport.composition(origin, self.pockets)

    def falls(self):
        return {(f.chamber, into) for f in self.transport.falling if self.gives(f.chamber) for into in f.into}

    def blow_into_chambers(self):
        """A discharge of gas that begins blows what its runs and bodies hold into the chambers on its way."""
        lost = []
        for running in self.transport.running:
            if running.gas and running.discharge not in self.before:
                chain = [q for q, _ in running.chain]
                blown = sum(self.network.litres[q] * (1 - (0 if self.pockets[q].flooded else self.pockets[q].gas))
                            for q in chain if is_pipe(q))
                landing = [n for n in running.landing if n in self.network.container_index]
                lost.append(([n for n in chain if n in self.network.container_index and n not in landing], landing, blown))
        for passed, landing, blown in lost:
            for node in passed:
                self.pockets[node].loses(blown, self.network.litres[node])
            self.over |= quantities.comes_in(self.transport, self.pockets, landing, blown)

    # Stores

    def push(self):
        """A store that nothing presses on pushes out what it holds: as any liquid runs; then it is gas but for a rest."""
        for body, chains in self.transport.pushing:
            store = self.pockets[body]
            if store.pushed:
                continue
            for chain, landing in chains:
                for q, before in chain:
                    if q != body:
                        pocket = self.pockets[q]
                        pocket.take(store.most, *(self.held(p) for p in before))
                        pocket.full = pocket.full and all(self.pockets[p].full for p in before if p != body)
                        if is_pipe(q) or not self.loses_by_amounts(q):
                            pocket.gas = 0.0
                for node in landing:
                    self.land(node, [store.most] + [self.held(q) for q, _ in chain])
            store.empty(GAS_LEFT)
            store.pushed = True

    def find_bases(self):
        """What stores that have pushed out, and their necks, still hold when they fill again: {name: composition}."""
        found = {}
        for leg in self.transport.dead_legs:
            if not self.fills_again(leg):
                continue
            volume = self.network.litres[leg.pocket]
            neck = sum(self.network.litres[q] for q in leg.neck)
            for name, share in [(leg.pocket, STORE_LEFT)] + [(q, neck / volume) for q in leg.neck]:
                if name not in found:
                    own = self.pockets[name].most
                    found[name] = share, {f: share * part for f, part in own.items()}
        for name, (_, base) in found.items():
            self.pockets[name].becomes(base)
        return found

    def fills_again(self, leg):
        neck = sum(self.network.litres[q] for q in leg.neck)
        return (leg.store and not leg.gas and self.pockets[leg.pocket].pushed
                and neck <= NARROW_NECK * self.network.litres[leg.pocket] + 1e-9)

    def fill_again(self, leg):
        compositions = [self.held(p) for p in leg.chain if p not in leg.neck] + [self.composition(o) for o in leg.origins]
        for name in [leg.pocket] + leg.neck:
            share, base = self.bases[name]
            for composition in compositions:
                self.pockets[name].take({f: base.get(f, 0) + (1 - share) * part for f, part in composition.items()})
        for name in leg.neck:
            self.pockets[name].gas = 0.0

    def keeps_gas(self, name):
        """It runs out again by itself, or is charged with air."""
        return name in self.slopes.by_itself or any(leg.store and leg.pocket == name for leg in self.transport.dead_legs)

    # The rules

    def run(self, running):
        source, origin, outlet = running.discharge
        if origin[0] == "held" and not self.gives(origin[1]):
            return
        brought = {} if running.gas else self.composition(origin)
        for q, before in running.chain:
            pocket = self.pockets[q]
            pocket.take(brought, *(self.held(p) for p in before))
            pocket.full = pocket.full and not running.gas and not running.air and all(
                self.pockets[p].full for p in before if p != origin[1])
            if is_pipe(q):
                # What a chamber on the way still holds does not come once only air has been seen.
                past = ("blown", running.discharge) in self.before
                giving = [p for p in before if not past or is_pipe(p)]
                pocket.gas = min([pocket.gas] + [self.pockets[p].gas for p in giving]) if running.gas else 0.0
                pocket.squeeze = max([pocket.squeeze] + [self.pockets[p].squeeze for p in before])
                pocket.flooded = pocket.flooded.union(*(self.pockets[p].flooded for p in giving)) if pocket.gas else frozenset()
            elif not running.gas and not self.loses_by_amounts(q) and q != origin[1]:
                pocket.gas = 0.0                    # into what is drawn on nothing comes by that
        if origin[0] == "held":
            self.pockets[origin[1]].whole = False
            self.pockets[origin[1]].full = False
        for node in running.landing:
            self.land(node, [brought] + [self.held(q) for q, _ in running.chain], running.gas)

    def land(self, node, compositions, gas=False):
        pocket = self.pockets[node]
        pocket.take(*compositions)
        if is_pipe(node) or not gas and not self.loses_by_amounts(node):
            pocket.gas = 0.0
        if is_pipe(node) or not self.loses_by_amounts(node):
            pocket.full = False

    def press(self, leg):
        pocket = self.pockets[leg.pocket]
        if leg.pocket in self.bases:
            if leg.store:
                self.fill_again(leg)
                pocket.squeeze = max(pocket.squeeze, leg.pressed)
            pocket.full = False
            return
        compositions = [self.held(p) for p in leg.chain]
        if not leg.gas:
            compositions += [self.composition(o) for o in leg.origins]
        full = pocket.full and not leg.store and not leg.gas
        if full and all(self.pockets[p].full for p in leg.behind):
            if leg.near:
                pocket.take(*({liquid: min(share, TRACES) for liquid, share in c.items()} for c in compositions))
            return
        pocket.take(*compositions, squeezed=True)
        if not full:
            pocket.full = False
            pocket.squeeze = max(pocket.squeeze, leg.pressed)

    def fall(self, falling):
        if not self.gives(falling.chamber):
            return
        self.pockets[falling.chamber].full = False
        origin = self.pockets[falling.chamber].most
        for chain, landing in falling.chains:
            for q, before in chain:
                pocket = self.pockets[q]
                pocket.take(origin, *(self.held(p) for p in before))
                if q != falling.chamber and (is_pipe(q) or not self.loses_by_amounts(q)):
                    pocket.full = False
                    pocket.gas = 0.0
            for node in landing:
                self.land(node, [origin] + [self.held(q) for q, _ in chain])
        for q, before in falling.standing:
            if not self.pockets[q].full:
                things = [origin, *(self.held(p) for p in before)]
                self.pockets[q].take(*things)
                if self.pockets[q].gas > 0 and not self.keeps_gas(q):
                    self.pockets[q].flooded |= {f for c in things for f, share in c.items() if share > TRACES}


def is_pipe(name):
    """A run or a body, not a chamber or vessel."""
    return name[0] in ("run", "body")


def dry(pocket, name, network):
    """What runs out by itself never stands full."""
    pocket.gas = max(pocket.gas, EMPTIED if name in network.container_index else GAS_LEFT)
    pocket.squeeze = 0.0
    pocket.full = False
