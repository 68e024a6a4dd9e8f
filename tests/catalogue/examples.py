"""Tries every entry of the catalogue with the program: its example gives the message, what puts it right is clean.

usage: examples.py DUMP_CATALOGUE CURBSTOP
"""
import json
import subprocess
import sys
import tempfile
from pathlib import Path

SYSTEM = 'system shed "Shed" {\n  zone yard "Yard"\n}\n'
OPENING = 'use water\nsystem shed "Shed" {\n  zone yard "Yard"\n  part garden_tap : tap "Garden tap" at yard\n}\n'


# An example is one text that fits on a page. What takes several files, or thousands of lines, is made here instead:
# each function writes into a folder and gives the file to check.
def unreadable_file(folder):
    return folder / "nowhere.curb"


def module_circle(folder):
    (folder / "one.curb").write_text("use two\n" + SYSTEM)
    (folder / "two.curb").write_text("use one\n")
    return folder / "one.curb"


def too_many_modules(folder):
    names = [f"module_{i}" for i in range(300)]
    for name in names:
        (folder / f"{name}.curb").write_text(f"group {name}_things\n")
    (folder / "all.curb").write_text("".join(f"use {name}\n" for name in names) + SYSTEM)
    return folder / "all.curb"


def nested_too_deep(folder):
    depth = 200
    claim = "(" * depth + "garden_tap is shut" + ")" * depth
    (folder / "deep.curb").write_text(
        OPENING + f'procedure look "Look" on shed {{ stage "All" {{ step "Look" {{ verify {claim} }} }} }}\n')
    return folder / "deep.curb"


def too_many_values(folder):
    positions = "".join(f"  position p{i} {{ }}\n" for i in range(65))
    (folder / "many.curb").write_text(
        f'kind drum "Drum" {{\n{positions}}}\nsystem shed "Shed" {{ zone yard "Yard"  part d : drum "Drum" at yard }}\n')
    return folder / "many.curb"


def too_many_parts(folder):
    text = 'kind k0 "K" { port p }\n'
    for level in range(1, 6):
        inner = "".join(f'  part p{i} : k{level - 1} "P{i}"\n' for i in range(10))
        text += f'kind k{level} "K" {{\n  port p\n{inner}}}\n'
    text += 'system shed "Shed" { zone yard "Yard"  part d : k5 "D" at yard }\n'
    (folder / "many.curb").write_text(text)
    return folder / "many.curb"


def too_many_fluids(folder):
    text = "".join(f'fluid f{i} "Fluid {i}" {{ category 1 }}\n' for i in range(64)) + OPENING
    (folder / "fluids.curb").write_text(text)
    return folder / "fluids.curb"


def too_many_steps(folder):
    text = OPENING + 'fragment f0() steps { step "Look" { verify garden_tap is shut } }\n'
    for level in range(1, 6):
        text += f"fragment f{level}() steps {{ {f'do f{level - 1}() ' * 10}}}\n"
    text += 'procedure look "Look" on shed { requires garden_tap is shut  stage "All" { do f5()  do f0() } }\n'
    (folder / "long.curb").write_text(text)
    return folder / "long.curb"


def not_decided(folder):
    """A net of pipes with a valve of unknown standing in each mesh: which of them are open has too many answers."""
    size = 6
    text = ('use water\nsystem net "Net" {\n  zone yard "Yard"\n  part stop : mains_stop "Stop valve" at yard\n'
            '  part garden_tap : tap "Garden tap" at yard\n')
    cells = [(i, j) for i in range(size) for j in range(size)]
    text += "  tee " + ", ".join(f"n{i}_{j}" for i, j in cells) + "\n"
    for i, j in cells:
        for name, k, m in ((f"down_{i}_{j}", i + 1, j), (f"right_{i}_{j}", i, j + 1)):
            if k < size and m < size:
                text += (f'  part {name} : shut_off "V" at yard\n  run n{i}_{j} - {name}.inlet : copper_15 1 m\n'
                         f"  run {name}.outlet - n{k}_{m} : copper_15 1 m\n")
    text += (f"  run stop - n0_0 : copper_15 1 m\n  run n{size - 1}_{size - 1} - garden_tap : copper_15 1 m\n}}\n"
             'procedure open_up "Open up" on net {\n  requires stop is shut and garden_tap is open\n'
             '  stage "All" { step "Open" { set stop to open } }\n}\n')
    (folder / "net.curb").write_text(text)
    return folder / "net.curb"


def photo_of(folder, bytes_):
    (folder / "tap.jpg").write_bytes(bytes_)
    (folder / "photo.curb").write_text(OPENING.replace("at yard\n", 'at yard photo "tap.jpg" "A brass tap"\n'))
    return folder / "photo.curb"


def not_a_photo(folder):
    return photo_of(folder, b"GIF89a")


def photo_too_large(folder):
    return photo_of(folder, bytes(2 * 1024 * 1024 + 1))


MADE = {f.__name__.replace("_", "-"): f
        for f in (unreadable_file, module_circle, too_many_modules, nested_too_deep, too_many_values, too_many_parts,
                  too_many_steps, too_many_fluids, not_decided, not_a_photo, photo_too_large)}

class Judge:
    def __init__(self, curbstop):
        self.curbstop = curbstop
        self.wrong = []

    def say(self, slug, words):
        self.wrong.append(f"{slug}: {words}")

    def check(self, path, text=None):
        """Exit status and diagnostics of `check --as json`."""
        done = subprocess.run([self.curbstop, "check", "--as", "json", str(path)], input=text, capture_output=True,
                              text=True, encoding="utf-8", timeout=60)
        return done.returncode, json.loads(done.stdout)["diagnostics"] if done.stdout else []

    def must_be_there(self, entry, status, found):
        slug, severity = entry["slug"], entry["severity"]
        severities = {d["severity"] for d in found if d["slug"] == slug}
        if severities != {severity}:
            listed = ", ".join(sorted({d["slug"] for d in found})) or "none"
            self.say(slug, f"the example gives it with {severities or 'nothing'}, not {severity}; all slugs: {listed}")
        wanted = {2} if slug == "unreadable-file" else {1} if severity == "error" else {0}
        if status not in wanted:
            self.say(slug, f"the example ends with status {status}, not {wanted}")

    def try_entry(self, entry):
        slug = entry["slug"]
        if slug in MADE:
            if entry["example"]:
                self.say(slug, "has an example now: take it out of MADE")
            with tempfile.TemporaryDirectory() as folder:
                self.must_be_there(entry, *self.check(MADE[slug](Path(folder))))
            return
        if not entry["example"] or not entry["mended"]:
            self.say(slug, "has no example")
            return
        self.must_be_there(entry, *self.check("-", entry["example"]))
        status, found = self.check("-", entry["mended"])
        if status != 0 or found:
            listed = "; ".join(f"line {d.get('line')}: {d['message']} [{d['slug']}]" for d in found)
            self.say(slug, f"the mended example ends with status {status}: {listed}")


def main(dump, curbstop):
    entries = json.loads(subprocess.run([dump], check=True, capture_output=True).stdout)
    judge = Judge(curbstop)
    for entry in entries:
        judge.try_entry(entry)
    for slug in sorted(set(MADE) - {e["slug"] for e in entries}):
        judge.say(slug, "is not in the catalogue")
    print("\n".join(judge.wrong) or f"{len(entries)} entries tried")
    return 1 if judge.wrong or not entries else 0


sys.exit(main(*sys.argv[1:]))
