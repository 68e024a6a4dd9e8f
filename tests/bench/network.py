"""A house of any size: a trunk, and on it zone after zone of taps, selectors, a drain, now and then a heater on a
bypass or a tank with a pump. Knows nothing of what anyone does with it: that is work.py."""
from dataclasses import dataclass, field

HEATER_EVERY = 4  # zones; in a crowded house each has one, and a pump
PUMP_EVERY = 6
PLAIN_TAPS = 6
SELECTORS = 2


@dataclass
class Zone:
    number: int
    late: bool  # its stop is shut at the start, and nobody comes here before its turn
    taps: list = field(default_factory=list)
    selectors: list = field(default_factory=list)  # (selector, tap on the left, tap on the right)
    option_taps: list = field(default_factory=list)
    heater: bool = False
    pump: bool = False
    unknown: list = field(default_factory=list)  # (part, the position it is in use in)

    def part(self, name):
        return f"{name}_{self.number}"


@dataclass
class House:
    zones: list
    parts: int  # inner parts of assemblies counted
    unknowns: int
    options: int
    lines: list  # the text of the system and its line-ups


class _Writer:
    """Writes the system down while its parts are counted."""

    def __init__(self):
        self.lines = []
        self.count = 0

    def part(self, name, kind, label, zone, settings="", parts=1):
        self.lines.append(f'  part {name} : {kind} "{label}" at zone_{zone}{settings}')
        self.count += parts

    def run(self, one, other, length, settings=""):
        self.lines.append(f"  run {one} - {other} : copper_15 {length} m{settings}")

    def add(self, line):
        self.lines.append("  " + line)


class _Line:
    """The cold line of a zone: every branch gets a tee of its own."""

    def __init__(self, writer, zone):
        self.writer, self.zone, self.tees, self.last = writer, zone, 0, None

    def branch(self):
        self.tees += 1
        tee = f"cold_{self.zone}_{self.tees}"
        self.writer.add(f"tee {tee}")
        if self.last:
            self.writer.run(self.last, tee, 0.6, f" falls to {self.last}")
        self.last = tee
        return tee


def _zone_size(number, crowded):
    usual = 1 + PLAIN_TAPS + 3 * SELECTORS + 1
    return usual + (11 if _has_heater(number, crowded) else 0) + (5 if _has_pump(number, crowded) else 0)


def _has_heater(number, crowded):
    return crowded or number % HEATER_EVERY == 1


def _has_pump(number, crowded):
    return crowded or number % PUMP_EVERY == 2


def _tap(writer, zone, line, name, label, settings=""):
    writer.part(name, "tap", label, zone.number, settings)
    writer.run(line.branch(), f"{name}.water", 0.8, " falls to " + line.last)


def _filters_of(writer, number, options):
    """The way from the stop of a zone to its line: through a filter for each option that brings one."""
    tee = f"cold_{number}_0"
    writer.add(f"tee {tee}")
    writer.run(f"stop_{number}.outlet", tee, 0.3)
    for option in options:
        name, after = f"filter_{option}", f"after_{option}"
        writer.part(name, "filter_bowl", f"Filter {option}", number, f" only with option_{option}")
        writer.add(f"tee {after}")
        writer.run(tee, f"{name}.inlet", 0.2, f" only with option_{option}")
        writer.run(f"{name}.outlet", after, 0.2, f" only with option_{option}")
        writer.run(tee, after, 0.4, f" without option_{option}")
        tee = after
    return tee


def _heater(writer, zone, line):
    n = zone.number
    zone.heater = True
    writer.part(f"breaker_{n}", "breaker", f"Heater breaker {n}", n)
    writer.part(f"bypass_{n}", "bypass_set", f"Heater bypass {n}", n, parts=3)
    writer.part(f"heater_{n}", "storage_heater", f"Water heater {n}", n,
                f" {{ size 60 L  power breaker_{n} }}", parts=3)
    writer.add(f"tee hot_{n}_1, hot_{n}_2")
    writer.run(line.branch(), f"bypass_{n}.feed", 0.5)
    writer.run(f"bypass_{n}.to_heater", f"heater_{n}.cold", 0.4)
    writer.run(f"heater_{n}.hot", f"bypass_{n}.from_heater", 0.4)
    writer.run(f"bypass_{n}.hot_line", f"hot_{n}_1", 0.5)
    writer.run(f"hot_{n}_1", f"hot_{n}_2", 1.5, f" falls to hot_{n}_1")
    writer.part(f"hot_drain_{n}", "drain_cock", f"Hot drain {n}", n)
    writer.run(f"hot_{n}_1", f"hot_drain_{n}.line", 0.2, f" falls to hot_drain_{n}")
    for which in (1, 2):
        name = f"mixer_{n}_{which}"
        writer.part(name, "mixer_tap", f"Mixer tap {n}.{which}", n)
        writer.run(line.branch(), f"{name}.cold", 0.8)
        writer.run(f"hot_{n}_{which}", f"{name}.hot", 0.8, f" falls to hot_{n}_{which}")
    writer.part(f"hot_tap_{n}", "tap", f"Hot tap {n}", n)
    writer.run(f"hot_{n}_2", f"hot_tap_{n}.water", 0.5, f" falls to hot_{n}_2")


def _pump(writer, zone, line):
    n = zone.number
    zone.pump = True
    writer.part(f"tank_{n}", "vented_tank", f"Tank {n}", n, " { size 100 L }")
    writer.part(f"tank_stop_{n}", "shut_off", f"Tank stop {n}", n)
    writer.part(f"fuse_{n}", "switch", f"Pump fuse {n}", n)
    writer.part(f"pump_{n}", "demand_pump", f"Pump {n}", n, f" {{ power fuse_{n}  cut_out 2.5 bar }}")
    writer.part(f"check_{n}", "check_valve", f"Check valve {n}", n)
    writer.run(f"tank_{n}.outlet", f"tank_stop_{n}.inlet", 0.3)
    writer.run(f"tank_stop_{n}.outlet", f"pump_{n}.suction", 0.3)
    writer.run(f"pump_{n}.delivery", f"check_{n}.inlet", 0.3)
    writer.run(f"check_{n}.outlet", line.branch(), 0.5)


def _zone(writer, number, late, option_taps, option_filters, room, crowded):
    """`room` is how many parts it is to have: taps fill it up."""
    zone = Zone(number, late)
    writer.add(f'zone zone_{number} "Zone {number}"')
    if number > 1:
        writer.add(f"walk zone_{number - 1} - zone_{number} 6 m")
    start = writer.count
    writer.part(f"stop_{number}", "shut_off", f"Stop valve {number}", number)
    writer.add(f"tee trunk_{number}")
    writer.run("reducer.outlet" if number == 1 else f"trunk_{number - 1}", f"trunk_{number}", 2)
    writer.run(f"trunk_{number}", f"stop_{number}.inlet", 0.3)
    line = _Line(writer, number)
    line.last = _filters_of(writer, number, option_filters)
    writer.part(f"drain_{number}", "drain_cock", f"Drain cock {number}", number)
    writer.run(line.branch(), f"drain_{number}.line", 0.3, f" falls to drain_{number}")
    for option in option_taps:
        name = f"garden_tap_{option}"
        _tap(writer, zone, line, name, f"Garden tap {option}", f" only with option_{option}")
        zone.option_taps.append(name)
    for which in range(1, SELECTORS + 1):
        name, left, right = (f"{part}_{number}_{which}" for part in ("selector", "left_tap", "right_tap"))
        writer.part(name, "selector", f"Selector {number}.{which}", number)
        writer.run(line.branch(), f"{name}.common", 0.5)
        for side, tap in (("left", left), ("right", right)):
            writer.part(tap, "tap", f"Tap {number}.{which} {side}", number)
            writer.run(f"{name}.{side}", f"{tap}.water", 0.9)
        zone.selectors.append((name, left, right))
    if _has_heater(number, crowded):
        _heater(writer, zone, line)
    if _has_pump(number, crowded):
        _pump(writer, zone, line)
    for which in range(1, room - (writer.count - start) + 1):
        name = f"tap_{number}_{which}"
        _tap(writer, zone, line, name, f"Tap {number}.{which}")
        zone.taps.append(name)
    return zone


def _choose_unknowns(zones, wanted):
    """Zone after zone, one thing each round, until there are enough. In a zone whose stop is shut anything may be
    open; where it is open, only selectors between shut taps are left unknown."""
    offers = []
    for zone in zones:
        things = [(name, "to_left") for name, _, _ in zone.selectors]
        if zone.late:
            # The first tap is kept for those who look; the rest nobody has looked at.
            things = [(name, "shut") for name in [*zone.taps[1:], zone.part("drain")]] + things
        offers.append((zone, things))
    chosen = 0
    while chosen < wanted:
        before = chosen
        for zone, things in offers:
            if things and chosen < wanted:
                zone.unknown.append(things.pop(0))
                chosen += 1
        if chosen == before:
            raise ValueError(f"there is room for {chosen} unknown parts only, not for {wanted}")


def _line_ups(zones, filters):
    entries = ["street open", "all taps shut", "all drains shut", "all shut_offs open"]
    entries += [f"{name} to_left" for zone in zones for name, _, _ in zone.selectors]
    entries += [f"filter_{option} fitted" for option in filters]
    shut = [f"{zone.part('stop')} shut" for zone in zones if zone.late]
    for zone in zones:
        n = zone.number
        if zone.heater:
            entries += [f"breaker_{n} on", f"heater_{n} electric", f"heater_{n}.plug fitted",
                        f"heater_{n}.relief seated", f"bypass_{n}.cold_valve to_left",
                        f"bypass_{n}.hot_valve to_left"]
        if zone.pump:
            entries += [f"fuse_{n} off", f"pump_{n} off"]
            shut.append(f"tank_stop_{n} shut")
    return (['lineup as_built "As built" on house {'] + ["  " + entry for entry in entries] + ["}"] +
            ['lineup in_use "In use" on house like as_built {'] + ["  " + entry for entry in shut] + ["}"])


def build(parts, unknowns=0, options=0, crowded=False):
    writer = _Writer()
    numbers = []
    used = 2 + options  # the street and its reducer, and what the options bring
    while used < parts:
        numbers.append(len(numbers) + 1)
        used += _zone_size(len(numbers), crowded)
    if len(numbers) > 1 and used > parts:
        numbers.pop()
    writer.lines.append('system house "House" {')
    for option in range(1, options + 1):
        writer.add(f'option option_{option} "Option {option}"')
    zones, all_filters = [], []
    # More pressure than a heater stands, and a reducer that holds it back.
    writer.part("street", "mains_stop", "Street stop valve", 1, " { delivers 5 bar }")
    writer.part("reducer", "pressure_reducer", "Pressure reducer", 1)
    writer.run("street.house", "reducer.inlet", 1)
    for number in numbers:
        own = [option for option in range(1, options + 1) if option % len(numbers) == number % len(numbers)]
        # Every other option is a tap, and the others a filter in the line.
        taps = [option for option in own if (option - 1) // len(numbers) % 2 == option % 2]
        filters = [option for option in own if option not in taps]
        all_filters += filters
        last = number == numbers[-1]  # takes what is left over, so that the house has just as many parts as asked for
        zones.append(_zone(writer, number, number % 2 == 0, taps, filters,
                           parts - writer.count if last else _zone_size(number, crowded) + len(own),
                           crowded))
    writer.lines.append("}")
    _choose_unknowns(zones, unknowns)
    return House(zones, writer.count, unknowns, options, writer.lines + _line_ups(zones, all_filters))
