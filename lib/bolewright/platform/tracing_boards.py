"""How the boards hand a load on: by the lever to the two members next to it along the board.

Past the last member under a board that one gets more than the load, and the next one in is lifted. Where no other
member holds the board down, or it lies along the last one, all of the load goes to that one, square to it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon

from bolewright.platform.boards import LEVER, OUTSIDE, SLANT, BoardField, Slope, board_field
from bolewright.platform.influence import Array, Integers
from bolewright.platform.joists import field_region
from bolewright.platform.panels import REACH
from bolewright.platform.parts import Layout, Member
from bolewright.platform.tracing_burden import EDGE, Pieces, TracingError
from bolewright.units import feet_inches

Fields = tuple[tuple[Polygon, BoardField], ...]
_TINY = 1e-6
_SECOND = 0.1  # in: of two members nearer than this along a board, the one that is there comes first


@dataclass(frozen=True)
class Arriving:
    """Load that arrives on a member: from what, the places along it (in) and the weights there (lb)."""

    source: str
    at: Array
    pounds: Array

    @property
    def total(self) -> float:
        """Weight of all of it (lb)."""
        return float(self.pounds.sum())


def fields_of(layout: Layout) -> Fields:
    """Each joist field's region of the deck, and the field seen along its boards."""
    return tuple(
        (field_region(field, layout.deck), board_field(layout, field)) for field in layout.project.joists
    )


def landing(layout: Layout, fields: Fields, pieces: Pieces) -> dict[str, list[Arriving]]:
    """What comes straight from the boards onto each member, in the order of the pieces."""
    found: dict[str, list[tuple[Array, Array]]] = {}
    left = np.ones(len(pieces.pounds), dtype=bool)
    for region, boards in fields:
        inside = left & (shapely.distance(region, shapely.points(pieces.places)) <= EDGE)
        left &= ~inside
        if inside.any():
            _land(layout, boards, pieces.places[inside], pieces.pounds[inside], found)
    if left.any():
        x, y = pieces.places[left][0]
        raise TracingError(f"No joist field lies under {feet_inches(float(x))}, {feet_inches(float(y))}.")
    return {
        mark: [Arriving("boards", np.concatenate([a for a, _ in some]), np.concatenate([p for _, p in some]))]
        for mark, some in found.items()
    }


def _land(
    layout: Layout,
    boards: BoardField,
    places: Array,
    pounds: Array,
    found: dict[str, list[tuple[Array, Array]]],
) -> None:
    """Share pieces of one joist field out between the members next to them along the boards."""
    s, t = places @ np.array(boards.u), places @ np.array(boards.n)
    one, two, t_one, t_two = _neighbours(layout, boards, s, t)
    lever = np.where(two >= 0, (t - t_one) / np.where(two >= 0, t_two - t_one, 1.0), 0.0)
    for side, share in ((one, 1 - lever), (two, lever)):
        for index in np.unique(side[(side >= 0) & (np.abs(share) > 1e-12)]):
            chosen = (side == index) & (np.abs(share) > 1e-12)
            member = layout.member(boards.members[index].name)
            square = (places[chosen] - np.array(member.line.start)) @ np.array(member.line.u)
            x = np.where(two[chosen] < 0, square, _along(member, boards, s[chosen]))
            inside = np.clip(x, 0.0, member.line.length)
            found.setdefault(member.mark, []).append((inside, pounds[chosen] * share[chosen]))
    for row in np.nonzero(one < 0)[0]:
        place = (float(places[row][0]), float(places[row][1]))
        member = min((layout.member(m.name) for m in boards.members), key=lambda m: m.line.distance(place))
        if member.line.distance(place) > REACH:
            raise TracingError(
                f"Nothing is under the boards at {feet_inches(place[0])}, {feet_inches(place[1])}."
            )
        x = np.array([member.line.nearest(place)])
        found.setdefault(member.mark, []).append((x, pounds[[row]]))


def _neighbours(
    layout: Layout, boards: BoardField, s: Array, t: Array
) -> tuple[Integers, Integers, Array, Array]:
    """The two members that bear the board at each place: number (-1: none) and place along the board.

    The one before and the one after it; past the last one that one, and the next one in by at least the lever. Only
    members under the same stretch of board count: none beyond an edge of the deck or of an opening. Of two
    in one line the one that is really there counts, not one whose end is near.
    """
    least, most = min(edge.low for edge in boards.edges), max(edge.high for edge in boards.edges)
    crossed = np.sort(_places(boards.edges, np.clip(s, least + _TINY, most - _TINY), 0.0), axis=0)
    into, out = crossed[::2], crossed[1::2]  # along a board deck begins and ends in turn
    low = np.max(np.where(into <= t + EDGE, into, -np.inf), axis=0)
    high = np.min(np.where(out >= t - EDGE, out, np.inf), axis=0)
    under = _places(boards.members, s, _TINY)
    under = np.where((under >= low - OUTSIDE) & (under <= high + OUTSIDE), under, np.nan)
    past = np.array([_past_end(layout.member(m.name), boards, s) for m in boards.members])
    near_end = np.where(past > _TINY, _SECOND, 0.0)
    below, t_below = _next(under, near_end, t + _TINY, -1)
    above, t_above = _next(under, near_end, t + _TINY, 1)
    one, t_one = np.where(below < 0, above, below), np.where(below < 0, t_above, t_below)
    slant = np.abs([m.k for m in boards.members])[one] > SLANT
    up, t_up = _next(under, near_end, t_one + LEVER, 1)
    down, t_down = _next(under, near_end, t_one - LEVER, -1)
    two = np.where(below < 0, np.where(slant, -1, up), np.where(above < 0, np.where(slant, -1, down), above))
    return one, two, t_one, np.where(below < 0, t_up, np.where(above < 0, t_down, t_above))


def _next(under: Array, near_end: Array, t: Array, way: int) -> tuple[Integers, Array]:
    """The member next to each place along its board, up or down the board: number (-1: none) and place."""
    off = way * (under - t)
    off = np.where((off > 0) if way > 0 else (off >= 0), off + near_end, np.inf)
    index = off.argmin(axis=0)
    every = np.arange(under.shape[1])
    there = np.isfinite(off[index, every])
    return np.where(there, index, -1), np.where(there, under[index, every], 0.0)


def _past_end(member: Member, boards: BoardField, s: Array) -> Array:
    x = _along(member, boards, s)
    return np.asarray(np.maximum(-x, x - member.line.length))


def _places(lines: Sequence[Slope], s: Array, slack: float) -> Array:
    """Place along the board of each line at each ``s``; no number where the line does not reach."""
    low, high, t_0, k = np.array([(x.low, x.high, x.t_0, x.k) for x in lines]).reshape(-1, 4).T[:, :, None]
    return np.asarray(np.where((s >= low - slack) & (s < high + slack), t_0 + k * (s - low), np.nan))


def _along(member: Member, boards: BoardField, s: Array) -> Array:
    """Places along a member of places ``s`` along the joists: loads come to it along the boards."""
    start = member.line.start[0] * boards.u[0] + member.line.start[1] * boards.u[1]
    rate = member.line.u[0] * boards.u[0] + member.line.u[1] * boards.u[1]
    return np.asarray((s - start) / rate)
