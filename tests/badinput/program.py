"""Runs the program within limits and tells what came of it: status, words, time, memory."""
import os
import resource
import signal
import subprocess
import sys
import threading
from dataclasses import dataclass
from pathlib import Path

SECONDS = 1.0  # of processor time: what the program itself is to blame for, on a busy machine too
PATIENCE = 20.0  # seconds on the clock; whoever takes longer waits for something that never comes
MEMORY = 512 * 1024 * 1024  # bytes of address space


@dataclass
class Outcome:
    status: int  # negative: the signal that ended it
    out: str
    err: str
    seconds: float  # of processor time
    hung: bool

    @property
    def words(self):
        return self.out + self.err


class Program:
    """`limited` is off for a program built with the sanitizers: they reserve terabytes and take their time."""

    def __init__(self, path, limited=True):
        self.path = str(Path(path).resolve())
        self.limited = limited

    def _limits(self, file_size):
        def set_limits():
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
            if self.limited:
                resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
            if file_size is not None:
                resource.setrlimit(resource.RLIMIT_FSIZE, (file_size, file_size))

        return set_limits

    def may_be_run_by(self, user):
        try:
            return subprocess.run([self.path, "--version"], user=user, capture_output=True).returncode == 0
        except (PermissionError, FileNotFoundError):
            return False

    def run(self, *arguments, folder, stdin=None, stdout=None, file_size=None, before=(), user=None):
        """stdin: bytes or an open file; stdout: an open file, else it is caught. `before` is a command that the program
        is started through, `user` the number of a user to start it as."""
        source, given = subprocess.DEVNULL, None
        if isinstance(stdin, bytes):
            source, given = subprocess.PIPE, stdin
        elif stdin is not None:
            source = stdin
        child = subprocess.Popen([*before, self.path, *map(str, arguments)], cwd=folder, stdin=source,
                                 stdout=subprocess.PIPE if stdout is None else stdout, stderr=subprocess.PIPE,
                                 preexec_fn=self._limits(file_size), user=user, env={**os.environ, "LC_ALL": "C.UTF-8"})
        said = {}
        readers = [threading.Thread(target=lambda name, pipe: said.__setitem__(name, pipe.read()), args=(name, pipe))
                   for name, pipe in (("out", child.stdout), ("err", child.stderr)) if pipe]
        if given is not None:
            readers.append(threading.Thread(target=_feed, args=(child.stdin, given)))
        for reader in readers:
            reader.start()
        hung = threading.Event()
        timer = threading.Timer(PATIENCE, lambda: (hung.set(), child.kill()))
        timer.start()
        _, ended, usage = os.wait4(child.pid, 0)
        timer.cancel()
        child.returncode = os.waitstatus_to_exitcode(ended)
        for reader in readers:
            reader.join()
        for pipe in (child.stdout, child.stderr):
            if pipe:
                pipe.close()
        return Outcome(child.returncode, *(said.get(name, b"").decode("utf-8", "backslashreplace")
                                           for name in ("out", "err")), usage.ru_utime + usage.ru_stime, hung.is_set())

    def faults(self, outcome, statuses, words=()):
        """What is wrong with it, as a list; empty where all is well."""
        wrong = []
        if outcome.hung:
            wrong.append(f"did not end within {PATIENCE:g} s")
        elif outcome.status < 0:
            wrong.append(f"was ended by {signal.Signals(-outcome.status).name}")
        elif outcome.status not in statuses:
            wrong.append(f"ended with status {outcome.status}, not {' or '.join(map(str, statuses))}")
        if self.limited and outcome.seconds > SECONDS:
            wrong.append(f"took {outcome.seconds:.1f} s of processor time")
        for part in words:
            if part not in outcome.words:
                wrong.append(f"does not say {part!r} but {outcome.words[:400]!r}")
        for part in ("internal error", "out of memory", "terminate called", "Sanitizer", "Traceback"):
            if part in outcome.words:
                wrong.append(f"says {part!r}: {outcome.words[:400]!r}")
        return wrong


def _feed(pipe, data):
    try:
        pipe.write(data)
        pipe.close()
    except BrokenPipeError:
        pass  # it has read enough; whether that was right is judged by its status


def report(title, wrong, count):
    print("\n".join(wrong) or f"{title}: {count} cases")
    sys.exit(1 if wrong or not count else 0)
