"""Small files that are hard on purpose. To find a path that uses no forbidden pair of positions is NP-complete (H. N.
Gabow, S. N. Maheshwari, L. J. Osterweil, "On Two Problems in the Generation of Program Test Paths", IEEE Transactions
on Software Engineering SE-2, 1976), so no checker is quick on all of these. Each case knows the right verdict; the
checker may also say `not-decided`, and nothing else. What grows without end once it is written out may be refused for
that as well."""
import random
from dataclasses import dataclass

ACCEPTED = "accepted"
REFUSED = "refused"  # because of a path: `open-path` or `needs-verify`
TOO_LONG = "too long"  # accepted, or refused for what it comes to once it is written out

KINDS = """use water

kind lever "Lever" { position off { }  position on { } }
kind gate_on "Gate, open while its lever is on" {
  port inlet, outlet
  given control : lever
  always { inlet <-> outlet while control is on }
}
kind gate_off "Gate, open while its lever is off" {
  port inlet, outlet
  given control : lever
  always { inlet <-> outlet while control is off }
}
kind crossing "Crossing" {
  port left_in, right_in, left_out, right_out
  given control : lever
  always {
    left_in <-> left_out while control is off
    right_in <-> right_out while control is off
    left_in <-> right_out while control is on
    right_in <-> left_out while control is on
  }
}
"""


@dataclass
class Case:
    name: str
    text: str
    right: str


def _system(levers, body, end):
    """Everything between the street, shut, and a tap that stands open at the end of it."""
    lines = ['system maze "Maze" {', '  zone here "Here"',
             '  part street : mains_stop "Street stop valve" at here { delivers 3 bar }',
             '  part spout : tap "Spout" at here']
    lines += [f'  part {lever} : lever "Lever {lever}" at here' for lever in levers]
    lines += body + [f"  run {end} - spout.water : copper_15 1 m", "}"]
    return lines


def _procedure(requires, steps=('step "Open the street" { set street to open }',)):
    lines = ['procedure let_in "Let the water in" on maze {', "  requires street is shut and spout is open"]
    lines += [f"  requires {expression}" for expression in requires]
    return lines + ['  stage "All of it" {', *("    " + step for step in steps), "  }", "}"]


def _file(*parts):
    return KINDS + "\n".join(line for part in parts for line in part) + "\n"


def _clauses(clauses, levers):
    """In a row, for each clause gates side by side: the way is open where every clause has a literal that is true."""
    body, at = [], "street.house"
    for number, clause in enumerate(clauses, start=1):
        body.append(f"  tee before_{number}, after_{number}")
        body.append(f"  run {at} - before_{number} : copper_15 1 m")
        for place, (lever, on) in enumerate(clause, start=1):
            gate = f"gate_{number}_{place}"
            body.append(f'  part {gate} : gate_{"on" if on else "off"} "Gate {number}.{place}" at here '
                        f"{{ control {lever} }}")
            body.append(f"  run before_{number} - {gate}.inlet : copper_15 1 m")
            body.append(f"  run {gate}.outlet - after_{number} : copper_15 1 m")
        at = f"after_{number}"
    return _file(_system(levers, body, at), _procedure([]))


def planted(levers, clauses_per_lever, number):
    """Clauses of three literals drawn at random, each true for one hidden choice: there is a path."""
    chance = random.Random(number)
    names = [f"lever_{i}" for i in range(1, levers + 1)]
    hidden = {name: chance.random() < 0.5 for name in names}
    clauses = []
    while len(clauses) < round(levers * clauses_per_lever):
        clause = [(name, chance.random() < 0.5) for name in chance.sample(names, 3)]
        if any(hidden[name] == on for name, on in clause):
            clauses.append(clause)
    return Case(f"hidden path, {levers} levers, {len(clauses)} clauses", _clauses(clauses, names), REFUSED)


def pigeons(holes):
    """One more bird than holes, at most one to a hole: there is no path."""
    birds = holes + 1
    name = "lever_{}_{}".format
    clauses = [[(name(bird, hole), True) for hole in range(holes)] for bird in range(birds)]
    clauses += [[(name(one, hole), False), (name(other, hole), False)]
                for hole in range(holes) for other in range(birds) for one in range(other)]
    levers = [name(bird, hole) for bird in range(birds) for hole in range(holes)]
    return Case(f"no path, {birds} birds in {holes} holes", _clauses(clauses, levers), ACCEPTED)


def crossings(count, there_is_a_path):
    """Two rows of crossings worked by the same levers. Who leaves the first on the left cannot leave the second on
    the right."""
    levers = [f"lever_{i}" for i in range(1, count + 1)]
    body, left, right = [], "street.house", None
    for row in (1, 2):
        for number, lever in enumerate(levers, start=1):
            name = f"crossing_{row}_{number}"
            body.append(f'  part {name} : crossing "Crossing {row}.{number}" at here {{ control {lever} }}')
            body.append(f"  run {left} - {name}.left_in : copper_15 1 m")
            if right:
                body.append(f"  run {right} - {name}.right_in : copper_15 1 m")
            left, right = f"{name}.left_out", f"{name}.right_out"
        if row == 1:
            right = None
    text = _file(_system(levers, body, left if there_is_a_path else right), _procedure([]))
    return Case(f"{'' if there_is_a_path else 'no '}path over 2 x {count} crossings", text,
                REFUSED if there_is_a_path else ACCEPTED)


def far_pairs(count):
    """One of many pairs is on, and those who make a pair are declared far apart."""
    levers = [f"{half}_{i}" for half in ("first", "other") for i in range(1, count + 1)]
    pairs = " or ".join(f"first_{i} is on and other_{i} is on" for i in range(1, count + 1))
    opened = [f'step "Open the street" {{ set spout to shut  set street to open  verify {levers[0]} is on }}']
    return Case(f"`or` over {count} pairs", _file(_system(levers, [], "street.house"), _procedure([pairs], opened)),
                ACCEPTED)


def grid(side):
    """Of any two neighbours in a square one is on."""
    name = "lever_{}_{}".format
    levers = [name(row, column) for row in range(side) for column in range(side)]
    requires = [f"{name(row, column)} is on or {name(row + down, column + 1 - down)} is on"
                for down in (0, 1) for row in range(side - down) for column in range(side - 1 + down)]
    opened = [f'step "Open the street" {{ set spout to shut  set street to open  verify {levers[0]} is on }}']
    return Case(f"`or` between neighbours, {side} x {side}",
                _file(_system(levers, [], "street.house"), _procedure(requires, opened)), ACCEPTED)


def unknown_taps(count):
    """Nobody knows how any tap stands when the water comes."""
    taps, at = [], "street.house"
    for number in range(1, count + 1):
        taps += [f"  tee tee_{number}", f"  run {at} - tee_{number} : copper_15 1 m",
                 f'  part tap_{number} : tap "Tap {number}" at here',
                 f"  run tee_{number} - tap_{number}.water : copper_15 1 m"]
        at = f"tee_{number}"
    opened = ['step "Open the street" { set spout to shut  set street to open }']
    return Case(f"{count} unknown taps", _file(_system([], taps, at), _procedure([], opened)), REFUSED)


def cases_of_a_step(count):
    """Case after case, each of which turns another lever."""
    levers = [f"lever_{i}" for i in range(1, count + 1)]
    steps = ['step "Shut the spout" { set spout to shut }']
    steps += [f'step "Look at {lever}" {{ in case "it is loose" {{ set {lever} to on }} }}' for lever in levers]
    steps.append('step "Open the street" { set street to open }')
    return Case(f"{count} cases", _file(_system(levers, [], "street.house"), _procedure([], steps)), ACCEPTED)


def repeats(depth):
    """Loops within loops: each doubles what is done inside."""
    inner = 'step "Turn it" { set lever_1 to on  set lever_1 to off }'
    for level in range(depth):
        inner = f"repeat at most 4 times {{ {inner} }}"
    steps = ['step "Shut the spout" { set spout to shut }', inner]
    return Case(f"{depth} loops within each other", _file(_system(["lever_1"], [], "street.house"),
                                                        _procedure([], steps)), TOO_LONG)


def fragments(depth, times):
    """Fragments that use each other several times."""
    pieces = ["fragment piece_0() { set lever_1 to on  set lever_1 to off }"]
    pieces += [f"fragment piece_{level}() {{ " + f"do piece_{level - 1}()  " * times + "}"
               for level in range(1, depth + 1)]
    steps = [f'step "Turn it" {{ set spout to shut  do piece_{depth}() }}']
    return Case(f"fragments that grow {times}-fold {depth} times",
                _file(_system(["lever_1"], [], "street.house"), pieces, _procedure([], steps)), TOO_LONG)


def empty_fragments(depth):
    """Fragments that use each other ten times and come to nothing."""
    pieces = ["fragment piece_0() steps { }"]
    pieces += [f"fragment piece_{level}() steps {{ " + f"do piece_{level - 1}()  " * 10 + "}"
               for level in range(1, depth + 1)]
    steps = ['step "Shut the spout" { set spout to shut }', f"do piece_{depth}()"]
    return Case(f"empty fragments that grow 10-fold {depth} times",
                _file(_system([], [], "street.house"), pieces, _procedure([], steps)), TOO_LONG)


def loops_over_a_group(levers, depth):
    """For each of them, for each of them, and so on."""
    names = [f"lever_{i}" for i in range(1, levers + 1)]
    inner = f"set loop_{depth} to on  set loop_{depth} to off"
    for level in range(depth, 0, -1):
        inner = f"for each loop_{level} in levers {{ {inner} }}"
    text = _file(_system(names, [], "street.house"),
                 _procedure([], [f'step "Turn them" {{ set spout to shut  {inner} }}']))
    text = text.replace('kind lever "Lever" {', 'group levers "Levers"\nkind lever "Lever" in levers {')
    return Case(f"{depth} loops over {levers} levers", text, TOO_LONG)


def cases(quick=False):
    yield planted(20, 3.5, 1)
    yield pigeons(4)
    yield crossings(50, False)
    yield crossings(50, True)
    yield far_pairs(8)
    yield grid(6)
    yield unknown_taps(100)
    yield cases_of_a_step(50)
    yield repeats(6)
    yield fragments(6, 2)
    yield loops_over_a_group(10, 2)
    yield empty_fragments(3)
    if quick:
        return
    for levers in (40, 80, 200):
        yield planted(levers, 4.2, levers)
    for holes in (6, 9, 14):
        yield pigeons(holes)
    for count in (300, 1000):
        yield crossings(count, False)
        yield crossings(count, True)
    for count in (14, 20, 40):
        yield far_pairs(count)
    for side in (12, 20, 40):
        yield grid(side)
    yield unknown_taps(1000)
    yield cases_of_a_step(400)
    yield repeats(14)
    yield repeats(24)
    yield fragments(14, 2)
    yield fragments(30, 2)
    yield fragments(9, 10)
    yield empty_fragments(12)
    yield loops_over_a_group(300, 3)
