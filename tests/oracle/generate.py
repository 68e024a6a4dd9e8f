"""Random small systems and procedures from a seed.

For: compare.py.  Systems are two to nine parts joined at random; procedures start from quiet ones with random moves.
`repair.py` makes them plausible.  It decides nothing about what is proved.
"""

import random

from build import (by_hand, couple, dip, drain, flow, hold, in_case, is_, keep, meanwhile, only_with, place, pour, put,
                   repeat, stage, step, system, take, verify, wait, watch, without)
from build import ensures as ensuring
from build import requires as requiring
from model import Cover, End, Part, Procedure, Run, Vessel, parts_in_group

# What may be in a system, and how often.
SOURCES = {"main": 5, "always_main": 1, "compressor": 2, "tank": 4, "brim_tank": 2}
OTHERS = {"stop": 4, "weak_stop": 2, "selector": 3, "selector_off": 1, "check": 2, "double_check": 1, "zone_valve": 1, "reducer": 1, "relief": 1, "early_relief": 1, "tap": 5,
          "mixer": 3, "cock": 4, "pedal": 1, "push_tap": 2, "pump": 3, "guarded_pump": 2, "plain_pump": 2, "air_pump": 1,
          "heater": 3, "filter": 3, "air_valve": 1, "basin": 2, "inlet": 2, "wand": 2, "boiler": 1, "main": 1, "compressor": 1,
          "tank": 1, "kettle": 3, "geyser": 3, "urn": 2, "coil": 2, "plug": 6, "bladder": 3, "valved_bladder": 1, "box": 3, "pot": 1, "joint": 2}

# Of systems that are about pressure that stays, and what may press, let off and be opened there.
BETWEEN = {"check": 5, "double_check": 2, "zone_valve": 1, "stop": 3, "selector": 1, "reducer": 1, "": 2}
BESIDE = {"main": 4, "blower": 5, "tap": 6, "mixer": 1, "cock": 1, "bladder": 3, "valved_bladder": 1, "box": 2, "jar": 2,
          "pot": 1, "drip": 1, "inlet": 2, "filter": 1, "heater": 1, "tank": 1, "relief": 1, "push_tap": 1, "warmer": 3}
PRESSURES = (150, 275, 333, 360)                    # what dials are set to and pressures are compared with


def pick(rng, weights):
    return rng.choices(list(weights), weights=list(weights.values()))[0]


def random_system(rng):
    count = rng.choice((2, 3, 3, 4, 4, 5, 5, 6, 6, 7, 8, 9))
    kinds = [pick(rng, SOURCES)] + [pick(rng, OTHERS) for _ in range(count - 1)]
    options = ["extra", "deluxe"][:rng.choice((0, 0, 0, 1, 1, 2))]
    covers = [Cover("lid", "yard"), Cover("panel", "yard", ("lid",) if rng.random() < 0.5 else ())]
    covers = covers[:rng.choice((0, 0, 0, 1, 2))]
    parts = []
    for number, kind in enumerate_from_one(kinds):
        part = Part(f"{kind}_{number}", kind)
        choose_options(rng, part, options, 0.2)
        if covers and rng.random() < 0.3:
            behind = (rng.choice(covers).name,)
            part.places = (("yard", behind),) + ((("yard", ()),) if rng.random() < 0.2 else ())
        if rng.random() < 0.15:
            part.height = rng.choice((50, 100, 150))
        parts.append(part)
    vessels = [Vessel("jug", "antifreeze"), Vessel("bucket")]
    vessels = vessels[:1] if rng.random() < 0.3 else vessels[1:] if rng.random() < 0.4 else vessels
    if rng.random() < 0.4:
        vessels = []
    s = system(parts, vessels=vessels, covers=covers, options=options,
               tees=[f"tee_{i}" for i in range(rng.choice((1, 1, 2, 3)))], places=["gully"] if rng.random() < 0.3 else [])
    if rng.random() < 0.15:
        s.ends.append(End("loose", "quick", cap=rng.random() < 0.5, dips=bool(vessels), at="yard"))
    settle_partners(rng, s)
    join(rng, s, options)
    size(rng, s)
    return s


def charged_system(rng):
    """A row of tees with something between each two of them and something beside each, a plug nearly always."""
    tees = [f"tee_{i}" for i in range(rng.choice((2, 2, 3)))]
    parts = []
    runs = []

    def part(kind):
        parts.append(Part(f"{kind}_{len(parts) + 1}", kind))
        return parts[-1].name

    def beside(tee, kind):
        name = part(kind)
        kind = system([(name, kind)]).kinds[kind]
        ports = [p for p in kind.ports if p != "waste"]
        runs.append(Run(tee, f"{name}.{rng.choice(ports)}", "hose"))

    for one, other in zip(tees, tees[1:]):
        kind = pick(rng, BETWEEN)
        if not kind:
            runs.append(Run(one, other, "hose"))
            continue
        name = part(kind)
        ends = {"stop": ("a", "b"), "selector": ("common", "left")}.get(kind, ("inlet", "outlet"))
        ends = ends if rng.random() < 0.7 else ends[::-1]
        runs.extend((Run(one, f"{name}.{ends[0]}", "hose"), Run(f"{name}.{ends[1]}", other, "hose")))
    for kind in rng.choice((("main",), ("blower",), ("main", "blower", "tap"), ("main", "blower", "tap"))):
        beside(tees[0], kind)
    for tee in tees:
        for kind in ["plug"] * (rng.random() < 0.9) + [pick(rng, BESIDE) for _ in range(rng.choice((1, 1, 2)))]:
            beside(tee, kind)
    s = system(parts, vessels=[Vessel("bucket")] if rng.random() < 0.1 else [], tees=tees)
    s.runs.extend(runs)
    drop_loose_tees(s)
    return s


def size(rng, s):
    """Bodies, bores, lengths, and which runs fall."""
    s.pipes |= {"thin": None}
    s.bores |= {"thin": 5}
    for kind in s.kinds.values():
        if (kind.ports or kind.ends) and not kind.chambers and rng.random() < 0.25:
            kind.body = rng.choice((0.05, 0.2))
    for run in s.runs:
        run.length = rng.choice((0.2, 1, 1, 3))
        if run.pipe == "hose" and rng.random() < 0.2:
            run.pipe = "thin"
        if rng.random() < 0.4:
            run.falls_to = rng.choice((run.a, run.b))


def enumerate_from_one(things):
    return list(zip(range(1, len(things) + 1), things))


def choose_options(rng, thing, options, share):
    if options and rng.random() < share:
        option = (rng.choice(options),)
        if rng.random() < 0.75:
            thing.only_with = option
        else:
            thing.without = option


def settle_partners(rng, s):
    """Power, pressures, fluids and what lies below."""
    for part in list(s.parts):
        kind = s.kinds[part.kind]
        if kind.partners and rng.random() < 0.4:
            board = next((p for p in s.parts if p.kind == "switch"), None)
            if board is None:
                board = Part("board", "switch")
                s.parts.append(board)
            part.settings["power"] = "board"
        for name in kind.quantities:
            if rng.random() < 0.3:
                part.settings[name] = rng.choice((200, 250, 300, 320, 400, 450))
        if kind.chambers and rng.random() < 0.25:
            part.holds = rng.choice(("antifreeze", "water"))
        if rng.random() < 0.1:
            part.rated = rng.choice((250, 350))
    caught = [f"{p.name}.{q}" for p in s.parts for c in s.kinds[p.kind].chambers for q in (c.name,) + c.low + c.top]
    caught += [n for n in caught if n.endswith(".bowl")] * 3
    for part in s.parts:
        if caught and s.kinds[part.kind].ports and part.kind not in ("relief", "early_relief", "boiler") and rng.random() < 0.12:
            over = rng.choice(caught)
            if not over.startswith(part.name + "."):
                part.over = over


def join(rng, s, options):
    """Runs: tees first, then every port to something, mostly."""
    nodes = list(s.tees)
    pipes = ["hose"] * 6 + ["copper"] * 2 + ["soft"]
    joined = set()

    def run(a, b):
        if a == b or (a, b) in joined or (b, a) in joined:
            return
        joined.add((a, b))
        made = Run(a, b, rng.choice(pipes))
        choose_options(rng, made, options, 0.06)
        s.runs.append(made)

    for a, b in zip(s.tees, s.tees[1:]):
        if rng.random() < 0.5:
            run(a, b)
    used = []
    for part in s.parts:
        ports = [f"{part.name}.{p}" for p in s.kinds[part.kind].ports]
        rng.shuffle(ports)
        for port in ports:
            if rng.random() < 0.93:
                choices = nodes + nodes + [n for n in used if n.split(".")[0] != part.name]
                run(port, rng.choice(choices))
                if rng.random() < 0.06:
                    run(port, rng.choice(choices))
        used += ports
    for end in s.ends:
        if rng.random() < 0.8:
            run(end.name, rng.choice(nodes))
    drop_loose_tees(s)


def drop_loose_tees(s):
    """A tee is where two runs or more meet; one that is less goes, and so does the run that ends there."""
    while True:
        loose = [t for t in s.tees if sum(t in (r.a, r.b) for r in s.runs) < 2]
        if not loose:
            return
        s.tees = [t for t in s.tees if t not in loose]
        s.runs = [r for r in s.runs if r.a not in loose and r.b not in loose]


# Procedures


class Writer:
    """Writes random statements about one system."""

    def __init__(self, rng, s, network, charged=False):
        self.rng = rng
        self.charged = charged
        self.s = s
        self.network = network
        self.variables = {name: (sort, values) for name, sort, values in network.variables}
        self.ends = list(network.ends)
        self.nodes = [n for n in network.owner if n not in network.container_index] + list(s.tees) + [
            e.name for e in s.ends]
        self.containers = [c.node for c in network.containers]
        self.chambers = [c.node for c in network.containers if c.owner]
        self.outlets = self.things_with_outlets()
        self.heated = sorted({w.a for w in network.ways if w.form == "heats"})
        self.sources = [p.name for p in s.parts if p.kind in ("main", "always_main", "compressor", "blower")]
        self.sources += self.containers

    def things_with_outlets(self):
        found = sorted({w.owner for w in self.network.ways if w.form in ("fall", "breach")}) + self.ends
        vents = {w.a for w in self.network.ways if w.form == "vent"}
        return found + [c for c in self.chambers if c in vents]

    def short(self, node):
        """A chamber by the name of its part, mostly, where that is enough."""
        owner = self.network.owner.get(node, "")
        if owner and self.rng.random() < 0.8 and sum(c.owner.startswith(owner) for c in self.network.containers) == 1:
            return owner
        return node

    def stands(self, name, quiet=False):
        """A value for a variable; a quiet one is shut, off or fitted."""
        rng = self.rng
        sort, values = self.variables[name]
        if sort == "dial":
            return rng.choice(PRESSURES)
        if sort == "end":
            if quiet:
                return "capped" if "capped" in values and rng.random() < 0.7 else "open"
            partners = [("coupled", e) for e in self.ends
                        if e != name and self.network.ends[e][0].fit == self.network.ends[name][0].fit]
            return rng.choice(list(values) + partners[:2])
        if sort == "cover":
            return rng.choice(values)
        return values[0] if quiet else rng.choice(values)

    def expression(self, depth=0):
        rng = self.rng
        roll = rng.random()
        if depth < 2 and roll < 0.18:
            form = rng.choice(("and", "or", "or", "implies", "implies", "not"))
            if form == "not":
                return (form, self.expression(depth + 1))
            return (form, self.expression(depth + 1), self.expression(depth + 1))
        if self.nodes and roll < 0.30:
            return ("no pressure", (rng.choice(self.nodes),) if rng.random() < 0.9 else ())
        if self.nodes and roll < 0.36:
            return ("below", rng.choice(self.nodes), rng.choice(PRESSURES))
        if self.nodes and roll < 0.40:
            return ("reaches liquid", rng.choice(self.nodes))
        if self.containers and roll < 0.46 and depth == 0:
            return self.contents()
        if self.s.lineups and roll < 0.50:
            return ("lineup", rng.choice(list(self.s.lineups)), ())
        return self.comparison()

    def contents(self):
        if self.heated and self.rng.random() < 0.5:
            return ("cool", self.short(self.rng.choice(self.heated)))
        name = self.short(self.rng.choice(self.containers))
        return self.rng.choice((("empty", name), ("holds", name, "water"), ("holds", name, "liquid"),
                                ("holds", name, "antifreeze")))

    def comparison(self):
        rng = self.rng
        names = [n for n, (sort, _) in self.variables.items() if sort not in ("option", "vessel")]
        if not names:
            return ("no pressure", ())
        if rng.random() < 0.06:
            groups = [g for g in ("taps", "cocks", "valves") if parts_in_group(self.s, g)]
            if groups:
                return ("is", ("all " + rng.choice(groups),), "shut")
        name = rng.choice(names)
        if self.variables[name][0] == "end" and rng.random() < 0.2:
            return ("is", (name,), "uncoupled")
        return ("is" if rng.random() < 0.8 else "is not", (name,), self.stands(name))

    def move(self):
        rng = self.rng
        names = [n for n, (sort, _) in self.variables.items() if sort in ("part", "dial", "cover")]
        doers = []
        if names:
            doers += [self.setting] * 8
        if self.ends:
            doers += [self.end_move] * 3
        if self.network.vessels:
            doers += [self.vessel_move]
        if not doers:
            return verify(self.expression())
        return rng.choice(doers)()

    def setting(self):
        rng = self.rng
        name = rng.choice([n for n, (sort, _) in self.variables.items() if sort in ("part", "dial", "cover")])
        if name in self.network.instances and self.network.instances[name].kind.springs_back:
            return hold(name, rng.choice(self.variables[name][1][1:]), *self.within_hold(name))
        if rng.random() < 0.08:
            groups = [g for g in ("taps", "cocks", "valves") if parts_in_group(self.s, g)]
            if groups:
                return put("all " + rng.choice(groups), "shut")
        position = self.stands(name)
        if rng.random() < 0.1:
            alike = [n for n, (_, values) in self.variables.items() if n != name and position in values and n not in self.ends
                     and not (n in self.network.instances and self.network.instances[n].kind.springs_back)]
            if alike:
                return put(name, rng.choice(alike), position)
        return put(name, position)

    def within_hold(self, name):
        if self.rng.random() < 0.6:
            return [flow(self.source(), name, self.until([name]))] if self.sources else []
        return [self.move()] if self.rng.random() < 0.3 else []

    def end_move(self):
        rng = self.rng
        end = rng.choice(self.ends)
        kind = self.network.ends[end][0]
        verbs = ["uncouple"]
        others = [e for e in self.ends if e != end and self.network.ends[e][0].fit == kind.fit]
        if others:
            verbs += ["couple"] * 3
        if kind.cap:
            verbs += ["cap", "uncap", "uncap"]
        if kind.dips and self.network.vessels:
            verbs += ["dip", "dip", "lift"]
        verb = rng.choice(verbs)
        if verb == "couple":
            return couple(end, rng.choice(others))
        if verb == "dip":
            return dip(end, rng.choice(self.network.vessels))
        return by_hand(verb, end)

    def vessel_move(self):
        rng = self.rng
        vessel = rng.choice(self.network.vessels)
        under = {}
        for node in self.nodes:                     # one node per part, so that `under` can be said in one way only
            if node not in self.s.tees:
                under.setdefault(self.network.owner_of(node) or node, node)
        if under and rng.random() < 0.6:
            return place(vessel, rng.choice(list(under.values())))
        if rng.random() < 0.5:
            return pour(vessel, rng.choice(self.network.places + self.chambers[:1]))
        return take(vessel)

    def source(self):
        return self.short(self.rng.choice(self.sources))

    def until(self, outlets):
        """What is seen; `full` only where something fills."""
        seen = ["clear", "clear", "shows water", "shows antifreeze", "only air", "stops"]
        if self.network.vessels or any(o in self.network.container_index for o in outlets):
            seen += ["full", "full"]
        return self.rng.choice(seen)

    def flow(self):
        rng = self.rng
        if not self.sources or not self.outlets:
            return self.move()
        if self.chambers and rng.random() < 0.3:
            return drain(self.short(rng.choice(self.chambers)), self.short(rng.choice(self.outlets)), self.amount())
        outlets = {self.short(rng.choice(self.outlets)) for _ in range(rng.choice((1, 1, 2)))}
        return flow(self.source(), sorted(outlets), self.until(outlets), at_most=self.amount())

    def amount(self):
        """How much comes at most, where that is said."""
        return self.rng.choice((None, None, 1, 4, 8))

    def statement(self, depth=0):
        rng = self.rng
        if self.heated and rng.random() < 0.12:
            waiting = wait(rng.choice((20, 20, 40)))
            if depth < 2 and rng.random() < 0.3:    # so that rounds and cases differ in how long they wait
                body = [waiting] + [self.statement(2)] * (rng.random() < 0.3)
                return repeat(rng.choice((2, 3)), *body) if rng.random() < 0.7 else in_case(*body)
            return waiting
        roll = rng.random()
        if roll < 0.66:
            return self.move()
        if roll < 0.80:
            return self.flow()
        if roll < 0.88:
            return verify(self.expression())
        if roll < 0.90 and self.s.parts:
            return watch(rng.choice(self.s.parts).name)
        if roll < 0.91 and self.sources and self.outlets:
            return keep(self.source(), self.short(rng.choice(self.outlets)))
        if depth < 2:
            body = [self.statement(depth + 1) for _ in range(rng.choice((1, 2)))]
            return self.wrapped(body, depth)
        return self.move()

    def wrapped(self, body, depth):
        rng = self.rng
        if self.s.options and rng.random() < 0.5:
            return rng.choice((only_with, without))(rng.choice(self.s.options), *body)
        if rng.random() < 0.6 or depth:
            return in_case(*body)
        return repeat(rng.choice((1, 2, 3)), *body)

    def under_pressure(self):
        """Things are pressed on, cut off, perhaps let off, perhaps opened."""
        rng = self.rng
        parts = {n: values for n, (sort, values) in self.variables.items() if sort == "part"}
        kind_of = {n: self.network.instances[n].kind for n in parts}
        pressers = [n for n in parts if kind_of[n].name in ("main", "blower", "compressor", "pump", "air_pump")]
        lets_off = [n for n in parts if kind_of[n].name in ("tap", "mixer", "cock", "jar")]
        others = [n for n in parts if n not in pressers + lets_off and not kind_of[n].springs_back
                  and kind_of[n].name != "plug"]
        body = []
        for _ in range(rng.choice((2, 3, 4))):
            roll = rng.random()
            if pressers and roll < 0.45:
                presser = rng.choice(pressers)
                body.append(put(presser, parts[presser][-1]))
                if rng.random() < 0.6:
                    body.append(put(presser, parts[presser][0]))
            elif lets_off and roll < 0.8:
                tap = rng.choice(lets_off)
                body.append(put(tap, parts[tap][-1]))
                supplies = [n for n in pressers if "pump" not in n]
                if supplies and rng.random() < 0.5:
                    body.append(flow(rng.choice(supplies), tap, rng.choice(("stops", "only air", "clear"))))
                if rng.random() < 0.8:
                    body.append(put(tap, "shut"))
            elif others:
                name = rng.choice(others)
                body.append(put(name, rng.choice(parts[name])))
        if rng.random() < 0.08 and self.nodes:
            body.append(verify(("no pressure", (rng.choice(self.nodes),))))
        if self.ends and rng.random() < 0.4:
            body.append(self.end_move())
        return step(*(body or [self.move()]))

    def step(self):
        rng = self.rng
        if rng.random() < (0.9 if self.charged else 0.2):
            return self.under_pressure()
        body = [self.statement() for _ in range(rng.choice((1, 1, 2, 2, 3, 4)))]
        if rng.random() < 0.12:
            body.insert(0, requiring(self.expression()))
        if rng.random() < 0.12:
            body.append(ensuring(self.expression()))
        return step(*body)

    def procedure(self):
        rng = self.rng
        items = [self.step() for _ in range(rng.choice((1, 1, 2, 2, 3)))]
        if rng.random() < 0.12:
            i = rng.randrange(len(items))
            items[i] = self.wrapped([items[i]], 1 if rng.random() < 0.5 else 0)
        if rng.random() < 0.08 and self.chambers and self.outlets:
            i = rng.randrange(len(items))
            around = drain(self.short(rng.choice(self.chambers)), self.short(rng.choice(self.outlets)))
            if rng.random() < 0.4 and self.sources:
                outlet = self.short(rng.choice(self.outlets))
                around = flow(self.source(), outlet, self.until([outlet]))
            items[i] = meanwhile(around, items[i])
        if self.charged:                            # at last everything that a hand opens
            items.append(step(*(put(p.name, "removed") for p in self.s.parts if p.kind == "plug"), self.move()))
        stages = [stage(*items)]
        if len(items) > 1 and rng.random() < 0.2:
            stages = [stage(*items[:1]), stage(*items[1:])]
            if rng.random() < 0.5:
                stages[1].body.insert(0, requiring(self.expression()))
        needs = [requiring(e) for e in self.start()]
        gives = [ensuring(self.expression()) for _ in range(rng.choice((0, 0, 1, 2)))]
        if self.heated and rng.random() < 0.3:
            gives.append(ensuring(("cool", self.short(rng.choice(self.heated)))))
        if rng.random() < 0.3:
            self.s.lineups.setdefault("in_use", [(n, self.stands(n, quiet=rng.random() < 0.5)) for n, (sort, _) in
                                                 self.variables.items() if sort in ("part", "cover") and rng.random() < 0.7])
            if self.s.lineups["in_use"]:
                self.s.for_use = "in_use"
                gives.append(ensuring(rng.choice((("frost safe", -5), ("drinkable",), ("restored",)))))
            else:
                del self.s.lineups["in_use"]
        return Procedure(requires=needs, ensures=gives, body=stages)

    def start(self):
        """What the procedure requires: most things quiet, some unknown, some told in another way."""
        rng = self.rng
        needs = []
        known = rng.choice((0.9, 1.0) if self.charged else (0.6, 0.8, 0.9, 1.0))
        for name, (sort, values) in self.variables.items():
            if sort in ("option", "vessel") or rng.random() > known:
                continue
            if sort == "end" and any(n[0] == "is" and n[1][0] == name for n in needs):
                continue
            value = self.stands(name, quiet=rng.random() < 0.75)
            needs.append(is_(name, value))
            if isinstance(value, tuple) and value[0] == "coupled":
                needs = [n for n in needs if n[1][0] != value[1]] + [is_(value[1], ("coupled", name))]
        for node in self.containers:
            if rng.random() < 0.35:
                fluid = [c for c in self.network.containers if c.node == node][0]
                held = next(iter(fluid.fluids), "water")
                needs.append(rng.choice((("holds", node, held), ("holds", node, held), ("empty", node))) if fluid.owner
                             else ("holds", node, "liquid") if fluid.fluids else ("empty", node))
        for node in self.heated:
            if rng.random() < 0.2:
                needs.append(("cool", self.short(node)))
        if needs and rng.random() < 0.15:
            entries = [(n[1][0], n[2]) for n in needs if n[0] == "is"]
            if entries:
                self.s.lineups["resting"] = entries
                left_out = (entries[0][0],) if rng.random() < 0.3 else ()
                needs = [("lineup", "resting", left_out)] + [n for n in needs if n[0] != "is"]
        if rng.random() < 0.2:
            needs.append(self.expression(1))
        if self.nodes and rng.random() < 0.3:
            needs.append(("no pressure", (rng.choice(self.nodes),) if rng.random() < 0.6 else ()))
        rng.shuffle(needs)
        return needs


def random_case(seed):
    """(rng, system, network, procedure); the procedure is not repaired yet."""
    from network import Network
    rng = random.Random(seed)
    charged = rng.random() < 0.3
    s = charged_system(rng) if charged else random_system(rng)
    network = Network(s, PRESSURES)
    return rng, s, network, Writer(rng, s, network, charged)
