"""Compares the checker with the enumerator on random cases.

    python3 tests/oracle/compare.py --count 20000 --seed 1 --binary PATH [--jobs 2] [--into FOLDER] [--only SEED,SEED]

Each case is written as a .curb file, checked by `curbstop check --as json FILE` and walked by the enumerator; the sets
of (slug, line, severity) must be equal.  Of what is claimed of contents the checker may refuse more (`weaker`), as it
joins configurations, but never less (`unsafe`); this is compared pocket by pocket.  A difference is made small and written into the folder.  Exits 1 if there is
any.  The table at the end says for each slug in how many cases it was refused, and in how many accepted procedures the
question was there to be asked.
Sets are gone through in the same order each time, so that a seed says the same case again.
"""

import argparse
import collections
import concurrent.futures
import copy
import itertools
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

import claims
import enumerate as walker
import generate
import generate_contents
import generate_disinfection
import repair
import shrink
from model import statements_of
from printing import print_file
from states import States

MOST = 4096  # trajectories of a case
PATIENCE = 120  # seconds that the checker has for a case of some milliseconds: only one that never ends takes them
BY_POCKET = ("frost-risk", "not-drinkable")
WEAKER_MAY_BE = BY_POCKET + ("not-sanitised", "wrong-place", "overfill", "backflow", "short-supply")


class Unusable(Exception):
    """The checker could not use the file: what the generator wrote is no valid text, which is a bug of either."""


def verdict_of_checker(binary, path, procedure):
    """{(slug, line): severity} of the slugs that are compared."""
    try:
        done = subprocess.run([binary, "check", "--as", "json", str(path)], capture_output=True, text=True,
                              timeout=PATIENCE)
    except subprocess.TimeoutExpired:
        raise Unusable(f"not done after {PATIENCE} s") from None
    if done.returncode not in (0, 1):
        raise Unusable(f"exit {done.returncode}: {done.stdout[:2000]}{done.stderr[:500]}")
    found = {}
    for d in json.loads(done.stdout)["diagnostics"]:
        if d["slug"] == "wrong-observation":        # a mended or changed flow by which nothing fills any more
            raise walker.TooLarge()
        if d["severity"] == "error" and d["slug"] not in walker.PROVED:
            raise Unusable(f"{d['slug']}: {d['message']}")
        key = d["slug"], d["line"]
        if d["slug"] in BY_POCKET:
            found |= {(f"{d['slug']} of {label}", d["line"]): "error" for label in pockets_told(d["notes"])}
        if d["slug"] in walker.PROVED and found.get(key) != "error":
            found[key] = d["severity"]
    if (done.returncode == 1) != ("error" in found.values()):
        raise Unusable(f"exit {done.returncode}, yet the errors compared are {found}")
    return one_to_blame(found, procedure)


def pockets_told(notes):
    """The labels of the pockets that a message names, a note each: `LABEL, VOLUME, WHERE: WHY`."""
    told = [re.match(r"(?:[^:,]*: )?([^,]+), [\d.,]+ (?:mL|L)", note) for note in notes
            if not note.startswith(("in step ", "this is so "))]
    if not all(told):
        raise Unusable(f"a note that is not understood among {notes}")
    return {match.group(1) for match in told}


def label_of(system, pocket):
    """How the checker's messages call a pocket."""
    def node(name):
        part, _, port = name.partition(".")
        kinds = [system.kinds[p.kind] for p in system.parts if p.name == part and port]
        return f"{part} ({port})" if kinds and len(kinds[0].ports) + len(kinds[0].ends) > 1 else part

    if pocket[0] == "run":
        run = system.runs[pocket[1]]
        return f"pipe from {node(run.a)} to {node(run.b)}"
    path = pocket[1] if pocket[0] == "body" else pocket.rpartition(".")[0]
    return path.rpartition(".")[2]


# What the page defines and the checker does not prove yet.
NOT_YET = {"never-flushed"}


def one_to_blame(found, procedure):
    """Where several `requires` rule everything out together, which of them is blamed is left open."""
    lines = [s.line for s in procedure.requires]
    return {(slug, lines[0] if slug == "never-true" and line in lines else line): severity
            for (slug, line), severity in found.items()}


def verdict_of_enumerator(system, procedure, network=None, states=None):
    """{(slug, line): severity} and the findings themselves."""
    findings = walker.Walk(system, procedure, MOST, network, states).run()
    findings = {key: f for key, f in findings.items() if key[0] not in NOT_YET}
    found = {key: f.severity for key, f in findings.items()}
    for (slug, line), f in findings.items():
        if slug in BY_POCKET:
            found |= {(f"{slug} of {label_of(system, name)}", line): "error" for name in f.detail[1]}
    return one_to_blame(found, procedure), findings


SYSTEMS = {
    "mixed": (generate, generate_contents),         # by turns
    "disinfected": (generate_disinfection,),
}


def variants(seed, systems="mixed"):
    """Procedures for the system of one seed, each with the enumerator's verdict: as drawn, mended, and changed after."""
    generators = SYSTEMS[systems]
    rng, s, network, writer = generators[seed % len(generators)].random_case(seed)
    states = States(network)
    procedure = writer.procedure()
    share = rng.choice((0.5, 0.85, 0.95))

    def walked(p):
        print_file(s, p)
        return s, copy.deepcopy(p), verdict_of_enumerator(s, p, network, states)

    case = walked(procedure)
    yield case
    for _ in range(rng.choice((2, 3, 3))):
        repair.Mender(writer, procedure, share).mend({key: f for key, f in case[2][1].items()
                                                      if key[0] not in walker.CONTENTS or rng.random() < 0.3})
        case = walked(procedure)
        if not case[2][0]:
            break
    yield case
    for _ in range(2):
        yield walked(repair.mutate(writer, procedure))


def compare_seed(seed, systems, binary, folder):
    """[(what was found by both, size, or a difference written out)] for the cases of one seed."""
    results = []
    path = pathlib.Path(folder) / f"case_{seed}.curb"
    cases = variants(seed, systems)
    while True:
        try:
            s, p, (ours, _) = next(cases)
        except StopIteration:
            break
        except (walker.TooLarge, walker.Unsettled):
            results.append(("skipped", None, None))
            break
        path.write_text(print_file(s, p))
        try:
            theirs = verdict_of_checker(binary, path, p)
        except walker.TooLarge:
            results.append(("skipped", None, None))
            continue
        except Unusable as trouble:
            results.append(("unusable", str(trouble), (s, p)))
            continue
        kind = kind_of(ours, theirs)
        if kind not in ("same", "weaker") and kind_of(with_known_strength(s, p), theirs) in ("same", "weaker"):
            kind = "weaker"                         # between the two answers of the enumerator
        results.append((kind, ours, asked(s, p)) if kind in ("same", "weaker") else (kind, (ours, theirs), (s, p)))
    path.unlink(missing_ok=True)
    return results


def with_known_strength(s, p):
    """The enumerator's verdict if old antifreeze were as strong as what is brought: it does not tell the two apart, and
    the checker, which does, may refuse no less than this and need refuse no more than the other."""
    s = copy.deepcopy(s)
    s.strength_is_known = True
    return verdict_of_enumerator(s, p)[0]


def kind_of(ours, theirs):
    """same | weaker: the checker refuses more of contents than it must | unsafe: it accepts what it must not | different"""
    if ours == theirs:
        return "same"
    apart = {slug for slug, line in set(ours) | set(theirs) if ours.get((slug, line)) != theirs.get((slug, line))}
    apart = {slug.split(" of ")[0] for slug in apart}
    if not apart <= set(walker.CONTENTS):
        return "different"
    if any(key not in theirs and key[0].split(" of ")[0] in WEAKER_MAY_BE and not told_before(key, theirs) for key in ours):
        return "unsafe"
    return "weaker" if apart <= set(WEAKER_MAY_BE) else "different"


def told_before(key, theirs):
    """Too little is told once for each vessel: whoever counts more tells it earlier."""
    slug, line = key
    return slug == "short-supply" and any(other == slug and where < line for other, where in theirs)


def asked(s, p):
    """The slugs that could have been refused in this case, roughly: the statement or part they are about is there."""
    forms = {x.form for x in statements_of(p.body)}
    heats = any(w.form == "heats" for kind in s.kinds.values() for w in
                list(kind.always) + [w for position in kind.positions for w in position.ways])
    kinds = [s.kinds[part.kind] for part in s.parts]
    ways = [w for k in kinds for w in list(k.always) + [w for position in k.positions for w in position.ways]]
    lifts = [w for w in ways if w.form == "lifts"]
    found = set()
    moves = forms & {"set", "hold", "couple", "uncouple", "cap", "uncap", "dip", "lift", "place", "take"}
    if moves:
        found.add("no-effect")
        if heats:
            found |= {"dry-fire", "scald"}
        if lifts or any(w.form == "supplies" for w in ways):
            found |= {"open-path", "needs-verify", "over-pressure"}
        if any(k.chambers for k in kinds):
            found.add("undeclared-drain")
        if lifts:
            found.add("dry-run")
        if any(not w.own_switch for w in lifts):
            found.add("dead-head")
        if any(w.form == "breach" for w in ways) or forms & {"uncouple", "uncap"}:
            found.add("trapped-pressure")
        if any(k.guards for k in kinds) or "couple" in forms:
            found.add("guard")
    if forms & {"flow", "drain"}:
        found.add("blocked-flow")
    if forms & {"flow", "keep"}:
        found.add("left-running")
    if s.covers and any(covers for part in s.parts for _, covers in part.places):
        found.add("out-of-reach")
    if "requires" in forms:
        found.add("unmet-requires")
    claimed = {x.expression[0] for x in list(statements_of(p.body)) + p.ensures if x.form == "ensures"}
    found |= {slug for claim, slug in claims.CLAIMS.items() if claim in claimed}
    if "sanitised" in claimed:
        found.add("not-sanitised")
    if forms & {"flow", "drain", "pour"}:
        found |= {"wrong-place", "overfill"}
    if "bring" in forms or forms & {"flow", "pour"} and any(v.filled for v in s.vessels):
        found.add("short-supply")
    if moves and any(w.form == "supplies" for w in ways) and (lifts or any(k.chambers for k in kinds)):
        found.add("backflow")
    if "ensures" in forms or p.ensures:
        found.add("unmet-ensures")
    if p.requires or "verify" in forms:
        found.add("never-true")
    return found


def describe(ours, theirs):
    lines = []
    for key in sorted(set(ours) | set(theirs), key=lambda k: (k[1], k[0])):
        if ours.get(key) != theirs.get(key):
            lines.append(f"line {key[1]}: {key[0]}: enumerator {ours.get(key, 'nothing')}, "
                         f"checker {theirs.get(key, 'nothing')}")
    return lines


def write_difference(seed, number, s, p, binary, into):
    """Makes a difference small while it stays, and writes it with what each of the two says."""
    path = pathlib.Path(into) / f"difference_{seed}_{number}.curb"

    def both(s, p):
        path.write_text(print_file(s, p))
        return verdict_of_enumerator(s, p)[0], verdict_of_checker(binary, path, p)

    def slugs(ours, theirs):
        """What they differ in; of a case that is unsafe, what makes it so."""
        unsafe = kind_of(ours, theirs) == "unsafe"
        return {(slug, ours.get((slug, line)), theirs.get((slug, line))) for slug, line in set(ours) | set(theirs)
                if ours.get((slug, line)) != theirs.get((slug, line)) and not (unsafe and (slug, line) not in ours)}

    def differs(s, p):
        try:
            return bool(slugs(*both(s, p)) & wanted)
        except (Unusable, walker.TooLarge, walker.Unsettled, ValueError, KeyError):
            return False

    wanted = slugs(*both(s, p))
    s, p = shrink.shrink(s, p, differs)
    ours, theirs = both(s, p)
    lines = describe(ours, theirs)
    path.write_text(print_file(s, p) + "".join(f"# {line}\n" for line in lines))
    return path, lines


def main():
    arguments = argparse.ArgumentParser(description="Compares the checker with the enumerator on random cases.")
    arguments.add_argument("--count", type=int, default=2000, help="cases")
    arguments.add_argument("--seed", type=int, default=1)
    arguments.add_argument("--systems", choices=SYSTEMS, default="mixed", help="what kind of cases")
    arguments.add_argument("--only", default="", help="these seeds and no others, with commas between them")
    arguments.add_argument("--binary", required=True, help="the curbstop command")
    arguments.add_argument("--jobs", type=int, default=2)
    arguments.add_argument("--into", default="differences", help="folder for differences")
    arguments.add_argument("--most", type=int, default=10, help="differences to write out")
    options = arguments.parse_args()

    refused, accepted, sizes, kinds = (collections.Counter() for _ in range(4))
    done = sound = skipped = 0
    troubles = []
    with tempfile.TemporaryDirectory() as folder, concurrent.futures.ProcessPoolExecutor(options.jobs) as pool:
        only = [int(seed) for seed in options.only.split(",") if seed]
        seeds = iter(only) if only else itertools.count(options.seed)
        running = set()
        while True:
            while done < options.count and len(running) < 4 * options.jobs and (seed := next(seeds, None)) is not None:
                running.add(pool.submit(compare_and_say, seed, options.systems, options.binary, folder))
                last = seed
            if not running:
                break
            finished, running = concurrent.futures.wait(running, return_when=concurrent.futures.FIRST_COMPLETED)
            for future in finished:
                of_seed, results = future.result()
                for number, (kind, what, case) in [(i, r) for i, r in zip(range(len(results)), results)]:
                    if kind == "skipped":
                        skipped += 1
                        continue
                    done += 1
                    kinds[kind] += 1
                    if kind not in ("same", "weaker"):
                        print(f"case {number} of seed {of_seed}: {kind}", flush=True)  # a long run may be cut short
                        troubles.append((of_seed, number, kind, what, case))
                        continue
                    slugs = {slug for slug, _ in what}
                    refused.update(slugs)
                    accepted.update(case - slugs)
                    sizes[min(len(slugs & set(walker.PROVED)), 4)] += 1
                    sound += "error" not in what.values()

    for slug in walker.PROVED:
        print(f"{slug:18} found in {refused[slug]:6}   asked and not found in {accepted[slug]:6}")
    print("findings per case: " + ", ".join(f"{n}{'+' if n == 4 else ''}: {sizes[n]}" for n in sorted(sizes)))
    if troubles:
        print("differ: " + ", ".join(f"{of_seed} ({kind})" for of_seed, _, kind, _, _ in troubles), flush=True)
        pathlib.Path(options.into).mkdir(parents=True, exist_ok=True)
    for of_seed, number, kind, what, case in troubles[:options.most]:
        if kind == "unusable":
            path = pathlib.Path(options.into) / f"unusable_{of_seed}_{number}.curb"
            path.write_text(print_file(*case))
            print(f"{path}: {what}")
        else:
            path, lines = write_difference(of_seed, number, *case, options.binary, options.into)
            print(f"{path}: " + "; ".join(lines))
    print(f"{done} cases from seeds {options.only or f'{options.seed} to {last}'}: {sound} without an error, {skipped} left out as too "
          f"large; unsafe: {kinds['unsafe']}, weaker: {kinds['weaker']}, otherwise different: "
          f"{kinds['different'] + kinds['unusable']}")
    missing = [slug for slug in walker.PROVED if done >= 2000 and not (refused[slug] and accepted[slug])]
    if missing:
        print("never seen both ways: " + ", ".join(missing))
    return 1 if troubles or missing else 0


def compare_and_say(seed, systems, binary, folder):
    return seed, compare_seed(seed, systems, binary, folder)


if __name__ == "__main__":
    if os.environ.get("PYTHONHASHSEED") != "0":      # read when Python starts
        os.execve(sys.executable, [sys.executable] + sys.argv, os.environ | {"PYTHONHASHSEED": "0"})
    sys.exit(main())
