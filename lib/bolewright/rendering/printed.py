"""Reads the LaTeX of printed equations, by a small strict grammar of our own.

The tree it makes knows nothing of the formula that was printed: it is what a reader of the sheet sees. What
could be read in two ways is refused.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bolewright.rendering.numbers import EXACT, FIGURES, ZERO
from bolewright.rendering.tex import rows_of, tokens
from bolewright.rendering.tree import Node, Number, Operation, ReadingError, Symbol

_FUNCTIONS = (r"\min", r"\max", r"\exp", r"\ln", r"\sin", r"\cos", r"\tan", r"\arctan")
_NUMBER = re.compile(r"\d{1,3}(,\d{3})*(\.\d+)?|\d+(\.\d+)?")
_LETTER = re.compile(r"[A-Za-z]|\\[A-Za-z]+|\\text\{[A-Za-z]\w*\}")
_NO_SYMBOLS = (r"\frac", r"\sqrt", r"\cdot", r"\times", r"\quad", r"\ ", r"\,", r"\%", r"\infty", *_FUNCTIONS)


@dataclass(frozen=True)
class Equation:
    """One printed chain ``symbol = part = part ...``."""

    symbol: str
    parts: tuple[Node, ...]
    latex: str


def read_block(latex: str) -> tuple[Equation, ...]:
    """Equations of a printed ``aligned`` block, rows that continue one put together again."""
    chains: list[str] = []
    for row in rows_of(latex):
        left, mark, right = re.sub(r"\\quad\s*\\text\{\((?:[^{}])*\)\}\s*$", "", row).partition("&")
        if not mark:
            raise ReadingError(f"the row {row!r} has no alignment mark")
        right = right.strip().removeprefix(r"\quad").strip()
        if left.strip():
            chains.append(f"{left.strip()} {right}")
        elif not chains:
            raise ReadingError("the first row has no symbol")
        else:
            chains[-1] += f" {right}"
    return tuple(read_equation(chain) for chain in chains)


def read_equation(latex: str) -> Equation:
    """One chain ``symbol = part = part ...``."""
    reader = _Reader(latex)
    symbol = reader.symbol()
    parts = []
    while not reader.at_end():
        reader.expect("=")
        parts.append(reader.sum())
    if not parts:
        raise ReadingError(f"{latex!r} is no equation")
    return Equation(symbol.latex, tuple(parts), latex)


def read_number(text: str, exponent: int = 0, unit: str = "") -> Number:
    """Printed digits; fewer than four figures are exact, more are rounded in the last (see ``numbers``)."""
    if not _NUMBER.fullmatch(text):
        raise ReadingError(f"{text!r} is no number")
    plain = text.replace(",", "")
    value = float(f"{plain}e{exponent}")
    figures = len(plain.replace(".", "").lstrip("0"))
    decimals = len(plain.partition(".")[2])
    half = 0.5 * 10.0 ** (exponent - decimals) if figures >= FIGURES else 0.0
    noise = ZERO if value == 0 else EXACT * abs(value)
    return Number(value, half + noise, unit)


class _Reader:
    def __init__(self, latex: str) -> None:
        self.latex = latex
        self.tokens = [token for token in tokens(latex) if token != "&"]
        self.at = 0

    def at_end(self) -> bool:
        return self.at >= len(self.tokens)

    def peek(self, ahead: int = 0) -> str:
        index = self.at + ahead
        return self.tokens[index] if index < len(self.tokens) else ""

    def take(self) -> str:
        token = self.peek()
        if not token:
            raise ReadingError(f"{self.latex!r} ends too early")
        self.at += 1
        return token

    def expect(self, *wanted: str) -> None:
        for token in wanted:
            found = self.take()
            if found != token:
                raise ReadingError(f"{self.latex!r} has {found!r} where {token!r} is wanted")

    def sum(self) -> Node:
        node = self.product()
        while self.peek() in ("+", "-"):
            sign = self.take()
            node = Operation(sign, (node, self.product()))
        return node

    def product(self) -> Node:
        if self.peek() == "-":
            self.take()
            node: Node = Operation("negative", (self.power(),))
        else:
            node = self.power()
        while self.peek() == r"\cdot":
            self.take()
            node = Operation("*", (node, self.power()))
        return node

    def power(self) -> Node:
        start = self.peek()
        node = self.operand()
        if self.peek() != "^":
            return node
        bracketed = start in (r"\left(", r"\left|", r"\sqrt")
        plain = isinstance(node, Symbol) or (isinstance(node, Number) and self.tokens[self.at - 1] == start)
        if not (bracketed or plain):
            raise ReadingError(f"{self.latex!r} has an exponent that can be read in two ways")
        self.expect("^", "{")
        exponent = self.sum()
        self.expect("}")
        if self.peek() == "^":
            raise ReadingError(f"{self.latex!r} has an exponent on an exponent")
        return Operation("^", (node, exponent))

    def operand(self) -> Node:
        token = self.peek()
        if token[:1].isdigit() or re.match(r"\\text\{[\d,.]+\}", token):
            return self.number()
        if token == r"\frac":
            self.take()
            return Operation("/", (self.braces(), self.braces()))
        if token == r"\sqrt":
            self.take()
            return Operation(r"\sqrt", (self.braces(),))
        if token == r"\left(":
            self.take()
            node = self.sum()
            self.expect(r"\right)")
            return node
        if token == r"\left|":
            self.take()
            node = self.sum()
            self.expect(r"\right|")
            return Operation("abs", (node,))
        if token in _FUNCTIONS:
            return self.function()
        return self.symbol()

    def function(self) -> Node:
        name = self.take()
        self.expect(r"\left(")
        arguments = [self.sum()]
        while self.peek() == ",":
            self.expect(",", r"\ ")
            arguments.append(self.sum())
        self.expect(r"\right)")
        if (len(arguments) > 1) != (name in (r"\min", r"\max")):
            raise ReadingError(f"{self.latex!r} has {len(arguments)} arguments of {name}")
        return Operation(name, tuple(arguments))

    def braces(self) -> Node:
        self.expect("{")
        node = self.sum()
        self.expect("}")
        return node

    def number(self) -> Number:
        text = self.take()
        exponent = 0
        if self.peek() == r"\times":
            self.expect(r"\times", "10", "^", "{")
            sign = -1 if self.peek() == "-" else 1
            if sign < 0:
                self.take()
            if not self.peek().isdigit():
                raise ReadingError(f"{self.latex!r} has the power of ten {self.peek()!r}")
            exponent = sign * int(self.take())
            self.expect("}")
        unit = ""
        if self.peek() == r"\ " and (self.peek(1).startswith(r"\text{") or self.peek(1) == r"\%"):
            self.take()
            unit = self.take().removeprefix(r"\text{").removesuffix("}")
        return read_number(text.removeprefix(r"\text{").removesuffix("}"), exponent, unit)

    def symbol(self) -> Symbol:
        letter = self.take()
        if letter in _NO_SYMBOLS or not _LETTER.fullmatch(letter):
            raise ReadingError(f"{self.latex!r} has {letter!r} where a symbol or a number is wanted")
        latex = letter
        if letter == r"\phi" and re.fullmatch("[A-Za-z]", self.peek()):  # a strength with its factor
            latex += f" {self.take()}"
        if self.peek() == "'":
            latex += self.take()
        if self.peek() == "_":
            latex += self.take() + self.raw_braces()
        if self.peek() == "^" and self.peek(2) == "*":
            latex += self.take() + self.raw_braces()
        return Symbol(latex)

    def raw_braces(self) -> str:
        self.expect("{")
        inside = []
        while self.peek() != "}":
            inside.append(self.take())
        self.expect("}")
        return "{" + "".join(inside) + "}"
