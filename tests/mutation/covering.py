"""Which tests run a line of the program: the map that :mod:`mutation.recording` made, and how it is stored.

Stored by function, and within it by stretches of lines counted from its first: a function that changed keeps its
tests, one that is new has none until the map is made again. Stored outputs (FORMULAS.md, stored sheets, packages,
what a browser shows) are no tests here, so their folders are not recorded at all.
"""

from __future__ import annotations

import ast
import json
import lzma
from collections import Counter, defaultdict
from functools import cache
from pathlib import Path
from typing import Any

import coverage

from mutation.operators import FORMULAS, GLUING, LIBRARY, Mutant, modules

MAP = Path(__file__).with_name("covers.json.xz")
RECORDED = (
    *("timber", "fasteners", "tree", "ground", "mechanics", "bracing", "platform", "outside", "audit"),
    *("setting_out", "take_off"),
)
# They print sheets, run the whole program in other processes, or look only for a traceback.
LEFT_OUT = (
    "setting_out/test_setting_out_sheets.py",
    "take_off/test_take_off_sheets.py",
    "platform/test_fuzz.py",
    "platform/test_same_in_every_run.py",
)
# They hold the program to itself (print to number, array to scalar): run after those that hold it to something outside.
ITSELF = (
    "tests/test_registry.py",
    "tests/test_selectors_take_quantities.py",
    "tests/test_quantities_as_written.py",
)
# The audit compares every check of a project with a second calculation: it covers whatever makes a check.
AUDIT = (
    *(
        f"tests/audit/test_audit.py::test_demand_and_capacity[calcsheets/{name}]"
        for name in ("lookout", "round_the_trunk", "two_trees", "hickory_perch")
    ),
    "tests/platform/test_wet_hangers.py::test_a_rating_for_dry_wood_counts_seven_tenths_in_the_weather",
)
# What holds the values of keys that a file leaves out: models have no functions that a test runs.
LEFT_TO_US = ("tests/platform/test_values_left_out.py::test_a_value_left_out_is_the_published_one",)
KEPT = 40  # tests of a stretch: the quickest, but no more than a few of one file


def functions(path: Path) -> dict[str, tuple[int, int]]:
    """First and last line of every function of a file, by its dotted name."""
    found: dict[str, tuple[int, int]] = {}

    def walk(node: ast.AST, name: str) -> None:
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.FunctionDef | ast.ClassDef):
                inner = f"{name}.{child.name}" if name else child.name
                if isinstance(child, ast.FunctionDef):
                    found[inner] = (child.lineno, child.end_lineno or child.lineno)
                walk(child, inner)

    walk(ast.parse(path.read_text(encoding="utf-8")), "")
    return found


def _tests_of(context: str, uses: dict[str, list[str]], known: dict[str, frozenset[str]]) -> frozenset[str]:
    """Contexts that a test used, itself among them."""
    if context not in known:
        known[context] = frozenset({context})
        known[context] = frozenset({context}).union(
            *(_tests_of(used, uses, known) for used in uses.get(context, ()))
        )
    return known[context]


def store(recordings: list[tuple[Path, Path]], keep: bool = False) -> None:
    """Write the map from pairs of coverage's data and the uses beside it.

    With ``keep`` functions that the map knows keep what it says of them: it learns the new ones alone.
    """
    old = _map() if keep else {"tests": [], "seconds": [], "sets": [], "lines": {}}
    lines: dict[str, dict[int, set[str]]] = defaultdict(lambda: defaultdict(set))
    seconds: dict[str, float] = dict(zip(old["tests"], old["seconds"], strict=True))
    for data_file, uses_file in recordings:
        noted = json.loads(uses_file.read_text())
        seconds |= noted["seconds"]
        known: dict[str, frozenset[str]] = {}
        users: dict[str, set[str]] = defaultdict(set)
        for test in noted["seconds"]:
            for context in _tests_of(test, noted["uses"], known):
                users[context].add(test)
        data = coverage.CoverageData(str(data_file))
        data.read()
        for file in data.measured_files():
            below = file.rpartition("lib/bolewright/")[2]
            if below.split("/")[0] not in (*FORMULAS, *GLUING):
                continue
            for line, contexts in data.contexts_by_lineno(file).items():
                for context in contexts:
                    lines[below][line] |= users[context]
    breadth: Counter[str] = Counter()
    for of_file in lines.values():
        for users_of_line in of_file.values():
            breadth.update(users_of_line)
    # The quickest first, and of equally quick ones those that run little else: they are about these lines.
    tests = sorted(
        seconds,
        key=lambda test: (int(4 * seconds[test]), test.startswith(ITSELF), breadth[test], test),
    )
    number = {test: i for i, test in enumerate(tests)}
    stored: dict[str, dict[str, list[Any]]] = {}
    for room in (*FORMULAS, *GLUING):
        for path in modules(room):
            below = path.relative_to(LIBRARY).as_posix()
            before = old["lines"].get(below, {})
            stretches = {
                name: _stretches(lines[below], first, last, number)
                if name not in before
                else [
                    [low, high, [number[old["tests"][i]] for i in old["sets"][k]]]
                    for low, high, k in before[name]
                ]
                for name, (first, last) in functions(path).items()
            }
            stored[below] = {name: found for name, found in stretches.items() if found}
    sets = sorted({tuple(kept) for of in stored.values() for found in of.values() for *_, kept in found})
    which = {kept: i for i, kept in enumerate(sets)}
    for of in stored.values():
        for found in of.values():
            found[:] = [[low, high, which[tuple(kept)]] for low, high, kept in found]
    times = [round(seconds[test], 2) for test in tests]
    told = json.dumps(
        {"tests": tests, "seconds": times, "sets": sets, "lines": stored}, separators=(",", ":")
    )
    MAP.write_bytes(lzma.compress(told.encode(), preset=9))


def _stretches(lines: dict[int, set[str]], first: int, last: int, number: dict[str, int]) -> list[list[Any]]:
    found: list[list[Any]] = []
    for line in range(first + 1, last + 1):
        if line not in lines:
            continue
        kept = _kept(lines[line], number)
        if not kept:
            continue
        if found and found[-1][2] == kept:
            found[-1][1] = line - first
        else:
            found.append([line - first, line - first, kept])
    return found


def _kept(tests: set[str], number: dict[str, int]) -> list[int]:
    of_file: dict[str, int] = defaultdict(int)
    kept: list[int] = []
    for test in sorted(tests, key=number.__getitem__):
        file = test.split("::")[0]
        if of_file[file] < KEPT // 5 and len(kept) < KEPT:
            of_file[file] += 1
            kept.append(number[test])
    return kept


@cache
def _map() -> Any:
    return json.loads(lzma.decompress(MAP.read_bytes()))


def covering(mutant: Mutant) -> list[tuple[str, float]]:
    """Tests that run the mutant's lines, with their seconds, the quickest first.

    A constant of a module has no line that a test runs: it is covered by what covers the functions which name it.
    """
    stored = _map()
    of_file = stored["lines"].get(mutant.path, {})
    spans = functions(LIBRARY / mutant.path)
    found: set[int] = set()
    name = mutant.function
    while name and name not in spans:
        name = name.rpartition(".")[0]
    if name:
        first = spans[name][0]
        for low, high, tests in of_file.get(name, []):
            if low + first <= mutant.last and high + first >= mutant.first:
                found.update(stored["sets"][tests])
        if not found:  # the statement may have moved within its function
            found.update(test for *_, tests in of_file.get(name, []) for test in stored["sets"][tests])
    else:
        for low, high in [spans[other] for other in of_file if other in spans]:
            text = "\n".join((LIBRARY / mutant.path).read_text(encoding="utf-8").splitlines()[low - 1 : high])
            named = _assigned_at(mutant)
            for other, (start, _) in spans.items():
                if start == low and (not named or any(word in text for word in named)):
                    found.update(
                        test for *_, tests in of_file.get(other, []) for test in stored["sets"][tests]
                    )
    if not found and mutant.path.startswith("platform/project/"):
        return [(test, 0.1) for test in LEFT_TO_US]
    return [(stored["tests"][i], stored["seconds"][i]) for i in sorted(found)]


def is_mapped(mutant: Mutant) -> bool:
    """Whether the map knows the mutant's function, or its file where it lies in none: newer ones have no tests."""
    of_file = _map()["lines"].get(mutant.path, {})
    if mutant.path.startswith("platform/project/") and not of_file:
        return False
    return bool(of_file) and (
        not mutant.function or any(mutant.function.startswith(name) for name in of_file)
    )


def _assigned_at(mutant: Mutant) -> list[str]:
    tree = ast.parse((LIBRARY / mutant.path).read_text(encoding="utf-8"))
    names = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.lineno <= mutant.first <= (
            node.end_lineno or 0
        ):
            for target in node.targets if isinstance(node, ast.Assign) else [node.target]:
                names += [name.id for name in ast.walk(target) if isinstance(name, ast.Name)]
    return names


def unknown() -> list[str]:
    """Functions of the rooms that the map does not know: it is stale by these."""
    stored = _map()["lines"]
    return [
        f"{path.relative_to(LIBRARY).as_posix()}::{name}"
        for room in (*FORMULAS, *GLUING)
        for path in modules(room)
        for name in functions(path)
        if name not in stored.get(path.relative_to(LIBRARY).as_posix(), {})
    ]
