"""Holes of lapped braces: on the brace, on post and beam, and the distances they keep."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.setting_out.braces import BoltHole, BraceCut
from bolewright.sheets.lengths import Lengths


def brace_holes(cuts: Iterable[BraceCut], length: Lengths) -> Iterator[Table | Statement]:
    """Tables of every hole and of the distances that the holes keep, and a loud line for one that is not kept."""
    lapped = [cut for cut in cuts if cut.holes]
    if not lapped:
        return
    rows = tuple(
        (
            cut.mark,
            f"{hole.on}, {hole.number}",
            length(hole.on_brace),
            _off(hole.off, length),
            _across(cut, hole, length),
            _up(hole, length),
        )
        for cut in lapped
        for hole in cut.holes
    )
    yield Table(
        (
            "brace",
            "hole in",
            "on the brace from its lower end",
            "off the brace's middle line",
            "on the post off its centre line; on the beam from its start",
            "from the beam's underside",
        ),
        rows,
        "Bolt holes of lapped braces: upright on the post's middle line, level at the beam's mid-depth. "
        "Clamp the brace up, then bore all in one",
        "llrlrr",
    )
    yield Table(
        ("brace", "distance", "there", "bound", "for C_Delta = 1"),
        tuple(
            (
                cut.mark,
                distance.what,
                length(distance.actual),
                f"{'most' if distance.most else 'least'} {length.bound(distance.limit, most=distance.most)}",
                length.bound(distance.full) if distance.full else "",
            )
            for cut in lapped
            for distance in cut.distances
        ),
        "Distances of those holes, as the checks of the braces count them (NDS 2018, 12.5.1)",
        "llrrr",
    )
    wrong = [
        f"{cut.mark}: {distance.what} is {length(distance.actual)}, "
        f"{length.bound(distance.limit, most=distance.most)} is the {'most' if distance.most else 'least'} "
        "(NDS 2018, 12.5.1). Fewer or thinner bolts, a deeper brace, a wider "
        "post or beam, or the engineer."
        for cut in lapped
        for distance in cut.distances
        if distance.wrong
    ]
    if wrong:
        yield Statement(StatementKind.FAILURE, tuple(wrong))


def _off(off: float, length: Lengths) -> str:
    if abs(off) < 1 / 32:
        return "on it"
    return length.signed(off, "above it", "below it")


def _across(cut: BraceCut, hole: BoltHole, length: Lengths) -> str:
    if hole.on != cut.post:
        return length(hole.across)
    if abs(hole.across) < 1 / 32:
        return "on it"
    return length.signed(hole.across, "towards the brace's head", "away from it")


def _up(hole: BoltHole, length: Lengths) -> str:
    return length.signed(hole.up, "up", "down")
