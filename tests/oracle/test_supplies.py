"""What is taken out of vessels and what is brought, on cases worked by hand.  A metre of hose of 13 mm bore holds
0.1327 L."""

import unittest

import enumerate as walker
from build import bring, dip, flow, is_, pour, procedure, put, repeat, step, system
from model import Part, Run, Vessel
from printing import print_file


def found(s, p):
    print_file(s, p)
    return {slug for slug, _ in walker.find_all(s, p)}


def pumped(litres=5):
    """A jug, a pump, 4 m to the sink: 5 m of hose in all, 0.664 L."""
    s = system([("lift", "pump"), ("wand", "wand"), ("sink", "tap")],
               [Run("wand.line", "lift.suction", "hose", 1), Run("lift.delivery", "sink.line", "hose", 4)])
    s.vessels.append(Vessel("jug", "antifreeze", litres=litres))
    return s, (is_("lift", "off"), is_("sink", "shut"), is_("wand.tip", ("in", "jug")))


def drawn(at_least=None):
    return [put("lift", "on"), put("sink", "open"), flow("jug", "sink", "shows antifreeze", at_least=at_least, at_most=9),
            put("sink", "shut"), put("lift", "off")]


class ShortSupply(unittest.TestCase):
    def short(self, *body, litres=5):
        s, start = pumped(litres)
        return "short-supply" in found(s, procedure(*body, needs=start))

    def test_what_is_to_be_filled(self):
        for litres, wanted in ((0.6, True), (0.67, False), (None, False)):
            self.assertEqual(self.short(bring("antifreeze", litres), *drawn()), wanted)

    def test_filled_once(self):
        self.assertFalse(self.short(bring("antifreeze", 0.67), *drawn(), *drawn()))
        self.assertTrue(self.short(bring("antifreeze", 0.67), *drawn(), *drawn(0.1)))

    def test_the_vessel(self):
        self.assertFalse(self.short(*drawn(2), *drawn(3)))
        self.assertTrue(self.short(*drawn(2), *drawn(3.1)))

    def test_poured(self):
        """All that is left: five litres in all."""
        for litres, wanted in ((4.9, True), (5, False)):
            self.assertEqual(self.short(bring("antifreeze", litres), *drawn(2), pour("jug", "ground")), wanted)

    def test_rounds(self):
        for times, wanted in ((5, False), (6, True)):
            s, start = pumped(5)
            p = procedure(repeat(times, step(*drawn(1))), needs=start)
            self.assertEqual("short-supply" in found(s, p), wanted)

    def test_several(self):
        self.assertFalse(self.short(bring("antifreeze", 1), bring("antifreeze", 1), *drawn(2)))
        self.assertTrue(self.short(bring("antifreeze", 1), bring("antifreeze", 0.9), *drawn(2)))
        self.assertFalse(self.short(bring("antifreeze", 1), bring("antifreeze"), *drawn(2)))


if __name__ == "__main__":
    unittest.main()
