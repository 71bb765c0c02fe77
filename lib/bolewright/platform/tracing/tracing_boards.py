"""How the boards hand a burden on, piece by piece: by the rule that the deck's panels go by.

Past the last member under a board that one gets more than the load, and those inward are lifted. Where no other
member holds the board down, all of the load goes to that one, square to it. Who stands on a member stands on it alone.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon

from bolewright.platform.layout.board_ends import bear_at_edge, board_width
from bolewright.platform.layout.board_lines import slope_of
from bolewright.platform.layout.boards import BoardField
from bolewright.platform.layout.borne import REACH, bear, nearest_member
from bolewright.platform.layout.influence import Array
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.tracing.tracing_burden import EDGE, Pieces, TracingError
from bolewright.units import feet_inches

Fields = tuple[tuple[Polygon, BoardField], ...]
_ON = 1e-4  # in: who stands this near to a member's centre line stands on it
_NOTHING = 1e-12  # lb per lb


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
    return tuple((boards.region, boards) for boards in layout.board_fields)


def landing(layout: Layout, fields: Fields, pieces: Pieces) -> dict[str, list[Arriving]]:
    """What comes straight from the boards onto each member, in the order of the pieces."""
    found: dict[str, list[tuple[float, float]]] = {}
    left = np.ones(len(pieces.pounds), dtype=bool)
    for region, boards in fields:
        inside = left & (shapely.distance(region, shapely.points(pieces.places)) <= EDGE)
        left &= ~inside
        for place, pounds in zip(pieces.places[inside], pieces.pounds[inside], strict=True):
            here = (float(place[0]), float(place[1]))
            alone = len(pieces.pounds) == 1
            on = _stands_on(layout, boards, here) if alone else None
            if on is not None:
                found.setdefault(on.mark, []).append((on.line.nearest(here), float(pounds)))
            else:
                _land(layout, boards, here, float(pounds), found, person=alone)
    if left.any():
        x, y = pieces.places[left][0]
        raise TracingError(f"No joist field lies under {feet_inches(float(x))}, {feet_inches(float(y))}.")
    return {
        mark: [Arriving("boards", *np.array(some, dtype=float).reshape(-1, 2).T)]
        for mark, some in found.items()
    }


def _land(
    layout: Layout,
    boards: BoardField,
    place: Vector,
    pounds: float,
    found: dict[str, list[tuple[float, float]]],
    *,
    person: bool,
) -> None:
    """Share one piece out between the members under its board; past the last one a person stands on a whole board.

    Where that may lie to either side, half of what is lacking on each: the sheets look at both.
    """
    s, t = boards.place(place)
    cell = boards.slab(s).at(s, t)
    if not cell.members:
        nearest = nearest_member(layout, place)
        if nearest.line.distance(place) > REACH:
            raise TracingError(
                f"Nothing is under the boards at {feet_inches(place[0])}, {feet_inches(place[1])}."
            )
    whole_board = person and cell.way.past
    for borne in (
        bear_at_edge(layout, boards, cell, s, t, board_width(layout))
        if whole_board
        else bear(layout, boards, cell, s, t)
    ):
        if abs(borne.pounds) > _NOTHING:
            found.setdefault(borne.member, []).append((borne.x, pounds * borne.pounds))


def _stands_on(layout: Layout, boards: BoardField, place: Vector) -> Member | None:
    """The member on whose centre line a place is, or on whose wood the boards there lie along it; the nearest."""
    for member in sorted(layout.flush, key=lambda m: m.line.off(place)):
        away = member.line.off(place)
        if away > member.width / 2 - _ON or not 0 <= member.line.along(place) <= member.line.length:
            continue
        seen = slope_of(member.mark, member.line.start, member.line.end, boards.u, boards.n, member.width / 2)
        if away <= _ON or seen is None:
            return member
    return None
