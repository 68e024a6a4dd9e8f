"""Edits the examples one small mistake at a time and looks at what the checker says.

usage: run.py CURBSTOP PROJECT            try every edit of every *.edits file beside this one
       run.py CURBSTOP PROJECT --accept   write the lines that come out now into those files, and show the difference
       run.py CURBSTOP PROJECT --show X   print the messages of the edits whose title holds X

An *.edits file belongs to the folder of examples/ that its name says; README.md beside it explains its form.
"""
import argparse
import difflib
import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from edits import Expected, apply, folder_of, read, write_expected

HERE = Path(__file__).resolve().parent
# What no edit of an example can bring about: the budget of the decision diagrams is made for far larger systems.
BEYOND_EDITS = {"not-decided"}


def check(curbstop, project, edit, show=False):
    """Edits a copy of the example and checks it: exit status, findings as Expected, messages as text if asked for."""
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy"
        shutil.copytree(project / "examples" / folder_of(edit.table), copy)
        apply(edit, copy)
        command = [curbstop, "check", edit.main, "--as", "json"]
        run = subprocess.run(command, cwd=copy, capture_output=True, text=True, check=False, timeout=60)
        if run.returncode not in (0, 1):
            return run.returncode, [], run.stdout + run.stderr
        said = ""
        if show:
            text = subprocess.run(command[:-2], cwd=copy, capture_output=True, text=True, check=False, timeout=60)
            said = text.stdout + text.stderr
        findings = []
        for found in json.loads(run.stdout)["diagnostics"]:
            name = Path(found["file"]).name
            lines = (copy / name).read_text().splitlines() if (copy / name).exists() else []
            line = lines[found["line"] - 1].strip() if 0 < found["line"] <= len(lines) else ""
            findings.append(Expected(found["severity"], found["slug"], name, found["line"], line))
        return run.returncode, findings, said


def meets(expected, found):
    return (expected.severity, expected.slug, expected.file, expected.line) == (
        found.severity, found.slug, found.file, found.line) and expected.text in found.text


def complaints(edit, status, findings):
    """What the edit promises and the checker does not keep."""
    said = []
    refused = any(one.severity == "error" for one in edit.expected)
    if status != (1 if refused else 0):
        said.append(f"exit status {status}, expected {1 if refused else 0}")
    for one in edit.expected:
        if not any(meets(one, found) for found in findings):
            said.append(f"did not come out: {one}")
    if not edit.expected and findings:
        said.append("expected no finding at all")
    return said


def relocate(expected, findings):
    """The same expectation where it comes out now; None if nothing of its kind does."""
    alike = [one for one in findings if (one.severity, one.slug) == (expected.severity, expected.slug)]
    with_text = [one for one in alike if expected.text in one.text and expected.file in ("?", one.file)]
    best = min(with_text or alike, key=lambda one: abs(one.line - expected.line), default=None)
    if best is None:
        return None
    return best._replace(text=expected.text if with_text and expected.text else best.text)


def uncovered(project, edits):
    """Slugs of the table of obligations that no edit brings out."""
    page = (project / "compiler" / "reference" / "proofs.md").read_text()
    table = [line for line in page.splitlines() if line.startswith("| `") and "(not yet)" not in line]
    slugs = {part for line in table for part in line.split("|")[1].replace("`", "").replace(",", " ").split()}
    if "open-path" not in slugs:
        raise SystemExit("run.py: the table of obligations is not where it was in proofs.md")
    return sorted(slugs - BEYOND_EDITS - {one.slug for edit in edits for one in edit.expected})


def main():
    reader = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    reader.add_argument("curbstop")
    reader.add_argument("project", type=Path)
    ways = reader.add_mutually_exclusive_group()
    ways.add_argument("--accept", action="store_true")
    ways.add_argument("--show", metavar="X")
    asked = reader.parse_args()
    curbstop, project = str(Path(asked.curbstop).resolve()), asked.project.resolve()
    tables = sorted(HERE.glob("*.edits"))
    edits = [edit for table in tables for edit in read(table)]
    if asked.show is not None:
        edits = [edit for edit in edits if asked.show in edit.title]

    failed = 0
    for edit in edits:
        status, findings, text = check(curbstop, project, edit, asked.show is not None)
        if asked.show is not None:
            print(f"=== {edit.title}  (exit status {status})\n{text}")
        if asked.accept:
            edit.expected[:] = [relocate(one, findings) or one for one in edit.expected]
        said = complaints(edit, status, findings)
        if said and asked.show is None:
            failed += 1
            print(f"{edit.table.name}:{edit.line}: {edit.title}")
            print("".join(f"    {one}\n" for one in said), end="")
            print("".join(f"      came out: {one}\n" for one in findings), end="")
    if asked.accept:
        for table in tables:
            old = table.read_text()
            new = write_expected(old, [edit for edit in edits if edit.table == table])
            sys.stdout.writelines(difflib.unified_diff(
                old.splitlines(True), new.splitlines(True), table.name, f"{table.name}, as it comes out now"))
            table.write_text(new)
    if asked.show is None:
        for slug in uncovered(project, edits):
            failed += 1
            print(f"no edit brings out `{slug}`")
        refused = sum(any(one.severity == "error" for one in edit.expected) for edit in edits)
        print(f"{len(edits)} edits, {refused} to be refused, {len(edits) - refused} to pass: {failed} wrong")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
