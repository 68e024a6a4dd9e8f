"""What a pocket may hold, as bounds, and the numbers that the page gives.

For: transport.py, observations.py and claims.py.  It knows nothing of pipes.
"""

import math
from dataclasses import dataclass, field

# compiler/reference/proofs.md, Contents: "Constants".
AIR_PRESSURE = 101.325                              # kPa, p0
TRACES = 0.01
GAS_LEFT = 0.9                                      # after blowing or draining
GAS_IN_HOUSING = 0.3                                # of a pump that has drawn air
HEEL = 0.05                                         # of an emptied chamber
EMPTIED = 0.95                                      # its gas
EXPANSION = 1.5 * 0.0906
LOOKS_ALIKE = 0.1                                   # litres
STORE_LEFT = 0.1                                    # of what a store held, after it has pushed out and filled again
SWEPT_BY_A_STORE = 0.45                             # of its volume: what stands so near is passed twice when it fills
LEFT_BY_SWEEPING = 0.005
WIDE_BORE = 50                                      # mm: a pipe that falls and is so wide never stands full
RINSED = 0.05                                       # of the volume of a chamber that runs out by itself
FLUSHED = 0.1                                       # of the volume of a run or body that runs out by itself

DIRT = "dirt"


@dataclass
class Pocket:
    gas: float = 0.0                                # the least part of its volume that is gas
    full: bool = False                              # surely holds no gas
    squeeze: float = 0.0                            # kPa, the highest since `gas` was found
    most: dict = field(default_factory=dict)        # liquid or dirt -> the greatest part it may be
    taken: dict = field(default_factory=dict)       # chambers, vessels: what came in since it was last emptied
    flowed: object = None                           # `most`, but for what was only squeezed in as into a dead leg
    pushed: bool = False                            # stores: has pushed out what it held, and is not filled again
    whole: bool = False                             # vessels: nothing has been drawn from what it was filled with
    flooded: frozenset = frozenset()                # of what fell into its gas since that was found: more than traces

    def effective(self):
        return 0.0 if self.flooded else self.found_gas()

    def found_gas(self):
        return self.gas * AIR_PRESSURE / (AIR_PRESSURE + self.squeeze)

    def __post_init__(self):
        if self.flowed is None:
            self.flowed = dict(self.most)

    def take(self, *compositions, squeezed=False):
        """Takes in: the greatest of each."""
        for composition in compositions:
            for liquid, share in composition.items():
                for held in (self.most, self.taken) + (() if squeezed else (self.flowed,)):
                    if share > held.get(liquid, 0):
                        held[liquid] = share

    def becomes(self, composition):
        """Holds this and nothing else."""
        self.most = dict(composition)
        self.flowed = dict(composition)

    def loses(self, litres, volume):
        """Gas that gives way to so many litres; to all of it where that is not known."""
        self.gas = 0.0 if litres is None else max(0.0, self.gas - litres / volume)

    def empty(self, gas):
        """Blown out or drained; what is left is what it was."""
        self.gas = gas
        self.squeeze = 0.0
        self.flooded = frozenset()
        self.full = False

    def emptied(self):
        """A chamber or vessel that has run out."""
        self.empty(EMPTIED)
        self.taken = {}
        self.whole = False

    def diluted(self, n, other):
        """Well mixed with n times its volume of something else.  Of what the other has no less than there: how much of
        its own is left is not known exactly."""
        left = math.exp(-n)
        self.becomes({liquid: max(left * self.most.get(liquid, 0) + (1 - left) * other.get(liquid, 0),
                                  other.get(liquid, 0)) for liquid in set(self.most) | set(other)})


def exactly(composition):
    """A composition as a value that can be compared; rounded, so that repeating comes to an end."""
    return tuple(sorted((liquid, round(share, 12)) for liquid, share in composition.items() if share > 1e-12))


def frozen(pockets, order):
    """Contents as a value: one tuple a pocket, in this order."""
    return tuple((round(p.gas, 12), p.full, round(p.squeeze, 6), exactly(p.most), exactly(p.taken), exactly(p.flowed),
                  p.pushed, p.whole, p.flooded)
                 for p in (pockets[name] for name in order))


def thawed(contents, order):
    """{name: Pocket} of contents that were frozen."""
    return {name: Pocket(gas, full, squeeze, dict(most), dict(taken), dict(flowed), pushed, whole, flooded)
            for name, (gas, full, squeeze, most, taken, flowed, pushed, whole, flooded) in zip(order, contents)}
