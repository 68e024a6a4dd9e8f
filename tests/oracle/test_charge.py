"""The enumerator on pressure that stays, worked by hand: each rule of the page once so that it refuses, once so that it
does not."""

import unittest

from build import by_hand, drain, flow, is_, procedure, put, system, verify
from test_enumerate import SHUT, found, house

OPENED = ("trapped-pressure", "set strainer to removed")
UNDER = ("no pressure", ())


def with_strainer(*parts, runs=()):
    return house(("strainer", "plug"), *parts, runs=["t - strainer.line", *runs])


def start(*more):
    return SHUT + (is_("strainer", "fitted"), *more)


class Liquid(unittest.TestCase):
    def test_what_is_shut_in_stays_and_a_tap_lets_it_off(self):
        s = with_strainer()
        for moves, wanted in (((), {OPENED}), ((put("sink", "open"), put("sink", "shut")), set())):
            p = procedure(put("street", "open"), put("street", "shut"), *moves, put("strainer", "removed"),
                          needs=start(UNDER))
            self.assertEqual(found(s, p), wanted)

    def test_it_spreads_to_what_is_joined_later(self):
        s = with_strainer(("valve", "stop"), ("far", "plug"), runs=["t - valve.a", "valve.b - far.line"])
        p = procedure(put("street", "open"), put("street", "shut"), put("valve", "open"), put("valve", "shut"),
                      put("far", "removed"), needs=start(UNDER, is_("valve", "shut"), is_("far", "fitted")))
        self.assertEqual(found(s, p), {("trapped-pressure", "set far to removed")})

    def test_a_check_valve_keeps_what_is_behind_it(self):
        s = with_strainer(("flap", "check"), ("far", "plug"), runs=["t - flap.inlet", "flap.outlet - far.line"])
        p = procedure(put("street", "open"), put("street", "shut"), put("sink", "open"), put("sink", "shut"),
                      put("strainer", "removed"), put("far", "removed"), needs=start(UNDER, is_("far", "fitted")))
        self.assertEqual(found(s, p), {("trapped-pressure", "set far to removed")})

    def test_a_relief_valve_is_no_way_out(self):
        s = with_strainer(("safety", "relief"), runs=["t - safety.line"])
        p = procedure(put("street", "open"), put("street", "shut"), put("strainer", "removed"), needs=start(UNDER))
        self.assertIn(OPENED, found(s, p))

    def test_what_is_heated_while_it_is_closed_is_charged(self):
        s = with_strainer(("kettle", "warmer"), runs=["t - kettle.hot"])
        for moves, wanted in (((), {OPENED}), ((put("sink", "open"), put("sink", "shut")), set())):
            p = procedure(put("kettle", "on"), put("kettle", "off"), *moves, put("strainer", "removed"),
                          needs=start(UNDER, is_("kettle", "off")))
            self.assertEqual({OPENED} & found(s, p), wanted)

    def test_a_coupling_and_a_cap(self):
        s = house(("port", "inlet"), ("joint", "joint"), runs=["t - port.house"])
        needs = SHUT + (UNDER, is_("port.mouth", ("coupled", "joint.a")), is_("joint.b", "capped"))
        p = procedure(put("street", "open"), put("street", "shut"), by_hand("uncap", "joint.b"),
                      by_hand("uncouple", "joint.a"), needs=needs)
        self.assertEqual(found(s, p), {("trapped-pressure", "uncap joint.b")})
        p = procedure(put("street", "open"), put("street", "shut"), by_hand("uncouple", "joint.a"), needs=needs)
        self.assertEqual(found(s, p), {("trapped-pressure", "uncouple joint.a")})


class Gas(unittest.TestCase):
    def air(self, *parts, runs=()):
        return system([("comp", "compressor"), ("port", "inlet"), ("sink", "tap"), ("strainer", "plug"), *parts],
                      ["port.house - t", "t - sink.line", "t - strainer.line", *runs], tees=["t"])

    NEEDS = (is_("comp", "off"), is_("comp.outlet", ("coupled", "port.mouth")), is_("comp.regulator", 150),
             is_("sink", "shut"), is_("strainer", "fitted"), UNDER)

    def test_pipes_that_gas_pushes_out_need_no_air(self):
        for moves, wanted in (((put("comp", "on"), put("comp", "off")), set()),
                              ((), {("blocked-flow", 'drain pipes through sink until stops "It stops."')})):
            p = procedure(*moves, put("sink", "open"), drain("pipes", "sink"), put("sink", "shut"), needs=self.NEEDS)
            blocked = {f for f in found(self.air(), p) if f[0] == "blocked-flow"}
            self.assertEqual(blocked, wanted)

    def test_a_tap_that_was_open_for_a_moment_does_not_do(self):
        moves = put("comp", "on"), put("comp", "off"), put("sink", "open")
        p = procedure(*moves, put("sink", "shut"), put("strainer", "removed"), needs=self.NEEDS)
        self.assertEqual(found(self.air(), p), {OPENED})
        p = procedure(*moves, flow("comp", "sink", "stops"), put("sink", "shut"), put("strainer", "removed"),
                      needs=self.NEEDS)
        self.assertEqual(found(self.air(), p), set())

    def test_it_does_not_go_while_water_is_pressed_behind_it(self):
        s = self.air(("street", "main"), runs=["street.house - t"])
        moves = put("comp", "on"), put("comp", "off"), put("street", "open"), put("sink", "open"), flow("street", "sink")
        p = procedure(*moves, put("street", "shut"), put("sink", "shut"), put("strainer", "removed"),
                      needs=self.NEEDS + (is_("street", "shut"),))
        self.assertEqual(found(s, p), {OPENED})

    def test_an_open_end_lets_it_off_at_once(self):
        s = self.air(("spare", "inlet"), runs=["t - spare.house"])
        p = procedure(put("comp", "on"), flow("comp", "spare.mouth", "only air"), put("comp", "off"),
                      put("strainer", "removed"), needs=self.NEEDS + (is_("spare.mouth", "open"),))
        self.assertEqual(found(s, p), set())

    def test_water_before_it_waits_for_it(self):
        s = with_strainer(("flap", "check"), ("bladder", "bladder"), ("drain", "cock"),
                          runs=["t - flap.inlet", "flap.outlet - bladder.line", "bladder.line - drain.line"])
        needs = start(UNDER, is_("drain", "shut"))
        moves = put("street", "open"), put("street", "shut"), put("drain", "open"), put("drain", "shut")
        p = procedure(*moves, put("strainer", "removed"), needs=needs)
        self.assertEqual(found(s, p), {OPENED})

    def test_a_bladder_presses_on(self):
        s = with_strainer(("bladder", "bladder"), runs=["t - bladder.line"])
        p = procedure(put("street", "open"), put("street", "shut"), put("sink", "open"), put("sink", "shut"),
                      put("strainer", "removed"), needs=start(UNDER))
        self.assertEqual(found(s, p), {OPENED})


class Start(unittest.TestCase):
    def test_whatever_could_have_been_pressed_is(self):
        s = with_strainer(("valve", "stop"), ("far", "plug"), runs=["t - valve.a", "valve.b - far.line"])
        needs = start(is_("valve", "shut"), is_("far", "fitted"))
        p = procedure(put("far", "removed"), needs=needs)
        self.assertEqual(found(s, p), {("trapped-pressure", "set far to removed")})
        p = procedure(verify(("no pressure", ("far.line",))), put("far", "removed"), needs=needs)
        self.assertEqual(found(s, p), set())

    def test_what_stands_open_is_not(self):
        p = procedure(put("strainer", "removed"), needs=(is_("street", "shut"), is_("sink", "open"),
                                                         is_("strainer", "fitted")))
        self.assertEqual(found(with_strainer(), p), set())

    def test_one_look_may_settle_it(self):
        p = procedure(put("strainer", "removed"), needs=(is_("street", "shut"), is_("strainer", "fitted")))
        self.assertEqual(found(with_strainer(), p), {("needs-verify", "set strainer to removed")})

    def test_no_pressure_rules_out_what_it_would_come_from(self):
        s = with_strainer(("flap", "check"), ("far", "plug"), runs=["t - flap.inlet", "flap.outlet - far.line"])
        needs = start(is_("far", "fitted"))
        p = procedure(put("strainer", "removed"), needs=needs + (("no pressure", ("far.line",)),))
        self.assertEqual(found(s, p), set())
        p = procedure(put("far", "removed"), needs=needs + (("no pressure", ("strainer.line",)),))
        self.assertEqual(found(s, p), {("trapped-pressure", "set far to removed")})


if __name__ == "__main__":
    unittest.main()
