"""A second opinion on the samples, from other hands than the first: JSON Schema by python3-jsonschema, XML by expat,
CommonMark by cmark. Exit 77 is ctest's "skipped"."""
import json
import shutil
import subprocess
import sys
import xml.etree.ElementTree as ElementTree
from pathlib import Path

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

samples, schemas = Path(sys.argv[1]), Path(sys.argv[2])
wrong = []
seen = {"json": 0, "svg": 0, "md": 0}

for name in ("check", "procedure", "record", "trace"):
    schema = json.loads((schemas / f"{name}.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    judge = jsonschema.Draft202012Validator(schema)
    for path in sorted(samples.glob(f"*.{name}.json")):
        seen["json"] += 1
        for error in list(judge.iter_errors(json.loads(path.read_text())))[:3]:
            wrong.append(f"{path.name}: {error.json_path}: {error.message[:200]}")
    # A judge that lets everything pass is none.
    if judge.is_valid({"format": name}):
        wrong.append(f"{name}.schema.json accepts a document that says nothing")

svg = "{http://www.w3.org/2000/svg}"
expected = {svg + tag for tag in ("svg", "title", "rect", "g", "path", "text", "circle")}
for path in sorted(samples.glob("*.svg")):
    seen["svg"] += 1
    try:
        tags = {element.tag for element in ElementTree.parse(path).iter()}
    except ElementTree.ParseError as error:
        wrong.append(f"{path.name}: {error}")
        continue
    if not tags <= expected:
        wrong.append(f"{path.name}: holds {tags - expected}")

cmark = shutil.which("cmark")
if cmark is None:
    print("cmark is not installed: Markdown is judged by commonmark.js alone")
else:
    commonmark = "{http://commonmark.org/xml/1.0}"
    allowed = {commonmark + tag for tag in (
        "document", "heading", "paragraph", "block_quote", "list", "item", "thematic_break", "text", "softbreak",
        "strong", "emph", "code")}
    for path in sorted(samples.glob("*.md")):
        seen["md"] += 1
        tree = subprocess.run([cmark, "--to", "xml", str(path)], capture_output=True, check=True).stdout
        # expat refuses what XML cannot hold, which is no fault of the Markdown.
        text = tree.decode().replace("\ufffe", "\ufffd").replace("\uffff", "\ufffd")
        text = text.replace('<!DOCTYPE document SYSTEM "CommonMark.dtd">', "")
        tags = {element.tag for element in ElementTree.fromstring(text).iter()}
        if not tags <= allowed:
            wrong.append(f"{path.name}: holds {tags - allowed}")

print("\n".join(wrong) or f"nothing wrong with {seen}")
sys.exit(1 if wrong or not seen["json"] or not seen["svg"] else 0)
