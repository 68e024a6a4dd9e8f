"""Files that are no procedures, and places that cannot be read or written: the program says so and leaves all as it was.

usage: files.py CURBSTOP SOURCE_FOLDER [--unlimited]
"""
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from program import Program, report

SYSTEM = 'system shed "Shed" {\n  zone yard "Yard"\n}\n'
NOBODY = 65534  # by convention; root may read and write everything, so what is forbidden is tried as this user
CASES = []


def case(function):
    CASES.append(function)
    return function


class Place:
    """A fresh folder and the program, for one case."""

    def __init__(self, program, example, folder):
        self.program, self.example, self.folder = program, example, Path(folder)
        self.wrong = []

    def write(self, name, contents):
        data = contents if isinstance(contents, bytes) else contents.encode()
        (self.folder / name).write_bytes(data)
        return name

    def good(self, name="hut.curb"):
        return self.write(name, self.example)

    def expect(self, status, *words, arguments, **others):
        before = self.listing()
        outcome = self.program.run(*arguments, folder=self.folder, **others)
        self.wrong += self.program.faults(outcome, (status,), words)
        if status != 0 and self.listing() != before:
            self.wrong.append(f"left the folder changed: {sorted(set(before) ^ set(self.listing()))}")
        return outcome

    def as_somebody(self, attempt):
        """Calls it with a user whom permissions bind: none where we are such a one."""
        if os.geteuid() != 0:
            attempt(None)
            return
        os.chmod(self.folder, 0o777)
        if self.program.may_be_run_by(NOBODY):
            attempt(NOBODY)
        else:
            print(f"a case of permissions is skipped: user {NOBODY} may not run {self.program.path}")

    def check(self, status, *words, file, **others):
        return self.expect(status, *words, arguments=("check", file), **others)

    def listing(self):
        return {(p.relative_to(self.folder), p.read_bytes() if p.is_file() and p.stat().st_size < 1 << 20 else None)
                for p in self.folder.rglob("*")}


# ---- files that hold something else

@case
def empty_file(p):
    p.check(1, "declare no system", "[no-system]", file=p.write("a.curb", ""))


@case
def only_a_comment(p):
    p.check(1, "[no-system]", file=p.write("a.curb", "# nothing yet"))


@case
def binary_file(p):
    p.check(2, "is not a text: control character 0x00 at byte 4", "[unreadable-file]",
            file=p.write("a.curb", b"EELF" + bytes(range(256))))


@case
def terminal_codes(p):
    outcome = p.check(2, "control character 0x1B at byte 8", file=p.write("a.curb", 'system a\x1b[31m "A" { }'))
    if "\x1b" in outcome.words:
        p.wrong.append("passes the terminal code on")


@case
def hundred_megabytes(p):
    p.write("a.curb", "")
    os.truncate(p.folder / "a.curb", 100 * 1000 * 1000)
    p.check(2, "is larger than 16 MiB", file="a.curb")


@case
def just_below_the_limit(p):
    p.check(1, "[no-system]", file=p.write("a.curb", b"#" + b" " * (16 * 1024 * 1024 - 2) + b"\n"))


@case
def invalid_utf8(p):
    p.check(2, "is not UTF-8: byte 0xFF at byte 10", file=p.write("a.curb", b'system a "\xff" { }'))


@case
def cut_utf8(p):
    p.check(2, "is not UTF-8: byte 0xC3 at byte 5", file=p.write("a.curb", b"# sch\xc3"))


@case
def utf16(p):
    p.check(2, "is not a text", "[unreadable-file]", file=p.write("a.curb", SYSTEM.encode("utf-16")))


@case
def byte_order_mark_and_line_ends_of_others(p):
    p.check(0, "no procedure to prove", file=p.write("a.curb", b"\xef\xbb\xbf" + SYSTEM.replace("\n", "\r\n").encode()))


@case
def html_page(p):
    p.check(1, "a.curb:1:1: error:", file=p.write("a.curb", "<!DOCTYPE html><html><body>Not found</body></html>\n"))


@case
def a_million_errors(p):
    outcome = p.check(1, "more errors are not shown", file=p.write("a.curb", "group a\n" * 1_000_000))
    if len(outcome.words) > 200_000:
        p.wrong.append(f"says too much: {len(outcome.words)} bytes")


# ---- places that cannot be read

@case
def missing_file(p):
    p.check(2, "nowhere.curb cannot be read: No such file or directory", file="nowhere.curb")


@case
def folder_for_a_file(p):
    (p.folder / "a.curb").mkdir()
    p.check(2, "a.curb is a directory, not a file", file="a.curb")


@case
def forbidden_file(p):
    os.chmod(p.folder / p.good(), 0)
    p.as_somebody(lambda user: p.check(2, "cannot be read: Permission denied", file="hut.curb", user=user))


@case
def endless_file(p):
    p.check(2, "is a pipe or a device", file="/dev/zero")


@case
def endless_standard_input(p):
    with open("/dev/zero", "rb") as zeros:
        p.check(2, "is larger than 16 MiB", file="-", stdin=zeros)


@case
def pipe_that_nobody_writes_to(p):
    os.mkfifo(p.folder / "a.curb")
    p.check(2, "is a pipe or a device", file="a.curb")


@case
def link_to_itself(p):
    os.symlink("a.curb", p.folder / "a.curb")
    p.check(2, "Too many levels of symbolic links", file="a.curb")


@case
def standard_input(p):
    p.check(0, "-: close_up: proved", file="-", stdin=p.example)


@case
def standard_input_that_is_closed(p):
    p.expect(2, "cannot be read", arguments=(), before=("sh", "-c", '"$0" check - <&-'))


@case
def very_long_path(p):
    p.check(2, "File name too long", file="a" * 5000)


# ---- modules

@case
def missing_module(p):
    p.check(1, "there is no module `nowhere`", "[missing-module]", file=p.write("a.curb", "use nowhere\n" + SYSTEM))


@case
def module_that_uses_itself(p):
    p.check(1, "module `a` uses itself", "[module-circle]", file=p.write("a.curb", "use a\n" + SYSTEM))


@case
def modules_in_a_circle(p):
    p.write("b.curb", "use c\n")
    p.write("c.curb", "use a\n")
    p.check(1, "in a circle", "[module-circle]", file=p.write("a.curb", "use b\n" + SYSTEM))


@case
def folder_for_a_module(p):
    (p.folder / "b.curb").mkdir()
    p.check(2, "b.curb", "is a directory", file=p.write("a.curb", "use b\n" + SYSTEM))


@case
def binary_module(p):
    p.write("b.curb", b"\x00")
    p.check(2, "b.curb", "is not a text", "a.curb:1:5", file=p.write("a.curb", "use b\n" + SYSTEM))


@case
def module_that_leads_elsewhere(p):
    os.symlink("/etc/hostname", p.folder / "b.curb")
    p.check(2, "leads out of its folder", file=p.write("a.curb", "use b\n" + SYSTEM))


@case
def path_for_a_module(p):
    p.check(1, "a.curb:1:", file=p.write("a.curb", "use ../b\n" + SYSTEM))


@case
def pipe_for_a_module(p):
    os.mkfifo(p.folder / "b.curb")
    p.check(2, "is a pipe or a device", file=p.write("a.curb", "use b\n" + SYSTEM))


@case
def stdlib_that_is_no_folder(p):
    p.expect(2, "--stdlib nowhere is not a folder", arguments=("check", "--stdlib", "nowhere", p.good()))


# ---- arguments

@case
def no_arguments(p):
    p.expect(2, "subcommand is required", arguments=())


@case
def unknown_option(p):
    p.expect(2, "--fast", arguments=("check", "--fast", p.good()))


@case
def unknown_subcommand(p):
    p.expect(2, "prove", arguments=("prove", p.good()))


@case
def unknown_form(p):
    p.expect(2, "--as", "pdf", arguments=("sheet", "--as", "pdf", p.good()))


@case
def no_file(p):
    p.expect(2, "required", arguments=("check",))


@case
def two_files_for_a_sheet(p):
    p.expect(2, "other.curb", arguments=("sheet", p.good(), p.good("other.curb")))


@case
def two_files_of_which_one_is_bad(p):
    p.expect(2, "hut.curb: close_up: proved", "nowhere.curb cannot be read",
             arguments=("check", p.good(), "nowhere.curb"))


@case
def two_files_of_which_one_is_refused(p):
    p.expect(1, "hut.curb: close_up: proved", "[no-system]", arguments=("check", p.good(), p.write("a.curb", "")))


@case
def unknown_procedure(p):
    p.expect(2, "has no procedure close_upp", "close_up", arguments=("sheet", p.good(), "--procedure", "close_upp"))


@case
def several_procedures_for_one_sheet(p):
    p.expect(2, "has several procedures", "close_up, open_up", arguments=("sheet", p.good(), "-o", "a.html"))


@case
def step_beyond_the_last(p):
    p.expect(2, "999", arguments=("trace", p.good(), "--procedure", "close_up", "--after", "999"))


@case
def step_before_the_first(p):
    p.expect(2, "-1", arguments=("trace", p.good(), "--procedure", "close_up", "--after", "-1"))


@case
def step_that_is_no_number(p):
    p.expect(2, "--after", arguments=("trace", p.good(), "--procedure", "close_up", "--after", "three"))


@case
def step_of_many_digits(p):
    p.expect(2, "--after", arguments=("trace", p.good(), "--procedure", "close_up", "--after", "9" * 400))


@case
def argument_with_terminal_codes(p):
    outcome = p.expect(2, arguments=("check", "\x1b[31mred.curb"))
    if "\x1b" in outcome.words:
        p.wrong.append("passes the terminal code on")


# ---- places that cannot be written

SHEET = ("sheet", "hut.curb", "--procedure", "close_up", "--as", "markdown", "-o")


@case
def full_device(p):
    p.good()
    p.expect(2, "No space left on device", arguments=(*SHEET, "/dev/full"))


@case
def full_standard_output(p):
    p.good()
    for arguments in (("check", "hut.curb"), (*SHEET, "-"), ("--help",), ("trace", "hut.curb", "--procedure", "close_up",
                                                                          "--after", "1")):
        with open("/dev/full", "wb") as full:
            p.expect(2, "standard output: cannot be written: No space left on device", arguments=arguments, stdout=full)


@case
def standard_output_that_is_closed(p):
    p.good()
    p.expect(2, "cannot be written", arguments=(), before=("sh", "-c", '"$0" check hut.curb >&-'))


@case
def reader_that_goes_away(p):
    p.good()
    outcome = p.program.run(*SHEET, "-", folder=p.folder, before=("sh", "-c", '{ "$0" "$@"; echo $? >status; } | :'))
    p.wrong += p.program.faults(outcome, (0,))
    status = (p.folder / "status").read_text().strip()
    if status not in ("0", "2"):
        p.wrong.append(f"ended with {status}")


@case
def missing_folder(p):
    p.good()
    p.expect(2, "nowhere/a.md: cannot be written: No such file or directory", arguments=(*SHEET, "nowhere/a.md"))


@case
def folder_for_output(p):
    p.good()
    (p.folder / "a.md").mkdir()
    p.expect(2, "a.md: is a directory, not a file", arguments=(*SHEET, "a.md"))


@case
def forbidden_output(p):
    p.good()
    os.chmod(p.folder / p.write("a.md", "as it was"), 0o444)
    p.as_somebody(lambda user: p.expect(2, "Permission denied", arguments=(*SHEET, "a.md"), user=user))


@case
def forbidden_folder(p):
    p.good()
    (p.folder / "shelf").mkdir(mode=0o555)
    p.as_somebody(lambda user: p.expect(2, "Permission denied", arguments=(*SHEET, "shelf/a.md"), user=user))


@case
def output_that_grows_too_large(p):
    p.good()
    p.write("a.md", "as it was")
    p.expect(2, "File too large", arguments=(*SHEET, "a.md"), file_size=1000)


@case
def new_output_that_grows_too_large(p):
    p.good()
    p.expect(2, "File too large", arguments=(*SHEET, "a.md"), file_size=1000)


@case
def full_disk(p):
    # A file system of one page or so, in a mount namespace of its own; needs root and a kernel that permits it.
    small = p.folder / "small"
    small.mkdir()
    mount = f'mount -t tmpfs -o size=4k none "{small}" && printf "as it was" >"{small}/a.md" && '
    if subprocess.run(["unshare", "--mount", "sh", "-c", mount + "true"], capture_output=True).returncode != 0:
        print("full_disk: skipped: no file system can be mounted here")
        return
    p.good()
    command = mount + f'"$0" "$@" ; echo $? >status; cat "{small}"/* >left; ls "{small}" >>left'
    outcome = p.program.run(*SHEET, small / "a.md", folder=p.folder, before=("unshare", "--mount", "sh", "-c", command))
    p.wrong += p.program.faults(outcome, (0,), ("No space left on device",))
    if (p.folder / "status").read_text() != "2\n" or (p.folder / "left").read_text() != "as it wasa.md\n":
        p.wrong.append(f"status {(p.folder / 'status').read_text()}, left {(p.folder / 'left').read_text()[:200]}")


@case
def refused_procedure(p):
    p.write("hut.curb", p.example.replace(b"set pit_lid to open", b"note \"Mind your head.\""))
    p.write("a.md", "as it was")
    p.expect(1, "no sheet is written: close_up is refused", "[out-of-reach]", arguments=(*SHEET, "a.md"))


# Cases that the program still fails, and what is wrong; a case that passes must be taken out.
KNOWN = {}


def main(curbstop, source, *options):
    program = Program(curbstop, limited="--unlimited" not in options)
    example = (Path(source) / "examples" / "first" / "larkfold.curb").read_bytes()
    wrong = []
    for function in CASES:
        folder = tempfile.mkdtemp()
        try:
            place = Place(program, example, folder)
            function(place)
        finally:
            shutil.rmtree(folder)
        name = function.__name__
        if name not in KNOWN:
            wrong += [f"{name}: {fault}" for fault in place.wrong]
        elif not place.wrong:
            wrong.append(f"{name}: passes: take it out of KNOWN")
    report("files", wrong, len(CASES))


main(*sys.argv[1:])
