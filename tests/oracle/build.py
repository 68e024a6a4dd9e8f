"""Short ways to write statements and systems, for hand-worked cases and the generator."""

from kinds import FLUIDS, PIPES, needed, stock
from model import Part, Procedure, Run, Statement, System


def is_(*names_and_position):
    *names, position = names_and_position
    return ("is", tuple(names), position)


def put(*names_and_position):
    *names, position = names_and_position
    return Statement("set", targets=tuple(names), position=position)


def hold(name, position, *body):
    return Statement("hold", targets=(name,), position=position, body=list(body))


def couple(a, b):
    return Statement("couple", a=a, b=b)


def by_hand(verb, end):
    """uncouple, cap, uncap or lift."""
    return Statement(verb, a=end)


def dip(end, vessel):
    return Statement("dip", a=end, vessel=vessel)


def place(vessel, node):
    return Statement("place", vessel=vessel, node=node)


def take(vessel):
    return Statement("take", vessel=vessel)


def verify(e):
    return Statement("verify", expression=e)


def requires(e):
    return Statement("requires", expression=e)


def ensures(e):
    return Statement("ensures", expression=e)


def several(x):
    return (x,) if isinstance(x, str) else tuple(x)


def flow(sources, outlets, until="clear", at_least=None, seen="", at_most=None):
    return Statement("flow", sources=several(sources), outlets=several(outlets), until=until, at_least=at_least,
                     at_most=at_most, seen=seen)


def drain(chambers, outlets, at_most=None):
    return Statement("drain", sources=several(chambers), outlets=several(outlets), until="stops", at_most=at_most)


def keep(sources, outlets):
    return Statement("keep", sources=several(sources), outlets=several(outlets))


def pour(vessel, node):
    return Statement("pour", vessel=vessel, node=node)


def bring(fluid, litres=None):
    return Statement("bring", fluid=fluid, litres=litres)


def watch(node):
    return Statement("watch", node=node)


def wait(minutes):
    return Statement("wait", minutes=minutes)


def in_case(*body):
    return Statement("in case", body=list(body))


def repeat(times, *body):
    return Statement("repeat", times=times, body=list(body))


def only_with(option, *body):
    return Statement("only with", option=option, body=list(body))


def without(option, *body):
    return Statement("without", option=option, body=list(body))


def step(*body):
    return Statement("step", title="Step", body=list(body))


def stage(*body):
    return Statement("stage", title="Stage", body=list(body))


def meanwhile(flow_or_drain, *steps):
    return Statement("meanwhile", flow=flow_or_drain, body=list(steps))


def procedure(*body, needs=(), gives=()):
    """One stage with the steps given; a body without steps makes one step."""
    if not all(s.form in ("step", "meanwhile", "in case", "repeat", "only with", "without") for s in body) or any(
            not holds_steps(s) for s in body):
        body = (step(*body),)
    return Procedure(requires=[requires(e) for e in needs], ensures=[ensures(e) for e in gives], body=[stage(*body)])


def holds_steps(s):
    return s.form == "step" or s.form == "meanwhile" or any(holds_steps(inner) for inner in s.body)


def system(parts, runs=(), **more):
    """A system with these parts, (name, kind) or Part, and runs "a - b"; kinds come from the stock."""
    made = [p if isinstance(p, Part) else Part(*p) for p in parts]
    joined = [r if isinstance(r, Run) else Run(*r.split(" - "), "hose") for r in runs]
    return System(fluids=list(FLUIDS), pipes=dict(PIPES), kinds=needed(stock(), [p.kind for p in made]),
                  parts=made, runs=joined, **more)
