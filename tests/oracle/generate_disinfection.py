"""Random small systems with a tank, and a jug of disinfectant that is drawn through them; procedures that disinfect them,
nearly so, or not for long.

For: compare.py. Of what generate_contents.py writes hardly anything is disinfected at the end, so that nothing would
tell of a checker that says so too easily.  It decides nothing about what is proved.
"""

import random

from build import dip, flow, put, stage, step, wait
from build import ensures as ensuring
from build import requires as requiring
from generate import PRESSURES
from generate_contents import ContentsWriter, Plumber, random_system
from model import Procedure, Vessel
from network import Network

# What the pump does not reach, and what it reaches only in part.
NOT_REACHED = ("tank", "selector", "cock")


class Apothecary(Plumber):
    def __init__(self, rng):
        super().__init__(rng)
        self.plain = True
        self.rings = rng.random() < 0.2             # of two ways side by side neither is surely passed

    def on_the_way(self, trunk, depth):
        if self.rings:
            super().on_the_way(trunk, depth)
            return
        far = self.tee()
        kind = self.rng.choice(("stop", "strainer", "glass", "check"))
        near, away = ("a", "b") if kind == "stop" else ("inlet", "outlet")
        name = self.part(kind)
        self.run(trunk, f"{name}.{near}")
        self.run(f"{name}.{away}", far)
        for _ in range(self.rng.choice((1, 1, 2))):
            self.branch(far, depth + 1)

    def jug(self):
        self.vessels.append(Vessel("jug", "bleach", self.rng.choice((5, 10)), strength=self.rng.choice((20, 40))))


class DisinfectionWriter(ContentsWriter):
    def __init__(self, rng, s, network, plumber):
        super().__init__(rng, s, network, plumber)
        self.care = rng.choice((0.9, 1.0, 1.0, 1.0, 1.0))

    def draw(self):
        """Through every outlet, mostly, and left to stand."""
        rng = self.rng
        reads = f"reads at least {50 if not self.slip() else rng.choice((40, 200))} mg/L"
        found = [dip(f"{self.hose}.tip", "jug"), put(self.selector, "to_right"), put(self.pump, "on")]
        for _ in range(rng.choice((1, 1, 2))):
            for name, position in self.plumber.outlets:
                if not self.slip():
                    found += [put(name, position),
                              flow("jug", (name,), reads, rng.choice((None, 1, 3)), "", None),
                              put(name, self.resting(name))]
        return found + [put(self.pump, "off"), wait(rng.choice((180,) + (240,) * 7))]

    def procedure(self):
        rng = self.rng
        plan = [self.draw]
        if rng.random() < 0.25:
            plan.insert(0, self.from_tank)
        if rng.random() < 0.25:
            plan.append(rng.choice((self.from_tank, self.drain_out, self.odd_job)))
        steps = [step(*phase) for phase in (one() for one in plan) if phase]
        parts = [p.name for p in self.s.parts]
        left_out = [p for p in parts if p.startswith(NOT_REACHED) and not self.slip()]
        left_out += [p for p in parts if p not in left_out and rng.random() < 0.15]
        claims = [("sanitised", tuple(left_out))]
        if rng.random() < 0.3:
            claims.append(("drinkable",))
        return Procedure(requires=[requiring(e) for e in self.start()], ensures=[ensuring(c) for c in claims],
                         body=[stage(*steps)])


def random_case(seed):
    """(rng, system, network, writer)"""
    rng = random.Random(f"disinfection {seed}")
    s, plumber = random_system(rng, Apothecary, (Plumber.pump_side,))
    network = Network(s, PRESSURES + (300, 400, 700))
    writer = DisinfectionWriter(rng, s, network, plumber)
    s.lineups["in_use"] = writer.line_up()
    s.for_use = "in_use"
    return rng, s, network, writer
