"""Chains found by taking out vertices, against the blocks that a graph library (networkx) finds."""

import random
import unittest

import networkx

from graphs import Graph


def random_graph(rng):
    """(Graph, networkx.Graph) of a connected random graph with root 0; a tree with some rings in it."""
    size = rng.randint(2, 14)
    graph, other = Graph(0), networkx.Graph()
    edges = [(rng.randrange(v), v) for v in range(1, size)]
    edges += [tuple(rng.sample(range(size), 2)) for _ in range(rng.choice((0, 1, 2, 4)))]
    for a, b in edges:
        graph.join(*((a, b) if rng.random() < 0.5 else (b, a)))
        other.add_edge(a, b)
    return graph, other


def blocks_between(other, root, t):
    """The blocks on the way from root to t in the block tree, in that order."""
    tree = networkx.Graph()
    for i, block in zip(range(len(other)), networkx.biconnected_components(other)):
        for v in block:
            tree.add_edge(("block", i, frozenset(block)), v)
    return [node[2] for node in networkx.shortest_path(tree, root, t) if isinstance(node, tuple)]


class Chains(unittest.TestCase):
    def test_chain_is_the_blocks_on_the_way(self):
        for seed in range(300):
            graph, other = random_graph(random.Random(seed))
            for t in graph.vertices - {0}:
                self.assertEqual(graph.chain(t), set().union(*blocks_between(other, 0, t)))
        self.assertEqual(graph.chain(0), {0})

    def test_before_is_in_an_earlier_block_or_in_the_same(self):
        for seed in range(300):
            graph, other = random_graph(random.Random(seed))
            t = max(graph.vertices)
            blocks = blocks_between(other, 0, t)

            def first(v):
                return next(i for i, block in zip(range(len(blocks)), blocks) if v in block)

            for p in graph.chain(t):
                for q in graph.chain(t) - {p}:
                    self.assertEqual(graph.is_before(p, q), first(p) <= first(q) and q != 0, (seed, p, q))


if __name__ == "__main__":
    unittest.main()
