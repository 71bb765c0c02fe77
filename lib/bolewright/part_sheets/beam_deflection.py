"""The deflections of a beam in print: cases of beam tables added up, where its loads have one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from bolewright.mechanics.beam_cases import (
    cantilever_couple_deflection,
    cantilever_deflection,
    cantilever_growing_deflection,
    cantilever_point_deflection,
    end_moment_deflection,
    growing_load_deflection,
    overhang_turned_deflection,
    point_load_deflection,
    uniform_load_deflection,
)
from bolewright.part_sheets.beam_hand import aside, by_hand, from_model
from bolewright.part_sheets.beam_patterns import Patterns
from bolewright.part_sheets.beam_pieces import NEAR, Piece, Term, total
from bolewright.part_sheets.beam_statics import Bay, Worst
from bolewright.part_sheets.beam_supports import ALIKE, added_up, fixed_end
from bolewright.rendering.blocks import Block
from bolewright.rendering.numbers import fmt
from bolewright.rendering.wording import plain
from bolewright.timber.deflection import simple_span_deflection
from bolewright.units import INCH, POUND_INCH
from bolewright.worked import WorkedError, work

_FUNCTIONS = {
    f.__name__: f
    for f in (
        cantilever_couple_deflection,
        cantilever_deflection,
        cantilever_growing_deflection,
        cantilever_point_deflection,
        end_moment_deflection,
        growing_load_deflection,
        overhang_turned_deflection,
        point_load_deflection,
        simple_span_deflection,
        uniform_load_deflection,
    )
}
_LEAST = 1e-4  # in.: nobody works less out
_PART = "a load over a part of a bay and a moment in a span are not worked out on this sheet"
_BETWEEN = (
    "it is greatest between the support and the end of the overhang, which is not worked out on this sheet"
)


@dataclass(frozen=True)
class Deflected:
    """Where a deflection governs: the bay, which way (1 down, -1 up), what dead load and live load give there."""

    bay: Bay
    sign: int
    dead: Worst
    live: Worst


class _NoCaseError(Exception):
    """A load without a case in the tables; why."""


def deflections(patterns: Patterns, live: Deflected, all_loads: Deflected) -> tuple[Block, ...]:
    """Lines for the deflection under live load alone, and for the two parts of that under all loads."""
    asked = (
        ("delta_LE", "deflection under live load", live, live.live),
        ("delta_DE", "deflection under dead load", all_loads, all_loads.dead),
        ("delta_SE", "live load's part of the deflection under all loads", all_loads, all_loads.live),
    )
    blocks: list[Block] = []
    printed: dict[tuple[Any, ...], str] = {}
    for symbol, words, deflected, worst in asked:
        title = f"{words[:1].upper()}{words[1:]} {plain(symbol)}"
        if worst.value < _LEAST or not worst.loads:
            continue
        key = (worst.loads, round(worst.x, 6), deflected.sign)
        if key in printed:
            blocks.append(aside(f"{title}: the same loads at the same place as {printed[key]}, and as much."))
            continue
        printed[key] = plain(symbol)
        blocks += _Line(patterns, symbol, title, deflected, worst).blocks()
    return tuple(blocks)


class _Line:
    """One deflection: its loads and place, its parts, their sum."""

    def __init__(
        self, patterns: Patterns, symbol: str, title: str, deflected: Deflected, worst: Worst
    ) -> None:
        self.statics, self.bay, self.sign = patterns.statics, deflected.bay, deflected.sign
        self.symbol, self.title, self.worst = symbol, title, worst
        self.acting, self.supports = patterns.acting(worst), patterns.supports(worst, plain(symbol))
        self.loads = patterns.said(self.acting)
        self.names: dict[str, Any] = {**patterns.names, **_FUNCTIONS}
        self.made: list[Block] = []
        self.parts: list[Term] = []

    def blocks(self) -> list[Block]:
        """The lines in print, or the sentence in their place."""
        try:
            if self.supports.missing:
                raise _NoCaseError(self.supports.missing)
            (self._overhang if self.bay.overhang else self._span)()
            if not self.parts:
                raise _NoCaseError(_PART)
            line = f"{self.symbol} = {total(self.parts, self.sign)}"
            found = by_hand([[line]], self.names, self.title, self.worst.value, INCH)
            if not found:
                raise _NoCaseError(ALIKE)
        except (_NoCaseError, WorkedError) as error:
            return [from_model(self.title, str(error) if isinstance(error, _NoCaseError) else ALIKE)]
        way = "" if self.sign > 0 else " upward"
        words = f"{self.title}{way}, {self.bay.name}, {self._place()}, with E. Loads that act: {self.loads}."
        return [aside(words), *self.made, *found]

    def _place(self) -> str:
        if self.bay.overhang:
            return "at its end"
        return f"x = {fmt(self.worst.x - self.bay.start, INCH)} from support {self._number}"

    @property
    def _number(self) -> int:
        """The span, and its left support."""
        return self.statics.beam.supports.index(self.bay.start) + 1

    def _run(self, lines: Sequence[str], title: str) -> None:
        done = work("\n".join(lines), self.names, title)
        self.names |= done.values
        self.made += done.blocks

    def _part(self, lines: Sequence[str], of: str, name: str) -> None:
        self._run(lines, f"Deflection by {of}")
        self.parts.append(Term(1, name))

    def _moments(self, *numbers: int) -> bool:
        """Moments over the supports by name, with the lines that give them; whether any of some is not 0."""
        supports = self.supports
        self.names |= {n: v for n, v in supports.names.items() if n.startswith("M_")}
        bent = any(abs(float(self.names[f"M_{n}"].magnitude)) > 0 for n in numbers)
        if bent and supports.moments_printed:
            self.made.append(aside(f"Moments over the supports as for the {supports.moments_printed}."))
        elif bent:
            self.made += supports.moments
            supports.moments_printed = self.title[:1].lower() + self.title[1:]
        return bent

    def _span(self) -> None:
        number, start, end = self._number, self.bay.start, self.bay.end
        x, l = self.worst.x - start, f"l_{number}"
        self.names |= {"x": INCH.of(x), "x_r": INCH.of(end - self.worst.x)}
        bent = self._moments(number, number + 1)
        middle = abs(x - (end - start) / 2) < NEAR
        for p in self.acting.on([self.statics.bays.index(self.bay)]):
            n = p.n
            if p.even and p.covers(start, end):
                of_middle = f"simple_span_deflection(w_{n}, {l}, E, I)"
                call = of_middle if middle else f"uniform_load_deflection(w_{n}, x, {l}, E, I)"
                case = f"{plain(f'W_{n}')} (AWC Design Aid 6, fig. 1)"
                self._part([f"delta_{n} = {call}"], case, f"delta_{n}")
            elif p.spread and p.covers(start, end):
                self._growing(p, l)
            elif p.spread or p.couple:
                raise _NoCaseError(_PART)
            elif min(p.part.start - start, end - p.part.start) > NEAR:
                right = p.part.start > self.worst.x
                reach = f"a_{number + 1} - x_{n}" if right else f"x_{n} - a_{number}"
                there = "x" if right else "x_r"
                lines = [f"b_{n} = {reach}", *([] if right else [f"x_r = {l} - x"])]
                lines.append(f"delta_{n} = point_load_deflection(W_{n}, b_{n}, {there}, {l}, E, I)")
                self._part(lines, plain(f"W_{n}"), f"delta_{n}")
        if bent:
            call = f"end_moment_deflection(M_{number}, M_{number + 1}, x, {l}, E, I)"
            self._part([f"delta_M = {call}"], "the moments over the supports", "delta_M")

    def _growing(self, p: Piece, l: str) -> None:
        """A load that grows over the whole span: its lower end as an even load, and what it grows by."""
        n, falls = p.n, abs(p.part.first) > abs(p.part.last)
        low, high = (f"w_b{n}", f"w_a{n}") if falls else (f"w_a{n}", f"w_b{n}")
        if min(abs(p.part.first), abs(p.part.last)) > 0:
            call = f"uniform_load_deflection({low}, x, {l}, E, I)"
            self._part([f"delta_u{n} = {call}"], f"the even part of {plain(f'W_{n}')}", f"delta_u{n}")
        there = "x_r" if falls else "x"
        lines = [f"w_g{n} = {high} - {low}", *([f"x_r = {l} - x"] if falls else [])]
        lines.append(f"delta_g{n} = growing_load_deflection(w_g{n}, {there}, {l}, E, I)")
        self._part(lines, f"what {plain(f'W_{n}')} grows by", f"delta_g{n}")

    def _overhang(self) -> None:
        places, x = self.statics.beam.supports, self.worst.x
        right = x > places[-1]
        tip = self.statics.beam.length if right else 0.0
        if abs(x - tip) > NEAR:
            raise _NoCaseError(_BETWEEN)
        near = len(places) if right else 1
        root = places[near - 1]
        self.names["a"] = INCH.of(abs(tip - root))
        if len(places) > 1:
            self._turned(near, right=right)
        for p in self.acting.on([self.statics.bays.index(self.bay)]):
            self._cantilever(p, near, right=right, root=root, tip=tip)

    def _turned(self, near: int, *, right: bool) -> None:
        """What the slope over the support does at the end of the overhang."""
        span, other = (near - 1, near - 1) if right else (near, near + 1)
        start = self.statics.beam.supports[span - 1]
        bay = next(i for i, b in enumerate(self.statics.bays) if abs(b.start - start) < NEAR)
        pieces = self.acting.on([bay])
        place = self.statics.bays[bay]
        if any(p.grows_within(place.start, place.end) for p in pieces):
            raise _NoCaseError(_PART)
        bent = self._moments(near, other)
        lines = [
            line for p in pieces for line in fixed_end(self.statics, p, span, at_right=right, symbol="o")
        ]
        if lines:
            self._run(lines, f"Fixed-end moments, span {span} fixed at support {near}")
        terms = added_up(self.acting, pieces, self.names, "o")
        M_f = terms[0].text if len(terms) == 1 else "M_f"
        if not terms:
            self.names[M_f] = POUND_INCH.of(0.0)
        elif terms[1:]:
            self._run([f"M_f = {total(terms)}"], f"Fixed-end moment of span {span} for {plain(self.symbol)}")
        if terms or bent:
            call = f"overhang_turned_deflection({M_f}, M_{near}, M_{other}, l_{span}, a, E, I)"
            self._part([f"delta_0 = {call}"], "the slope over the support", "delta_0")

    def _cantilever(self, p: Piece, near: int, *, right: bool, root: float, tip: float) -> None:
        n = p.n
        if p.even and p.covers(min(root, tip), max(root, tip)):
            self._part([f"delta_{n} = cantilever_deflection(w_{n}, a, E, I)"], plain(f"W_{n}"), f"delta_{n}")
            return
        if p.spread and p.covers(min(root, tip), max(root, tip)):
            ends = f"w_a{n}, w_b{n}" if right else f"w_b{n}, w_a{n}"
            call = f"cantilever_growing_deflection({ends}, a, E, I)"
            self._part([f"delta_{n} = {call}"], plain(f"W_{n}"), f"delta_{n}")
            return
        if p.spread:
            raise _NoCaseError(_PART)
        if abs(p.part.start - root) < NEAR and not p.couple:
            return
        support = f"a_{near}" if len(self.statics.beam.supports) > 1 else ""
        lines = [f"b_{n} = x_{n} - {support}" if right else f"b_{n} = {support} - x_{n}"]
        if not support:
            lines = [f"b_{n} = x_{n}"]
        if p.couple:
            lines.append(f"T_{n} = {'' if right else '-'}C_{n}  # bends the end down")
            lines.append(f"delta_{n} = cantilever_couple_deflection(T_{n}, b_{n}, a, E, I)")
        else:
            lines.append(f"delta_{n} = cantilever_point_deflection(W_{n}, b_{n}, a, E, I)")
        self._part(lines, plain(f"C_{n}" if p.couple else f"W_{n}"), f"delta_{n}")
