"""Lint of formula bodies: the subset of Python that prints as mathematics and runs on arrays."""

from __future__ import annotations

import ast
import inspect
import re
from collections.abc import Callable, Iterator
from typing import Any

from bolewright.formulas import REGISTRY, Formula
from bolewright.rendering.body import Source, source_of
from bolewright.rendering.symbols import symbol_latex
from bolewright.units import unit_of

FUNCTIONS = ("sqrt", "minimum", "maximum", "exp", "log", "sin", "cos", "tan", "arctan", "abs")
MOST_LINES = 12
LONGEST_COMMENT = 90
_NODES = (
    ast.BinOp,
    ast.UnaryOp,
    ast.Add,
    ast.Sub,
    ast.Mult,
    ast.Div,
    ast.Pow,
    ast.USub,
    ast.Call,
    ast.Name,
    ast.Load,
    ast.Constant,
)
_SAID = {
    ast.IfExp: "a choice (if ... else)",
    ast.BoolOp: "and / or",
    ast.Compare: "a comparison",
    ast.Attribute: "an attribute",
    ast.Subscript: "a subscript",
    ast.FloorDiv: "whole division (//)",
    ast.Mod: "a remainder (%)",
    ast.Not: "not",
    ast.Lambda: "a lambda",
    ast.NamedExpr: "an assignment inside the expression",
}


def check(formula: Formula) -> list[str]:
    """Sentences for what in a formula's body is outside the subset; empty when all is well."""
    source = source_of(formula.body)
    return [
        f"{source.file}, line {line}, {formula.name}: {what}." for line, what in _problems(formula, source)
    ]


def _problems(formula: Formula, source: Source) -> Iterator[tuple[int, str]]:
    statements = list(source.tree.body)
    if ast.get_docstring(source.tree) is not None:
        statements = statements[1:]
    if not statements:
        yield source.first_line, "it has no lines"
        return
    *lines, last = statements
    if not 1 <= len(lines) <= MOST_LINES:
        yield source.first_line, f"it has {len(lines)} lines, allowed are 1 to {MOST_LINES}"
    seen = set(formula.parameters)
    used: set[str] = set()
    taken: set[int] = set()
    for statement in lines:
        number = source.line(statement)
        match statement:
            case ast.AnnAssign(target=ast.Name(id=symbol), value=ast.expr() as expression):
                pass
            case ast.Assign(targets=[ast.Name(id=symbol)]):
                yield number, f"{symbol} has no type annotation, so its unit is not known"
                continue
            case _:
                yield number, f"'{_short(statement)}' is no line of the form 'symbol: Type = expression'"
                continue
        if statement.lineno in taken:
            yield number, "two assignments stand on one line"
        taken.add(statement.lineno)
        yield from ((number, what) for what in _annotation_problems(statement, symbol, formula.body))
        if symbol in seen:
            yield number, f"{symbol} is assigned a second time"
        yield from ((number, what) for what in _expression_problems(expression, seen, formula.body))
        used |= {node.id for node in ast.walk(expression) if isinstance(node, ast.Name)}
        seen.add(symbol)
        comment = source.comments.get(statement.end_lineno or statement.lineno, "")
        if len(comment) > LONGEST_COMMENT:
            yield (
                number,
                f"its comment has {len(comment)} letters, a row holds {LONGEST_COMMENT}",
            )
    if not isinstance(last, ast.Return) or not isinstance(last.value, ast.Name):
        yield source.line(last), "it does not end with 'return symbol'"
    else:
        used.add(last.value.id)
        if last.value.id not in seen - set(formula.parameters):
            yield source.line(last), f"{last.value.id} is returned but not computed"
    for symbol in sorted(seen - used):
        yield source.first_line, f"{symbol} is never used"
    yield from ((source.first_line, what) for what in _alike(seen))


def _annotation_problems(statement: ast.AnnAssign, symbol: str, body: Callable[..., Any]) -> Iterator[str]:
    text = ast.unparse(statement.annotation)
    try:
        unit_of(body.__globals__[text])
    except (KeyError, TypeError):
        yield f"the type {text} of {symbol} is not one of bolewright.units"


def _expression_problems(expression: ast.expr, known: set[str], body: Callable[..., Any]) -> Iterator[str]:
    called = {node.func for node in ast.walk(expression) if isinstance(node, ast.Call)}
    for node in ast.walk(expression):
        if type(node) in _SAID:
            yield f"{_SAID[type(node)]} can't be printed"
        elif isinstance(node, ast.Call):
            yield from _call_problems(node, body)
        elif isinstance(node, ast.Constant) and type(node.value) not in (int, float):
            yield f"{node.value!r} is no number"
        elif isinstance(node, ast.Name) and node not in called:
            if node.id not in known and node.id != "pi":
                yield f"{node.id} is neither a parameter nor a line above"
        elif not isinstance(node, (*_NODES, ast.keyword)):
            yield f"{type(node).__name__} can't be printed"


def _call_problems(node: ast.Call, body: Callable[..., Any]) -> Iterator[str]:
    if not isinstance(node.func, ast.Name):
        yield f"the call of {_short(node.func)} is not of a function by its name"
        return
    name = node.func.id
    if name not in FUNCTIONS:
        yield f"the call of {name} is not one of {', '.join(FUNCTIONS)}"
        return
    function = body.__globals__.get(name, abs if name == "abs" else None)
    if function is not abs and not getattr(function, "__module__", "numpy").startswith("numpy"):
        yield f"{name} is not numpy's"
    if node.keywords or len(node.args) != (2 if name in ("minimum", "maximum") else 1):
        yield f"{name} is called with {len(node.args)} arguments"


def _alike(symbols: set[str]) -> Iterator[str]:
    printed: dict[str, str] = {}
    for symbol in sorted(symbols):
        other = printed.setdefault(symbol_latex(symbol), symbol)
        if other != symbol:
            yield f"{other} and {symbol} print alike"


def _short(node: ast.AST) -> str:
    text = ast.unparse(node).splitlines()[0]
    return text if len(text) <= 40 else f"{text[:37]}..."


def docstring_problems(formula: Formula) -> list[str]:
    """Sentences for what a formula's docstring lacks: what it is, parameters with units, its source."""
    doc = inspect.getdoc(formula.body) or ""
    told = "\n".join([doc, *(inspect.getdoc(REGISTRY[name].body) or "" for name in _referred(doc))])
    problems = []
    if not doc:
        problems.append("it has no docstring")
    if ":func:" in formula.title:
        problems.append("the first line of its docstring, printed as a title, refers to a function")
    if "Source" not in doc:
        problems.append("its docstring names no Source")
    for symbol, unit in formula.parameters.items():
        if not _documents(told, symbol, list(formula.parameters)):
            problems.append(f"its docstring does not say what {symbol} is")
        elif unit.label and not _names_unit(told, unit.label):
            problems.append(f"its docstring does not name the unit {unit.label} of {symbol}")
    if not formula.clause.strip():
        problems.append("it has no clause")
    return [f"{formula.module}, {formula.name}: {problem}." for problem in problems]


def _referred(doc: str) -> list[str]:
    """Formulas whose parameters a docstring takes over: "as :func:`other`"."""
    return [name for name in re.findall(r"as :func:`(\w+)`", doc) if name in REGISTRY]


def _documents(doc: str, symbol: str, parameters: list[str]) -> bool:
    if re.search(rf"(?<!\w){re.escape(symbol)}(?!\w)", doc):
        return True
    ranges = re.findall(r"(\w+) to (\w+)", doc)  # "Z_Im to Z_IV" speaks of all between
    return any(
        first in parameters and last in parameters and symbol in _between(parameters, first, last)
        for first, last in ranges
    )


def _between(parameters: list[str], first: str, last: str) -> list[str]:
    return parameters[parameters.index(first) : parameters.index(last) + 1]


def _names_unit(doc: str, label: str) -> bool:
    words = "|".join(re.escape(word) for word in (label, *_SPELLINGS.get(label, ())))
    before = r"[\[(][^\])]*" if label == "in" else ""  # the word stands in any prose: as a unit, in brackets
    return re.search(rf"{before}(?<![\w·/-])({words})(?![\w·/⁴³²-])", doc) is not None


_SPELLINGS = {
    "in²": ("in2", "in^2", "sq in"),
    "ft²": ("ft2", "ft^2", "sq ft"),
    "in³": ("in3", "in^3"),
    "ft³": ("ft3", "ft^3", "cu ft"),
    "in⁴": ("in4", "in^4"),
    "lb·in": ("lb-in", "lb in", "in-lb"),
    "lb·ft": ("lb-ft", "lb ft", "ft-lb"),
    "lb/in": ("pli",),
    "lb/in³": ("lb/in3", "lb/in^3", "pci"),
    "°": ("deg", "degree", "degrees"),
    "yr": ("year", "years"),
    "%": ("percent",),
}
