"""The enumerator on cases worked by hand: for each slug one that must be refused and one that must be accepted."""

import unittest
from dataclasses import replace

import enumerate as walker
import shrink
from build import (by_hand, couple, drain, flow, hold, in_case, is_, keep, meanwhile, only_with, place, pour, procedure,
                   put, repeat, step, system, verify, watch)
from model import Cover, End, Guard, Part, Run, Vessel
from printing import print_file


def found(s, p):
    """{(slug, text of the line)} of a case."""
    lines = print_file(s, p).splitlines()
    return {(slug, lines[line - 1].strip()) for slug, line in walker.find_all(s, p)}


def house(*parts, runs=(), **more):
    """A main, a tee and a kitchen tap, and what else is given."""
    return system([("street", "main"), ("sink", "tap"), *parts], ["street.house - t", "t - sink.line", *runs],
                  tees=["t"], **more)


SHUT = (is_("street", "sink", "shut"),)


class OpenPath(unittest.TestCase):
    def test_undeclared_discharge_is_refused_at_the_move(self):
        p = procedure(put("street", "open"), put("sink", "open"), put("street", "shut"), needs=SHUT)
        self.assertEqual(found(house(), p), {("open-path", "set sink to open")})

    def test_declared_discharge_is_accepted(self):
        p = procedure(put("street", "open"), put("sink", "open"), flow("street", "sink"), put("street", "shut"),
                      needs=SHUT)
        self.assertEqual(found(house(), p), set())

    def test_flow_covers_no_move_after_its_until_once_it_has_stopped(self):
        p = procedure(put("street", "open"), put("sink", "open"), flow("street", "sink"), put("sink", "shut"),
                      put("sink", "open"), put("street", "shut"), needs=SHUT)
        self.assertEqual(found(house(), p), {("open-path", "set sink to open")})

    def test_flow_covers_a_second_outlet_while_the_first_runs(self):
        s = house(("bath", "tap"), runs=["t - bath.line"])
        p = procedure(put("street", "open"), put("sink", "bath", "open"), flow("street", ("sink", "bath")),
                      put("sink", "shut"), put("sink", "open"), put("street", "shut"),
                      needs=SHUT + (is_("bath", "shut"),))
        self.assertEqual(found(s, p), set())

    def test_open_end_and_breach_are_outlets(self):
        s = house(("strainer", "filter"), ("port", "inlet"), runs=["t - strainer.inlet", "strainer.outlet - port.house"])
        p = procedure(put("street", "open"), needs=SHUT + (is_("strainer", "removed"), is_("port.mouth", "capped")))
        self.assertEqual(found(s, p), {("open-path", "set street to open")})
        p = procedure(by_hand("uncap", "port.mouth"), put("street", "open"),
                      needs=SHUT + (is_("strainer", "fitted"), is_("port.mouth", "capped"), ("no pressure", ("port.mouth",))))
        self.assertEqual(found(s, p), {("open-path", "set street to open")})

    def test_check_valve_holds_one_way(self):
        for ends, wanted in ((("inlet", "outlet"), {("open-path", "set street to open")}), (("outlet", "inlet"), set())):
            s = system([("street", "main"), ("flap", "check"), ("sink", "tap")],
                       [f"street.house - flap.{ends[0]}", f"flap.{ends[1]} - sink.line"])
            p = procedure(put("street", "open"), needs=(is_("street", "shut"), is_("sink", "open")))
            self.assertEqual(found(s, p), wanted)

    def test_filling_a_vented_tank_is_a_discharge(self):
        s = house(("cistern", "tank"), runs=["t - cistern.inlet"])
        p = procedure(put("street", "open"), needs=SHUT)
        self.assertEqual(found(s, p), {("open-path", "set street to open")})
        p = procedure(put("street", "open"), flow("street", "cistern", "full"), put("street", "shut"), needs=SHUT,
                      gives=(("holds", "cistern", "water"),))
        self.assertEqual(found(s, p), set())

    def test_pump_discharges_only_what_its_suction_may_reach(self):
        s = system([("cistern", "tank"), ("lift", "air_pump"), ("sink", "tap")],
                   ["cistern.outlet - lift.suction", "lift.delivery - sink.line"])
        base = (is_("lift", "off"), is_("sink", "open"))
        p = procedure(put("lift", "on"), needs=base)
        self.assertEqual(found(s, p), {("open-path", "set lift to on")})
        p = procedure(put("lift", "on"), needs=base + (("empty", "cistern"),))
        self.assertEqual(found(s, p), set())

    def test_relief_valve_opens_only_above_its_setting(self):
        for pressure, wanted in ((400, {("open-path", "set street to open")}), (300, set())):
            s = system([Part("street", "main", settings={"p": pressure}), ("safety", "relief")],
                       ["street.house - safety.line"])
            self.assertEqual(found(s, procedure(put("street", "open"), needs=(is_("street", "shut"),))), wanted)

    def test_gas_goes_on_over_a_fall_into_what_is_not_vented(self):
        s = system([("comp", "compressor"), ("spray", "mixer"), Part("trap", "tap"), ("line", "inlet")],
                   ["line.house - spray.cold"])
        s.parts[1].over = "trap.line"
        base = (is_("comp", "off"), is_("comp.outlet", ("coupled", "line.mouth")), is_("spray", "run_cold"),
                is_("comp.regulator", 100))
        p = procedure(put("comp", "on"), flow("comp", "spray"), put("comp", "off"), needs=base + (is_("trap", "shut"),))
        self.assertEqual(found(s, p), set())
        p = procedure(put("comp", "on"), flow("comp", "spray"), put("comp", "off"), needs=base + (is_("trap", "open"),))
        self.assertEqual(found(s, p), {("open-path", "set comp to on")})


class NeedsVerify(unittest.TestCase):
    def test_unknown_tap(self):
        p = procedure(put("street", "open"), put("street", "shut"), needs=(is_("street", "shut"),))
        self.assertEqual(found(house(), p), {("needs-verify", "set street to open")})

    def test_looked_at(self):
        p = procedure(verify(is_("sink", "shut")), put("street", "open"), needs=(is_("street", "shut"),))
        self.assertEqual(found(house(), p), set())

    def test_looking_at_what_was_moved_proves_nothing(self):
        p = procedure(put("street", "open"), needs=(is_("street", "shut"), is_("sink", "open")))
        self.assertEqual(found(house(), p), {("open-path", "set street to open")})

    def test_inherited_discharge_meets_the_first_flow_of_its_source(self):
        s = house(("bath", "tap"), runs=["t - bath.line"])
        start = (is_("street", "open"), is_("bath", "shut"))
        p = procedure(put("bath", "open"), flow("street", "bath"), put("bath", "sink", "shut"), needs=start)
        self.assertEqual(found(s, p), {("needs-verify", 'flow street to bath until clear "It does."')})
        p = procedure(put("sink", "shut"), put("bath", "open"), flow("street", "bath"), put("bath", "shut"), needs=start)
        self.assertEqual(found(s, p), set())

    def test_inherited_discharge_meets_the_end(self):
        p = procedure(step(put("street", "open")), step(verify(is_("street", "open"))))
        self.assertEqual(found(house(), p), {("needs-verify", "set street to open"), ("needs-verify", 'step "Step" {')})


class BlockedFlow(unittest.TestCase):
    def test_shut_tap(self):
        p = procedure(put("street", "open"), flow("street", "sink"), put("street", "shut"), needs=SHUT)
        self.assertEqual(found(house(), p), {("blocked-flow", 'flow street to sink until clear "It does."')})

    def test_each_outlet_named_must_run(self):
        s = house(("bath", "tap"), runs=["t - bath.line"])
        p = procedure(put("sink", "open"), put("street", "open"), flow("street", ("sink", "bath")),
                      put("street", "shut"), needs=SHUT + (is_("bath", "shut"),))
        self.assertEqual(found(s, p), {("blocked-flow", 'flow street to sink, bath until clear "It does."')})

    def test_what_a_variant_lacks_is_not_asked(self):
        s = house(Part("bath", "tap", only_with=("bathroom",)), runs=["t - bath.line"], options=["bathroom"])
        p = procedure(put("sink", "bath", "open"), put("street", "open"), flow("street", ("sink", "bath")),
                      put("street", "shut"), needs=SHUT + (is_("bath", "shut"),))
        self.assertEqual(found(s, p), set())

    def test_drain_needs_a_path_and_air(self):
        s = system([("geyser", "heater"), ("low", "cock"), ("high", "air_valve")],
                   ["geyser.cold - low.line", "geyser.hot - high.line"])
        start = (is_("low", "high", "shut"),)
        text = 'drain geyser through low until stops "It stops."'
        for moves, wanted in (((), {text}), ((put("low", "open"),), {text}), ((put("high", "open"),), {text}),
                              ((put("high", "low", "open"),), set())):
            p = procedure(*moves, drain("geyser", "low"), needs=start)
            self.assertEqual(found(s, p), {("blocked-flow", t) for t in wanted})

    def test_drain_does_not_rise(self):
        for height, wanted in ((50, set()), (150, {("blocked-flow", 'drain cistern through low until stops "It stops."')})):
            s = system([Part("cistern", "tank", height=100), Part("low", "cock", height=height)],
                       ["cistern.outlet - low.line"])
            p = procedure(put("low", "open"), drain("cistern", "low"), needs=(is_("low", "shut"),))
            self.assertEqual(found(s, p), wanted)


class LeftRunning(unittest.TestCase):
    def test_open_at_the_end(self):
        p = procedure(put("sink", "street", "open"), flow("street", "sink"), needs=SHUT)
        self.assertEqual(found(house(), p), {("left-running", 'flow street to sink until clear "It does."')})

    def test_kept_and_named_by_the_next_step(self):
        p = procedure(step(put("sink", "street", "open"), flow("street", "sink"), keep("street", "sink")),
                      step(flow("street", "sink", "shows water"), put("street", "shut")), needs=SHUT)
        self.assertEqual(found(house(), p), set())

    def test_kept_but_not_named_by_the_next_step(self):
        p = procedure(step(put("sink", "street", "open"), flow("street", "sink"), keep("street", "sink")),
                      step(put("street", "shut")), needs=SHUT)
        self.assertEqual(found(house(), p), {("left-running", "keep flow street to sink")})

    def test_stopped_by_its_own_end(self):
        s = system([("cistern", "tank"), ("lift", "air_pump"), ("sink", "tap")],
                   ["cistern.outlet - lift.suction", "lift.delivery - sink.line"])
        p = procedure(put("sink", "open"), put("lift", "on"), flow("cistern", "sink", "only air"), put("lift", "off"),
                      needs=(is_("lift", "off"), is_("sink", "shut")))
        self.assertEqual(found(s, p), set())


class UndeclaredDrain(unittest.TestCase):
    def test_low_cock(self):
        s = system([("cistern", "tank"), ("low", "cock")], ["cistern.outlet - low.line"])
        p = procedure(put("low", "open"), needs=(is_("low", "shut"),))
        self.assertEqual(found(s, p), {("undeclared-drain", "set low to open")})
        p = procedure(put("low", "open"), drain("cistern", "low"), needs=(is_("low", "shut"),))
        self.assertEqual(found(s, p), set())

    def test_category_decides_the_severity(self):
        for fluid, severity in (("water", "warning"), ("antifreeze", "error")):
            s = system([Part("cistern", "tank", holds=fluid), ("low", "cock")], ["cistern.outlet - low.line"])
            p = procedure(put("low", "open"), needs=(is_("low", "shut"),))
            print_file(s, p)
            self.assertEqual([f.severity for f in walker.find_all(s, p).values() if f.slug != "wrong-place"], [severity])

    def test_only_what_lies_low_falls_unless_heights_are_given(self):
        for height, wanted in ((None, set()), (100, {("undeclared-drain", "set low to open")})):
            s = system([Part("geyser", "heater", height=height), ("low", "cock")], ["geyser.hot - low.line"])
            p = procedure(put("low", "open"), needs=(is_("low", "shut"),))
            self.assertEqual(found(s, p), wanted)

    def test_empty_chamber_drains_nothing(self):
        s = system([("cistern", "tank"), ("low", "cock")], ["cistern.outlet - low.line"])
        p = procedure(put("low", "open"), needs=(is_("low", "shut"), ("empty", "cistern")))
        self.assertEqual(found(s, p), set())

    def test_a_bowl_catches_what_falls(self):
        s = system([("cistern", "tank"), Part("low", "cock", over="lower.inlet"), ("lower", "tank"), ("last", "cock")],
                   ["cistern.outlet - low.line", "lower.outlet - last.line"])
        p = procedure(put("low", "open"), needs=(is_("low", "last", "shut"), ("empty", "lower")))
        self.assertEqual(found(s, p), {("overfill", "set low to open")})    # 40 L do not go into 38 L
        p = procedure(put("low", "open"), needs=(is_("low", "shut"), is_("last", "open"), ("empty", "lower")))
        self.assertEqual(found(s, p), {("undeclared-drain", "set low to open")})


class Pumps(unittest.TestCase):
    def pumped(self, kind):
        return system([("cistern", "tank"), ("lift", kind), ("sink", "tap")],
                      ["cistern.outlet - lift.suction", "lift.delivery - sink.line"])

    def test_dead_head(self):
        start = (is_("lift", "off"), is_("sink", "shut"), ("holds", "cistern", "water"))
        p = procedure(put("lift", "on"), needs=start)
        self.assertEqual(found(self.pumped("plain_pump"), p), {("dead-head", "set lift to on")})
        self.assertEqual(found(self.pumped("pump"), p), set())

    def test_dry_run(self):
        p = procedure(put("lift", "on"), needs=(is_("lift", "off"), is_("sink", "shut")))
        self.assertEqual(found(self.pumped("pump"), p), {("dry-run", "set lift to on")})
        self.assertEqual(found(self.pumped("air_pump"), p), set())
        p = procedure(put("lift", "on"), needs=(is_("lift", "off"), is_("sink", "shut"), ("holds", "cistern", "liquid")))
        self.assertEqual(found(self.pumped("pump"), p), set())

    def test_suction_from_the_top_is_dry(self):
        s = system([("cistern", "tank"), ("lift", "pump"), ("sink", "tap")],
                   ["cistern.inlet - lift.suction", "lift.delivery - sink.line"])
        p = procedure(put("lift", "on"), needs=(is_("lift", "off"), is_("sink", "shut"), ("holds", "cistern", "liquid")))
        self.assertEqual(found(s, p), {("dry-run", "set lift to on")})

    def test_pump_without_power_is_no_source(self):
        s = self.pumped("pump")
        s.parts.append(Part("board", "switch"))
        s.parts[1].settings["power"] = "board"
        p = procedure(put("lift", "on"), needs=(is_("lift", "board", "off"), is_("sink", "open"),
                                                ("holds", "cistern", "water")))
        self.assertEqual(found(s, p), set())


class OverPressure(unittest.TestCase):
    def test_rating_reducer_and_relief(self):
        start = (is_("street", "shut"), is_("valve", "shut"))
        p = procedure(put("street", "open"), needs=start)
        wanted = {("over-pressure", "set street to open")}
        self.assertEqual(found(system([("street", "main"), ("valve", "weak_stop")], ["street.house - valve.a"]), p), wanted)
        s = system([("street", "main"), ("reduce", "reducer"), ("valve", "weak_stop")],
                   ["street.house - reduce.inlet", "reduce.outlet - valve.a"])
        self.assertEqual(found(s, p), set())
        for kind, found_then in (("early_relief", {("open-path", "set street to open")}),
                                 ("relief", wanted | {("open-path", "set street to open")})):
            s = system([("street", "main"), ("safety", kind), ("valve", "weak_stop")],
                       ["street.house - valve.a", "street.house - safety.line"])
            self.assertEqual(found(s, p), found_then)

    def test_a_dial_counts_at_what_it_is_set_to(self):
        s = system([("comp", "compressor"), ("line", "inlet"), ("valve", "weak_stop")], ["line.house - valve.a"])
        start = (is_("comp", "off"), is_("comp.outlet", ("coupled", "line.mouth")), is_("valve", "shut"))
        p = procedure(put("comp.regulator", 300), put("comp", "on"), needs=start)
        self.assertEqual(found(s, p), set())
        p = procedure(put("comp.regulator", 310), put("comp", "on"), needs=start)
        self.assertEqual(found(s, p), {("over-pressure", "set comp to on")})
        self.assertEqual(found(s, procedure(put("comp", "on"), needs=start)), {("needs-verify", "set comp to on")})


class Guards(unittest.TestCase):
    def test_guard_set(self):
        s = house(("strainer", "filter"), runs=["t - strainer.inlet"])
        start = SHUT + (is_("strainer", "fitted"), ("no pressure", ("strainer.inlet",)))
        p = procedure(put("strainer", "removed"), needs=start)
        self.assertEqual(found(s, p), set())
        s.kinds["filter"] = replace(s.kinds["filter"], guards=(Guard("set", "removed", is_("valve", "shut")),),
                                    partners={"valve": ("main", False)})
        s.parts[-1].settings["valve"] = "street"
        p = procedure(put("street", "open"), put("strainer", "removed"), put("street", "shut"), needs=start)
        self.assertEqual(found(s, p), {("guard", "set strainer to removed"), ("trapped-pressure", "set strainer to removed"),
                                       ("open-path", "set strainer to removed")})

    def test_guard_while(self):
        s = system([("cistern", "tank"), ("valve", "stop"), ("lift", "guarded_pump"), ("sink", "tap")],
                   ["cistern.outlet - valve.a", "valve.b - lift.suction", "lift.delivery - sink.line"])
        start = (is_("lift", "off"), is_("sink", "shut"), ("holds", "cistern", "water"), is_("valve", "open"))
        p = procedure(put("lift", "on"), put("lift", "off"), needs=start)
        self.assertEqual(found(s, p), set())
        p = procedure(put("lift", "on"), put("valve", "shut"), needs=start)
        self.assertEqual(found(s, p), {("guard", "set valve to shut"), ("dry-run", "set valve to shut")})

    def test_couple_of_an_end_that_is_not_open(self):
        s = system([("a", "inlet"), ("b", "inlet")])
        p = procedure(couple("a.mouth", "b.mouth"), needs=(is_("a.mouth", "capped"), is_("b.mouth", "open")))
        self.assertEqual(found(s, p), {("guard", "couple a.mouth to b.mouth")})
        p = procedure(by_hand("uncap", "a.mouth"), couple("a.mouth", "b.mouth"),
                      needs=(is_("a.mouth", "capped"), is_("b.mouth", "open")), gives=(
                          is_("b.mouth", ("coupled", "a.mouth")),))
        self.assertEqual(found(s, p), set())


class Contracts(unittest.TestCase):
    def test_ensures(self):
        p = procedure(put("sink", "shut"), gives=(is_("sink", "shut"), is_("street", "shut")))
        self.assertEqual(found(house(), p) & {("unmet-ensures", "ensures sink is shut")}, set())
        self.assertIn(("unmet-ensures", "ensures street is shut"), found(house(), p))

    def test_requires_of_a_step(self):
        from build import requires
        p = procedure(step(put("sink", "open")), step(requires(is_("sink", "shut"))), needs=SHUT)
        self.assertEqual(found(house(), p), {("unmet-requires", "requires sink is shut")})
        p = procedure(step(put("sink", "open")), step(requires(is_("sink", "open"))), needs=SHUT)
        self.assertEqual(found(house(), p), set())

    def test_never_true_stops_the_walk(self):
        p = procedure(verify(is_("sink", "open")), put("street", "open"), put("sink", "open"), needs=SHUT)
        self.assertEqual(found(house(), p), {("never-true", "verify sink is open")})
        p = procedure(put("street", "open"), needs=(is_("sink", "open"), is_("sink", "shut")))
        self.assertEqual(found(house(), p), {("never-true", "requires sink is shut")})

    def test_no_effect(self):
        p = procedure(put("sink", "shut"), needs=SHUT)
        self.assertEqual(found(house(), p), {("no-effect", "set sink to shut")})
        p = procedure(repeat(3, put("sink", "open"), put("sink", "shut")), needs=SHUT)
        self.assertEqual(found(house(), p), set())

    def test_both_branches_of_a_case(self):
        p = procedure(in_case(put("sink", "open")), needs=SHUT, gives=(is_("sink", "open"),))
        self.assertEqual(found(house(), p), {("unmet-ensures", "ensures sink is open")})
        p = procedure(in_case(put("sink", "open")), put("sink", "open"), needs=SHUT, gives=(is_("sink", "open"),))
        self.assertEqual(found(house(), p), set())

    def test_what_a_variant_lacks_counts_as_true(self):
        s = house(Part("bath", "tap", only_with=("bathroom",)), runs=["t - bath.line"], options=["bathroom"])
        p = procedure(only_with("bathroom", put("bath", "shut")), needs=SHUT, gives=(is_("bath", "shut"),))
        self.assertEqual(found(s, p), set())


class Access(unittest.TestCase):
    def test_shut_covers_nest(self):
        s = house(covers=[Cover("lid", "yard"), Cover("panel", "yard", ("lid",))])
        s.parts[1].places = (("yard", ("panel",)),)
        start = SHUT + (is_("lid", "panel", "shut"),)
        p = procedure(put("panel", "open"), put("lid", "open"), put("sink", "open"), needs=start)
        self.assertEqual(found(s, p), {("out-of-reach", "set panel to open")})
        p = procedure(put("lid", "open"), put("panel", "open"), put("sink", "open"), put("lid", "shut"),
                      verify(is_("sink", "open")), watch("sink"), needs=start)
        self.assertEqual(found(s, p), {("out-of-reach", "verify sink is open"), ("out-of-reach", 'watch "It does." at sink')})

    def test_one_place_that_can_be_reached_is_enough(self):
        s = house(covers=[Cover("lid", "yard")])
        s.parts[1].places = (("yard", ("lid",)), ("yard", ()))
        self.assertEqual(found(s, procedure(put("sink", "open"), needs=SHUT + (is_("lid", "shut"),))), set())


class Contents(unittest.TestCase):
    def test_bucket_filled_and_poured_away(self):
        s = house(vessels=[Vessel("bucket")])
        filled = (place("bucket", "sink.line"), put("sink", "street", "open"), flow("street", "sink", "full"),
                  put("street", "shut"))
        self.assertEqual(found(s, procedure(*filled, needs=SHUT, gives=(("holds", "bucket", "water"),))), set())
        p = procedure(*filled, pour("bucket", "ground"), needs=SHUT, gives=(("empty", "bucket"),))
        self.assertEqual(found(s, p), set())
        p = procedure(*filled, needs=SHUT, gives=(("empty", "bucket"),))
        self.assertEqual(found(s, p), {("unmet-ensures", "ensures bucket is empty")})

    def test_a_pump_draws_from_a_dipped_hose(self):
        s = system([("hose", "wand"), ("lift", "pump"), Part("sink", "tap", over="gully")],
                   ["hose.line - lift.suction", "lift.delivery - sink.line"], vessels=[Vessel("jug", "antifreeze")],
                   places=["gully"])
        from build import dip
        start = (is_("lift", "off"), is_("sink", "shut"), is_("hose.tip", "open"))
        p = procedure(dip("hose.tip", "jug"), put("lift", "on"), put("sink", "open"), flow("jug", "sink"),
                      put("lift", "off"), needs=start)
        self.assertEqual(found(s, p), set())
        p = procedure(put("lift", "on"), put("lift", "off"), needs=start)
        self.assertEqual(found(s, p), {("dry-run", "set lift to on")})

    def test_meanwhile_drain_covers_the_steps_within(self):
        s = system([("cistern", "tank"), ("low", "cock"), ("high", "cock")], ["cistern.outlet - low.line",
                                                                               "cistern.outlet - high.line"])
        start = (is_("low", "high", "shut"),)
        p = procedure(meanwhile(drain("cistern", ("low", "high")), step(put("low", "open")), step(put("high", "open"))),
                      needs=start, gives=(("empty", "cistern"),))
        self.assertEqual(found(s, p), set())
        p = procedure(meanwhile(drain("cistern", "low"), step(put("low", "open")), step(put("high", "open"))),
                      needs=start)
        self.assertEqual(found(s, p), {("undeclared-drain", "set high to open")})

    def test_held_tap_runs_until_it_is_let_go(self):
        s = system([("street", "main"), ("push", "push_tap")], ["street.house - push.line"])
        start = (is_("street", "open"), is_("push", "shut"))
        p = procedure(hold("push", "down", flow("street", "push")), needs=start)
        self.assertEqual(found(s, p), set())
        self.assertEqual(found(s, procedure(hold("push", "down"), needs=start)), {("open-path", "hold push at down {")})


class Starts(unittest.TestCase):
    def test_ends_are_matched(self):
        from network import Network
        s = system([("a", "inlet"), ("b", "inlet"), ("c", "wand")], vessels=[Vessel("jug")])
        # each end alone: open, dipped, and for a and b capped: 3 * 3 * 2; a with b: 2; a or b with c: 3 each
        self.assertEqual(len(list(Network(s).start_configurations())), 18 + 2 + 3 + 3)

    def test_a_dial_is_tried_on_both_sides_of_what_it_is_compared_with(self):
        from network import Network
        s = system([("comp", "compressor"), ("valve", "weak_stop")])
        values = Network(s).variables[1][2]
        self.assertTrue({0, 300, 600} <= set(values))
        self.assertTrue(any(300 < v < 350 for v in values))

    def test_runs_need_both_ends(self):
        s = house(Part("bath", "tap", only_with=("bathroom",)), runs=["t - bath.line"], options=["bathroom"])
        s.runs.append(Run("bath.line", "street.house", "hose", only_with=("bathroom",)))
        p = procedure(put("street", "open"), needs=SHUT + (is_("bath", "open"),))
        self.assertEqual(found(s, p), {("open-path", "set street to open")})

    def test_free_end(self):
        s = house(runs=["t - hose"], ends=[End("hose", "quick", cap=True, at="yard")])
        p = procedure(put("street", "open"), needs=SHUT + (is_("hose", "open"),))
        self.assertEqual(found(s, p), {("open-path", "set street to open")})


class Shrinking(unittest.TestCase):
    def test_a_lineup_names_nothing_that_is_gone(self):
        s = house()
        s.lineups["resting"] = [("sink", "shut"), ("sink.line", ("coupled", "wand_1.tip")), ("gone", "shut")]
        shrink.tidy((s, procedure()))
        self.assertEqual(s.lineups["resting"], [("sink", "shut")])


if __name__ == "__main__":
    unittest.main()
