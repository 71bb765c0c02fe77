"""What the members under the boards get of a load at one place: the board rule, and where along them it comes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from bolewright.mechanics.loads import UnitLoad
from bolewright.platform.layout.boards import BoardField, Cell
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Kind, Layout, LayoutError, Member
from bolewright.units import feet_inches

STRAY = 9.0  # in: boards with no member under them, as at a corner, may lie this far from the nearest one
REACH = 24.0  # in: deck or a guard further than this from any member has nothing to stand on
BY_A_BEAM = 12.0  # in: deck this near to a beam along the boards would lie on it, were it moved out
_EDGE = 0.01  # in
_NEAR = 1e-3  # in: of members no further apart than this from a place none is nearer


@dataclass(frozen=True)
class Share:
    """What a member gets of a load: ``part`` of it as ``load``, negative where the lever lifts the member."""

    member: str
    load: UnitLoad
    part: float


class Borne(NamedTuple):
    """Pounds of one pound on the boards that come onto a member at ``x`` along it (in).

    ``square`` where it came square to the member, not along the board.
    """

    member: str
    pounds: float
    x: float
    square: bool


def bear(
    layout: Layout, boards: BoardField, cell: Cell, s: float, t: float, pounds: float = 1.0
) -> Iterator[Borne]:
    """What the members get of some ``pounds`` on the boards at a place of a cell, and where along them."""
    if not (cell.members or cell.way.lies_on):
        for member, x, part in all_nearest(layout, boards.plan(s, t)):
            yield Borne(member.mark, pounds * part, x, True)
    for got in cell.way.parts(s, t):
        member = layout.member(got.member)
        square = got.square is not None
        x = along(member, boards, s) if got.square is None else member.line.along(boards.plan(s, got.square))
        yield Borne(member.mark, pounds * got.pounds, place_on(member, x), square)


def place_on(member: Member, x: float) -> float:
    """Place on a member nearest to ``x`` along its line."""
    if x <= 0.0:
        return 0.0
    length = member.line.length
    return x if x < length else length


def along(member: Member, boards: BoardField, s: float) -> float:
    """Place along a member at ``s``: loads come to it along the boards."""
    start, rate = boards.started(member)
    return (s - start) / rate


def refuse_far(layout: Layout, boards: BoardField, cell: Cell) -> None:
    """LayoutError when boards reach too far past the last member, or half-way to the next."""
    reach = max(REACH, boards.field.spacing / 2 + 1.0)
    main = cell.way
    for s in (cell.low, cell.high):
        for t in cell.side(s) if main.past else (sum(m.at(s) for m in main.members) / 2,):
            point = boards.plan(s, t)
            if any(layout.member(m.name).line.distance(point) <= reach for m in main.members[:1]):
                continue
            member = nearest_member(layout, point)
            if member.line.distance(point) > reach:
                raise uncovered(layout, point, member)


def refuse_stray(layout: Layout, boards: BoardField, cell: Cell) -> None:
    """LayoutError when boards with no member under them lie too far from the nearest."""
    for s in (cell.low, cell.high):
        for t in cell.side(s):
            point = boards.plan(s, t)
            member = nearest_member(layout, point)
            if member.line.distance(point) > STRAY + member.width / 2:
                raise uncovered(layout, point, member)


def all_nearest(layout: Layout, point: Vector) -> list[tuple[Member, float, float]]:
    """The members under the boards nearest to a point, where along them, and the part of each: even if as near.

    Of a member at the end that it hangs by, and the beam that it hangs from, the beam.
    """
    away = [(member.line.distance(point), member) for member in layout.flush]
    least = min(distance for distance, _ in away)
    near = {member.mark: member for distance, member in away if distance <= least + _NEAR}
    found = [
        (member, x)
        for member in near.values()
        for x in (member.line.nearest(point),)
        if not any(seat.below in near and abs(seat.at - x) <= _NEAR for seat in member.seats)
    ]
    return [(member, x, 1 / len(found)) for member, x in found]


def nearest_member(layout: Layout, point: Vector) -> Member:
    """The member under the boards nearest to a point; of two as near, the first."""
    return min(layout.flush, key=lambda member: round(member.line.distance(point), 6))


def uncovered(layout: Layout, point: Vector, member: Member) -> LayoutError:
    """Deck that nothing bears: what would bear it, by where it lies from the nearest member."""
    field = [joist.mark for joist in layout.joists if joist.field == member.field]
    along = member.line.along(point)
    within = -_EDGE <= along <= member.line.length + _EDGE
    if member.kind is Kind.JOIST and not (within and member.mark in (field[0], field[-1])):
        what = (
            f"shift the joists of field {member.field} until one runs out under it, put a beam under that edge, or "
            "draw the outline in"
        )
    elif member.kind is Kind.BEAM and within and member.line.distance(point) <= BY_A_BEAM:
        what = (
            f"the boards run along {member.mark} there, so move {member.mark} out under them, let the joists run out "
            "over it, or draw the outline in"
        )
    else:
        what = "move the first or last joist out to it, add a beam, or draw the outline in"
    return LayoutError(
        f"The deck near {feet_inches(point[0])}, {feet_inches(point[1])} reaches "
        f"{feet_inches(member.line.distance(point))} past {member.mark}, the nearest member under it: {what}."
    )
