"""Knee braces as they are cut: lengths and end cuts, fitted between post and carrier or lapped on their sides."""

from __future__ import annotations

import math
from dataclasses import dataclass

from numpy import sqrt

from bolewright.bracing.knee import brace_length
from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout import Layout
from bolewright.platform.project import Brace
from bolewright.setting_out.bevel import bevel_from_square
from bolewright.setting_out.pieces import Piece
from bolewright.timber.sections import parse_section
from bolewright.units import Length, Ratio

END_DISTANCE = 7.0  # bolt diameters from the end of a brace that may pull (NDS 2018, Table 12.5.1A, softwood)


@formula("Geometry (knee brace between faces)")
def knee_long_edge(a: Length, r: Length, w: Length, d: Length) -> Length:
    """Long edge, underneath, of a knee fitted between the post's face and the carrier's underside.

    Its centre line meets the post's centre line ``a`` below the carrier and the carrier's underside ``r`` from there.

    Parameters: a rise, r run between working points (in); w width of the post along the carrier (in); d depth of
    the brace (in). Returns: L_long (in), long point to long point. Source: geometry, similar triangles.

    >>> round(float(knee_long_edge(30.0, 30.0, 0.0, 4.0)), 3)
    46.426
    """
    L_b: Length = sqrt(a**2 + r**2)
    L_c: Length = L_b * (1 - w / (2 * r))
    L_long: Length = L_c + d / 2 * (a / r + r / a)
    return L_long


@formula("Geometry (knee brace between faces)")
def knee_short_edge(a: Length, r: Length, w: Length, d: Length) -> Length:
    """Short edge, on top, of a knee fitted between the post's face and the carrier's underside.

    Parameters: as :func:`knee_long_edge`. Returns: L_short (in). Source: geometry, similar triangles.

    >>> round(float(knee_short_edge(30.0, 30.0, 0.0, 4.0)), 3)
    38.426
    """
    L_b: Length = sqrt(a**2 + r**2)
    L_c: Length = L_b * (1 - w / (2 * r))
    L_short: Length = L_c - d / 2 * (a / r + r / a)
    return L_short


@formula("Geometry (lapped brace, similar triangles)")
def lapped_bolt_distance(L_b: Length, a: Length, h: Length) -> Length:
    """Distance along a lapped brace from its bolts in the post to its bolts in the carrier.

    The upper bolts stand on the brace's own line, above the working point at the carrier's underside.

    Parameters: L_b distance between the working points (in); a rise between them (in); h height of the upper bolts
    over the carrier's underside (in). Returns: l_b (in). Source: geometry, similar triangles.

    >>> lapped_bolt_distance(50.0, 40.0, 10.0)
    62.5
    """
    l_b: Length = L_b * (1 + h / a)
    return l_b


@formula("Geometry (lapped brace, square ends)")
def lapped_length(l_b: Length, e: Length) -> Length:
    """Length of a brace lapped on post and carrier.

    Parameters: l_b distance between the bolts at its ends (in); e end distance of the outer bolts (in).
    Returns: L (in). Source: geometry; end distance by NDS 2018, Table 12.5.1A.

    >>> lapped_length(40.0, 4.0)
    48.0
    """
    L: Length = l_b + 2 * e
    return L


@formula("Geometry (slope of a brace)")
def brace_slope(a: Length, r: Length) -> Ratio:
    """Slope of a brace: rise over run; the tangent of its plumb cut from square.

    Parameters: a rise, r run (in). Returns: t. Source: geometry.

    >>> brace_slope(30.0, 40.0)
    0.75
    """
    t: Ratio = a / r
    return t


@dataclass(frozen=True)
class BraceCut:
    """A knee brace as it is cut; lengths in inches, cuts in degrees from square.

    ``plumb`` is the cut that lies on the post, ``level`` the one under the carrier, both for a fitted brace, with its
    ``long_edge`` and ``short_edge`` point to point. A lapped one has square ends: ``long_edge`` is its length and
    ``short_edge`` runs from bolts to bolts. ``axis`` runs between the working points. ``along_carrier`` is where it
    meets the underside, or the middle of its upper bolts, from the carrier's start.
    """

    mark: str
    section: str
    plies: int
    fitted: bool
    axis: float
    long_edge: float
    short_edge: float
    plumb: float
    level: float
    post: str
    below_carrier: float
    along_carrier: float
    steps: tuple[Step, ...]


def brace_cuts(layout: Layout, pieces: dict[str, Piece]) -> tuple[BraceCut, ...]:
    """Every knee brace as it is cut; a lapped one has its upper bolts at mid-depth of the carrier."""
    return tuple(_brace_cut(layout, brace, pieces) for brace in layout.project.braces)


def _brace_cut(layout: Layout, brace: Brace, pieces: dict[str, Piece]) -> BraceCut:
    support = next(s for s in layout.supports if s.mark == brace.support)
    carrier = layout.member(brace.carrier)
    post = parse_section(layout.project.posts[support.post or ""].section)
    section = parse_section(brace.section)
    calculation = Calculation()
    run = calculation.run
    axis = float(run(brace_length, a=brace.rise, r=brace.run))
    slope = float(run(brace_slope, a=brace.rise, r=brace.run))
    plumb = float(run(bevel_from_square, t=slope))
    level = float(run(bevel_from_square, t=1 / slope))
    fitted = brace.bolts is None
    along = brace.run
    if fitted:
        sizes = {"a": brace.rise, "r": brace.run, "w": post.b, "d": section.d}
        long, short = float(run(knee_long_edge, **sizes)), float(run(knee_short_edge, **sizes))
    else:
        e = math.ceil(END_DISTANCE * (brace.bolt_diameter or 0.0) * 4) / 4
        over = carrier.section.d / 2
        short = float(run(lapped_bolt_distance, L_b=axis, a=brace.rise, h=over))
        long = float(run(lapped_length, l_b=short, e=e))
        along += over / slope
        plumb = level = 0.0
    sense = 1.0 if brace.towards == "end" else -1.0
    start = pieces[brace.carrier].from_start[0][0]
    return BraceCut(
        mark=brace.mark,
        section=section.name,
        plies=brace.plies,
        fitted=fitted,
        axis=axis,
        long_edge=long,
        short_edge=short,
        plumb=plumb,
        level=level,
        post=brace.support,
        below_carrier=brace.rise,
        along_carrier=carrier.line.along(support.at) + sense * along - start,
        steps=calculation.at(()),
    )
