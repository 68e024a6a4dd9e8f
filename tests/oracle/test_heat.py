"""Heat in the enumerator, on cases worked by hand: what must be refused and what must be accepted."""

import unittest

from build import (drain, flow, in_case, is_, only_with, procedure, put, repeat, step, system, verify, wait)
from test_enumerate import found

KETTLE = (is_("pot", "off"), is_("pot.plug", "fitted"), ("holds", "pot", "water"))
OPEN = "set pot.plug to removed"


def kitchen(**more):
    """A kettle of 40 minutes with a plug."""
    return system([("pot", "kettle")], **more)


def emptied(*before, needs=KETTLE, **more):
    """What is found where the kettle's plug comes out after these statements."""
    p = procedure(*before, put("pot.plug", "removed"), drain("pot", "pot.plug"), needs=needs)
    return {x for x in found(kitchen(**more), p) if x[0] in ("scald", "dry-fire", "needs-verify")}


class Scald(unittest.TestCase):
    def test_what_can_be_heated_is_hot_at_the_start(self):
        self.assertEqual(emptied(), {("scald", OPEN)})

    def test_it_is_cool_after_its_time(self):
        self.assertEqual(emptied(wait(40)), set())
        self.assertEqual(emptied(wait(39)), {("scald", OPEN)})

    def test_waits_add_up(self):
        self.assertEqual(emptied(wait(20), wait(20)), set())

    def test_heating_in_between_starts_anew(self):
        self.assertEqual(emptied(wait(20), put("pot", "on"), put("pot", "off"), wait(20)), {("scald", OPEN)})

    def test_waiting_while_it_is_on_counts_for_nothing(self):
        self.assertEqual(emptied(put("pot", "on"), wait(40), put("pot", "off")), {("scald", OPEN)})

    def test_somebody_looks(self):
        self.assertEqual(emptied(verify(("cool", "pot"))), set())
        self.assertEqual(emptied(needs=KETTLE + (("cool", "pot"),)), set())

    def test_a_case_that_may_not_come_up_cools_nothing(self):
        self.assertEqual(emptied(in_case(wait(40))), {("scald", OPEN)})

    def test_a_variant_that_does_not_wait(self):
        self.assertEqual(emptied(only_with("slow", wait(40)), options=["slow"]), {("scald", OPEN)})

    def test_one_may_stop_after_the_first_round(self):
        self.assertEqual(emptied(repeat(3, wait(20))), {("scald", OPEN)})
        self.assertEqual(emptied(repeat(3, wait(40))), set())

    def test_what_is_empty_scalds_nobody(self):
        self.assertEqual(emptied(needs=(is_("pot", "off"), is_("pot.plug", "fitted"), ("empty", "pot"))), set())

    def test_it_is_heated_over_an_open_plug(self):
        p = procedure(put("pot", "on"), put("pot", "off"), needs=(
            is_("pot", "off"), is_("pot.plug", "removed"), ("holds", "pot", "water"), ("cool", "pot")))
        self.assertEqual(found(kitchen(), p), {("scald", "set pot to on")})

    def test_a_hot_draw_at_a_tap_is_none(self):
        s = system([("street", "main"), ("pot", "kettle"), ("sink", "tap")],
                   ["street.house - pot.cold", "pot.hot - sink.line"])
        p = procedure(put("street", "open"), put("sink", "open"), flow("street", "sink"), put("sink", "shut"),
                      put("street", "shut"), needs=KETTLE + (is_("street", "sink", "shut"),))
        self.assertEqual(found(s, p), set())

    def test_nothing_says_how_long_a_coil_takes(self):
        p = procedure(wait(40), put("hose", "open"), needs=(is_("hose", "cold"), ("holds", "hose", "water")))
        self.assertIn(("scald", "set hose to open"), found(system([("hose", "coil")]), p))


class DryFire(unittest.TestCase):
    def test_on_over_what_may_be_empty(self):
        p = procedure(put("pot", "on"), needs=KETTLE[:2])
        self.assertEqual(found(kitchen(), p), {("dry-fire", "set pot to on")})

    def test_on_over_what_surely_holds(self):
        self.assertEqual(found(kitchen(), procedure(put("pot", "on"), needs=KETTLE)), set())

    def test_its_power_may_be_off(self):
        s = system([("board", "switch"), ("pot", "kettle")])
        s.parts[1].settings["power"] = "board"
        off = KETTLE[:2] + (is_("board", "off"),)
        self.assertEqual(found(s, procedure(put("pot", "on"), needs=off)), set())
        self.assertEqual(found(s, procedure(put("pot", "on"), put("board", "on"), needs=off)),
                         {("dry-fire", "set board to on")})

    def test_emptied_while_it_was_on_at_the_start(self):
        p = procedure(drain("pot", "pot.plug"), needs=(is_("pot", "on"), is_("pot.plug", "removed")))
        self.assertIn(("dry-fire", 'drain pot through pot.plug until stops "It stops."'), found(kitchen(), p))

    def test_a_guard_of_its_kind_speaks_in_its_place(self):
        p = procedure(put("tall", "on"), needs=(is_("tall", "off"),))
        self.assertEqual(found(system([("tall", "geyser")]), p), {("guard", "set tall to on")})
        p = procedure(put("tall", "half"), needs=(is_("tall", "off"),))
        self.assertEqual(found(system([("tall", "geyser")]), p), {("dry-fire", "set tall to half")})


class Cool(unittest.TestCase):
    def test_promised_and_kept(self):
        for minutes, wanted in ((40, set()), (20, {("unmet-ensures", "ensures pot is cool")})):
            p = procedure(step(wait(minutes)), needs=KETTLE, gives=(("cool", "pot"),))
            self.assertEqual(found(kitchen(), p), wanted)

    def test_nobody_can_feel_that_it_is_cool_while_it_is_on(self):
        p = procedure(verify(("cool", "pot")), needs=(is_("pot", "on"), ("holds", "pot", "water")))
        self.assertEqual(found(kitchen(), p), {("never-true", "verify pot is cool")})
        p = procedure(needs=(is_("pot", "on"), ("cool", "pot")))
        self.assertIn("never-true", {slug for slug, _ in found(kitchen(), p)})


if __name__ == "__main__":
    unittest.main()
