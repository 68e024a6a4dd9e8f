"""The network of one configuration, and the plain graph searches of the page of definitions.

For: telling, in one configuration with one state of the liquids, what runs out, what falls, what is drawn, what is
under pressure.  It knows nothing of procedures, of what came before, or of what is declared.

Outlets are ("fall", PART, TARGET), ("breach", PART, PORT), ("end", NAME), ("fill", CHAMBER or VESSEL).
Sources are ("supply", PART) and ("lift", PART).
"""

from collections import defaultdict
from expressions import evaluate


class Layout:
    """Which ways are active in one configuration, sorted by what they do."""

    def __init__(self, network, sigma):
        self.network = network
        self.sigma = sigma
        index = network.index
        self.there = {path: network.options_hold(i, sigma) for path, i in network.instances.items()}
        self.both = defaultdict(list)               # node -> nodes
        self.forward = defaultdict(list)            # node -> (node, limit or None)
        self.backward = defaultdict(list)           # node -> nodes
        self.falls = []                             # (part, node, target, above or None)
        self.breaches = []                          # (part, node)
        self.vents = set()                          # nodes
        self.supplies = []                          # (part, node, fluid, pressure)
        self.lifts = []                             # (part, suction, delivery, pressure, own switch)
        self.heats = set()                          # (part, chamber)
        self.stores = set()                         # nodes
        self.always_vented = set()                  # nodes with a vent that no hand shuts
        self.standing_open = set()                  # (part, node, target) of falls that no hand shuts, () for breaches
        self.known_pressurised = {}
        self.active = []                            # every way that is active; a lift that only lets pass as "passes"
        for way in network.ways:
            if not self.there[way.owner]:
                continue
            if way.form == "lifts":                 # passes one way whether it runs or not
                self.join_one_way(way.a, way.b, None)
                self.active.append(("passes", way))
            if self.takes(way):
                self.add_active(way)
        for run in network.system.runs:
            if network.run_is_there(run, sigma):
                self.join(run.a, run.b)
        self.open_ends = set()
        for name in network.ends:
            if network.is_there(name, sigma):
                self.add_end(name, sigma[index[name]])
        self.containers = [c for c in network.containers if not c.owner or self.there[c.owner]]
        self.by_node = {c.node: c for c in self.containers}
        self.vented = set(network.vessels) | set(network.places)
        self.vented |= {c.node for c in self.containers if c.node in self.vents}

    def takes(self, way):
        """Whether the position of a way is taken and its `while` holds."""
        position = self.sigma[self.network.index[way.owner]] if way.position is not None else None
        return position == way.position and all(evaluate(c, self.network, self, None) for c in way.conditions)

    def pressure_of(self, way):
        return self.sigma[self.network.index[way.pressure[1]]] if isinstance(way.pressure, tuple) else way.pressure

    def vent_is_sure(self, way):
        return True

    def join(self, a, b):
        self.both[a].append(b)
        self.both[b].append(a)

    def join_one_way(self, a, b, limit):
        self.forward[a].append((b, limit))
        self.backward[b].append(a)

    def add_active(self, way):
        pressure = self.pressure_of(way)
        no_hand = way.position is None and all(c == ("true",) for c in way.conditions)
        self.active.append((way.form, way))
        if way.form == "both":
            self.join(way.a, way.b)
        elif way.form == "forward":
            self.join_one_way(way.a, way.b, pressure)
        elif way.form == "fall":
            self.falls.append((way.owner, way.a, way.b, pressure))
            if no_hand:
                self.standing_open.add((way.owner, way.a, way.b))
        elif way.form == "breach":
            self.breaches.append((way.owner, way.a))
            if no_hand:
                self.standing_open.add((way.owner, way.a, ()))
        elif way.form == "vent":
            if self.vent_is_sure(way):
                self.vents.add(way.a)
            if no_hand:
                self.always_vented.add(way.a)
        elif way.form == "stores":
            self.stores.add(way.a)
        elif way.form == "supplies":
            if pressure is None or pressure > 0:
                self.supplies.append((way.owner, way.a, way.fluid, pressure))
        elif way.form == "heats":
            self.heats.add((way.owner, way.a))
        elif way.form == "lifts":
            self.lifts.append((way.owner, way.a, way.b, pressure, way.own_switch))
        elif way.form != "stores":                  # which neither presses nor lets pass: contents alone ask for it
            raise ValueError(way.form)

    def add_end(self, name, value):
        if value == "open":
            self.open_ends.add(name)
        elif isinstance(value, tuple):
            if value[0] == "in":
                self.join(name, value[1])
            elif name < value[1]:                   # a matched pair is joined once
                self.join(name, value[1])

    # Landing

    def below(self, name):
        """Where what leaves this part, or this free end, lands: the vessel under it, else what it is over, else the
        ground."""
        index = self.network.index
        for vessel in self.network.vessels:
            where = self.sigma[index[vessel]]
            if isinstance(where, tuple) and (self.network.owner_of(where[1]) or where[1]) == name:
                return vessel
        instance = self.network.instances.get(name)
        if instance and instance.over and self.network.is_there(instance.over, self.sigma):
            return instance.over
        return "ground"

    def landing(self, outlet):
        """The node on which an outlet's liquid lands."""
        word, name = outlet[0], outlet[1]
        if word == "fall":
            target = outlet[2]
            return self.below(name) if target == "below" else target
        if word == "breach":
            return self.below(name)
        if word == "end":
            return self.below(self.network.owner_of(name) or name)
        return name

    def ends_a_fall(self, node):
        """Whether a landing is no chamber and no port: a vessel, a place, the ground."""
        return node in self.network.vessels or node in self.network.places

    # Pressure

    def sources_on(self):
        """(source, node where it presses, its fluid if it is a supply, pressure)"""
        found = [(("supply", part), node, fluid, pressure) for part, node, fluid, pressure in self.supplies]
        found += [(("lift", part), delivery, None, pressure) for part, _, delivery, pressure, _ in self.lifts]
        return found

    def pressurised(self, start, gas, limit=None):
        """Nodes reached from `start` under pressure; with `limit`, over no reducer that limits to that or less."""
        key = start, gas, limit
        if key not in self.known_pressurised:       # most of the time of a walk was spent here
            self.known_pressurised[key] = frozenset(self.find_pressurised(start, gas, limit))
        return self.known_pressurised[key]

    def find_pressurised(self, start, gas, limit):
        if start in self.vented:
            return set()
        reached = {start}
        waiting = [start]
        while waiting:
            node = waiting.pop()
            for other in self.pressed_from(node, gas, limit):
                if other not in reached and other not in self.vented:
                    reached.add(other)
                    waiting.append(other)
        return reached

    def pressed_from(self, node, gas, limit):
        yield from self.both[node]
        for other, reducer in self.forward[node]:
            if limit is None or reducer is None or reducer > limit:
                yield other
        if gas:
            for part, inner, target, above in self.falls:
                if inner == node and above is None:
                    yield self.landing(("fall", part, target))

    def outlets_of(self, start, gas, pressure):
        """The outlets that a source pressing at `start` discharges through."""
        if start in self.vented:
            return {("fill", start)}
        reached = self.pressurised(start, gas)
        found = set()
        for part, inner, target, above in self.falls:
            if inner in reached:
                if above is None or (pressure > above and inner in self.pressurised(start, gas, above)):
                    found.add(("fall", part, target))
        found |= {("breach", part, node) for part, node in self.breaches if node in reached}
        found |= {("end", name) for name in self.open_ends if name in reached}
        for node in reached:
            entered = list(self.both[node]) + [other for other, _ in self.forward[node]]
            found |= {("fill", other) for other in entered if other in self.vented}
        return found

    def outlets_beside(self, node):
        """The outlets that are open at a node; a relief valve is none."""
        found = {("fall", part, target) for part, inner, target, above in self.falls if inner == node and above is None}
        found |= {("breach", part, inner) for part, inner in self.breaches if inner == node}
        if node in self.open_ends:
            found.add(("end", node))
        entered = list(self.both[node]) + [other for other, _ in self.forward[node]]
        return found | {("fill", other) for other in entered if other in self.vented}

    def relieved(self, node, rating):
        """Whether a relief valve set at `rating` or below is reached from the node."""
        low = {inner for _, inner, _, above in self.falls if above is not None and above <= rating}
        return bool(low) and not low.isdisjoint(self.pressurised(node, False))

    def heated(self):
        return {chamber for _, chamber in self.heats}

    def opened_by_hand(self, chamber):
        """The breaches and open ends to which a chamber's own pressure would press what it holds."""
        vented = chamber.node in self.vented
        reached = {chamber.node}
        waiting = []
        for other in self.pressed_from(chamber.node, False, None):
            if other not in self.vented and not (vented and other in chamber.high):
                reached.add(other)
                waiting.append(other)
        while waiting:
            for other in self.pressed_from(waiting.pop(), False, None):
                if other not in reached and other not in self.vented:
                    reached.add(other)
                    waiting.append(other)
        found = {("breach", part, node) for part, node in self.breaches if node in reached}
        return found | {("end", name) for name in self.open_ends if name in reached}

    def exceeds(self, node, rating):
        """The sources whose pressure at the node exceeds the rating."""
        found = []
        for source, start, fluid, pressure in self.sources_on():
            if pressure > rating and node in self.pressurised(start, fluid in self.network.gases, rating):
                if not self.relieved(node, rating):
                    found.append(source)
        return found

    def presses_at_least(self, node, pressure):
        """Whether a source reaches the node with this pressure or more; relief valves are not counted on."""
        return any(most >= pressure and node in self.pressurised(start, fluid in self.network.gases, pressure - 1)
                   for _, start, fluid, most in self.sources_on())

    def under_pressure(self, node):
        return any(node in self.pressurised(start, fluid in self.network.gases)
                   for _, start, fluid, _ in self.sources_on())

    # Suction

    def drawn(self, start, liquid):
        """(whether air is drawn at `start`, the origins of what is drawn there): ("supply", PART) or ("held", NODE)"""
        reached = {start}
        waiting = [start]
        entered_from = defaultdict(set)
        entered_from[start].add(None)
        while waiting:
            node = waiting.pop()
            if node in self.vented:
                continue
            for other in self.both[node] + self.backward[node]:
                entered_from[other].add(node)
                if other not in reached:
                    reached.add(other)
                    waiting.append(other)
        gases = self.network.gases
        origins = {("supply", part) for part, node, fluid, _ in self.supplies if node in reached and fluid not in gases}
        air = any(node in reached and fluid in gases for _, node, fluid, _ in self.supplies)
        air = air or any(inner in reached and above is None for _, inner, _, above in self.falls)
        air = air or any(node in reached for _, node in self.breaches)
        air = air or not self.open_ends.isdisjoint(reached)
        air = air or any(node in reached and node not in self.by_node for node in self.vents)
        for node in reached:
            container = self.by_node.get(node)
            if container is None:
                continue
            origins.add(("held", node))
            if node in self.vented:
                _, surely = liquid[self.network.container_index[node]]
                if not surely or not entered_from[node].isdisjoint(container.high):
                    air = True
        return air, origins

    def reaches_liquid(self, node, liquid):
        """Surely liquid is drawn there, and never air."""
        air, origins = self.drawn(node, liquid)
        return not air and any(self.may_give(o, liquid) for o in origins)

    def may_give(self, origin, liquid):
        return origin[0] == "supply" or liquid[self.network.container_index[origin[1]]][0]

    # Gravity

    def falls_from(self, chamber):
        """(the outlets that what stands in a chamber may fall to, the chambers and vessels it comes into on the way),
        whatever it holds."""
        height = self.network.instances[chamber.owner].height
        if height is None:
            first = chamber.low
        elif chamber.node in self.vented:           # nothing stands as high as its brim and top ports
            first = [port for port in chamber.ports if port not in chamber.high]
        else:
            first = chamber.ports
        reached = {chamber.node}
        waiting = []
        found = set()

        def enter(node):
            if node in reached:
                return
            reached.add(node)
            if node in self.network.vessels:        # over a dipped end: it fills, and nothing goes on
                found.add(("fill", node))
            else:
                waiting.append(node)

        for node in first:
            enter(node)
        for node in self.onward(chamber.node, chamber.ports, found, height):
            enter(node)
        while waiting:
            node = waiting.pop()
            held = self.by_node.get(node)
            if held is not None and node in self.vented:
                for port in held.low:
                    enter(port)
                passed = held.ports                 # ways written at the chamber itself leave it too
            else:
                passed = ()
            for other in self.onward(node, passed, found, height):
                enter(other)
        entered = (reached - {chamber.node}) & set(self.by_node)
        return found, entered | {self.landing(x) for x in found if self.landing(x) in self.network.vessels}

    def onward(self, node, except_for, found, below=None):
        """Nodes to which liquid runs on from `node`; outlets on which it lands are put into `found`.  Nothing falls at the
        height `below` or higher."""
        for other in self.both[node] + [other for other, _ in self.forward[node]]:
            if other not in except_for:
                yield other
        outlets = [("fall", part, target) for part, inner, target, above in self.falls
                   if inner == node and above is None]
        outlets += [("breach", part, inner) for part, inner in self.breaches if inner == node]
        if node in self.open_ends:
            outlets.append(("end", node))
        for outlet in outlets:
            if below is not None and self.height_of(outlet) is not None and self.height_of(outlet) >= below:
                continue
            landing = self.landing(outlet)
            if self.ends_a_fall(landing):
                found.add(outlet)
            else:
                yield landing

    def comes_into(self, landing):
        """The chambers or vessels that what lands on a node comes into first."""
        found = set()
        reached = {landing}
        waiting = [landing]
        while waiting:
            node = waiting.pop()
            if node in self.by_node:
                found.add(node)
                continue
            if self.ends_a_fall(node):
                continue
            for other in self.onward(node, (), set()):
                if other not in reached:
                    reached.add(other)
                    waiting.append(other)
        return found

    def height_of(self, outlet):
        """The height of the part to which an outlet belongs; None where it is unknown."""
        instance = self.network.instances.get(self.network.owner_of(outlet[1]))
        return instance.height if instance else None

    def air_inlet(self, chamber, is_drained_through, drained_into):
        """Whether air may enter the chamber: a vent, or an opening through which it is not drained, joined to it. A vented
        chamber that it is drained into gives air at its brim and top ports only."""
        return self.air_comes_to(chamber.node, is_drained_through, drained_into)

    def air_comes_to(self, start, is_drained_through, drained_into=frozenset()):
        reached = {start}
        waiting = [start]
        while waiting:
            node = waiting.pop()
            if node in self.vented and node in drained_into:
                continue
            for other in self.both[node] + self.backward[node]:
                if other not in reached and other not in self.network.vessels:
                    reached.add(other)
                    waiting.append(other)
        high = {port for c in self.containers if c.node in self.vented & drained_into for port in c.high}
        if not (self.vents - drained_into | high).isdisjoint(reached):
            return True
        openings = {("fall", part, target) for part, inner, target, above in self.falls
                    if inner in reached and above is None}
        openings |= {("breach", part, node) for part, node in self.breaches if node in reached}
        openings |= {("end", name) for name in self.open_ends if name in reached}
        return not all(is_drained_through(x) for x in openings)
