"""Ends of boards past the last member: at which edge of the deck, which member takes the lever, and how far out."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise

from bolewright.mechanics.ties import exceeds
from bolewright.platform.layout.board_ends import board_width
from bolewright.platform.layout.borne import nearest_member
from bolewright.platform.layout.lines import Line, Vector
from bolewright.platform.layout.parts import Layout
from bolewright.platform.loads.board_edges import EdgeRun
from bolewright.platform.loads.spots import past_last, past_runs

SHOWN = 0.5  # in: boards that end nearer than this past a member end on it
_ON = 0.01  # in


@dataclass(frozen=True)
class FreeEnd:
    """Boards that end past a member at an edge of the deck, with no rim or blocking along it.

    ``edge`` in words; ``past`` how far they reach past the member at most, along the board (in); ``held`` the members
    inward that hold them down, empty where none does. ``under`` is False where no member at all is under the boards:
    then ``member`` is the nearest, counted to bear them, and ``past`` how far they are from it at most.
    """

    edge: str
    member: str
    past: float
    held: tuple[str, ...]
    under: bool = True


def free_ends(layout: Layout) -> tuple[FreeEnd, ...]:
    """All of them, by edge and member; the farthest of each that is held down, and of each that is not.

    A stretch narrower than half a board that no member inward crosses is of a board held beside it.
    """
    found: dict[tuple[str, str, bool, bool], FreeEnd] = {}
    wide: dict[tuple[str, str, bool, bool], float] = defaultdict(float)
    for boards in layout.board_fields:
        for run in past_runs(boards):
            past = past_last(run)
            way = run.cell.way
            middle = run.at(0.5)
            (s_a, t_a), (s_b, t_b) = map(boards.place, (run.start, run.end))
            beside = abs(t_b - t_a) > 10 * abs(
                s_b - s_a
            )  # the edge is the side of a board, not the end of any
            if math.isinf(past):
                end = _on_nothing(layout, run)
            elif beside or _on_wood(layout, run):
                continue
            else:
                last, *inward = (m.name for m in way.members)
                end = FreeEnd(_edge(layout, middle), last, past, tuple(inward))
            if end.past < SHOWN:
                continue
            key = (end.edge, end.member, end.under, bool(end.held))
            wide[key] += run.length
            before = found.get(key)
            if before is None or exceeds(end.past, before.past):
                found[key] = end
    half = board_width(layout) / 2
    return tuple(
        end
        for key, end in found.items()
        if end.held or wide[key] >= half or (*key[:2], True, True) not in found
    )


def _on_wood(layout: Layout, run: EdgeRun) -> bool:
    """Whether boards that lie on one member end on its wood, or on that of a rim along the edge that hangs on it.

    Past the line of a joist that a skewed rim runs on over, what the rim bears is the joist's: the rim ends there.
    """
    members = run.cell.way.members
    if len(members) != 1:
        return False
    last = layout.member(members[0].name)
    rims = (p for p in layout.blocking if any(seat.below == last.mark for seat in p.seats))
    return any(
        all(member.line.distance(p) < member.width / 2 + SHOWN for p in (run.start, run.end))
        for member in (last, *rims)
    )


def _on_nothing(layout: Layout, run: EdgeRun) -> FreeEnd:
    """Deck with no member under its boards, such as a corner past the joists' tips."""
    away, last = max(
        (member.line.distance(point) - member.width / 2, member.mark)
        for point in (run.start, run.at(0.5), run.end)
        for member in (nearest_member(layout, point),)
    )
    return FreeEnd(_edge(layout, run.at(0.5)), last, away, (), under=False)


def _edge(layout: Layout, point: Vector) -> str:
    platform = layout.project.platform
    rings = [
        ("edge", platform.outline),
        *((f"opening {i}, edge", ring) for i, ring in enumerate(platform.openings, 1)),
    ]
    off, edge = min(
        (Line.between(a, b).distance(point), f"{words} {number}")
        for words, ring in rings
        for number, (a, b) in enumerate(pairwise((*ring, ring[0])), start=1)
    )
    return edge if off < _ON else "edge between two fields of joists"
