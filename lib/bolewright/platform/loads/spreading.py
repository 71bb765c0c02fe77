"""A load along a stretch of deck or edge, as straight lines of load on the members that get it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from bolewright.mechanics.loads import PointLoad, TriangleLoad, UnitLoad
from bolewright.platform.layout.boards import BoardField
from bolewright.platform.layout.borne import Borne, along, place_on
from bolewright.platform.layout.parts import Layout

_POINT = 0.1  # in: a shorter stretch is one place


Place = tuple[float, float]  # (s, t) in a field's axes


class Part(NamedTuple):
    """Some pounds of a unit load on a member."""

    member: str
    load: UnitLoad
    pounds: float


def sloping(
    layout: Layout, boards: BoardField, borne: Borne, pounds: float, ends: tuple[Place, Place]
) -> Iterator[Part]:
    """A line of load that is greatest at the first and falls to nothing at the second of two places of the field.

    What comes down aside of the first place, where the rest of a board lies, runs on as far from there.
    """
    one, other = (_other(layout, boards, borne, place) for place in ends)
    x = place_on(layout.member(borne.member), borne.x + other - one)
    yield Part(borne.member, _towards(borne.x, x), pounds * borne.pounds)


def centred(layout: Layout, boards: BoardField, borne: Borne, pounds: float, beyond: Place) -> Iterator[Part]:
    """A line of load from here to ``beyond`` with its force and moment as if all of it came here.

    Of two such lines from both ends of a stretch, each with the load that the lever brings to its end, the sum is the
    load as it lies; and what changes evenly along the stretch feels each as a load at its end.
    """
    x = _other(layout, boards, borne, beyond)
    whole = pounds * borne.pounds
    if abs(x - borne.x) < _POINT:
        yield Part(borne.member, PointLoad(borne.x), whole)
        return
    yield Part(borne.member, TriangleLoad(x, borne.x), 2 * whole)
    yield Part(borne.member, TriangleLoad(borne.x, x), -whole)


def _other(layout: Layout, boards: BoardField, borne: Borne, beyond: Place) -> float:
    """Where on the same member a load at another place comes down."""
    member = layout.member(borne.member)
    if borne.square:
        return member.line.nearest(boards.plan(*beyond))
    return place_on(member, along(member, boards, beyond[0]))


def _towards(here: float, there: float) -> UnitLoad:
    return PointLoad((here + there) / 2) if abs(there - here) < _POINT else TriangleLoad(there, here)
