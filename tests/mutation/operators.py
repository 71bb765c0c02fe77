"""Small faults in the program's source, one at a time: another operator, constant or index, a term or a factor dropped.

A mutant is text: what stands between two places of a file, and what stands there instead. Strings, annotations and
what is raised are left alone; they are words, not numbers.
"""

from __future__ import annotations

import ast
import copy
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

LIBRARY = Path(__file__).parents[2] / "lib" / "bolewright"
FORMULAS = ("timber", "fasteners", "tree", "ground", "mechanics", "bracing")
GLUING = ("platform", "setting_out", "take_off")
# Modules that only write sentences: a number in them is a count of words or letters.
WORDS = (
    "fault_words.py",
    "toml_words.py",
    "file_lines.py",
    "said.py",
    "verdict.py",
    "summary.py",
    "instead.py",
)

_SWAPS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.MatMult: ast.Add,
}
_TURNED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE,
    ast.LtE: ast.Gt,
    ast.Gt: ast.LtE,
    ast.GtE: ast.Lt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
_OPPOSITE = {
    "min": "max",
    "minimum": "maximum",
    "fmin": "fmax",
    "amin": "amax",
    "argmin": "argmax",
    "nanmin": "nanmax",
    "any": "all",
    "floor": "ceil",
    "sin": "cos",
    "first_greatest": "first_least",
}
_OPPOSITE |= {other: name for name, other in _OPPOSITE.items()}


@dataclass(frozen=True)
class Mutant:
    """One change of one file: the bytes from ``start`` to ``end`` become ``after``."""

    path: str  # below lib/bolewright
    function: str
    kind: str
    start: int
    end: int
    before: str
    after: str
    first: int
    last: int
    name: str = ""

    @property
    def room(self) -> str:
        return self.path.split("/")[0]

    @property
    def key(self) -> str:
        """How the lists name it: a line number would not outlive the next commit."""
        return f"{self.path}::{self.function} {self.kind}: {self.before} -> {self.after}"

    def source(self) -> str:
        data = (LIBRARY / self.path).read_bytes()
        return (data[: self.start] + self.after.encode() + data[self.end :]).decode()


def modules(room: str) -> list[Path]:
    return [path for path in sorted((LIBRARY / room).rglob("*.py")) if path.name not in WORDS]


def mutants(path: Path) -> list[Mutant]:
    """Every mutant of one file, in the order of its text."""
    data = path.read_bytes()
    starts = [0]
    for line in data.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    found = []
    for node, function, kind, changed in _changes(ast.parse(data), ""):
        start = starts[node.lineno - 1] + node.col_offset
        end = starts[node.end_lineno - 1] + node.end_col_offset
        text = ast.unparse(changed)
        found.append(
            Mutant(
                path.relative_to(LIBRARY).as_posix(),
                function,
                kind,
                start,
                end,
                " ".join(data[start:end].decode().split()),
                f"({text})"
                if isinstance(changed, ast.BinOp | ast.BoolOp | ast.UnaryOp | ast.Compare)
                else text,
                node.lineno,
                node.end_lineno,
            )
        )
    return found


def _changes(node: ast.AST, function: str) -> Iterator[tuple[ast.expr, str, str, ast.expr]]:
    """Node, its function, the operator's name, and what stands instead."""
    if isinstance(node, ast.JoinedStr | ast.Raise | ast.Assert | ast.Import | ast.ImportFrom):
        return
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        function = f"{function}.{node.name}" if function else node.name
        for inner in node.body:
            yield from _changes(inner, function)
        return
    if isinstance(node, ast.AnnAssign):
        if node.value is not None and (not isinstance(node.value, ast.Call) or function):
            yield from _changes(node.value, function)
        return
    if (
        isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id in ("Field", "TypeVar")
    ):
        return
    if isinstance(node, ast.expr):
        for kind, changed in _of_expression(node):
            yield node, function, kind, changed
    if isinstance(node, ast.If | ast.IfExp | ast.While) and not isinstance(
        node.test, ast.Compare | ast.UnaryOp
    ):
        yield node.test, function, "condition", ast.UnaryOp(ast.Not(), node.test)
    if isinstance(node, ast.Subscript):
        yield from _changes(node.value, function)
        for kind, changed in _of_index(node):
            yield node, function, kind, changed
        if not isinstance(node.slice, ast.Constant | ast.Slice | ast.UnaryOp):
            yield from _changes(node.slice, function)
        return
    for child in ast.iter_child_nodes(node):
        yield from _changes(child, function)


def _of_expression(node: ast.expr) -> Iterator[tuple[str, ast.expr]]:
    match node:
        case ast.BinOp(left, op, right) if not _words(left) and not _words(right):
            if type(op) in _SWAPS:
                yield "operator", ast.BinOp(left, _SWAPS[type(op)](), right)
            if isinstance(op, ast.Add | ast.Sub):
                yield "term dropped", left
                yield "term dropped", right if isinstance(op, ast.Add) else ast.UnaryOp(ast.USub(), right)
            elif isinstance(op, ast.Mult | ast.MatMult):
                yield "factor dropped", left
                yield "factor dropped", right
            elif isinstance(op, ast.Div | ast.Pow):
                yield "factor dropped", left
        case ast.Compare(left, [op], others):
            yield "comparison", ast.Compare(left, [_TURNED[type(op)]()], others)
        case ast.Constant(value) if isinstance(value, int | float) and not isinstance(value, bool):
            yield "constant", ast.Constant(_other(value))
        case ast.UnaryOp(ast.USub(), operand) if not isinstance(operand, ast.Constant):
            yield "sign", operand
        case ast.UnaryOp(ast.Not(), operand):
            yield "sign", operand
        case ast.BoolOp(op, values):
            yield "operator", ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
        case ast.Call(func=ast.Name(name)) if name in _OPPOSITE and name not in ("sin", "cos"):
            yield "min/max", _renamed(node, _OPPOSITE[name])
        case ast.Call(func=ast.Attribute(attr=name)) if name in _OPPOSITE:
            yield "min/max", _renamed(node, _OPPOSITE[name])


def _of_index(node: ast.Subscript) -> Iterator[tuple[str, ast.expr]]:
    match node.slice:
        case ast.Constant(value) if isinstance(value, int):
            yield "index", _at(node, ast.Constant(value + 1 if value != 1 else 0))
        case ast.UnaryOp(ast.USub(), ast.Constant(1)):
            yield "index", _at(node, ast.Constant(0))
        case ast.Slice(lower, upper, step) if lower is not None and upper is None and step is None:
            yield "index", _at(node, ast.Slice(None, None, None))
        case ast.Slice(None, upper, None) if upper is not None:
            yield "index", _at(node, ast.Slice(None, None, None))


def _at(node: ast.Subscript, index: ast.expr) -> ast.Subscript:
    return ast.Subscript(node.value, index, ast.Load())


def _renamed(node: ast.Call, name: str) -> ast.Call:
    changed = copy.deepcopy(node)
    if isinstance(changed.func, ast.Name):
        changed.func.id = name
    elif isinstance(changed.func, ast.Attribute):
        changed.func.attr = name
    return changed


def _other(value: float) -> float:
    if value == 0:
        return 1
    if value == 1:
        return 2 if isinstance(value, int) else 1.1
    return value + 1 if isinstance(value, int) else value * 1.1


def _words(node: ast.expr) -> bool:
    return isinstance(node, ast.JoinedStr) or (isinstance(node, ast.Constant) and isinstance(node.value, str))
