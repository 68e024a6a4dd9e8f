"""Random small systems that can be blown out, drained, filled with antifreeze and flushed, and procedures that do so, well
or badly.

For: compare.py, beside generate.py, whose systems are wilder and whose procedures seldom clear anything.  It decides
nothing about what is proved.
"""

import random

from build import bring, by_hand, couple, dip, drain, flow, is_, place, pour, put, stage, step, system, take, wait
from build import ensures as ensuring
from build import requires as requiring
from generate import Writer, PRESSURES, choose_options, drop_loose_tees
from model import End, Part, Procedure, Run, Vessel

BODIES = ("stop", "selector", "selector_off", "check", "reducer", "tap", "mixer", "cock", "pump", "air_pump", "filter", "inlet",
          "wand", "compressor", "push_tap")
CLAIMS = (("frost safe", -5), ("frost safe", -5), ("frost safe", -5), ("frost safe", -18), ("drinkable",), ("drinkable",),
          ("restored",))


class Plumber:
    """Builds a system from a trunk outwards; keeps what a procedure can use."""

    def __init__(self, rng):
        self.rng = rng
        self.parts = []
        self.runs = []
        self.tees = []
        self.vessels = []
        self.outlets = []                           # (part, position that lets out)
        self.cocks = []
        self.chambers = []
        self.air = []                               # parts that let air in, opened
        self.mouths = []                            # inlets on which a hose may be coupled
        self.count = 0
        self.plain = rng.random() < 0.6             # nothing that no flow can clear

    def part(self, kind, over="", **more):
        self.count += 1
        made = Part(f"{kind}_{self.count}", kind, over=over, **more)
        self.parts.append(made)
        return made.name

    def tee(self):
        self.tees.append(f"t{len(self.tees)}")
        return self.tees[-1]

    def run(self, a, b, falls=None):
        """A run; it falls to a, to b or to neither."""
        rng = self.rng
        falls = rng.choice((a, b, "", "")) if falls is None else falls
        self.runs.append(Run(a, b, rng.choice(("hose", "hose", "thin", "wide")), rng.choice((0.2, 0.5, 1, 1, 3)),
                             falls if rng.random() < 0.85 else ""))

    def over(self):
        return self.rng.choice(("gully",) * 5 + ("",))

    # Where things come in

    def air_inlet(self, trunk):
        """A compressor and a standpipe, one of which is on the inlet."""
        rng = self.rng
        inlet = self.part("inlet")
        self.mouths.append(f"{inlet}.mouth")
        near = trunk
        if rng.random() < 0.4:
            flap = self.part(rng.choice(("check", "reducer")))
            self.run(f"{flap}.outlet", trunk)
            near = f"{flap}.inlet"
        self.run(f"{inlet}.house", near)
        self.part("compressor")
        if rng.random() < 0.8:
            self.part("post", settings={"p": rng.choice((300, 400, 700))})

    def pump_side(self, trunk):
        """A tank and a jug hose on a pump, by a selector."""
        rng = self.rng
        tank = self.part("tank")
        self.chambers.append(tank)
        hose = self.part("wand")
        side = self.part("selector")
        lift = self.part(rng.choice(("pump", "pump", "air_pump")))
        self.run(f"{tank}.outlet", f"{side}.left", rng.choice((f"{tank}.outlet", f"{tank}.outlet", f"{side}.left", "")))
        self.run(f"{hose}.line", f"{side}.right")
        self.run(f"{side}.common", f"{lift}.suction")
        self.run(f"{lift}.delivery", trunk)
        self.jug()
        if rng.random() < 0.7:
            drain_cock = self.part("cock", self.over())
            self.cocks.append(drain_cock)
            self.run(f"{tank}.outlet", f"{drain_cock}.line", f"{drain_cock}.line")

    def hose_side(self, trunk):
        """A jug hose on a pump."""
        rng = self.rng
        hose = self.part("wand")
        lift = self.part(rng.choice(("pump", "pump", "air_pump")))
        self.run(f"{hose}.line", f"{lift}.suction")
        self.run(f"{lift}.delivery", trunk)
        self.jug()

    def jug(self):
        rng = self.rng
        self.vessels.append(Vessel("jug", rng.choice(("antifreeze",) * 5 + ("bleach",) * 3 + ("water",)), rng.choice((5, 10)),
                                   strength=rng.choice((20, 30, 40, 40))))

    def mains_side(self, trunk):
        main = self.part("main")
        near = trunk
        if self.rng.random() < 0.3:
            near = f"{self.part('ball')}.a"
            self.run(near[:-1] + "b", trunk)
        self.run(f"{main}.house", near)

    # Where things go

    def branch(self, trunk, depth=0):
        rng = self.rng
        roll = rng.random()
        if roll < (0.3 if self.plain else 0.4):
            self.tap(trunk)
        elif roll < 0.52 or self.plain and roll < 0.6 and depth == 2:
            cock = self.part("cock", self.over())
            self.cocks.append(cock)
            self.outlets.append((cock, "open"))
            self.run(trunk, f"{cock}.line", f"{cock}.line")
        elif roll < 0.60 or self.plain and depth == 2:
            mixer = self.part("mixer", self.over())
            self.run(trunk, f"{mixer}.cold")
            self.run(rng.choice(self.tees), f"{mixer}.hot")
            self.outlets += [(mixer, "run_cold"), (mixer, "run_hot")]
        elif self.plain:
            self.on_the_way(trunk, depth)
        elif roll < 0.68:
            valve = self.part("air_valve")
            self.air.append(valve)
            self.run(trunk, f"{valve}.line", trunk)
        elif roll < 0.72:
            self.run(trunk, f"{self.part('store')}.line", trunk)
        elif roll < 0.76:
            self.outlets.append((self.part("filter"), "removed"))
            self.run(trunk, f"{self.parts[-1].name}.inlet")
        elif depth < 2:
            self.on_the_way(trunk, depth)
        else:
            self.tap(trunk)

    def tap(self, trunk):
        over = self.over()
        if self.rng.random() < (0.06 if self.plain else 0.25):
            over = self.basin()
        tap = self.part("tap", over)
        self.outlets.append((tap, "open"))
        self.run(trunk, f"{tap}.line")

    def basin(self):
        basin = self.part("basin_and_trap")
        butt = self.part("grey_tank")
        self.run(f"{basin}.outlet", f"{butt}.inlet", f"{butt}.inlet")
        return f"{basin}.bowl"

    def on_the_way(self, trunk, depth):
        """Something in line, and branches behind it."""
        rng = self.rng
        far = self.tee()
        kind = rng.choice(("heater", "ball", "stop", "strainer", "glass", "check", "ring")[self.plain:])
        if kind == "ring":
            left, right = self.part("ball"), self.part("stop")
            for side in (left, right):
                self.run(trunk, f"{side}.a")
                self.run(f"{side}.b", far)
        else:
            name = self.part(kind)
            near, away = {"heater": ("cold", "hot"), "ball": ("a", "b"), "stop": ("a", "b")}.get(kind, ("inlet", "outlet"))
            self.run(trunk, f"{name}.{near}")
            self.run(f"{name}.{away}", far)
            if kind == "heater":
                self.chambers.append(name)
        for _ in range(rng.choice((1, 1, 2))):
            self.branch(far, depth + 1)


def random_system(rng, make=Plumber, sides=None):
    """`sides`: what there is to come in by, chosen where it is not given."""
    plumber = make(rng)
    trunk = plumber.tee()
    sides = sides or rng.choice(((Plumber.air_inlet,), (Plumber.air_inlet,), (Plumber.hose_side,), (Plumber.hose_side,),
                        (Plumber.pump_side,), (Plumber.pump_side,), (Plumber.air_inlet, Plumber.pump_side),
                        (Plumber.air_inlet, Plumber.hose_side), (Plumber.mains_side,), (Plumber.mains_side, Plumber.air_inlet),
                        (Plumber.mains_side, Plumber.hose_side)))
    for side in sides:
        side(plumber, trunk)
    for _ in range(rng.choice((1, 1, 2, 2, 3))):
        plumber.branch(trunk)
    if rng.random() < 0.3:
        plumber.vessels.append(Vessel("bucket"))
    s = system(plumber.parts, plumber.runs, vessels=plumber.vessels, tees=plumber.tees, places=["gully"],
               options=["extra"] if rng.random() < 0.25 else [])
    s.pipes |= {"thin": None, "wide": None}
    s.bores |= {"thin": 5, "wide": 30}
    for thing in s.parts + s.runs:
        choose_options(rng, thing, s.options, 0.15)
    for kind in s.kinds.values():
        if kind.name in BODIES and rng.random() < 0.4:
            kind.body = rng.choice((0.05, 0.2))
    for part in s.parts:
        body = s.kinds[part.kind].body
        if body and not s.kinds[part.kind].chambers and rng.random() < 0.03:
            part.holds = rng.choice(("water", "antifreeze", "air"))
        if rng.random() < 0.06:
            part.height = rng.choice((50, 100))
    if rng.random() < 0.3:
        names = ["water", "antifreeze", "air", "grey"]
        for place_ in ["gully"] + [v.name for v in s.vessels]:
            rng.shuffle(names)
            cut = sorted((rng.randint(1, 4), rng.randint(1, 4)))
            s.accepts[place_] = (tuple(names[:cut[0]]), tuple(names[cut[0]:cut[1]]), tuple(names[cut[1]:]))
    drop_loose_tees(s)
    return s, plumber


class ContentsWriter(Writer):
    """Writes procedures that clear what they can of a system, more or less."""

    def __init__(self, rng, s, network, plumber):
        super().__init__(rng, s, network)
        self.plumber = plumber
        self.glasses = [p.name for p in s.parts if s.kinds[p.kind].sight_glass]
        there = {p.name for p in s.parts}
        self.compressor = next((p for p in there if p.startswith("compressor")), "")
        self.post = next((p for p in there if p.startswith("post")), "")
        self.pump = next((p for p in there if "pump" in p), "")
        self.main = next((p for p in there if p.startswith("main")), "")
        self.hose = next((p for p in there if p.startswith("wand")), "")
        self.selector = next((p for p in there if p.startswith("selector")), "")
        self.tank = next((p for p in there if p.startswith("tank")), "")
        self.mouth = plumber.mouths[0] if plumber.mouths else ""
        self.care = rng.choice((0.85, 0.97, 1.0, 1.0))

    def quiet(self, part):
        kind = self.s.kinds[part.kind]
        if kind.name in ("ball", "stop"):
            return "open" if self.rng.random() < self.care else "shut"
        if kind.name in ("filter", "strainer"):
            return "fitted"
        return kind.positions[0].name if kind.positions else ""

    def start(self):
        """Everything stands quietly, but for some that is not known."""
        rng = self.rng
        known = rng.choice((0.9, 1.0, 1.0, 1.0))
        needs = [is_(p.name, self.quiet(p)) for p in self.s.parts if self.s.kinds[p.kind].positions and rng.random() < known]
        partner = f"{self.compressor}.outlet" if self.compressor else ""
        if self.mouth:
            if self.post and rng.random() < 0.3:
                partner = f"{self.post}.outlet"
            needs += [is_(self.mouth, ("coupled", partner)), is_(partner, ("coupled", self.mouth))]
        for end in self.ends:
            if end not in (self.mouth, partner):
                needs.append(is_(end, ("in", "jug") if end.startswith("wand") and rng.random() < 0.6 else "open"))
        if self.compressor:
            needs.append(is_(f"{self.compressor}.regulator", rng.choice((150, 333))))
        for chamber in self.plumber.chambers:
            if rng.random() < 0.7:
                needs.append(rng.choice((("empty", chamber), ("empty", chamber), ("holds", chamber, "water"))))
        if self.s.vessels and rng.random() < 0.9:
            needs.append(("holds", "jug", self.s.vessels[0].filled) if self.pump else ("empty", "bucket"))
        return needs

    def slip(self, share=1.0):
        """Whether something is done otherwise than it should be."""
        return self.rng.random() < share * (1 - self.care)

    # Phases: lists of statements

    def outlet_pass(self, source, until):
        """Each outlet opened, run until something is seen, and shut."""
        rng = self.rng
        found = []
        outlets = list(self.plumber.outlets)
        if rng.random() < 0.3:
            rng.shuffle(outlets)
        while outlets:
            (part, position), *outlets = outlets
            if self.slip():
                continue
            opened = [(part, position)]
            if outlets and self.slip():
                opened.append(outlets.pop(0))
            found += [put(name, how) for name, how in opened]
            names = tuple(dict.fromkeys(name for name, _ in opened))
            seen = rng.choice(self.glasses) if self.glasses and self.slip(2) else ""
            found.append(flow(source, names, self.until(names) if self.slip() else until,
                              rng.choice((None, None, None, 0.2, 1, 3)), seen,
                              rng.choice((None, None, 4, 8))))
            found += [put(name, self.resting(name)) for name in names]
        return found

    def resting(self, name):
        return self.s.kinds[next(p.kind for p in self.s.parts if p.name == name)].positions[0].name

    def blow(self):
        if not self.compressor:
            return []
        passes = [x for _ in range(self.rng.choice((1, 2, 2))) for x in self.outlet_pass(self.compressor, "only air")]
        return [put(self.compressor, "on"), *passes, put(self.compressor, "off")]

    def draw(self):
        if not self.pump or not self.hose:
            return []
        if self.tank and self.slip(2):
            return self.from_tank()
        fluid = self.s.vessels[0].filled
        turning = [put(self.selector, "to_right")] if self.selector else []
        until = f"shows {fluid}"
        rng = self.rng
        if fluid == "bleach":
            until = rng.choice((until, "reads at least 40 mg/L", "reads at least 200 mg/L") + ("reads at least 50 mg/L",) * 4)
        body = [*turning, put(self.pump, "on"), *self.outlet_pass("jug", until), put(self.pump, "off")]
        if fluid == "bleach":
            body.append(wait(rng.choice((120, 180, 240, 240, 240))))
        if self.rng.random() < 0.7:
            body = [dip(f"{self.hose}.tip", "jug")] + body
        if self.rng.random() < 0.4:
            body = [bring(fluid, self.rng.choice((0.5, 1, 2, 4, 8, 8, None)))] + body
        if self.rng.random() < 0.4:
            body += [by_hand("lift", f"{self.hose}.tip")] + ([put(self.selector, "to_left")] if self.selector else [])
        return body

    def from_tank(self):
        until = self.rng.choice(("clear", "clear", "only air", "stops"))
        return [put(self.selector, "to_left"), put(self.pump, "on"), *self.outlet_pass(self.tank, until),
                put(self.pump, "off")]

    def flush(self):
        if self.main:
            return [put(self.main, "open"), *self.outlet_pass(self.main, "clear"), put(self.main, "shut")]
        if self.post and self.mouth:
            return [by_hand("uncouple", self.mouth), couple(f"{self.post}.outlet", self.mouth), put(self.post, "open"),
                    *self.outlet_pass(self.post, "clear"), put(self.post, "shut")]
        return self.from_tank() if self.tank else []

    def drain_out(self):
        rng = self.rng
        low = [c for c in self.plumber.cocks if not self.slip()]
        if not low:
            return []
        high = [a for a in self.plumber.air if not self.slip()]
        high += [t for t, how in self.plumber.outlets if how == "open" and t not in low and rng.random() < 0.4]
        what = [c for c in self.plumber.chambers if not self.slip(2)] + ([] if self.slip(2) else ["pipes"])
        opening = [put(x, "open") for x in high + low]
        if not what:
            return []
        return opening + [drain(what, low)] + [put(x, "shut") for x in high + low]

    def restore(self):
        return [put(name, how) for name, how in self.s.lineups["in_use"] if not self.slip()]

    def odd_job(self):
        rng = self.rng
        jobs = []
        for p in self.s.parts:
            if p.kind in ("ball", "stop"):
                jobs.append([put(p.name, rng.choice(("open", "shut")))])
            elif p.kind == "strainer":
                jobs.append([put(p.name, "removed"), put(p.name, "fitted")])
            elif p.kind == "basin_and_trap" and self.s.vessels:
                jobs.append([pour(self.s.vessels[0].name, f"{p.name}.bowl")])
        if self.s.vessels:
            jobs.append([pour(rng.choice(self.s.vessels).name, rng.choice(("gully", "ground")))])
        if any(v.name == "bucket" for v in self.s.vessels) and self.plumber.outlets:
            under = rng.choice(self.plumber.outlets)[0]
            node = next(n for n in self.nodes if self.network.owner_of(n) == under)
            jobs.append([rng.choice((place("bucket", node), take("bucket")))])
        return rng.choice(jobs) if jobs else []

    def procedure(self):
        rng = self.rng
        phases = []
        clearing = [self.blow] * bool(self.compressor) * 2 + [self.draw] * bool(self.hose) * 2 + [self.drain_out]
        plan = [rng.choice(clearing) for _ in range(rng.choice((1, 1, 2)))]
        if rng.random() < 0.5:
            plan.insert(0, self.drain_out)
        if rng.random() < 0.4:
            plan.append(self.flush)
        claims = CLAIMS
        if self.s.vessels and self.s.vessels[0].filled == "bleach":
            # Left out is most of what the pump does not reach: else hardly anything would be disinfected.
            names = [p.name for p in self.s.parts if p.kind not in ("tap", "mixer", "pump", "air_pump", "wand")]
            less = tuple(name for name in names if rng.random() < 0.8)
            claims += (("sanitised", tuple(names)),) * 6 + (("sanitised", less),) * 3 + (("sanitised", ()),)
        claimed = list(dict.fromkeys(rng.choice(claims) for _ in range(rng.choice((1, 1, 2)))))
        if rng.random() < (0.7 if ("restored",) in claimed else 0.15):
            plan.append(self.restore)
        if self.tank and rng.random() < 0.2:
            plan.insert(0, self.from_tank)
        for phase in plan:
            if rng.random() < 0.15:
                phases.append(self.odd_job())
            phases.append(phase())
        if rng.random() < 0.15:
            phases.append(self.odd_job())
        steps = [step(*phase) for phase in phases if phase] or [step(self.move())]
        for one in steps[:-1]:
            if rng.random() < 0.3:
                one.body.append(ensuring(rng.choice(CLAIMS)))
        if rng.random() < 0.12:
            i = rng.randrange(len(steps))
            steps[i] = self.wrapped([steps[i]], 0)
        return Procedure(requires=[requiring(e) for e in self.start()], ensures=[ensuring(c) for c in claimed],
                         body=[stage(*steps)])

    def line_up(self):
        """How things stand in use."""
        rng = self.rng
        entries = [(p.name, self.quiet(p)) for p in self.s.parts if self.s.kinds[p.kind].positions and rng.random() < 0.9]
        wanted = {self.main: "open", self.post: "open", self.pump: "on", self.selector: "to_left"}
        entries = [(name, wanted.get(name, how)) for name, how in entries]
        first = next(p for p in self.s.parts if self.s.kinds[p.kind].positions)
        return [(name, how) for name, how in entries if rng.random() < 0.95] or [(first.name, self.quiet(first))]


def random_case(seed):
    """(rng, system, network, writer)"""
    from network import Network
    rng = random.Random(seed)
    s, plumber = random_system(rng)
    network = Network(s, PRESSURES + (300, 400, 700))
    writer = ContentsWriter(rng, s, network, plumber)
    s.lineups["in_use"] = writer.line_up()
    s.for_use = "in_use"
    return rng, s, network, writer
