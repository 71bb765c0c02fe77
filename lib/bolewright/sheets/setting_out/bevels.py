"""The table of bevels: every end that is cut on the skew, as saw, square and hanger maker read it."""

from __future__ import annotations

import math
from collections.abc import Iterable

from bolewright.platform.layout.parts import Cut
from bolewright.platform.layout.pieces import Piece, Side
from bolewright.rendering.blocks import Table
from bolewright.sheets.lengths import Lengths, Tape


def bevel_table(pieces: Iterable[Piece], length: Lengths) -> Table:
    """Bevel of joist ends at each beam, as saw and square read it, and the skew of the hangers."""
    found: dict[tuple[str, float, float, Side, bool], list[str]] = {}
    for piece in pieces:
        for cut in (piece.start, piece.end):
            if cut.meets or cut.long_point is not Side.NEITHER:
                key = (
                    f"{cut.meets}, mitred" if cut.cut is Cut.MITRE else cut.meets or "deck's edge",
                    round(cut.bevel, 3),
                    round(cut.offset, 4),
                    cut.long_point,
                    cut.hung,
                )
                found.setdefault(key, []).append(piece.mark)
    rows = tuple(
        (
            beam,
            _run(marks),
            f"{bevel:.1f}°",
            length(offset),
            f"{_in_twelve(bevel):.2f} in 12"
            if length.tape is Tape.FEET
            else f"{_in_twelve(bevel) / 0.12:.1f} in 100",
            long_point.value if long_point is not Side.NEITHER else "square",
            _skew(long_point, bevel) if hung else "",
        )
        for (beam, bevel, offset, long_point, hung), marks in found.items()
    )
    return Table(
        (
            "at",
            "pieces",
            "saw's tilt from square",
            "across the thickness",
            "on a square",
            "long point",
            "hanger skewed",
        ),
        rows,
        "Bevels and hanger skew; left and right as you stand on the joist and face the beam",
        "llrrrll",
    )


def _in_twelve(bevel: float) -> float:
    return 12 * math.tan(math.radians(bevel))


def _run(marks: list[str]) -> str:
    return (
        marks[0] if len(marks) == 1 else f"{marks[0]} to {marks[-1]}" if len(marks) > 2 else ", ".join(marks)
    )


def _skew(long_point: Side, bevel: float) -> str:
    side = {Side.LEFT: "right", Side.RIGHT: "left", Side.NEITHER: ""}[long_point]
    return f"{bevel:.1f}° {side}" if side else "not skewed"
