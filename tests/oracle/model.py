"""A tiny in-memory description of a water system and of a procedure.

For: the enumerator, the generator and the printer, which share it.  It knows nothing of the checker, and nothing of
what is proved; it only says what is there.  Pressures are whole kilopascals (gauge), heights whole centimetres, bores
millimetres, lengths metres, volumes litres, strengths per cent, temperatures degrees Celsius.

Names are the plain names of the language.  A node is written as in the language: "sink.cold" (port, end or chamber of
a part), "hose_end" (free end), "tee_cold" (tee), "bucket" (vessel), "gully" (place).  An inner part of an assembly is
"heater.relief", its port "heater.relief.line".

Expressions are tuples:
  ("is", (X, ...), POSITION)         X is a part, cover, end, dial or vessel, or "all GROUP"; a dial's position is a
  ("is not", (X, ...), POSITION)     pressure; an end's may be ("coupled", END) or ("in", VESSEL); a vessel's "away" or
                                     ("under", NODE)
  ("no pressure", (NODE, ...))       no node at all: anywhere (in a kind: at any of its own ports)
  ("below", NODE, PRESSURE)          ("reaches liquid", NODE)
  ("holds", CONTAINER, FLUID)        FLUID may be "liquid"
  ("cool", CONTAINER)
  ("empty", CONTAINER)               ("lineup", NAME, (except, ...))
  ("frost safe", DEGREES)            ("drinkable",)            ("restored",)  ("sanitised", (PART, ...))    only as terms of an `ensures`
  ("and", E, E) ("or", E, E) ("not", E) ("implies", E, E)
"""

from dataclasses import dataclass, field


@dataclass
class Way:
    """form: both | forward | fall | breach | vent | supplies | lifts | stores | heats (a is the chamber).

    a, b: names inside the kind ("below" and "ground" are possible for the b of a fall); pressure: the `up to` of a
    source, the `limits` of a forward way, the `above` of a fall: kPa, or ("given", NAME), or ("dial", NAME), or None.
    """
    form: str
    a: str
    b: str = ""
    pressure: object = None
    fluid: str = ""
    own_switch: bool = False
    condition: object = None
    protects: int = 2                               # of a forward way: the category that it keeps back


@dataclass
class Position:
    name: str
    ways: list = field(default_factory=list)
    condition: object = None


@dataclass
class Chamber:
    name: str
    fluid: str = ""                                 # what it holds in use; "" names none
    low: tuple = ()
    side: tuple = ()
    brim: tuple = ()
    top: tuple = ()
    litres: int = 10


@dataclass
class End:
    name: str
    fit: str
    cap: bool = False
    dips: bool = False
    at: str = ""                                    # free ends only: the zone


@dataclass
class Guard:
    when: str                                       # "set" or "while"
    position: str
    needs: object
    why: str = "Because."


@dataclass
class Kind:
    name: str
    ports: tuple = ()
    ends: tuple = ()
    quantities: dict = field(default_factory=dict)  # given name -> default pressure in kPa
    partners: dict = field(default_factory=dict)    # given name -> (kind name, optional)
    chambers: tuple = ()
    positions: tuple = ()
    always: tuple = ()
    dial: object = None                             # (name, lowest, greatest) in kPa
    springs_back: str = ""
    rated: object = None
    guards: tuple = ()
    inner: tuple = ()                               # inner parts: Part with only name, kind, settings, rated used
    runs_dry: bool = False
    cools: object = None                            # minutes
    groups: tuple = ()
    body: object = 0                                # litres, or ("given", NAME)
    volumes: dict = field(default_factory=dict)     # given name -> default volume in litres
    sight_glass: bool = False


@dataclass
class Part:
    name: str
    kind: str
    places: tuple = (("yard", ()),)                 # ((zone, (cover, ...)), ...)
    height: object = None
    over: str = ""
    only_with: tuple = ()
    without: tuple = ()
    settings: dict = field(default_factory=dict)    # given name -> kPa, litres or part name
    rated: object = None
    holds: str = ""


@dataclass
class Run:
    a: str
    b: str
    pipe: str
    length: object = 1
    falls_to: str = ""                              # "", or its lower end: a or b
    only_with: tuple = ()
    without: tuple = ()


@dataclass
class Cover:
    name: str
    zone: str
    behind: tuple = ()


@dataclass
class Vessel:
    name: str
    filled: str = ""
    litres: int = 10
    strength: int = 40                              # of what it is filled with, where that freezes by its strength


@dataclass
class Fluid:
    name: str
    category: int = 1
    gas: bool = False
    shows: str = ""                                 # how one sees that it has arrived; "" looks clear
    freezes: tuple = ()                             # (strength, temperature) by rising strength
    disinfects: tuple = ()                          # (mg/L, minutes), stronger and shorter


@dataclass
class System:
    name: str = "van"
    fluids: list = field(default_factory=list)
    pipes: dict = field(default_factory=dict)       # name -> rating in kPa or None
    bores: dict = field(default_factory=dict)       # pipe name -> mm; 13 where it is not given
    kinds: dict = field(default_factory=dict)
    options: list = field(default_factory=list)
    zones: list = field(default_factory=lambda: ["yard"])
    covers: list = field(default_factory=list)
    vessels: list = field(default_factory=list)
    places: list = field(default_factory=list)
    ends: list = field(default_factory=list)
    tees: list = field(default_factory=list)
    parts: list = field(default_factory=list)
    runs: list = field(default_factory=list)
    lineups: dict = field(default_factory=dict)     # name -> [(X, POSITION)]
    for_use: str = ""                               # the line-up that is for use
    accepts: dict = field(default_factory=dict)     # vessel or place -> (accepts, mixed, traces); else it accepts all


@dataclass(eq=False)
class Statement:
    """One statement; `form` is its first word, `line` is set when it is printed.

    set: targets position | hold: target position body | couple: a b | uncouple, cap, uncap: a | dip: a vessel |
    lift: a | place: vessel node | take: vessel | verify, requires, ensures: expression |
    flow: sources outlets until at_least at_most seen | drain: sources outlets until | keep: sources outlets | pour: vessel place |
    watch: at | in case, repeat (times), only with, without (option): body |
    step: title body | stage: label body | meanwhile: flow (a flow or drain statement) body |
    wait: minutes | bring: fluid litres | note: nothing proved
    """
    form: str
    line: int = 0
    targets: tuple = ()
    position: object = None
    a: str = ""
    b: str = ""
    node: str = ""
    vessel: str = ""
    expression: object = None
    sources: tuple = ()
    outlets: tuple = ()
    until: str = ""
    at_least: object = None                         # litres
    at_most: object = None                          # litres
    seen: str = ""                                  # the part with a sight glass at which it is seen
    body: list = field(default_factory=list)
    times: int = 2
    minutes: int = 0
    option: str = ""
    title: str = ""
    flow: object = None
    fluid: str = ""                                 # of a bring
    litres: object = None                           # of a bring; None leaves it open


@dataclass(eq=False)
class Procedure:
    name: str = "winter"
    requires: list = field(default_factory=list)    # Statements
    ensures: list = field(default_factory=list)
    body: list = field(default_factory=list)        # stages
    line: int = 0


def statements_of(body):
    """Every statement of a body, outer before inner, in the order written."""
    for statement in body:
        yield statement
        if statement.form == "meanwhile":
            yield statement.flow
        yield from statements_of(statement.body)


def parts_in_group(system, group):
    """The parts of a group in the order of declaration, inner parts of an assembly after itself."""
    def within(part, path):
        kind = system.kinds[part.kind]
        if group in kind.groups:
            yield path
        for inner in kind.inner:
            yield from within(inner, f"{path}.{inner.name}")

    return [path for part in system.parts for path in within(part, part.name)]


def spread(system, targets):
    """Targets with `all GROUP` written out."""
    names = []
    for target in targets:
        if target == "all covers":
            names.extend(c.name for c in system.covers)
        elif target.startswith("all "):
            names.extend(parts_in_group(system, target[4:]))
        else:
            names.append(target)
    return names
