"""A second opinion: the platform as one grillage of elastic members, beside the hand route down the load path.

The hand route takes every support as rigid. Here all members are one frame: a carrier that sags under the
joists gives way. Where the platform is statically determinate both must agree to rounding; where they differ
the sheet says so. Members hold each other only upright and do not twist, as in the hand route. The post and the knees
of a T-frame are bars of the frame.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

import numpy as np

from bolewright.mechanics.frame import FrameResult, analyse
from bolewright.mechanics.frame_diagrams import along
from bolewright.mechanics.frame_model import (
    ALL,
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
from bolewright.mechanics.ties import first_most
from bolewright.platform.compared import FLAG as FLAG
from bolewright.platform.compared import SLIGHT as SLIGHT
from bolewright.platform.compared import Compared as Compared
from bolewright.platform.compared import beside_largest as beside_largest
from bolewright.platform.layout import Member as Timber
from bolewright.platform.load_path import Effects, LoadPath
from bolewright.platform.tee_opinion import head_row, node_at, of_tee, tee_parts
from bolewright.platform.tees import (
    find_tees,
    stands_alone,
    tee_of,
)

_STIFF = Profile(E=29e6, A=100.0, I_z=1000.0, I_y=1000.0, J=1000.0, G=11e6)
_DIRECT = ("deck", "own weight", "guard")
_CLOSE = 0.02  # in: nodes nearer than this are one, or the frame would lose all its digits in a stub
_NOTHING = 1e-6  # in
_ROUNDING = 1e-8  # share of the largest value of its unit


def told(compared: Sequence[Compared]) -> list[dict[str, str | float]]:
    """Both routes' values for the record, alike on every machine.

    The hand route's to six digits, the frame's to the four that solving it leaves; what is nothing beside the largest
    of its unit is 0, not the rounding that it is.
    """
    largest: dict[str, float] = {}
    for c in compared:
        largest[c.unit] = max(largest.get(c.unit, 0.0), abs(c.by_hand))

    def digits(value: float, unit: str, count: int) -> float:
        return float(f"{value:.{count}g}") if abs(value) > _ROUNDING * largest[unit] else 0.0

    return [
        {
            "part": c.part,
            "quantity": c.quantity,
            "load": c.load,
            "unit": c.unit,
            "by_hand": digits(c.by_hand, c.unit, 6),
            "by_frame": digits(c.by_frame, c.unit, 4),
        }
        for c in compared
    ]


def second_opinion(path: LoadPath) -> list[Compared]:
    """Reactions and the largest moment of every member under D and under L everywhere, by both routes.

    With a T-frame also under L towards the end of its carrier alone, and what comes into its post and knees.
    """
    loads = {"D": path.dead, "L": path.live}
    tees = find_tees(path.layout)
    for tee in tees:
        loads[f"L towards the end of {tee.carrier.mark}"] = np.where(head_row(path, tee) > 0, path.live, 0.0)
    places = {m.mark: _places(path, m) for m in path.layout.members}
    result = analyse(_frame(path, places), [_loads_on(path, places, load) for load in loads.values()])
    moments = {
        m.mark: _moments(path.effects[m.mark], places[m.mark], result, list(loads.values()))
        for m in path.layout.members
    }
    compared: list[Compared] = []
    for case, (name, load) in enumerate(loads.items()):
        reactions = [
            Compared(
                mark, "reaction", name, float(row @ load), _reaction(path, places, result, mark, case), "lb"
            )
            for mark, row in path.reactions.items()
        ]
        bent = [
            [
                Compared(m.mark, "largest moment", name, *moments[m.mark][case], "lb·in")
                for m in members
                if not stands_alone(m)
            ]
            for members in (path.layout.joists, path.layout.carriers)
        ]
        of_tees = [of_tee(path, tee, result, name, load, case, moments) for tee in tees]
        for group in (reactions, *bent):
            compared += beside_largest(group)
        compared += [c for group in of_tees for c in group]
    return compared


# ---------------------------------------------------------------------------------------------------------


def _places(path: LoadPath, member: Timber) -> list[float]:
    """Where a member is cut into pieces: its ends, its seats, and the members that sit on it."""
    places = {0.0, member.line.length, *(seat.at for seat in member.seats)}
    if stands_alone(member):
        places.update(tee_of(path.layout.project, member).places)
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
        if stands_alone(member):
            own, foot = tee_parts(
                tee_of(path.layout.project, member), places[member.mark], levels[member.mark]
            )
            nodes, pieces = [*nodes, *own[0]], [*pieces, *own[1]]
            held = {name: dofs - {Dof.DX} if name in marks else dofs for name, dofs in held.items()}
            held[foot] = set(ALL)
            continue
        for i, seat in enumerate(member.seats):
            top = node_at(member, places[member.mark], seat.at)
            if seat.below in by_mark:
                below = node_at(by_mark[seat.below], places[seat.below], seat.below_at)
                pieces.append(Member(f"{member.mark}|{i}", top, below, _STIFF, HINGE, HINGE))
            else:
                held[top].add(Dof.DZ)
    axes = {m.mark: _axes(m) for m in path.layout.members}
    axes |= {f"{tee.mark} foot": axes[tee.carrier.mark] for tee in find_tees(path.layout)}
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


def _reaction(
    path: LoadPath, places: dict[str, list[float]], result: FrameResult, mark: str, case: int
) -> float:
    total = 0.0
    for member, seat in path.layout.on_support(mark):
        node = f"{mark} foot" if stands_alone(member) else node_at(member, places[member.mark], seat.at)
        total += float(result.reaction(node)[Dof.DZ, case])
    return total


def _moments(
    effects: Effects, places: list[float], result: FrameResult, loads: list[Array]
) -> list[tuple[float, float]]:
    """Largest moment of a member by the hand route under each load, and the frame's at the same place."""
    by_hand = effects.moment @ np.array(loads).T
    rows = first_most(np.abs(by_hand), axis=0)
    pieces = np.clip(np.searchsorted(places, effects.stations[rows], side="right") - 1, 0, len(places) - 2)
    found = np.zeros(len(loads))
    for piece in np.unique(pieces):
        here = np.flatnonzero(pieces == piece)
        within = np.clip(effects.stations[rows[here]] - places[piece], 0.0, places[piece + 1] - places[piece])
        bent = along(result, f"{effects.member.mark}/{piece}", within).moment_z
        found[here] = bent[np.arange(here.size), here]
    return [(float(by_hand[row, case]), float(found[case])) for case, row in enumerate(rows)]
