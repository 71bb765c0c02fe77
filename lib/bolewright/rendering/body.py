"""The lines of a formula's body, read from its source: the front end of printing, lint and print-back.

The syntax tree gives each line's expression and annotation, the token stream the comment behind it.
"""

from __future__ import annotations

import ast
import inspect
import io
import textwrap
import tokenize
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from types import CodeType
from typing import Any

from bolewright.units import Unit, unit_of


class RenderError(ValueError):
    """A formula that can't be printed, or not with these numbers; one sentence that names it."""


@dataclass(frozen=True)
class Source:
    """Source of a function: its syntax tree, the file and line it starts at, comments by line of the tree."""

    tree: ast.FunctionDef
    file: str
    first_line: int
    comments: dict[int, str]

    def line(self, node: ast.stmt | ast.expr | ast.arg) -> int:
        """Line number in the file."""
        return self.first_line + node.lineno - 1


@dataclass(frozen=True)
class Line:
    """One line ``symbol: Type = expression  # comment``."""

    symbol: str
    unit: Unit
    expression: ast.expr
    code: CodeType
    comment: str

    @property
    def text(self) -> str:
        """The expression as source text."""
        return ast.unparse(self.expression)


@dataclass(frozen=True)
class Body:
    """The lines of a formula, and the symbol it returns."""

    lines: tuple[Line, ...]
    result: str
    names: dict[str, Any]

    def run(self, arguments: dict[str, Any]) -> dict[str, Any]:
        """Value of every symbol, arguments included, line by line."""
        values = dict(arguments)
        for line in self.lines:
            values[line.symbol] = eval(line.code, self.names, values)
        return values


@cache
def source_of(function: Callable[..., Any]) -> Source:
    """Source of a function, decorators included."""
    lines, first = inspect.getsourcelines(function)
    text = textwrap.dedent("".join(lines))
    tree = ast.parse(text).body[0]
    if not isinstance(tree, ast.FunctionDef):
        raise RenderError(f"{function.__name__} is not a plain function")
    comments = {
        token.start[0]: token.string.lstrip("# ").strip()
        for token in tokenize.generate_tokens(io.StringIO(text).readline)
        if token.type == tokenize.COMMENT
    }
    return Source(tree, inspect.getsourcefile(function) or "", first, comments)


@cache
def body_of(function: Callable[..., Any]) -> Body:
    """Lines of a formula's body; :class:`RenderError` for what is no ``symbol: Type = expression`` line."""
    source = source_of(function)
    statements = source.tree.body
    if ast.get_docstring(source.tree) is not None:
        statements = statements[1:]
    last = statements[-1] if statements else None
    if not isinstance(last, ast.Return) or not isinstance(last.value, ast.Name):
        raise RenderError(f"{function.__name__} does not end with 'return symbol'")
    lines = tuple(_line(function, source, statement) for statement in statements[:-1])
    return Body(lines, last.value.id, function.__globals__)


def _line(function: Callable[..., Any], source: Source, statement: ast.stmt) -> Line:
    match statement:
        case ast.AnnAssign(target=ast.Name(id=symbol), annotation=annotation, value=ast.expr() as expression):
            pass
        case _:
            raise RenderError(
                f"{function.__name__}, line {source.line(statement)}: "
                "only 'symbol: Type = expression' can be printed"
            )
    try:
        unit = unit_of(eval(_compiled(annotation), function.__globals__))
    except (NameError, TypeError) as error:
        raise RenderError(
            f"{function.__name__}: the type of {symbol} is not one of bolewright.units ({error})"
        ) from error
    comment = source.comments.get(statement.end_lineno or statement.lineno, "")
    return Line(symbol, unit, expression, _compiled(expression), comment)


def _compiled(expression: ast.expr) -> CodeType:
    return compile(ast.Expression(expression), f"<{ast.unparse(expression)}>", "eval")
