"""A procedure written out as one flat list of operations, in the order in which they are done.

For: the walk in enumerate.py.  Loops are unrolled and holds have their release; each operation carries the conditions
under which it acts.  It knows nothing of configurations.
"""

from dataclasses import dataclass

import model

ROUNDS = 4  # how often a `repeat` body is written out; the walk checks that the states have settled by then


@dataclass(eq=False)
class Operation:
    """form: start step | end step | move | verify | flow | drain | keep | pour | bring | watch | check | wait |
    start meanwhile | end meanwhile | end round."""
    form: str
    statement: object
    conditions: tuple = ()                          # ("option", NAME, wanted), ("case", NUMBER) or ("there", NAME)
    step: object = None                             # which step it stands in: an object of its own per round
    meanwhile: tuple = ()                           # the "start meanwhile" operations around it
    move: tuple = ()                                # (verb, what, how), see moves.py
    key: tuple = ()                                 # of a move: the same in each round
    number: int = 0                                 # its place in the list
    round: tuple = ()                               # of an end round: (number of the loop, first, last)


class Unrolled:
    def __init__(self, system, procedure, as_on_the_page=False):
        """With `as_on_the_page`, a `repeat` body is written out as often as the page says that it is run, else longer."""
        self.system = system
        self.as_on_the_page = as_on_the_page
        self.operations = []
        self.cases = 0
        self.loops = 0
        for stage in procedure.body:
            self.contracts(stage, "requires")
            self.stage_items(stage.body, (), ())
            self.contracts(stage, "ensures")
        for number, operation in enumerate(self.operations):
            operation.number = number

    def add(self, form, statement, conditions, step=None, meanwhile=(), move=(), key=()):
        self.operations.append(Operation(form, statement, conditions, step, meanwhile, move, key))
        return self.operations[-1]

    def contracts(self, stage, form):
        """The `requires` or `ensures` of a stage."""
        for s in stage.body:
            if s.form == form:
                self.add("check", s, ())

    def condition(self, s):
        if s.form == "in case":
            self.cases += 1
            return ("case", self.cases - 1)
        return ("option", s.option, s.form == "only with")

    def rounds(self, s):
        """(number of the loop, first, last) of each round that is written out."""
        self.loops += 1
        number, times = self.loops, self.times(s)
        return [(number, i == 0, i == times - 1) for i in range(times)]

    def times(self, s):
        if not self.as_on_the_page:
            return min(s.times, ROUNDS)
        return min(s.times, 2 + sum(inner.form == "in case" for inner in model.statements_of(s.body)))

    def stage_items(self, body, conditions, meanwhile):
        for s in body:
            if s.form == "step":
                step = object()
                self.add("start step", s, conditions, step, meanwhile)
                self.statements(s.body, conditions, step, meanwhile)
                self.add("end step", s, conditions, step, meanwhile)
            elif s.form in ("only with", "without", "in case"):
                self.stage_items(s.body, conditions + (self.condition(s),), meanwhile)
            elif s.form == "repeat":
                for round_ in self.rounds(s):
                    self.stage_items(s.body, conditions, meanwhile)
                    self.add("end round", s, conditions).round = round_
            elif s.form == "meanwhile":
                start = self.add("start meanwhile", s.flow, conditions, object())
                self.stage_items(s.body, conditions, meanwhile + (start,))
                self.add("end meanwhile", s.flow, conditions, start.step, meanwhile + (start,))

    def statements(self, body, conditions, step, meanwhile):
        for s in body:
            around = (s, conditions, step, meanwhile)
            if s.form == "set":
                for i, name in enumerate(model.spread(self.system, s.targets)):
                    self.add("move", *around, move=("set", name, s.position), key=(s, i))
            elif s.form == "hold":
                self.add("move", *around, move=("set", s.targets[0], s.position), key=(s, 0))
                self.statements(s.body, conditions + (("there", s.targets[0]),), step, meanwhile)
                self.add("move", *around, move=("release", s.targets[0], None), key=(s, 1))
            elif s.form == "couple":
                self.add("move", *around, move=("couple", s.a, s.b), key=(s, 0))
            elif s.form in ("uncouple", "cap", "uncap", "lift"):
                self.add("move", *around, move=(s.form, s.a, None), key=(s, 0))
            elif s.form == "dip":
                self.add("move", *around, move=("dip", s.a, s.vessel), key=(s, 0))
            elif s.form == "place":
                self.add("move", *around, move=("place", s.vessel, s.node), key=(s, 0))
            elif s.form == "take":
                self.add("move", *around, move=("take", s.vessel, None), key=(s, 0))
            elif s.form in ("verify", "flow", "drain", "keep", "pour", "bring", "watch", "wait"):
                self.add(s.form, *around)
            elif s.form in ("only with", "without", "in case"):
                self.statements(s.body, conditions + (self.condition(s),), step, meanwhile)
            elif s.form == "repeat":
                for round_ in self.rounds(s):
                    self.statements(s.body, conditions, step, meanwhile)
                    self.add("end round", s, conditions, step).round = round_
            elif s.form in ("requires", "ensures"):
                self.add("check", *around)
            elif s.form != "note":
                raise ValueError(s.form)
