"""The work done in a house of network.py: zone by zone, tap after tap; drains; heaters led round; pumps. Sound, unless
one mistake is asked for."""
from itertools import islice

import network

# What may be done wrong, once, halfway through; the value is the slug that must be among the findings.
MISTAKES = {
    "drain left open": "open-path",
    "not looked at": "needs-verify",
    "tap stays shut": "blocked-flow",
    "tap left running": "left-running",
}


def _run_tap(tap, opened="open", origin="street", before=(), after=()):
    return [*before, f"set {tap} to {opened}",
            f'flow {origin} to {tap} until clear "It runs clear"',
            f"set {tap} to shut", *after]


def _heater_steps(zone):
    n = zone.number
    mixer, other = f"mixer_{n}_1", f"mixer_{n}_2"
    yield "Switch the heater off", [f"set heater_{n} to off", f"set breaker_{n} to off"]
    yield "Lead the water round the heater", [f"set bypass_{n}.cold_valve, bypass_{n}.hot_valve to to_right"]
    yield "Run the hot line cold", _run_tap(mixer, "hot")
    yield "Lead it through the heater", [f"set bypass_{n}.cold_valve, bypass_{n}.hot_valve to to_left"]
    yield "Fill the heater", _run_tap(mixer, "both")
    yield "Run the hot tap", _run_tap(f"hot_tap_{n}")
    yield "Run the other mixer", _run_tap(other, "cold")
    yield "Rinse at the hot drain", _run_tap(f"hot_drain_{n}")
    yield "Switch the heater on", [f"set breaker_{n} to on", f"set heater_{n} to electric"]


def _pump_steps(zone, tap):
    n = zone.number
    yield "Shut the zone off", [f"set stop_{n} to shut"]
    yield "Switch the pump on", [f"set tank_stop_{n} to open", f"set fuse_{n} to on", f"set pump_{n} to on"]
    yield "Draw from the tank", _run_tap(tap, origin=f"tank_{n}")
    yield "Switch the pump off", [f"set pump_{n} to off", f"set fuse_{n} to off", f"set tank_stop_{n} to shut"]
    yield "Open the zone", [f"set stop_{n} to open"]


def _drain_steps(zone, tap):
    n = zone.number
    yield "Shut the zone off", [f"set stop_{n} to shut"]
    yield "Let it run out", [
        f"set {tap}, drain_{n} to open", f'drain pipes through drain_{n} until stops "It drips"',
        f"set {tap}, drain_{n} to shut"]
    yield "Open the zone", [f"set stop_{n} to open"]


def _visit(zone, turn):
    """The steps of one visit, each a title and statements. The turn chooses what is done this time."""
    tap = zone.taps[0]
    if turn == 0:
        first = [f"verify {part} is {position}" for part, position in zone.unknown]
        if zone.late:
            first.append(f"set {zone.part('stop')} to open")
        yield "Look round", first or [f"verify {tap} is shut"]
    for number in range(3):
        each = zone.taps[(3 * turn + number) % len(zone.taps)]
        yield "Run a tap", _run_tap(each)
    for each in zone.option_taps:
        yield "Run the garden tap", _run_tap(each)
    selector, left, right = zone.selectors[turn % len(zone.selectors)]
    yield "Run the left tap", _run_tap(left)
    yield "Run the right tap", _run_tap(right, before=[f"set {selector} to to_right"],
                                        after=[f"set {selector} to to_left"])
    yield from _drain_steps(zone, tap)
    if zone.heater and turn % 2 == 0:
        yield from _heater_steps(zone)
    if zone.pump and turn % 2 == 1:
        yield from _pump_steps(zone, tap)


def _visits(zones, steps):
    """Zones in turn, without end. A late zone is first entered when its share of the steps has been done, so that
    what is unknown stays so for long. The caller says how many steps a visit took."""
    late = [zone for zone in zones if zone.late]
    opens_at = {zone.number: steps * (i + 1) // (len(late) + 2) for i, zone in enumerate(late)}
    turns = {zone.number: 0 for zone in zones}
    done = 0
    while True:
        for zone in zones:
            if done < opens_at.get(zone.number, 0):
                continue
            taken = yield zone, turns[zone.number]
            turns[zone.number] += 1
            done += taken


def _stages(house, steps):
    """Per visit its zone and its steps, as many as were asked for altogether."""
    visits = _visits(house.zones, steps)
    zone, turn = next(visits)
    left = steps
    while left > 0:
        some = list(islice(_visit(zone, turn), left))
        yield zone, some
        left -= len(some)
        zone, turn = visits.send(len(some))


def _spoil(stages, mistake):
    """Does one thing wrong in the first place from halfway on where it can be done."""
    half = len(stages) // 2
    for index in [*range(half, len(stages)), *range(half)]:
        zone, steps = stages[index]
        for number, (title, statements) in enumerate(steps):
            spoilt = None
            if mistake == "drain left open" and title == "Open the zone":
                spoilt = [*statements, f"set drain_{zone.number} to open"]
            elif mistake == "not looked at" and any(line.startswith("set stop") for line in statements):
                spoilt = [line for line in statements if not (line.startswith("verify") and line.endswith("shut"))]
            elif mistake == "tap stays shut" and title == "Run a tap":
                spoilt = statements[1:]
            elif mistake == "tap left running" and title == "Run a tap":
                spoilt = statements[:-1]
            if spoilt is not None and spoilt != statements:
                steps[number] = (title, spoilt)
                return
    raise ValueError(f"there is no place for the mistake: {mistake}")


def write(parts, steps, unknowns=0, options=0, mistake=None, crowded=False):
    """The text of a .curb file."""
    house = network.build(parts, unknowns, options, crowded)
    stages = list(_stages(house, steps))
    if mistake:
        _spoil(stages, mistake)
    lines = ["use water", "", *house.lines, "", 'procedure work "Work" on house {']
    unknown = [part for zone in house.zones for part, _ in zone.unknown]
    lines.append("  requires in_use" + (" except " + ", ".join(unknown) if unknown else ""))
    for zone in house.zones:
        if zone.heater:
            lines.append(f"  requires heater_{zone.number} holds hot_water")
        if zone.pump:
            lines.append(f"  requires tank_{zone.number} holds drinking_water")
    count = 0
    for index, (zone, some) in enumerate(stages, start=1):
        lines.append(f'  stage "Visit {index}, zone {zone.number}" {{')
        for title, statements in some:
            count += 1
            lines.append(f'    step "{count}. {title}" {{')
            lines += ["      " + statement for statement in statements]
            lines.append("    }")
        lines.append("  }")
    lines.append("}")
    if house.parts != parts or count != steps:
        raise ValueError(f"{house.parts} parts and {count} steps were made, not {parts} and {steps}")
    return "\n".join(lines) + "\n"
