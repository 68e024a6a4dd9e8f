"""Walks a procedure through every configuration and every branch, one by one, and tells what is refused where.

For: being plainly right where the checker is clever.  It is written from compiler/reference/proofs.md and shares no
code with the checker.  Where that page leaves room, README.md here says how it is read.

A trajectory is one start configuration with one answer to each `in case`.  All are walked side by side.
"""

import itertools
from collections import defaultdict, namedtuple

import liquids
import model
import moves
import naming
from expressions import conjuncts, lineup, names_in, pressures_in
from network import Network
from states import States
from unroll import ROUNDS, Unrolled

PROVED = ("open-path", "needs-verify", "blocked-flow", "left-running", "undeclared-drain", "dead-head", "dry-run",
          "over-pressure", "guard", "out-of-reach", "unmet-requires", "unmet-ensures", "never-true", "no-effect")

Finding = namedtuple("Finding", "slug line severity detail")

# sigma, liquid, cases: where it is.  discharges, gravities, faults: what was so at the last instant.  inherited: the
# discharges of the start that have neither stopped nor been named.  alive: numbers of the flows that have run without a
# break since their `until`.  kept: (origin, outlet, number of the operation that kept it), to be named by the next step.
Trajectory = namedtuple("Trajectory", "sigma liquid cases discharges gravities faults inherited alive kept")


class TooLarge(Exception):
    """More trajectories than were asked for."""


class Unsettled(Exception):
    """A `repeat` whose states still change after the rounds that are written out."""


def find_all(system, procedure, most=1 << 14):
    """The findings on a procedure whose lines the printer has set: {(slug, line): Finding}."""
    return Walk(system, procedure, most).run()


class Walk:
    def __init__(self, system, procedure, most=1 << 14, network=None, states=None):
        self.procedure = procedure
        self.network = network or Network(system, pressures_of(procedure))
        self.states = states or States(self.network)
        self.operations = Unrolled(system, procedure)
        self.most = most
        self.findings = {}
        self.knowledge = []                         # trajectories
        self.moved = set()                          # variables that a move has acted on
        self.effects = {}                           # move -> whether it changed anything anywhere
        self.lines = {}                             # move -> line
        self.rounds = {}                            # repeat -> states at the end of its last rounds
        self.stopped = False

    def run(self):
        self.start()
        for operation in self.operations.operations:
            if self.stopped:
                break
            getattr(self, operation.form.replace(" ", "_"))(operation)
            self.knowledge = list(dict.fromkeys(self.knowledge))
        if not self.stopped:
            self.end()
        for key, changed in self.effects.items():
            if not changed:
                self.report("no-effect", self.lines[key], None, severity="warning")
        return self.findings

    def report(self, slug, line, detail, severity="error"):
        known = self.findings.get((slug, line))
        if known is None or known.severity == "warning" and severity == "error":
            self.findings[slug, line] = Finding(slug, line, severity, detail)

    def state(self, t):
        return self.states.at(t.sigma, t.liquid)

    # The start and the end

    def start(self):
        required = [s.expression for s in self.procedure.requires]
        liquid = liquids.at_start(self.network, required)
        configurations = self.satisfying(liquid, self.pins(required)) or self.satisfying(liquid, {})
        if not configurations:
            return
        if len(configurations) << self.operations.cases > self.most:
            raise TooLarge()
        for sigma in configurations:
            state = self.states.at(sigma, liquid)
            for cases in itertools.product((False, True), repeat=self.operations.cases):
                self.knowledge.append(Trajectory(sigma, liquid, cases, state.discharges, state.gravities, frozenset(),
                                                 state.discharges, frozenset(), frozenset()))

    def satisfying(self, liquid, pins):
        """The configurations that agree with the pins and satisfy every `requires`."""
        configurations = list(itertools.islice(self.network.start_configurations(pins), self.most * 4 + 1))
        if len(configurations) > self.most * 4:
            raise TooLarge()
        for s in self.procedure.requires:
            terms = liquids.without_contents(s.expression)
            configurations = [c for c in configurations
                              if all(self.states.at(c, liquid).holds(term) for term in terms)]
            if not configurations:
                if not pins:
                    self.report("never-true", s.line, None)
                    self.stopped = True
                return []
        return configurations

    def pins(self, required):
        """What the `requires` say outright, so that not everything else is listed first only to be thrown away."""
        pins = {}
        for e in required:
            for term in conjuncts(e):
                entries = []
                if term[0] == "is" and term[2] != "uncoupled":
                    entries = [(name, term[2]) for name in model.spread(self.network.system, term[1])]
                elif term[0] == "lineup":
                    entries = lineup(self.network.system, term[1], term[2])
                for name, position in entries:
                    if not other_may_miss(self.network, position):
                        pins.setdefault(name, position)
        return pins

    def end(self):
        for s in self.procedure.ensures:
            if any(not self.state(t).holds(s.expression) for t in self.knowledge):
                self.report("unmet-ensures", s.line, s.expression)
        steps = [s for s in model.statements_of(self.procedure.body) if s.form == "step"]
        last_line = steps[-1].line if steps else self.procedure.line
        for t in self.knowledge:
            for origin, outlet, number in t.kept:
                self.report("left-running", self.statement_of(number).line, (origin, outlet))
            for discharge in t.inherited & self.state(t).discharges:
                self.report("needs-verify", last_line, ("inherited", discharge))

    # Who acts

    def acts(self, operation, t):
        """Whether the operation's conditions hold in this trajectory."""
        for word, what, *wanted in operation.conditions:
            if word == "case":
                if not t.cases[what]:
                    return False
            elif t.sigma[self.network.index[what]] != wanted[0]:
                return False
        return True

    def split(self, operation):
        """(trajectories in which it acts, the others)"""
        acting, others = [], []
        for t in self.knowledge:
            (acting if self.acts(operation, t) else others).append(t)
        return acting, others

    # Moves

    def move(self, operation):
        network = self.network
        move = operation.move
        line = operation.statement.line
        acting = []
        others = []
        for t in self.knowledge:
            there = all(network.is_there(name, t.sigma) for name in moves.named_by(move))
            (acting if there and self.acts(operation, t) else others).append(t)
        before = self.knowledge
        self.lines[operation.key] = line
        self.effects.setdefault(operation.key, False)
        broken = defaultdict(list)
        moved = []                                  # (before, configuration after)
        changed = set()
        for t in acting:
            if not all(moves.within_reach(network, t.sigma, name) for name in moves.reached_for(move)):
                self.report("out-of-reach", line, move)
            sigma = moves.after(network, t.sigma, move)
            if sigma != t.sigma:
                self.effects[operation.key] = True
                for guard in moves.guards_broken(self.state(t), move):
                    broken[guard].append(t)
                changed.update(network.variables[i][0] for i in range(len(sigma)) if sigma[i] != t.sigma[i])
            moved.append((t, sigma))
        if acting:
            self.moved.update(name for name in moves.named_by(move) if name in network.index)
            self.moved.update(changed)
        for guard, bad in broken.items():
            self.refuse("guard", line, bad, before, guard)
        moved += [(t, t.sigma) for t in others]
        self.knowledge = self.instant(operation, line, moved)

    def instant(self, operation, line, moved):
        """Compares the moment after a move with the one before it; gives the trajectories as they are now."""
        now = []
        undeclared = defaultdict(list)              # discharge -> trajectories
        faults = defaultdict(list)
        fallen = defaultdict(list)
        for t, sigma in moved:
            state = self.states.at(sigma, t.liquid)
            alive = frozenset(n for n in t.alive if naming.runs(self.statement_of(n), state))
            new = t._replace(sigma=sigma, discharges=state.discharges, gravities=state.gravities, faults=state.faults,
                             inherited=t.inherited & state.discharges, alive=alive)
            now.append(new)
            fresh = state.discharges - t.discharges
            falling = state.gravities - t.gravities
            if fresh or falling:
                covering = self.covering(operation, new)
                for discharge in fresh:
                    if not self.covered(covering, operation, new, discharge[1], discharge[2], ("flow", "keep")):
                        undeclared[discharge].append(new)
                for fall in falling:
                    if not self.covered(covering, operation, new, *fall, ("flow", "keep", "drain")):
                        fallen[fall].append(new)
            for fault in state.faults - t.faults:
                faults[fault].append(new)
        now = list(dict.fromkeys(now))
        for discharge, bad in undeclared.items():
            self.refuse("open-path", line, bad, now, discharge)
        for fault, bad in faults.items():
            self.refuse(fault[0], line, bad, now, fault)
        for fall, bad in fallen.items():
            severe = any(self.network.category[f] > 2 for t in bad for f in self.state(t).fluids_of(fall[0]))
            self.report("undeclared-drain", line, fall, "error" if severe else "warning")
        return now

    def statement_of(self, number):
        return self.operations.operations[number].statement

    def covering(self, operation, t):
        """The flows and drains that cover the instant after this operation in a trajectory."""
        found = [self.statement_of(n) for n in t.alive]
        found += [start.statement for start in operation.meanwhile]
        in_step = [o for o in self.operations.operations if o.step is operation.step and self.acts(o, t)]
        found += [o.statement for o in in_step if o.form == "keep" and o.number < operation.number]
        following = [o for o in in_step if o.form in ("flow", "drain") and o.number > operation.number]
        return found + [o.statement for o in following[:1]]

    def covered(self, covering, operation, t, origin, outlet, forms):
        if any(f.form in forms and naming.names(f, origin, outlet, self.network) for f in covering):
            return True
        # What the last step kept is covered until the statement of this step that names it again.
        if any(naming.names(self.statement_of(n), origin, outlet, self.network) for _, _, n in t.kept):
            return any(o.number > operation.number and self.acts(o, t)
                       and naming.names(o.statement, origin, outlet, self.network)
                       for o in self.operations.operations
                       if o.step is operation.step and o.form in ("flow", "keep"))
        return False

    def refuse(self, slug, line, bad, knowledge, detail):
        """Reports `slug`, or `needs-verify` where one look at a part not moved yet would tell these trajectories from
        some other."""
        for name, sort, _ in self.network.variables:
            if sort in ("option", "vessel") or name in self.moved:
                continue
            i = self.network.index[name]
            if not all(self.network.is_there(name, t.sigma) for t in bad):
                continue
            bad_values = {t.sigma[i] for t in bad}
            if any(t.sigma[i] not in bad_values and self.network.is_there(name, t.sigma) for t in knowledge):
                self.report("needs-verify", line, (slug, detail, name))
                return
        self.report(slug, line, detail)

    # Looking

    def verify(self, operation):
        e = operation.statement.expression
        line = operation.statement.line
        acting, others = self.split(operation)
        if not acting:
            return
        for t in acting:
            for name in names_in(e, self.network):
                if self.network.is_there(name, t.sigma) and not moves.within_reach(self.network, t.sigma, name):
                    self.report("out-of-reach", line, name)
        terms = liquids.without_contents(e)
        kept = []
        for t in acting:
            if all(self.state(t).holds(term) for term in terms):
                liquid = list(t.liquid)
                liquids.say_so(self.network, liquid, e)
                kept.append(t._replace(liquid=tuple(liquid)))
        if not kept:
            self.report("never-true", line, e)
            self.stopped = True
        self.knowledge = kept + others

    def watch(self, operation):
        name = operation.statement.node
        for t in self.split(operation)[0]:
            if self.network.is_there(name, t.sigma) and not moves.within_reach(self.network, t.sigma, name):
                self.report("out-of-reach", operation.statement.line, name)

    def check(self, operation):
        s = operation.statement
        acting, _ = self.split(operation)
        if any(not self.state(t).holds(s.expression) for t in acting):
            self.report("unmet-" + s.form, s.line, s.expression)

    # Flows

    def flow_or_drain(self, operation):
        """The `until` of a flow or drain."""
        s = operation.statement
        acting, others = self.split(operation)
        after = []
        for t in acting:
            state = self.state(t)
            if naming.is_blocked(s, state):
                self.report("blocked-flow", s.line, s)
            alive = t.alive | {operation.number} if naming.runs(s, state) else t.alive
            after.append(self.taken_over(t, s)._replace(alive=alive, liquid=liquids.after_flow(s, state)))
        self.knowledge = after + others

    flow = drain = flow_or_drain

    def taken_over(self, t, s):
        """A trajectory after a flow is declared: of what runs since the start, what it names is declared now, what else
        comes from the same origin should have been looked at."""
        if s.form == "drain":
            return t
        met = {d for d in t.inherited & self.state(t).discharges if naming.names_origin(s, d[1], self.network)}
        for d in met:
            if not naming.names_outlet(s, d[2], self.network):
                self.report("needs-verify", s.line, ("inherited", d))
        return t._replace(inherited=t.inherited - met)

    def keep(self, operation):
        acting, others = self.split(operation)
        self.knowledge = [self.taken_over(t, operation.statement) for t in acting] + others

    def start_meanwhile(self, operation):
        pass

    def end_meanwhile(self, operation):
        start = operation.meanwhile[-1]
        self.flow_or_drain(operation)
        if operation.statement.form == "drain":
            return
        acting, others = self.split(operation)
        after = []
        for t in acting:
            running = {(o, x, start.number) for _, o, x in self.state(t).discharges
                       if naming.names(operation.statement, o, x, self.network)}
            after.append(t._replace(kept=t.kept | running))
        self.knowledge = after + others

    def pour(self, operation):
        s = operation.statement
        acting, others = self.split(operation)
        there = [t for t in acting if self.network.is_there(s.node, t.sigma)]
        others += [t for t in acting if not self.network.is_there(s.node, t.sigma)]
        self.knowledge = [t._replace(liquid=liquids.after_pour(self.network, t.liquid, s.vessel, s.node))
                          for t in there] + others

    # Steps

    def start_step(self, operation):
        pass

    def end_step(self, operation):
        acting, others = self.split(operation)
        in_step = [o for o in self.operations.operations
                   if o.step is operation.step and o.form in ("flow", "keep")]
        around = [m.statement for m in operation.meanwhile if m.statement.form == "flow"]
        self.knowledge = [self.step_done(t, in_step, around) for t in acting] + others

    def step_done(self, t, in_step, around):
        """What runs at a step's end is kept or left running; what the step before kept is named or left running."""
        network = self.network
        done = [o for o in in_step if self.acts(o, t)]
        for origin, outlet, number in t.kept:
            named = [o.statement for o in done] + around
            if not any(naming.names(s, origin, outlet, network) for s in named):
                self.report("left-running", self.statement_of(number).line, (origin, outlet))
        kept = set()
        for _, origin, outlet in self.state(t).discharges:
            naming_it = [o for o in done if naming.names(o.statement, origin, outlet, network)]
            if any(naming.names(s, origin, outlet, network) for s in around):
                continue
            keeps = [o for o in naming_it if o.form == "keep"]
            declared = [o for o in naming_it if o.form == "flow" and o.number in t.alive]
            if keeps:
                kept.add((origin, outlet, keeps[-1].number))
            elif declared:
                self.report("left-running", declared[-1].statement.line, (origin, outlet))
        return t._replace(kept=frozenset(kept))

    def end_round(self, operation):
        """That a `repeat` has settled: its last two rounds end in the same states."""
        if operation.statement.times == 1:
            return
        ends = self.rounds.setdefault(operation.statement, [])
        ends.append({(t.sigma, t.liquid) for t in self.knowledge})
        if len(ends) % ROUNDS == 0 and ends[-1] != ends[-2]:
            raise Unsettled()


def other_may_miss(network, position):
    """Whether a position names an end that some variant lacks: then it pins nothing there."""
    owner = network.owner_of(position[1]) if isinstance(position, tuple) else ""
    return bool(owner) and bool(network.instances[owner].only_with or network.instances[owner].without)


def pressures_of(procedure):
    """The pressures that a procedure sets or compares with."""
    found = set()
    for s in procedure.requires + procedure.ensures + list(model.statements_of(procedure.body)):
        if s.expression:
            found |= pressures_in(s.expression)
        if isinstance(s.position, int):
            found.add(s.position)
    return found
