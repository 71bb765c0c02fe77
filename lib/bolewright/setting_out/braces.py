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
from bolewright.setting_out.tolerance import SIXTEENTH
from bolewright.timber.sections import parse_section
from bolewright.units import Length, Ratio

END_DISTANCE = 7.0  # bolt diameters from the end of a brace that may pull (NDS 2018, Table 12.5.1A, softwood)
SPACING = 4.0  # bolt diameters between bolts in a row, as the checks count them (NDS 2018, Table 12.5.1B)
EDGE_DISTANCE = 4.0  # bolt diameters to the edge that the force points at (NDS 2018, Table 12.5.1C)


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
def lapped_length(l_b: Length, n: Ratio, s: Length, e: Length) -> Length:
    """Length of a brace lapped on post and carrier.

    Parameters: l_b distance between the middles of the bolts at its ends (in); n bolts in a row at each end, s apart
    (in); e end distance of the outer bolts (in).
    Returns: L (in). Source: geometry; end distance and spacing by NDS 2018, Tables 12.5.1A and 12.5.1B.

    >>> lapped_length(40.0, 2.0, 2.0, 4.0)
    50.0
    """
    L: Length = l_b + (n - 1) * s + 2 * e
    return L


@formula("Geometry (hole in a lapped brace)")
def hole_from_middle(k: Ratio, n: Ratio, s: Length) -> Length:
    """Distance of a hole from the middle of its row, along the brace, positive upwards.

    Parameters: k number of the hole, 1 the lowest; n holes in the row; s between them (in). Returns: x_k (in).
    Source: geometry.

    >>> hole_from_middle(1.0, 2.0, 2.0), hole_from_middle(3.0, 3.0, 2.0)
    (-1.0, 2.0)
    """
    x_k: Length = (k - (n + 1) / 2) * s
    return x_k


@formula("Geometry (part of a sloping distance)")
def level_part(x: Length, a: Length, r: Length) -> Length:
    """Level part of a distance along a brace.

    Parameters: x distance along the brace (in); a rise, r run of the brace (in). Returns: x_h (in).
    Source: geometry, similar triangles.

    >>> float(level_part(10.0, 30.0, 40.0))
    8.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    x_h: Length = x * r / L_b
    return x_h


@formula("Geometry (part of a sloping distance)")
def plumb_part(x: Length, a: Length, r: Length) -> Length:
    """Upright part of a distance along a brace.

    Parameters: x distance along the brace (in); a rise, r run of the brace (in). Returns: x_v (in).
    Source: geometry, similar triangles.

    >>> float(plumb_part(10.0, 30.0, 40.0))
    6.0
    """
    L_b: Length = sqrt(a**2 + r**2)
    x_v: Length = x * a / L_b
    return x_v


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
class BoltHole:
    """A bolt hole of a lapped brace; lengths in inches.

    ``on_brace`` is from its lower end along its middle line. On the post ``across`` is from the post's centre line
    (positive the way the brace leans) and ``up`` from the carrier's underside (negative: below); on the carrier
    ``across`` is from its start and ``up`` from its underside. ``edge`` is to the nearest edge of post or carrier
    alongside the grain.
    """

    on: str
    number: int
    on_brace: float
    across: float
    up: float
    edge: float


@dataclass(frozen=True)
class BraceCut:
    """A knee brace as it is cut; lengths in inches, cuts in degrees from square.

    ``plumb`` is the cut that lies on the post, ``level`` the one under the carrier, both for a fitted brace, with its
    ``long_edge`` and ``short_edge`` point to point. A lapped one has square ends: ``long_edge`` is its length and
    ``short_edge`` runs from the middle of its bolts to the middle of the others. ``axis`` runs between the working
    points. ``along_carrier`` is where it meets the underside, or the middle of its upper bolts, from the carrier's
    start. ``holes`` are those of a lapped one, from below; ``edge_wanted`` how far they keep from the edges of post and
    carrier.
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
    holes: tuple[BoltHole, ...]
    edge_wanted: float
    steps: tuple[Step, ...]

    @property
    def near_edges(self) -> tuple[BoltHole, ...]:
        """Holes that come nearer to an edge of post or carrier than the checks count with."""
        return tuple(hole for hole in self.holes if hole.edge < self.edge_wanted - SIXTEENTH / 2)


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
        D, n = brace.bolt_diameter or 0.0, float(brace.bolts or 0)
        e, s = _up(END_DISTANCE * D, 0.25), _up(SPACING * D, SIXTEENTH)
        over = carrier.section.d / 2
        short = float(run(lapped_bolt_distance, L_b=axis, a=brace.rise, h=over))
        long = float(run(lapped_length, l_b=short, n=n, s=s, e=e))
        along += over / slope
        plumb = level = 0.0
    sense = 1.0 if brace.towards == "end" else -1.0
    start = pieces[brace.carrier].from_start[0][0]
    foot = carrier.line.along(support.at) - start
    holes: list[BoltHole] = []
    if not fitted:
        middles = ((brace.support, 0.0, -brace.rise), (brace.carrier, along, over))
        ways = {"a": brace.rise, "r": brace.run}
        for end, (on, x, z) in enumerate(middles):
            for k in range(1, int(n) + 1):
                off = float(run(hole_from_middle, k=float(k), n=n, s=s))
                x_k, z_k = (
                    x + float(run(level_part, x=off, **ways)),
                    z + float(run(plumb_part, x=off, **ways)),
                )
                on_brace = e + (n - 1) * s / 2 + end * short + off
                edge = post.b / 2 - abs(x_k) if end == 0 else min(z_k, carrier.section.d - z_k)
                across = x_k if end == 0 else foot + sense * x_k
                holes.append(BoltHole(on, k, on_brace, across, z_k, edge))
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
        along_carrier=foot + sense * along,
        holes=tuple(holes),
        edge_wanted=EDGE_DISTANCE * (brace.bolt_diameter or 0.0),
        steps=calculation.at(()),
    )


def _up(length: float, division: float) -> float:
    return math.ceil(length / division - 1e-9) * division
