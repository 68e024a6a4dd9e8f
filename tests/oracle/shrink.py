"""Makes a case small while something stays true of it: leaves out statements, contracts, runs, parts, options.

For: compare.py.  It knows nothing of what the something is.
"""

import copy

from generate import drop_loose_tees
from model import statements_of


def shrink(system, procedure, still):
    """The smallest case reached by leaving out one thing at a time; `still(system, procedure)` must hold of it."""
    going = True
    while going:
        going = False
        for make in (without_statement, unwrapped, without_contract, without_part, without_run, without_other, simpler):
            number = 0
            while True:
                smaller = make(copy.deepcopy((system, procedure)), number)
                if smaller is None:
                    break
                if still(*smaller):
                    system, procedure = smaller
                    going = True
                else:
                    number += 1
    return system, procedure


def bodies(procedure):
    yield procedure.body
    for s in statements_of(procedure.body):
        yield s.body


def nth_slot(procedure, number):
    for body in bodies(procedure):
        if number < len(body):
            return body, number
        number -= len(body)
    return None


def without_statement(case, number):
    slot = nth_slot(case[1], number)
    if slot is None:
        return None
    body, i = slot
    del body[i]
    return case


def unwrapped(case, number):
    """A block replaced by what stands in it."""
    for body in bodies(case[1]):
        for i in range(len(body)):
            if body[i].form in ("in case", "repeat", "only with", "without", "meanwhile", "hold"):
                if number == 0:
                    body[i:i + 1] = body[i].body
                    return case
                number -= 1
    return None


def without_contract(case, number):
    for contracts in (case[1].requires, case[1].ensures):
        if number < len(contracts):
            del contracts[number]
            return case
        number -= len(contracts)
    return None


def without_part(case, number):
    s, p = case
    if number >= len(s.parts):
        return None
    part = s.parts.pop(number)
    s.runs = [r for r in s.runs if part.name not in (r.a.split(".")[0], r.b.split(".")[0])]
    for other in s.parts:
        if other.over.split(".")[0] == part.name:
            other.over = ""
        other.settings = {k: v for k, v in other.settings.items() if v != part.name}
    return tidy(case)


def without_run(case, number):
    s, _ = case
    if number >= len(s.runs):
        return None
    del s.runs[number]
    return tidy(case)


def without_other(case, number):
    s, _ = case
    for things in (s.vessels, s.covers, s.options, s.ends, s.places):
        if number < len(things):
            del things[number]
            return tidy(case)
        number -= len(things)
    return None


def tidy(case):
    """Leaves out what nothing joins or names any more."""
    s, _ = case
    names = {e.name for e in s.ends}
    s.runs = [r for r in s.runs if all("." in n or n in names or n in s.tees for n in (r.a, r.b))]
    drop_loose_tees(s)
    used = {p.kind for p in s.parts}
    for kind in s.kinds.values():
        if kind.name in used:
            used |= {partner for partner, _ in kind.partners.values()} | {inner.kind for inner in kind.inner}
    s.kinds = {name: kind for name, kind in s.kinds.items() if name in used}
    things = {p.name for p in s.parts} | names | {c.name for c in s.covers}
    known = things | set(s.places) | {v.name for v in s.vessels}

    def is_known(target, position):
        partner = [position[1]] if isinstance(position, tuple) else []
        return all(n.startswith("all ") or n in known or n.split(".")[0] in things for n in [target] + partner)

    for name, entries in s.lineups.items():
        s.lineups[name] = [e for e in entries if is_known(*e)]
    s.accepts = {name: lists for name, lists in s.accepts.items() if name in s.places + [v.name for v in s.vessels]}
    return case


def simpler(case, number):
    """One property of one part or run taken away."""
    s, _ = case
    for part in s.parts:
        for name, plain in (("height", None), ("over", ""), ("only_with", ()), ("without", ()), ("rated", None),
                            ("holds", ""), ("settings", {}), ("places", (("yard", ()),))):
            if getattr(part, name) != plain:
                if number == 0:
                    setattr(part, name, plain)
                    return case
                number -= 1
    for run in s.runs:
        for name, plain in (("only_with", ()), ("without", ()), ("pipe", "hose"), ("falls_to", ""), ("length", 1)):
            if getattr(run, name) != plain:
                if number == 0:
                    setattr(run, name, plain)
                    return case
                number -= 1
    return simpler_contents(case, number)


def simpler_contents(case, number):
    """A body, what is accepted, an entry of a line-up, or what is said beside a flow, taken away."""
    s, p = case
    for kind in s.kinds.values():
        if kind.body:
            if number == 0:
                kind.body = 0
                return case
            number -= 1
    for name in list(s.accepts):
        if number == 0:
            del s.accepts[name]
            return case
        number -= 1
    for entries in s.lineups.values():
        if len(entries) > 1 and number < len(entries):
            del entries[number]
            return case
        number -= len(entries) if len(entries) > 1 else 0
    for statement in statements_of(p.body):
        for name, plain in (("at_least", None), ("seen", "")):
            if getattr(statement, name) != plain:
                if number == 0:
                    setattr(statement, name, plain)
                    return case
                number -= 1
    return None
