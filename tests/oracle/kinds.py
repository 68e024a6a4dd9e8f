"""A small stock of kinds, fluids and pipes of our own, for hand-worked cases and for the generator.

It stands beside the standard library and does not use it: a case must say all of itself.
"""

from model import Chamber, End, Fluid, Guard, Kind, Part, Position, Way

FLUIDS = [Fluid("water"), Fluid("antifreeze", 3, shows="pink", freezes=((20, -7), (40, -21))),
          Fluid("air", 1, gas=True), Fluid("grey", 5, shows="cloudy"),
          Fluid("bleach", 3, shows="a smell", disinfects=((50, 240), (200, 180)))]
PIPES = {"hose": None, "copper": 1000, "soft": 350}


def both(a, b):
    return Way("both", a, b)


def forward(a, b, limit=None, protects=2):
    return Way("forward", a, b, limit, protects=protects)


def fall(a, b="below", above=None):
    return Way("fall", a, b, above)


def powered(condition=("is", ("power",), "on")):
    return condition


def stock():
    """Every kind of the stock by name."""
    kinds = [
        Kind("main", ports=("house",), quantities={"p": 400}, positions=(
            Position("shut"), Position("open", [Way("supplies", "house", pressure=("given", "p"), fluid="water")]))),
        Kind("always_main", ports=("house",), quantities={"p": 400}, always=(
            Way("supplies", "house", pressure=("given", "p"), fluid="water"),)),
        Kind("compressor", ends=(End("outlet", "quick"),), dial=("regulator", 0, 600), positions=(
            Position("off"), Position("on", [Way("supplies", "outlet", pressure=("dial", "regulator"), fluid="air")]))),
        Kind("stop", ports=("a", "b"), rated=1000, groups=("valves",), positions=(
            Position("shut"), Position("open", [both("a", "b")]))),
        Kind("weak_stop", ports=("a", "b"), rated=300, groups=("valves",), positions=(
            Position("shut"), Position("open", [both("a", "b")]))),
        Kind("selector", ports=("common", "left", "right"), positions=(
            Position("to_left", [both("common", "left")]), Position("to_right", [both("common", "right")]))),
        Kind("selector_off", ports=("common", "left", "right"), groups=("valves",), positions=(
            Position("shut"), Position("to_left", [both("common", "left")]),
            Position("to_right", [both("common", "right")]))),
        Kind("check", ports=("inlet", "outlet"), always=(forward("inlet", "outlet"),)),
        Kind("double_check", ports=("inlet", "outlet"), always=(forward("inlet", "outlet", protects=3),)),
        Kind("zone_valve", ports=("inlet", "outlet"), always=(forward("inlet", "outlet", 250, protects=4),)),
        Kind("reducer", ports=("inlet", "outlet"), always=(forward("inlet", "outlet", 250),)),
        Kind("relief", ports=("line",), always=(fall("line", above=320),)),
        Kind("early_relief", ports=("line",), always=(fall("line", above=300),)),
        Kind("tap", ports=("line",), groups=("taps",), positions=(
            Position("shut"), Position("open", [fall("line")]))),
        Kind("mixer", ports=("cold", "hot"), groups=("taps",), positions=(
            Position("shut"), Position("run_cold", [fall("cold")]), Position("run_hot", [fall("hot")]),
            Position("mixed", [both("cold", "hot"), fall("cold"), fall("hot")]))),
        Kind("cock", ports=("line",), groups=("cocks",), positions=(
            Position("shut"), Position("open", [fall("line")]))),
        Kind("pedal", ports=("line", "waste"), springs_back="shut", positions=(
            Position("shut"), Position("down", [fall("line", "bowl")])),
            chambers=(Chamber("bowl", low=("waste",)),), always=(Way("vent", "bowl"),)),
        Kind("push_tap", ports=("line",), springs_back="shut", positions=(
            Position("shut"), Position("down", [fall("line")]))),
        Kind("switch", positions=(Position("off"), Position("on"))),
        Kind("pump", ports=("suction", "delivery"), quantities={"p": 300}, partners={"power": ("switch", True)},
             positions=(Position("off"), Position("on", [
                 Way("lifts", "suction", "delivery", ("given", "p"), own_switch=True)], powered()))),
        Kind("guarded_pump", ports=("suction", "delivery"), quantities={"p": 300}, partners={"power": ("switch", True)},
             positions=(Position("off"), Position("on", [
                 Way("lifts", "suction", "delivery", ("given", "p"), own_switch=True)], powered())),
             guards=(Guard("while", "on", ("reaches liquid", "suction")),)),
        Kind("plain_pump", ports=("suction", "delivery"), quantities={"p": 300}, positions=(
            Position("off"), Position("on", [Way("lifts", "suction", "delivery", ("given", "p"))]))),
        Kind("air_pump", ports=("suction", "delivery"), quantities={"p": 300}, runs_dry=True, positions=(
            Position("off"), Position("on", [
                Way("lifts", "suction", "delivery", ("given", "p"), own_switch=True)]))),
        Kind("tank", ports=("outlet", "inlet"), chambers=(
            Chamber("body", "water", low=("outlet",), top=("inlet",)),), always=(Way("vent", "body"),)),
        Kind("brim_tank", ports=("outlet", "inlet", "rim"), chambers=(
            Chamber("body", "water", low=("outlet",), side=("inlet",), brim=("rim",)),), always=(
                Way("vent", "body"), fall("rim"))),
        Kind("basin", positions=(Position("plugged"), Position("open", [fall("bowl")])), always=(Way("vent", "bowl"),),
             chambers=(Chamber("bowl"),)),
        Kind("heater", ports=("cold", "hot"), chambers=(Chamber("body", "water", low=("cold",), top=("hot",)),)),
        Kind("filter", ports=("inlet", "outlet"), positions=(
            Position("fitted", [both("inlet", "outlet")]), Position("removed", [Way("breach", "inlet"),
                                                                                Way("breach", "outlet")])),
             guards=(Guard("set", "removed", ("no pressure", ())),)),
        Kind("air_valve", ports=("line",), positions=(Position("shut"), Position("open", [Way("vent", "line")]))),
        Kind("inlet", ports=("house",), ends=(End("mouth", "quick", cap=True, dips=True),), always=(
            both("mouth", "house"),)),
        Kind("wand", ports=("line",), ends=(End("tip", "quick", dips=True),), always=(both("tip", "line"),)),
        Kind("post", ends=(End("outlet", "quick"),), quantities={"p": 400}, positions=(
            Position("shut"), Position("open", [Way("supplies", "outlet", pressure=("given", "p"), fluid="water")]))),
        Kind("ball", ports=("a", "b"), body=0.05, positions=(Position("shut"), Position("open", [both("a", "b")]))),
        Kind("strainer", ports=("inlet", "outlet"), body=0.05, positions=(
            Position("fitted", [both("inlet", "outlet")]),
            Position("removed", [Way("breach", "inlet"), Way("breach", "outlet")]))),
        Kind("glass", ports=("inlet", "outlet"), body=0.05, sight_glass=True, always=(both("inlet", "outlet"),)),
        Kind("hose_piece", ends=(End("tail", "quick"), End("front", "quick")), volumes={"contents": 0.2},
             body=("given", "contents"), always=(both("tail", "front"),)),
        Kind("store", ports=("line",), body=1, always=(Way("stores", "line"),)),
        Kind("sink", ports=("waste",), chambers=(Chamber("bowl", low=("waste",)),), always=(Way("vent", "bowl"),)),
        Kind("trap", ports=("inlet", "outlet"), chambers=(
            Chamber("bend", "grey", brim=("inlet", "outlet"), litres=0.3),)),
        Kind("basin_and_trap", ports=("outlet",), chambers=(
            Chamber("bowl", litres=0.05), Chamber("bend", "grey", brim=("outlet",), litres=0.3)), always=(
                Way("vent", "bowl"), forward("bowl", "bend"))),
        Kind("grey_tank", ports=("inlet", "outlet"), chambers=(
            Chamber("body", "grey", low=("outlet",), top=("inlet",)),), always=(Way("vent", "body"),)),
        Kind("boiler", ports=("cold", "hot"), chambers=(Chamber("body", "water", low=("cold",), top=("hot",)),),
             inner=(Part("plug", "cock"), Part("safety", "relief")), always=(
                 both("cold", "plug.line"), both("hot", "safety.line"))),
        Kind("plug", ports=("line",), positions=(Position("fitted"), Position("removed", [Way("breach", "line")]))),
        Kind("kettle", ports=("cold", "hot"), partners={"power": ("switch", True)}, cools=40,
             chambers=(Chamber("body", "water", low=("cold",), top=("hot",)),), inner=(Part("plug", "plug"),),
             positions=(Position("off"), Position("on", [Way("heats", "body", condition=powered())])),
             always=(both("cold", "plug.line"),)),
        Kind("geyser", ports=("cold", "hot", "sump"), chambers=(
            Chamber("body", "water", low=("sump",), side=("hot",)),),
             positions=(Position("off"), Position("on", [Way("heats", "body")]), Position("half", [Way("heats", "body")])),
             always=(forward("cold", "body"), Way("vent", "body")),
             guards=(Guard("while", "on", ("holds", "body", "liquid")), Guard("set", "off", ("cool", "body"))), cools=40),
        Kind("urn", ports=("inlet",), partners={"power": ("switch", True)}, chambers=(
            Chamber("body", "water", top=("inlet",)),), cools=20, positions=(
                Position("shut"), Position("open", [fall("body")])),
             always=(Way("heats", "body", condition=powered()),)),
        Kind("coil", ports=("inlet",), chambers=(Chamber("body", low=("inlet",)),), positions=(
            Position("cold"), Position("hot", [Way("heats", "body")]), Position("open", [Way("breach", "body")]))),
        Kind("blower", ports=("line",), positions=(
            Position("off"), Position("on", [Way("supplies", "line", pressure=200, fluid="air")]))),
        Kind("bladder", ports=("line",), always=(Way("stores", "line"),)),
        Kind("valved_bladder", ports=("line",), positions=(Position("off"), Position("on", [Way("stores", "line")]))),
        Kind("box", ports=("inlet", "outlet"), chambers=(Chamber("body", low=("outlet",), top=("inlet",)),), positions=(
            Position("shut"), Position("vented", [Way("vent", "body")]), Position("open", [Way("breach", "body")]))),
        Kind("warmer", ports=("cold", "hot"), chambers=(Chamber("body", "water", low=("cold",), top=("hot",)),),
             positions=(Position("off"), Position("on", [Way("heats", "body")]),
                        Position("lifted", [Way("vent", "body")]))),
        Kind("drip", ports=("line",), always=(fall("line"),)),
        Kind("jar", ports=("line", "waste"), positions=(Position("shut"), Position("open", [fall("line", "body")])),
             chambers=(Chamber("body", low=("waste",)),)),
        Kind("pot", ports=("line",), chambers=(Chamber("body", low=("line",)),), always=(fall("line", "body"),)),
        Kind("joint", ends=(End("a", "quick"), End("b", "quick", cap=True)), always=(both("a", "b"),)),
    ]
    return {kind.name: kind for kind in kinds}


def needed(kinds, names):
    """The kinds with these names and those they are made of or depend on, what is used before what uses it."""
    found = {}

    def take(name):
        if name in found:
            return
        for inner in kinds[name].inner:
            take(inner.kind)
        for partner, _ in kinds[name].partners.values():
            take(partner)
        found[name] = kinds[name]

    for name in names:
        take(name)
    return found
