"""A second model of the whole platform sideways: carriers, posts, knees and tree bolts as one space frame.

The deck is a plate that is stiff in plan and holds nothing upright. Every carrier lies at the level of its
underside; one that rests on another stands on it with a stiff upright as tall as the lower one is deep, so that
level force passes down as it does in timber. Overturning above the plate comes down as in the hand route, as a
straight-line pressure on the deck. Compared are drift, the level force on every support, what overturning and
knees add to its load, and the force in every knee, under the wind along x and along y.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from bolewright.bracing.knee import brace_axial_force
from bolewright.calculation import Calculation
from bolewright.mechanics.frame import FrameResult, analyse
from bolewright.mechanics.frame_model import (
    ALL,
    HINGE,
    Dof,
    Frame,
    FrameLoad,
    Member,
    Node,
    NodeLoad,
    Profile,
    Support,
    Vector,
)
from bolewright.mechanics.loads import PointLoad, SpreadLoad
from bolewright.mechanics.section import rectangle_torsion_constant
from bolewright.platform.checks.posts import FIXITY
from bolewright.platform.combine import Array
from bolewright.platform.knees import Knee, carrier_modulus
from bolewright.platform.level_stiffness import run_knee_stiffness, run_post_modulus
from bolewright.platform.level_supports import BoltFrame, Foot, PostAxis, PostFrame
from bolewright.platform.parts import Bearing, Seat
from bolewright.platform.parts import Member as Timber
from bolewright.platform.second_opinion import Compared
from bolewright.platform.sideways import Sideways, State, answer

SHEAR = 16.0  # E over G of sawn timber
STIFF = 1e3  # times the section of what the hand route takes as rigid
LINK = Profile(E=1e6, A=2e3, I_z=2e4, I_y=2e4, J=2e4, G=1e6)
PLATE = Profile(E=1e6, A=2e3, I_z=1e-3, I_y=1e6, J=1e-3, G=1e6)  # stiff in plan, slack upright
CLOSE = 0.5  # in: nodes of a carrier nearer than this are one
SMALL = 0.30  # of the largest of its kind: less than this adds under 5 % to a resultant, and is not compared
SLIGHT = 0.05  # of the greatest load on a support: overturning that adds less is not compared
UPRIGHT = "load from overturning and knees"
WHY = "carriers twist and give where the hand route takes them as stiff"


@dataclass
class _Parts:
    """Nodes, members and supports while the frame is put together."""

    nodes: list[Node] = field(default_factory=list)
    members: list[Member] = field(default_factory=list)
    supports: list[Support] = field(default_factory=list)
    places: dict[str, list[float]] = field(default_factory=dict)
    levels: dict[str, float] = field(default_factory=dict)

    def at(self, mark: str, x: float) -> str:
        """Name of the node of a carrier nearest to a place along it."""
        return f"{mark}@{int(np.argmin(np.abs(np.array(self.places[mark]) - x)))}"

    def stiff(self, name: str, start: str, end: str, depth: Vector | None = None) -> None:
        """A rigid piece between two nodes."""
        self.members.append(Member(name, start, end, LINK, depth=depth))

    def under(self, name: str, node: str, drop: float) -> str:
        """A node straight below another, joined to it rigidly."""
        at = next(n for n in self.nodes if n.name == node)
        self.nodes.append(Node(name, at.x, at.y, at.z - drop))
        self.stiff(f"{name}+", name, node)
        return name

    def seat(self, name: str, node: str, carrier: Timber) -> str:
        """A node just under a carrier, on which it is free to bend but not to roll."""
        at = next(n for n in self.nodes if n.name == node)
        self.nodes.append(Node(name, at.x, at.y, at.z - 1.0))
        self.upright(f"{name}+", name, node, carrier)
        return name

    def upright(self, name: str, foot: str, top: str, carrier: Timber) -> None:
        """A stiff upright under a carrier: local y along the carrier, so that its top turns about local z and x."""
        depth = (*carrier.line.u, 0.0)
        self.members.append(Member(name, foot, top, LINK, (), (Dof.RX, Dof.RZ), depth))

    def pin(self, name: str, foot: str, top: str) -> None:
        """A stiff upright under a further carrier on one support, which may turn on it in every way."""
        self.members.append(Member(name, foot, top, LINK, (), ALL[3:]))

    def stand(
        self, node: str, held: tuple[Dof, ...], springs: tuple[tuple[Dof, float], ...], u: Vector
    ) -> None:
        """A support at a node, in axes along and across a direction in plan."""
        axes = (u, (-u[1], u[0], 0.0), (0.0, 0.0, 1.0))
        self.supports.append(Support(node, held, springs, axes=axes))


def sideways_model(sideways: Sideways) -> list[Compared]:
    """Both routes under 0.6 of the wind along x and along y, for every way in which the feet are taken."""
    if sideways.loose:
        return []
    return [c for state in sideways.states for c in _state(sideways, state)]


def _state(sideways: Sideways, state: State) -> list[Compared]:
    parts, centre = _frame(sideways, state)
    pushes = [_push(sideways, axis, centre) for axis in (0, 1)]
    hands = [answer(sideways, state, push.load[:, None], push.over[:, None]) for push in pushes]
    cases = [_loads(sideways, parts, push, hand) for push, hand in zip(pushes, hands, strict=True)]
    result = analyse(Frame(tuple(parts.nodes), tuple(parts.members), tuple(parts.supports)), cases)
    found = [c for axis, hand in enumerate(hands) for c in _compare(sideways, hand, result, axis, centre)]
    kinds = dict.fromkeys((c.quantity, c.load if c.quantity == UPRIGHT else "") for c in found)
    weight = {
        f.support.mark: float(most.max()) for f, most in zip(sideways.frames, sideways.most, strict=True)
    }
    found = [c for c in found if c.quantity != UPRIGHT or _largest(c) > SLIGHT * weight[c.part]]
    return [
        c
        for kind in kinds
        for c in _telling([c for c in found if (c.quantity, c.load if c.quantity == UPRIGHT else "") == kind])
    ]


def _largest(compared: Compared) -> float:
    return max(abs(compared.by_hand), abs(compared.by_frame))


# ---------------------------------------------------------------------------------------------------------
# The frame


def _decked(sideways: Sideways) -> list[Timber]:
    """Carriers that the deck holds in plan: those with joists on or in them, or boards on top."""
    layout = sideways.path.layout
    under = {seat.below for joist in layout.joists for seat in joist.seats}
    flush = {m.mark for m in layout.flush}
    return [c for c in layout.carriers if c.mark in under or c.mark in flush]


def _frame(sideways: Sideways, state: State) -> tuple[_Parts, tuple[float, float]]:
    parts = _Parts()
    for carrier in sideways.path.layout.carriers:
        _carrier(parts, sideways, carrier)
    for carrier in sideways.path.layout.carriers:
        _joints(parts, sideways, carrier)
    for i, frame in enumerate(sideways.frames):
        (carrier, seat), *more = sideways.path.layout.on_support(frame.support.mark)
        top, mark = parts.at(carrier.mark, seat.at), frame.support.mark
        shared = top
        if isinstance(frame, BoltFrame):
            k = state.springs[i].k
            springs = ((Dof.DX, float(k[0])), (Dof.DY, float(k[1])))
            shared = parts.seat(f"{mark} foot", top, carrier)
            parts.stand(shared, (Dof.DZ, *ALL[3:]), springs, (*frame.u, 0.0))
        elif frame.post.foot != "held" and not frame.braced:
            shared = parts.seat(f"{mark} foot", top, carrier)
            parts.stand(shared, (Dof.DZ, *ALL[3:]), (), (*frame.u, 0.0))
        else:
            _post(parts, frame, state.foot, float(state.springs[i].k[1]), top)
            if more:
                shared = parts.under(f"{mark} cap", top, 1.0)
        for other, place in more:
            parts.pin(f"{mark}|{other.mark}", shared, parts.at(other.mark, place.at))
    for knee in sideways.knees:
        E = knee.values.E
        length = float(np.hypot(knee.brace.rise, knee.brace.run))
        area = run_knee_stiffness(Calculation().run, knee) * length / E
        bar = Profile(E=E, A=area, I_z=1.0, I_y=1.0, J=1.0, G=E / SHEAR)
        end = parts.at(knee.carrier.mark, knee.at)
        parts.members.append(Member(knee.brace.mark, f"{knee.brace.support} knee", end, bar, HINGE, HINGE))
    return parts, _plate(parts, sideways)


def _carrier(parts: _Parts, sideways: Sideways, carrier: Timber) -> None:
    """Nodes and pieces of a carrier, at the level of its underside."""
    on_it = [s.below_at for m in sideways.path.layout.carriers for s in m.seats if s.below == carrier.mark]
    knees = [k.at for k in sideways.knees if k.carrier.mark == carrier.mark]
    kept: list[float] = []
    for place in sorted({0.0, carrier.line.length, *on_it, *knees, *(s.at for s in carrier.seats)}):
        if not kept or place - kept[-1] > CLOSE:
            kept.append(place)
    parts.places[carrier.mark], parts.levels[carrier.mark] = kept, carrier.bottom
    E, section = carrier_modulus(carrier), carrier.section
    J = float(rectangle_torsion_constant(b=min(section.b, section.d), d=max(section.b, section.d)))
    profile = Profile(E=E, A=section.A * STIFF, I_z=section.I, I_y=section.I_flat * STIFF, J=J, G=E / SHEAR)
    for i, place in enumerate(kept):
        parts.nodes.append(Node(f"{carrier.mark}@{i}", *carrier.line.at(place), carrier.bottom))
    for i in range(len(kept) - 1):
        parts.members.append(
            Member(f"{carrier.mark}/{i}", f"{carrier.mark}@{i}", f"{carrier.mark}@{i + 1}", profile)
        )


def _joints(parts: _Parts, sideways: Sideways, carrier: Timber) -> None:
    """A carrier on others: on an upright as tall as the lower one, free to bend over it; or hung in it.

    What it sits on keeps it from rolling, as the ties and joists do that are checked by themselves.
    """
    for i, seat in enumerate(carrier.seats):
        if seat.below not in parts.places:
            continue
        top, foot = parts.at(carrier.mark, seat.at), parts.at(seat.below, seat.below_at)
        if seat.bearing is Bearing.HANGS and abs(_rise(parts, carrier, seat)) <= CLOSE:
            foot = parts.under(f"{carrier.mark}|{i} foot", foot, -1.0)
        parts.upright(f"{carrier.mark}|{i}", foot, top, carrier)


def _rise(parts: _Parts, carrier: Timber, seat: Seat) -> float:
    return parts.levels[carrier.mark] - parts.levels[seat.below]


def _post(parts: _Parts, frame: PostFrame, foot: Foot, k_across: float, top: str) -> None:
    """A post under the node of its carrier, its knee on the way; across the carrier by its stiffness there."""
    mark, u = frame.support.mark, (*frame.u, 0.0)
    E, h = run_post_modulus(Calculation().run, frame), frame.h
    firm = frame.post.foot == "held"
    still = firm and foot is Foot.HELD
    x, y = frame.support.at
    down = FIXITY if still else 0.0
    l, d = h + down, frame.arm(1)
    across = k_across * (l**3 + 3 * l**2 * d + 3 * l * d**2) / (3 * E) if firm else frame.I
    bar = Profile(E=E, A=frame.section.A * STIFF, I_z=frame.I, I_y=max(across, 1e-3), J=frame.I, G=E / SHEAR)
    parts.nodes.append(Node(f"{mark} foot", x, y, -down))
    hinged_along = not still and frame.axes[0].n > 0
    soft_along = not still and not frame.axes[0].n
    held = [Dof.DX, Dof.DY, Dof.DZ, Dof.RZ]
    held += [] if hinged_along else [Dof.RY]
    held += [Dof.RX] if firm else []
    parts.stand(f"{mark} foot", tuple(held), (), u)
    if soft_along:
        bar = Profile(bar.E, bar.A, across, bar.I_y, bar.J, bar.G)
    below = f"{mark} foot"
    if frame.axes[0].n:
        knee = f"{mark} knee"
        parts.nodes.append(Node(knee, x, y, h - frame.axes[0].a))
        parts.members.append(Member(f"{mark} low", below, knee, bar, depth=u))
        below = knee
    parts.members.append(Member(f"{mark} high", below, top, bar, (), (Dof.RZ,), u))


def _plate(parts: _Parts, sideways: Sideways) -> tuple[float, float]:
    """The deck in plan, as arms from one node to the carriers' seats; returns the place of that node."""
    ends = _ends(parts, sideways)
    at = {n.name: n for n in parts.nodes}
    x, y = (float(np.mean([getattr(at[e], name) for e in ends])) for name in ("x", "y"))
    for n, level in enumerate(dict.fromkeys(round(at[e].z, 3) for e in ends)):
        node = f"plate {n}"
        parts.nodes.append(Node(node, x, y, level))
        parts.supports.append(Support(node, (Dof.DZ, Dof.RX, Dof.RY)))
        if n:
            parts.stiff(f"plate {n} joint", f"plate {n - 1}", node)
        for end in (e for e in ends if round(at[e].z, 3) == level):
            parts.members.append(Member(f"{node} {end}", node, end, PLATE, (), ALL[3:]))
    return x, y


def _ends(parts: _Parts, sideways: Sideways) -> list[str]:
    """Where the plate holds the carriers: at the underside over bolts and carriers, at the top over a post.

    Not where a carrier hangs: it would hold the one it hangs from against roll.
    """
    found: dict[str, None] = {}
    for carrier in _decked(sideways):
        for i, seat in enumerate(carrier.seats):
            if seat.bearing is Bearing.HANGS:
                continue
            node = parts.at(carrier.mark, seat.at)
            if _on_post(sideways, seat):
                node = parts.under(f"{carrier.mark}^{i}", node, -carrier.section.d)
            found[node] = None
    return list(found)


def _on_post(sideways: Sideways, seat: Seat) -> bool:
    """Whether a seat is on a post that the roll of the carrier bends."""
    return any(f.support.mark == seat.below and f.depth for f in sideways.frames if isinstance(f, PostFrame))


def _held_at(sideways: Sideways, mark: str) -> float:
    """Level at which the plate hands on what a support takes (in above grade)."""
    decked = _decked(sideways)
    for carrier in decked:
        for seat in carrier.seats:
            if seat.below == mark:
                return carrier.top if _on_post(sideways, seat) else carrier.bottom
    return float(np.mean([c.bottom for c in decked]))


# ---------------------------------------------------------------------------------------------------------
# Loads and what is compared


@dataclass(frozen=True)
class _Push:
    """A level push: force along x and y and moment about the origin (3), moment left for the deck (2)."""

    load: Array
    over: Array
    moment: float


def _push(sideways: Sideways, axis: int, centre: tuple[float, float]) -> _Push:
    wind = sideways.winds[axis]
    F = 0.6 * wind.force
    force = np.array([F, 0.0]) if axis == 0 else np.array([0.0, F])
    moment = F * wind.across * (-1 if axis == 0 else 1)
    about = moment - (centre[0] * force[1] - centre[1] * force[0])
    return _Push(np.array([*force, moment]), force * wind.height, about)


def _loads(sideways: Sideways, parts: _Parts, push: _Push, hand: State) -> list[FrameLoad]:
    """The push on the plate; on the deck the overturning above the levels at which the plate hands it on."""
    passed = np.zeros(2)
    for i, frame in enumerate(sideways.frames):
        level = _held_at(sideways, frame.support.mark)
        passed += level * (hand.springs[i].axes.T @ hand.force[i])[:, 0]
    laid = sideways.tilt @ (push.over - passed)
    loads: list[FrameLoad] = [
        NodeLoad("plate 0", (float(push.load[0]), float(push.load[1]), 0.0), (0.0, 0.0, push.moment))
    ]
    for carrier in sideways.path.layout.carriers:
        effects = sideways.path.effects[carrier.mark]
        for what, label, pounds in zip(effects.loads, effects.labels, effects.delivered @ laid, strict=True):
            if pounds == 0.0 or label in parts.places:
                continue
            if isinstance(what, PointLoad):
                x = what.x
            elif isinstance(what, SpreadLoad):
                x = (what.start + what.end) / 2
            else:
                raise TypeError(f"{type(what).__name__} on {carrier.mark}")
            loads += _shared(parts, carrier.mark, x, float(pounds))
    return loads


def _shared(parts: _Parts, mark: str, x: float, pounds: float) -> list[FrameLoad]:
    """A load on a carrier as if laid on the two nodes beside it, by the lever."""
    places = parts.places[mark]
    piece = min(max(int(np.searchsorted(places, x, side="right")) - 1, 0), len(places) - 2)
    share = (x - places[piece]) / (places[piece + 1] - places[piece])
    return [
        NodeLoad(f"{mark}@{piece}", (0.0, 0.0, -pounds * (1 - share))),
        NodeLoad(f"{mark}@{piece + 1}", (0.0, 0.0, -pounds * share)),
    ]


def _compare(
    sideways: Sideways, hand: State, result: FrameResult, axis: int, centre: tuple[float, float]
) -> list[Compared]:
    load = f"0.6W along {'xy'[axis]}, {hand.foot.value}"

    def both(part: str, quantity: str, by_hand: float, by_frame: float, unit: str) -> Compared:
        return Compared(part, quantity, load, by_hand, by_frame, unit, WHY)

    turn = hand.movement[2, 0] * centre[1 - axis] * (-1 if axis == 0 else 1)
    drift = float(hand.movement[axis, 0] + turn)
    found = [both("deck", "drift", drift, float(result.displacement("plate 0")[axis, axis]), "in")]
    for i, frame in enumerate(sideways.frames):
        mark = frame.support.mark
        reaction = result.reaction(f"{mark} foot")[:, axis]
        V = float((hand.springs[i].axes.T @ hand.force[i])[axis, 0])
        R = float((hand.over + hand.kick)[i, 0])
        found.append(both(mark, "level force", V, -float(reaction[axis]), "lb"))
        found.append(both(mark, UPRIGHT, R, float(reaction[Dof.DZ]), "lb"))
    for knee in sideways.knees:
        i, which, a = _axis_of(sideways, knee)
        Q, V = float(hand.Q[i, which, 0]), float(hand.force[i, which, 0])
        F_b = abs(float(brace_axial_force(Q=Q, n=a.n, a=a.a, r=a.r)))
        ends = result.end_forces[:, :, axis]
        index = result.frame.member_index
        axial = abs(float(ends[index[knee.brace.mark], 0]))
        found.append(both(knee.brace.mark, "force along the brace", F_b, axial, "lb"))
        if which == 0:
            bent = abs(float(ends[index[f"{knee.brace.support} low"], 6 + Dof.RZ]))
            found.append(both(knee.brace.support, "moment at the knee", abs(Q - V) * a.a, bent, "lb·in"))
    return list(dict.fromkeys(found))


def _axis_of(sideways: Sideways, knee: Knee) -> tuple[int, int, PostAxis]:
    """Row of a knee's post, and the direction in which the knee stands."""
    i = sideways.row(knee.brace.support)
    frame = sideways.frames[i]
    assert isinstance(frame, PostFrame)
    which = next(w for w, axis in enumerate(frame.axes) if knee in axis.knees)
    return i, which, frame.axes[which]


def _telling(group: list[Compared]) -> list[Compared]:
    """Those of a kind that are not small beside the largest."""
    least = SMALL * max((_largest(c) for c in group), default=0.0)
    return [c for c in group if _largest(c) > max(least, 1e-9)]
