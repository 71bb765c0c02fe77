"""Check measurements of the frame: what is left at a beam's end, and the diagonals over the joists."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from bolewright.platform.layout.layout import Layout, Vector
from bolewright.platform.layout.pieces import Piece
from bolewright.platform.project import JoistField
from bolewright.platform.project.bearing import SupportKind
from bolewright.setting_out.beams import JoistMark, joist_marks, spacing_along
from bolewright.setting_out.braces import brace_cuts
from bolewright.setting_out.crossed import rod_cuts
from bolewright.setting_out.levels import find_levels
from bolewright.setting_out.tolerance import SIXTEENTH, Allowed, Closing
from bolewright.setting_out.trunk_braces import trunk_brace_cuts


def framing_closings(layout: Layout, pieces: dict[str, Piece]) -> tuple[Closing, ...]:
    """Measurements of the frame that must come out, with all joists in place."""
    found = []
    marks = joist_marks(layout, pieces)
    for beam in layout.project.beams:
        own = [m for m in marks if m.beam == beam.mark]
        if own:
            last = max(own, key=lambda m: m.centre)
            piece = pieces[beam.mark]
            side = {"left": 1, "right": 2}.get(last.face.value, 0)
            length = piece.from_start[1][side] - piece.from_start[0][side]
            what = f"{beam.mark}: from the middle of {last.piece} to the far end"
            found.append(Closing(what, length - last.centre, Allowed.MARK.value))
    for field in layout.project.joists:
        joists = [m.mark for m in layout.joists if m.field == field.mark]
        found += _pitches(field, [m for m in marks if m.piece in joists])
        found += _diagonals([pieces[mark] for mark in joists])
    return (*_levels(layout), *found, *_braces(layout, pieces), *_rods(layout))


def _levels(layout: Layout) -> Iterator[Closing]:
    """Cut tops and seats against each other, by line or water level."""
    at = find_levels(layout).at
    first = at[0]
    for level in at[1:]:
        rise = level.planned - first.planned
        words = "above" if rise > 0 else "below"
        names = {SupportKind.POST: "cut top", SupportKind.TREE_BOLT: "seat", SupportKind.KNEE_BRACE: "head"}
        where = "level with" if abs(rise) < 1 / 32 else words
        part = f"{names[level.kind].capitalize()} of {level.support}"
        other = f"the {names[first.kind]} of {first.support}"
        yield Closing(f"{part} {where} {other}", abs(rise), Allowed.LEVEL.value)


def _braces(layout: Layout, pieces: dict[str, Piece]) -> Iterator[Closing]:
    """Working point to working point of every knee brace: with it post and beam stand square."""
    for cut in brace_cuts(layout, pieces):
        what = f"{cut.mark}: working point on {cut.post} to the one under the beam"
        yield Closing(what, cut.axis, Allowed.MARK.value)
    for brace in trunk_brace_cuts(layout, pieces):
        what = f"{brace.mark}: bearing on {brace.foot} to the middle of its head under {brace.beam}"
        yield Closing(what, brace.axis, Allowed.MARK.value)


def _pitches(field: JoistField, marks: list[JoistMark]) -> list[Closing]:
    """Distance between neighbouring joists along each beam, where it is that of the field's spacing."""
    found = []
    for beam in dict.fromkeys(m.beam for m in marks):
        own = sorted((m for m in marks if m.beam == beam), key=lambda m: m.centre)
        pitch = float(spacing_along(s=field.spacing, t=own[0].tangent))
        if any(abs(b.centre - a.centre - pitch) < SIXTEENTH for a, b in pairwise(own)):
            what = f"{beam}: from joist to joist of field {field.mark}, middle to middle"
            found.append(Closing(what, pitch, Allowed.MARK.value))
    return found


def _rods(layout: Layout) -> Iterator[Closing]:
    """Both crossed rods of every pair: equal where the posts are, with them the posts stand plumb."""
    for rod in rod_cuts(layout):
        what = f"{rod.mark}: middle line of {rod.head} at the rod's head to that of {rod.foot} at its foot"
        yield Closing(what, rod.length, Allowed.MARK.value)


def _diagonals(joists: list[Piece]) -> list[Closing]:
    """Both diagonals over the first and last joist of a field that run between the same two beams."""
    ends: dict[tuple[str, str], list[Piece]] = {}
    for joist in joists:
        ends.setdefault((joist.start.meets, joist.end.meets), []).append(joist)
    found = []
    for (one, other), group in ends.items():
        if len(group) < 2 or not one or not other:
            continue
        first, last = group[0], group[-1]
        for a, b in ((first, last), (last, first)):
            across = math.dist(_middle(a, 0), _middle(b, 1))
            what = f"Middle of {a.mark} at {one} to middle of {b.mark} at {other}, diagonally"
            found.append(Closing(what, across, Allowed.DIAGONAL.value))
    return found


def _middle(piece: Piece, end: int) -> Vector:
    """Middle of an end's face in plan."""
    start_left, end_left, end_right, start_right = piece.corners
    (ax, ay), (bx, by) = (start_left, start_right) if end == 0 else (end_left, end_right)
    return ((ax + bx) / 2, (ay + by) / 2)
