"""Mends a procedure where the walk finds something, so that a good share of random ones is sound or nearly so.

For: compare.py.  It changes statements; whether what results is sound is the walk's business.
"""

import copy

from build import drain, flow, is_, keep, put, verify, wait
from build import requires as requiring
from model import statements_of


def body_of(procedure, statement):
    """The list in which a statement stands, and its place there."""
    def search(body):
        for i, s in enumerate_body(body):
            if s is statement:
                return body, i
            found = search(s.body)
            if found:
                return found
        return None

    return search(procedure.body)


def enumerate_body(body):
    return [(i, body[i]) for i in range(len(body))]


def at_line(procedure, line):
    for s in statements_of(procedure.body):
        if s.line == line:
            return s
    return None


class Mender:
    def __init__(self, writer, procedure, share):
        self.writer = writer
        self.rng = writer.rng
        self.network = writer.network
        self.procedure = procedure
        self.share = share                          # how many of the findings are mended

    def mend(self, findings):
        for finding in sorted(findings.values(), key=lambda f: -f.line):
            if self.rng.random() < self.share:
                self.mend_one(finding)

    def mend_one(self, finding):
        slug, line, _, detail = finding
        s = at_line(self.procedure, line)
        if slug == "open-path":
            self.declare(s, detail[1], detail[2])
        elif slug == "needs-verify":
            self.look(s, detail)
        elif slug == "left-running":
            self.stop(s, detail)
        elif slug == "undeclared-drain" and self.rng.random() < 0.8:
            self.insert(s, 1, drain(self.named(detail[0]), self.outlet(detail[1])))
        elif slug == "unmet-ensures" or slug == "unmet-requires":
            for contracts in (self.procedure.ensures, self.procedure.requires):
                contracts[:] = [c for c in contracts if c.line != line]
            self.remove(s)
        elif slug == "never-true":
            self.procedure.requires = [c for c in self.procedure.requires if c.line != line]
            self.remove(s)
        elif slug == "scald" and self.rng.random() < 0.7:
            cool = ("cool", self.writer.short(detail[0]))
            self.insert(s, 0, self.rng.choice((wait(20), wait(40), verify(cool))))
        elif slug == "dry-fire" and self.rng.random() < 0.7:
            self.insert(s, 0, verify(("holds", self.writer.short(detail[2]), "liquid")))
        elif slug == "out-of-reach" and self.network.system.covers and self.rng.random() < 0.7:
            for cover in reversed(self.network.system.covers):
                self.insert(s, 0, put(cover.name, "open"))
        elif slug == "trapped-pressure":
            self.let_off(s, detail[1])
        elif slug == "no-effect":
            if self.rng.random() < 0.5:
                self.remove(s)
        else:
            self.remove(s)

    def insert(self, s, after, new):
        found = s and s.form not in ("step", "stage", "requires", "ensures") and body_of(self.procedure, s)
        if found:
            body, i = found
            if not holds_steps(body[i]):
                body.insert(i + after, new)

    def remove(self, s):
        found = s and body_of(self.procedure, s)
        if found and s.form not in ("stage", "step", "meanwhile") and not holds_steps(s):
            del found[0][found[1]]

    def named(self, origin):
        return origin[1] if origin[0] == "supply" else self.writer.short(origin[1])

    def outlet(self, outlet):
        if outlet[0] == "end" or outlet[0] == "fill" and outlet[1] in self.network.vessels:
            return outlet[1]
        return self.writer.short(outlet[1]) if outlet[0] == "fill" else outlet[1]

    def declare(self, s, origin, outlet):
        """Names a discharge in a flow after the move, or in one that stands there."""
        if s is None or self.rng.random() < 0.12:
            self.remove(s)
            return
        found = body_of(self.procedure, s)
        if not found or holds_steps(s):
            return
        body, i = found
        source, named = self.named(origin), self.outlet(outlet)
        if s.form == "hold":
            body, i = s.body, -1
        if i + 1 < len(body) and body[i + 1].form == "flow":
            following = body[i + 1]
            following.sources = tuple(dict.fromkeys(following.sources + (source,)))
            following.outlets = tuple(dict.fromkeys(following.outlets + (named,)))
        else:
            body.insert(i + 1, flow(source, named, self.writer.until([named] if isinstance(named, str) else named)))

    def look(self, s, detail):
        if detail[0] == "inherited":
            needed = self.closing(detail[1][1], detail[1][2])
            if needed:
                self.procedure.requires.append(requiring(is_(*needed)))
            return
        slug, _, name = detail
        position = self.writer.stands(name, quiet=self.rng.random() < 0.8)
        if self.rng.random() < 0.5:
            self.procedure.requires.append(requiring(is_(name, position)))
        else:
            self.insert(s, 0, verify(is_(name, position)))

    def let_off(self, s, node):
        roll = self.rng.random()
        if roll < 0.4:
            self.procedure.requires.append(requiring(("no pressure", (node,))))
        elif roll < 0.7:
            self.insert(s, 0, verify(("no pressure", (node,))))
        else:
            self.remove(s)

    def closing(self, origin, outlet):
        """Something that ends a discharge: its outlet shut, or its supply."""
        for name in (outlet[1], origin[1]):
            path = self.network.owner_of(name)
            instance = self.network.instances.get(path)
            if instance and instance.kind.positions and not instance.kind.springs_back and self.rng.random() < 0.8:
                return path, instance.kind.positions[0].name
        return None

    def stop(self, s, detail):
        if s is None:
            return
        if not isinstance(detail, tuple):           # kept, and not named by the next step
            self.remove(s)
            return
        origin, outlet = detail
        needed = self.closing(origin, outlet)
        if self.rng.random() < 0.15 and s.form == "flow":
            self.insert(s, 1, keep(self.named(origin), self.outlet(outlet)))
        elif needed:
            self.insert(s, 1, put(*needed))
        else:
            self.remove(s)


def mutate(writer, procedure):
    """A copy with one thing changed."""
    rng = writer.rng
    procedure = copy.deepcopy(procedure)
    inner = [s for s in statements_of(procedure.body) if s.form not in ("stage", "step")]
    roll = rng.random()
    if roll < 0.15 and procedure.requires:
        procedure.requires.pop(rng.randrange(len(procedure.requires)))
        return procedure
    if not inner:
        return procedure
    s = rng.choice(inner)
    found = body_of(procedure, s)
    if not found:                                   # the flow of a `meanwhile`
        return procedure
    body, i = found
    if holds_steps(s) or any(body is stage.body for stage in procedure.body):
        return procedure
    if roll < 0.45:
        del body[i]
    elif roll < 0.60 and i + 1 < len(body) and not holds_steps(body[i + 1]):
        body[i], body[i + 1] = body[i + 1], body[i]
    elif s.form in ("flow", "drain", "keep") and roll < 0.85:
        new = writer.flow()
        if new.form == s.form:
            s.outlets, s.sources = new.outlets, new.sources
    elif s.form == "set" and roll < 0.85 and not s.targets[0].startswith("all ") and len(s.targets) == 1:
        s.position = writer.stands(s.targets[0])
    else:
        body.insert(i, writer.statement(1))
    return procedure


def holds_steps(s):
    return any(inner.form in ("step", "meanwhile") for inner in statements_of([s]))
