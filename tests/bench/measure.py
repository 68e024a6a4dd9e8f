"""Runs programs and says how long they took and how much memory they had at most. A process of its own, and a small
one: to the system, a child has had at least as much memory as the process that it was started from.

Reads jobs as JSON from standard input, writes what it found as JSON to standard output. Jobs take turns, so that what
else the machine does falls on all of them alike."""
import json
import os
import resource
import sys
import time


def _run(arguments, output):
    actions = [(os.POSIX_SPAWN_OPEN, 0, os.devnull, os.O_RDONLY, 0),
               (os.POSIX_SPAWN_OPEN, 1, output, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600),
               (os.POSIX_SPAWN_DUP2, 1, 2)]
    start = time.perf_counter()
    child = os.posix_spawn(arguments[0], arguments, {"LC_ALL": "C.UTF-8"}, file_actions=actions)
    _, status, usage = os.wait4(child, 0)
    wall = time.perf_counter() - start
    # Linux gives kilobytes, macOS bytes.
    megabytes = usage.ru_maxrss / (1024 if sys.platform != "darwin" else 1024 * 1024)
    return {"status": os.waitstatus_to_exitcode(status), "wall": wall, "cpu": usage.ru_utime + usage.ru_stime,
            "megabytes": megabytes}


def main():
    asked = json.load(sys.stdin)
    resource.setrlimit(resource.RLIMIT_CPU, (asked["cpu_seconds"], asked["cpu_seconds"] + 1))
    resource.setrlimit(resource.RLIMIT_AS, (asked["bytes"], asked["bytes"]))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    found = [[] for _ in asked["jobs"]]
    for turn in range(max(job["times"] for job in asked["jobs"])):
        for job, runs in zip(asked["jobs"], found):
            if turn < job["times"]:
                runs.append(_run(job["arguments"], job["output"]))
    json.dump(found, sys.stdout)


if __name__ == "__main__":
    main()
