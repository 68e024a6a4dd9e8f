"""The pictures of a sheet, read by other eyes: which valves each step turns is read off the JSON of the same procedure,
and must be in its picture, in letters and in its text alternative. Every svg element must be XML (expat), and every picture small.

usage: pictures.py CURBSTOP PROJECT SAMPLES
"""
import html
import json
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import sixty

curbstop, project, samples = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
wrong = []
seen = {"pictures": 0, "turned": 0, "neighbours": 0, "drawings": 0}

MOST_BYTES = 6000     # of a picture; 3 kB on average keeps a sheet of 500 steps below 2 MB
AVERAGE_BYTES = 3000


def elements(document, opening):
    """Every svg element that starts so, with the svg elements inside it."""
    for start in re.finditer(re.escape(opening), document):
        depth = 0
        for tag in re.finditer(r"<svg\b|</svg>", document[start.start():]):
            depth += 1 if tag.group() != "</svg>" else -1
            if depth == 0:
                yield document[start.start():start.start() + tag.end()]
                break


def moved_by(statements, system):
    """Variables that the statements of a step name, as the JSON tells them."""
    for statement in statements:
        kind = statement["kind"]
        if kind == "set":
            yield from (setting["variable"] for setting in statement["settings"])
        elif kind == "hold":
            yield statement["variable"]
        elif kind == "couple":
            yield from (statement["a"], statement["b"])
        elif kind in ("uncouple", "cap", "uncap", "dip", "lift_out"):
            yield statement["end"]
        elif kind in ("place", "take_away"):
            yield system["chambers"][statement["vessel"]]["whereabouts"]
        yield from moved_by(statement.get("body", []), system)


MOST_VALVES = 2 # turned in one step; of more there is no picture


def is_valve(variable, system):
    """A part that is put into positions and, by the ways that the JSON tells of, only lets through or lets out."""
    part = system["variables"][variable]["part"]
    if part is None or system["parts"][part]["variable"] != variable:
        return False
    ways = [way for way in system["ways"] if way["part"] == part]
    ports = {way[end] for way in ways for end in ("from", "to") if way["kind"] != "fall" or end == "from"}
    return 0 < len(ports) <= 3 and all(way["kind"] in ("two_way", "one_way", "fall") for way in ways)


def steps_of(items):
    for item in items:
        if item["kind"] == "step":
            yield item
        yield from steps_of(item.get("items", []))


def words(markup):
    return " ".join(html.unescape(text) for text in re.findall(r"<text[^>]*>([^<]*)</text>", markup))


def squeezed(text):
    return re.sub(r"[\s…]+", "", text)


def judge_sheet(name, page, data):
    system = data["system"]
    steps = [step for stage in data["procedure"]["stages"] for step in steps_of(stage["items"])]
    articles = dict(re.findall(r'<article class="step[^"]*" id="step-(\d+)">(.*?)</article>', page, re.S))
    sizes = []
    for number, step in enumerate(steps, 1):
        moved = dict.fromkeys(moved_by(step["statements"], system))
        valves = [variable for variable in moved if is_valve(variable, system)]
        pictures = list(elements(articles[str(number)], '<svg class="pic'))
        if len(pictures) != (1 if 1 <= len(valves) <= MOST_VALVES else 0):
            wrong.append(f"{name}, step {number}: {len(pictures)} pictures, {len(valves)} valves turned")
            continue
        if not pictures:
            continue
        picture = pictures[0]
        seen["pictures"] += 1
        sizes.append(len(picture.encode()))
        root = ElementTree.fromstring(picture)
        spoken = root.get("aria-label", "")
        if root.get("role") != "img" or not spoken:
            wrong.append(f"{name}, step {number}: no text alternative")
        shown = squeezed(words(picture))
        for variable in valves:
            seen["turned"] += 1
            thing = system["variables"][variable]
            part = system["parts"][thing["part"]]
            for label in (part["label"].split(":")[-1], *values_set(step["statements"], variable, system)):
                if label not in spoken or squeezed(label)[:14] not in shown:
                    wrong.append(f"{name}, step {number}: `{label}` is not in the picture: {spoken}")
            judge_ports(f"{name}, step {number}", thing["part"], system, spoken, shown)
        if re.findall(r'href="#', picture):
            wrong.append(f"{name}, step {number}: a picture that needs something outside of it")
    if sizes and (max(sizes) > MOST_BYTES or sum(sizes) / len(sizes) > AVERAGE_BYTES):
        wrong.append(f"{name}: a picture of {max(sizes)} bytes, {sum(sizes) / len(sizes):.0f} on average")


def judge_ports(where, part, system, spoken, shown):
    """A port with one pipe, straight to another part, is told by that part's name, if the ports have to be told apart at
    all; and no two of a picture by the same words."""
    ways = [way for way in system["ways"] if way["part"] == part]
    ports = {way[end] for way in ways for end in ("from", "to") if way["kind"] != "fall" or end == "from"}
    sided = len(ports) > 2 or len(ports) == 2 and any(way["kind"] != "two_way" for way in ways)
    straight = [system["nodes"][there]["part"]
                for port in ports
                for pipes in [[(run["from"], run["to"]) for run in system["runs"] if port in (run["from"], run["to"])]]
                for there in [*({*pipes[0]} - {port} if len(pipes) == 1 else ())]
                if system["nodes"][there]["part"] is not None]
    for other in straight if sided else ():
        seen["neighbours"] += 1
        label = system["parts"][other]["label"]
        if straight.count(other) == 1 and (label not in spoken or squeezed(label)[:14] not in shown):
            wrong.append(f"{where}: it is not told that a pipe leads to `{label}`: {spoken}")
    if len(system["parts"][part]["label"].split(". ")) == 1:
        told = re.findall(r" \d: (.*?)\.(?= |$)", spoken)
        if sided and len(told) < len(ports) or not sided and told and " 1 " not in spoken:
            wrong.append(f"{where}: {len(told)} of {len(ports)} ports are told: {spoken}")
        if any(re.search(r"\b\d+ more\b", each) for each in told):
            wrong.append(f"{where}: a port with a list: {spoken}")
    own = spoken.split(system["parts"][part]["label"] + ": ", 1)[-1]
    own = re.findall(r" (\d): (.*?)\.(?= |$)", own)[:len(ports)]
    if sided and len({words for _, words in own}) < len(own):
        wrong.append(f"{where}: two ports in the same words: {spoken}")


def values_set(statements, variable, system):
    """Labels of the values that a step sets a position to."""
    for statement in statements:
        settings = {"set": statement.get("settings", []), "hold": [statement]}.get(statement["kind"], [])
        for setting in settings:
            if setting["variable"] == variable and system["variables"][variable]["kind"] == "position":
                yield from (value["label"] for value in system["variables"][variable]["values"]
                            if value["name"] == setting["value"])
        yield from values_set(statement.get("body", []), variable, system)


def judge_drawings(name, page, data, most):
    """Every part that water passes is in a drawing, and every pipe; and none is too large to read."""
    drawings = list(elements(page, '<svg xmlns="http://www.w3.org/2000/svg"'))
    system = data["system"]
    ids = set(re.findall(r'data-at="([^"]+)"', page))
    wanted = {f"p{i}" for i, part in enumerate(system["parts"]) if part["nodes"]}
    wanted |= {f"r{i}" for i, run in enumerate(system["runs"])}
    # A switch or an element in the water has a card of its own only if water passes it.
    missing = {each for each in wanted if each not in ids}
    missing = {each for each in missing if each[0] == "r" and crosses(system, int(each[1:])) or each[0] == "p"}
    if missing:
        wrong.append(f"{name}: in no drawing: {sorted(missing)}")
    states = json.loads(re.search(r'id="drawing-states">(.*?)</script>', page, re.S).group(1))
    if len(states["steps"]) != len(data["steps"]) + 1:
        wrong.append(f"{name}: {len(states['steps'])} states")
    for step in states["steps"]:
        if set(step[0::3]) - ids - {f"r{i}" for i in range(len(system["runs"]))}:
            wrong.append(f"{name}: a state of what is in no drawing: {set(step[0::3]) - ids}")
    for drawing in drawings:
        seen["drawings"] += 1
        ElementTree.fromstring(drawing)
        width, height = map(float, re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', drawing).groups())
        # 12 px letters shrunk to the page (A4 less margins, 182 mm by 250 mm, at 96 px to the inch) keep 7 pt.
        shrink = min(1, 182 / 25.4 * 96 / width, 250 / 25.4 * 96 / height)
        if 12 * 0.75 * shrink < 7:
            wrong.append(f"{name}: letters of {12 * 0.75 * shrink:.1f} pt in a drawing of {width} by {height}")
    if len(drawings) < most:
        wrong.append(f"{name}: only {len(drawings)} drawings")


def crosses(system, run):
    a, b = (system["nodes"][system["runs"][run][end]] for end in ("from", "to"))
    return a["part"] != b["part"] or a["part"] is None


def sheet(file, name, form):
    done = subprocess.run([curbstop, "sheet", file, "--procedure", name, "--as", form, "-o", "-"], capture_output=True)
    if done.returncode:
        sys.exit(done.stderr.decode())
    return done.stdout.decode()


files = [(project / "examples" / path, 1) for path in
         ("first/larkfold.curb", "boat/gribble.curb", "heronmoor/heronmoor.curb")]
with tempfile.TemporaryDirectory() as folder:
    large = Path(folder) / "sixty.curb"
    large.write_text(sixty.system(), encoding="utf-8")
    for file, most in [*files, (large, 7)]:
        verdict = json.loads(subprocess.run([curbstop, "check", "--as", "json", str(file)], capture_output=True).stdout)
        for procedure in verdict["procedures"]:
            if not procedure["proved"]:
                wrong.append(f"{file.name}: {procedure['name']} is not proved")
                continue
            page = sheet(file, procedure["name"], "html")
            data = json.loads(sheet(file, procedure["name"], "json"))
            judge_sheet(f"{file.name} {procedure['name']}", page, data)
            judge_drawings(f"{file.name} {procedure['name']}", page, data, most)

# Hostile labels: well formed, and an alternative for each.
for path in sorted(samples.glob("*.html")):
    for picture in elements(path.read_text(encoding="utf-8"), '<svg class="pic'):
        root = ElementTree.fromstring(picture)
        if root.get("aria-hidden") != "true" and not root.get("aria-label"):
            wrong.append(f"{path.name}: a picture without a text alternative")

print("\n".join(wrong) or f"nothing wrong with {seen}")
sys.exit(1 if wrong or not all(seen.values()) else 0)
