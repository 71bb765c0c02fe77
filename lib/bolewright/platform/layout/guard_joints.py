"""What lies between a guard's post and the joist or block that takes its moment, and what a bolt there is worth."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from shapely import box, unary_union

from bolewright.calculation import Calculation
from bolewright.fasteners.connectors import bolt
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.geometry import Distances, Geometry
from bolewright.fasteners.lateral import lateral_design_value
from bolewright.fasteners.members import Wood
from bolewright.fasteners.service import DRY, OUTDOORS
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.guards import GuardPost
from bolewright.platform.layout.lines import Vector
from bolewright.platform.layout.parts import Kind, Layout, Member

_NEAR = 4.0  # in: a timber whose middle line is no further in from the edge lies against the post
_ALONG = 0.2  # sine of the angle under which it runs along the edge
_ONE_LINE = 0.999  # cosine of the angle under which pieces of a rim are one timber
_MEET = 0.5  # in between their ends
_AS_NEAR = 1 / 16  # in: pieces of one line, whatever rounding says
LASTS = 1.6  # load duration of a push (common practice)


@dataclass(frozen=True)
class AcrossGrain:
    """Value of one bolt of a post's joint, the force across the post's grain (lb), and what is to be said of it."""

    value: Any
    notes: tuple[str, ...]


def behind_post(layout: Layout, post: GuardPost) -> Member | None:
    """The rim, header or edge joist that a post stands against; None where it stands on the end of a joist alone."""
    pieces = pieces_behind(layout, post)
    return pieces[0] if pieces else None


def pieces_behind(layout: Layout, post: GuardPost) -> tuple[Member, ...]:
    """What a post stands against: two pieces of a rim where they meet behind it, for either may take its moment."""
    found = []
    for member in layout.members:
        off = member.line.distance(post.at)
        along = member.line.along(post.at)
        across = abs(member.line.u[0] * post.out[0] + member.line.u[1] * post.out[1])
        beside = post.receiver is None or (
            post.receiver.bottom < member.top and member.bottom < post.receiver.top
        )
        if beside and across < _ALONG and off <= _NEAR and -1.0 <= along <= member.line.length + 1.0:
            found.append((off, member))
    nearest = min((off for off, _ in found), default=0.0)
    return tuple(member for off, member in found if off <= nearest + _AS_NEAR)


def contact_width(layout: Layout, post: GuardPost) -> float:
    """Width over which a post presses on what stands behind it (in): on timbers along the edge, and on a joist's end.

    What takes its moment counts with its own width, what lies along the edge from end to end.
    """
    b, receiver = post.section.b, post.receiver
    if receiver is None:
        return 0.0
    u = (-post.out[1], post.out[0])
    behind = [
        sorted(_along(end, post.at, u) for end in (piece.line.start, piece.line.end))
        for piece in pieces_behind(layout, post)
    ]
    end = _along(post.end, post.at, u)
    behind.append([end - receiver.width / 2, end + receiver.width / 2])
    touched = unary_union([box(low, 0, high, 1) for low, high in behind]).intersection(
        box(-b / 2, 0, b / 2, 1)
    )
    return float(touched.area)


def gap_behind(layout: Layout, post: GuardPost) -> float:
    """From a post's back, at the deck's edge, to the nearest face of what it stands against (in); 0 where they touch.

    Nothing lies between: its bolts would be bent over the gap, and no wood is pressed.
    """
    if post.receiver is None:
        return 0.0
    faces = [piece.line.distance(post.at) - piece.width / 2 for piece in pieces_behind(layout, post)]
    out = post.out
    back = (post.at[0] - post.end[0]) * out[0] + (post.at[1] - post.end[1]) * out[1]
    faces.append(back - post.receiver.width / 2 * post.twist)
    return max(min(faces), 0.0)


def _along(place: Vector, start: Vector, u: Vector) -> float:
    return (place[0] - start[0]) * u[0] + (place[1] - start[1]) * u[1]


@dataclass(frozen=True)
class InFraming:
    """Where the two bolts of a post go through the rim, header or edge joist behind it (in).

    ``at`` along its line, ``end`` to the nearer end of the timber, ``to_top`` and ``to_bottom`` from its edges to the
    nearest bolt, ``apart`` from bolt to bolt.
    """

    member: Member
    at: float
    end: float
    to_top: float
    to_bottom: float
    apart: float


def in_framing(layout: Layout, post: GuardPost) -> InFraming | None:
    """Where a post's bolts go through what it stands against, the thinnest of it and the nearest to an end.

    None where that is the end of a joist alone.
    """
    found = places_in_framing(layout, post)
    return min(found, key=lambda place: (place.member.width, round(place.end, 3)), default=None)


def places_in_framing(layout: Layout, post: GuardPost) -> tuple[InFraming, ...]:
    """The same in each piece that a post stands against: two where pieces of a rim meet behind it."""
    receiver = post.receiver
    if receiver is None:
        return ()
    upper, lower = receiver.top - post.guard.bolt_edge, receiver.bottom + post.guard.bolt_edge
    found = []
    for piece in pieces_behind(layout, post):
        at = min(max(piece.line.along(post.at), 0.0), piece.line.length)
        end = min(_to_end(layout, piece, at, way) for way in (-1.0, 1.0))
        found.append(InFraming(piece, at, end, piece.top - upper, lower - piece.bottom, upper - lower))
    return tuple(found)


def _to_end(layout: Layout, member: Member, at: float, way: float) -> float:
    """From a place of a member to its end along its line (in); a rim runs on over its joists as one timber."""
    far = member.line.length - at if way > 0 else at
    if member.kind is not Kind.BLOCKING or entry_of(member).kind != "rim":
        return far
    tip = member.line.at(member.line.length if way > 0 else 0.0)
    for piece in layout.blocking:
        goes_on = piece.line.u[0] * member.line.u[0] + piece.line.u[1] * member.line.u[1]
        start, end = (piece.line.start, piece.line.end) if goes_on > 0 else (piece.line.end, piece.line.start)
        meets = start if way > 0 else end
        same = piece is not member and entry_of(piece).mark == entry_of(member).mark
        if same and abs(goes_on) > _ONE_LINE and math.dist(meets, tip) < _MEET:
            return far + _to_end(layout, piece, piece.line.along(tip), way if goes_on > 0 else -way)
    return far


def shared_moment(receiver: Member, edge: Member, moment: Vector) -> tuple[Vector, Vector]:
    """A moment about the edge as two that bend: of what takes the post, and of the member along the edge (lb·in).

    Neither is twisted: the joint of the two passes on, along the edge, what the skew leaves (statics).

    >>> from types import SimpleNamespace as At
    >>> joist, rim = At(line=At(u=(0.6, 0.8))), At(line=At(u=(1.0, 0.0)))
    >>> shared_moment(joist, rim, (-800.0, 0.0))
    ((-800.0, 600.0), (0.0, -600.0))
    """
    (r_x, r_y), u = receiver.line.u, edge.line.u
    n = (-r_y, r_x)
    part = (moment[0] * u[0] + moment[1] * u[1]) / (n[0] * u[0] + n[1] * u[1])
    bent = (part * n[0], part * n[1])
    return bent, (moment[0] - bent[0] + 0.0, moment[1] - bent[1] + 0.0)


def bolt_across_grain(
    layout: Layout,
    post: GuardPost,
    calculation: Calculation,
    *,
    vertical: float = 0.0,
    level: float = 1.0,
    C_D: float = LASTS,
) -> AcrossGrain | str:
    """What one bolt of a post's joint holds along the rail, single shear into rim or edge joist, or why it is open.

    The force may be inclined: ``vertical`` to ``level``, down alone with ``level`` 0. The post is loaded across its
    grain as the force is level, the rim along its own. Source: NDS 2018, 12.3 and 12.5.1.
    """
    guard, section = post.guard, post.section
    place = in_framing(layout, post)
    if place is None:
        return (
            "No rim or edge joist lies against the post to take it: the end of a joist alone holds nothing along the "
            "rail, nor down."
        )
    rim = place.member
    slope = math.degrees(math.atan2(abs(vertical), abs(level)))
    G_post, G_rim = guard.values(section).G, rim.timber.values(rim.section).G
    D = guard.bolt_diameter
    try:
        found = lateral_design_value(
            bolt(D, section.d + rim.width + 2.0),
            Wood(rim.width, G_rim, theta=slope, name=rim.mark),
            Wood(section.d, G_post, theta=90.0 - slope, name=post.mark),
            service=OUTDOORS if guard.wet else DRY,
            C_D=C_D,
            geometry=Geometry(
                # Weight presses the post's wood down on its bolts, away from its lower end.
                main=Distances(
                    edge_loaded=section.b / 2, edge=section.b / 2, end=guard.bolt_edge, toward_end=level != 0
                ),
                side=Distances(
                    edge_loaded=min(place.to_top, place.to_bottom) if level else place.to_bottom,
                    edge=min(place.to_top, place.to_bottom),
                    end=place.end,
                ),
            ),
            calculation=calculation,
        )
    except FastenerError as error:
        return f"NDS 2018 gives this bolt no value: {str(error).rstrip('.')}. A wider post, or thinner bolts."
    return AcrossGrain(found.Z_adj, found.notes)
