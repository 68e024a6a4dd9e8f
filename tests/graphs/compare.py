"""The checker's own graph searches against a graph library (networkx), and against published graphs.

    python3 tests/graphs/compare.py ANSWERS [--count 600] [--seed 1]

Contents are followed by blocks (biconnected components) and by what is on every way (dominators). `ANSWERS` is a program
that has both worked out by the checker's code, from scratch and kept up to date while edges open and shut.
"""

import argparse
import json
import random
import subprocess
import sys

import networkx

ROOT = -1  # leads to all roots
SINK = -2  # all targets lead to it


class Case:
    """A graph with arrows: vertices 0 to count - 1; edges (from, to, open at first, open in the end)."""

    def __init__(self, name, count, roots, targets, edges):
        self.name, self.count, self.roots, self.targets, self.edges = name, count, roots, targets, edges

    def text(self):
        numbers = [self.count, len(self.roots), *self.roots, len(self.targets), *self.targets, len(self.edges)]
        numbers += [int(n) for edge in self.edges for n in edge]
        return " ".join(map(str, numbers))

    def arrows(self):
        """In the end, from one root to one sink."""
        graph = networkx.DiGraph()
        graph.add_nodes_from(range(self.count))
        graph.add_edges_from((a, b) for a, b, _, is_open in self.edges if is_open)
        graph.add_edges_from((ROOT, root) for root in self.roots)
        graph.add_edges_from((target, SINK) for target in self.targets)
        return graph


def random_case(seed):
    rng = random.Random(seed)
    count = rng.randint(2, 30)
    edges = []
    for _ in range(rng.randint(1, count * rng.choice((1, 2, 3)))):
        a, b = rng.randrange(count), rng.randrange(count)
        for one, other in ((a, b), (b, a)) if rng.random() < 0.7 else ((a, b),):
            edges.append((one, other, rng.random() < 0.7, rng.random() < 0.8))
    roots = sorted(rng.sample(range(count), rng.choice((1, 1, 2))))
    targets = sorted(rng.sample(range(count), rng.choice((1, 1, 2))))
    return Case(f"seed {seed}", count, roots, targets, edges)


def from_library(name, graph, root, target):
    """A graph without arrows that networkx brings along, its vertices numbered."""
    number = {vertex: i for i, vertex in enumerate(graph)}
    edges = [(number[a], number[b], i % 3 == 0, True) for i, pair in enumerate(graph.edges) for a, b in (pair, pair[::-1])]
    return Case(name, len(number), [number[root]], [number[target]], edges)


def published():
    """(case, sizes of its biconnected components, number of its articulation points)"""
    barbell = networkx.barbell_graph(4, 2)
    joined = networkx.barbell_graph(4, 2)
    joined.add_edge(2, 8)
    # The two ends of a barbell, and 0 after joining them: documentation of networkx, articulation_points.
    yield from_library("barbell", barbell, 0, 9), [2, 2, 2, 4, 4], 4
    yield from_library("barbell, joined", joined, 0, 9), [10], 0
    # W. W. Zachary, "An information flow model for conflict and fission in small groups" (1977): 34 members, 78 edges.
    # Its components as networkx 2.8.8 finds them: one articulation point, member 0, by whom all hangs together.
    yield from_library("karate club", networkx.karate_club_graph(), 33, 11), [2, 6, 28], 1
    # J. Petersen (1898): no vertex parts it, it takes three.
    yield from_library("Petersen graph", networkx.petersen_graph(), 0, 7), [10], 0
    # Marriages of Florentine families (Padgett): 4 articulation points, 5 bridges.
    families = networkx.florentine_families_graph()
    yield from_library("Florentine families", families, "Medici", "Pazzi"), None, 4


def cut_at(case):
    """What parts the reached part of the graph, by networkx, and its blocks."""
    arrows = case.arrows()
    reached = networkx.descendants(arrows, ROOT) | {ROOT}
    reached.discard(SINK)
    graph = arrows.subgraph(reached).to_undirected()
    blocks = sorted(sorted(block) for block in networkx.biconnected_components(graph))
    return graph, blocks


def blocks_between(graph, target):
    """The blocks on the way from the root to the target in the block tree, in that order."""
    tree = networkx.Graph()
    for i, block in enumerate(networkx.biconnected_components(graph)):
        tree.add_edges_from((("block", i, tuple(sorted(block))), vertex) for vertex in block)
    return [list(node[2]) for node in networkx.shortest_path(tree, ROOT, target) if isinstance(node, tuple)]


def on_every_way(case):
    """By the dominators of the sink."""
    arrows = case.arrows()
    if not networkx.has_path(arrows, ROOT, SINK):
        return []
    above = networkx.immediate_dominators(arrows, ROOT)
    at, found = above[SINK], []
    while at != ROOT:
        found.append(at)
        at = above[at]
    return sorted(found)


def faults(case, answer):
    graph, blocks = cut_at(case)
    for what in ("blocks", "live"):
        if sorted(map(sorted, answer[what])) != blocks:
            yield f"{what}: {answer[what]}, networkx {blocks}"
    for vertex, chain in enumerate(answer["chains"]):
        named = [sorted(answer["blocks"][block]) for block in chain]
        expected = blocks_between(graph, vertex) if vertex in graph else []
        if named != expected:
            yield f"chain to {vertex}: {named}, networkx {expected}"
    # What a block hangs by parts the graph.
    tops = {block[0] for block in answer["blocks"]} - {ROOT}
    if tops != set(networkx.articulation_points(graph)) - {ROOT}:
        yield f"articulation points: {sorted(tops)}, networkx {sorted(networkx.articulation_points(graph))}"
    if sorted(answer["every"]) != on_every_way(case):
        yield f"on every way: {answer['every']}, networkx {on_every_way(case)}"


def published_faults(case, answer, sizes, articulations):
    # Without the edge from ROOT to the one root: that root parts the graph only if two blocks hang by it.
    blocks = [block for block in answer["blocks"] if ROOT not in block]
    found = sorted(map(len, blocks))
    if sizes is not None and found != sizes:
        yield f"blocks of {found} vertices, published {sizes}"
    tops = [block[0] for block in blocks]
    parting = {top for top in tops if top not in case.roots or tops.count(top) > 1}
    if len(parting) != articulations:
        yield f"{len(parting)} articulation points, published {articulations}"


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("answers")
    words.add_argument("--count", type=int, default=600)
    words.add_argument("--seed", type=int, default=1)
    given = words.parse_args()
    known = list(published())
    cases = [case for case, *_ in known] + [random_case(s) for s in range(given.seed, given.seed + given.count)]
    done = subprocess.run([given.answers], input="\n".join(c.text() for c in cases), capture_output=True, text=True)
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    if done.returncode != 0 or len(answers) != len(cases):
        sys.exit(f"{len(answers)} answers to {len(cases)} graphs, exit {done.returncode}\n{done.stderr}")
    wrong = []
    for case, answer in zip(cases, answers):
        wrong += [f"{case.name}: {fault}\n  {case.text()}" for fault in faults(case, answer)]
    for (case, sizes, articulations), answer in zip(known, answers):
        wrong += [f"{case.name}: {fault}" for fault in published_faults(case, answer, sizes, articulations)]
    several = sum(len(answer["blocks"]) > 2 for answer in answers)
    rings = sum(any(len(block) > 2 for block in answer["blocks"]) for answer in answers)
    passed = sum(len(answer["every"]) > 2 for answer in answers)
    print(f"{len(cases)} graphs: {several} of several blocks, {rings} with rings, {passed} with a vertex between the ends")
    if given.count >= 100 and min(several, rings, passed) < given.count // 20:
        wrong.append("one-sided")
    sys.exit("\n".join(wrong) if wrong else 0)


main()
