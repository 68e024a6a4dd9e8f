"""What users see, kept word for word: the sheets and verdicts of the examples, and the messages for common slips.

usage: golden.py [--refresh] CURBSTOP SOURCE_FOLDER
Without --refresh it compares and shows what differs. The version of the contents is left out: it changes with every
comment in the standard library.
"""
import difflib
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from slips import SLIPS

# The file to check of each example, and the folder that it lies in.
EXAMPLES = {"first": "larkfold.curb", "boat": "gribble.curb", "heronmoor": "heronmoor.curb"}
# The same hut in every language that a sheet can be in.
LANGUAGES = ["en", "fr", "de", "es"]


def settled(text):
    return re.sub(r"\b[0-9a-f]{64}\b", "CONTENT_VERSION", text)


def run(curbstop, folder, *arguments):
    """The command, what it says and its status, as one text."""
    done = subprocess.run([curbstop, *arguments], cwd=folder, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, timeout=60)
    return f"$ curbstop {' '.join(arguments)}\n{settled(done.stdout.decode())}[status {done.returncode}]\n"


def of_examples(curbstop, source):
    made = {}
    for name, file in EXAMPLES.items():
        with tempfile.TemporaryDirectory() as place:
            folder = shutil.copytree(source / "examples" / name, Path(place) / name)
            made[f"examples/{name}/check.txt"] = run(curbstop, folder, "check", file)
            made[f"examples/{name}/sheet.txt"] = run(curbstop, folder, "sheet", file, "--as", "markdown")
            for sheet in sorted(folder.glob("*.md")):
                if sheet.name != "README.md":
                    made[f"examples/{name}/{sheet.name}"] = settled(sheet.read_text(encoding="utf-8"))
    return made


def of_languages(curbstop, source):
    made = {}
    file = source / "examples" / "languages" / "larkfold.curb"
    # It uses the whole standard library: a label that is missing there in one of the languages is told here.
    made["languages/check.txt"] = run(curbstop, file.parent, "check", file.name)
    for language in LANGUAGES:
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run([curbstop, "sheet", file, "--as", "markdown", "--language", language], cwd=folder, check=True,
                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=60)
            for sheet in sorted(Path(folder).glob("*.md")):
                made[f"languages/{language}/{sheet.name}"] = settled(sheet.read_text(encoding="utf-8"))
    return made


def of_slips(curbstop, source):
    made = {}
    for name, example, written, slip in SLIPS:
        with tempfile.TemporaryDirectory() as place:
            folder = shutil.copytree((source / "examples" / example).parent, Path(place) / "example")
            file = folder / Path(example).name
            text = file.read_text(encoding="utf-8")
            if text.count(written) < 1:
                sys.exit(f"slip {name}: examples/{example} no longer holds what is to be replaced: {written!r}")
            file.write_text(text.replace(written, slip, 1), encoding="utf-8")
            change = "".join(f"{mark} {line}\n" for mark, lines in (("-", written), ("+", slip))
                             for line in lines.splitlines())
            made[f"slips/{name}.txt"] = f"In examples/{example}:\n{change}\n" + run(curbstop, folder, "check", file.name)
    return made


def refresh(kept, made):
    for name in ("examples", "languages", "slips"):
        shutil.rmtree(kept / name, ignore_errors=True)
    for name, text in made.items():
        path = kept / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def compare(kept, made):
    there = {str(path.relative_to(kept)): path.read_text(encoding="utf-8")
             for name in ("examples", "languages", "slips") for path in sorted((kept / name).rglob("*")) if path.is_file()}
    wrong = 0
    names = sorted(there.keys() | made.keys())
    for name in names:
        if there.get(name) != made.get(name):
            wrong += 1
            lines = difflib.unified_diff(there.get(name, "").splitlines(True), made.get(name, "").splitlines(True),
                                         f"kept/{name}", f"now/{name}", n=1)
            print("".join(list(lines)[:40]))
    if wrong:
        print(f"{wrong} of {len(names)} differ from what is kept; if that is meant: "
              "cmake --build --preset dev --target golden")
    return 1 if wrong or not made else 0


def main(*arguments):
    curbstop, source = (Path(a).resolve() for a in arguments[-2:])
    made = of_examples(curbstop, source) | of_languages(curbstop, source) | of_slips(curbstop, source)
    kept = Path(__file__).resolve().parent
    if arguments[0] == "--refresh":
        refresh(kept, made)
        return 0
    return compare(kept, made)


sys.exit(main(*sys.argv[1:]))
