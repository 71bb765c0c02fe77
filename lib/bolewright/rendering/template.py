"""From a line's expression to LaTeX: the one place that reaches into handcalcs.

Its engine is given an expression in the shape its own parser makes (nested deques of operands and operators)
and lays out fractions, powers and parentheses. What it prints wrongly is kept from it: calls, signs and
exponents are laid out here, one by one. Every operand is a placeholder that later takes symbol or number.
"""

from __future__ import annotations

import ast
import re
from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

from handcalcs import handcalcs as engine

from bolewright.rendering.body import RenderError
from bolewright.rendering.symbols import symbol_latex

_SLOT = re.compile(r"\\@(\d+)([@^])")
_TWICE = re.compile(r"\\left\( \\left\( ([^()]*) \\right\) \\right\)")
_POWER_OF_ONE = re.compile(r"\\left\( \\@(\d+)@ \\right\) \^\{")


@dataclass(frozen=True)
class Template:
    r"""Printed expression with ``\@3@`` for its operand 3, ``\@3^`` where that operand has an exponent."""

    latex: str
    operands: tuple[str | float, ...]  # names, and constants that print as they stand in the source
    symbolic: str

    def numeric(self, numbers: dict[str, str]) -> str:
        """The expression with printed numbers in place of its symbols."""
        if self.latex == r"\@0@":
            return _operand(self.operands[0], numbers)

        def fill(match: re.Match[str]) -> str:
            text = _operand(self.operands[int(match[1])], numbers)
            has_unit_or_times = "\\" in text.removeprefix(r"\text").removeprefix(r"\pi")
            if text.startswith("-") or (match[2] == "^" and has_unit_or_times):
                return rf"\left( {text} \right)"
            return text

        return _TWICE.sub(r"\\left( \1 \\right)", _SLOT.sub(fill, self.latex))


def template(expression: ast.expr, name: str) -> Template:
    """Template of one line's expression in the formula ``name``.

    Raises :class:`RenderError` for what is outside the subset that can be printed.
    """
    layout = _Layout(name)
    latex = _POWER_OF_ONE.sub(r"\\@\1^^{", layout.whole(expression))

    def fill(match: re.Match[str]) -> str:
        operand = layout.operands[int(match[1])]
        text = _constant(operand) if isinstance(operand, float) else symbol_latex(operand)
        if match[2] == "^" and any(mark in text for mark in ("'", "^", " ")):  # they take no exponent
            return rf"\left( {text} \right)"
        return text

    return Template(latex, tuple(layout.operands), _SLOT.sub(fill, latex))


def _operand(operand: str | float, numbers: dict[str, str]) -> str:
    if isinstance(operand, float):
        return _constant(operand)
    return numbers[operand] if operand != "pi" else symbol_latex("pi")


@cache
def _constant(value: float) -> str:
    """A constant of the source in full, never rounded."""
    text = f"{value:,.0f}" if value == int(value) and value < 1e10 else repr(value)
    if "e" in text:
        mantissa, exponent = text.split("e")
        return rf"{mantissa} \times 10^{{{int(exponent)}}}"
    return rf"\text{{{text}}}" if "," in text else text


_CALLS = {
    "exp": r"\exp",
    "log": r"\ln",
    "sin": r"\sin",
    "cos": r"\cos",
    "tan": r"\tan",
    "arctan": r"\arctan",
    "minimum": r"\min",
    "maximum": r"\max",
}
_SUMS = (ast.Add, ast.Sub)


class _Layout:
    """Lays one expression out; collects its operands."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.operands: list[str | float] = []
        self.groups: list[str] = []

    def whole(self, node: ast.expr) -> str:
        """LaTeX of an expression that stands by itself: a line, an argument, an exponent."""
        items = self._sum(node) if isinstance(node, ast.BinOp) else self._atom(node, bare_sign=True)
        return self._with_groups(_laid_out(items if isinstance(items, deque) else deque([items])))

    def _with_groups(self, latex: str) -> str:
        latex = re.sub(r"\\left\( (\\@g(\d+)@) \\right\) (?=\^)", self._bars_are_enough, latex)
        return re.sub(r"\\@g(\d+)@", lambda match: self.groups[int(match[1])], latex)

    def _bars_are_enough(self, match: re.Match[str]) -> str:
        return f"{match[1]} " if self.groups[int(match[2])].startswith(r"\left|") else match[0]

    def _sum(self, node: ast.expr, first: bool = True) -> deque[Any]:
        """Operands and operators of one level, as the engine's parser would group them."""
        match node:
            case ast.BinOp(left, ast.Add() | ast.Sub() as op, right):
                return (
                    self._sum(left, first)
                    + deque(["+" if isinstance(op, ast.Add) else "-"])
                    + self._term(right, _SUMS)
                )
            case ast.BinOp(left, ast.Mult(), right):
                return self._term(left, _SUMS, first) + deque(["*"]) + self._term(right, _SUMS)
            case ast.BinOp(ast.BinOp(top, ast.Div(), bottom), ast.Div(), below):
                return self._sum(ast.BinOp(top, ast.Div(), ast.BinOp(bottom, ast.Mult(), below)), first)
            case ast.BinOp(top, ast.Div(), bottom):
                return deque([self._part(top), "/", self._part(bottom)])
            case ast.BinOp(base, ast.Pow(), exponent):
                return deque([deque([self._part(base), "**", self._group(self.whole(exponent))])])
            case _:
                return deque([self._atom(node, bare_sign=first)])

    def _term(self, node: ast.expr, bracketed: tuple[type, ...], first: bool = False) -> deque[Any]:
        if isinstance(node, ast.BinOp) and isinstance(node.op, bracketed):
            return deque([self._sum(node)])
        return self._sum(node, first)

    def _part(self, node: ast.expr) -> Any:
        """Top or bottom of a fraction, or base of a power: the engine needs no brackets, or sets them."""
        items = self._sum(node)
        return items[0] if len(items) == 1 else items

    def _atom(self, node: ast.expr, bare_sign: bool) -> str:
        match node:
            case ast.Name(id=name):
                return self._slot(name)
            case ast.Constant(value=int() | float() as value):
                return self._slot(float(value))
            case ast.UnaryOp(ast.USub(), operand):
                inner = self.whole(operand)
                if isinstance(operand, ast.BinOp) and isinstance(operand.op, ast.Add | ast.Sub):
                    inner = rf"\left( {inner} \right)"
                return self._group(f"-{inner}" if bare_sign else rf"\left( -{inner} \right)")
            case ast.Call(ast.Name(id="sqrt"), [argument], []):
                return self._group(rf"\sqrt{{ {self.whole(argument)} }}")
            case ast.Call(ast.Name(id="abs"), [argument], []):
                return self._group(rf"\left| {self.whole(argument)} \right|")
            case ast.Call(ast.Name(id=name), arguments, []) if name in _CALLS:
                inner = r" ,\ ".join(self.whole(argument) for argument in _flattened(name, arguments))
                return self._group(rf"{_CALLS[name]}\left( {inner} \right)")
            case _:
                raise RenderError(f"{self.name}: {ast.unparse(node)} is outside what can be printed")

    def _slot(self, operand: str | float) -> str:
        self.operands.append(operand)
        return rf"\@{len(self.operands) - 1}@"

    def _group(self, latex: str) -> str:
        self.groups.append(latex)
        return rf"\@g{len(self.groups) - 1}@"


def _flattened(name: str, arguments: list[ast.expr]) -> Iterable[ast.expr]:
    """Arguments of minimum and maximum, those of a nested one of the same kind among them."""
    for argument in arguments:
        match argument:
            case ast.Call(ast.Name(id=inner), nested, []) if inner == name in ("minimum", "maximum"):
                yield from _flattened(name, nested)
            case _:
                yield argument


_SETTINGS = {
    "underscore_subscripts": True,
    "greek_exclusions": [],
    "custom_symbols": {},
    "custom_brackets": {},
}


def _laid_out(items: deque[Any]) -> str:
    """LaTeX of an expression by the engine of handcalcs, from the nested deques its parser makes."""
    return " ".join(engine.swap_symbolic_calcs(items, {}, **_SETTINGS))
