"""Graphs with a root, and the questions of the page about them, answered by taking out one vertex at a time.

For: pipework.py and transport.py.  It knows nothing of pipes or of what is in them.
"""

from collections import defaultdict


class Graph:
    """Vertices with arrows between them; `root` is a vertex even where nothing is joined to it."""

    def __init__(self, root):
        self.root = root
        self.onward = defaultdict(set)              # vertex -> vertices
        self.beside = defaultdict(set)              # the same without arrows
        self.vertices = {root}
        self.parts_without = {}                     # vertex taken out -> {vertex: number of the piece it is in}
        self.chains = {}

    def join(self, *path):
        """Arrows from each of these vertices to the next."""
        for a, b in zip(path, path[1:]):
            self.onward[a].add(b)
            self.beside[a].add(b)
            self.beside[b].add(a)
        self.vertices.update(path)

    def pieces(self, gone):
        """The number of the piece in which each vertex is when `gone` is taken out."""
        known = self.parts_without.get(gone)
        if known is None:
            known = self.parts_without[gone] = {}
            for number, start in zip(range(len(self.vertices)), self.vertices):
                if start != gone and start not in known:
                    known[start] = number
                    waiting = [start]
                    while waiting:
                        for other in self.beside[waiting.pop()]:
                            if other != gone and other not in known:
                                known[other] = number
                                waiting.append(other)
        return known

    def chain(self, t):
        """The vertices of the blocks on the way from the root to t: root, t, and each vertex v from which two ways that
        meet in v only lead to root and to t.  There are two unless one other vertex lies on every way from v to both."""
        known = self.chains.get(t)
        if known is None:
            known = self.chains[t] = {self.root} if t == self.root else {
                v for v in self.vertices if v in (self.root, t) or self.lies_between(v, t)}
        return known

    def lies_between(self, v, t):
        for gone in self.vertices - {v}:
            piece = self.pieces(gone)
            if not any(end != gone and piece[end] == piece[v] for end in (self.root, t)):
                return False
        return True

    def is_before(self, p, q):
        """Whether p is before q on their chain: unless taking out one vertex (not p, perhaps q) parts p from the root but
        leaves q with it."""
        for gone in self.vertices - {p}:
            piece = self.pieces(gone)
            parted = gone == self.root or piece[p] != piece[self.root]
            left = gone == q or gone != self.root and piece[q] == piece[self.root]
            if parted and left:
                return False
        return True

    def reached(self, starts, gone=None):
        """The vertices to which the arrows lead from any of `starts`, themselves among them, with `gone` taken out."""
        found = {s for s in starts if s != gone and s in self.vertices}
        waiting = list(found)
        while waiting:
            for other in self.onward[waiting.pop()]:
                if other != gone and other not in found:
                    found.add(other)
                    waiting.append(other)
        return found

    def every_way_passes(self, v, starts, targets):
        """Whether there is no way along the arrows from a start to a target that does not pass v."""
        return self.reached(starts, v).isdisjoint(targets)
