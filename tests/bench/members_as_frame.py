"""A platform as a space frame of its members, to run the frame solver and another library on one model."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

import numpy as np

from bolewright.mechanics.frame_model import (
    HINGE,
    Dof,
    Frame,
    FrameLoad,
    Member,
    MemberPoint,
    MemberSpread,
    Node,
    Profile,
    Support,
    Vector,
)
from bolewright.mechanics.loads import Array, PointLoad, SpreadLoad
from bolewright.platform.layout.layout import Member as Timber
from bolewright.platform.loads.load_path import Effects, LoadPath

_STIFF = Profile(E=29e6, A=100.0, I_z=1000.0, I_y=1000.0, J=1000.0, G=11e6)
_DIRECT = ("deck", "own weight", "guard")
_CLOSE = 0.02  # in: nodes nearer than this are one, or the frame would lose all its digits in a stub
_NOTHING = 1e-6  # in


def members_as_frame(path: LoadPath, load: Array) -> tuple[Frame, list[FrameLoad]]:
    """The members, and one load on every source of the load path as it lies on them."""
    places = {m.mark: _places(path, m) for m in path.layout.members}
    return _frame(path, places), _loads_on(path, places, load)


def _node_at(member: Timber, places: list[float], at: float) -> str:
    return f"{member.mark}@{int(np.argmin(np.abs(np.array(places) - at)))}"


def _places(path: LoadPath, member: Timber) -> list[float]:
    """Where a member is cut into pieces: its ends, its seats, and the members that sit on it."""
    places = {0.0, member.line.length, *(seat.at for seat in member.seats)}
    for other in path.layout.members:
        places.update(seat.below_at for seat in other.seats if seat.below == member.mark)
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > _CLOSE:
            kept.append(place)
    return kept


def _levels(path: LoadPath) -> dict[str, float]:
    """A level for every member, below all that it carries; only the order matters to a grillage."""
    levels: dict[str, float] = {m.mark: 0.0 for m in path.layout.members}
    for member in path.layout.members:
        for seat in member.seats:
            if seat.below in levels:
                levels[seat.below] = min(levels[seat.below], levels[member.mark] - 12.0)
    return levels


def _frame(path: LoadPath, places: dict[str, list[float]]) -> Frame:
    levels = _levels(path)
    by_mark = {m.mark: m for m in path.layout.members}
    nodes: list[Node] = []
    pieces: list[Member] = []
    held: dict[str, set[Dof]] = {}
    for member in path.layout.members:
        marks = [f"{member.mark}@{i}" for i in range(len(places[member.mark]))]
        for mark, at in zip(marks, places[member.mark], strict=True):
            x, y = member.line.at(at)
            nodes.append(Node(mark, x, y, levels[member.mark]))
            held[mark] = {Dof.DX, Dof.DY, Dof.RX, Dof.RZ}
        profile = _profile(path.effects[member.mark])
        pieces += [
            Member(f"{member.mark}/{i}", one, other, profile)
            for i, (one, other) in enumerate(zip(marks, marks[1:], strict=False))
        ]
        for i, seat in enumerate(member.seats):
            top = _node_at(member, places[member.mark], seat.at)
            if seat.below in by_mark:
                below = _node_at(by_mark[seat.below], places[seat.below], seat.below_at)
                pieces.append(Member(f"{member.mark}|{i}", top, below, _STIFF, HINGE, HINGE))
            else:
                held[top].add(Dof.DZ)
    axes = {m.mark: _axes(m) for m in path.layout.members}
    supports = [
        Support(mark, tuple(sorted(dofs)), axes=axes[mark.rpartition("@")[0] or mark])
        for mark, dofs in held.items()
    ]
    return Frame(tuple(nodes), tuple(pieces), tuple(supports))


def _axes(member: Timber) -> tuple[Vector, Vector, Vector]:
    u = member.line.u
    return ((u[0], u[1], 0.0), (-u[1], u[0], 0.0), (0.0, 0.0, 1.0))


def _profile(effects: Effects) -> Profile:
    section = effects.member.section
    return Profile(
        E=effects.values.E,
        A=section.A,
        I_z=section.I,
        I_y=section.I_flat,
        J=section.I_flat,
        G=effects.values.E / 16,
    )


def _loads_on(path: LoadPath, places: dict[str, list[float]], load: Array) -> list[FrameLoad]:
    """What lies directly on every member (decking, own weight, guards) in one load."""
    found: list[FrameLoad] = []
    for member in path.layout.members:
        effects = path.effects[member.mark]
        for what, label, pounds in zip(effects.loads, effects.labels, effects.delivered @ load, strict=True):
            if label not in _DIRECT or pounds == 0.0:
                continue
            if isinstance(what, PointLoad):
                found.append(_point(member, places[member.mark], what.x, float(pounds)))
            elif isinstance(what, SpreadLoad):
                found += _spread(member, places[member.mark], what, float(pounds))
    return found


def _point(member: Timber, places: list[float], x: float, pounds: float) -> FrameLoad:
    piece = min(max(bisect_right(places, x) - 1, 0), len(places) - 2)
    within = min(max(x - places[piece], 0.0), places[piece + 1] - places[piece])
    return MemberPoint(f"{member.mark}/{piece}", within, (0.0, 0.0, -pounds))


def _spread(member: Timber, places: list[float], load: SpreadLoad, pounds: float) -> list[FrameLoad]:
    q = pounds / (load.end - load.start)
    found: list[FrameLoad] = []
    first, last = max(bisect_right(places, load.start) - 1, 0), bisect_left(places, load.end)
    for piece in range(first, min(last, len(places) - 1)):
        low, high = places[piece], places[piece + 1]
        start, end = max(low, load.start), min(high, load.end)
        if end - start > _NOTHING:
            found.append(MemberSpread(f"{member.mark}/{piece}", start - low, end - low, (0.0, 0.0, -q)))
    return found
