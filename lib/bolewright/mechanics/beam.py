"""A continuous beam: the response to each of many unit loads, exact at any station.

Lengths in inches, forces in pounds, moments in lb·in, EI in lb·in². Loads and deflections are positive
downward, reactions upward, moments positive when they sag, slope positive when the beam falls with x.

The unknowns are deflection and moment at the supports, hinges and ends (three-moment equations, widened by
springs and hinges). Between these nodes the elastic line is the closed-form one of a simple span, so that a
beam needs no more nodes than it has supports, however many loads and stations there are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from bolewright.mechanics.loads import (
    Array,
    Integers,
    LoadError,
    PointLoad,
    SpreadLoad,
    TriangleLoad,
    UnitLoad,
    arrange,
)
from bolewright.mechanics.stability import UnstableError

__all__ = [
    "Beam",
    "BeamError",
    "BeamResponse",
    "LoadError",
    "PointLoad",
    "SpreadLoad",
    "TriangleLoad",
    "UnitLoad",
    "UnstableError",
    "respond",
]

_CLOSE = 1e-9  # of the beam's length: nearer than this is the same place
_SINGULAR = 1e12  # condition number of the scaled system above which the beam counts as a mechanism


class BeamError(ValueError):
    """A beam that makes no sense; one sentence that names the value and what is allowed."""


@dataclass(frozen=True)
class Beam:
    """A straight beam from x = 0 to ``length``.

    Parameters
    ----------
    length : beam length (in)
    supports : where it is held against moving up or down (in), in any order
    EI : bending stiffness (lb·in²), the same all along
    hinges : where it passes shear but no moment (in)
    springs : stiffness of each support (lb/in), None where rigid; left out when all are rigid
    clamps : rotational stiffness of the two ends (lb·in per radian): 0 free, None rigid

    Raises
    ------
    BeamError : a length, place or stiffness that is not allowed
    """

    length: float
    supports: tuple[float, ...]
    EI: float
    hinges: tuple[float, ...] = ()
    springs: tuple[float | None, ...] = ()
    clamps: tuple[float | None, float | None] = (0.0, 0.0)

    def __post_init__(self) -> None:
        if not 0 < self.length < float("inf"):
            raise BeamError(f"beam length {self.length:g} in: it must be above zero")
        if not 0 < self.EI < float("inf"):
            raise BeamError(f"beam EI {self.EI:g} lb·in²: it must be above zero")
        close = _CLOSE * self.length
        for word, places in (("support", self.supports), ("hinge", self.hinges)):
            for x in places:
                if not -close <= x <= self.length + close:
                    raise BeamError(f"{word} at x = {x:g} in is not on the beam (0 to {self.length:g} in)")
        ordered = sorted(self.supports)
        for one, other in pairwise(ordered):
            if other - one <= close:
                raise BeamError(f"two supports stand at x = {one:g} in: give one")
        if self.springs and len(self.springs) != len(self.supports):
            raise BeamError(f"{len(self.springs)} springs for {len(self.supports)} supports: give one each")
        for k in (*self.springs, *self.clamps):
            if k is not None and not 0 <= k < float("inf"):
                raise BeamError(f"spring stiffness {k:g}: it must be zero or above, or None for rigid")

    @property
    def is_rigidly_held(self) -> bool:
        """Whether no support and no clamp gives way, so that only deflections depend on EI."""
        return all(k is None for k in self.springs) and all(k in (None, 0.0) for k in self.clamps)


@dataclass(frozen=True)
class BeamResponse:
    """Effects of each unit load (a column) at each station (a row); any load case is ``array @ magnitudes``.

    ``reactions`` has one row per support in the order of :attr:`Beam.supports`; ``clamp_moments`` one row for
    each end, sagging positive. ``shear_left`` and ``shear_right`` are just left and just right of a station.
    At a hinge ``slope`` is the one of the part to its right.
    """

    beam: Beam
    stations: Array
    reactions: Array
    clamp_moments: Array
    moment: Array
    shear_left: Array
    shear_right: Array
    deflection: Array
    slope: Array

    def with_EI(self, EI: float) -> BeamResponse:
        """The same response for another bending stiffness, without solving again.

        Raises
        ------
        BeamError : a support or clamp is a spring, so that the reactions depend on EI too
        """
        if not self.beam.is_rigidly_held:
            raise BeamError("the beam has springs, so its reactions depend on EI: solve it again")
        softer = self.beam.EI / EI
        return replace(
            self,
            beam=replace(self.beam, EI=EI),
            deflection=self.deflection * softer,
            slope=self.slope * softer,
        )


def respond(beam: Beam, loads: Sequence[UnitLoad], stations: npt.ArrayLike) -> BeamResponse:
    """Response of a beam to each unit load, as a column, at each station, as a row.

    Parameters
    ----------
    beam : the beam and how it is held
    loads : unit loads, 1 lb each
    stations : places to look at (in), anywhere on the beam, in any order

    Raises
    ------
    UnstableError : the beam can move; the message names where
    LoadError : a load that is not on the beam
    BeamError : a station that is not on the beam

    Example
    -------
    A simple span under a central load: P L^3 / 48 EI, P L / 4.

    >>> found = respond(Beam(120.0, (0.0, 120.0), 1e6), [PointLoad(60.0)], [60.0])
    >>> print(f"{found.deflection[0, 0]:.6g} {found.moment[0, 0]:.6g}")
    0.036 30
    """
    spans = _Spans(beam)
    at = np.atleast_1d(np.asarray(stations, dtype=float))
    off = ~((at >= -_CLOSE * beam.length) & (at <= beam.length * (1 + _CLOSE)))
    if off.any():
        bad = at[off][0]
        raise BeamError(f"station x = {bad:g} in is not on the beam (0 to {beam.length:g} in)")
    scale = spans.scale
    unit = arrange(loads, beam.length).scaled(scale)
    nodes, length = spans.nodes, spans.length
    holder = spans.holding(unit.point)

    # Integrals of the load from the start of a span: to each span's end, and to each station.
    x = np.minimum(np.maximum(at / scale, nodes[0]), nodes[-1])
    inside = spans.holding(x)
    origin = nodes[inside]
    every = np.arange(length.size)
    integrals = unit.integrals(
        np.concatenate((nodes[1:], x)),
        np.concatenate((nodes[:-1], origin)),
        np.concatenate((every, inside)),
        holder,
    )
    to_end, to_x = integrals[:, : length.size], integrals[:, length.size :]

    # Each span alone, simply supported: end reactions, and end slopes times EI.
    along = length[:, None]
    reaction_a = to_end[0] / along
    reaction_b = unit.total_between(nodes[:-1], nodes[1:], holder) - reaction_a
    slope_a = reaction_a * along**2 / 6 - to_end[2] / along
    slope_b = to_end[1] + slope_a - reaction_a * along**2 / 2

    W, M = spans.solve(reaction_a, reaction_b, slope_a, slope_b)
    push = np.diff(M, axis=0) / along
    upward = np.zeros_like(M)
    upward[:-1] += reaction_a + push
    upward[1:] += reaction_b - push
    reactions = upward[spans.support_node]

    t = (x - origin)[:, None]
    L = length[inside][:, None]
    tau = t / L
    M_a, M_b, W_a, W_b = M[inside], M[inside + 1], W[inside], W[inside + 1]
    moment = M_a + (M_b - M_a) * tau + reaction_a[inside] * t - to_x[0]
    line = (
        W_a
        + (W_b - W_a) * tau
        + L**2 * tau / 6 * (M_a * (2 - 3 * tau + tau**2) + M_b * (1 - tau**2))
        + to_x[2]
        + t * (slope_a[inside] - reaction_a[inside] * t**2 / 6)
    )
    slope = (
        (W_b - W_a) / L
        + L / 6 * (M_a * (2 - 6 * tau + 3 * tau**2) + M_b * (1 - 3 * tau**2))
        + to_x[1]
        + slope_a[inside]
        - reaction_a[inside] * t**2 / 2
    )
    close = _CLOSE * beam.length / scale
    ahead = x[:, None] - nodes[spans.support_node]
    load_left, load_right = unit.before(x, close)
    return BeamResponse(
        beam=beam,
        stations=at,
        reactions=reactions,
        clamp_moments=M[[0, -1]] * scale,
        moment=moment * scale,
        shear_left=(ahead > close).astype(float) @ reactions - load_left,
        shear_right=(ahead >= -close).astype(float) @ reactions - load_right,
        deflection=line * (scale**3 / beam.EI),
        slope=slope * (scale**2 / beam.EI),
    )


class _Spans:
    """The beam cut at supports, hinges and ends, in lengths divided by the mean span (``scale``)."""

    def __init__(self, beam: Beam) -> None:
        self.beam = beam
        close = _CLOSE * beam.length
        places = [0.0, beam.length]
        for x in (*beam.supports, *beam.hinges):
            if all(abs(x - other) > close for other in places):
                places.append(x)
        ordered = np.sort(np.array(places))
        self.scale = beam.length / (ordered.size - 1)
        self.nodes: Array = ordered / self.scale
        self.length: Array = np.diff(self.nodes)
        self.support_node = self._nearest(beam.supports)
        self.hinge_node = self._nearest(beam.hinges)

    def _nearest(self, places: tuple[float, ...]) -> Integers:
        scaled = np.array(places, dtype=float) / self.scale
        return np.asarray(np.abs(scaled[:, None] - self.nodes).argmin(axis=1), dtype=np.int64)

    def holding(self, x: Array) -> Integers:
        """Span that holds each place; at a node the one to its right."""
        found = self.nodes[1:-1].searchsorted(x, side="right")
        return np.asarray(found, dtype=np.int64)

    def solve(
        self, reaction_a: Array, reaction_b: Array, slope_a: Array, slope_b: Array
    ) -> tuple[Array, Array]:
        """EI times deflection, and moment, at each node for each load."""
        n = self.nodes.size
        matrix = np.zeros((2 * n, 2 * n))
        right = np.zeros((2 * n, reaction_a.shape[1]))
        self._vertical(matrix[0::2], right[0::2], reaction_a, reaction_b)
        self._turning(matrix[1::2], right[1::2], slope_a, slope_b)
        try:
            solved = np.linalg.solve(matrix, np.hstack((right, np.eye(2 * n))))
        except np.linalg.LinAlgError:
            raise self._moving(matrix) from None
        inverse = solved[:, -2 * n :]
        if not np.abs(matrix).sum(axis=0).max() * np.abs(inverse).sum(axis=0).max() < _SINGULAR:
            raise self._moving(matrix)
        unknowns = np.asarray(solved[:, : -2 * n], dtype=np.float64)
        return unknowns[0::2], unknowns[1::2]

    def _vertical(self, rows: Array, right: Array, reaction_a: Array, reaction_b: Array) -> None:
        """Rows: the spans' end shears balance the reaction; a rigid support does not move."""
        inner = np.arange(self.length.size)
        W, M = rows[:, 0::2], rows[:, 1::2]
        per = 1 / self.length
        M[inner, inner] -= per
        M[inner, inner + 1] += per
        M[inner + 1, inner + 1] -= per
        M[inner + 1, inner] += per
        right[:-1] -= reaction_a
        right[1:] -= reaction_b
        springs = self.beam.springs or (None,) * len(self.beam.supports)
        for node, k in zip(self.support_node, springs, strict=True):
            if k is None:
                rows[node] = 0.0
                right[node] = 0.0
                W[node, node] = 1.0
            else:
                stiffness = k * self.scale**3 / self.beam.EI
                rows[node] /= max(1.0, stiffness)
                right[node] /= max(1.0, stiffness)
                W[node, node] -= stiffness / max(1.0, stiffness)

    def _turning(self, rows: Array, right: Array, slope_a: Array, slope_b: Array) -> None:
        """Rows: the slope passes through a node unbroken; no moment at a hinge or a free end."""
        inner = np.arange(self.length.size)
        W, M = rows[:, 0::2], rows[:, 1::2]
        per, sixth = 1 / self.length, self.length / 6
        W[inner + 1, inner + 1] += per  # slope at the right end of the span on the left
        W[inner + 1, inner] -= per
        M[inner + 1, inner] -= sixth
        M[inner + 1, inner + 1] -= 2 * sixth
        W[inner, inner + 1] -= per  # less the slope at the left end of the span on the right
        W[inner, inner] += per
        M[inner, inner] -= 2 * sixth
        M[inner, inner + 1] -= sixth
        right[1:] -= slope_b
        right[:-1] += slope_a
        for node, k in ((0, self.beam.clamps[0]), (self.nodes.size - 1, self.beam.clamps[1])):
            if k is not None:  # else the clamp is rigid and the row above says: slope = 0
                stiffness = k * self.scale / self.beam.EI
                rows[node] *= stiffness / max(1.0, stiffness)
                right[node] *= stiffness / max(1.0, stiffness)
                M[node, node] -= 1 / max(1.0, stiffness)
        for node in self.hinge_node:
            rows[node] = 0.0
            right[node] = 0.0
            M[node, node] = 1.0

    def _moving(self, matrix: Array) -> UnstableError:
        motion = np.abs(np.linalg.svd(matrix)[2][-1][0::2])
        x = float(self.nodes[motion.argmax()] * self.scale)
        held = ", ".join(f"{support:g}" for support in self.beam.supports) or "nowhere"
        hinges = f" and hinges at {', '.join(f'{h:g}' for h in self.beam.hinges)}" if self.beam.hinges else ""
        return UnstableError(
            f"the beam can move up and down at x = {x:g} in: supports at {held}{hinges} do not hold it",
            where=f"x = {x:g} in",
            direction="vertical",
        )
