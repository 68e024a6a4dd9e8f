"""Reads tables of edits and applies one to a copy of an example. Knows nothing of what the checker says."""
import re
from pathlib import Path
from typing import NamedTuple


class Expected(NamedTuple):
    """One finding: `error open-path larkfold.curb:58 | set kitchen_tap to open`."""

    severity: str
    slug: str
    file: str  # its name; `?` before it was accepted
    line: int  # of the edited file, from 1
    text: str  # what stands in that line, or a piece of it

    def __str__(self):
        return f"{self.severity} {self.slug} {self.file}:{self.line} | {self.text}"


class Hunk(NamedTuple):
    file: str
    nth: int  # 0: there must be exactly one; else which of several, from 1
    old: list  # lines, without their indentation
    new: list


class Edit(NamedTuple):
    table: Path
    line: int  # of its title in the table
    title: str
    main: str  # the file that is checked
    why: str
    hunks: list
    expected: list


EXPECTED = re.compile(r"(error|warning) ([a-z-]+) ([^:\s]+):(\d+) \| ?(.*)")
HUNK = re.compile(r"@@ (\S+\.curb)(?: (\d+))?")


def folder_of(table):
    """The example that a table edits: `boat.edits` and `boat.winter.edits` both edit examples/boat."""
    return table.name.split(".")[0]


def read(table):
    """Edits of a table. Exits with the line of what does not have the form."""
    edits, main = [], None
    for number, line in enumerate(table.read_text().splitlines(), 1):
        def wrong(what):
            raise SystemExit(f"{table.name}:{number}: {what}: {line}")

        edit = edits[-1] if edits else None
        if line.startswith("#") or not line.strip():
            continue
        if line.startswith("check "):
            main = line[len("check "):].strip()
        elif line.startswith("== "):
            if main is None:
                wrong("no `check FILE` before the first edit")
            edits.append(Edit(table, number, line[3:].strip(), main, "", [], []))
        elif edit is None:
            wrong("before the first edit")
        elif line.startswith("why "):
            edits[-1] = edit._replace(why=line[4:])
        elif HUNK.fullmatch(line):
            found = HUNK.fullmatch(line)
            edit.hunks.append(Hunk(found[1], int(found[2] or 0), [], []))
        elif line[0] in "-+ " and edit.hunks:
            if line[0] != "+":
                edit.hunks[-1].old.append(line[1:].strip())
            if line[0] != "-":
                edit.hunks[-1].new.append(line[1:].strip())
        elif EXPECTED.fullmatch(line):
            severity, slug, file, at, text = EXPECTED.fullmatch(line).groups()
            edit.expected.append(Expected(severity, slug, file, int(at), text))
        else:
            wrong("neither title, reason, hunk nor finding")
    titles = set()
    for edit in edits:
        if not edit.why or not edit.hunks or not all(hunk.old for hunk in edit.hunks):
            raise SystemExit(f"{table.name}:{edit.line}: lacks a reason or something to find: {edit.title}")
        if edit.title in titles:
            raise SystemExit(f"{table.name}:{edit.line}: two edits of this title: {edit.title}")
        titles.add(edit.title)
    return edits


def apply(edit, folder):
    """Replaces what the hunks say in the files of `folder`. Indentation and line ends between lines do not matter."""
    for hunk in edit.hunks:
        path = folder / hunk.file
        text = path.read_text()
        found = list(re.finditer(r"\s*\n\s*".join(re.escape(line) for line in hunk.old), text))
        where = f"{edit.table.name}:{edit.line}: {edit.title}"
        if len(found) == 0 or (hunk.nth == 0 and len(found) > 1) or hunk.nth > len(found):
            raise SystemExit(f"{where}: occurs {len(found)} times in {hunk.file}: {hunk.old[0]}")
        match = found[max(hunk.nth, 1) - 1]
        new = text[:match.start()] + "\n".join(hunk.new) + text[match.end():]
        if new == text:
            raise SystemExit(f"{where}: changes nothing")
        path.write_text(new)


def write_expected(text, edits):
    """The table again, with its findings as they stand in `edits`."""
    lines = text.splitlines(True)
    at = {edit.line: edit for edit in edits}
    rest = iter(())
    for number, line in enumerate(lines, 1):
        if number in at:
            rest = iter(at[number].expected)
        if EXPECTED.fullmatch(line.rstrip("\n")):
            lines[number - 1] = f"{next(rest)}\n"
    return "".join(lines)
