"""Jobs for measure.py and what came of them: verdicts, medians, exponents."""
import json
import math
import re
import statistics
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

CPU_SECONDS = 30  # of processor time, after which a run is ended
BYTES = 2 << 30  # of address space
SLUG = re.compile(r": error: .*\[([a-z-]+)\]$", re.MULTILINE)


@dataclass
class Result:
    name: str
    verdict: str  # `accepted`, slugs of errors with a space between, or what else happened
    seconds: float  # on the clock, median
    fastest: float
    cpu: float  # of processor time, median
    megabytes: float  # at most, of all runs


class Runner:
    def __init__(self, binary):
        self.binary = str(Path(binary).resolve())
        self.folder = tempfile.TemporaryDirectory(prefix="curbstop-bench-")
        self.jobs = []

    def file(self, name, text):
        path = Path(self.folder.name, name + ".curb")
        path.write_text(text, encoding="utf-8")
        return path

    def add(self, name, arguments, times):
        output = str(Path(self.folder.name, f"output_{len(self.jobs)}"))
        self.jobs.append((name, {"arguments": [self.binary, *map(str, arguments)], "times": times, "output": output}))

    def check(self, name, text, times):
        self.add(name, ["check", self.file(f"case_{len(self.jobs)}", text)], times)

    def run(self):
        """All that was added since, in turns. Results by name, in order."""
        asked = {"cpu_seconds": CPU_SECONDS, "bytes": BYTES, "jobs": [job for _, job in self.jobs]}
        script = Path(__file__).with_name("measure.py")
        ended = subprocess.run([sys.executable, "-E", "-S", "-B", str(script)], input=json.dumps(asked), text=True,
                               stdout=subprocess.PIPE, check=True)
        results = {name: _result(name, job, runs)
                   for (name, job), runs in zip(self.jobs, json.loads(ended.stdout))}
        self.jobs = []
        return results


def _result(name, job, runs):
    said = Path(job["output"]).read_text(encoding="utf-8", errors="replace")
    status = {run["status"] for run in runs}
    slugs = sorted(set(SLUG.findall(said)))
    if status == {0} and not slugs:
        verdict = "accepted" if ": warning: " not in said else "accepted with warnings"
    elif status == {1} and slugs:
        verdict = " ".join(slugs)
    else:
        verdict = f"status {'/'.join(map(str, sorted(status)))}: {said.strip()[:100]}"
    return Result(name, verdict, statistics.median(run["wall"] for run in runs), min(run["wall"] for run in runs),
                  statistics.median(run["cpu"] for run in runs), max(run["megabytes"] for run in runs))


def exponent(sizes, seconds):
    """The slope of the least-squares line through the logarithms: 1 is linear growth."""
    xs, ys = [math.log(size) for size in sizes], [math.log(time) for time in seconds]
    x, y = statistics.fmean(xs), statistics.fmean(ys)
    return sum((a - x) * (b - y) for a, b in zip(xs, ys)) / sum((a - x) ** 2 for a in xs)
