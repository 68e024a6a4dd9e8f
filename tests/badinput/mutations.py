"""The files of the main example, damaged at random: whatever comes of it, the program ends by itself and in time.

usage: mutations.py CURBSTOP SOURCE_FOLDER [--unlimited] [--count N] [--only I]
The same numbers give the same damage; --only repeats one and keeps the damaged file in the working folder.
"""
import argparse
import random
import shutil
import tempfile
from pathlib import Path

from program import Program, report

FIRST_RANDOM = 20_250  # any number; a fixed one, so that a failure can be repeated


def damaged(data, chance):
    """One to four damages, each of a byte, a stretch or the end."""
    data = bytearray(data)
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(data) + 1)
        length = chance.choice((1, 1, 2, 5, 20, 200, 2000))
        match chance.randrange(7):
            case 0:
                del data[at:]
            case 1:
                del data[at:at + length]
            case 2:
                data[at:at] = data[at:at + length] * chance.choice((1, 2, 50))
            case 3:
                data[at:at + 1] = bytes([chance.randrange(256)])
            case 4:
                data[at:at + 1] = chance.choice(b'{}()"\\#,.:-_<>~ \n0129az').to_bytes(1, "big")
            case 5:
                other = chance.randrange(len(data) + 1)
                data[at:at + length], data[other:other] = b"", data[at:at + length]
            case 6:
                words = bytes(data).split(b" ")
                i, j = chance.randrange(len(words)), chance.randrange(len(words))
                words[i], words[j] = words[j], words[i]
                data = bytearray(b" ".join(words))
    return bytes(data)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("curbstop")
    parser.add_argument("source", type=Path)
    parser.add_argument("--unlimited", action="store_true")
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--only", type=int)
    arguments = parser.parse_args()
    program = Program(arguments.curbstop, limited=not arguments.unlimited)
    example = arguments.source / "examples" / "heronmoor"
    names = sorted(path.name for path in example.glob("*.curb"))
    wrong, statuses = [], {}
    for number in range(arguments.count) if arguments.only is None else [arguments.only]:
        chance = random.Random(FIRST_RANDOM + number)
        victim = chance.choice(names)
        with tempfile.TemporaryDirectory() as folder:
            for name in names:
                shutil.copy(example / name, folder)
            contents = damaged((example / victim).read_bytes(), chance)
            (Path(folder) / victim).write_bytes(contents)
            if arguments.only is not None:
                Path(victim).write_bytes(contents)
            for command in (("check", "heronmoor.curb"),
                            ("sheet", "heronmoor.curb", "--procedure", "lay_up", "-o", "sheet.html")):
                outcome = program.run(*command, folder=folder)
                faults = program.faults(outcome, (0, 1, 2))
                if outcome.status in (1, 2) and not outcome.words.strip():
                    faults.append("says nothing")
                if (Path(folder) / "sheet.html").exists() and outcome.status != 0:
                    faults.append("wrote a sheet all the same")
                statuses[outcome.status] = statuses.get(outcome.status, 0) + 1
                wrong += [f"number {number} ({victim}), {command[0]}: {fault}" for fault in faults]
    if arguments.only is None and not {1, 2} <= set(statuses):
        wrong.append(f"the damage does too little: statuses {statuses}")
    report(f"mutations {statuses}", wrong, sum(statuses.values()))


main()
