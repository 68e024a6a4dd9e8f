"""Walks a procedure through every configuration and every branch, one by one, and tells what is refused where.

For: being plainly right where the checker is clever.  It is written from compiler/reference/proofs.md and shares no
code with the checker.  Where that page leaves room, README.md here says how it is read.

A trajectory is one start configuration with one answer to each `in case`.  All are walked side by side.
"""

import itertools
from collections import defaultdict, namedtuple

import charge as charging
import heat
import claims
import liquids
import model
import moves
import naming
import observations
import sanitise
import places
import quantities
import supplies
from circuits import at_the_start, said
from expressions import conjuncts, container_named, lineup, looked_at, pressures_in
from network import Network
from pockets import DIRT, frozen, thawed
from states import States
from unroll import ROUNDS, Unrolled

PROVED = ("open-path", "needs-verify", "blocked-flow", "left-running", "undeclared-drain", "dead-head", "dry-run",
          "over-pressure", "dry-fire", "scald", "trapped-pressure", "guard", "out-of-reach", "unmet-requires",
          "unmet-ensures", "never-true", "no-effect", "frost-risk", "not-drinkable", "not-restored", "not-sanitised",
          "wrong-place", "overfill", "backflow", "short-supply")

CONTENTS = ("frost-risk", "not-drinkable", "not-restored", "not-sanitised", "wrong-place", "overfill", "backflow",
            "short-supply")

# Whether a fault that is there at the start is told at the first move after which it still is, or never.
START_FAULTS_ARE_TOLD = False

Finding = namedtuple("Finding", "slug line severity detail")

# sigma, liquid, cases: where it is.  discharges, gravities, faults: what was so at the last instant.  inherited: the
# discharges of the start that have neither stopped nor been named.  declared: the discharges that some flow declared
# and that still run.  alive: numbers of the flows of this step that have run without a break since their `until`.
# kept: numbers of the `keep flow` that the next step must name.  heat: what is hot, see heat.py.  scalding: where what is
# hot came out at the last instant without being drawn.  rounds: (loop, heat at the end of any of its rounds so far).
# charge: see charge.py.  contents: what the pockets may hold, see pockets.py; history: of what runs, see
# observations.py; wrong: what is brought to the wrong place; back: what can come back to a supply; cares: see
# sanitise.py, () where nobody asks; supplies: what is taken out of vessels and what is brought, see supplies.py.
Trajectory = namedtuple("Trajectory", "sigma liquid cases discharges gravities faults inherited declared alive kept "
                                      "heat scalding rounds charge contents history wrong back cares supplies",
                        defaults=(frozenset(),))


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
        self.network = network or Network(system, pressures_of(system, procedure))
        self.states = states or States(self.network)
        self.glasses = tuple(sorted({s.seen for s in model.statements_of(procedure.body) if s.seen}))
        self.program = Unrolled(system, procedure, as_on_the_page=counts_rounds(procedure))
        self.operations = self.program.operations
        claimed = [term for s in procedure.ensures + list(model.statements_of(procedure.body)) if s.expression
                   for term in conjuncts(s.expression)]
        self.cares = any(term[0] in ("sanitised", "drinkable") for term in claimed)
        self.left_out = sanitise.left_out_everywhere(self.network, claimed)
        self.most = most
        self.findings = {}
        self.knowledge = []                         # trajectories
        self.fluids = ()                            # which liquids each container may hold, in all of them
        self.moved = set()                          # variables that a move has acted on
        self.effects = {}                           # statement -> whether any move of it changed anything anywhere
        self.last_step = None                       # the last step that was done in some trajectory
        self.done_in_step = []                      # operations of this step that name a flow
        self.over = set()                           # what has run over since it was last told
        self.emptied = set()                        # vessels out of which too much has been taken
        self.rounds = {}                            # repeat -> states at the end of its last rounds

    def run(self):
        self.start()
        for operation in self.operations:
            if not self.knowledge:
                return self.findings
            getattr(self, operation.form.replace(" ", "_"))(operation)
            self.knowledge = list(dict.fromkeys(self.knowledge))
        if self.knowledge:
            self.end()
        return self.findings

    def report(self, slug, line, detail, severity="error"):
        known = self.findings.get((slug, line))
        if known is None or known.severity == "warning" and severity == "error":
            self.findings[slug, line] = Finding(slug, line, severity, detail)

    def state(self, t):
        return self.states.at(t.sigma, t.liquid, self.fluids, heat.hot(t.heat), t.charge)

    def statement_of(self, number):
        return self.operations[number].statement

    # The start and the end

    def start(self):
        required = [s.expression for s in self.procedure.requires]
        configurations = self.satisfying(self.pins(required)) or self.satisfying({})
        if len(configurations) << self.program.cases > self.most:
            raise TooLarge()
        for t in self.filled(configurations):
            contents = self.contents_at_start(t.sigma)
            contents, _, _ = observations.opened(self.network, None, self.state(t), contents)
            t = self.flowed(t._replace(contents=contents, cares=sanitise.at_start(self.network, contents) if self.cares else ()))
            state = self.state(t)
            for cases in itertools.product((False, True), repeat=self.program.cases):
                self.knowledge.append(t._replace(
                    cases=cases, discharges=state.discharges, gravities=state.gravities, inherited=state.discharges,
                    scalding=state.scalding, faults=frozenset() if START_FAULTS_ARE_TOLD else state.faults))
        self.over = set()                           # at the start nothing is asked

    def filled(self, configurations):
        """Trajectories with the contents of the start: what parts name and vessels are filled with, unless a
        `requires` says otherwise, and what runs in."""
        contents = liquids.Contents(self.network, [c.fluids for c in self.network.containers])
        liquid = tuple((bool(c.fluids), c.surely) for c in self.network.containers)
        for s in self.procedure.requires:
            for term in liquids.contents_in(s.expression):
                liquid = contents.said(term, liquid)
                contents.said_of_all(term, True)
        contents.settled([liquid])
        self.fluids = tuple(contents.fluids)
        nothing = frozenset()
        return self.spread([Trajectory(sigma, liquid, (), nothing, nothing, nothing, nothing, nothing, nothing, nothing,
                                       self.heat_at_start(sigma), nothing, nothing, self.charge_at_start(sigma), (),
                                       nothing, nothing, nothing, ()) for sigma in configurations])

    def heat_at_start(self, sigma):
        layout = self.states.layout(sigma)
        hot = heat.heated_now(heat.at_start(self.network), layout)
        for s in self.procedure.requires:
            hot = heat.seen_cool(hot, layout, s.expression)
        return hot

    def charge_at_start(self, sigma):
        layout = self.states.layout(sigma)
        charge = charging.at_start(self.network, layout)
        for s in self.procedure.requires:
            charge = charging.seen_without(charge, layout, s.expression)
        return charge

    def contents_at_start(self, sigma):
        pockets = at_the_start(self.network, sigma)
        for s in self.procedure.requires:
            for term in liquids.contents_in(s.expression):
                said(pockets[container_named(self.network, term[1])], term)
        return frozen(pockets, self.network.pockets)

    def flowed(self, t, limits=frozenset()):
        """A trajectory at an instant, after what runs and presses has moved contents and been written down; `limits`: how
        much falls at most, {(chamber, outlet): litres} as pairs."""
        transport = self.state(t).transport()
        contents, falls, over = transport.after(t.contents, t.history, limits)
        self.over |= over
        if t.cares:
            t = t._replace(cares=sanitise.after_instant(transport, t.cares, contents, self.left_out))
        return t._replace(contents=contents, wrong=transport.wrong(contents), back=transport.coming_back(contents),
                          history=observations.history_after(t.history, transport, t.contents, self.glasses, falls))

    def spread(self, trajectories):
        """The trajectories after liquid has come into wherever what runs or falls brings it; changes `fluids`."""
        while True:
            fluids = list(self.fluids)
            after = []
            for t in trajectories:
                liquid = t.liquid
                for origin, node in self.state(t).inflows:
                    i = self.network.container_index[node]
                    liquid = liquids.put(liquid, i, (True, liquid[i][1]))
                    fluids[i] |= self.fluids_of(origin)
                after.append(t if liquid == t.liquid else t._replace(liquid=liquid))
            if after == trajectories and tuple(fluids) == self.fluids:
                return trajectories
            trajectories, self.fluids = after, tuple(fluids)

    def fluids_of(self, origin):
        """The liquids that come from an origin."""
        if origin[0] == "held":
            return self.fluids[self.network.container_index[origin[1]]]
        found = {w.fluid for w in self.network.ways if w.form == "supplies" and w.owner == origin[1]}
        return frozenset(found - self.network.gases)

    def satisfying(self, pins):
        """The configurations that agree with the pins and satisfy every `requires`."""
        configurations = list(itertools.islice(self.network.start_configurations(pins), self.most * 4 + 1))
        if len(configurations) > self.most * 4:
            raise TooLarge()
        trajectories = self.filled(configurations)
        for s in self.procedure.requires:
            terms = liquids.without_contents(s.expression)
            trajectories = [t for t in trajectories if all(self.state(t).holds(term) for term in terms)]
            if not trajectories:
                if not pins:
                    self.report("never-true", s.line, None)
                return []
        for s in self.procedure.requires:           # what is heated everywhere cannot have been felt to be cool
            for term in conjuncts(s.expression):
                if term[0] == "cool" and not any(self.state(t).holds(term, plausible=True) for t in trajectories):
                    if not pins:
                        self.report("never-true", s.line, None)
                    return []
        return [t.sigma for t in trajectories]

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
            self.contract(s, self.knowledge)
            if ("drinkable",) in conjuncts(s.expression):
                told = self.findings.get(("not-drinkable", s.line))
                stale = {name for t in self.knowledge for name in sanitise.never_flushed(self.network, t.sigma, t.cares)}
                if stale - set(told.detail[1] if told else ()):
                    self.report("never-flushed", s.line, (("drinkable",), sorted(stale, key=str)), "warning")
        for t in self.knowledge:
            for line, fluid in supplies.Supplies(t.supplies, self.network).short().items():
                self.report("short-supply", line, fluid)
        last_line = self.last_step.line if self.last_step else self.procedure.line
        around = [o for o in self.operations if o.form == "end meanwhile" and o.statement.form == "flow"]
        for t in self.knowledge:
            for number in t.kept:
                self.report("left-running", self.statement_of(number).line, number)
            for discharge in t.inherited & self.state(t).discharges:
                self.report("needs-verify", last_line, ("inherited", discharge))
            if self.operations and self.operations[-1].form != "end step":  # what only a last `meanwhile` declared meets no step's end
                for _, origin, outlet in t.declared & self.state(t).discharges:
                    for o in around:
                        if self.acts(o, t) and naming.names(o.statement, origin, outlet, self.network):
                            self.report("left-running", o.statement.line, (origin, outlet))
        for statement, changed in self.effects.items():
            if not changed:
                self.report("no-effect", statement.line, None, severity="warning")

    # Who acts

    def acts(self, operation, t):
        """Whether the operation's conditions hold in this trajectory, and something of a flow is there."""
        for word, what, *wanted in operation.conditions:
            if word == "case":
                if not t.cases[what]:
                    return False
            elif word == "there":
                if not self.network.is_there(what, t.sigma):
                    return False
            elif t.sigma[self.network.index[what]] != wanted[0]:
                return False
        if operation.form in ("flow", "drain", "keep"):
            s = operation.statement
            return ("pipes" in s.sources or naming.some_there(s.sources, self.network, t.sigma)) and \
                naming.some_there(s.outlets, self.network, t.sigma)
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
        statement = operation.statement
        acting = []
        others = []
        for t in self.knowledge:
            there = all(network.is_there(name, t.sigma) for name in moves.named_by(move))
            (acting if there and self.acts(operation, t) else others).append(t)
        if not acting:
            return
        if move[0] != "release":
            self.effects.setdefault(statement, False)
        broken = defaultdict(list)
        trapped = defaultdict(list)                 # node -> trajectories in which it is opened under pressure
        moved = []                                  # (before, configuration after, contents after)
        changed = set()
        for t in acting:
            if not all(moves.within_reach(network, t.sigma, name) for name in moves.reached_for(move)):
                self.report("out-of-reach", statement.line, move)
            sigma = moves.after(network, t.sigma, move)
            for guard in moves.guards_broken(self.state(t), move, sigma != t.sigma):
                broken[guard].append(t)
            for node in charging.opened(self.states.layout(t.sigma), self.states.layout(sigma)):
                if node in charging.charged(t.charge):
                    trapped[node].append(t)
            contents, over, spilt = observations.opened(network, self.state(t), self.state(t._replace(sigma=sigma)),
                                                        t.contents)
            self.over |= over
            for landing, held in spilt:
                if (landing in network.places or landing in network.vessels) and places.wrongly_brought(
                        network, landing, set(), {}, [held]):
                    self.report("wrong-place", statement.line, landing)
            if sigma != t.sigma:
                if move[0] != "release":
                    self.effects[statement] = True
                changed.update(network.variables[i][0] for i in range(len(sigma)) if sigma[i] != t.sigma[i])
            moved.append((self.soiled(t, sigma), sigma, contents))
        told = set()
        for node, bad in trapped.items():           # nothing has been moved yet
            self.refuse("trapped-pressure", statement.line, bad, self.knowledge, ("trapped", node))
            told.update(bad)
        for guard, bad in broken.items():
            if not (self.asks_for_no_pressure_alone(guard) and told.issuperset(bad)):
                self.refuse("guard", statement.line, bad, self.knowledge, guard)
        acted_on = [move[1]] if move[0] == "place" else moves.named_by(move)
        self.moved.update(name for name in acted_on if name in network.index)
        self.moved.update(changed)
        # What has cooled, or been seen to be empty, since the last event comes out anew if it is heated by this move.
        self.knowledge = [self.still_scalding(t)._replace(sigma=sigma, contents=contents)
                          for t, sigma, contents in moved + [(t, t.sigma, t.contents) for t in others]]
        self.instant(operation)

    def soiled(self, t, sigma):
        """A trajectory after what a move opens has spoilt what was disinfected."""
        if not t.cares:
            return t
        pockets = thawed(t.contents, self.network.pockets)
        for pocket in pockets.values():
            pocket.most.pop(DIRT, None)
        contents, _, _ = observations.opened(self.network, self.state(t), self.state(t._replace(sigma=sigma)),
                                             frozen(pockets, self.network.pockets))
        names = [name for name, p in thawed(contents, self.network.pockets).items() if p.most.get(DIRT, 0) >= 1]
        return t._replace(cares=sanitise.opened(self.network, t.cares, names, contents, self.left_out))

    def still_scalding(self, t):
        state = self.state(t)
        return t._replace(scalding=frozenset(s for s in t.scalding if s[0] in state.hot and state.may_hold(s[0])))

    def asks_for_no_pressure_alone(self, guard):
        _, what, number = guard
        return number != "not open" and all(term[0] == "no pressure" for term in
                                            conjuncts(self.network.instances[what].guards[number][2]))

    def after_event(self, t, operation):
        """The trajectory with what is charged after an event."""
        until = operation.form in ("flow", "drain", "end meanwhile") and self.acts(operation, t)
        charge = charging.after_event(t.charge, self.states.layout(t.sigma), operation.statement if until else None)
        return t._replace(charge=charge)

    def instant(self, operation):
        """Compares the moment after a move or after contents have changed with the one before it."""
        line = operation.statement.line
        now = []
        undeclared = defaultdict(list)              # discharge -> trajectories
        faults = defaultdict(list)
        fallen = defaultdict(list)
        scalded = defaultdict(list)
        warmed = [t._replace(heat=heat.heated_now(t.heat, self.states.layout(t.sigma))) for t in self.knowledge]
        warmed = [self.after_event(t, operation) for t in warmed]
        for t in self.spread(warmed):
            was_wrong, was_back = t.wrong, t.back
            t = self.flowed(t, self.limits(operation, t))
            if t.wrong - was_wrong:
                self.report("wrong-place", line, next(iter(t.wrong - was_wrong)))
            if t.back - was_back:
                self.report("backflow", line, next(iter(t.back - was_back)))
            state = self.state(t)
            alive = frozenset(n for n in t.alive if naming.runs(self.statement_of(n), state))
            taken = supplies.Supplies(t.supplies, self.network)
            taken.moved(state.transport())
            t = t._replace(alive=alive, supplies=taken.frozen())
            declared = t.declared & state.discharges
            fresh = state.discharges - t.discharges
            falling = state.gravities - t.gravities
            covering = self.covering(operation, t) if fresh or falling or state.scalding else []
            uncovered = set()
            for source, origin, outlet in fresh:
                if any(f.form != "drain" and naming.names(f, origin, outlet, self.network) for f in covering):
                    declared |= {(source, origin, outlet)}
                else:
                    uncovered.add((source, origin, outlet))
            missed = {fall for fall in falling
                      if not any(naming.declares_fall(f, *fall, self.network) for f in covering)}
            scalding = frozenset(s for s in state.scalding if not self.drawn(s, covering))
            new = t._replace(discharges=state.discharges, gravities=state.gravities, faults=state.faults,
                             scalding=scalding, inherited=t.inherited & state.discharges, declared=declared)
            now.append(new)
            for found, where in ((uncovered, undeclared), (missed, fallen), (told(state.faults - t.faults), faults),
                                 (scalding - t.scalding, scalded)):
                for one in found:
                    where[one].append(new)
        if self.over:
            self.report("overfill", line, frozenset(self.over))
            self.over = set()
        self.knowledge = list(dict.fromkeys(now))
        for discharge, bad in undeclared.items():
            self.refuse("open-path", line, bad, self.knowledge, discharge)
        for fault, bad in faults.items():
            self.refuse(fault[0], line, bad, self.knowledge, fault)
        for comes_out, bad in scalded.items():
            self.refuse("scald", line, bad, self.knowledge, comes_out)
        for fall, bad in fallen.items():
            if any(self.network.category[f] > 2 for f in self.fluids_of(fall[0])):
                self.refuse("undeclared-drain", line, bad, self.knowledge, fall)
            else:
                self.report("undeclared-drain", line, fall, "warning")

    def limits(self, operation, t):
        """How much falls at most by the drains that cover what falls."""
        found = {}
        for s in self.covering(operation, t):
            if s.form == "drain" and s.at_most is not None:
                for (_, chamber), outlet in self.state(t).gravities:
                    if naming.declares_fall(s, ("held", chamber), outlet, self.network):
                        found[chamber, outlet] = min(s.at_most, found.get((chamber, outlet), s.at_most))
        return frozenset(found.items())

    def drawn(self, comes_out, covering):
        """Whether a flow draws what comes out of a hot chamber, and not at an opening made by hand."""
        return comes_out[1][0] not in ("breach", "end") and any(
            f.form != "drain" and naming.names_outlet(f, comes_out[1], self.network) for f in covering)

    def covering(self, operation, t):
        """The flows and drains that cover the instant after this operation in a trajectory."""
        found = [self.statement_of(n) for n in t.alive]
        found += [start.statement for start in operation.meanwhile]
        in_step = [o for o in self.operations if o.step is operation.step and self.acts(o, t)]
        found += [o.statement for o in in_step if o.form == "keep" and o.number < operation.number]
        following = [o for o in in_step if o.form in ("flow", "drain") and o.number >= operation.number]
        found += [o.statement for o in following[:1]]
        # What the last step kept is covered until the statement of this step that names it again.
        found += [self.statement_of(n) for n in t.kept
                  if any(o.number > operation.number and naming.names_all_of(o.statement, self.statement_of(n), self.network)
                         for o in in_step if o.form in ("flow", "keep"))]
        return found

    def refuse(self, slug, line, bad, knowledge, detail):
        """Reports `slug`, or `needs-verify` where one look at a thing not moved yet would tell these trajectories from
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
            for name in looked_at(e, self.network):
                if self.network.is_there(name, t.sigma) and not moves.within_reach(self.network, t.sigma, name):
                    self.report("out-of-reach", line, name)
        if not any(self.could_be_seen(t, e) for t in acting):
            self.report("never-true", line, e)
        contents = liquids.Contents(self.network, self.fluids)
        for term in liquids.contents_in(e):
            acting = [t._replace(liquid=contents.said(term, t.liquid), contents=self.said(term, t.contents)) for t in acting]
            contents.said_of_all(term, not others)
        contents.settled([t.liquid for t in acting + others])
        self.fluids = tuple(contents.fluids)
        acting = [t._replace(heat=heat.seen_cool(t.heat, self.states.layout(t.sigma), e)) for t in acting]
        acting = [t._replace(charge=charging.seen_without(t.charge, self.states.layout(t.sigma), e)) for t in acting]
        terms = liquids.without_contents(e)
        kept = [t for t in self.spread(acting + others)
                if not self.acts(operation, t) or all(self.state(t).holds(term) for term in terms)]
        # What was seen is not new: the next instant is compared with what is known now.
        self.knowledge = [self.flowed(t)._replace(discharges=self.state(t).discharges, gravities=self.state(t).gravities)
                          for t in kept]

    def wait(self, operation):
        acting, others = self.split(operation)
        minutes = operation.statement.minutes
        self.knowledge = others + [t._replace(
            heat=heat.waited(t.heat, self.states.layout(t.sigma), minutes),
            cares=sanitise.waited(self.state(t).transport(), t.cares, t.contents, minutes, self.left_out) if t.cares else ())
            for t in acting]

    def could_be_seen(self, t, e):
        """Whether what one looks for could be so; of pressure asked for outright, that no running source presses."""
        t = t._replace(charge=charging.seen_without(t.charge, self.states.layout(t.sigma), e))
        return self.state(t).holds(e, plausible=True)

    def said(self, term, contents):
        pockets = thawed(contents, self.network.pockets)
        said(pockets[container_named(self.network, term[1])], term)
        return frozen(pockets, self.network.pockets)

    def watch(self, operation):
        name = operation.statement.node
        for t in self.split(operation)[0]:
            if self.network.is_there(name, t.sigma) and not moves.within_reach(self.network, t.sigma, name):
                self.report("out-of-reach", operation.statement.line, name)

    def check(self, operation):
        self.contract(operation.statement, self.split(operation)[0])

    def contract(self, s, trajectories):
        """A `requires` or `ensures` where it stands."""
        for term in conjuncts(s.expression):
            if term[0] == "sanitised":
                against = dict.fromkeys(name for t in trajectories for name in sanitise.not_sanitised(
                    self.network, t.sigma, t.cares, term[1]))
                if against:
                    self.report("not-sanitised", s.line, (term, list(against)))
            elif term[0] in claims.CLAIMS:
                against = dict.fromkeys(
                    name for t in trajectories
                    for name in claims.refuted(term, self.state(t), thawed(t.contents, self.network.pockets)))
                if against:
                    self.report(claims.CLAIMS[term[0]], s.line, (term, list(against)))
            elif any(not self.state(t).holds(term) for t in trajectories):
                self.report("unmet-" + s.form, s.line, s.expression)

    # Flows

    def flow(self, operation):
        """The `until` of a flow or drain."""
        s = operation.statement
        acting, others = self.split(operation)
        if not acting:
            return
        self.done_in_step.append(operation)
        acting, others = [self.still_scalding(t) for t in acting], [self.still_scalding(t) for t in others]
        contents = liquids.Contents(self.network, self.fluids)
        brought = contents.named_fluids(s)
        after = []
        for t in acting:
            state = self.state(t)
            if naming.is_blocked(s, state):
                self.report("blocked-flow", s.line, s)
            alive = t.alive | {operation.number} if naming.runs(s, state) else t.alive
            self.judge_drained(s, state, t)
            until = observations.Until(s, state.transport(), t.contents, t.history)
            taken = supplies.Supplies(t.supplies, self.network)
            taken.until(s, state.transport(), t.contents, t.history)
            left = until.after()
            taken.credited(s, state.transport(), left)
            after.append(self.named(t, s)._replace(
                alive=alive, liquid=contents.after_until(s, state, brought), contents=left, supplies=taken.frozen(),
                history=t.history | {(("blown", d), None) for d in until.blown}))
            self.over |= until.over
            if t.cares:
                cares, held = sanitise.after_until(s, state.transport(), t.cares, t.contents, after[-1].contents, t.history,
                                                   self.left_out)
                after[-1] = after[-1]._replace(cares=cares, contents=held)
        contents.settled([t.liquid for t in after + others])
        self.fluids = tuple(contents.fluids)
        self.knowledge = after + others
        self.judge_taken(s.line)
        self.instant(operation)

    drain = flow

    def judge_taken(self, line):
        """Tells of vessels out of which more has been taken than they hold, each once."""
        empty = set().union(*(supplies.Supplies(t.supplies, self.network).run_empty() for t in self.knowledge))
        for vessel in empty - self.emptied:
            self.report("short-supply", line, vessel)
        self.emptied |= empty

    def bring(self, operation):
        after = []
        for t in self.knowledge:
            if self.acts(operation, t):
                brought = supplies.Supplies(t.supplies, self.network)
                brought.bring(operation.statement)
                t = t._replace(supplies=brought.frozen())
            after.append(t)
        self.knowledge = after

    def judge_drained(self, s, state, t):
        """What runs drained by a drain bring to where it lands."""
        if s.form != "drain":
            return
        pockets = thawed(t.contents, self.network.pockets)
        for vertex, names in observations.drained_pockets(s, state.transport()).items():
            landing = observations.network_landing(state.transport(), vertex)
            if landing in self.network.places or landing in self.network.vessels:
                if places.wrongly_brought(self.network, landing, set(), {}, [pockets[name].most for name in names]):
                    self.report("wrong-place", s.line, landing)

    def named(self, t, s):
        """A trajectory after a flow names what runs: that is declared; what else runs since the start and comes from
        the same origin should have been looked at."""
        if s.form == "drain":
            return t
        running = self.state(t).discharges
        met = {d for d in t.inherited & running if naming.names_origin(s, d[1], self.network)}
        for d in met:
            if not naming.names_outlet(s, d[2], self.network):
                self.report("needs-verify", s.line, ("inherited", d))
        declared = {d for d in running if naming.names(s, d[1], d[2], self.network)}
        return t._replace(inherited=t.inherited - met, declared=t.declared | declared)

    def keep(self, operation):
        acting, others = self.split(operation)
        if acting:
            self.done_in_step.append(operation)
            self.knowledge = [self.named(t, operation.statement) for t in acting] + others

    def start_meanwhile(self, operation):
        s = operation.statement
        if s.form == "flow":
            acting, others = self.split(operation)
            after = []
            for t in acting:
                running = {d for d in self.state(t).discharges if naming.names(s, d[1], d[2], self.network)}
                after.append(t._replace(declared=t.declared | running))
            self.knowledge = after + others

    end_meanwhile = flow

    def pour(self, operation):
        s = operation.statement
        acting, others = self.split(operation)
        if not acting:
            return
        contents = liquids.Contents(self.network, self.fluids)
        after = []
        for t in acting:
            if self.network.is_there(s.node, t.sigma):
                self.judge_poured(s, t)
                held = thawed(t.contents, self.network.pockets)[s.vessel]
                self.effects[s] = self.effects.get(s, False) or held.gas < 1
                poured, over = observations.poured(s, self.state(t).transport(), t.contents)
                self.over |= over
                if t.cares:
                    node = s.node if s.node in self.network.places else container_named(self.network, s.node)
                    t = t._replace(cares=sanitise.poured(self.network, t.cares, s.vessel, node, poured, self.left_out))
                taken = supplies.Supplies(t.supplies, self.network)
                taken.pour(s)
                t = t._replace(liquid=contents.after_pour(t.liquid, s.vessel, s.node), contents=poured,
                               supplies=taken.frozen())
            after.append(t)
        contents.settled([t.liquid for t in after + others])
        self.fluids = tuple(contents.fluids)
        self.knowledge = after + others
        self.judge_taken(s.line)
        self.instant(operation)

    def judge_poured(self, s, t):
        if s.node in self.network.places or s.node in self.network.vessels:
            held = thawed(t.contents, self.network.pockets)[s.vessel].most
            own = places.own_fluids(self.network, ("held", s.vessel))
            if places.wrongly_brought(self.network, s.node, own, held, []):
                self.report("wrong-place", s.line, s.node)

    # Steps

    def start_step(self, operation):
        if any(self.acts(operation, t) for t in self.knowledge):
            self.last_step = operation.statement
        self.done_in_step = []
        self.knowledge = [t._replace(alive=frozenset()) for t in self.knowledge]

    def end_step(self, operation):
        """What runs at a step's end is kept or left running; what the step before kept is named or left running."""
        network = self.network
        acting, others = self.split(operation)
        around = [m.statement for m in operation.meanwhile if m.statement.form == "flow"]
        after = []
        for t in acting:
            done = [o for o in self.done_in_step if self.acts(o, t) and o.statement.form != "drain"]
            for number in t.kept:
                kept = self.statement_of(number)
                if not any(naming.names_all_of(s, kept, network) for s in [o.statement for o in done] + around):
                    self.report("left-running", kept.line, number)
            keeping = [o for o in done if o.form == "keep"]
            going_on = [o.statement for o in keeping] + around
            for _, origin, outlet in t.declared & self.state(t).discharges:
                if not any(naming.names(s, origin, outlet, network) for s in going_on):
                    naming_it = [o.statement.line for o in self.done_in_step if o.statement.form != "drain"
                                 and naming.names(o.statement, origin, outlet, network)]
                    self.report("left-running", (naming_it or [operation.statement.line])[-1], (origin, outlet))
            after.append(t._replace(kept=frozenset(o.number for o in keeping)))
        self.knowledge = after + others

    def end_round(self, operation):
        """One may stop after any round: after the last it is as hot as after any.  And a `repeat` must have settled: its
        last two rounds end in the same states."""
        loop, first, last = operation.round
        after = []
        for t in self.knowledge:
            rounds = dict(t.rounds)
            rounds[loop] = t.heat if first else heat.joined(t.heat, rounds[loop])
            hot = rounds.pop(loop) if last else t.heat
            t = self.counted(t, operation, rounds)
            after.append(t._replace(heat=hot, rounds=frozenset(rounds.items())))
        self.knowledge = after
        self.judge_taken(operation.statement.line)
        if self.over:
            self.report("overfill", operation.statement.line, frozenset(self.over))
            self.over = set()
        if operation.statement.times <= ROUNDS or self.program.as_on_the_page:
            return
        ends = self.rounds.setdefault(operation.statement, [])
        ends.append({(t.sigma, t.liquid, t.heat, t.charge) for t in self.knowledge})
        if len(ends) % ROUNDS == 0 and ends[-1] != ends[-2]:
            raise Unsettled()

    def counted(self, t, operation, rounds):
        """The trajectory at the end of a round: what this one has brought, every round that is not followed brings."""
        loop, _, last = operation.round
        pockets = thawed(t.contents, self.network.pockets)
        slopes = self.state(t).transport().pipework.slopes
        before = rounds.pop(("room", loop), None)
        if not last:
            rounds["room", loop] = quantities.room_in(self.network, slopes, pockets)
        more = operation.statement.times - self.program.times(operation.statement)
        if last and more > 0 and before is not None:
            self.over |= quantities.after_rounds(self.network, before, pockets, more)
        taken = supplies.Supplies(t.supplies, self.network)
        sums = rounds.pop(("sums", loop), None)
        if not last:
            rounds["sums", loop] = taken.sums()
        elif more > 0 and sums is not None:
            taken.again(sums, more)
        t = t._replace(supplies=taken.frozen())
        return t._replace(contents=frozen(pockets, self.network.pockets))


def counts_rounds(procedure):
    """Whether it claims anything of contents, or anything flows in a `repeat`: then how often it is done counts."""
    loops = [s for s in model.statements_of(procedure.body) if s.form == "repeat"]
    return claims_contents(procedure) or any(inner.form in ("flow", "drain", "pour", "bring", "hold", "set", "place")
                                             for s in loops for inner in model.statements_of(s.body))


def told(faults):
    """The new faults of a trajectory as they are told: `dry-fire` once for either of its two, and not where a guard of
    the same part speaks."""
    guarded = {f[1] for f in faults if f[0] == "guard"}
    return ({f for f in faults if f[0] != "dry-fire"}
            | {f[:3] for f in faults if f[0] == "dry-fire" and f[1] not in guarded})


def other_may_miss(network, position):
    """Whether a position names an end that some variant lacks: then it pins nothing there."""
    owner = network.owner_of(position[1]) if isinstance(position, tuple) else ""
    return bool(owner) and bool(network.instances[owner].only_with or network.instances[owner].without)


def pressures_of(system, procedure):
    """The pressures that a procedure or a line-up sets or compares with."""
    found = {position for entries in system.lineups.values() for _, position in entries if isinstance(position, int)}
    for s in procedure.requires + procedure.ensures + list(model.statements_of(procedure.body)):
        if s.expression:
            found |= pressures_in(s.expression)
        if isinstance(s.position, int):
            found.add(s.position)
    return found


def claims_contents(procedure):
    """Whether it claims anything of contents: then how often a `repeat` is done counts."""
    return any(term[0] in claims.CLAIMS or term[0] == "sanitised" for s in procedure.ensures + list(model.statements_of(procedure.body))
               if s.expression for term in conjuncts(s.expression))
