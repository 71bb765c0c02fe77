"""Holes of lapped braces: along the brace, and where each comes on post and carrier."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.setting_out.braces import EDGE_DISTANCE, BoltHole, BraceCut
from bolewright.sheets.lengths import Lengths


def brace_holes(cuts: Iterable[BraceCut], length: Lengths) -> Iterator[Table | Statement]:
    """Table of every hole, and a loud line for one that comes nearer to an edge than the checks count with."""
    lapped = [cut for cut in cuts if cut.holes]
    if not lapped:
        return
    rows = tuple(
        (
            cut.mark,
            f"{hole.on}, {hole.number}",
            length(hole.on_brace),
            _across(cut, hole, length),
            _up(hole, length),
        )
        for cut in lapped
        for hole in cut.holes
    )
    yield Table(
        (
            "brace",
            "hole in, from below",
            "on the brace from its lower end",
            "on the post off its centre line; on the carrier from its start",
            "from the carrier's underside",
        ),
        rows,
        "Bolt holes of lapped braces, on the brace's middle line: clamp it up, then bore all in one",
        "llrrr",
    )
    near = [
        f"{cut.mark}: hole {hole.number} in {hole.on} comes {length(hole.edge)} from its edge; the checks count with "
        f"{length(cut.edge_wanted)} ({EDGE_DISTANCE:g} diameters). Fewer or thinner bolts, a wider post or carrier, or "
        "the engineer."
        for cut in lapped
        for hole in cut.near_edges
    ]
    if near:
        yield Statement(StatementKind.FAILURE, tuple(near))


def _across(cut: BraceCut, hole: BoltHole, length: Lengths) -> str:
    if hole.on != cut.post:
        return length(hole.across)
    if abs(hole.across) < 1 / 32:
        return "on it"
    return length.signed(hole.across, "towards the brace's head", "away from it")


def _up(hole: BoltHole, length: Lengths) -> str:
    return length.signed(hole.up, "up", "down")
