"""Knee braces as they are cut: lengths and end cuts, fitted between post and beam or lapped on their sides."""

from __future__ import annotations

from dataclasses import dataclass

from numpy import sqrt

from bolewright.bracing.knee import brace_length
from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout.brace_bolts import BraceBolts, Distance, brace_bolts
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.pieces import Piece
from bolewright.platform.project import Brace
from bolewright.timber.bevel import bevel_from_square
from bolewright.timber.sections import parse_section
from bolewright.units import Length, Ratio


@formula("Geometry (knee brace between faces)")
def knee_long_edge(a: Length, r: Length, w: Length, d: Length) -> Length:
    """Long edge, underneath, of a knee fitted between the post's face and the beam's underside.

    Its centre line meets the post's centre line ``a`` below the beam and the beam's underside ``r`` from there.

    Parameters: a rise, r run between working points (in); w width of the post along the beam (in); d depth of
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
    """Short edge, on top, of a knee fitted between the post's face and the beam's underside.

    Parameters: as :func:`knee_long_edge`. Returns: L_short (in). Source: geometry, similar triangles.

    >>> round(float(knee_short_edge(30.0, 30.0, 0.0, 4.0)), 3)
    38.426
    """
    L_b: Length = sqrt(a**2 + r**2)
    L_c: Length = L_b * (1 - w / (2 * r))
    L_short: Length = L_c - d / 2 * (a / r + r / a)
    return L_short


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

    ``on_brace`` is from its lower end, ``off`` how far it stands off its middle line (positive on the upper side). On
    the post ``across`` is from the post's centre line (positive the way the brace leans) and ``up`` from the beam's
    underside (negative: below); on the beam ``across`` is from its start and ``up`` from its underside. ``level`` is
    the level distance from the post's centre line towards the brace's head.
    """

    on: str
    number: int
    on_brace: float
    off: float
    across: float
    up: float
    level: float


@dataclass(frozen=True)
class BraceCut:
    """A knee brace as it is cut; lengths in inches, cuts in degrees from square.

    ``plumb`` is the cut that lies on the post, ``level`` the one under the beam, both for a fitted brace, with its
    ``long_edge`` and ``short_edge`` point to point. A lapped one has square ends: ``long_edge`` is its length and
    ``short_edge`` runs from the middle of its bolts to the middle of the others, ``lower_end`` from its lower end to
    the middle of the bolts there. ``axis`` runs between the working points. ``along_beam`` is where it meets the
    underside, or the middle of its upper bolts, from the beam's start. ``holes`` are those of a lapped one, from
    below; ``distances`` what they keep.
    """

    mark: str
    section: str
    plies: int
    fitted: bool
    axis: float
    long_edge: float
    short_edge: float
    lower_end: float
    plumb: float
    level: float
    post: str
    below_beam: float
    along_beam: float
    holes: tuple[BoltHole, ...]
    distances: tuple[Distance, ...]
    steps: tuple[Step, ...]


def brace_cuts(layout: Layout, pieces: dict[str, Piece]) -> tuple[BraceCut, ...]:
    """Every knee brace as it is cut; a lapped one has its upper bolts at mid-depth of the beam."""
    return tuple(_brace_cut(layout, brace, pieces) for brace in layout.project.braces)


def _brace_cut(layout: Layout, brace: Brace, pieces: dict[str, Piece]) -> BraceCut:
    support = next(s for s in layout.supports if s.mark == brace.support)
    beam = layout.member(brace.beam)
    post = parse_section(layout.project.posts[support.post or ""].section)
    section = parse_section(brace.section)
    sense = 1.0 if brace.towards == "end" else -1.0
    start = pieces[brace.beam].from_start[0][0]
    foot = beam.line.along(support.at) - start
    bolts = brace_bolts(layout, brace)
    calculation = Calculation()
    run = calculation.run
    if bolts is None:
        axis = float(run(brace_length, a=brace.rise, r=brace.run))
        slope = float(run(brace_slope, a=brace.rise, r=brace.run))
        plumb = float(run(bevel_from_square, t=slope))
        level = float(run(bevel_from_square, t=1 / slope))
        sizes = {"a": brace.rise, "r": brace.run, "w": post.b, "d": section.d}
        long, short = float(run(knee_long_edge, **sizes)), float(run(knee_short_edge, **sizes))
        lower, along, steps = 0.0, brace.run, calculation.at(())
    else:
        axis = float(brace_length(a=brace.rise, r=brace.run))
        long, short, lower = bolts.length, bolts.between, bolts.lower
        along = brace.run + beam.section.d / 2 * brace.run / brace.rise
        plumb = level = 0.0
        steps = bolts.steps
    return BraceCut(
        mark=brace.mark,
        section=section.name,
        plies=brace.plies,
        fitted=bolts is None,
        axis=axis,
        long_edge=long,
        short_edge=short,
        lower_end=lower,
        plumb=plumb,
        level=level,
        post=brace.support,
        below_beam=brace.rise,
        along_beam=foot + sense * along,
        holes=_holes(bolts, brace, foot, sense) if bolts else (),
        distances=bolts.distances if bolts else (),
        steps=steps,
    )


def _holes(bolts: BraceBolts, brace: Brace, foot: float, sense: float) -> tuple[BoltHole, ...]:
    return tuple(
        BoltHole(
            on=hole.on,
            number=hole.number,
            on_brace=hole.along,
            off=hole.off,
            across=hole.x if hole.on == brace.support else foot + sense * hole.x,
            up=hole.z,
            level=hole.x,
        )
        for hole in bolts.holes
    )
