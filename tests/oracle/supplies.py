"""What is taken out of the vessels that are filled with something, and what is brought: in one configuration.

For: the walk, which keeps one of these per trajectory.  It knows nothing of K.  Written from "What is taken" and
"Brought" of compiler/reference/proofs.md.
"""

import naming
from pockets import GAS_LEFT, TRACES, thawed

SAME = 0.001                                        # litres


def empty():
    return frozenset()


class Supplies:
    """Keys: ("taken", vessel), ("brought", fluid), ("listed", fluid), ("open", fluid), ("refilled", vessel),
    ("on", source), ("found", discharge); ("flowed", vessel): of what is taken, what flows have."""

    def __init__(self, frozen, network):
        self.now = dict(frozen)
        self.network = network

    def frozen(self):
        return frozenset(self.now.items())

    def filled_with(self, vessel):
        return next((v.filled for v in self.network.system.vessels if v.name == vessel), "")

    def counts(self, vessel):
        return (vessel in self.network.vessels and bool(self.filled_with(vessel))
                and self.filled_with(vessel) not in self.network.gases and ("refilled", vessel) not in self.now)

    def volume(self, vessel):
        return self.network.litres[vessel]

    def take(self, vessel, litres):
        for word in ("taken", "flowed"):
            self.now[word, vessel] = self.now.get((word, vessel), 0) + litres

    def take_all(self, vessel):
        self.now["taken", vessel] = max(self.now.get(("taken", vessel), 0), self.volume(vessel))

    # Events

    def moved(self, transport):
        """After a move: what a lifting part filled counts until it is off."""
        for key in [k for k in self.now if k[0] == "on" and k[1] not in transport.sources]:
            del self.now[key]
        running = set(transport.state.discharges)
        for key in [k for k in self.now if k[0] == "found" and k[1] not in running]:
            del self.now[key]

    def until(self, s, transport, contents, history):
        """Before what an `until` proves is credited."""
        if s.form == "drain":
            self.refill(s, transport)
            return
        pockets = thawed(contents, self.network.pockets)
        running = [d for d in transport.state.discharges if naming.names(s, d[1], d[2], self.network)]
        history = dict(history)
        pairs = sorted({(d[0], d[1]) for d in running
                        if d[0][0] == "lift" and d[1][0] == "held" and not transport.is_gas(d[0])}, key=str)
        for source, origin in pairs:
            vessel = origin[1]
            known = vessel in self.network.vessels
            fill, again = {}, {}
            for d in running:
                if d[:2] == (source, origin):
                    began = self.now.get(("found", d))
                    began = history[d].began if began is None else began
                    self.to_fill(d, transport, pockets, thawed(began, self.network.pockets), fill, again)
            litres = sum(fill.values()) + sum(again.values()) if not self.draws_empty(s) else 0
            if ("on", source) not in self.now:
                litres += sum(GAS_LEFT * self.network.litres[body] for body, port in transport.pipework.stores
                              if port in transport.graphs[source].vertices)
            self.now["on", source] = True
            if s.until == "full":
                litres += sum(self.network.litres[n] for n in self.landed_in(s, transport))
            litres = max(litres, s.at_least or 0)
            if known and self.counts(vessel):
                self.take(vessel, litres)
                if self.draws_empty(s):
                    self.take_all(vessel)
        self.refill(s, transport)

    def credited(self, s, transport, contents):
        """After it: what runs to what the flow names starts from what the pockets hold now."""
        if s.form != "drain":
            for d in transport.state.discharges:
                if naming.names_outlet(s, d[2], self.network):
                    self.now["found", d] = contents

    def draws_empty(self, s):
        return (s.until in ("stops", "only air") or
                s.until.startswith("shows ") and s.until[6:] in self.network.gases)

    def to_fill(self, discharge, transport, pockets, began, fill, again):
        """Adds the litres of each pocket that is to be filled, and of each that mixes besides."""
        network = self.network
        left_out = {discharge[1][1]} | set(transport.landing_pockets(discharge[2])) & set(network.container_index)
        has = {f for f, share in pockets[discharge[1][1]].most.items() if share > TRACES}

        def else_in(q):
            return any(share > TRACES and f not in has for f, share in began[q].most.items())

        def stands_wrong(q):
            full = began[q].gas == 0 if q in network.container_index else began[q].full
            return not full or else_in(q)

        for q, before in transport.chain(discharge):
            if q in left_out:
                continue
            if stands_wrong(q) or any(stands_wrong(p) for p in before if p not in left_out):
                fill[q] = network.litres[q]
                if began[q].gas < GAS_LEFT and else_in(q):
                    again[q] = network.litres[q]

    def landed_in(self, s, transport):
        """The chambers and vessels that the outlets it names land in, each once."""
        return {n for x in self.outlets_named(s, transport) for n in transport.landing_pockets(x)
                if n in self.network.container_index}

    def outlets_named(self, s, transport):
        """All outlets that the flow or drain names, running or not."""
        return [x for x in self.network.all_outlets if naming.names_outlet(s, x, self.network)]

    def refill(self, s, transport):
        for n in self.landed_in(s, transport):
            if n in self.network.vessels:
                self.now["refilled", n] = True

    def pour(self, s):
        if self.counts(s.vessel):
            self.take_all(s.vessel)
        if s.node in self.network.vessels:
            self.now["refilled", s.node] = True

    def bring(self, s):
        if s.litres is None:
            self.now["open", s.fluid] = True
            return
        self.now.setdefault(("listed", s.fluid), s.line)
        self.now["brought", s.fluid] = self.now.get(("brought", s.fluid), 0) + s.litres

    # Rounds

    def sums(self):
        """What a round is measured by."""
        return frozenset((k, litres) for k, litres in self.now.items() if k[0] in ("flowed", "brought"))

    def again(self, before, more):
        """So many more rounds do what has been done since the sums were these."""
        before = dict(before)
        for (word, what), litres in self.sums():
            added = more * (litres - before.get((word, what), 0))
            if added > 0:
                for key in (("flowed", what), ("taken", what)) if word == "flowed" else (("brought", what),):
                    self.now[key] = self.now.get(key, 0) + added

    # Verdicts

    def run_empty(self):
        return {k[1] for k, litres in self.now.items() if k[0] == "taken" and litres > self.volume(k[1]) + SAME}

    def short(self):
        """{line of the first bring: fluid}"""
        found = {}
        for key, line in self.now.items():
            if key[0] == "listed" and ("open", key[1]) not in self.now:
                taken = sum(litres for k, litres in self.now.items()
                            if k[0] == "taken" and self.filled_with(k[1]) == key[1])
                if taken > self.now.get(("brought", key[1]), 0) + SAME:
                    found[line] = key[1]
        return found
