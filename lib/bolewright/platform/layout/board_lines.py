"""Edges and members as the boards see them: straight lines in the axes of a joist field."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout
from bolewright.platform.project import JoistField

_TINY = 1e-6  # in
_ALONG = 1e-3  # in across the boards: a line that rises less runs along them, and no board crosses it


@dataclass(frozen=True)
class Slope:
    """A straight line ``t = t_0 + k (s - low)`` over [low, high], along a member or an edge of the deck.

    ``half`` is half the width of a member (in); ``hangs_from`` the members that it sits on. ``at_end`` where the line
    is the boards' end and the member's own is past it: it bears them at their end, square to it.
    """

    name: str
    low: float
    high: float
    t_0: float
    k: float
    half: float = 0.0
    hangs_from: tuple[str, ...] = ()
    at_end: bool = False

    def at(self, s: float) -> float:
        """Place of the line along the boards."""
        return self.t_0 + self.k * (s - self.low)

    @cached_property
    def reach(self) -> float:
        """How far from its centre line a member's face is, along the board (in)."""
        return self.half * math.hypot(1.0, self.k)

    @cached_property
    def sine(self) -> float:
        """Sine of the angle between the line and the boards."""
        return 1.0 / math.hypot(1.0, self.k)

    def meets(self, other: Slope, above: float = 0.0) -> float | None:
        """Where between the ends of both this line crosses another, or one so far above that; None where nowhere."""
        if abs(self.k - other.k) < 1e-9:
            return None
        low, high = max(self.low, other.low), min(self.high, other.high)
        if high - low < _TINY:
            return None
        s = low - (self.at(low) - other.at(low) - above) / (self.k - other.k)
        return s if low + _TINY < s < high - _TINY else None


def slope_of(
    name: str, a: Sequence[float], b: Sequence[float], u: Vector, n: Vector, half: float = 0.0
) -> Slope | None:
    """Line between two plan points in the axes ``u``, ``n``; None for one that runs along the boards."""
    (s_a, t_a), (s_b, t_b) = ((p[0] * u[0] + p[1] * u[1], p[0] * n[0] + p[1] * n[1]) for p in (a, b))
    if abs(s_b - s_a) < (_ALONG if half else _TINY):
        return None
    k = (t_b - t_a) / (s_b - s_a)
    return Slope(name, s_a, s_b, t_a, k, half) if s_a < s_b else Slope(name, s_b, s_a, t_b, k, half)


@dataclass(frozen=True)
class Beside:
    """A member along the boards: its wood is from ``low`` to ``high`` across them, from ``start`` to ``end`` along."""

    name: str
    low: float
    high: float
    start: float
    end: float


def field_members(
    layout: Layout, field: JoistField, u: Vector, n: Vector
) -> tuple[tuple[Slope, ...], tuple[Beside, ...]]:
    """Members under the boards of a field, its joists and the beams flush with them: crossed, and lain along."""
    crossed, beside = [], []
    for m in layout.flush:
        if m.field not in ("", field.mark):
            continue
        seen = slope_of(m.mark, m.line.start, m.line.end, u, n, m.width / 2)
        if seen:
            crossed.append(replace(seen, hangs_from=tuple(seat.below for seat in m.seats)))
            continue
        s, *ends = (
            m.line.at(m.line.length / 2)[0] * u[0] + m.line.at(m.line.length / 2)[1] * u[1],
            *(p[0] * n[0] + p[1] * n[1] for p in (m.line.start, m.line.end)),
        )
        beside.append(Beside(m.mark, s - m.width / 2, s + m.width / 2, min(ends), max(ends)))
    return tuple(crossed), tuple(beside)
