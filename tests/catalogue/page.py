"""Writes compiler/reference/diagnostics.md from the catalogue, or with --check says whether it is up to date.

usage: page.py [--check] DUMP_CATALOGUE PAGE
"""
import difflib
import json
import subprocess
import sys
from pathlib import Path

HEAD = """# Messages

Every message ends with its slug in brackets, such as `[open-path]`; this page explains each. It is made from
`compiler/text/catalogue_*.cpp`, and every example on it is tried by `tests/catalogue`.

An error refuses the file or the procedure, a warning does not. What exactly is proved is defined in
[proofs.md](proofs.md). Under each example, the lines that put it right: `-` is taken out, `+` put in.
"""


def fenced(language, text):
    assert "```" not in text
    return f"```{language}\n{text.rstrip()}\n```\n"


def changes(before, after):
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="")
    return "\n".join(line for line in lines if not line.startswith(("---", "+++", "@@")))


def page(entries):
    parts = [HEAD]
    parts.append("".join(f"- [{e['slug']}](#{e['slug']}): {e['title']}\n" for e in entries))
    for entry in entries:
        parts.append(f"## {entry['slug']}\n")
        parts.append(f"**{entry['severity'].capitalize()}: {entry['title']}.**\n")
        parts.append(entry["explanation"] + "\n")
        if entry["example"]:
            parts.append(fenced("curb", entry["example"]))
            parts.append(fenced("diff", changes(entry["example"], entry["mended"])))
    return "\n".join(parts)


def main(arguments):
    check = arguments[:1] == ["--check"]
    dump, place = arguments[check:]
    entries = json.loads(subprocess.run([dump], check=True, capture_output=True).stdout)
    wanted = page(entries)
    path = Path(place)
    if not check:
        path.write_text(wanted, encoding="utf-8")
        return 0
    found = path.read_text(encoding="utf-8") if path.exists() else ""
    if found == wanted:
        return 0
    print("".join(difflib.unified_diff(found.splitlines(True), wanted.splitlines(True), str(path), "wanted", n=1)))
    print("the page is not up to date; mend: cmake --build --preset dev --target diagnostics_page")
    return 1


sys.exit(main(sys.argv[1:]))
