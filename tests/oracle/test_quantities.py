"""What runs over and what comes back, on cases worked by hand."""

import unittest

import enumerate as walker
from build import by_hand, flow, is_, place, pour, procedure, put, repeat, step, system, take
from model import Part, Vessel
from printing import print_file


def found(s, p):
    print_file(s, p)
    return {slug for slug, _ in walker.find_all(s, p)}


def tapped(litres=10):
    s = system([("line", "main"), ("sink", "tap")], ["line.house - sink.line"])
    s.vessels.append(Vessel("bucket", litres=litres))
    return s, (is_("line", "sink", "shut"),)


def drawn(at_most=None):
    return [put("line", "open"), put("sink", "open"), flow("line", "sink", at_most=at_most), put("sink", "shut"),
            put("line", "shut")]


class Overfill(unittest.TestCase):
    def test_a_bucket(self):
        s, start = tapped()
        for bodies, wanted in (((10,), False), ((11,), True), ((None,), True), ((5, 5), False), ((6, 5), True)):
            body = [place("bucket", "sink.line")] + [x for litres in bodies for x in drawn(litres)]
            self.assertEqual("overfill" in found(s, procedure(*body, needs=start)), wanted)

    def test_poured_in_between(self):
        s, start = tapped()
        body = [place("bucket", "sink.line"), *drawn(6), take("bucket"), pour("bucket", "ground"),
                place("bucket", "sink.line"), *drawn(6)]
        self.assertNotIn("overfill", found(s, procedure(*body, needs=start)))

    def test_rounds(self):
        s, start = tapped()
        for times, wanted in ((5, False), (6, True)):
            p = procedure(step(place("bucket", "sink.line")), repeat(times, step(*drawn(2))), needs=start)
            self.assertEqual("overfill" in found(s, p), wanted)

    def test_nothing_is_poured(self):
        s, start = tapped()
        self.assertIn("no-effect", found(s, procedure(pour("bucket", "ground"), needs=start)))


class Backflow(unittest.TestCase):
    def test_devices(self):
        """Antifreeze is of category 3, grey water of 5."""
        for device, antifreeze, grey in (("stop", True, True), ("check", True, True), ("reducer", True, True),
                                         ("double_check", False, True), ("zone_valve", False, True)):
            for filled, wanted in (("antifreeze", antifreeze), ("grey", grey), ("water", False)):
                inlet, outlet = ("a", "b") if device == "stop" else ("inlet", "outlet")
                s = system([("line", "main"), ("guard", device), ("lift", "pump"), ("wand", "wand")],
                           [f"line.house - guard.{inlet}", f"guard.{outlet} - lift.delivery", "wand.line - lift.suction"])
                s.vessels.append(Vessel("jug", filled))
                start = (is_("lift", "off"), is_("line", "open"), is_("wand.tip", ("in", "jug")))
                start += (is_("guard", "open"),) if device == "stop" else ()
                self.assertEqual("backflow" in found(s, procedure(put("lift", "on"), needs=start)), wanted, (device, filled))

    def test_a_shut_supply(self):
        s = system([("line", "main"), ("lift", "pump"), ("wand", "wand")],
                   ["line.house - lift.delivery", "wand.line - lift.suction"])
        s.vessels.append(Vessel("jug", "grey"))
        start = (is_("lift", "off"), is_("wand.tip", ("in", "jug")))
        for position in ("shut", "open"):
            p = procedure(put("lift", "on"), needs=start + (is_("line", position),))
            self.assertEqual("backflow" in found(s, p), position == "open")


if __name__ == "__main__":
    unittest.main()
