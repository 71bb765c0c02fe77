"""The whole platform as one space frame: beams, posts, knees and tree bolts, and the deck as a plate in plan.

Every beam lies at the level of its underside; one that rests on another stands on it with a stiff upright as tall
as the lower one is deep, so that lateral force passes down as it does in timber. What a beam sits on keeps it from
rotating. The deck is stiff in plan and holds nothing upright; it holds the beams through springs, one where each
joist sits and one for every few boards that lie on a beam, as far as the deck covers it.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass, field, replace

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
from bolewright.platform.analysis.knees import beam_modulus
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import run_knee_stiffness, run_post_modulus
from bolewright.platform.analysis.lateral_supports import Foot, PostFrame, is_foot
from bolewright.platform.analysis.plan_give import BOARD, Joints, run_joint
from bolewright.platform.layout.boards_on import boards_on
from bolewright.platform.layout.lines import apart
from bolewright.platform.layout.parts import Bearing, Seat
from bolewright.platform.layout.parts import Member as Timber
from bolewright.platform.layout.tees import FIXITY
from bolewright.platform.loads.combine import Array
from bolewright.timber.section_properties import E_OVER_G

STIFF = 1e3  # times the section of what the hand calculation takes as rigid
UNTWISTED = 1e-3  # in⁴: torsion constant of the part of a post under a cap that passes no twist on
LINK = Profile(E=1e6, A=2e3, I_z=2e4, I_y=2e4, J=2e4, G=1e6)
BOARDS = 16.0  # in: boards on a beam are gathered to places this far apart
HAIR = 1e-6  # in: a length is whole but for rounding
CLOSE = 0.11  # in: nodes of a beam nearer than this are one; no distance that a file is likely to have
LEVEL = 0.5  # in: beams whose undersides differ by less meet at one level


@dataclass
class Parts:
    """Nodes, members and supports while the frame is put together."""

    nodes: list[Node] = field(default_factory=list)
    members: list[Member] = field(default_factory=list)
    supports: list[Support] = field(default_factory=list)
    places: dict[str, list[float]] = field(default_factory=dict)
    levels: dict[str, float] = field(default_factory=dict)

    def at(self, mark: str, x: float) -> str:
        """Name of the node of a beam nearest to a place along it."""
        return f"{mark}@{int(np.argmin(np.abs(np.array(self.places[mark]) - x)))}"

    def within(self, mark: str, x: float) -> tuple[int, float]:
        """Piece of a beam that a place along it lies on, and how far along that piece."""
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

    def seat(self, name: str, node: str, beam: Timber) -> str:
        """A node just under a beam, on which it is free to bend but not to rotate."""
        at = next(n for n in self.nodes if n.name == node)
        self.nodes.append(Node(name, at.x, at.y, at.z - 1.0))
        self.upright(f"{name}+", name, node, beam)
        return name

    def upright(self, name: str, foot: str, top: str, beam: Timber) -> None:
        """A stiff upright under a beam: local y along the beam, so that its top turns about local z and x."""
        depth = (*beam.line.u, 0.0)
        self.members.append(Member(name, foot, top, LINK, (), (Dof.RX, Dof.RZ), depth))

    def pin(self, name: str, foot: str, top: str) -> None:
        """A stiff upright under a further beam on one support, which may turn on it in every way."""
        self.members.append(Member(name, foot, top, LINK, (), ALL[3:]))

    def stand(
        self, node: str, held: tuple[Dof, ...], springs: tuple[tuple[Dof, float], ...], u: Vector
    ) -> None:
        """A support at a node, in axes along and across a direction in plan."""
        axes = (u, (-u[1], u[0], 0.0), (0.0, 0.0, 1.0))
        self.supports.append(Support(node, held, springs, axes=axes))


def decked(lateral: LateralAnalysis) -> list[Timber]:
    """Beams that the deck holds in plan: those with joists on or in them, or boards somewhere on top."""
    if ("decked",) not in lateral.kept:  # asked for at every post and beam, in every state
        layout = lateral.path.layout
        under = {seat.below for joist in layout.joists for seat in joist.seats}
        lateral.kept["decked",] = [c for c in layout.beams if c.mark in under or boards_on(layout, c)]
    found: list[Timber] = lateral.kept["decked",]
    return found


def find_frame(lateral: LateralAnalysis, state: State) -> tuple[Parts, Deck]:
    """Nodes, members and supports, and what fastens the deck to them."""
    parts = Parts()
    for beam in lateral.path.layout.beams:
        _beam(parts, lateral, beam, firm=state.joints is Joints.FIRM)
    for beam in lateral.path.layout.beams:
        _joints(parts, lateral, beam)
    guests = _guests(lateral)
    for i, frame in enumerate(lateral.frames):
        if is_foot(frame):
            continue  # the braces that stand on it are held at their heads
        (beam, seat), *more = lateral.path.layout.on_support(frame.support.mark)
        top, mark = parts.at(beam.mark, seat.at), frame.support.mark
        if (up := _axis(lateral, beam)) > 0:
            top = parts.under(f"{mark} top", top, up)
        shared = top
        if not isinstance(frame, PostFrame):
            k = state.k[i, :, 0]
            springs = ((Dof.DX, float(k[0])), (Dof.DY, float(k[1])))
            shared = parts.seat(f"{mark} foot", top, beam)
            parts.stand(shared, (Dof.DZ, *ALL[3:]), springs, (*frame.u, 0.0))
        elif frame.post.base != "fixed" and not (frame.braced or frame.has_rods):
            shared = parts.seat(f"{mark} foot", top, beam)
            parts.stand(shared, (Dof.DZ, *ALL[3:]), (), (*frame.u, 0.0))
        else:
            lever = 0.0 if beam in decked(lateral) else frame.arm(1)
            _post(parts, frame, state.foot, state.k[i, :, 0], top, lever)
            if more:
                shared = parts.under(f"{mark} cap", top, 1.0)
        for other, place in more:
            node, name = parts.at(other.mark, place.at), f"{mark}|{other.mark}"
            if other.mark in guests:
                parts.upright(name, shared, node, other)
            else:
                parts.pin(name, shared, node)
    for knee in lateral.knee_influence.knees:
        E = knee.values.E
        length = float(np.hypot(knee.brace.rise, knee.brace.run))
        area = run_knee_stiffness(Calculation().run, knee) * length / E
        bar = Profile(E=E, A=area, I_z=1.0, I_y=1.0, J=1.0, G=E / E_OVER_G)
        end = parts.at(knee.beam.mark, knee.at)
        if (up := _axis(lateral, knee.beam)) > 0:
            end = parts.under(f"{knee.brace.mark} end", end, up)
        parts.members.append(Member(knee.brace.mark, f"{knee.brace.support} knee", end, bar, HINGE, HINGE))
    return parts, _deck(parts, lateral, state)


def _guests(lateral: LateralAnalysis) -> set[str]:
    """Beams that sit on every support beside another that comes first: their seats alone keep them from rotating."""
    layout = lateral.path.layout
    first = {layout.on_support(s.mark)[0][0].mark for s in layout.project.seated}
    marks = {s.mark for s in layout.supports}
    return {
        c.mark for c in layout.beams if c.mark not in first and all(seat.below in marks for seat in c.seats)
    }


def _twisted(lateral: LateralAnalysis, beam: Timber) -> bool:
    """Whether other beams stand on a beam, whose force at its top twists it."""
    framing = lateral.path.layout.beams
    return any(s.below == beam.mark and s.bearing is Bearing.RESTS for b in framing for s in b.seats)


def _driven(lateral: LateralAnalysis, beam: Timber) -> bool:
    """Whether the deck pushes at a beam that stands on one; else only its posts' heads twist that, as they bend."""
    raised = _raised(lateral)
    return any(
        s.below == beam.mark and s.bearing is Bearing.RESTS and b.mark not in raised
        for b in lateral.path.layout.beams
        for s in b.seats
    )


def _axis(lateral: LateralAnalysis, beam: Timber) -> float:
    """How far over its underside a beam's axis is (in): in the middle of one that others alone stand on."""
    return beam.section.d / 2 if _twisted(lateral, beam) and beam not in decked(lateral) else 0.0


def _beam(parts: Parts, lateral: LateralAnalysis, beam: Timber, *, firm: bool) -> None:
    """Nodes and pieces of a beam, at the level of its underside, or of its middle where others stand on it."""
    layout = lateral.path.layout
    framing = (*layout.joists, *layout.beams)
    on_it = [s.below_at for m in framing for s in m.seats if s.below == beam.mark]
    knees = [k.at for k in lateral.knees if k.beam.mark == beam.mark]
    boards = [at for at, _ in _boards(lateral, beam)]
    places = (0.0, beam.line.length, *on_it, *knees, *boards, *(s.at for s in beam.seats))
    kept = apart(places, CLOSE)
    parts.places[beam.mark], parts.levels[beam.mark] = kept, beam.bottom
    E, section = beam_modulus(beam), beam.section
    J, up = section.J(together=firm), _axis(lateral, beam)
    if not up and _driven(lateral, beam):
        J *= 4  # the deck holds its underside, a whole depth below what stands on it; it turns about its middle
    flat = section.I_flat if firm else section.I_flat / section.plies**2
    profile = Profile(E=E, A=section.A * STIFF, I_z=section.I, I_y=flat, J=J, G=E / E_OVER_G)
    for i, place in enumerate(kept):
        parts.nodes.append(Node(f"{beam.mark}@{i}", *beam.line.at(place), beam.bottom + up))
    for i in range(len(kept) - 1):
        parts.members.append(Member(f"{beam.mark}/{i}", f"{beam.mark}@{i}", f"{beam.mark}@{i + 1}", profile))


def _joints(parts: Parts, lateral: LateralAnalysis, beam: Timber) -> None:
    """A beam on others: on an upright as tall as the lower one, free to bend over it; or hung in it.

    What it sits on keeps it from rotating, as the ties and joists do that are checked by themselves.
    """
    for i, seat in enumerate(beam.seats):
        if seat.below not in parts.places:
            continue
        top, foot = parts.at(beam.mark, seat.at), parts.at(seat.below, seat.below_at)
        if seat.bearing is Bearing.HANGS and abs(_rise(parts, beam, seat)) <= LEVEL:
            foot = parts.under(f"{beam.mark}|{i} foot", foot, -1.0)
        parts.upright(f"{beam.mark}|{i}", foot, top, beam)


def _rise(parts: Parts, beam: Timber, seat: Seat) -> float:
    return parts.levels[beam.mark] - parts.levels[seat.below]


def _post(parts: Parts, frame: PostFrame, foot: Foot, k: Array, top: str, lever: float) -> None:
    """A post under the node of its beam, its knee on the way; across the beam, and with a rod, by its stiffness there.

    ``lever`` is how far above the post's top the lateral force comes in (in). The knees of a T-frame make post and
    beam one there. Other posts are not twisted: no cap is rated for that, and the hand calculation counts none.
    """
    mark, u = frame.support.mark, (*frame.u, 0.0)
    E, h = run_post_modulus(Calculation().run, frame), frame.h
    firm = frame.post.base == "fixed"
    still = firm and foot is Foot.HELD
    x, y = frame.support.at
    down = FIXITY if still else 0.0
    l, d = h + down, lever
    by_stiffness = firm or frame.has_rods
    across = float(k[1]) * (l**3 + 3 * l**2 * d + 3 * l * d**2) / (3 * E) if by_stiffness else frame.I
    bar = Profile(
        E=E,
        A=frame.section.A * STIFF,
        I_z=frame.I,
        I_y=max(across, 1e-3),
        J=frame.I,
        G=E / E_OVER_G,
    )
    parts.nodes.append(Node(f"{mark} foot", x, y, -down))
    hinged_along = not still and frame.axes[0].n > 0
    soft_along = (not still or frame.axes[0].rod is not None) and not frame.axes[0].n and not frame.tee
    held = [Dof.DX, Dof.DY, Dof.DZ, Dof.RZ]
    held += [] if hinged_along else [Dof.RY]
    held += [Dof.RX] if by_stiffness else []
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
    free = bar if frame.tee else replace(bar, J=UNTWISTED)
    parts.members.append(Member(f"{mark} high", below, top, free, (), hinge, u))


@dataclass(frozen=True)
class Deck:
    """What fastens the deck to the beams: nodes, their places in plan, and springs both ways (lb/in)."""

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


def _deck(parts: Parts, lateral: LateralAnalysis, state: State) -> Deck:
    """The deck on springs at the beams' nodes."""
    held = _fastened(parts, lateral, state)
    at = {n.name: (n.x, n.y) for n in parts.nodes}
    for node, k in held.items():
        parts.supports.append(Support(node, (), ((Dof.DX, k), (Dof.DY, k))))
    return Deck(tuple(held), np.array([at[node] for node in held]), np.array(list(held.values())))


def _fastened(parts: Parts, lateral: LateralAnalysis, state: State) -> dict[str, float]:
    """Nodes of beams that joists sit on, hang in, or boards lie on, and how stiff they are fastened (lb/in).

    Not of beams that stand on others that the deck holds too: at two heights it would hold these against rotation,
    which it is not counted on for.
    """
    found: dict[str, float] = {}
    joint = run_joint(state.joints is Joints.FIRM)
    raised = _raised(lateral)
    for beam in decked(lateral):
        if beam.mark in raised:
            continue
        on_it = [s.below_at for m in lateral.path.layout.joists for s in m.seats if s.below == beam.mark]
        held = [(at, joint) for at in on_it]
        held += [(at, boards * run_joint(False)) for at, boards in _boards(lateral, beam)]
        for at, k in held:
            node = parts.at(beam.mark, at)
            found[node] = found.get(node, 0.0) + k
    return found


def _raised(lateral: LateralAnalysis) -> set[str]:
    """Beams that stand on beams that the deck holds, and those that hang in such."""
    held = {c.mark for c in decked(lateral)}
    found: set[str] = set()
    for beam in reversed(lateral.path.layout.beams):  # in the flow of weight, lowest first
        if all(s.below in found or (s.bearing is Bearing.RESTS and s.below in held) for s in beam.seats):
            found.add(beam.mark)
    return found


def _boards(lateral: LateralAnalysis, beam: Timber) -> list[tuple[float, float]]:
    """Where boards that lie on a beam are gathered along it, and how many there."""
    found: list[tuple[float, float]] = []
    for start, end in boards_on(lateral.path.layout, beam):
        count = max(math.ceil((end - start - HAIR) / BOARDS), 1)
        step = (end - start) / count
        found += [(start + step * (n + 0.5), step / BOARD) for n in range(count)]
    return found


def on_post(lateral: LateralAnalysis, seat: Seat) -> bool:
    """Whether a seat is on a post that the rotation of the beam bends."""
    return any(f.support.mark == seat.below and f.depth for f in lateral.frames if isinstance(f, PostFrame))


def held_at(lateral: LateralAnalysis, mark: str) -> float:
    """Level at which the plate hands on what a support takes (in above grade)."""
    on_deck = decked(lateral)
    for beam in on_deck:
        for seat in beam.seats:
            if seat.below == mark:
                return beam.top if on_post(lateral, seat) else beam.bottom
    return float(np.mean([c.bottom for c in on_deck]))
