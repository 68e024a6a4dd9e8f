"""Texts that a person does not write: very deep, very long, very many. The program refuses them or takes them, in time.

usage: deep.py CURBSTOP SOURCE_FOLDER [--unlimited]
"""
import sys
import tempfile
from pathlib import Path

from program import Program, report

DEEP = 10_000

HEAD = 'use water\nsystem shed "Shed" {\n  zone yard "Yard"\n  part garden_tap : tap "Garden tap" at yard\n'
SYSTEM = HEAD + "}\n"


def step(statements):
    return (f'{SYSTEM}procedure look "Look" on shed {{\n  requires garden_tap is shut\n'
            f'  stage "All" {{ step "Look" {{ {statements} }} }}\n}}\n')


def verify(claim):
    return step(f"verify {claim}")


def system(items):
    return f"{HEAD}{items}\n}}\n"


def star(count):
    """A stop valve that feeds so many taps, of which nothing is known."""
    taps = "".join(f'  part t{i} : tap "T" at yard\n  run hub - t{i} : copper_15 1 m\n' for i in range(count))
    return (f'{HEAD}  tee hub\n  part stop : mains_stop "Stop" at yard\n  run stop - hub : copper_15 1 m\n{taps}}}\n'
            'procedure go "Go" on shed { requires stop is shut  stage "S" { step "T" { set stop to open } } }\n')


def chain(count):
    """A stop valve, then so many valves in a row, of which nothing is known, then an open tap."""
    valves = "".join(f'  part v{i} : shut_off "V" at yard\n' for i in range(count))
    runs = "".join(f"  run v{i}.outlet - v{i + 1}.inlet : copper_15 1 m\n" for i in range(count - 1))
    return (f'{HEAD}  part stop : mains_stop "Stop" at yard\n{valves}{runs}  run stop - v0.inlet : copper_15 1 m\n'
            f'  run v{count - 1}.outlet - garden_tap : copper_15 1 m\n}}\n'
            'procedure go "Go" on shed { requires stop is shut and garden_tap is open\n'
            '  stage "S" { step "T" { set stop to open } }\n}\n')


def fragments(depth, last):
    """Each uses the one before it ten times."""
    pieces = [f"fragment f0() {{ {last} }}\n"]
    pieces += [f"fragment f{i}() {{ " + f"do f{i - 1}() " * 10 + "}\n" for i in range(1, depth + 1)]
    return "".join(pieces) + step(f"do f{depth}()")


SHUT = "garden_tap is shut"
STOPPED = "in each other"  # as the message about too deep a text has it

# Name: (text, statuses that are right, words that must be said)
CASES = {
    # braces and parentheses
    "opening_braces": ("{" * DEEP, (1,), ["error:"]),
    "closing_braces": ("}" * DEEP, (1,), ["closes nothing"]),
    "opening_parentheses": (verify("(" * DEEP), (1,), ["error:"]),
    "closing_parentheses": (verify(SHUT + ")" * DEEP), (1,), ["error:"]),
    "unbalanced": ('system shed "Shed" {\n  zone yard "Yard" {\n', (1,), ["error:"]),
    "brace_too_many": (SYSTEM + "}\n", (1,), ["closes nothing", "[stray-brace]"]),
    "brace_too_few": (HEAD, (1,), ["this block is never closed", "[unclosed-block]"]),
    "parentheses": (verify("(" * DEEP + SHUT + ")" * DEEP), (1,), [STOPPED]),
    "kinds_in_braces": ("kind a {" * DEEP + "}" * DEEP, (1,), ["error:"]),
    "holds": (step("hold garden_tap at open { " * DEEP + "}" * DEEP), (1,), [STOPPED]),
    "cases": (step('in case "it rains" { ' * DEEP + "}" * DEEP), (1,), [STOPPED]),
    "loops": (step("for each x in taps { " * DEEP + "}" * DEEP), (1,), [STOPPED]),
    "strings": ('"' * DEEP, (1,), ["error:"]),
    "odd_string": ('group g "' + '\\"' * DEEP, (1,), ["[unclosed-string]"]),
    # chains
    "not": (verify("not " * DEEP + f"({SHUT})"), (0, 1), []),
    "implies": (verify(" implies ".join([SHUT] * DEEP)), (0, 1), []),
    "and": (verify(" and ".join([SHUT] * DEEP)), (0,), ["proved"]),
    "or": (verify(" or ".join([SHUT] * DEEP)), (0,), ["proved"]),
    "dots": (verify("garden_tap" + ".water" * DEEP + " is shut"), (1,), ["error:"]),
    "commas": (verify(", ".join(["garden_tap"] * DEEP) + " are shut"), (0,), ["proved"]),
    "kinds_in_kinds": ("".join(f'kind k{i} {{ port p  part inner : k{i + 1} "I" }}\n' for i in range(DEEP)) +
                       f'kind k{DEEP} {{ port p }}\n' + system('part deep : k0 "Deep" at yard'), (0, 1), []),
    "fragments_in_fragments": ("".join(f"fragment f{i}() {{ do f{i + 1}() }}\n" for i in range(DEEP)) +
                               f"fragment f{DEEP}() {{ verify {SHUT} }}\n" + step("do f0()"), (0, 1), []),
    "lineups_like_lineups": (SYSTEM + 'lineup l0 "L" on shed { garden_tap shut }\n' +
                             "".join(f'lineup l{i} "L" on shed like l{i - 1} {{ }}\n' for i in range(1, DEEP)), (0,), []),
    "covers_behind_covers": (system('cover c0 "C" at yard\n' + "".join(
        f'cover c{i} "C" at yard behind c{i - 1}\n' for i in range(1, DEEP))), (0, 1), []),
    "covers_behind_each_other": (system('cover a "A" at yard behind b\ncover b "B" at yard behind a'), (0, 1), []),
    "part_over_itself": (system('part drain : drain_cock "D" at yard over drain'), (0, 1), []),
    "starts_as_it_ends": (SYSTEM + 'procedure a "A" on shed { requires as a leaves it  stage "S" { step "T" } }\n', (1,),
                          ["error:"]),
    "start_as_each_other_ends": (SYSTEM + "".join(
        f'procedure {x} "P" on shed {{ requires as {y} leaves it  stage "S" {{ step "T" }} }}\n'
        for x, y in ("ab", "ba")), (1,), ["error:"]),
    # numbers
    "long_number": (system(f'vessel jug "Jug" {"9" * 400} L accepts drinking_water'), (1,),
                    ["too many digits", "at most 18 digits", "[number-too-long]"]),
    "long_decimal": (system(f'vessel jug "Jug" 0.{"3" * 400} L accepts drinking_water'), (1,), ["[number-too-long]"]),
    "greatest_number": (system('part butt : vented_tank "Butt" at yard { size 999999999999999999 gal }'), (0, 1), []),
    "million_turns": (step("repeat at most 1000000 times { verify garden_tap is shut }"), (1,),
                      ["a whole number from 1 to 1000"]),
    "most_turns": (step("repeat at most 1000 times { " * 10 + f"verify {SHUT}" + "}" * 10), (0, 1), []),
    # short, but long once it is written out
    "rounds_in_rounds": (step("repeat at most 4 times { " * 24 + "set garden_tap to open  set garden_tap to shut " +
                              "}" * 24), (1,), ["all rounds of its repeats", "[too-many-steps]"]),
    "fragments_of_fragments": (fragments(9, "verify garden_tap is shut"), (1,), ["written out", "[too-many-steps]"]),
    "fragments_of_nothing": (fragments(12, ""), (1,), ["written out", "[too-many-steps]"]),
    "turns_in_turns": ('group plugs "Plugs"\nkind peg "Peg" in plugs { port p  position fitted { }  position removed { } }\n' + system(
        "".join(f'part p{i} : peg "P" at yard\n' for i in range(100))) + 'procedure look "Look" on shed {\n' +
        'stage "All" { step "Look" { ' + "".join(f"for each x{i} in plugs {{ " for i in range(4)) +
        "set x3 to removed " + "}" * 4 + " } }\n}\n", (1,), ["written out", "[too-many-steps]"]),
    # long and many
    "long_label": (SYSTEM.replace("Garden tap", "t" * 1_000_000), (0,), []),
    "long_name": (f'group {"a" * 1_000_000} "A"\n' + SYSTEM, (0,), []),
    "long_line": (SYSTEM.replace("\n", " ") + " " * 1_000_000 + "?", (1,), ["1 | "]),
    "many_blank_lines": (SYSTEM + "\n" * 1_000_000 + "?", (1,), ["a.curb:1000006:1"]),
    "many_comments": ("## doc\n" * 100_000 + SYSTEM, (0,), []),
    "many_groups": ("".join(f'group g{i} "G"\n' for i in range(20_000)) + SYSTEM, (0,), []),
    "many_parts": (system("".join(f'part p{i} : drain_plug "P" at yard\n' for i in range(2000))), (0,), []),
    "many_outlets": (star(300), (1,), ["[needs-verify]"]),
    "many_valves": (chain(300), (1,), ["[needs-verify]"]),
    "many_steps": (SYSTEM + f'procedure look "Look" on shed {{ requires {SHUT} stage "All" {{\n' +
                   f'step "Look" {{ set garden_tap to open  set garden_tap to shut }}\n' * 10_000 + "} }\n", (0,),
                   ["10000 steps"]),
    "many_cases": (step('in case "it rains" { note "Take a hat." }' * 200), (0, 1), []),
}

# What the program still fails, and what is wrong; a case that passes must be taken out.
KNOWN = {}


def main(curbstop, source, *options):
    del source
    program = Program(curbstop, limited="--unlimited" not in options)
    wrong = []
    with tempfile.TemporaryDirectory() as folder:
        for name, (text, statuses, words) in CASES.items():
            (Path(folder) / "a.curb").write_text(text)
            outcome = program.run("check", "a.curb", folder=folder)
            faults = program.faults(outcome, statuses, words)
            if name not in KNOWN:
                wrong += [f"{name}: {fault}" for fault in faults]
            elif not faults:
                wrong.append(f"{name}: passes: take it out of KNOWN")
    report("deep", wrong, len(CASES))


main(*sys.argv[1:])
