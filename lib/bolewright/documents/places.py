"""Places in a package that a row, an equation or a heading can lead to, each by its name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from bolewright.documents.content import Content, SheetContent
from bolewright.rendering.blocks import Cell, Equations, Figure, Heading, Table


def equation_place(number: str) -> str:
    """Name of the place where an equation is set out."""
    return f"equation {number}"


def figure_place(once: str) -> str:
    """Name of the place where a figure stands."""
    return f"figure {once}"


def places_of(sheets: Sequence[SheetContent]) -> frozenset[str]:
    """Every place on the sheets."""
    own = (sheet.place for sheet in sheets if sheet.place)
    return frozenset((*own, *(place for sheet in sheets for item in sheet.items for place in _in(item))))


def _in(item: Content) -> Iterator[str]:
    match item:
        case Heading() if item.anchor:
            yield item.anchor
        case Equations() if item.number:
            yield equation_place(item.number)
        case Figure() if item.once:
            yield figure_place(item.once)
        case Table():
            yield from (
                cell.anchor for row in item.rows for cell in row if isinstance(cell, Cell) and cell.anchor
            )
