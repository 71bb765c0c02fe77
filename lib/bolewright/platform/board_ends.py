"""The end of a board at the edge of the deck, as wide as it is: one person on it, or a guard.

Where an edge runs nearly along the boards, less than a board's width of deck lies past the tip of each joist, and a
board there lies on that joist too. So the deck at a place of an edge counts as past a joist's tip only as far as the
stretch of deck that is borne in the same way is deep across the boards, beside a board's width.
"""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.boards import BoardField, Cell
from bolewright.platform.borne import Borne, bear
from bolewright.platform.parts import Layout
from bolewright.timber.sections import parse_section

_INSIDE = 1e-3  # in
_TINY = 1e-6


def board_width(layout: Layout) -> float:
    """Width of one deck board (in)."""
    return parse_section(layout.project.decking.section).d


def bear_at_edge(
    layout: Layout,
    boards: BoardField,
    cell: Cell,
    s: float,
    t: float,
    width: float,
    ways: tuple[int, ...] = (-1, 1),
    pounds: float = 1.0,
) -> Iterator[Borne]:
    """What the members get of some ``pounds`` at the edge of a cell, on a board of some ``width`` (in).

    ``ways`` in which deck is looked for beside a stretch that is less deep: down and up across the boards.
    """
    if len(cell.members) < 2 and not any(layout.member(m.name).field for m in cell.members):
        yield from bear(layout, boards, cell, s, t, pounds)  # on a beam's wood there is no board's end
        return
    low, high = boards.depth(cell, s, t, width)
    part = min((high - low) / width, 1.0)
    inner = [] if part > 1 - _TINY else list(_inside(boards, low, high, t, ways))
    own = part if inner else 1.0
    yield from bear(layout, boards, cell, s, t, pounds * own)
    for place, beside, way in inner:
        rest = pounds * (1 - own) / len(inner)
        yield from bear_at_edge(layout, boards, beside, place, t, width - (high - low), (way,), rest)


def _inside(
    boards: BoardField, low: float, high: float, t: float, ways: tuple[int, ...]
) -> Iterator[tuple[float, Cell, int]]:
    """The deck on either side of a stretch, at the same place along the board."""
    for way in ways:
        s = high + _INSIDE if way > 0 else low - _INSIDE
        slab = boards.slab(s)
        if slab.low <= s <= slab.high:
            cell = slab.at(s, t)
            below, above = cell.side(s)
            if below - _TINY <= t <= above + _TINY:
                yield s, cell, way
