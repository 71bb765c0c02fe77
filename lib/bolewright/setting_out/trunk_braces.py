"""Knee braces from a trunk as they are cut and bored: foot square, head level, bolts on the middle line."""

from __future__ import annotations

from dataclasses import dataclass

from numpy import sqrt

from bolewright.bracing.knee import brace_length
from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.pieces import Piece
from bolewright.platform.layout.trunk_brace_ends import APART, END, SHOE, SPACING, is_paired, paired_standoff
from bolewright.platform.layout.trunk_braces import TrunkBrace, trunk_braces
from bolewright.timber.bevel import bevel_from_square
from bolewright.units import Length, Ratio


@formula("Geometry (brace cut level at its head)")
def level_head_long_edge(a: Length, r: Length, s_f: Length, d: Length) -> Length:
    """Longer edge, underneath, of a brace with a square foot and a head that is cut level.

    Parameters: a rise, r run between its working points, s_f from the lower one to its foot, d depth of the brace
    (in). Returns: L_long (in), from the foot to the long point. Source: geometry.

    >>> float(level_head_long_edge(40.0, 30.0, 2.0, 8.0))
    51.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    L_long: Length = L_b - s_f + d * r / (2 * a)
    return L_long


@formula("Geometry (brace cut level at its head)")
def level_head_short_edge(a: Length, r: Length, s_f: Length, d: Length) -> Length:
    """Shorter edge, on top, of a brace with a square foot and a head that is cut level.

    Parameters: as :func:`level_head_long_edge`. Returns: L_short (in). Source: geometry.

    >>> float(level_head_short_edge(40.0, 30.0, 2.0, 8.0))
    45.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    L_short: Length = L_b - s_f - d * r / (2 * a)
    return L_short


@formula("Geometry (slope from plumb)")
def slope_from_plumb(a: Length, r: Length) -> Ratio:
    """Run over rise of a brace: the tangent of its level cut from square.

    Parameters: a rise, r run (in). Returns: t. Source: geometry.

    >>> slope_from_plumb(40.0, 30.0)
    0.75
    """
    t: Ratio = r / a
    return t


@dataclass(frozen=True)
class TrunkBraceCut:
    """A knee brace from a trunk as it is cut; lengths in inches.

    ``axis`` between its working points; ``standoff`` from the lower one, the bearing on its bolt, to its square foot;
    ``level`` the cut of its head in degrees from square. ``foot_level`` of the bearing above grade, ``below`` the
    beam's underside. ``on_beam`` the middle of its head from the beam's start as it is cut. ``foot_holes`` and
    ``head_holes`` from the foot along the middle line, ``beam_holes`` from the beam's start at mid-depth.
    """

    mark: str
    section: str
    kind: str
    foot: str
    beam: str
    axis: float
    standoff: float
    long_edge: float
    short_edge: float
    level: float
    foot_level: float
    below: float
    on_beam: float
    foot_holes: tuple[float, ...]
    head_holes: tuple[float, ...]
    beam_holes: tuple[float, ...]
    steps: tuple[Step, ...]


def trunk_brace_cuts(layout: Layout, pieces: dict[str, Piece]) -> tuple[TrunkBraceCut, ...]:
    """Every knee brace from a trunk as it is cut."""
    return tuple(_cut(layout, brace, pieces) for brace in trunk_braces(layout))


def _cut(layout: Layout, brace: TrunkBrace, pieces: dict[str, Piece]) -> TrunkBraceCut:
    calculation = Calculation()
    run = calculation.run
    ways = {"a": brace.a, "r": brace.r}
    axis = float(run(brace_length, **ways))
    s_f = SHOE
    if is_paired(layout, brace):
        s_f = max(SHOE, float(run(paired_standoff, d=brace.section.d, g=APART, **ways)))
    sizes = {**ways, "s_f": s_f, "d": brace.section.d}
    long, short = float(run(level_head_long_edge, **sizes)), float(run(level_head_short_edge, **sizes))
    level = float(run(bevel_from_square, t=run(slope_from_plumb, **ways)))
    on_beam = brace.at - pieces[brace.beam.mark].from_start[0][0]
    D, strut = brace.strut.bolt_diameter or 0.0, brace.strut
    n, m = strut.head_bolts or 0, strut.foot_bolts or 0
    middle = axis - s_f
    return TrunkBraceCut(
        mark=brace.mark,
        section=brace.section.name,
        kind=brace.support.strut or "",
        foot=brace.foot.mark,
        beam=brace.beam.mark,
        axis=axis,
        standoff=s_f,
        long_edge=long,
        short_edge=short,
        level=level,
        foot_level=brace.foot_level,
        below=brace.a,
        on_beam=on_beam,
        foot_holes=tuple(END * D + k * SPACING * D for k in range(m)) if D else (),
        head_holes=tuple(middle - END * D - k * SPACING * D for k in reversed(range(n))) if D else (),
        beam_holes=tuple(on_beam + (k - (n - 1) / 2) * SPACING * D for k in range(n)) if D else (),
        steps=calculation.at(()),
    )
