#!/usr/bin/env python3
"""How long the program takes, from its start to its verdict. See README.md. Fails where a verdict is wrong or a hard
case outgrows its budget, and never because a size takes longer than is wanted."""
import argparse
import sys
from pathlib import Path

import hard
import runs
import work

ROOT = Path(__file__).resolve().parents[2]
FLOOR = "the program's own start"
EXAMPLE = "main example, both procedures"

# parts, steps, unknown parts, options; the most seconds and megabytes that are wanted (none: for comparison only)
SIZES = [
    (60, 80, 0, 0, None, None),
    (60, 80, 12, 8, None, None),
    (200, 500, 0, 0, None, None),
    (200, 500, 20, 20, 0.1, None),
    (1000, 5000, 0, 0, 0.5, None),
    (1000, 5000, 20, 20, None, None),
    (5000, 5000, 0, 0, None, None),
]
QUICK_SIZES = SIZES[:4]
EXAMPLE_SECONDS, EXAMPLE_MEGABYTES = 0.025, 64
MORE_UNKNOWN = [((200, 500), 2.0), ((1000, 5000), 2.0)]  # with 20 unknown parts and 20 options against none
GROWTH_STEPS = [(200, steps) for steps in (500, 1000, 2000, 4000)]
GROWTH_PARTS = [(parts, 1000) for parts in (250, 500, 1000, 2000)]
HARD_SECONDS, HARD_MEGABYTES = 5, 256
RIGHT = {
    hard.ACCEPTED: ["accepted"],
    hard.REFUSED: ["open-path", "needs-verify"],
    hard.TOO_LONG: ["accepted", "too-many-steps", "fragment-circle"],
}


def title(parts, steps, unknowns=0, options=0):
    return f"{parts:,} x {steps:,}" + (f", {unknowns} + {options}" if unknowns or options else "")


class Table:
    """Prints rows as they come and keeps what was wrong."""

    def __init__(self):
        self.wrong = []
        self.floor = None

    def head(self, words):
        print(f"\n{words}\n{'':44} {'median':>9} {'fastest':>9} {'floors':>7} {'memory':>9}")

    def row(self, result, note=""):
        floors = f"{result.seconds / self.floor:.1f}" if self.floor else ""
        print(f"{result.name:44} {result.seconds * 1e3:6.1f} ms {result.fastest * 1e3:6.1f} ms {floors:>7}"
              f" {result.megabytes:6.1f} MB  {note}")

    def expect(self, result, verdicts):
        if not any(verdict == result.verdict or verdict in result.verdict.split() for verdict in verdicts):
            self.wrong.append(f"{result.name}: {result.verdict}; right would be {' or '.join(verdicts)}")


def sizes(runner, table, quick):
    chosen = QUICK_SIZES if quick else SIZES
    times = 11 if quick else 21
    runner.add(FLOOR, ["--version"], 4 * times)
    runner.add(EXAMPLE, ["check", ROOT / "examples/heronmoor/heronmoor.curb"], 2 * times)
    for size in chosen:
        runner.check(title(*size[:4]), work.write(*size[:4]), times if size[0] < 5000 else 5)
    found = runner.run()
    table.floor = found[FLOOR].seconds
    table.head("Sizes: parts x steps, unknown parts + options")
    limits = {EXAMPLE: (EXAMPLE_SECONDS, EXAMPLE_MEGABYTES)} | {title(*size[:4]): size[4:] for size in chosen}
    for name, result in found.items():
        seconds, megabytes = limits.get(name, (None, None))
        note = result.verdict if name != FLOOR else ""
        if seconds:
            note += f"; {result.seconds / seconds:.0%} of the {seconds * 1e3:g} ms wanted"
        if megabytes:
            note += f", {result.megabytes / megabytes:.0%} of {megabytes} MB"
        table.row(result, note)
        if name != FLOOR:
            table.expect(result, ["accepted"])
    for (parts, steps), wanted in MORE_UNKNOWN:
        known, unknown = found.get(title(parts, steps)), found.get(title(parts, steps, 20, 20))
        if known and unknown:
            print(f"{title(parts, steps)}: with 20 + 20 it takes {unknown.fastest / known.fastest:.2f} times as long"
                  f" (at most {wanted:g} wanted)")


def growth(runner, table, quick):
    times = 5 if quick else 11
    groups = [("steps", 1, GROWTH_STEPS, {}), ("parts", 0, GROWTH_PARTS, {})]
    if not quick:
        some = {"unknowns": 20, "options": 20}
        groups += [("steps", 1, GROWTH_STEPS, some), ("parts", 0, GROWTH_PARTS, some),
                   ("parts", 0, GROWTH_PARTS, {"crowded": True})]
    for what, index, group, more in groups:
        runner.add(FLOOR, ["--version"], 4 * times)
        for size in group:
            runner.check(title(*size), work.write(*size, **more), times)
        found = runner.run()
        floor = found.pop(FLOOR).fastest  # what else the machine does only ever adds
        with_what = ", ".join(f"{value} {name}" for name, value in more.items() if value is not True)
        crowd = ", a heater and a pump in each zone" if "crowded" in more else ""
        table.head(f"Growth with {what}" + (f", with {with_what}" if with_what else "") + crowd)
        for result in found.values():
            table.row(result)
            table.expect(result, ["accepted"])
        seconds = [result.fastest - floor for result in found.values()]
        power = runs.exponent([size[index] for size in group], seconds)
        last = runs.exponent([size[index] for size in group[-2:]], seconds[-2:])
        print(f"above the floor it grows with the power {power:.2f} of the {what}; at the last doubling, {last:.2f}")


def mistakes(runner, table, quick):
    for size in [(60, 80, 12, 8)] if quick else [(60, 80, 12, 8), (200, 500, 20, 20), (1000, 5000, 20, 20)]:
        for mistake, slug in work.MISTAKES.items():
            runner.check(f"{title(*size)}: {mistake}", work.write(*size, mistake), 1)
        table.head("One mistake, halfway through")
        for (mistake, slug), result in zip(work.MISTAKES.items(), runner.run().values()):
            table.row(result, result.verdict)
            table.expect(result, [slug])


def hard_cases(runner, table, quick):
    cases = list(hard.cases(quick))
    for case in cases:
        runner.check(case.name, case.text, 1)
    table.head(f"Hard on purpose: {HARD_SECONDS} s of processor time and {HARD_MEGABYTES} MB at most")
    for case, result in zip(cases, runner.run().values()):
        table.row(result, result.verdict + (f" (it is {case.right})" if result.verdict == "not-decided" else ""))
        table.expect(result, [*RIGHT[case.right], "not-decided"])
        if result.cpu > HARD_SECONDS or result.megabytes > HARD_MEGABYTES:
            table.wrong.append(f"{case.name}: {result.cpu:.1f} s of processor time, {result.megabytes:.0f} MB")


def selftest(runner, table):
    """Are the files that are made what they are meant to be? Small ones, once each, nothing timed."""
    for size in ((60, 80, 0, 0), (60, 80, 12, 8), (61, 83, 3, 5), (200, 150, 20, 20)):
        runner.check(title(*size), work.write(*size), 1)
    for result in runner.run().values():
        table.expect(result, ["accepted"])
    mistakes(runner, table, True)
    hard_cases(runner, table, True)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="fewer sizes and fewer runs of each")
    parser.add_argument("--selftest", action="store_true", help="verdicts of small cases, nothing timed")
    parser.add_argument("--binary", default=ROOT / "build/release/bin/curbstop", help="a release build")
    arguments = parser.parse_args()
    if not Path(arguments.binary).is_file():
        parser.error(f"{arguments.binary} is not there: build it with `sh .ci/build release`, or name another")
    runner, table = runs.Runner(arguments.binary), Table()
    if arguments.selftest:
        selftest(runner, table)
    else:
        sizes(runner, table, arguments.quick)
        growth(runner, table, arguments.quick)
        mistakes(runner, table, arguments.quick)
        hard_cases(runner, table, arguments.quick)
    print("\n" + ("\n".join(["WRONG", *table.wrong]) if table.wrong else "All verdicts are right."))
    sys.exit(1 if table.wrong else 0)


if __name__ == "__main__":
    main()
