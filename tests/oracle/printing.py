"""Writes a system and a procedure as one self-contained .curb file, a statement a line.

For: handing a case to the checker.  Sets `line` of each statement to the line on which its first word stands, so that
findings can be compared by line.  It decides nothing about what is proved.
"""


def quantity(value):
    return f"{value} kPa"


def litres(value):
    return f"{value} L"


def print_file(system, procedure):
    """The text of the file; sets the lines of the procedure and its statements."""
    page = Page()
    for fluid in system.fluids:
        gas = "  gas" if fluid.gas else ""
        shows = f'  shows "{fluid.shows}"' if fluid.shows else ""
        freezes = "".join(f"  at {strength} % freezes {degrees} degC" for strength, degrees in fluid.freezes)
        disinfects = "".join(f"  disinfects at {strength} mg/L for {minutes} min" for strength, minutes in fluid.disinfects)
        page.add(f'fluid {fluid.name} "{fluid.name}" {{ category {fluid.category}{gas}{shows}{freezes}{disinfects} }}')
    for name, rated in system.pipes.items():
        rating = f"  rated {quantity(rated)}" if rated is not None else ""
        page.add(f'pipe {name} "{name}" {{ bore {system.bores.get(name, 13)} mm{rating} }}')
    for group in sorted({g for kind in system.kinds.values() for g in kind.groups}):
        page.add(f'group {group} "{group}"')
    for kind in system.kinds.values():
        print_kind(page, kind)
    print_system(page, system)
    for name, entries in system.lineups.items():
        page.open(f'lineup {name} "{name}" on {system.name}' + (" for use" if name == system.for_use else ""))
        for target, position in entries:
            page.add(f"{target} {stand(position)}")
        page.close()
    print_procedure(page, system, procedure)
    return "\n".join(page.lines) + "\n"


class Page:
    def __init__(self):
        self.lines = []
        self.depth = 0

    def add(self, text):
        """Adds one line and gives its number."""
        self.lines.append("  " * self.depth + text)
        return len(self.lines)

    def open(self, text):
        number = self.add(text + " {")
        self.depth += 1
        return number

    def close(self):
        self.depth -= 1
        self.add("}")


def print_kind(page, kind):
    groups = " in " + ", ".join(kind.groups) if kind.groups else ""
    page.open(f'kind {kind.name} "{kind.name}"{groups}')
    if kind.ports:
        page.add("port " + ", ".join(kind.ports))
    for end in kind.ends:
        page.add(end_text(end))
    for name, default in kind.quantities.items():
        page.add(f"given {name} : pressure = {quantity(default)}")
    for name, default in kind.volumes.items():
        page.add(f"given {name} : volume = {litres(default)}")
    for name, (partner, optional) in kind.partners.items():
        page.add(f"given {name} : {partner}" + (" optional" if optional else ""))
    for inner in kind.inner:
        page.add(f"part {inner.name} : {inner.kind}" + settings_text(inner))
    for chamber in kind.chambers:
        fluid = f" of {chamber.fluid}" if chamber.fluid else ""
        heights = [f"{word} {', '.join(ports)}" for word, ports in
                   (("low", chamber.low), ("side", chamber.side), ("brim", chamber.brim), ("top", chamber.top)) if ports]
        page.add(f"chamber {chamber.name} holds {chamber.litres} L{fluid} "
                 + ("{ " + "  ".join(heights) + " }" if heights else "{ }"))
    if kind.dial:
        name, lowest, greatest = kind.dial
        page.add(f"dial {name} {quantity(lowest)} to {quantity(greatest)}")
    if kind.always:
        print_ways(page, "always", kind.always)
    for position in kind.positions:
        condition = f" while {expression(position.condition)}" if position.condition else ""
        print_ways(page, f"position {position.name}{condition}", position.ways)
    if kind.springs_back:
        page.add(f"springs back to {kind.springs_back}")
    if kind.rated is not None:
        page.add(f"rated {quantity(kind.rated)}")
    for guard in kind.guards:
        page.add(f'guard {guard.when} {guard.position} needs {expression(guard.needs)} "{guard.why}"')
    if kind.body:
        page.add(f"body {kind.body[1] if isinstance(kind.body, tuple) else litres(kind.body)}")
    if kind.sight_glass:
        page.add("sight glass")
    if kind.runs_dry:
        page.add("may run dry 2 min")
    if kind.cools is not None:
        page.add(f"cools in {kind.cools} min")
    page.close()


def print_ways(page, heading, ways):
    if not ways:
        page.add(heading + " { }")
        return
    page.open(heading)
    for way in ways:
        page.add(way_text(way))
    page.close()


def source_pressure(pressure):
    return pressure[1] if isinstance(pressure, tuple) else quantity(pressure)


def way_text(way):
    if way.form == "both":
        text = f"{way.a} <-> {way.b}"
    elif way.form == "forward":
        text = f"{way.a} -> {way.b}" + (f" limits {source_pressure(way.pressure)}" if way.pressure is not None else "")
        text += f" protects to {way.protects}" if way.protects != 2 else ""
    elif way.form == "fall":
        text = f"{way.a} ~> {way.b}" + (f" above {source_pressure(way.pressure)}" if way.pressure is not None else "")
    elif way.form in ("breach", "vent", "stores", "heats"):
        text = f"{way.form} {way.a}"
    elif way.form == "supplies":
        text = f"supplies {way.fluid} at {way.a} up to {source_pressure(way.pressure)}"
    elif way.form == "lifts":
        text = f"lifts {way.a} -> {way.b} up to {source_pressure(way.pressure)}"
        if way.own_switch:
            text += " with own switch"
    else:
        raise ValueError(way.form)
    return text + (f" while {expression(way.condition)}" if way.condition else "")


def end_text(end):
    label = f' "{end.name}"'
    place = f" at {end.at}" if end.at else ""
    return (f"end {end.name}{label}{place} fits {end.fit}" + (" with cap" if end.cap else "")
            + (" may dip" if end.dips else ""))


def settings_text(part, volumes=()):
    words = []
    for name, value in part.settings.items():
        unit = litres if name in volumes else quantity
        words.append(f"{name} {value if isinstance(value, str) else unit(value)}")
    if part.rated is not None:
        words.append(f"rated {quantity(part.rated)}")
    if part.holds:
        words.append(f"holds {part.holds}")
    return " { " + "  ".join(words) + " }" if words else ""


def options_text(thing):
    return ("".join(f" only with {o}" for o in thing.only_with) + "".join(f" without {o}" for o in thing.without))


def print_system(page, system):
    page.open(f'system {system.name} "{system.name}"')
    for option in system.options:
        page.add(f'option {option} "{option}"')
    for zone in system.zones:
        page.add(f'zone {zone} "{zone}"')
    for cover in system.covers:
        behind = " behind " + ", ".join(cover.behind) if cover.behind else ""
        page.add(f'cover {cover.name} "{cover.name}" at {cover.zone}{behind}')
    strengths = {f.name for f in system.fluids if f.freezes}
    for vessel in system.vessels:
        filled = f" filled with {vessel.filled}" if vessel.filled else ""
        filled += f" at {vessel.strength} %" if vessel.filled in strengths else ""
        page.add(f'vessel {vessel.name} "{vessel.name}" {litres(vessel.litres)}{accepted(system, vessel.name)}{filled}')
    for place in system.places:
        page.add(f'place {place} "{place}"{accepted(system, place)}')
    for end in system.ends:
        page.add(end_text(end))
    if system.tees:
        page.add("tee " + ", ".join(system.tees))
    for part in system.parts:
        places = []
        for zone, covers in part.places:
            places.append(zone + (" behind " + " and ".join(covers) if covers else ""))
        height = f" height {part.height} cm" if part.height is not None else ""
        over = f" over {part.over}" if part.over else ""
        page.add(f'part {part.name} : {part.kind} "{part.name}" at {", ".join(places)}{height}{over}'
                 + options_text(part) + settings_text(part, system.kinds[part.kind].volumes))
    for run in system.runs:
        falls = f" falls to {run.falls_to}" if run.falls_to else ""
        page.add(f"run {run.a} - {run.b} : {run.pipe} {run.length} m{falls}" + options_text(run))
    page.close()


def accepted(system, name):
    """What a vessel or a place accepts, as text."""
    lists = system.accepts.get(name, ([f.name for f in system.fluids], (), ()))
    return "".join(f" {word} {', '.join(fluids)}" for word, fluids in zip(("accepts", "mixed", "traces"), lists) if fluids)


def stand(position):
    """How something stands, as written after `is`, after `to` or in a line-up."""
    if isinstance(position, int):
        return quantity(position)
    if isinstance(position, tuple):
        return {"coupled": "coupled to ", "in": "in ", "under": "under "}[position[0]] + position[1]
    return position


def expression(e, within=False):
    """The text of an expression; `within` another it stands in parentheses where it is compound."""
    form = e[0]
    if form in ("is", "is not"):
        several = e[1][0].startswith("all ")
        verb = form.replace("is", "are") if several else form
        return f"{', '.join(e[1])} {verb} {stand(e[2])}"
    if form == "no pressure":
        return "no pressure" + (" at " + ", ".join(e[1]) if e[1] else "")
    if form == "below":
        return f"pressure at {e[1]} below {quantity(e[2])}"
    if form == "reaches liquid":
        return f"{e[1]} reaches liquid"
    if form == "holds":
        return f"{e[1]} holds {e[2]}"
    if form == "empty":
        return f"{e[1]} is empty"
    if form == "cool":
        return f"{e[1]} is cool"
    if form == "frost safe":
        return f"frost_safe at {e[1]} degC"
    if form == "sanitised":
        return "sanitised" + (f" except {', '.join(e[1])}" if e[1] else "")
    if form in ("drinkable", "restored"):
        return form
    if form == "lineup":
        return e[1] + (" except " + ", ".join(e[2]) if e[2] else "")
    if form == "not":
        text = f"not {expression(e[1], True)}"
    elif form in ("and", "or", "implies"):
        text = f"{expression(e[1], True)} {form} {expression(e[2], True)}"
    else:
        raise ValueError(form)
    return f"({text})" if within else text


def print_procedure(page, system, procedure):
    procedure.line = page.open(f'procedure {procedure.name} "{procedure.name}" on {system.name}')
    for statement in procedure.requires + procedure.ensures:
        print_statement(page, statement)
    for stage in procedure.body:
        print_statement(page, stage)
    page.close()


def print_statement(page, s):
    heading = statement_text(s)
    if s.form in ("stage", "step", "hold", "in case", "repeat", "only with", "without", "meanwhile"):
        s.line = page.open(heading)
        if s.form == "meanwhile":
            s.flow.line = s.line
        for inner in s.body:
            print_statement(page, inner)
        page.close()
    else:
        s.line = page.add(heading)


def statement_text(s):
    form = s.form
    if form in ("stage", "step"):
        return f'{form} "{s.title or form}"'
    if form == "set":
        return f"set {', '.join(s.targets)} to {stand(s.position)}"
    if form == "hold":
        return f"hold {s.targets[0]} at {s.position}"
    if form == "couple":
        return f"couple {s.a} to {s.b}"
    if form in ("uncouple", "cap", "uncap"):
        return f"{form} {s.a}"
    if form == "dip":
        return f"dip {s.a} in {s.vessel}"
    if form == "lift":
        return f"lift {s.a} out"
    if form == "place":
        return f"place {s.vessel} under {s.node}"
    if form == "take":
        return f"take {s.vessel} away"
    if form in ("verify", "requires", "ensures"):
        return f"{form} {expression(s.expression)}"
    if form == "flow":
        volume = f" at least {litres(s.at_least)}" if s.at_least is not None else ""
        volume += f" at most {litres(s.at_most)}" if s.at_most is not None else ""
        seen = f" seen at {s.seen}" if s.seen else ""
        return f'flow {", ".join(s.sources)} to {", ".join(s.outlets)} until {s.until} "It does."{volume}{seen}'
    if form == "drain":
        volume = f" at most {litres(s.at_most)}" if s.at_most is not None else ""
        return f'drain {", ".join(s.sources)} through {", ".join(s.outlets)} until {s.until} "It stops."{volume}'
    if form == "keep":
        return f'keep flow {", ".join(s.sources)} to {", ".join(s.outlets)}'
    if form == "meanwhile":
        return "meanwhile " + statement_text(s.flow)
    if form == "bring":
        return "bring " + (litres(s.litres) + " " if s.litres is not None else "") + s.fluid
    if form == "pour":
        return f"pour {s.vessel} into {s.node}"
    if form == "watch":
        return f'watch "It does." at {s.node}'
    if form == "in case":
        return f'in case "It does."'
    if form == "repeat":
        return f"repeat at most {s.times} times"
    if form in ("only with", "without"):
        return f"{form} {s.option}"
    if form == "wait":
        return f"wait {s.minutes} min"
    if form == "note":
        return 'note "Take your time."'
    raise ValueError(form)
