"""Runs that fall, chambers that are always vented, and what runs out by itself: never stands full, whatever is done.

For: pipework.py.  Of a configuration it asks only what the options leave in.
"""

from pockets import WIDE_BORE


class Slopes:
    def __init__(self, layout):
        self.network = layout.network
        self.sigma = layout.sigma
        self.there = layout.there
        always = [w for w in self.network.ways if w.position is None and not w.conditions and self.there[w.owner]]
        self.always = [w for w in always if w.form in ("both", "forward", "fall") and w.pressure is None]
        self.vent_nodes = {w.a: w.owner for w in always if w.form == "vent"}
        self.chambers = [c for c in self.network.containers if c.owner and self.there[c.owner]]
        self.always_vented = {c.node for c in self.chambers if c.node in self.vent_nodes}
        self.by_itself = self.find_by_itself()

    def ends_of(self, i):
        """(upper node, lower node) of a run that falls, else None"""
        run = self.network.system.runs[i]
        if not run.falls_to or not self.network.run_is_there(run, self.sigma):
            return None
        return (run.a, run.b) if run.falls_to == run.b else (run.b, run.a)

    def leads_to(self, node):
        """The vented chambers into which ways that are always open, and runs as they fall, lead from a node."""
        found = set()
        reached = {node}
        waiting = [node]
        while waiting:
            at = waiting.pop()
            if at in self.always_vented:
                found.add(at)
                continue
            for other in self.steps(at):
                if other not in reached:
                    reached.add(other)
                    waiting.append(other)
        return found

    def steps(self, node):
        for way in self.always:
            if way.a == node and way.form != "fall":
                yield way.b
            if way.b == node and way.form == "both":
                yield way.a
            if way.a == node and way.form == "fall":
                yield self.network.falls_into(("fall", way.owner, way.b))
        for i in range(len(self.network.system.runs)):
            ends = self.ends_of(i)
            if ends and ends[0] == node:
                yield ends[1]

    def low_of(self, chamber):
        """Its low ports, and where ways that are written at the chamber itself lead."""
        return list(chamber.low) + [n for n in self.steps(chamber.node) if n not in chamber.ports]

    def find_by_itself(self):
        """The chambers, runs and bodies that run out by themselves."""
        found = {c.node for c in self.chambers
                 if c.node in self.always_vented and any(self.leads_to(n) - {c.node} for n in self.low_of(c))}
        falling = {i: self.ends_of(i) for i in range(len(self.network.system.runs)) if self.ends_of(i)}
        falling = {i: ends for i, ends in falling.items() if self.leads_to(ends[1])}
        feet = {}                                   # run that runs out by itself -> its lower end
        growing = True
        while growing:
            growing = False
            for i, (upper, lower) in falling.items():
                if i not in feet and self.lets_air_in(i, upper, feet.values()):
                    feet[i] = lower
                    growing = True
        found |= {("run", i) for i in feet}
        for i in feet:
            if falling[i][0] in self.vent_nodes:
                found |= set(self.network.body_of(self.vent_nodes[falling[i][0]]))
        return found

    def lets_air_in(self, i, upper, feet):
        system = self.network.system
        if system.bores.get(system.runs[i].pipe, 13) >= WIDE_BORE:
            return True
        if upper in self.vent_nodes or any(c.node in self.always_vented and upper in c.ports for c in self.chambers):
            return True
        return any(upper == foot or any({upper, foot} <= set(c.ports) for c in self.chambers) for foot in feet)
