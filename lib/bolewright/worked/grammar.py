"""What a worked cell may hold, in one page.

========================  ==========================================================================================
``# words``               a remark between the lines
``L = Q("12 ft")``        an input with a unit, as builders write it; ``n = 3`` a plain number
``M = w * L**2 / 8``      a formula: names, numbers, ``+ - * / **``, brackets, a sign, and the functions ``sqrt abs
                          min max exp log sin cos tan arctan``; names come from lines above or cells before
``f = (M / S).to("MPa")`` the same, its result in a unit of one's choice
``C = beam.factor(F, c)`` a formula of the program, or one's own made with ``@formula``, alone on its line: it prints
                          with its own lines and its clause
``  # 3.3.3``             behind a line: a remark printed beside it, at most 60 characters
========================  ==========================================================================================

A symbol is set once in a cell, so that what is printed stays true; its parts after an underscore print as subscripts,
Greek names as Greek letters, a ``_p`` behind a capital as a prime, ``_star`` as an asterisk. In a worked cell ``M / S``
of quantities prints in psi; elsewhere pint keeps lb·in/in³ until ``.to("psi")``.

An input prints the digits that were typed, a formula's numbers four figures. A line whose printed numbers don't give
its result within 2 %, such as a difference of two that are nearly alike, is refused: give the difference as an input.

A formula of one's own stands in a cell before, without ``%%worked``::

    from bolewright import formula
    from bolewright.units import Force, Length, Moment

    @formula("statics")
    def end_moment(P: Force, e: Length) -> Moment:
        "Moment of a load off the axis."
        M: Moment = P * e
        return M
"""

from __future__ import annotations

import ast
import io
import keyword
import re
import tokenize
from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.rendering.lint import FUNCTIONS
from bolewright.rendering.symbols import symbol_latex
from bolewright.said_plainly import said_plainly

LONGEST_REMARK = 60
_ALIASES = {"min": "minimum", "max": "maximum"}
_CALLABLE = (*FUNCTIONS, *_ALIASES)
_SYMBOL = re.compile(r"[A-Za-z][A-Za-z0-9]*(?:_[A-Za-z0-9]+)*")
_OPERATORS = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow)
_SAID = {
    ast.IfExp: "a choice (if ... else)",
    ast.BoolOp: "and / or",
    ast.Compare: "a comparison",
    ast.Subscript: "a subscript in brackets; name the value on a line before",
    ast.Lambda: "a lambda",
    ast.NamedExpr: "an assignment inside the expression",
    ast.List: "a list",
    ast.Tuple: "a list of values",
    ast.Dict: "a table of values",
    ast.ListComp: "a loop",
    ast.GeneratorExp: "a loop",
    ast.JoinedStr: "text",
    ast.Attribute: "a name with a dot; name the value on a line before",
    ast.Starred: "a star",
    ast.Await: "await",
}


@said_plainly
class WorkedError(ValueError):
    """A line that can't be computed or printed truly; one sentence with the line's number and text."""


@dataclass(frozen=True)
class Remark:
    """Words between the lines."""

    words: str


@dataclass(frozen=True)
class Input:
    """``symbol = Q("12 ft")``, or a plain number, where ``text`` is None."""

    symbol: str
    text: str | None
    number: float
    comment: str
    line: int


@dataclass(frozen=True)
class Given:
    """``symbol = expression``, its result ``to`` a unit where one is asked for."""

    symbol: str
    expression: ast.expr
    to: str
    comment: str
    line: int

    @property
    def names(self) -> list[str]:
        """Names that the expression uses, each once, in order."""
        called = {id(node.func) for node in ast.walk(self.expression) if isinstance(node, ast.Call)}
        found = (n for n in ast.walk(self.expression) if isinstance(n, ast.Name) and id(n) not in called)
        return list(dict.fromkeys(node.id for node in found))


@dataclass(frozen=True)
class Called:
    """``symbol = function(arguments)``: a formula, alone on its line."""

    symbol: str
    function: ast.expr
    arguments: tuple[tuple[str | None, ast.expr], ...]
    comment: str
    line: int


Statement = Remark | Input | Given | Called


def read_cell(text: str) -> list[Statement]:
    """Statements of a cell in order. Raises :class:`WorkedError` for the first line that is outside the grammar."""
    lines = text.splitlines()
    try:
        tree = ast.parse(text)
    except (SyntaxError, ValueError) as error:
        number = getattr(error, "lineno", None) or 1
        raise refusal(number, lines, "it is not understood; write symbol = expression") from None
    comments = _comments(text)
    found: dict[int, Statement] = {
        at: Remark(words) for at, (words, alone) in comments.items() if alone and words
    }
    seen: dict[str, str] = {}
    for node in tree.body:
        number = node.lineno
        if number in found or (node.end_lineno or number) in found:
            raise refusal(number, lines, "two assignments stand on one line")
        words, _ = comments.get(node.end_lineno or number, ("", False))
        try:
            statement = _statement(node, words)
            other = seen.setdefault(symbol_latex(statement.symbol), statement.symbol)
            if other != statement.symbol:
                raise _Why(f"{other} and {statement.symbol} would print alike")
            if sum(s == statement.symbol for s in _symbols(found.values())):
                raise _Why(f"{statement.symbol} is set a second time; give it another name")
        except _Why as why:
            raise refusal(number, lines, str(why)) from None
        found[number] = statement
    return [found[at] for at in sorted(found)]


def refusal(number: int, lines: list[str], why: str) -> WorkedError:
    """The sentence for a line, with its number and text."""
    text = lines[number - 1].strip() if 0 < number <= len(lines) else ""
    shown = text if len(text) <= 60 else f"{text[:57]}..."
    return WorkedError(f"line {number} ({shown}): {why}.")


class _Why(Exception):
    """Why a line is refused, without its number and text."""


def _symbols(statements: object) -> Iterator[str]:
    for statement in statements:  # type: ignore[attr-defined]
        if not isinstance(statement, Remark):
            yield statement.symbol


def _comments(text: str) -> dict[int, tuple[str, bool]]:
    """Words of the comment on each line, and whether it stands there alone."""
    found = {}
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT:
            found[token.start[0]] = (
                token.string.lstrip("# ").strip(),
                not token.line[: token.start[1]].strip(),
            )
    return found


def _statement(node: ast.stmt, comment: str) -> Input | Given | Called:
    match node:
        case ast.Assign(targets=[ast.Name(id=symbol)], value=value):
            pass
        case ast.AugAssign():
            raise _Why("a value is not changed in place; give the new one a name of its own")
        case _:
            raise _Why("only lines of the form symbol = expression are printed")
    if not _SYMBOL.fullmatch(symbol) or keyword.iskeyword(symbol) or symbol in (*_CALLABLE, "pi", "Q"):
        raise _Why(f"{symbol} can't be a symbol; use letters, digits and underscores, such as F_b or sigma_1")
    if len(comment) > LONGEST_REMARK:
        raise _Why(f"its remark has {len(comment)} characters, a row holds {LONGEST_REMARK}")
    line = node.lineno
    number = _number(value)
    if number is not None:
        return Input(symbol, None, number, comment, line)
    match value:
        case ast.Call(func=ast.Name(id="Q"), args=[ast.Constant(value=str() as text)], keywords=[]):
            return Input(symbol, text, 0.0, comment, line)
        case ast.Call(
            func=ast.Attribute(value=inner, attr="to"), args=[ast.Constant(value=str() as unit)], keywords=[]
        ):
            return Given(symbol, _expression(inner), unit, comment, line)
        case ast.Call(func=ast.Name(id=name)) if name in _CALLABLE:
            return Given(symbol, _expression(value), "", comment, line)
        case ast.Call(func=function, args=args, keywords=keywords):
            return Called(symbol, _dotted(function), tuple(_arguments(args, keywords)), comment, line)
        case _:
            return Given(symbol, _expression(value), "", comment, line)


def _number(node: ast.expr) -> float | None:
    match node:
        case ast.Constant(value=int() | float() as value) if not isinstance(value, bool):
            return _finite(value)
        case ast.UnaryOp(op=ast.USub(), operand=ast.Constant(value=int() | float() as value)) if (
            not isinstance(value, bool)
        ):
            return -_finite(value)
        case _:
            return None


def _finite(value: float) -> float:
    if not abs(value) < 1e12:  # also what is not a number
        raise _Why(f"{value!r:.20} is no finite number of a believable size")
    return float(value)


def _dotted(node: ast.expr) -> ast.expr:
    inner = node
    while isinstance(inner, ast.Attribute):
        inner = inner.value
    if not isinstance(inner, ast.Name):
        raise _Why(f"{ast.unparse(node)[:40]} is no formula by its name")
    return node


def _arguments(args: list[ast.expr], keywords: list[ast.keyword]) -> Iterator[tuple[str | None, ast.expr]]:
    for name, node in [(None, arg) for arg in args] + [(k.arg, k.value) for k in keywords]:
        if isinstance(node, ast.Starred) or (name is None and node in [k.value for k in keywords]):
            raise _Why("a formula's arguments are written one by one")
        if not isinstance(node, ast.Name) and _number(node) is None:
            raise _Why(
                f"the argument {ast.unparse(node)[:40]} is worked out inside the call; give it a line of its own before"
            )
        yield name, node


def _expression(node: ast.expr) -> ast.expr:
    """The expression in the subset that prints, min and max by the names of numpy; :class:`_Why` for any other."""
    match node:
        case ast.BinOp(left=left, op=op, right=right):
            if not isinstance(op, _OPERATORS):
                raise _Why(f"{ast.unparse(node)[:40]} has an operator that can't be printed")
            return ast.BinOp(_expression(left), op, _expression(right))
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return ast.UnaryOp(ast.USub(), _expression(operand))
        case ast.UnaryOp(op=ast.UAdd(), operand=operand):
            return _expression(operand)
        case ast.Name(id=name):
            if name in (*_CALLABLE, "Q") or not _SYMBOL.fullmatch(name):
                raise _Why(f"{name} can't be a symbol")
            return node
        case ast.Constant(value=bool() as truth):
            raise _Why(f"{truth} is no number")
        case ast.Constant(value=int() | float() as value):
            return ast.Constant(_finite(value) if isinstance(value, float) else int(_finite(value)))
        case ast.Constant():
            if isinstance(node.value, str):
                raise _Why(f'{ast.unparse(node)[:40]} is text: write a quantity as Q("{node.value[:40]}")')
            raise _Why(f"{ast.unparse(node)[:40]} is no number")
        case ast.Call(func=ast.Name(id="Q")):
            raise _Why("a quantity is worked with inside the expression; give it a line of its own before")
        case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords) if name in _CALLABLE:
            return _function(name, args, keywords)
        case ast.Call(func=ast.Attribute(attr="to")):
            raise _Why("a unit is asked for inside the expression; put .to(...) behind the whole of it")
        case ast.Call():
            raise _Why(
                f"{ast.unparse(node.func)[:40]} is called inside the expression; give it a line of its own before"
            )
        case _:
            what, _, instead = _SAID.get(type(node), type(node).__name__).partition("; ")
            raise _Why(f"{what} can't be printed" + (f"; {instead}" if instead else ""))


def _function(name: str, args: list[ast.expr], keywords: list[ast.keyword]) -> ast.expr:
    called = _ALIASES.get(name, name)
    two = called in ("minimum", "maximum")
    if (
        keywords
        or any(isinstance(a, ast.Starred) for a in args)
        or (len(args) < 2 if two else len(args) != 1)
    ):
        wanted = "two or more values" if two else "one value"
        raise _Why(f"{name} takes {wanted}")
    inner = [_expression(arg) for arg in args]
    found = ast.Call(ast.Name(called, ast.Load()), inner[: 2 if two else 1], [])
    for more in inner[2:]:
        found = ast.Call(ast.Name(called, ast.Load()), [found, more], [])
    return found
