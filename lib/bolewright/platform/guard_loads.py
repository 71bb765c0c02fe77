"""Weight of the guards on the members: a line load on the edge, handed on by the boards as the deck beside it is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from bolewright.mechanics.loads import UnitLoad
from bolewright.platform.board_edges import EdgeRun, edge_runs
from bolewright.platform.board_ends import bear_at_edge, board_width
from bolewright.platform.boards import BoardField
from bolewright.platform.lines import Vector
from bolewright.platform.panels import PANEL, REACH, nearest_member, spread_share
from bolewright.platform.parts import Layout, LayoutError
from bolewright.units import feet_inches

_ON = 0.01  # in: a side of a field's region this near to an edge of the outline lies on it
_NOTHING = 1e-9  # lb per lb
_GAUSS = (0.5 - 1 / math.sqrt(12), 0.5 + 1 / math.sqrt(12))


@dataclass(frozen=True)
class GuardLoad:
    """Pounds of the guard on an edge that come onto a member; negative where the boards lift it."""

    edge: int
    member: str
    load: UnitLoad
    pounds: float


def guard_loads(layout: Layout) -> Iterator[GuardLoad]:
    """What the members get of the guards on the edges of the outline.

    Exact where a member's part is the same along a stretch of edge; else in pieces of at most 12 in.
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


def _shares(layout: Layout, run: EdgeRun) -> Iterator[tuple[str, UnitLoad, float]]:
    """Shares of a line load along a run, each with its place, in parts of the whole run."""
    even = _parts(layout, run, 0.0, 1.0)
    if not even.varies or run.length <= PANEL:
        yield from even.shares
        return
    count = max(1, math.ceil(run.length / PANEL - 1e-9))
    for i in range(count):
        piece = _parts(layout, run, i / count, (i + 1) / count)
        for mark, load, part in piece.shares:
            yield mark, load, part / count


@dataclass(frozen=True)
class _Parts:
    shares: list[tuple[str, UnitLoad, float]]
    varies: bool


def _parts(layout: Layout, run: EdgeRun, low: float, high: float) -> _Parts:
    """Members' parts of a line load on a stretch of a run, from two places of Gauss's rule."""
    at = [low + g * (high - low) for g in _GAUSS]
    found: dict[tuple[str, bool], list[tuple[float, float]]] = {}
    for f in at:
        s, t = run.boards.place(run.at(f))
        for borne in bear_at_edge(layout, run.boards, run.cell, s, t, board_width(layout)):
            found.setdefault((borne.member, borne.square), []).append((borne.pounds / 2, borne.x))
    shares = []
    varies, still = False, True
    for key, some in found.items():
        part = sum(pounds for pounds, _ in some)
        (_, first), (_, last) = some[0], some[-1]
        out = (last - first) * (math.sqrt(3) - 1) / 2  # from a place of Gauss's rule on to the end
        varies |= len(some) != 2 or abs(some[0][0] - some[1][0]) > _NOTHING
        still &= abs(last - first) < _ON
        if abs(part) > _NOTHING:
            x = sum(pounds * x for pounds, x in some) / part
            share = spread_share(layout.member(key[0]), part, x, (first - out, last + out))
            shares.append((key[0], share.load, part))
    # a member's part that changes along the run while its place on the member does not is exact all the same
    return _Parts(shares, varies and not still)


def _refuse_far(layout: Layout, edge: int, run: EdgeRun) -> None:
    point = run.at(0.5)
    member = nearest_member(layout, point)
    if member.line.distance(point) > max(REACH, run.boards.field.spacing / 2 + 1.0):
        raise LayoutError(
            f"The guard on edge {edge} of the outline stands {feet_inches(member.line.distance(point))} from "
            f"the nearest member, {member.mark}: nothing carries it."
        )
