"""Moments over the supports of a beam and its reactions under one pattern, line by line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from bolewright.mechanics.beam_cases import three_moments
from bolewright.part_sheets.beam_hand import MODEL, aside
from bolewright.part_sheets.beam_pieces import NEAR, Acting, Piece, Term, total
from bolewright.part_sheets.beam_statics import BeamStatics
from bolewright.rendering.blocks import Block
from bolewright.rendering.wording import plain
from bolewright.units import POUND_INCH
from bolewright.worked import WorkedError, work

GROWS = "the fixed-end moment of a load that grows along a part of a span is not worked out on this sheet"
ALIKE = "its terms are too nearly alike to be taken from each other with the figures that are printed"
_VERTICAL = "  # vertical forces"


def fixed_end(statics: BeamStatics, p: Piece, span: int, *, at_right: bool, symbol: str = "m") -> list[str]:
    """Lines of the moment that a load makes at one end of its span, fixed there and free to turn at the other.

    Taken positive. An even load and a force are AWC Design Aid 6, figs. 15 and 17; a part of an even load is the sum of
    forces, a couple two of them close together.
    """
    n, l, far = p.n, f"l_{span}", f"a_{span}" if at_right else f"a_{span + 1}"
    a, b = statics.beam.supports[span - 1 : span + 1]
    name = f"{symbol}_{n}" if symbol == "m" else f"m_{symbol}{n}"

    def reach(x: str) -> str:
        return f"{x} - {far}" if at_right else f"{far} - {x}"

    if p.even and p.covers(a, b):
        return [f"{name} = w_{n} * {l}**2 / 8  # AWC Design Aid 6, fig. 15"]
    if p.spread and not p.even:
        held, free = (f"w_b{n}", f"w_a{n}") if at_right else (f"w_a{n}", f"w_b{n}")
        return [f"{name} = {l}**2 * (8 * {held} + 7 * {free}) / 120  # fig. 17, added up over the span"]
    if p.spread:
        near, off = (f"s_{n}", f"e_{n}") if at_right else (f"e_{n}", f"s_{n}")
        lines = [f"c_{n} = {reach(near)}", f"d_{n} = {reach(off)}"]
        term = f"W_{n} * (c_{n} + d_{n}) * (2 * {l}**2 - c_{n}**2 - d_{n}**2) / (8 * {l}**2)"
        return [*lines, f"{name} = {term}  # fig. 17, added up over the part"]
    if p.couple:
        sign = "" if at_right else "-"
        term = f"{sign}C_{n} * ({l}**2 - 3 * b_{n}**2) / (2 * {l}**2)"
        return [f"b_{n} = {reach(f'x_{n}')}", f"{name} = {term}  # fig. 17, two forces close together"]
    if min(abs(p.part.start - a), abs(p.part.start - b)) < NEAR:
        return []
    term = f"W_{n} * b_{n} * ({l}**2 - b_{n}**2) / (2 * {l}**2)"
    return [f"b_{n} = {reach(f'x_{n}')}", f"{name} = {term}  # AWC Design Aid 6, fig. 17"]


def added_up(acting: Acting, pieces: Sequence[Piece], known: Mapping[str, Any], symbol: str) -> list[Term]:
    """Fixed-end moments of some loads that were worked out, each with its share."""
    names = {p: f"m_{p.n}" if symbol == "m" else f"m_{symbol}{p.n}" for p in pieces}
    return [Term(1, f"{acting.times(p)}{name}") for p, name in names.items() if name in known]


class Supports:
    """A pattern solved at its supports: blocks, names of its moments and reactions, or why it has none."""

    def __init__(self, statics: BeamStatics, acting: Acting, names: Mapping[str, Any], of: str) -> None:
        self.statics, self.acting, self.of = statics, acting, of
        self.names: dict[str, Any] = {**names, "three_moments": three_moments}
        self.moments: list[Block] = []
        self.reactions: list[Block] = []
        self.missing = ""
        self.moments_printed = ""
        spans = [i for i, bay in enumerate(statics.bays) if not bay.overhang]
        self.first, self.last = (spans[0], spans[-1]) if spans else (0, 0)
        count = len(statics.beam.supports)
        grows = count == 3 and any(self._grows_within(p) for p in acting.on(spans))
        try:
            if count > 1:
                self._outer()
            if grows:
                self._middle_of_model()
            elif count == 3:
                self._middle()
            (self._of_one, self._of_two, self._of_three)[count - 1]()
        except WorkedError:
            self.missing = ALIKE

    def _grows_within(self, p: Piece) -> bool:
        bay = self.statics.bays[p.bay]
        return p.grows_within(bay.start, bay.end)

    def _run(self, lines: Sequence[str], title: str, to: list[Block]) -> None:
        done = work("\n".join(lines), self.names, title)
        self.names |= done.values
        to += done.blocks

    def _outer(self) -> None:
        """Moments over the outer supports; none is printed that is 0."""
        places = self.statics.beam.supports
        lines = []
        for n, past, sign in ((1, range(self.first), 1), (len(places), self._past_last, -1)):
            text = total(self.acting.moments(self.acting.on(list(past)), f"a_{n}", places[n - 1]), sign)
            if text:
                lines.append(f"M_{n} = {text}  # over support {n}")
            else:
                self.names[f"M_{n}"] = POUND_INCH.of(0.0)
        if lines:
            self._run(lines, f"Moments over the outer supports for {self.of}", self.moments)

    @property
    def _past_last(self) -> range:
        return range(self.last + 1, len(self.statics.bays))

    def _middle(self) -> None:
        """The moment over the middle one of three supports."""
        given = []
        for span, bay in ((1, self.first), (2, self.last)):
            terms = added_up(self.acting, self.acting.on([bay]), self.names, "m")
            name = f"M_f{span}"
            if not terms:
                self.names[name] = POUND_INCH.of(0.0)
            elif len(terms) == 1 and terms[0].text in self.names:
                name = terms[0].text
            else:
                title = f"Fixed-end moment of span {span} for {self.of}"
                self._run([f"{name} = {total(terms)}"], title, self.moments)
            given.append(name)
        call = f"M_2 = three_moments(M_1, M_3, {given[0]}, {given[1]}, l_1, l_2)"
        self._run([call], f"Three moments for {self.of}", self.moments)

    def _middle_of_model(self) -> None:
        """The same moment from the beam model, where a load's fixed-end moment is not worked out."""
        found = self.statics.diagrams(self.acting.worst)
        M_2 = float(np.interp(self.statics.beam.supports[1], found.stations, found.moment))
        self.moments.append(aside(f"{plain('M_2')} is that of {MODEL}: {GROWS}."))
        line = f'M_2 = Q("{float(f"{M_2:.6g}"):.10g} lb in")  # by the beam model'
        self._run([line], f"Moment over support 2 for {self.of}", self.moments)

    def _of_one(self) -> None:
        every = self.acting.pieces
        forces = self.acting.forces(every)
        lines = [f"R_1 = {total(forces)}{_VERTICAL}"] if forces else []
        turning = total(self.acting.moments(every, "", 0.0), -1)
        if turning:
            lines.append(f"M_0 = {turning}  # moments about the clamp")
        self._run(lines, f"Reactions for {self.of}", self.reactions)

    def _of_two(self) -> None:
        acting, places = self.acting, self.statics.beam.supports
        about_1 = total(acting.moments(acting.pieces, "a_1", places[0])) or "0 * W_1"
        about_2 = total(acting.moments(acting.pieces, "a_2", places[1]), -1)
        second = f"R_2 = ({about_1}) / l_1  # moments about support 1"
        rest = total([*acting.forces(acting.pieces), Term(-1, "R_2")])
        ways = [[second, f"R_1 = {rest}{_VERTICAL}"]]
        if about_2:
            ways.append([second, f"R_1 = ({about_2}) / l_1  # moments about support 2"])
        self._first_that_prints(ways)

    def _of_three(self) -> None:
        """From the moments left and right of the middle support; its own by vertical forces or from either side."""
        acting, (a_1, a_2, a_3) = self.acting, self.statics.beam.supports
        left = [p for p in acting.pieces if p.bay <= self.first]
        right = [p for p in acting.pieces if p.bay > self.first]
        M_2 = Term(1, "M_2")
        of_1 = total([M_2, *(Term(-t.sign, t.text) for t in acting.moments(left, "a_2", a_2))])
        of_3 = total([M_2, *acting.moments(right, "a_2", a_2)])
        lines = [
            f"R_1 = ({of_1}) / l_1  # moments left of support 2",
            f"R_3 = ({of_3}) / l_2  # moments right of it",
        ]
        forces = total([*acting.forces(acting.pieces), Term(-1, "R_1"), Term(-1, "R_3")])
        from_1 = total([*acting.moments(left, "a_1", a_1), Term(-1, "M_2")])
        from_3 = total([M_2, *acting.moments(right, "a_3", a_3)], -1)
        sides = f"R_2 = ({from_1}) / l_1 + ({from_3}) / l_2  # moments about supports 1 and 3"
        self._first_that_prints([[*lines, f"R_2 = {forces}{_VERTICAL}"], [*lines, sides]])

    def _first_that_prints(self, ways: Sequence[Sequence[str]]) -> None:
        for lines in ways[:-1]:
            try:
                self._run(lines, f"Reactions for {self.of}", self.reactions)
            except WorkedError:
                continue
            return
        self._run(ways[-1], f"Reactions for {self.of}", self.reactions)
