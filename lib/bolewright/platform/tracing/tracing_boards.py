"""How the boards hand a burden on, piece by piece: by the rule that the deck's panels go by.

Past the last member under a board that one gets more than the load, and those inward are lifted. Where no other
member holds the board down, all of the load goes to that one, square to it. Who stands on a member stands on it alone.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.platform.layout.board_ends import bear_at_edge, board_width
from bolewright.platform.layout.board_lines import slope_of
from bolewright.platform.layout.boards import BoardField, deck_at, fields_at
from bolewright.platform.layout.borne import REACH, bear, nearest_member
from bolewright.platform.layout.influence import Array
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, Member
from bolewright.platform.tracing.tracing_burden import Pieces, TracingError
from bolewright.units import feet_inches

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


def landing(layout: Layout, pieces: Pieces) -> dict[str, list[Arriving]]:
    """What comes straight from the boards onto each member, in the order of the pieces."""
    found: dict[str, list[tuple[float, float]]] = {}
    alone = len(pieces.pounds) == 1
    for (x, y), pounds in zip(pieces.places.tolist(), pieces.pounds.tolist(), strict=True):
        on = _stands_on(layout, (x, y)) if alone else None
        if on is not None:
            found.setdefault(on.mark, []).append((on.line.nearest((x, y)), pounds))
            continue
        for (mark, at), part in _shared(layout, (x, y), person=alone).items():
            if abs(part) > _NOTHING:
                found.setdefault(mark, []).append((at, pounds * part))
    return {
        mark: [Arriving("boards", *np.array(some, dtype=float).reshape(-1, 2).T)]
        for mark, some in found.items()
    }


def _shared(layout: Layout, place: Vector, *, person: bool) -> dict[tuple[str, float], float]:
    """A pound shared out between the members under its board, by member and place along it, each once.

    Past the last one a person stands on a whole board. Where that may lie to either side, half of what is lacking on
    each: the sheets look at both. Where two stretches of deck meet, half on each.
    """
    found: dict[tuple[str, float], float] = {}
    deck = deck_at(layout.board_fields, place)
    for boards, cell in deck:
        if not cell.members:
            nearest = nearest_member(layout, place)
            if nearest.line.distance(place) > REACH:
                raise TracingError(
                    f"Nothing is under the boards at {feet_inches(place[0])}, {feet_inches(place[1])}."
                )
        at = boards.place(place)
        for borne in (
            bear_at_edge(layout, boards, cell, *at, board_width(layout))
            if person and cell.way.past
            else bear(layout, boards, cell, *at)
        ):
            key = borne.member, round(borne.x, 9)
            found[key] = found.get(key, 0.0) + borne.pounds / len(deck)
    return found


def _stands_on(layout: Layout, place: Vector) -> Member | None:
    """The member on whose centre line a place is, or on whose wood the boards there lie along it; the nearest."""
    fields = fields_at(layout.board_fields, place)
    for member in sorted(layout.flush, key=lambda m: m.line.off(place)):
        away = member.line.off(place)
        if away > member.width / 2 - _ON or not 0 <= member.line.along(place) <= member.line.length:
            continue
        if away <= _ON or any(_lies_along(boards, member) for boards in fields):
            return member
    return None


def _lies_along(boards: BoardField, member: Member) -> bool:
    line = member.line
    return slope_of(member.mark, line.start, line.end, boards.u, boards.n, member.width / 2) is None
