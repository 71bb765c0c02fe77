"""A continuous beam: the response to each of many unit loads, exact at any station.

Lengths in inches, forces in pounds, moments in lb·in, EI in lb·in². Loads and deflections are positive
downward, reactions upward, moments positive when the span bends down, slope positive when the beam falls with x.

The unknowns are deflection and moment at the supports, hinges and ends (three-moment equations, widened by
springs and hinges). Between these nodes the elastic line is the closed-form one of a simple span, so that a
beam needs no more nodes than it has supports, however many loads and stations there are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from bolewright.formulas import bare
from bolewright.mechanics.beam_model import CLOSE, Beam, BeamError
from bolewright.mechanics.beam_spans import Spans
from bolewright.mechanics.loads import (
    Array,
    CoupleLoad,
    LoadError,
    PointLoad,
    SpreadLoad,
    TriangleLoad,
    UnitLoad,
    arrange,
)
from bolewright.mechanics.stability import UnstableError
from bolewright.units import INCH, Value

__all__ = [
    "Beam",
    "BeamError",
    "BeamResponse",
    "CoupleLoad",
    "LoadError",
    "PointLoad",
    "SpreadLoad",
    "TriangleLoad",
    "UnitLoad",
    "UnstableError",
    "respond",
]


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

        Raises BeamError: a support or clamp is a spring, so that the reactions depend on EI too.
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


def respond(
    beam: Beam, loads: Sequence[UnitLoad], stations: npt.ArrayLike | Value | Sequence[Value]
) -> BeamResponse:
    """Response of a beam to each unit load, as a column, at each station, as a row.

    Parameters: ``beam`` the beam and how it is held; ``loads`` unit loads, 1 lb each; ``stations`` places to look at
    (in), anywhere on the beam, in any order. Raises UnstableError: the beam can move; the message names where;
    LoadError: a load that is not on the beam; BeamError: a station that is not on the beam.

    A simple span under a central load: P L^3 / 48 EI, P L / 4.

    >>> found = respond(Beam(120.0, (0.0, 120.0), 1e6), [PointLoad(60.0)], [60.0])
    >>> print(f"{found.deflection[0, 0]:.6g} {found.moment[0, 0]:.6g}")
    0.036 30
    """
    spans = Spans(beam)
    at = np.atleast_1d(np.asarray(bare("respond", "stations", INCH, stations), dtype=float))
    off = ~((at >= -CLOSE * beam.length) & (at <= beam.length * (1 + CLOSE)))
    if off.any():
        bad = at[off][0]
        raise BeamError(f"station x = {bad:g} in is not on the beam (0 to {beam.length:g} in)")
    scale = spans.scale
    unit = arrange(loads, beam.length).scaled(scale)
    nodes, length = spans.nodes, spans.length
    holder, turned = spans.holding(unit.point), spans.holding(unit.couple)

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
        turned,
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
    close = CLOSE * beam.length / scale
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
