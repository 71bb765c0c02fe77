"""Bolts of a lapped knee brace: the one place that says where they stand and what distances they keep.

Checks, cut lengths, setting-out and drawings all read them here. In the post the bolts stand upright on its middle
line, in the beam level at its mid-depth, so each timber has its row along its own grain.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.bracing.knee import brace_length
from bolewright.bracing.lapped import (
    hole_from_middle,
    lapped_bolt_distance,
    lapped_length,
    part_by_rise,
    part_by_run,
)
from bolewright.calculation import Calculation, Step
from bolewright.fasteners.geometry import GREATEST_OUTER_ROWS, row_spacing_perpendicular
from bolewright.platform.layout.parts import Layout
from bolewright.platform.project import Brace
from bolewright.reference import load
from bolewright.timber.net_section import holes_in_one_section
from bolewright.timber.sections import Section, parse_section
from bolewright.units import feet_inches

CLEARANCE = 1 / 16  # in, a bolt hole is wider than its bolt
LOADED_EDGE = 4.0  # diameters (NDS 2018, Table 12.5.1C, load across the grain)
EDGE_ALONG = 1.5  # diameters (NDS 2018, Table 12.5.1C, load along the grain)
ROWS_ALONG = 1.5  # diameters between rows (NDS 2018, Table 12.5.1D, load along the grain)
SLENDER = 6.0  # l/D beyond which half the distance between rows counts at an edge (NDS 2018, Table 12.5.1C)
_QUARTER, _SIXTEENTH = 0.25, 1 / 16  # in: end distances and spacings are rounded up to what a tape shows
_ROUNDING = 1e-9
_NONE_LEFT = 1e-3  # in: a hole on an edge or beyond it


@dataclass(frozen=True)
class Hole:
    """A bolt hole; lengths in inches.

    ``on`` the post or beam, ``number`` from below in a post, from the post in a beam. ``along`` the brace from
    its lower end, ``off`` its middle line (positive on its upper side). ``x`` level from the post's middle line towards
    the brace's head, ``z`` up from the beam's underside.
    """

    on: str
    number: int
    along: float
    off: float
    x: float
    z: float


@dataclass(frozen=True)
class Distance:
    """A distance that bolts keep (in): what is there, the least or the most, and the one that leaves C_Delta at 1.

    ``at`` the post or beam whose end of the brace it belongs to; ``full`` 0 where it makes no C_Delta. ``chosen``
    here, and large enough, rather than left by the timbers.
    """

    at: str
    what: str
    actual: float
    limit: float
    full: float = 0.0
    most: bool = False
    chosen: bool = False

    @property
    def demand(self) -> float:
        """What is wanted of a least distance, what is there of a greatest one."""
        return self.actual if self.most else self.limit

    @property
    def capacity(self) -> float:
        """What is there of a least distance, what is allowed of a greatest one; above zero."""
        return self.limit if self.most else max(self.actual, _NONE_LEFT)

    @property
    def wrong(self) -> bool:
        """Whether it is below the least or above the most."""
        return self.demand > self.capacity + _ROUNDING

    @property
    def said(self) -> tuple[str, str]:
        """What is there and the limit, as written: a least rounded up, a most down, and never against each other.

        To the sixteenth; to thousandths of an inch where sixteenths would say another thing than the check.
        """
        there, limit = feet_inches(max(self.actual, 0.0)), feet_inches(_safe(self.limit, most=self.most))
        shown = round(max(self.actual, 0.0) / _SIXTEENTH) * _SIXTEENTH
        bound = _safe(self.limit, most=self.most)
        seems_wrong = shown > bound + _ROUNDING if self.most else shown < bound - _ROUNDING
        if seems_wrong == self.wrong:
            return there, limit
        return f"{self.actual:.3f} in.", f"{self.limit:.3f} in."


@dataclass(frozen=True)
class BraceBolts:
    """Bolts of a lapped brace: ``spacing`` along the grain of post and beam, ``end`` the brace's own end distance.

    ``lower`` and ``upper`` run along the brace from its ends to the middle of the bolts there, ``between`` from middle
    to middle; ``together`` is how many holes count in one section of the brace (NDS 2018, 3.1.2.3).
    """

    diameter: float
    count: int
    spacing: float
    end: float
    lower: float
    upper: float
    between: float
    together: int
    holes: tuple[Hole, ...]
    distances: tuple[Distance, ...]
    steps: tuple[Step, ...]

    @property
    def hole(self) -> float:
        """Diameter of a hole."""
        return self.diameter + CLEARANCE

    @property
    def length(self) -> float:
        """Length of the brace."""
        return self.lower + self.between + self.upper

    def holes_on(self, mark: str) -> tuple[Hole, ...]:
        """Holes in a post or beam."""
        return tuple(hole for hole in self.holes if hole.on == mark)

    def least_factor(self, mark: str) -> Distance:
        """The distance that makes C_Delta least at the end that is lapped on a post or beam."""
        own = [d for d in self.distances if d.at == mark and d.full]
        return min(own, key=lambda d: d.actual / d.full)


def brace_bolts(layout: Layout, brace: Brace) -> BraceBolts | None:
    """Where the bolts of a lapped brace stand; None for one whose ends are rated or not yet chosen."""
    if brace.bolts is None or brace.bolt_diameter is None:
        return None
    support = next(s for s in layout.supports if s.mark == brace.support)
    beam = layout.member(brace.beam)
    post, section = (
        parse_section(layout.project.posts[support.post or ""].section),
        parse_section(brace.section),
    )
    D, n, a, r = brace.bolt_diameter, brace.bolts, brace.rise, brace.run
    ways = {"a": a, "r": r}
    calculation = Calculation()
    run = calculation.run
    widths = (post.d, beam.width)
    slender = [min(width, brace.plies * section.ply_thickness) for width in widths]
    s = _spacing(D, slender)
    e = _up(_end_of_a_row()[1] * D, _QUARTER)
    over = beam.section.d / 2
    L_b = float(run(brace_length, **ways))
    between = float(run(lapped_bolt_distance, L_b=L_b, a=a, h=over))
    outermost = float(run(hole_from_middle, k=float(n), n=float(n), s=s))
    along = (float(run(part_by_rise, x=outermost, **ways)), float(run(part_by_run, x=outermost, **ways)))
    across = (along[1], along[0])  # what lies along the brace at one end lies across it at the other
    length = float(run(lapped_length, l_b=between, g_l=along[0], g_u=along[1], e=e))
    lower, upper = along[0] + e, along[1] + e
    head = r + over * r / a
    middles = ((brace.support, 0.0, -a, lower), (brace.beam, head, over, length - upper))
    holes = []
    for which, (on, x, z, at) in enumerate(middles):
        for k in range(1, n + 1):
            off = float(hole_from_middle(k=float(k), n=float(n), s=s))
            share = off / outermost if n > 1 else 0.0
            place = (x, z + off) if which == 0 else (x + off, z)
            side = share * across[which] * (1 if which == 0 else -1)
            holes.append(Hole(on, k, at + share * along[which], side, *place))
    own = beam.line.along(support.at)
    room = beam.line.length - own if brace.towards == "end" else own
    distances = [
        *_in_timber("post", brace.support, D, n, s, post.b / 2, a - outermost, "its top", slender[0]),
        *_in_timber("beam", beam.mark, D, n, s, over, room - head - outermost, "its end", slender[1]),
    ]
    ends = zip(middles, along, across, slender, strict=True)
    for (on, *_), along_it, across_it, l in ends:
        distances += _in_brace(on, D, n, section, e, along_it, across_it, l)
    return BraceBolts(
        diameter=D,
        count=n,
        spacing=s,
        end=e,
        lower=lower,
        upper=upper,
        between=between,
        together=max(
            holes_in_one_section(n, s, math.degrees(angle), D)
            for angle in (math.atan2(r, a), math.atan2(a, r))
        ),
        holes=tuple(holes),
        distances=tuple(distances),
        steps=calculation.at(()),
    )


def _spacing(D: float, lengths: list[float]) -> float:
    """Spacing of the bolts: a row along the grain at C_Delta 1, and rows side by side across it, whichever is more."""
    full = load("connection_geometry").row(what="spacing in row", load="parallel", wood="any")["full"]
    across = [float(row_spacing_perpendicular(l=l, D=D)) for l in lengths]
    return _up(max(full * D, *across), _SIXTEENTH)


def _end_of_a_row() -> tuple[float, float]:
    """Least and full end distance in diameters: softwood pulled, the larger, also for hardwood."""
    row = load("connection_geometry").row(what="end", load="parallel tension", wood="softwood")
    return row["least"], row["full"]


def _in_timber(
    kind: str, mark: str, D: float, n: int, s: float, edge: float, end: float, which: str, l: float
) -> list[Distance]:
    """Distances in post or beam, loaded aslant to its grain, to and fro: the rules of both directions."""
    least, full = _end_of_a_row()
    name = f"{kind} {mark}"
    found = [
        Distance(mark, f"hole to the edge of {name}", edge, LOADED_EDGE * D),
        Distance(mark, f"hole to {which} in {name}", end, least * D, full * D),
    ]
    if n > 1:
        row = load("connection_geometry").row(what="spacing in row", load="parallel", wood="any")
        rows = float(row_spacing_perpendicular(l=l, D=D))
        wanted = max(row["least"] * D, rows)
        found.append(Distance(mark, f"hole to hole in {name}", s, wanted, row["full"] * D, chosen=True))
    return found


def _in_brace(
    on: str, D: float, n: int, section: Section, e: float, along: float, across: float, l: float
) -> list[Distance]:
    """Distances in the brace at one end; ``along`` and ``across`` it from the middle of the bolts to the outermost."""
    least, full = _end_of_a_row()
    place = f"the brace at {on}"
    edge_least = EDGE_ALONG * D
    found = [Distance(on, f"hole to the end of {place}", e, least * D, full * D, chosen=True)]
    if n > 1:
        gap_along, gap_across = 2 * along / (n - 1), 2 * across / (n - 1)
        if gap_across >= ROWS_ALONG * D - _ROUNDING:  # each bolt is a row of its own beside the next
            if l / D > SLENDER:
                edge_least = max(edge_least, gap_across / 2)
            found.append(Distance(on, f"row to row across {place}", gap_across, ROWS_ALONG * D))
        else:
            row = load("connection_geometry").row(what="spacing in row", load="parallel", wood="any")
            found.append(
                Distance(on, f"hole to hole along {place}", gap_along, row["least"] * D, row["full"] * D)
            )
        found.append(
            Distance(on, f"outer rows apart across {place}", 2 * across, GREATEST_OUTER_ROWS, most=True)
        )
    found.append(Distance(on, f"hole to the edge of {place}", section.d / 2 - across, edge_least))
    return found


def _safe(limit: float, *, most: bool) -> float:
    """A limit to the sixteenth on its safe side: a least rounded up, a most rounded down."""
    return math.floor(limit / _SIXTEENTH + 1e-9) * _SIXTEENTH if most else _up(limit, _SIXTEENTH)


def _up(length: float, division: float) -> float:
    return math.ceil(length / division - 1e-9) * division
