"""What knee braces and crossed rods show to the wind, along the upright plane that they stand in and square to it.

Each spans between its ends (statics). Half of what a knee brace catches comes to its beam, half to its post below,
which hands on to the floor what its height gives; half of what a brace from a trunk catches, and half of a rod's, goes
into the lower tree bolt and into the ground. Areas are projected on a plane square to the wind (ASCE 7-16, 29.4): two
boards of one brace are met side by side along their plane, and as one across it, where one stands behind the other.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.layout.rod_ends import RodEnds, rod_ends
from bolewright.platform.layout.trunk_braces import TrunkBrace, trunk_braces
from bolewright.platform.loads.access_wind import FOOT, Shown
from bolewright.platform.project import Brace, CrossedRods
from bolewright.timber.sections import parse_section

ROUND_C_F = 1.2  # round members, the largest of ASCE 7-16, Table 29.4-2


def shown_by_braces(layout: Layout) -> Iterator[Shown]:
    """Knee braces at posts, knee braces from trunks, and crossed rods."""
    for brace in layout.project.braces:
        yield _knee(layout, brace)
    for strut in trunk_braces(layout):
        yield _from_trunk(strut)
    for rods in layout.project.crossed_rods:
        for n, ends in enumerate(rod_ends(layout, rods), start=1):
            yield _rod(rods, ends, n)


def _knee(layout: Layout, brace: Brace) -> Shown:
    beam, section = layout.member(brace.beam), parse_section(brace.section)
    post = next(seat for seat in beam.seats if seat.below == brace.support)
    side = 1.0 if brace.towards == "end" else -1.0
    middle = beam.line.at(post.at + side * brace.run / 2)
    share = (1 + (beam.bottom - brace.rise) / beam.bottom) / 2
    broad = (brace.plies * section.b, section.d)
    return _timber(brace.mark, broad, share, (brace.run, brace.rise), beam, middle)


def _from_trunk(brace: TrunkBrace) -> Shown:
    middle = brace.beam.line.at(brace.at - brace.side * brace.r / 2)
    broad = (brace.section.b, brace.section.d)
    return _timber(brace.mark, broad, FOOT, (brace.r, brace.a), brace.beam, middle)


def _timber(
    mark: str,
    broad: tuple[float, float],
    share: float,
    run_rise: tuple[float, float],
    beam: Member,
    middle: Vector,
) -> Shown:
    """A brace in the upright plane of a beam: its breadth is met along it, its depth across it."""
    (b, d), (run, rise) = broad, run_rise
    length = math.hypot(run, rise)
    high = rise + d * run / length
    return Shown(
        f"knee brace {mark}", share * b * high, share * d * length, beam.line.u, middle, high, beam.bottom
    )


def _rod(rods: CrossedRods, ends: RodEnds, n: int) -> Shown:
    high = ends.high - ends.low
    x, y = ((a + b) / 2 for a, b in zip(ends.head, ends.foot, strict=True))
    along = (ends.away[0] / ends.run, ends.away[1] / ends.run)
    side, front = FOOT * rods.diameter * high, FOOT * rods.diameter * math.hypot(ends.run, high)
    return Shown(f"rod {n} of {rods.mark}", side, front, along, (x, y), high, ends.high, ROUND_C_F)
