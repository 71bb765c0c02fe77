"""Weight of the guards on the members: a line load on the edge, handed on by the boards as the deck beside it is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from bolewright.mechanics.loads import UnitLoad
from bolewright.platform.layout.board_ends import bear_at_edge, board_width
from bolewright.platform.layout.boards import BoardField
from bolewright.platform.layout.borne import REACH, Borne, nearest_member
from bolewright.platform.layout.lines import Vector, evenly
from bolewright.platform.layout.parts import Layout, LayoutError
from bolewright.platform.loads.board_edges import EdgeRun, edge_runs
from bolewright.platform.loads.spreading import Part, sloping
from bolewright.units import feet_inches

_ON = 0.01  # in: a side of a field's region this near to an edge of the outline lies on it
_INSIDE = 0.1  # in
_NOTHING = 1e-9  # lb per lb
_PIECE = 12.0  # in
_SKEW = 1.0  # in: along an edge askew to boards and members lever, place and part of a board's width change together


@dataclass(frozen=True)
class GuardLoad:
    """Pounds of the guard on an edge that come onto a member; negative where the boards lift it."""

    edge: int
    member: str
    load: UnitLoad
    pounds: float


def guard_loads(layout: Layout) -> Iterator[GuardLoad]:
    """What the members get of the guards on the edges of the outline.

    In pieces of at most a foot, each with its force and moment on every member.
    """
    loads = layout.project.loads
    if not loads.guard_edges:
        return
    outline = layout.project.platform.outline
    fields = layout.board_fields
    for edge in loads.guard_edges:
        start, end = outline[edge - 1], outline[edge % len(outline)]
        runs = [run for boards in fields for run in _on_edge(boards, start, end)]
        for run in runs:
            _refuse_far(layout, edge, run)
        whole = loads.guard / 12 * math.dist(start, end)
        length = sum(run.length for run in runs)
        for run in runs:
            for mark, load, part in _shares(layout, run):
                yield GuardLoad(edge, mark, load, whole * part * run.length / length)


def _on_edge(boards: BoardField, start: Vector, end: Vector) -> Iterator[EdgeRun]:
    """Runs of a field's region on an edge of the outline."""
    length = math.dist(start, end)
    u = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    for ring in (boards.region.exterior, *boards.region.interiors):
        for a, b in pairwise(ring.coords):
            places = [(x - start[0]) * u[0] + (y - start[1]) * u[1] for x, y in (a, b)]
            off = [abs((x - start[0]) * u[1] - (y - start[1]) * u[0]) for x, y in (a, b)]
            if max(off) < _ON and max(places) > _ON and min(places) < length - _ON:
                yield from edge_runs(boards, a, b)


def _shares(layout: Layout, run: EdgeRun) -> Iterator[Part]:
    """Shares of a line load along a run, each with its place, in parts of the whole run."""
    width = board_width(layout)

    inside = min(
        _INSIDE / run.length, 0.5
    )  # right at its ends members meet: what one of them gets jumps there

    @cache  # an inner cut ends one piece and begins the next
    def borne(f: float) -> list[Borne]:
        at = run.at(min(max(f, inside), 1.0 - inside))
        return list(bear_at_edge(layout, run.boards, run.cell, *run.boards.place(at), width))

    for low, high in pairwise(_cuts(layout, run)):
        for here, there in ((low, high), (high, low)):
            ends = (run.boards.place(run.at(here)), run.boards.place(run.at(there)))
            for one in borne(here):
                if abs(one.pounds) > _NOTHING:
                    yield from sloping(layout, run.boards, one, (high - low) / 2, ends)


def _cuts(layout: Layout, run: EdgeRun) -> list[float]:
    """Parts of a run: cut where members under its boards have a seat, and no piece longer than a foot; askew, less."""
    (s_a, t_a), (s_b, t_b) = run.boards.place(run.start), run.boards.place(run.end)
    piece = _SKEW if min(abs(s_b - s_a), abs(t_b - t_a)) > _ON * run.length else _PIECE
    fixed = {0.0, 1.0}
    if abs(s_b - s_a) > _ON:
        for slope in run.cell.members:
            member = layout.member(slope.name)
            start, rate = run.boards.started(member)
            fixed |= {(start + seat.at * rate - s_a) / (s_b - s_a) for seat in member.seats}
    cuts: list[float] = []
    for a, b in pairwise(sorted(f for f in fixed if 0 <= f <= 1)):
        if (b - a) * run.length > _NOTHING:
            cuts += evenly(a, b, max(1, math.ceil((b - a) * run.length / piece - 1e-9)))[:-1]
    return [*cuts, 1.0]


def _refuse_far(layout: Layout, edge: int, run: EdgeRun) -> None:
    point = run.at(0.5)
    member = nearest_member(layout, point)
    if member.line.distance(point) > max(REACH, run.boards.field.spacing / 2 + 1.0):
        raise LayoutError(
            f"The guard on edge {edge} of the outline stands {feet_inches(member.line.distance(point))} from "
            f"the nearest member, {member.mark}: nothing carries it."
        )
