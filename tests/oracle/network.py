"""Writes a system out flat: every part and inner part, every variable of a configuration, every way with its condition.

For: the searches in layout.py and the walk in enumerate.py.  It must not know of procedures or obligations.
"""

import itertools
import math
from dataclasses import dataclass, field


@dataclass
class Instance:
    """A part or an inner part, with everything its kind and its settings give it."""
    path: str
    kind: object
    only_with: tuple
    without: tuple
    places: tuple
    over: str
    height: object
    rated: object
    partners: dict                                  # given name -> path of the part, or None
    quantities: dict                                # given name -> kPa
    guards: list = field(default_factory=list)      # (when, position, expression in system names)
    body: object = 0                                # litres that it holds beside its chambers
    holds: str = ""                                 # what its braces say that it holds


@dataclass
class FlatWay:
    """A way between nodes, active while its instance is there, stands at `position` and `conditions` hold."""
    form: str
    owner: str
    a: str
    b: str                                          # a node, or "below" or "ground" for a fall
    pressure: object                                # kPa, None, or ("dial", name of the variable)
    fluid: str
    own_switch: bool
    position: object                                # None: in every position
    conditions: tuple
    joins: bool = False                             # a port with its chamber: no way that is written
    protects: int = 2


@dataclass
class Container:
    """A chamber or a vessel."""
    node: str
    owner: str                                      # path of the part; "" for a vessel
    low: tuple = ()
    high: tuple = ()                                # its brim and top ports
    ports: tuple = ()
    fluids: frozenset = frozenset()                 # which liquids it may hold at the start
    surely: bool = False                            # whether it surely holds them
    litres: object = 0


class Network:
    def __init__(self, system, pressures=()):
        """`pressures`: kPa values that a procedure compares or sets, so that dials are tried on both sides of each."""
        self.system = system
        self.gases = frozenset(f.name for f in system.fluids if f.gas)
        self.category = {f.name: f.category for f in system.fluids}
        self.instances = {}
        self.ways = []
        self.containers = []
        self.ends = {}                              # name -> (End, owner path or "")
        self.vessels = [v.name for v in system.vessels]
        self.places = list(system.places) + ["ground"]
        self.owner = {}                             # node -> path of its part
        for part in system.parts:
            self.add_part(part, part.name, None)
        for end in system.ends:
            self.ends[end.name] = (end, "")
        for vessel in system.vessels:
            held = frozenset([vessel.filled] if vessel.filled else []) - self.gases
            self.containers.append(Container(vessel.name, "", fluids=held, surely=bool(held), litres=vessel.litres))
        self.container_index = {c.node: i for i, c in enumerate(self.containers)}
        self.find_pockets()
        self.find_outlets()
        self.find_variables(pressures)

    # Parts

    def add_part(self, part, path, outer):
        kind = self.system.kinds[part.kind]
        instance = Instance(
            path=path, kind=kind,
            only_with=tuple(outer.only_with if outer else part.only_with),
            without=tuple(outer.without if outer else part.without),
            places=outer.places if outer else part.places,
            over=outer.over if outer else part.over,
            height=outer.height if outer else part.height,
            rated=part.rated if part.rated is not None else kind.rated,
            partners={name: part.settings.get(name) for name in kind.partners},
            quantities={name: part.settings.get(name, default) for name, default in kind.quantities.items()},
            holds=part.holds)
        instance.body = kind.body
        if isinstance(kind.body, tuple):
            instance.body = part.settings.get(kind.body[1], kind.volumes[kind.body[1]])
        self.instances[path] = instance
        for port in kind.ports:
            self.owner[f"{path}.{port}"] = path
        for end in kind.ends:
            self.owner[f"{path}.{end.name}"] = path
            self.ends[f"{path}.{end.name}"] = (end, path)
        for chamber in kind.chambers:
            node = f"{path}.{chamber.name}"
            self.owner[node] = path
            named = part.holds or chamber.fluid
            ports = {word: tuple(f"{path}.{p}" for p in getattr(chamber, word)) for word in
                     ("low", "side", "brim", "top")}
            everything = ports["low"] + ports["side"] + ports["brim"] + ports["top"]
            self.containers.append(Container(node, path, ports["low"], ports["brim"] + ports["top"], everything,
                                             frozenset([named] if named else []) - self.gases, litres=chamber.litres))
            for port in everything:
                self.ways.append(FlatWay("both", path, port, node, None, "", False, None, (), True))
        for inner in kind.inner:
            self.add_part(inner, f"{path}.{inner.name}", instance)
        for way in kind.always:
            self.add_way(way, instance, None, ())
        for position in kind.positions:
            for way in position.ways:
                self.add_way(way, instance, position.name, (position.condition,) if position.condition else ())
        for guard in kind.guards:
            instance.guards.append((guard.when, guard.position, self.in_system_names(guard.needs, instance)))

    def add_way(self, way, instance, position, conditions):
        if way.condition:
            conditions = conditions + (way.condition,)
        pressure = way.pressure
        if isinstance(pressure, tuple):
            word, name = pressure
            pressure = instance.quantities[name] if word == "given" else ("dial", f"{instance.path}.{name}")
        b = way.b
        if b and not (way.form == "fall" and b in ("below", "ground")):
            b = f"{instance.path}.{b}"
        self.ways.append(FlatWay(way.form, instance.path, f"{instance.path}.{way.a}", b, pressure, way.fluid,
                                 way.own_switch, position,
                                 tuple(self.in_system_names(c, instance) for c in conditions),
                                 protects=way.protects))

    def in_system_names(self, e, instance):
        """An expression of a kind, in the names of the system.  A partner that is not set stands any way one asks."""
        form = e[0]
        if form in ("is", "is not"):
            names = [instance.partners.get(x, f"{instance.path}.{x}") if x in instance.partners
                     else f"{instance.path}.{x}" for x in e[1]]
            names = tuple(n for n in names if n is not None)
            return (form, names, e[2]) if names else ("true",)
        if form == "no pressure":
            names = e[1] or instance.kind.ports + tuple(end.name for end in instance.kind.ends)
            return (form, tuple(f"{instance.path}.{n}" for n in names))
        if form in ("below", "holds"):
            return (form, f"{instance.path}.{e[1]}", e[2])
        if form in ("reaches liquid", "empty", "cool"):
            return (form, f"{instance.path}.{e[1]}")
        return (form,) + tuple(self.in_system_names(x, instance) for x in e[1:])

    def find_pockets(self):
        """What holds something, in a fixed order: ("run", NUMBER), ("body", PART), and chambers and vessels by their
        node; how many litres; whose part or run it is."""
        runs = self.system.runs
        self.litres = {("run", i): run_litres(self.system, runs[i]) for i in range(len(runs))}
        self.litres |= {("body", path): i.body for path, i in self.instances.items() if i.body}
        self.litres |= {c.node: c.litres for c in self.containers}
        self.pockets = list(self.litres)

    def body_of(self, path):
        """The way a part lets things through: its body, as a tuple of one, or nothing."""
        return (("body", path),) if self.instances[path].body else ()

    def find_outlets(self):
        """Every origin and outlet there may be in some configuration."""
        vents = {w.a for w in self.ways if w.form == "vent"}
        self.all_origins = {("held", c.node) for c in self.containers}
        self.all_origins |= {("supply", w.owner) for w in self.ways if w.form == "supplies"}
        self.all_outlets = {("fall", w.owner, w.b) for w in self.ways if w.form == "fall"}
        self.all_outlets |= {("breach", w.owner, w.a) for w in self.ways if w.form == "breach"}
        self.all_outlets |= {("end", name) for name in self.ends}
        self.all_outlets |= {("fill", c.node) for c in self.containers if not c.owner or c.node in vents}

    def falls_into(self, outlet):
        """Where what leaves an outlet lands by the system alone, no vessel being under it; None for what fills."""
        if outlet[0] == "fill":
            return None
        if outlet[0] == "fall" and outlet[2] != "below":
            return outlet[2]
        instance = self.instances.get(self.owner_of(outlet[1]) if outlet[0] == "end" else outlet[1])
        return instance.over or "ground" if instance else "ground"

    # Variables

    def find_variables(self, pressures):
        """Every variable of a configuration with the values it may take at the start."""
        self.variables = []                         # (name, sort, values); for an end, values do not count its matching
        for option in self.system.options:
            self.variables.append((option, "option", (False, True)))
        for path, instance in self.instances.items():
            if instance.kind.positions:
                self.variables.append((path, "part", tuple(p.name for p in instance.kind.positions)))
            if instance.kind.dial:
                name, lowest, greatest = instance.kind.dial
                self.variables.append((f"{path}.{name}", "dial", self.dial_values(lowest, greatest, pressures)))
        for cover in self.system.covers:
            self.variables.append((cover.name, "cover", ("open", "shut")))
        for name, (end, _) in self.ends.items():
            values = ["open"] + (["capped"] if end.cap else [])
            if end.dips:
                values += [("in", v) for v in self.vessels]
            self.variables.append((name, "end", tuple(values)))
        for vessel in self.vessels:
            self.variables.append((vessel, "vessel", ("away",)))
        self.index = {name: i for i, (name, _, _) in enumerate(self.variables)}
        self.sort = {name: sort for name, sort, _ in self.variables}

    def dial_values(self, lowest, greatest, pressures):
        """Only comparisons with the values that occur count, so these and one value between each pair stand for all."""
        marks = {lowest, greatest}
        for way in self.ways:
            if isinstance(way.pressure, int):
                marks.add(way.pressure)
        marks.update(i.rated for i in self.instances.values() if i.rated is not None)
        marks.update(r for r in self.system.pipes.values() if r is not None)
        marks.update(pressures)
        marks = sorted(m for m in marks if lowest <= m <= greatest)
        values = list(marks)
        for one, next_one in zip(marks, marks[1:]):
            values.append((one + next_one) / 2)
        return tuple(sorted(values))

    def owner_of(self, name):
        """The path of the part to which a node, an end, a dial or a part belongs; "" where it belongs to none."""
        if name in self.instances:
            return name
        if name in self.owner:
            return self.owner[name]
        head = name.rpartition(".")[0]
        return head if head in self.instances else ""

    def is_there(self, name, sigma):
        """Whether the options leave this part, or the part of this node, in.  What belongs to no part always is."""
        path = self.owner_of(name)
        if not path:
            return True
        instance = self.instances[path]
        return self.options_hold(instance, sigma)

    def run_is_there(self, run, sigma):
        return self.options_hold(run, sigma) and self.is_there(run.a, sigma) and self.is_there(run.b, sigma)

    def pocket_is_there(self, pocket, sigma):
        if pocket[0] == "run":
            return self.run_is_there(self.system.runs[pocket[1]], sigma)
        return self.is_there(pocket[1] if pocket[0] == "body" else pocket, sigma)

    def options_hold(self, thing, sigma):
        index = self.index
        return all(sigma[index[o]] for o in thing.only_with) and not any(sigma[index[o]] for o in thing.without)

    def start_configurations(self, pins=None):
        """Every configuration, matched ends and all, before `requires` is asked.  What is not there stands at its
        first value, so that a configuration is counted once.  Only those that agree with `pins`, {variable: value}."""
        pins = pins or {}
        options = [name for name, sort, _ in self.variables if sort == "option"]
        for chosen in itertools.product((False, True), repeat=len(options)):
            sigma = [values[0] for _, _, values in self.variables]
            for name, value in zip(options, chosen):
                sigma[self.index[name]] = value
            free = [(self.index[name], [v for v in values if pins.get(name, v) == v])
                    for name, sort, values in self.variables
                    if sort not in ("option", "end") and len(values) > 1 and self.is_there(name, sigma)]
            ends = [name for name in self.ends if self.is_there(name, sigma)]
            for stands in self.end_states(ends, pins):
                for picked in itertools.product(*(values for _, values in free)):
                    for name, value in stands.items():
                        sigma[self.index[name]] = value
                    for (i, _), value in zip(free, picked):
                        sigma[i] = value
                    yield tuple(sigma)

    def end_states(self, ends, pins):
        """Every way in which these ends may stand: each open, capped, dipped, or matched with another of its fit."""
        if not ends:
            yield {}
            return
        first, rest = ends[0], ends[1:]
        for value in self.variables[self.index[first]][2]:
            if pins.get(first, value) == value:
                for others in self.end_states(rest, pins):
                    yield {first: value, **others}
        for partner in rest:
            one, other = ("coupled", partner), ("coupled", first)
            if (self.ends[partner][0].fit == self.ends[first][0].fit
                    and pins.get(first, one) == one and pins.get(partner, other) == other):
                for others in self.end_states([e for e in rest if e != partner], pins):
                    yield {first: one, partner: other, **others}


def run_litres(system, run):
    """Its bore's area by its length."""
    bore = system.bores.get(run.pipe, 13) / 1000
    return math.pi / 4 * bore ** 2 * run.length * 1000
