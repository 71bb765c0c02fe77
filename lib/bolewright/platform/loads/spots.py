"""Where one heavy person may stand so that a member is at its worst: on the members, and at the ends of the boards.

Along a board the load on a member changes evenly from member to member, and on past the last one to the board's end.
So the worst places are on the members themselves and on the edges past the last member; along both, at the ends, the
seats and just beside them, a section's depth from each, where a span deflects most, and at most 12 in. apart.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString

from bolewright.mechanics.loads import PointLoad
from bolewright.platform.layout.board_ends import bear_each_way, board_width
from bolewright.platform.layout.boards import BoardField
from bolewright.platform.layout.borne import Borne, Share
from bolewright.platform.layout.lines import Vector, evenly
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.loads.balance import middle
from bolewright.platform.loads.board_edges import EdgeRun, edge_runs

_STEP = 8.0  # in: places are no further apart
_SKEW = 4.0  # in: nor these, along an edge askew to boards and members: lever and place change together
_ONE = 1e-6  # in: places nearer than this are one
_NOTHING = 1e-9  # lb per lb
_BESIDE = 0.01  # in: beside a seat a person's whole weight is shear of the member; on the seat none of it is
SAGS = (0.35, 0.42, 0.5, 0.58, 0.65)  # of a span: where one load bends it most, also on seats that give
_LEAST = 0.01  # in: deck that reaches less past the last member has its end on it


@dataclass(frozen=True)
class Spot:
    """A place in plan where one heavy person may stand, and what the members under it get of the person."""

    point: Vector
    shares: tuple[Share, ...]


def find_spots(layout: Layout) -> tuple[Spot, ...]:
    """Places for one heavy person: along every member under the boards, and along edges past the last member."""
    spots = [spot for member in layout.flush for spot in _on_member(layout, member)]
    ends: dict[tuple[object, ...], Spot] = {}
    for boards in layout.board_fields:
        for run in past_runs(boards):
            for point in _places(layout, run):
                for spot in _ends(layout, run, point):
                    key = (
                        *(round(x, 3) for x in point),
                        *((s.member, round(s.part, 4), round(middle(s.load), 3)) for s in spot.shares),
                    )
                    ends.setdefault(key, spot)
    return (*spots, *ends.values())


def past_runs(boards: BoardField) -> Iterator[EdgeRun]:
    """Stretches of the edges of a field at which boards end past the last member, or with none under them."""
    for ring in (boards.region.exterior, *boards.region.interiors):
        for a, b in pairwise(ring.coords):
            for run in edge_runs(boards, a, b):
                if run.cell.way.past and past_last(run) > _LEAST:
                    yield run


def past_last(run: EdgeRun) -> float:
    """How far a run of edge is past the last member at most, along the board; endless where none is under it."""
    last = run.cell.way.members[:1]
    if not last:
        return math.inf
    return max(abs(t - last[0].at(s)) for s, t in map(run.boards.place, (run.start, run.end)))


def _on_member(layout: Layout, member: Member) -> Iterator[Spot]:
    """Places on a member where deck lies on it."""
    wood = LineString([member.line.start, member.line.end]).buffer(member.width / 2, cap_style="flat")
    covered = layout.deck.intersection(wood)
    for part in getattr(covered, "geoms", [covered]):
        if part.geom_type == "Polygon" and not part.is_empty:
            ends = [member.line.along(point) for point in part.exterior.coords]
            for x in _standing(member, min(ends), max(ends)):
                yield Spot(member.line.at(x), (Share(member.mark, PointLoad(x), 1.0),))


def _standing(member: Member, low: float, high: float) -> list[float]:
    """Places along a stretch of a member."""
    low, high = max(low, 0.0), min(high, member.line.length)
    fixed = [low, *(x for x in _looked_at(member) if low < x < high), high]
    return _filled(fixed)


def _looked_at(member: Member) -> Iterator[float]:
    """Seats and just beside them, the sections at the depth from each, and where the spans deflection most."""
    for seat in member.seats:
        yield from (seat.at - member.section.d, seat.at - _BESIDE, seat.at, seat.at + _BESIDE)
        yield seat.at + member.section.d
    for one, other in pairwise(member.seats):
        yield from (one.at + part * (other.at - one.at) for part in SAGS)


def _filled(fixed: Iterable[float], step: float = _STEP) -> list[float]:
    """Places with others between them, at most a step (in) apart; each once."""
    places: list[float] = []
    for a, b in pairwise(sorted(fixed)):
        places += evenly(a, b, max(1, math.ceil((b - a) / step - 1e-9)))
    return [places[0], *(b for a, b in pairwise(places) if b - a > _ONE)] if places else sorted(fixed)


def _places(layout: Layout, run: EdgeRun) -> Iterator[Vector]:
    """Places along a run of edge: as along the last member under the boards there, and those that hold them down."""
    (s_a, t_a), (s_b, t_b) = run.boards.place(run.start), run.boards.place(run.end)
    fixed = [0.0, run.length]
    skew = abs(s_b - s_a) > _ONE and any(
        abs(t_b - t_a - slope.k * (s_b - s_a)) > _ONE for slope in run.cell.members[:1]
    )
    for slope in run.cell.members:
        if abs(s_b - s_a) > _ONE:
            member = layout.member(slope.name)
            for x in _looked_at(member):
                s, _ = run.boards.place(member.line.at(x))
                if min(s_a, s_b) < s < max(s_a, s_b):
                    fixed.append((s - s_a) / (s_b - s_a) * run.length)
    for at in _filled(fixed, _SKEW if skew else _STEP):
        yield run.at(at / run.length)


def _ends(layout: Layout, run: EdgeRun, point: Vector) -> Iterator[Spot]:
    s, t = run.boards.place(point)
    for way in bear_each_way(layout, run.boards, run.cell, s, t, board_width(layout)):
        yield _spot(point, way)


def _spot(point: Vector, way: Iterable[Borne]) -> Spot:
    """A wide board's parts come to a member at places of their own: brought to one, a rim was bent 3 % more by them."""
    shares = (Share(b.member, PointLoad(b.x), b.pounds) for b in way if abs(b.pounds) > _NOTHING)
    return Spot(point, tuple(shares))
