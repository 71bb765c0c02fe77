"""The end of a board at the edge of the deck, as wide as it is: one person on it, or a guard.

Where an edge runs nearly along the boards, less than a board's width of deck lies past the tip of each joist, and a
board there lies on that joist too. So the deck at a place of an edge counts as past a joist's tip only as far as the
stretch of edge that is borne in the same way is deep across the boards, beside a board's width: along an edge askew the
whole stretch, for a load there is as far past the member as its square distance from it, whichever part of the board's
end it is on. The rest lies beside the stretch, at the same place along the boards. A board may reach to either side
where the deck has room for it: one person is looked at both ways, of a guard each takes half.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from bolewright.platform.layout.boards import BoardField, Cell
from bolewright.platform.layout.borne import Borne, bear
from bolewright.platform.layout.parts import Layout
from bolewright.timber.sections import parse_section

_INSIDE = 1e-3  # in
_NEAR = 0.01  # in: deck this near to a place along the board is there
_OUT_OF_SQUARE = 0.25  # in per in: ends of boards cut askew by no more than this are one edge
_ASIDE = 1e-3  # in: of two pieces of deck that meet at a place, the one this far towards the own piece lies beside it
_TINY = 1e-6


def board_width(layout: Layout) -> float:
    """Width of one deck board (in)."""
    return parse_section(layout.project.decking.section).d


def bear_at_edge(
    layout: Layout, boards: BoardField, cell: Cell, s: float, t: float, width: float
) -> Iterator[Borne]:
    """What the members get of a pound at the edge of a cell, on a board of some ``width`` (in): of a guard.

    Where the board may lie either way, each gets half of what is lacking.
    """
    ways = bear_each_way(layout, boards, cell, s, t, width)
    for way in ways:
        yield from (b._replace(pounds=b.pounds / len(ways)) for b in way) if len(ways) > 1 else way


def bear_each_way(
    layout: Layout, boards: BoardField, cell: Cell, s: float, t: float, width: float
) -> list[list[Borne]]:
    """The same of one person: by each way that a board there may lie, down or up across the boards."""
    here = list(bear(layout, boards, cell, s, t))
    if len(here) == 1 and not layout.member(here[0].member).field:
        return [here]  # on a beam's wood there is no board's end
    low, high = boards.depth(cell, width)
    if high - low > width - _TINY:
        return [here]
    left = width - (high - low)
    beside = t + max(-_ASIDE, min(_ASIDE, _middle(cell) - t))
    found = [_beside(boards, border, (s, beside), left, way) for border, way in ((low, -1), (high, 1))]
    rests = [rest for rest in found if rest.pieces]
    if not rests:
        return [here]
    least = min(rest.lacking for rest in rests)
    own = [b._replace(pounds=b.pounds * (high - low) / width) for b in here]
    return [
        own
        + [
            b
            for place, other, wide in rest.pieces
            for b in bear(layout, boards, other, place, t, wide / width)
        ]
        for rest in rests
        if rest.lacking < least + _TINY
    ]


class _Rest(NamedTuple):
    """Deck to one side of a stretch, under what is left of a board: places, cells and widths (in).

    ``lacking``: how much of the board has no deck there; it lies with the last piece.
    """

    lacking: float
    pieces: list[tuple[float, Cell, float]]


def _middle(cell: Cell) -> float:
    """Middle of a cell, along the board."""
    return (sum(cell.below) + sum(cell.above)) / 4


def _beside(boards: BoardField, border: float, at: tuple[float, float], left: float, way: int) -> _Rest:
    pieces: list[tuple[float, Cell, float]] = []
    while left > _TINY:
        found = _past(boards, border, at, way, left)
        if found is None:
            break
        s, cell, deep = found
        pieces.append((s, cell, deep))
        border, left = border + way * deep, left - deep
    if pieces and left > _TINY:
        s, cell, deep = pieces[-1]
        pieces[-1] = (s, cell, deep + left)
    return _Rest(max(left, 0.0), pieces)


def _past(
    boards: BoardField, border: float, at: tuple[float, float], way: int, left: float
) -> tuple[float, Cell, float] | None:
    """The deck past a border, at the same place along the board, and how far it is borne alike; None for none.

    Where the end of the boards is a little askew, the deck may end that much short of the place.
    """
    t = at[1]
    found = boards.reach(border, t, way, left)
    if found is None:
        return None
    deep, cell = found
    s = border + way * min(_INSIDE, deep / 2)
    below, above = cell.side(s)
    near = _NEAR + _OUT_OF_SQUARE * abs(s - at[0])
    return (s, cell, deep) if below - near <= t <= above + near else None
