"""The deck in panels: each a piece of deck whose load comes down at one corner of a cell's grid.

Along a board what a load does changes evenly from line to line of a cell, and along the joists nearly so from one
cross-line to the next. So all that lies on a cell is reckoned at the corners of its grid, by the lever both ways: what
comes to one of them is a panel. On its member a panel's load lies along the stretches to the corners beside it, with
its force and moment as if it stood at its own. Over one piece of the grid an influence is known by its four corners,
so that a load may stand on just that part of a piece where it does harm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from bolewright.mechanics.loads import UnitLoad
from bolewright.platform.layout.boards import BoardField, Cell, cells
from bolewright.platform.layout.borne import Borne, Share, along, bear, place_on, refuse_far, refuse_stray
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Layout, LayoutError
from bolewright.platform.loads.board_grid import Grid, grids
from bolewright.platform.loads.spreading import centred

PANEL = 12.0  # in: greatest length of a piece along its member; tests show that smaller ones change little
_NOTHING = 1e-9  # lb per lb

Integers = npt.NDArray[np.int64]
Array = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Panel:
    """Deck that is reckoned at one corner: its area (sq in), the corner, and what the members get of its load.

    ``centroid`` is that corner in plan, ``corners`` show about where the deck lies: half-way to those beside it.
    """

    area: float
    centroid: Vector
    corners: tuple[Vector, ...]
    shares: tuple[Share, ...]

    @property
    def member(self) -> str:
        """The member that gets most of its load."""
        return max(self.shares, key=lambda share: share.part).member


@dataclass(frozen=True)
class Piece:
    """A piece of a cell between two cross-lines and two lines: where it lies, and the panels at its four corners.

    ``corners`` are the numbers of the panels: low and high along the joists, each below and above along the boards;
    ``areas`` the part of the deck on this piece that each stands for (sq in).
    """

    boards: BoardField
    cell: Cell
    corners: tuple[int, int, int, int]
    areas: tuple[float, float, float, float]


@dataclass(frozen=True)
class Deck:
    """All panels, and the pieces of deck between them."""

    panels: tuple[Panel, ...]
    pieces: tuple[Piece, ...]

    @cached_property
    def corners(self) -> Integers:
        """Panels at the corners (four rows) of all pieces."""
        return np.array([p.corners for p in self.pieces], dtype=np.int64).reshape(-1, 4).T

    @cached_property
    def areas(self) -> Array:
        """Area (sq in) of the corners (four rows) of all pieces."""
        return np.array([p.areas for p in self.pieces], dtype=float).reshape(-1, 4).T

    def on_panels(self, pounds: Array) -> Array:
        """Load of every panel, from that at the corners (four rows) of all pieces."""
        found = np.bincount(self.corners.ravel(), weights=pounds.ravel(), minlength=len(self.panels))
        return np.asarray(found, dtype=float)


def find_deck(layout: Layout, panel: float = PANEL) -> Deck:
    """The deck in panels. Their areas add up to the deck's; LayoutError when a part of it has no joist."""
    found = _Found()
    for boards in layout.board_fields:
        for cell in cells(boards):
            if cell.members:
                refuse_far(layout, boards, cell)
            else:
                refuse_stray(layout, boards, cell)
            for grid in grids(layout, boards, cell, panel):
                _lay(layout, boards, grid, found)
    covered = sum(p.area for p in found.panels)
    if abs(covered - layout.deck.area) > 1e-3 * layout.deck.area:
        raise LayoutError(
            f"The joist fields cover {covered / 144:.1f} sq ft of the platform's {layout.deck.area / 144:.1f} sq ft: "
            "their regions must fill the outline without overlap."
        )
    return Deck(tuple(found.panels), tuple(found.pieces))


def find_panels(layout: Layout, panel: float = PANEL) -> tuple[Panel, ...]:
    """All panels of the deck."""
    return find_deck(layout, panel).panels


@dataclass
class _Found:
    panels: list[Panel] = field(default_factory=list)
    pieces: list[Piece] = field(default_factory=list)


@dataclass
class _Corner:
    """What gathers at one corner of a grid: area, and pounds by member and load."""

    area: float = 0.0
    pounds: dict[tuple[str, UnitLoad], float] = field(default_factory=dict)


def _lay(layout: Layout, boards: BoardField, grid: Grid, found: _Found) -> None:
    """Panels and pieces of a grid."""
    lines = range(len(grid.parts))
    borne = [[_at(layout, boards, grid, s, j) for j in lines] for s in grid.places]
    corners = [[_Corner() for _ in lines] for _ in grid.places]
    first, count = len(found.panels), len(grid.parts)
    for k, (low, high) in enumerate(pairwise(grid.places)):
        one, other = grid.cell.width(low), grid.cell.width(high)
        at_low, at_high = ((high - low) * w for w in (one / 3 + other / 6, one / 6 + other / 3))
        for j, (below, above) in enumerate(pairwise(grid.parts)):
            n, half = first + k * count + j, (above - below) / 2
            for here, there, area in ((k, k + 1, at_low * half), (k + 1, k, at_high * half)):
                for line, across in ((j, j + 1), (j + 1, j)):
                    corner = corners[here][line]
                    corner.area += area
                    beyond = (grid.places[there], grid.line(across, grid.places[there]))
                    for b in borne[here][line]:
                        for mark, load, pounds in centred(layout, boards, b, area, beyond):
                            corner.pounds[mark, load] = corner.pounds.get((mark, load), 0.0) + pounds
            found.pieces.append(
                Piece(
                    boards,
                    grid.cell.piece(low, high, below, above),
                    (n, n + 1, n + count, n + count + 1),
                    (at_low * half, at_low * half, at_high * half, at_high * half),
                )
            )
    for k, row in enumerate(corners):
        for j, corner in enumerate(row):
            at = boards.plan(grid.places[k], grid.line(j, grid.places[k]))
            found.panels.append(_panel(boards, corner, at, grid.around(k, j)))


def _at(layout: Layout, boards: BoardField, grid: Grid, s: float, j: int) -> list[Borne]:
    """What the members get of a pound at a corner of a grid."""
    cell = grid.cell
    if cell.bounds == tuple(m.name for m in cell.members):
        member = layout.member(cell.bounds[j])  # the line is the member's
        return [Borne(member.mark, 1.0, place_on(member, along(member, boards, s)), False)]
    return [b for b in bear(layout, boards, cell, s, grid.line(j, s)) if abs(b.pounds) > _NOTHING]


def _panel(boards: BoardField, corner: _Corner, at: Vector, around: Iterator[Vector]) -> Panel:
    shares = tuple(Share(mark, load, pounds / corner.area) for (mark, load), pounds in corner.pounds.items())
    ring = tuple(dict.fromkeys(boards.plan(*place) for place in around))
    return Panel(corner.area, at, ring, shares)
