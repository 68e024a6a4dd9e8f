"""Compares reach and cuts with an independent graph library (networkx) on random networks.

    python3 tests/oracle/graph_check.py --count 500 --seed 1 --binary PATH

A network of stops and check valves between tees, with every position known, a main at one tee and taps at others. One
step opens the main. The checker must say `open-path` exactly if networkx finds a path from the main's tee to a tap that
is open; otherwise it proves the step, and the parts by which it says the main is held back must be a cut: with those
shut and every other part open, networkx finds no path to any tap. Fewer would not do: opened alone, each of them gives
way to a tap or to another barrier.
"""

import argparse
import json
import pathlib
import random
import subprocess
import sys
import tempfile

import networkx

HEAD = """fluid water "water" { category 1 }
pipe hose "hose" { bore 13 mm }
kind main { port house  position shut { }  position open { supplies water at house up to 4 bar } }
kind stop { port a, b  position shut { }  position open { a <-> b } }
kind check { port inlet, outlet  always { inlet -> outlet } }
kind tap { port line  position shut { }  position open { line ~> below } }
"""


class Case:
    """A random network: tees 0 to n-1; edges (sort, from, to, name, open); taps (tee, name, open); the main is at 0."""

    def __init__(self, rng):
        self.tees = rng.randint(2, 12)
        self.edges = []
        for i in range(rng.randint(1, 2 * self.tees)):
            a, b = rng.sample(range(self.tees), 2)
            sort = "check" if rng.random() < 0.2 else "stop"
            self.edges.append((sort, a, b, f"{sort}_{i}", sort == "check" or rng.random() < 0.55))
        self.taps = [(rng.randrange(self.tees), f"tap_{i}", rng.random() < 0.4) for i in range(rng.randint(1, 4))]

    def text(self):
        lines = [HEAD, 'system net "net" {', '  zone yard "yard"', '  part main_0 : main "main_0" at yard']
        # A pipe closed at its end, twice, keeps every tee joined to two runs.
        joined = {i: ["main_0.house"] if i == 0 else [] for i in range(self.tees)}
        for sort, a, b, name, _ in self.edges:
            lines.append(f'  part {name} : {sort} "{name}" at yard')
            ports = ("a", "b") if sort == "stop" else ("inlet", "outlet")
            joined[a].append(f"{name}.{ports[0]}")
            joined[b].append(f"{name}.{ports[1]}")
        for tee, name, _ in self.taps:
            lines.append(f'  part {name} : tap "{name}" at yard')
            joined[tee].append(f"{name}.line")
        for i, ports in joined.items():
            for dead in range(2 - len(ports)):
                lines.append(f'  part plug_{i}_{dead} : tap "plug_{i}_{dead}" at yard')
                ports.append(f"plug_{i}_{dead}.line")
            lines.append(f"  tee tee_{i}")
            lines += [f"  run {port} - tee_{i} : hose 1 m" for port in ports]
        lines += ["}", 'procedure start "start" on net {', "  requires main_0 is shut"]
        for sort, _, _, name, is_open in self.edges:
            if sort == "stop":
                lines.append(f"  requires {name} is {'open' if is_open else 'shut'}")
        for _, name, is_open in self.taps:
            lines.append(f"  requires {name} is {'open' if is_open else 'shut'}")
        for i, ports in joined.items():
            lines += [f"  requires {port[:-5]} is shut" for port in ports if port.startswith("plug")]
        lines += ['  stage "Stage" { step "Step" { set main_0 to open } }', "}"]
        return "\n".join(lines) + "\n"

    def graph(self, is_open):
        """What is joined where `is_open(name)`; the open air is the vertex "air"."""
        graph = networkx.DiGraph()
        graph.add_nodes_from(list(range(self.tees)) + ["air"])
        for sort, a, b, name, _ in self.edges:
            if sort == "check" or is_open(name):
                graph.add_edge(a, b)
                if sort == "stop":
                    graph.add_edge(b, a)
        for tee, name, _ in self.taps:
            if is_open(name):
                graph.add_edge(tee, "air")
        return graph

    def standing(self):
        return {name: o for *_, name, o in self.edges} | {name: o for _, name, o in self.taps}


def run(binary, *words):
    done = subprocess.run([binary, *words], capture_output=True, text=True)
    if done.returncode not in (0, 1):
        sys.exit(f"exit {done.returncode}: {done.stdout}{done.stderr}")
    return done


def fault(case, binary, path):
    """What is wrong with the checker's answer; nothing where it is right. And whether there was a path."""
    path.write_text(case.text())
    standing = case.standing()
    leads = networkx.has_path(case.graph(lambda name: standing[name]), 0, "air")
    done = run(binary, "check", "--as", "json", str(path))
    slugs = {d["slug"] for d in json.loads(done.stdout)["diagnostics"] if d["severity"] == "error"}
    if leads != ("open-path" in slugs):
        return f"networkx: {'a path' if leads else 'no path'}; the checker: {sorted(slugs)}", leads
    if leads:
        return None, leads
    sheet = json.loads(run(binary, "sheet", str(path), "--procedure", "start", "--as", "json", "-o", "-").stdout)
    names = [v["name"] for v in sheet["system"]["variables"]]
    held = {names[b["variable"]] for h in sheet["steps"][-1]["held_back"] for b in h["barriers"]}
    held = {name for name in held if not name.startswith("plug")}
    if networkx.has_path(case.graph(lambda name: name not in held), 0, "air"):
        return f"held back by {sorted(held)}, which is no cut", leads
    reached = networkx.descendants(case.graph(lambda name: standing[name]), 0) | {0}
    for name in held:
        without = networkx.descendants(case.graph(lambda other: other == name or standing[other]), 0) | {0}
        if without == reached:
            return f"`{name}` is told as a barrier, but opened it changes nothing", leads
    return None, leads


def main():
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("--count", type=int, default=500)
    words.add_argument("--seed", type=int, default=1)
    words.add_argument("--binary", required=True)
    given = words.parse_args()
    found = {True: 0, False: 0}
    with tempfile.TemporaryDirectory() as folder:
        for seed in range(given.seed, given.seed + given.count):
            case = Case(random.Random(seed))
            wrong, leads = fault(case, given.binary, pathlib.Path(folder) / "net.curb")
            if wrong:
                sys.exit(f"seed {seed}: {wrong}\n{case.text()}")
            found[leads] += 1
    if not (found[True] and found[False]):
        sys.exit(f"one-sided: {found}")
    print(f"{given.count} networks: {found[True]} with a path, {found[False]} held back by a cut; networkx agrees")


main()
