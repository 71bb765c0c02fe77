"""What a lateral load is made of: the faces that catch wind, and the shares of wind, people and parts in each case."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.loads.lateral_loads import compass
from bolewright.platform.loads.lateral_wind import Winds
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits

NOTE = (
    "Wind comes from every direction. Its force on a face is the force per inch times the width of that face across "
    "the wind: an edge shows its length times the sine of the angle between it and the wind, the framing what lies "
    "between the outermost corners of deck and beams. F_x and F_y go with the wind; M_z is about the origin of the "
    "plan, with the whole force 15 % of the platform's width off the middle of its faces, to the side that governs. "
    "The share of wind is 0.6 or 0.75 times 0.6 of that, as the combination says, that of people 1 or 0.75. Their sway "
    "comes in at the middle of the deck or of the half of it that is named."
)


def wind_blocks(lateral: LateralAnalysis) -> Iterator[Block]:
    """The faces that catch wind, each with its force for an inch of its width."""
    rows = tuple(_faces(lateral.winds))
    columns = ("face", "force per inch of width (lb/in)", "width across the wind", "middle above grade (in)")
    yield Table(columns, rows, "What catches wind, from any direction", "lrlr", (0, 0, 1, 0))


def _faces(winds: Winds) -> Iterator[tuple[str, ...]]:
    own = len(winds.ends)
    for i, face in enumerate(winds.faces):
        if i < own:
            (x, y), (X, Y) = (tuple(digits(float(v)) for v in point) for point in winds.ends[i])
            wide = f"of the edge from {x}, {y} to {X}, {Y}"
        elif i == own:
            wide = "of deck and beams"
        elif i <= own + len(winds.posts):
            wide = f"{digits(float(winds.across[i - own - 1]))} in, from every side"
        else:
            j = i - own - 1 - len(winds.posts)
            c, s = winds.hung_along[j]
            one, other = (digits(float(v)) for v in winds.hung_widths[j])
            line = compass(float(np.degrees(np.arctan2(s, c))) % 180)
            wide = f"{one} in × cosine + {other} in × sine of the angle between the wind and {line}"
        yield face.name, digits(face.force), wide, digits(face.height)


def shares_table(
    lateral: LateralAnalysis, found: Iterable[tuple[int, int]], names: dict[tuple[int, int], str]
) -> Table:
    """How much of the lateral load of a case comes from wind, from people and from parts."""
    cases = lateral.cases
    rows = []
    for place in found:
        case = place[0]
        wind, people = cases.wind[:, case], cases.people[:, case]
        parts = cases.load[:, case] - wind - people
        parts[np.abs(parts) < 1e-6 * (1.0 + np.abs(cases.load[:, case]))] = 0.0
        rows.append((names[place], *(digits(round(float(v), 3)) for v in (*wind, *people, *parts))))
    of = ("wind", "people", "guards and other parts")
    used = [
        0,
        *(1 + 3 * i + j for i in range(3) for j in range(3) if any(row[1 + 3 * i] != "0" for row in rows)),
    ]
    columns = ("case", *(f"{name} {what}" for name in of for what in ("F_x", "F_y", "M_z")))
    shown = tuple(tuple(row[i] for i in used) for row in rows)
    caption = "What the lateral load is made of (lb, lb·in)"
    return Table(tuple(columns[i] for i in used), shown, caption, "l" + "r" * (len(used) - 1))


def loads_note() -> Statement:
    """How these tables hang together."""
    return Statement(StatementKind.NOTE, (NOTE,))
