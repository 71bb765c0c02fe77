"""The formula index: one page that lists every formula with its clause and the checks, sheets and commands that run it.

``python -m bolewright.rendering.index --write`` writes the page. ``--tests`` prints the tests that hold each formula:
those that assert a number and name, in their own code, their table of cases or a helper of their file, the formula or
the engineering function that runs it, such as the yield modes through ``single_shear``. What runs a whole project holds
no formula, and neither does a test in the browser. The page names no test, so that adding one does not change it.
"""

from __future__ import annotations

import argparse
import ast
import importlib
import pkgutil
import sys
from collections.abc import Iterator
from pathlib import Path

import bolewright
from bolewright.formulas import REGISTRY, Formula
from bolewright.rendering.reach import Reach

PAGE = Path(bolewright.__file__).parent / "FORMULAS.md"
TESTS = Path(bolewright.__file__).parents[2] / "tests"
_LEVELS = 3  # of functions between a formula and a test
_MOST = 4  # checks named one by one
ENGINEERING = ("timber", "fasteners", "tree", "ground", "bracing", "mechanics")

_HEAD = """\
# Formulas

Every formula of the package, the clause it prints under, and the checks, sheets and commands that run it. Each of them
is linted, printed, read back from its print, and run on arrays and on metric quantities by `tests/test_registry.py`.
"Hidden units" marks an equation whose constants only hold in the units it is written in. The tests that assert a
formula's value are printed by `python -m bolewright.rendering.index --tests`. Made by
`python -m bolewright.rendering.index --write`; do not edit.
"""


def load_all() -> list[Formula]:
    """Every formula of the package, its modules imported."""
    for module in pkgutil.walk_packages(bolewright.__path__, "bolewright."):
        importlib.import_module(module.name)
    ours = (record for record in REGISTRY.values() if record.module.startswith("bolewright."))
    return sorted(ours, key=lambda record: (record.module, record.name))


def page(formulas: list[Formula]) -> str:
    """The index page as Markdown."""
    reach = Reach()
    lines = [_HEAD]
    module = ""
    bare = []
    for record in formulas:
        if record.module != module:
            module = record.module
            lines += ["", f"## {module.removeprefix('bolewright.')}", "", *_COLUMNS]
        doors = reach.doors(record.module, record.name)
        lines.append(_row(record, doors))
        bare += [] if doors else [record.name]
    lines += ["", "## Run by no check, sheet or command", ""]
    lines.append(", ".join(f"`{name}`" for name in bare) + "." if bare else "None.")
    return "\n".join(lines) + "\n"


def held_page(formulas: list[Formula], tests: Path = TESTS) -> str:
    """The tests that hold each formula, a line each; those that none holds last."""
    names = {record.name for record in formulas}
    held = holding_tests(names, tests)
    held |= held_through(names - set(held), engineering_functions(), tests)
    lines = [f"{name}: {'; '.join(held[name])}" for name in sorted(held)]
    bare = sorted(names - set(held))
    return "\n".join([*lines, "", "held by no test: " + (", ".join(bare) or "none"), ""])


_COLUMNS = ("| formula | clause | what | remarks | run by |", "|---|---|---|---|---|")


def _row(record: Formula, doors: list[str]) -> str:
    remarks = [record.confidence, "" if record.homogeneous else "hidden units"]
    remarks += [f"{symbol} {_range(limit.low, limit.high)}" for symbol, limit in record.limits.items()]
    cells = (
        f"`{record.name}`",
        record.clause,
        record.title,
        "; ".join(remark for remark in remarks if remark),
        _run_by(doors),
    )
    return "| " + " | ".join(cell.replace("|", r"\|") for cell in cells) + " |"


def _run_by(doors: list[str]) -> str:
    checks = [door.removeprefix("check: ") for door in doors if door.startswith("check: ")]
    others = [door for door in doors if not door.startswith("check: ")]
    named = [f"checks of {', '.join(checks)}" if len(checks) <= _MOST else f"{len(checks)} kinds of checks"]
    return "; ".join([*(named if checks else ()), *others]).replace("_", " ")


def _range(low: float, high: float) -> str:
    if low == float("-inf"):
        return f"at most {high:g}"
    return f"at least {low:g}" if high == float("inf") else f"{low:g} to {high:g}"


def holding_tests(names: set[str], tests: Path = TESTS) -> dict[str, list[str]]:
    """Tests that assert a number and name a formula, as ``file::test``, by the formula's name."""
    found: dict[str, list[str]] = {}
    for path in sorted(tests.rglob("test_*.py")):
        if "browser" in path.relative_to(tests).parts:
            continue
        for test, used, asserts in _tests_in(ast.parse(path.read_text(encoding="utf-8"))):
            for name in sorted(used & names) if asserts else ():
                found.setdefault(name, []).append(f"{path.relative_to(tests).as_posix()}::{test}")
    return found


def held_through(
    names: set[str], functions: dict[str, set[str]], tests: Path = TESTS
) -> dict[str, list[str]]:
    """Files whose tests name the nearest function that runs a formula, as ``through `function`: `file` ``.

    ``functions`` gives what each engineering function names in its code.
    """
    tested = holding_tests(set(functions), tests)
    found = {}
    for name in sorted(names):
        runners = {name}
        for _ in range(_LEVELS):
            runners = {f for f, used in functions.items() if used & runners and f not in runners}
            lines = [
                f"through `{f}`: {_files(tested[f])}" for f in sorted(runners) if f in tested and f[0] != "_"
            ]
            if lines:
                found[name] = lines
                break
    return found


def _files(tests: list[str]) -> str:
    return ", ".join(f"`{file}`" for file in dict.fromkeys(test.partition("::")[0] for test in tests))


def engineering_functions() -> dict[str, set[str]]:
    """What each function of the engineering rooms names in its code, by the function's name."""
    found: dict[str, set[str]] = {}
    for path in sorted(path for room in ENGINEERING for path in (PAGE.parent / room).rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef):
                found.setdefault(node.name, set()).update(_names(node))
    return found


def _tests_in(tree: ast.Module) -> Iterator[tuple[str, set[str], bool]]:
    """Each test of a file with the names its code uses, its file's helpers and tables included, and if it compares."""
    own: dict[str, set[str]] = {}
    compares: dict[str, bool] = {}
    for node in tree.body:
        match node:
            case ast.FunctionDef(name=name) | ast.ClassDef(name=name):
                own[name], compares[name] = _names(node), _compares(node)
            case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
                own[name] = _names(node)
    for name, used in own.items():
        if name.startswith("test_"):
            reached = _with_helpers(used, own)
            yield name, reached, any(compares.get(part, False) for part in {name, *reached})


def _compares(node: ast.AST) -> bool:
    """Whether something in it asserts how a value compares: ``assert a == b``, or a helper of numpy's testing."""
    for inner in ast.walk(node):
        if isinstance(inner, ast.Assert) and any(isinstance(x, ast.Compare) for x in ast.walk(inner.test)):
            return True
        if isinstance(inner, ast.Attribute) and inner.attr.startswith("assert_"):
            return True
    return False


def _names(node: ast.AST) -> set[str]:
    plain = {inner.id for inner in ast.walk(node) if isinstance(inner, ast.Name)}
    return plain | {inner.attr for inner in ast.walk(node) if isinstance(inner, ast.Attribute)}


def _with_helpers(used: set[str], own: dict[str, set[str]]) -> set[str]:
    reached = set(used)
    waiting = [name for name in used if name in own]
    while waiting:
        for name in own[waiting.pop()] - reached:
            reached.add(name)
            if name in own:
                waiting.append(name)
    return reached


def main() -> int:
    """Write the page, print the tests that hold each formula, or say whether the page is current."""
    parser = argparse.ArgumentParser(prog="python -m bolewright.rendering.index", description=main.__doc__)
    parser.add_argument("--write", action="store_true", help=f"write {PAGE.name}")
    parser.add_argument(
        "--tests", action="store_true", help="print the tests that assert each formula's value"
    )
    given = parser.parse_args()
    if given.tests:
        sys.stdout.write(held_page(load_all()))
        return 0
    wanted = page(load_all())
    if given.write:
        PAGE.write_text(wanted, encoding="utf-8")
        return 0
    current = PAGE.is_file() and PAGE.read_text(encoding="utf-8") == wanted
    if not current:
        sys.stderr.write(f"{PAGE.name} is not current: run with --write\n")
    return 0 if current else 1


if __name__ == "__main__":
    raise SystemExit(main())
