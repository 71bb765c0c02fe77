"""A second opinion: the platform as one grillage of elastic members, beside the hand route down the load path.

The hand route takes every support as rigid. Here all members are one frame: a carrier that sags under the
joists gives way. Where the platform is statically determinate both must agree to rounding; where they differ
the sheet says so. Members hold each other only upright and do not twist, as in the hand route.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass, replace

import numpy as np

from bolewright.bracing.tee import tee_knee_couple, tee_knee_prop, tee_knee_pull, tee_knee_push
from bolewright.calculation import Calculation
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
from bolewright.platform.layout import Member as Timber
from bolewright.platform.load_path import Effects, LoadPath
from bolewright.platform.tees import (
    FIXITY,
    Tee,
    find_tees,
    knee_stiffness,
    post_bending,
    stands_alone,
    tee_of,
)

FLAG = 0.05  # of the value: a larger difference is flagged
SLIGHT = 0.03  # of the largest value of its kind: a small value may differ by this
_STIFF = Profile(E=29e6, A=100.0, I_z=1000.0, I_y=1000.0, J=1000.0, G=11e6)
_DIRECT = ("deck", "own weight", "guard")
_CLOSE = 0.02  # in: nodes nearer than this are one, or the frame would lose all its digits in a stub
_NOTHING = 1e-6  # in


@dataclass(frozen=True)
class Compared:
    """One quantity by both routes; ``why`` says what likely parts them where they differ.

    ``largest`` is the largest value of the same kind by the hand route. Where the hand route takes a ``bound`` on the
    safe side only what the frame has more than it counts as a difference.
    """

    part: str
    quantity: str
    load: str
    by_hand: float
    by_frame: float
    unit: str
    why: str = "a member that carries it sags under load"
    largest: float = 0.0
    bound: bool = False

    @property
    def difference(self) -> float:
        """Difference as a share of the hand route's value; of a small one, so that 5 % is 3 % of the largest."""
        measure = max(abs(self.by_hand), self.largest * SLIGHT / FLAG)
        more = abs(self.by_frame) - abs(self.by_hand) if self.bound else self.by_frame - self.by_hand
        if self.bound and more < 0:
            return 0.0
        return more / measure if measure else 0.0

    @property
    def flagged(self) -> bool:
        """Whether the routes differ by more than 5 % of the value and by more than 3 % of the largest of its kind."""
        return abs(self.difference) > FLAG


def beside_largest(group: list[Compared]) -> list[Compared]:
    """The same, each with the largest of the group."""
    largest = max((abs(c.by_hand) for c in group), default=0.0)
    return [replace(c, largest=largest) for c in group]


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
        of_tees = [_of_tee(path, tee, result, name, load, case, moments) for tee in tees]
        for group in (reactions, *bent):
            compared += beside_largest(group)
        compared += [c for group in of_tees for c in group]
    return compared


def head_row(path: LoadPath, tee: Tee) -> Array:
    """Influence of the sources on the moment into the head of a T-frame's post."""
    head = path.effects[tee.carrier.mark].head
    assert head is not None
    return head[0]


def _of_tee(
    path: LoadPath,
    tee: Tee,
    result: FrameResult,
    name: str,
    load: Array,
    case: int,
    moments: dict[str, list[tuple[float, float]]],
) -> list[Compared]:
    """Moment into the post, and by their bounds the moment of the carrier and the greatest push of the knees."""
    ends, index = result.end_forces[:, :, case], result.frame.member_index
    M = float(head_row(path, tee) @ load)
    R = float(path.reactions[tee.mark] @ load)
    found = [
        Compared(
            tee.mark,
            "moment into its head",
            name,
            abs(M),
            round(abs(float(ends[index[f"{tee.mark} low"], 6 + Dof.RZ])), 3),
            "lb·in",
            largest=abs(R) * max(tee.runs),
        )
    ]
    by_hand, by_frame = moments[tee.carrier.mark][case]
    found.append(
        Compared(
            tee.carrier.mark,
            "largest moment, hand route on the safe side",
            name,
            by_hand,
            by_frame,
            "lb·in",
            bound=True,
        )
    )
    for brace, side in zip(tee.knees, (-1, 1), strict=True):
        r, r_o = tee.runs[::-side]
        V_c = tee_knee_couple(M_s=side * M, r=r, r_o=r_o)
        V_n = tee_knee_prop(R=R, M_s=side * M, r=r, r_o=r_o)
        bounds = [float(f(V_c=V_c, V_n=V_n, a=tee.a, r=r)) for f in (tee_knee_push, tee_knee_pull)]
        found.append(
            Compared(
                brace.mark,
                "force along the knee, hand route on the safe side",
                name,
                max(map(abs, bounds)),
                abs(float(ends[index[brace.mark], 0])),
                "lb",
                why="knees and carrier pry on the cap, which the hand route takes as not holding down",
                bound=True,
            )
        )
    return found


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


def _name(member: Timber, places: list[float], at: float) -> str:
    index = int(np.argmin(np.abs(np.array(places) - at)))
    return f"{member.mark}@{index}"


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
            own, foot = _tee(tee_of(path.layout.project, member), places[member.mark], levels[member.mark])
            nodes, pieces = [*nodes, *own[0]], [*pieces, *own[1]]
            held = {name: dofs - {Dof.DX} if name in marks else dofs for name, dofs in held.items()}
            held[foot] = set(ALL)
            continue
        for i, seat in enumerate(member.seats):
            top = _name(member, places[member.mark], seat.at)
            if seat.below in by_mark:
                below = _name(by_mark[seat.below], places[seat.below], seat.below_at)
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


def _tee(tee: Tee, places: list[float], level: float) -> tuple[tuple[list[Node], list[Member]], str]:
    """Post and knees of a T-frame under the node of its carrier, held where the post is; the name of its foot."""
    run = Calculation().run
    E, I = post_bending(run, tee)
    post = Profile(E=E, A=1e3, I_z=I, I_y=I, J=I, G=E / 16)
    x, y = tee.carrier.line.at(tee.own)
    foot, knee, u = f"{tee.mark} foot", f"{tee.mark} knee", (*tee.carrier.line.u, 0.0)
    nodes = [Node(foot, x, y, level - tee.h - FIXITY), Node(knee, x, y, level - tee.a)]
    pieces = [
        Member(f"{tee.mark} low", foot, knee, post, depth=u),
        Member(f"{tee.mark} high", knee, _name(tee.carrier, places, tee.own), post, (), (Dof.RZ,), u),
    ]
    for brace, at in zip(tee.knees, tee.places, strict=True):
        length = float(np.hypot(brace.rise, brace.run))
        bar = Profile(E=E, A=knee_stiffness(run, brace) * length / E, I_z=1.0, I_y=1.0, J=1.0, G=E / 16)
        end = _name(tee.carrier, places, at)
        pieces.append(Member(brace.mark, knee, end, bar, HINGE, HINGE))
    return (nodes, pieces), foot


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
        node = f"{mark} foot" if stands_alone(member) else _name(member, places[member.mark], seat.at)
        total += float(result.reaction(node)[Dof.DZ, case])
    return total


def _moments(
    effects: Effects, places: list[float], result: FrameResult, loads: list[Array]
) -> list[tuple[float, float]]:
    """Largest moment of a member by the hand route under each load, and the frame's at the same place."""
    by_hand = effects.moment @ np.array(loads).T
    rows = np.argmax(np.abs(by_hand), axis=0)
    pieces = np.clip(np.searchsorted(places, effects.stations[rows], side="right") - 1, 0, len(places) - 2)
    found = np.zeros(len(loads))
    for piece in np.unique(pieces):
        here = np.flatnonzero(pieces == piece)
        within = np.clip(effects.stations[rows[here]] - places[piece], 0.0, places[piece + 1] - places[piece])
        bent = along(result, f"{effects.member.mark}/{piece}", within).moment_z
        found[here] = bent[np.arange(here.size), here]
    return [(float(by_hand[row, case]), float(found[case])) for case, row in enumerate(rows)]
