"""Disinfection on cases worked by hand."""

import unittest

import enumerate as walker
from build import by_hand, flow, is_, procedure, put, system, wait
from model import Part, Vessel
from printing import print_file

# A pump draws bleach from a jug, or water from a cistern; two taps over a gully.
START = (is_("lift", "off"), is_("hose.tip", ("in", "jug")), is_("side", "to_right"), ("holds", "jug", "bleach"),
         ("holds", "cistern", "water"), is_("sink", "bath", "shut"))
CLAIM = ("sanitised", ("cistern",))


def house(*parts, runs=("lift.delivery - t", "t - sink.line", "t - bath.line")):
    s = system([("cistern", "tank"), ("hose", "wand"), ("side", "selector"), ("lift", "pump"), Part("sink", "tap", over="gully"),
                Part("bath", "tap", over="gully"), *parts],
               ["cistern.outlet - side.left", "hose.line - side.right", "side.common - lift.suction", *runs],
               vessels=[Vessel("jug", "bleach")], places=["gully"], tees=["t"])
    s.lineups["in_use"] = [("lift", "on"), ("side", "to_left"), ("sink", "shut"), ("bath", "shut")]
    s.for_use = "in_use"
    s.accepts["gully"] = (("water", "bleach"), (), ())
    return s


def drawn(outlet, until="reads at least 50 mg/L", source="jug", at_least=None):
    return [put(outlet, "open"), flow(source, outlet, until, at_least), put(outlet, "shut")]


def told(s, *body, claim=CLAIM):
    """The pockets that are not sanitised at the end; nothing else may be asked of contents."""
    p = procedure(*body, needs=START, gives=(claim,))
    print_file(s, p)
    found = {slug: f for (slug, _), f in walker.find_all(s, p).items()}
    return found["not-sanitised"].detail[1] if "not-sanitised" in found else []


ON, OFF = put("lift", "on"), put("lift", "off")
BOTH = [*drawn("sink"), *drawn("bath")]


class Sanitised(unittest.TestCase):
    def test_read_at_both_taps_and_left_alone(self):
        self.assertEqual(told(house(), ON, *BOTH, OFF, wait(240)), [])

    def test_time(self):
        for minutes, wanted in ((239, False), (240, True), (300, True)):
            self.assertEqual(told(house(), ON, *BOTH, OFF, wait(minutes)) == [], wanted)
        self.assertEqual(told(house(), ON, *BOTH, OFF, wait(120), wait(120)), [])

    def test_strength(self):
        for until, minutes, wanted in (("reads at least 40 mg/L", 600, False), ("reads at least 200 mg/L", 180, True),
                                       ("reads at least 199 mg/L", 180, False), ("shows bleach", 600, False)):
            self.assertEqual(told(house(), ON, *drawn("sink", until), *drawn("bath", until), OFF, wait(minutes)) == [], wanted)

    def test_a_tap_is_forgotten(self):
        self.assertEqual(told(house(), ON, *drawn("sink"), OFF, wait(240)), [("run", 5)])

    def test_what_is_left_out(self):
        self.assertEqual(told(house(), ON, *drawn("sink"), OFF, wait(240), claim=("sanitised", ("cistern", "bath"))), [])
        self.assertIn("cistern.body", told(house(), ON, *BOTH, OFF, wait(240), claim=("sanitised", ())))

    def test_water_comes_in_before_the_time_is_over(self):
        back = [by_hand("lift", "hose.tip"), put("side", "to_left"), ON, *drawn("sink", "clear", "cistern"), OFF]
        self.assertNotEqual(told(house(), ON, *BOTH, OFF, wait(120), *back, wait(120)), [])

    def test_water_that_is_not_disinfected_spoils_it_afterwards(self):
        """But not where the cistern is left out: whoever leaves it out answers for its water."""
        back = [by_hand("lift", "hose.tip"), put("side", "to_left"), ON, *drawn("sink", "clear", "cistern"), OFF]
        self.assertEqual(told(house(), ON, *BOTH, OFF, wait(240), *back), [])
        p = told(house(), ON, *BOTH, OFF, wait(240), *back, claim=("sanitised", ()))
        self.assertIn(("run", 4), p)
        self.assertNotIn(("run", 5), p)

    def test_an_opening_takes_it_away(self):
        s = house(("screen", "filter"), runs=("lift.delivery - screen.inlet", "screen.outlet - t", "t - sink.line",
                                              "t - bath.line"))
        start = [put("screen", "fitted"), ON, *BOTH, OFF, put("sink", "open"), put("sink", "shut"), wait(240)]
        self.assertEqual(told(s, *start), [])
        self.assertEqual(set(told(s, *start, put("screen", "removed"), put("screen", "fitted"))), {("run", 3), ("run", 4)})

    def test_what_stood_there_already_reads_alike(self):
        """A second reading tells nothing of what lies before what the first has filled."""
        s = house()
        for run in s.runs:
            run.length = 10
        weak = [*drawn("sink", "shows bleach"), *drawn("bath", "shows bleach")]
        self.assertNotEqual(told(s, ON, *weak, *BOTH, OFF, wait(240)), [])
        strong = [*drawn("sink", at_least=40), *drawn("bath", at_least=40)]
        self.assertEqual(told(s, ON, *weak, *strong, OFF, wait(240)), [])


class NeverFlushed(unittest.TestCase):
    def test_a_branch(self):
        s = system([("street", "main"), ("sink", "tap"), ("bath", "tap")], ["street.house - t", "t - sink.line", "t - bath.line"],
                   tees=["t"])
        s.lineups["in_use"] = [("street", "open"), ("sink", "shut"), ("bath", "shut")]
        s.for_use = "in_use"
        start = (is_("street", "sink", "bath", "shut"),)

        def stale(*body):
            p = procedure(put("street", "open"), *body, needs=start, gives=(("drinkable",),))
            print_file(s, p)
            found = {slug: f for (slug, _), f in walker.find_all(s, p).items()}
            return found["never-flushed"].detail[1] if "never-flushed" in found else []

        one = [put("sink", "open"), flow("street", "sink"), put("sink", "shut")]
        other = [put("bath", "open"), flow("street", "bath"), put("bath", "shut")]
        self.assertEqual(stale(*one), [("run", 2)])
        self.assertEqual(stale(*one, *other), [])


if __name__ == "__main__":
    unittest.main()
