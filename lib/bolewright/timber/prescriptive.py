"""Prescriptive rules of the residential code for plies and decking: data, not calculation."""

from __future__ import annotations

from dataclasses import dataclass

from bolewright.reference import load


@dataclass(frozen=True)
class PlyNailing:
    """Nailing of a built-up beam by rule."""

    nail: str
    rows: int
    spacing: float
    source: str
    confidence: str


def beam_ply_nailing() -> PlyNailing:
    """How IRC R507.5 nails the plies of a deck beam together (10d, a row along each edge, 16 in.).

    When it applies: beams loaded on their top. For joists hung on a side, calculate the transfer instead.
    """
    row = load("irc_R507_5_ply_nailing").rows[0]
    table = load("irc_R507_5_ply_nailing")
    return PlyNailing(
        str(row["nail"]), int(row["rows"]), float(row["spacing_in"]), table.source, table.confidence(row)
    )


def decking_joist_spacing(decking: str, *, diagonal: bool = False) -> float | None:
    """Greatest joist spacing (in) under decking, by IRC Table R507.7; None where its listing rules.

    ``decking`` is one of the table's rows.

    >>> decking_joist_spacing("2 in thick wood"), decking_joist_spacing("2 in thick wood", diagonal=True)
    (24.0, 16.0)
    """
    row = load("irc_table_R507_7").row(decking=decking)
    value = row["diagonal_in" if diagonal else "perpendicular_in"]
    return float(value) if isinstance(value, float) else None
