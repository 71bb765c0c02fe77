"""The formula index: one page that lists every formula with its clause and the tests that hold it.

A test is said to hold a formula when its function, the table of cases above it, or a helper of its file it
calls names that formula in its code. A formula that no test names is held through the function of the package
that runs it, such as the yield modes through ``single_shear``: the files whose tests name that function are
given. ``python -m bolewright.rendering.index --write`` writes the page.
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

PAGE = Path(bolewright.__file__).parent / "FORMULAS.md"
TESTS = Path(bolewright.__file__).parents[2] / "tests"
_LEVELS = 3  # of functions between a formula and a test

_HEAD = """\
# Formulas

Every formula of the package, the clause it prints under, and the tests that name it, or the files whose tests
name the function that runs it ("through"). Each of them is also linted, printed, read back from its print, and
run on arrays and on metric quantities by `tests/test_registry.py`. "Hidden units" marks an equation whose
constants only hold in the units it is written in. Made by `python -m bolewright.rendering.index --write`; do not
edit.
"""


def load_all() -> list[Formula]:
    """Every formula of the package, its modules imported."""
    for module in pkgutil.walk_packages(bolewright.__path__, "bolewright."):
        importlib.import_module(module.name)
    ours = (record for record in REGISTRY.values() if record.module.startswith("bolewright."))
    return sorted(ours, key=lambda record: (record.module, record.name))


def page(formulas: list[Formula], tests: Path = TESTS) -> str:
    """The index page as Markdown."""
    names = {record.name for record in formulas}
    held = holding_tests(names, tests)
    held |= held_through(names - set(held), functions_of_the_package(), tests)
    lines = [_HEAD]
    module = ""
    for record in formulas:
        if record.module != module:
            module = record.module
            lines += ["", f"## {module.removeprefix('bolewright.')}", "", *_COLUMNS]
        lines.append(_row(record, held.get(record.name, [])))
    bare = [record.name for record in formulas if record.name not in held]
    lines += ["", "## Held by no test of their own", ""]
    lines.append(", ".join(f"`{name}`" for name in bare) + "." if bare else "None.")
    return "\n".join(lines) + "\n"


_COLUMNS = ("| formula | clause | what | remarks | tests |", "|---|---|---|---|---|")


def _row(record: Formula, tests: list[str]) -> str:
    remarks = [record.confidence, "" if record.homogeneous else "hidden units"]
    remarks += [f"{symbol} {_range(limit.low, limit.high)}" for symbol, limit in record.limits.items()]
    cells = (
        f"`{record.name}`",
        record.clause,
        record.title,
        "; ".join(remark for remark in remarks if remark),
        "<br>".join(test if test.startswith("through") else f"`{test}`" for test in tests),
    )
    return "| " + " | ".join(cell.replace("|", r"\|") for cell in cells) + " |"


def _range(low: float, high: float) -> str:
    if low == float("-inf"):
        return f"at most {high:g}"
    return f"at least {low:g}" if high == float("inf") else f"{low:g} to {high:g}"


def holding_tests(names: set[str], tests: Path = TESTS) -> dict[str, list[str]]:
    """Tests that name a formula, as ``file::test``, by the formula's name."""
    found: dict[str, list[str]] = {}
    for path in sorted(tests.rglob("test_*.py")):
        for test, used in _tests_in(ast.parse(path.read_text(encoding="utf-8"))):
            for name in sorted(used & names):
                found.setdefault(name, []).append(f"{path.relative_to(tests).as_posix()}::{test}")
    return found


def held_through(
    names: set[str], functions: dict[str, set[str]], tests: Path = TESTS
) -> dict[str, list[str]]:
    """Files whose tests name the nearest function that runs a formula, as ``through `function`: `file` ``.

    ``functions`` gives what each function of the package names in its code.
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


def functions_of_the_package() -> dict[str, set[str]]:
    """What each function of the package names in its code, by the function's name."""
    found: dict[str, set[str]] = {}
    for path in sorted(PAGE.parent.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.FunctionDef):
                found.setdefault(node.name, set()).update(_names(node))
    return found


def _tests_in(tree: ast.Module) -> Iterator[tuple[str, set[str]]]:
    """Each test of a file with the names its code uses, those of the file's own helpers and tables included."""
    own: dict[str, set[str]] = {}
    for node in tree.body:
        match node:
            case ast.FunctionDef(name=name) | ast.ClassDef(name=name):
                own[name] = _names(node)
            case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
                own[name] = _names(node)
    for name, used in own.items():
        if name.startswith("test_"):
            yield name, _with_helpers(used, own)


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
    """Write the page, or say whether it is current."""
    parser = argparse.ArgumentParser(prog="python -m bolewright.rendering.index", description=main.__doc__)
    parser.add_argument("--write", action="store_true", help=f"write {PAGE.name}")
    wanted = page(load_all())
    if parser.parse_args().write:
        PAGE.write_text(wanted, encoding="utf-8")
        return 0
    current = PAGE.is_file() and PAGE.read_text(encoding="utf-8") == wanted
    if not current:
        sys.stderr.write(f"{PAGE.name} is not current: run with --write\n")
    return 0 if current else 1


if __name__ == "__main__":
    raise SystemExit(main())
