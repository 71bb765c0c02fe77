"""Outlines of the deck boards in plan, row by row, cut at the deck's edges and round the trunks."""

from __future__ import annotations

from dataclasses import dataclass

import shapely
from shapely import Polygon

from bolewright.platform.layout.layout import field_region
from bolewright.platform.results.results import Results
from bolewright.setting_out.cutout import cut_outs, room_needed
from bolewright.setting_out.decking import DeckRows, Row, deck_rows

_LEAST = 0.5  # sq in: scraps smaller than this are no board
_FAR = 2000.0  # in


@dataclass(frozen=True)
class Board:
    """One board as it lies: its field, the number of its row, its outline in plan."""

    field: str
    row: int
    outline: Polygon


def board_outlines(results: Results) -> list[Board]:
    """Every board of the deck; a row that an opening cuts is two boards."""
    layout = results.path.layout
    room = room_needed(cut_outs(results))
    deck = layout.deck if room is None else layout.deck.difference(room)
    found = []
    for rows in deck_rows(layout, room):
        field = next(f for f in layout.project.joists if f.mark == rows.field)
        region = field_region(field, layout.deck).intersection(deck)
        for row in rows.rows:
            for part in shapely.get_parts(region.intersection(strip_of(rows, row))):
                if isinstance(part, Polygon) and part.area > _LEAST:
                    found.append(Board(rows.field, row.number, part))
    return found


def strip_of(rows: DeckRows, row: Row) -> Polygon:
    """Strip of plan that a row covers, without end."""
    (x, y), (ax, ay), (cx, cy) = rows.origin, rows.along, rows.across
    return Polygon(
        [
            (x + s * ax + t * cx, y + s * ay + t * cy)
            for s, t in ((-_FAR, row.near), (_FAR, row.near), (_FAR, row.far), (-_FAR, row.far))
        ]
    )
