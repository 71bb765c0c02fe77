"""Deck boards: rows across the joists, gaps, first and last rip, and the length each row takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from shapely import Polygon, box
from shapely.affinity import affine_transform

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout.joist_lines import board_axes
from bolewright.platform.layout.layout import Layout, Vector, field_region
from bolewright.platform.project import Decking, JoistField
from bolewright.timber.sections import parse_section
from bolewright.units import Length, Ratio

NARROWEST = 0.5  # of a board: a last rip narrower than this is shared with the first row (common practice)


@formula("Geometry (rows of boards)")
def last_rip(W: Length, n: Ratio, w: Length, g: Length) -> Length:
    """Width left for the last board, the first laid whole.

    Parameters: W width to cover (in); n rows; w width of a board, g gap (in). Returns: w_n (in). Source: geometry.

    >>> last_rip(58.0, 11.0, 5.5, 0.125)
    1.75
    """
    w_n: Length = W - (n - 1) * (w + g)
    return w_n


@formula("Geometry (rows of boards)")
def shared_rip(w: Length, w_n: Length) -> Length:
    """Width of the first and the last board when both are ripped alike.

    Parameters: w width of a board, w_n last rip with the first board whole (in). Returns: w_e (in). Source: geometry.

    >>> shared_rip(5.5, 1.75)
    3.625
    """
    w_e: Length = (w + w_n) / 2
    return w_e


@dataclass(frozen=True)
class Row:
    """A row of boards: number, width, where its edges lie across the rows, and how far it reaches along (in).

    ``near`` and ``far`` are from the first edge of the field; ``stretches`` are the lengths that lie on deck, long
    point to long point, as places along the board from the field's lowest point.
    """

    number: int
    width: float
    near: float
    far: float
    stretches: tuple[tuple[float, float], ...]

    @property
    def longest(self) -> float:
        """Stock the row takes in one piece, over openings (in)."""
        return self.stretches[-1][1] - self.stretches[0][0]


@dataclass(frozen=True)
class DeckRows:
    """Boards of one joist field. ``along`` is the direction of the boards, ``across`` that in which rows count.

    ``origin`` is the plan point from which ``near``/``far`` (along ``across``) and stretches (along ``along``) count.
    """

    field: str
    board: float
    gap: float
    cover: float
    count: int
    first: float
    last: float
    shared: bool
    along: Vector
    across: Vector
    origin: Vector
    rows: tuple[Row, ...]
    steps: tuple[Step, ...]


def deck_rows(layout: Layout, room: Polygon | None = None) -> tuple[DeckRows, ...]:
    """Rows of boards on every joist field; ``room`` is cut out of the deck, such as that round a trunk."""
    deck = layout.deck if room is None else layout.deck.difference(room)
    return tuple(_rows_of(layout, field, deck) for field in layout.project.joists)


def lie(decking: Decking) -> str:
    """In words, how the boards lie on the joists."""
    if decking.direction == "square":
        return "square to the joists"
    side = decking.direction.removeprefix("diagonal ")
    return f"at 45° to the joists, turned to the {side} of the way these run"


def row_count(W: float, w: float, g: float) -> int:
    """Rows of boards that cover a width, the last one ripped or whole.

    >>> row_count(58.0, 5.5, 0.125)
    11
    """
    return max(1, math.ceil((W + g) / (w + g) - 1e-9))


def _rows_of(layout: Layout, field: JoistField, deck: Polygon) -> DeckRows:
    u, n = board_axes(field, layout.project.decking)
    region = field_region(field, layout.deck).intersection(deck)
    turned = affine_transform(region, [u[0], u[1], n[0], n[1], 0, 0])
    low, base, high, _ = turned.bounds
    w, g = parse_section(layout.project.decking.section).d, layout.project.decking.gap
    calculation = Calculation()
    run = calculation.run
    W = high - low
    count = row_count(W, w, g)
    last = float(run(last_rip, W=W, n=count, w=w, g=g))
    shared = count > 1 and last < NARROWEST * w
    first = float(run(shared_rip, w=w, w_n=last)) if shared else min(w, W)
    last = first if shared else last
    rows, near = [], 0.0
    for number in range(1, count + 1):
        width = first if number == 1 else last if number == count else w
        strip = turned.intersection(box(low + near, -1e5, low + near + width, 1e5))
        rows.append(Row(number, width, near, near + width, _stretches(strip, base)))
        near += width + g
    origin = (low * u[0] + base * n[0], low * u[1] + base * n[1])
    return DeckRows(
        field.mark, w, g, W, count, first, last, shared, n, u, origin, tuple(rows), calculation.at(())
    )


def _stretches(strip: Polygon, base: float) -> tuple[tuple[float, float], ...]:
    parts = [g for g in getattr(strip, "geoms", [strip]) if g.geom_type == "Polygon" and g.area > 1e-6]
    return tuple(sorted((g.bounds[1] - base, g.bounds[3] - base) for g in parts))
