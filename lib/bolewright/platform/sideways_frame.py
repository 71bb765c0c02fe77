"""The whole platform as one space frame: carriers, posts, knees and tree bolts, and the deck as a plate in plan.

Every carrier lies at the level of its underside; one that rests on another stands on it with a stiff upright as tall
as the lower one is deep, so that level force passes down as it does in timber. What a carrier sits on keeps it from
rolling. The deck is stiff in plan and holds nothing upright; it holds the carriers through springs, one where each
joist sits and one for every few boards that lie on a carrier.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass, field

import numpy as np

from bolewright.calculation import Calculation
from bolewright.mechanics.frame_model import (
    ALL,
    HINGE,
    Dof,
    Member,
    Node,
    Profile,
    Support,
    Vector,
)
from bolewright.mechanics.section import rectangle_torsion_constant
from bolewright.platform.checks.posts import FIXITY
from bolewright.platform.combine import Array
from bolewright.platform.knees import carrier_modulus
from bolewright.platform.level_stiffness import run_knee_stiffness, run_post_modulus
from bolewright.platform.level_supports import BoltFrame, Foot, PostFrame
from bolewright.platform.parts import Bearing, Seat
from bolewright.platform.parts import Member as Timber
from bolewright.platform.plan_give import BOARD, Joints, run_joint
from bolewright.platform.sideways import Sideways, State

SHEAR = 16.0  # E over G of sawn timber
STIFF = 1e3  # times the section of what the hand route takes as rigid
LINK = Profile(E=1e6, A=2e3, I_z=2e4, I_y=2e4, J=2e4, G=1e6)
BOARDS = 16.0  # in: boards on a carrier are gathered to places this far apart
CLOSE = 0.11  # in: nodes of a carrier nearer than this are one; no distance that a file is likely to have
LEVEL = 0.5  # in: carriers whose undersides differ by less meet at one level


@dataclass
class Parts:
    """Nodes, members and supports while the frame is put together."""

    nodes: list[Node] = field(default_factory=list)
    members: list[Member] = field(default_factory=list)
    supports: list[Support] = field(default_factory=list)
    places: dict[str, list[float]] = field(default_factory=dict)
    levels: dict[str, float] = field(default_factory=dict)

    def at(self, mark: str, x: float) -> str:
        """Name of the node of a carrier nearest to a place along it."""
        return f"{mark}@{int(np.argmin(np.abs(np.array(self.places[mark]) - x)))}"

    def within(self, mark: str, x: float) -> tuple[int, float]:
        """Piece of a carrier that a place along it lies on, and how far along that piece."""
        places = self.places[mark]
        piece = min(max(bisect_right(places, x) - 1, 0), len(places) - 2)
        return piece, min(max(x - places[piece], 0.0), places[piece + 1] - places[piece])

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


def decked(sideways: Sideways) -> list[Timber]:
    """Carriers that the deck holds in plan: those with joists on or in them, or boards on top."""
    layout = sideways.path.layout
    under = {seat.below for joist in layout.joists for seat in joist.seats}
    flush = {m.mark for m in layout.flush}
    return [c for c in layout.carriers if c.mark in under or c.mark in flush]


def find_frame(sideways: Sideways, state: State) -> tuple[Parts, Deck]:
    """Nodes, members and supports, and what fastens the deck to them."""
    parts = Parts()
    for carrier in sideways.path.layout.carriers:
        _carrier(parts, sideways, carrier, firm=state.joints is Joints.FIRM)
    for carrier in sideways.path.layout.carriers:
        _joints(parts, sideways, carrier)
    guests = _guests(sideways)
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
            lever = 0.0 if carrier in decked(sideways) else frame.arm(1)
            _post(parts, frame, state.foot, state.springs[i].k, top, lever)
            if more:
                shared = parts.under(f"{mark} cap", top, 1.0)
        for other, place in more:
            node, name = parts.at(other.mark, place.at), f"{mark}|{other.mark}"
            if other.mark in guests:
                parts.upright(name, shared, node, other)
            else:
                parts.pin(name, shared, node)
    for knee in sideways.knee_influence.knees:
        E = knee.values.E
        length = float(np.hypot(knee.brace.rise, knee.brace.run))
        area = run_knee_stiffness(Calculation().run, knee) * length / E
        bar = Profile(E=E, A=area, I_z=1.0, I_y=1.0, J=1.0, G=E / SHEAR)
        end = parts.at(knee.carrier.mark, knee.at)
        parts.members.append(Member(knee.brace.mark, f"{knee.brace.support} knee", end, bar, HINGE, HINGE))
    return parts, _deck(parts, sideways, state)


def _guests(sideways: Sideways) -> set[str]:
    """Beams that sit on every support beside another that comes first: their seats alone keep them from rotating."""
    layout = sideways.path.layout
    first = {layout.on_support(s.mark)[0][0].mark for s in layout.supports}
    marks = {s.mark for s in layout.supports}
    return {
        c.mark
        for c in layout.carriers
        if c.mark not in first and all(seat.below in marks for seat in c.seats)
    }


def _carrier(parts: Parts, sideways: Sideways, carrier: Timber, *, firm: bool) -> None:
    """Nodes and pieces of a carrier, at the level of its underside."""
    layout = sideways.path.layout
    framing = (*layout.joists, *layout.carriers)
    on_it = [s.below_at for m in framing for s in m.seats if s.below == carrier.mark]
    knees = [k.at for k in sideways.knees if k.carrier.mark == carrier.mark]
    kept: list[float] = []
    boards = [at for at, _ in _boards(sideways, carrier)]
    for place in sorted({0.0, carrier.line.length, *on_it, *knees, *boards, *(s.at for s in carrier.seats)}):
        if not kept or place - kept[-1] > CLOSE:
            kept.append(place)
    parts.places[carrier.mark], parts.levels[carrier.mark] = kept, carrier.bottom
    E, section = carrier_modulus(carrier), carrier.section
    t, d = sorted((section.ply_thickness, section.d))
    J = section.plies * float(rectangle_torsion_constant(b=t, d=d))  # they twist each by itself
    flat = section.I_flat if firm else section.I_flat / section.plies**2
    profile = Profile(E=E, A=section.A * STIFF, I_z=section.I, I_y=flat, J=J, G=E / SHEAR)
    for i, place in enumerate(kept):
        parts.nodes.append(Node(f"{carrier.mark}@{i}", *carrier.line.at(place), carrier.bottom))
    for i in range(len(kept) - 1):
        parts.members.append(
            Member(f"{carrier.mark}/{i}", f"{carrier.mark}@{i}", f"{carrier.mark}@{i + 1}", profile)
        )


def _joints(parts: Parts, sideways: Sideways, carrier: Timber) -> None:
    """A carrier on others: on an upright as tall as the lower one, free to bend over it; or hung in it.

    What it sits on keeps it from rolling, as the ties and joists do that are checked by themselves.
    """
    for i, seat in enumerate(carrier.seats):
        if seat.below not in parts.places:
            continue
        top, foot = parts.at(carrier.mark, seat.at), parts.at(seat.below, seat.below_at)
        if seat.bearing is Bearing.HANGS and abs(_rise(parts, carrier, seat)) <= LEVEL:
            foot = parts.under(f"{carrier.mark}|{i} foot", foot, -1.0)
        parts.upright(f"{carrier.mark}|{i}", foot, top, carrier)


def _rise(parts: Parts, carrier: Timber, seat: Seat) -> float:
    return parts.levels[carrier.mark] - parts.levels[seat.below]


def _post(parts: Parts, frame: PostFrame, foot: Foot, k: Array, top: str, lever: float) -> None:
    """A post under the node of its carrier, its knee on the way; across the carrier by its stiffness there.

    ``lever`` is how far above the post's top the level force comes in (in). The knees of a T-frame make post and
    carrier one there.
    """
    mark, u = frame.support.mark, (*frame.u, 0.0)
    E, h = run_post_modulus(Calculation().run, frame), frame.h
    firm = frame.post.foot == "held"
    still = firm and foot is Foot.HELD
    x, y = frame.support.at
    down = FIXITY if still else 0.0
    l, d = h + down, lever
    across = float(k[1]) * (l**3 + 3 * l**2 * d + 3 * l * d**2) / (3 * E) if firm else frame.I
    bar = Profile(E=E, A=frame.section.A * STIFF, I_z=frame.I, I_y=max(across, 1e-3), J=frame.I, G=E / SHEAR)
    parts.nodes.append(Node(f"{mark} foot", x, y, -down))
    hinged_along = not still and frame.axes[0].n > 0
    soft_along = not still and not frame.axes[0].n and not frame.tee
    held = [Dof.DX, Dof.DY, Dof.DZ, Dof.RZ]
    held += [] if hinged_along else [Dof.RY]
    held += [Dof.RX] if firm else []
    parts.stand(f"{mark} foot", tuple(held), (), u)
    if soft_along:
        bar = Profile(bar.E, bar.A, max(float(k[0]) * l**3 / (3 * E), 1e-3), bar.I_y, bar.J, bar.G)
    if frame.tee:
        along = float(k[0]) * (l**3 + 3 * l**2 * d + 3 * l * d**2) / (3 * E)
        bar = Profile(bar.E, bar.A, max(along, 1e-3), bar.I_y, bar.J, bar.G)
    below = f"{mark} foot"
    if frame.axes[0].n:
        knee = f"{mark} knee"
        parts.nodes.append(Node(knee, x, y, h - frame.axes[0].a))
        parts.members.append(Member(f"{mark} low", below, knee, bar, depth=u))
        below = knee
    hinge = () if frame.tee else (Dof.RZ,)
    parts.members.append(Member(f"{mark} high", below, top, bar, (), hinge, u))


@dataclass(frozen=True)
class Deck:
    """What fastens the deck to the carriers: nodes, their places in plan, and springs both ways (lb/in)."""

    nodes: tuple[str, ...]
    at: Array
    k: Array

    @property
    def centre(self) -> Array:
        """The middle of all, about which the deck's turn is taken (in)."""
        return np.asarray(self.at.mean(axis=0))

    @property
    def motion(self) -> Array:
        """Movement along x and y at every node from the deck's along x, along y and turning (nodes, 2, 3)."""
        x, y = (self.at - self.centre).T
        one, none = np.ones_like(x), np.zeros_like(x)
        return np.stack([np.stack([one, none, -y], axis=1), np.stack([none, one, x], axis=1)], axis=1)


def _deck(parts: Parts, sideways: Sideways, state: State) -> Deck:
    """The deck on springs at the carriers' nodes."""
    held = _fastened(parts, sideways, state)
    at = {n.name: (n.x, n.y) for n in parts.nodes}
    for node, k in held.items():
        parts.supports.append(Support(node, (), ((Dof.DX, k), (Dof.DY, k))))
    return Deck(tuple(held), np.array([at[node] for node in held]), np.array(list(held.values())))


def _fastened(parts: Parts, sideways: Sideways, state: State) -> dict[str, float]:
    """Nodes of carriers that joists sit on, hang in, or boards lie on, and how stiff they are fastened (lb/in).

    Not of carriers that stand on others that the deck holds too: at two heights it would hold these against rotation,
    which it is not counted on for.
    """
    found: dict[str, float] = {}
    joint = run_joint(state.joints is Joints.FIRM)
    raised = _raised(sideways)
    for carrier in decked(sideways):
        if carrier.mark in raised:
            continue
        on_it = [s.below_at for m in sideways.path.layout.joists for s in m.seats if s.below == carrier.mark]
        held = [(at, joint) for at in on_it]
        held += [(at, boards * run_joint(False)) for at, boards in _boards(sideways, carrier)]
        for at, k in held:
            node = parts.at(carrier.mark, at)
            found[node] = found.get(node, 0.0) + k
    return found


def _raised(sideways: Sideways) -> set[str]:
    """Carriers that stand on carriers that the deck holds, and those that hang in such."""
    held = {c.mark for c in decked(sideways)}
    found: set[str] = set()
    for carrier in reversed(sideways.path.layout.carriers):  # in the flow of weight, lowest first
        if all(s.below in found or (s.bearing is Bearing.RESTS and s.below in held) for s in carrier.seats):
            found.add(carrier.mark)
    return found


def _boards(sideways: Sideways, carrier: Timber) -> list[tuple[float, float]]:
    """Where boards that lie on a carrier are gathered along it, and how many there."""
    if carrier not in sideways.path.layout.flush:
        return []
    count = math.ceil(carrier.line.length / BOARDS)
    step = carrier.line.length / count
    return [(step * (n + 0.5), step / BOARD) for n in range(count)]


def on_post(sideways: Sideways, seat: Seat) -> bool:
    """Whether a seat is on a post that the roll of the carrier bends."""
    return any(f.support.mark == seat.below and f.depth for f in sideways.frames if isinstance(f, PostFrame))


def held_at(sideways: Sideways, mark: str) -> float:
    """Level at which the plate hands on what a support takes (in above grade)."""
    on_deck = decked(sideways)
    for carrier in on_deck:
        for seat in carrier.seats:
            if seat.below == mark:
                return carrier.top if on_post(sideways, seat) else carrier.bottom
    return float(np.mean([c.bottom for c in on_deck]))
