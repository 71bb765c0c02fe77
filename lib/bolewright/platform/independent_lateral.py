"""The independent check under wind and sway: the space frame of the whole platform beside the springs of its supports.

The frame is solved once for a pound of each kind of load: on the plate of the deck, of the overturning above it, of the
couples that tip beams on their posts, of trunks that move under their bolts. Every case is a sum of these. What weight
does is taken as by hand, so that what the two models give is compared on the whole effect, as the checks judge it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.knee import brace_length
from bolewright.calculation import Calculation
from bolewright.mechanics.frame import FrameResult, analyse
from bolewright.mechanics.frame_model import Dof, Frame, FrameLoad, MemberPoint, NodeLoad
from bolewright.platform.balance import middle
from bolewright.platform.checks.brace_ends import place_of, run_brace_forces
from bolewright.platform.checks.level import run_level_force
from bolewright.platform.checks.post_forces import run_moment_at_knee
from bolewright.platform.combine import Array
from bolewright.platform.compared import Compared
from bolewright.platform.knee_force import knee_kick
from bolewright.platform.knee_weight import Way, post_push
from bolewright.platform.level_supports import BoltFrame, PostFrame, axes_of
from bolewright.platform.sideways import Sideways, State, answer
from bolewright.platform.sideways_frame import Deck, Parts, decked, find_frame, held_at
from bolewright.platform.tees import stands_alone

Found = dict[tuple[str, str, str], tuple[float, float]]  # part, quantity, unit: by hand, by the frame model
GATHERED = 4.0  # in: loads on a beam are shared to places this far apart
DRIFT = "drift of the floor"
FORCE = "greatest lateral force"
LOAD = "greatest load with wind and sway"
LIFT = "uplift with wind and sway"
BOTH = "greatest load, down and sideways"
BRACE = "greatest force along the brace"
KNEE = "greatest moment at the knee"
RESTS: dict[str, tuple[str, ...]] = {
    DRIFT: ("platform.drift",),
    FORCE: (
        "post.in_ground",
        "post.shear",
        "post.shear_below",
        "post.cap_lateral",
        "post.cap_rotation",
        "footing.embedment",
        "tree_bolt.withdrawal",
        "tree_bolt.bracket_lateral",
    ),
    LOAD: ("footing.soil_lateral", "post.cap_bearing_lateral", "post.net_section", "tree_bolt.rated_lateral"),
    LIFT: ("post.uplift_lateral", "footing.uplift_lateral", "tree_bolt.uplift_lateral"),
    BOTH: ("tree_bolt.steel_biaxial", "tree_bolt.wood_yield_lateral"),
    BRACE: (
        "brace.buckling",
        "brace.net_compression",
        "brace.tension",
        "brace.ends",
        "brace.end_on_post",
        "brace.end_on_beam",
    ),
    KNEE: ("post.at_knee",),
}


def compare_lateral(sideways: Sideways) -> Iterator[Compared]:
    """Every lateral effect by both models, the greatest in all cases: the stiffest and the softest of all states."""
    found: Found = {}
    for state in [] if sideways.loose else (sideways.states[0], sideways.states[-1]):
        for key, (hand, frame) in _of_state(sideways, state):
            before = found.get(key, (0.0, 0.0))
            found[key] = max(before[0], hand), max(before[1], frame)
    for (part, quantity, unit), (hand, frame) in found.items():
        rows = tuple((part, key, "") for key in RESTS[quantity])
        yield Compared(
            part, quantity, hand, frame, unit, rows, beside=max(found.get((part, LOAD, unit), (0.0, 0.0)))
        )


@dataclass(frozen=True)
class _Solved:
    """The frame, the share of each unit load (rows) in every case, and the deck's movement about the plan's origin."""

    result: FrameResult
    shares: Array
    deck: Array

    def moved(self, node: str) -> Array:
        """Movement of a node in every case (6, cases)."""
        return self.result.displacement(node) @ self.shares

    def reaction(self, node: str) -> Array:
        """Reaction at a node in every case (6, cases)."""
        return self.result.reaction(node) @ self.shares

    def end(self, member: str, dof: int) -> Array:
        """A force at a member's end in every case."""
        return np.asarray(
            self.result.end_forces[self.result.frame.member_index[member], dof] @ self.shares, dtype=float
        )


def _of_state(sideways: Sideways, state: State) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    still = any(isinstance(f, PostFrame) and f.tee for f in sideways.frames)
    # The weight on a T-frame's arms leans its post: there the two models are compared under the pushes alone.
    hand = answer(sideways, state, sideways.cases.load, sideways.cases.over) if still else state
    solved = _solve(sideways, hand, moving=not still)
    drift = _drift(sideways, state, state.movement)
    yield (
        ("platform", DRIFT, "in"),
        (drift, _drift(sideways, state, state.movement + solved.deck - hand.movement)),
    )
    for i, frame in enumerate(sideways.frames):
        yield from _support(sideways, state, hand, solved, i, frame.support.mark, still)
    yield from _knees(sideways, state, hand, solved)


def _drift(sideways: Sideways, state: State, movement: Array) -> float:
    corners = np.array(sideways.path.layout.project.platform.outline)
    x = movement[0] - np.outer(corners[:, 1], movement[2])
    y = movement[1] + np.outer(corners[:, 0], movement[2])
    return float(np.hypot(x, y).max())


def _support(
    sideways: Sideways, state: State, hand: State, solved: _Solved, i: int, mark: str, still: bool
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    frame = sideways.frames[i]
    foot = solved.reaction(f"{mark} foot")
    V = axes_of(frame) @ -foot[[Dof.DX, Dof.DY]]
    if isinstance(frame, BoltFrame) and not still:  # the springs hold a pound less where the trunk goes along
        V = V - _drag(sideways, state, i)
    force = state.force[i] + V - hand.force[i]
    more = foot[Dof.DZ] - hand.over[i] - hand.kick[i]
    added = state.over[i] + state.kick[i]
    down = [np.maximum(sideways.most[i] + added + extra, 0.0) for extra in (0.0, more)]
    up = [np.maximum(-(sideways.least[i] + added + extra), 0.0) for extra in (0.0, more)]
    across = [np.hypot(*state.force[i]), np.hypot(*force)]
    for quantity, (one, other) in (
        (FORCE, across),
        (LOAD, down),
        (LIFT, up),
        (BOTH, [np.hypot(d, a) for d, a in zip(down, across, strict=True)]),
    ):
        yield (mark, quantity, "lb"), (float(one.max()), float(other.max()))


def _drag(sideways: Sideways, state: State, i: int) -> Array:
    """What a moving trunk brings to the platform at a bolt, were this not to move (2, cases)."""
    spring = state.springs[i]
    moved = spring.k[:, None] * (spring.rows @ state.movement - state.lag[i] - state.ground[i])
    friction = moved - state.force[i]
    return np.asarray(spring.k[:, None] * state.ground[i] + friction)


def _knees(
    sideways: Sideways, state: State, hand: State, solved: _Solved
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    run = Calculation().run
    lying = sideways.knee_influence.force @ sideways.tilt @ hand.turn
    for knee, weight in zip(sideways.knee_influence.knees, lying, strict=True):
        i, frame, which = place_of(sideways, knee)
        axis = frame.axes[which]
        kick = knee_kick(sideways.frames, hand.Q, knee)
        own = np.abs(weight - kick * float(brace_length(a=axis.a, r=axis.r)) / axis.a)
        F_b, F_w = run_brace_forces(run, sideways, state, knee, Way.EITHER)
        whole = (F_b + np.abs(F_w))[0]
        more = np.abs(solved.end(knee.brace.mark, 0)) - own
        yield (knee.brace.mark, BRACE, "lb"), (float(whole.max()), float((whole + more).max()))
        if which == 0:
            by_weight = post_push(sideways.knee_influence, knee.brace.support, which) @ lying
            h, V, Q = frame.h, hand.force[i, which], hand.Q[i, which]
            M = np.abs((Q - V) * axis.a + by_weight * axis.a * (h - axis.a) / h)
            top = run_level_force(run, sideways, state, i, which)
            whole = run_moment_at_knee(run, sideways, state, frame, which, top)[0]
            more = np.abs(solved.end(f"{knee.brace.support} low", 6 + Dof.RZ)) - M
            found = float(whole.max()), float((whole + more).max())
            yield (knee.brace.support, KNEE, "lb·in"), found


# ---------------------------------------------------------------------------------------------------------
# The loads


def _solve(sideways: Sideways, hand: State, *, moving: bool) -> _Solved:
    parts, deck = find_frame(sideways, hand)
    units: list[list[FrameLoad]] = [_moved_deck(deck, way) for way in range(3)]
    x, y = deck.centre
    F_x, F_y, M = sideways.cases.load
    push = np.array([F_x, F_y, M - (x * F_y - y * F_x)])
    shares: list[Array] = []
    passed = np.zeros((2, sideways.cases.count))
    for i, frame in enumerate(sideways.frames):
        passed += held_at(sideways, frame.support.mark) * (hand.springs[i].axes.T @ hand.force[i])
    units += _laid(sideways, parts)
    for axis in (0, 1):
        shares.append(sideways.cases.over[axis] - passed[axis])
    for unit, share in (*_tips(sideways, parts, hand), *(_trunks(sideways, hand) if moving else ())):
        units.append(unit)
        shares.append(share)
    result = analyse(Frame(tuple(parts.nodes), tuple(parts.members), tuple(parts.supports)), units)
    # Of the deck's three movements: its springs push it back as it moves, less as the carriers follow.
    followed = np.stack([result.displacement(node)[:2] for node in deck.nodes])
    motion = deck.motion
    pulled = np.einsum("naj,n,nau->ju", motion, deck.k, followed)
    stiffness = np.einsum("naj,n,nai->ji", motion, deck.k, motion) - pulled[:, :3]
    moved = np.linalg.solve(stiffness, push + pulled[:, 3:] @ np.array(shares))
    about = np.array([[1.0, 0.0, y], [0.0, 1.0, -x], [0.0, 0.0, 1.0]])
    return _Solved(result, np.vstack([moved, *shares]), about @ moved)


def _moved_deck(deck: Deck, way: int) -> list[FrameLoad]:
    """What the deck moved by one along x, one along y, or turned by one does to its springs."""
    force = deck.k[:, None] * deck.motion[:, :, way]
    return [NodeLoad(n, (float(x), float(y), 0.0)) for n, (x, y) in zip(deck.nodes, force, strict=True)]


def _trunks(sideways: Sideways, hand: State) -> Iterator[tuple[list[FrameLoad], Array]]:
    """A pound along and across each bolt, where its trunk moves."""
    for i, frame in enumerate(sideways.frames):
        drag = _drag(sideways, hand, i)
        if isinstance(frame, BoltFrame) and drag.any():
            for axis, share in zip(axes_of(frame), drag, strict=True):
                node = f"{frame.support.mark} foot"
                yield [NodeLoad(node, (float(axis[0]), float(axis[1]), 0.0))], share


def _laid(sideways: Sideways, parts: Parts) -> tuple[list[FrameLoad], list[FrameLoad]]:
    """One lb·in of overturning along x and along y above the levels at which the plate hands it on.

    A straight-line pressure on the deck, as it comes to the beams, gathered every few inches.
    """
    loads: tuple[list[FrameLoad], list[FrameLoad]] = ([], [])
    for carrier in sideways.path.layout.carriers:
        effects = sideways.path.effects[carrier.mark]
        own = [k for k, label in enumerate(effects.labels) if label not in parts.places]
        if not own:
            continue
        x = np.array([middle(effects.loads[k]) for k in own])
        pounds = (effects.delivered @ sideways.tilt)[own]
        step = carrier.line.length / math.ceil(carrier.line.length / GATHERED)
        before = np.minimum((x / step).astype(int), round(carrier.line.length / step) - 1)
        part = (x / step - before)[:, None]
        gathered = np.zeros((round(carrier.line.length / step) + 1, 2))
        np.add.at(gathered, before, (1 - part) * pounds)
        np.add.at(gathered, before + 1, part * pounds)
        for place, both in zip(step * np.arange(len(gathered)), gathered, strict=True):
            if not both.any():
                continue
            piece, within = parts.within(carrier.mark, float(place))
            for found, down in zip(loads, both, strict=True):
                found.append(MemberPoint(f"{carrier.mark}/{piece}", within, (0.0, 0.0, -float(down))))
    return loads


def _tips(sideways: Sideways, parts: Parts, hand: State) -> Iterator[tuple[list[FrameLoad], Array]]:
    """Couples that tip the beams under the plate: their lateral force enters at the top of the post's seat."""
    on_deck = {c.mark for c in decked(sideways)}
    for mark, tipped in sideways.tipped.items():
        if mark not in on_deck or stands_alone(tipped.carrier):
            continue
        x, y = tipped.carrier.line.u
        for i, couple in zip(tipped.posts, tipped.couples(sideways.frames, hand.force), strict=True):
            seat = next(s for s in tipped.carrier.seats if s.below == sideways.frames[i].support.mark)
            yield [NodeLoad(parts.at(mark, seat.at), moment=(-y, x, 0.0))], couple
