"""The independent check under wind and sway: the space frame of the whole platform beside the springs of its supports.

The frame is solved once for a pound of each kind of load: on the plate of the deck, of the overturning above it, of the
couples that tip beams on their posts, of trunks that move under their bolts. Every case is a sum of these. What weight
does is taken as by hand, so that what the two models give is compared on the whole effect, as the checks judge it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.beam import seat_force_along
from bolewright.bracing.knee import brace_length
from bolewright.bracing.plan import seat_lateral_force
from bolewright.calculation import Calculation
from bolewright.mechanics.frame import FrameResult, analyse
from bolewright.mechanics.frame_model import Dof, Frame, FrameLoad, MemberPoint, NodeLoad
from bolewright.platform.analysis.knee_force import knee_reaction
from bolewright.platform.analysis.knee_weight import Way, post_push
from bolewright.platform.analysis.lateral import LateralAnalysis, State, answer
from bolewright.platform.analysis.lateral_supports import (
    Bed,
    BoltFrame,
    BraceFrame,
    PostFrame,
    axes_of,
    is_foot,
)
from bolewright.platform.checks.beam_seats import SeatGroup, group_on
from bolewright.platform.checks.brace_ends import place_of, run_brace_forces
from bolewright.platform.checks.lateral import run_lateral_force
from bolewright.platform.checks.post_forces import is_held, run_moment_at_knee
from bolewright.platform.checks.together import shares_of_angles
from bolewright.platform.layout.parts import Bearing, Member, Seat
from bolewright.platform.layout.tees import FIXITY, stands_alone
from bolewright.platform.loads.balance import middle
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Beam
from bolewright.platform.verification.compared import Compared
from bolewright.platform.verification.independent import row
from bolewright.platform.verification.lateral_frame import HAIR, Deck, Parts, decked, find_frame, held_at

Found = dict[tuple[str, str, str], tuple[float, float]]  # part, quantity, unit: by hand, by the frame model
GATHERED = 4.0  # in: loads on a beam are shared to places this far apart
SEAT = " / "  # between a quantity and the beam that a seat is on
DRIFT = "drift of the floor"
FORCE = "greatest lateral force"
LOAD = "greatest load with wind and sway"
LIFT = "uplift with wind and sway"
CAP = "greatest load at its cap with wind and sway"
CAP_LIFT = "uplift at its cap with wind and sway"
BOTH = "greatest load, vertical and lateral"
BRACE = "greatest force along the brace"
KNEE = "greatest moment at the knee"
FASTENED = "greatest lateral force on its seat"
ACROSS = "greatest lateral force across it on its seat"
ANGLES = "shares of the ratings of its angles together"
TOGETHER = "shares of the ratings of its bracket together"
RESTS: dict[str, tuple[str, ...]] = {
    DRIFT: ("platform.drift",),
    FORCE: (
        "post.in_ground",
        "post.shear",
        "post.shear_below",
        "post.cap_lateral",
        "post.cap_rotation",
        "post.cap_together",
        "footing.embedment",
        "tree_bolt.withdrawal",
        "tree_bolt.bracket_lateral",
        "tree_bolt.fastening",
    ),
    LOAD: (
        "footing.soil_lateral",
        "footing.concrete_lateral",
        "post.end_bearing_lateral",
        "post.cap_bearing_lateral",
        "post.net_section",
        "tree_bolt.rated_lateral",
        "trunk_brace.buckling",
        "trunk_brace.with_wind",
        "trunk_brace.foot_rated",
    ),
    LIFT: (
        "post.uplift_lateral",
        "footing.uplift_lateral",
        "tree_bolt.uplift_lateral",
        "trunk_brace.uplift_lateral",
    ),
    CAP: ("post.end_bearing_lateral", "post.cap_bearing_lateral", "post.net_section"),
    CAP_LIFT: ("post.uplift_lateral",),
    BOTH: ("tree_bolt.steel_biaxial", "tree_bolt.wood_yield_lateral"),
    BRACE: (
        "brace.buckling",
        "brace.with_wind",
        "brace.net_compression",
        "brace.tension",
        "brace.ends",
        "brace.end_on_post",
        "brace.end_on_beam",
    ),
    KNEE: ("post.at_knee",),
    TOGETHER: ("tree_bolt.together",),
}
ON_SEATS = {FASTENED: "beam.fastening_lateral", ACROSS: "beam.rotation", ANGLES: "beam.together"}


def compare_lateral(lateral: LateralAnalysis) -> Iterator[Compared]:
    """Every lateral effect by both models, the greatest in all cases.

    With tree bolts at their stiffest and at their softest, each with the stiffest and the softest bases and joints:
    the bolts draw most in stiff wood beside soft posts, the posts in soft wood.
    """
    found: Found = {}
    on_seats: Found = {}
    for state in _corners(lateral.states):
        still, hand_state, solved = _both(lateral, state)
        for into, some in (
            (found, _of_state(lateral, state, hand_state, solved, still=still)),
            (on_seats, _on_seats(lateral, state, _forces(lateral, state, hand_state, solved, still=still))),
        ):
            for key, (hand, frame) in some:
                before = into.get(key, (0.0, 0.0))
                into[key] = max(before[0], hand), max(before[1], frame)
    for (part, at_seat, unit), (hand, frame) in on_seats.items():
        quantity, below = at_seat.split(SEAT)
        on_it = (row(part, ON_SEATS[quantity], below),)
        yield Compared(part, f"{quantity} on {below}", hand, frame, unit, on_it)
    for (part, quantity, unit), (hand, frame) in found.items():
        rows = tuple((part, key, "") for key in RESTS[quantity])
        yield Compared(
            part, quantity, hand, frame, unit, rows, beside=max(found.get((part, LOAD, unit), (0.0, 0.0)))
        )


def _corners(states: Sequence[State]) -> list[State]:
    """The stiffest and the softest of the states with the tree bolts at each end."""
    found: dict[Bed, list[State]] = {}
    for state in states:
        found.setdefault(state.bed, []).append(state)
    return [state for some in found.values() for state in (some[0], some[-1])]


@dataclass(frozen=True)
class _Solved:
    """Frames with the cases of each, the share of each unit load (rows) in every case, and the deck's movement.

    There is one frame for every set of crossed rods that is stretched at once; ``deck`` is about the plan's origin.
    """

    results: tuple[tuple[Array, FrameResult], ...]
    shares: Array
    deck: Array

    def reaction(self, node: str) -> Array:
        """Reaction at a node in every case (6, cases)."""
        found = np.zeros((6, self.shares.shape[1]))
        for own, result in self.results:
            found[:, own] = result.reaction(node) @ self.shares[:, own]
        return found

    def end(self, member: str, dof: int) -> Array:
        """A force at a member's end in every case."""
        found = np.zeros(self.shares.shape[1])
        for own, result in self.results:
            row = result.end_forces[result.frame.member_index[member], dof]
            found[own] = row @ self.shares[:, own]
        return found


def _both(lateral: LateralAnalysis, state: State) -> tuple[bool, State, _Solved]:
    """Whether the trunks are taken at rest, the state that the frame model is compared with, and the frame model."""
    still = any(isinstance(f, PostFrame) and f.tee for f in lateral.frames)
    # The weight on a T-frame's arms leans its post: there the two models are compared under the pushes alone.
    hand = answer(lateral, state, lateral.cases.load, lateral.cases.over) if still else state
    return still, hand, _solve(lateral, hand, moving=not still)


def _of_state(
    lateral: LateralAnalysis, state: State, hand: State, solved: _Solved, *, still: bool
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    drift = _drift(lateral, state, state.movement)
    yield (
        ("platform", DRIFT, "in"),
        (drift, _drift(lateral, state, state.movement + solved.deck - hand.movement)),
    )
    forces = _forces(lateral, state, hand, solved, still=still)
    for i, frame in enumerate(lateral.frames):
        if is_foot(frame):
            continue
        yield from _support(lateral, state, hand, solved, i, forces[i])
    yield from _knees(lateral, state, hand, solved)


def _forces(lateral: LateralAnalysis, state: State, hand: State, solved: _Solved, *, still: bool) -> Array:
    """Force of the platform on every support in its two directions, by the frame model."""
    forces = lateral.with_push(state).copy()
    for i, frame in enumerate(lateral.frames):
        if is_foot(frame):
            continue
        V = axes_of(frame) @ -solved.reaction(f"{frame.support.mark} foot")[[Dof.DX, Dof.DY]]
        if (
            isinstance(frame, BoltFrame) and not still
        ):  # the springs hold a pound less where the trunk goes along
            V = V - _drag(lateral, state, i)
        # a post's foot gets less than its head, by what its knees push the deck with
        forces[i] += V + hand.push[i] - hand.force[i]
    return forces


def _on_seats(
    lateral: LateralAnalysis, state: State, forces: Array
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    """Lateral force on the seats of beams on beams, and the shares of the ratings of their angles, by both models."""
    run = Calculation().run
    for member in lateral.path.layout.beams:
        for i, seat in enumerate(member.seats):
            if seat.bearing is not Bearing.RESTS or seat.below in lateral.path.reactions:
                continue
            below = lateral.path.layout.member(seat.below)
            if not any(s.below in lateral.path.reactions for s in below.seats):
                continue
            more = forces - lateral.with_push(state)
            groups = [group_on(lateral, below, state, force) for force in (np.zeros_like(more), more)]
            c, s = -member.line.u[1], member.line.u[0]
            whole = [float(run(seat_lateral_force, **g.arguments(seat)).max()) for g in groups]
            across = [
                float(np.abs(run(seat_force_along, **g.arguments(seat), c=c, s=s)).max()) for g in groups
            ]
            yield (member.mark, f"{FASTENED}{SEAT}{seat.below}", "lb"), (whole[0], whole[1])
            yield (member.mark, f"{ACROSS}{SEAT}{seat.below}", "lb"), (across[0], across[1])
            if isinstance(member.timber, Beam) and not member.timber.rated_alone:
                shares = [_most_shared(lateral, member, i, seat, g) for g in groups]
                yield (member.mark, f"{ANGLES}{SEAT}{seat.below}", ""), (shares[0], shares[1])


def _most_shared(lateral: LateralAnalysis, member: Member, i: int, seat: Seat, group: SeatGroup) -> float:
    """Greatest sum of the shares of the ratings of a beam's angles; 0 where one is not given."""
    found = [r_t for _, r_t in shares_of_angles(lateral, member, i, seat, group)]
    return max((float(r_t.max()) for r_t in found if not isinstance(r_t, str)), default=0.0)


def _drift(lateral: LateralAnalysis, state: State, movement: Array) -> float:
    corners = np.array(lateral.path.layout.project.platform.outline)
    x = movement[0] - np.outer(corners[:, 1], movement[2])
    y = movement[1] + np.outer(corners[:, 0], movement[2])
    return float(np.hypot(x, y).max())


def _support(
    lateral: LateralAnalysis, state: State, hand: State, solved: _Solved, i: int, force: Array
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    frame, mark = lateral.frames[i], lateral.frames[i].support.mark
    more = (
        solved.reaction(f"{mark} foot")[Dof.DZ] - hand.over[i] - (hand.brace_reaction[i] - hand.rod_loads[i])
    )  # rods: as by hand
    added = state.over[i] + state.brace_reaction[i]
    down = [np.maximum(lateral.most[i] + added + extra, 0.0) for extra in (0.0, more)]
    up = [np.maximum(-(lateral.least[i] + added + extra), 0.0) for extra in (0.0, more)]
    across = [np.hypot(*lateral.with_push(state)[i]), np.hypot(*force)]
    for quantity, (one, other) in (
        (FORCE, across),
        (LOAD, down),
        (LIFT, up),
        (BOTH, [np.hypot(d, a) for d, a in zip(down, across, strict=True)]),
    ):
        if quantity in (LOAD, LIFT) or not isinstance(frame, BraceFrame):
            yield (mark, quantity, "lb"), (float(one.max()), float(other.max()))
    if isinstance(frame, PostFrame) and frame.axes[0].n and not frame.has_rods:
        # between its cap and its foot stand the knees, which the beam presses as it tips on its seats
        more = solved.end(f"{mark} high", 0) - hand.over[i] - hand.cap[i]
        at_cap = state.over[i] + state.cap[i]
        most, least = lateral.cap_most[i] + at_cap, lateral.cap_least[i] + at_cap
        for quantity, force_of in ((CAP, most), (CAP_LIFT, -least)):
            extra = more if quantity == CAP else -more
            one, other = (float(np.maximum(force_of + e, 0.0).max()) for e in (0.0, extra))
            yield (mark, quantity, "lb"), (one, other)
    if isinstance(frame, BoltFrame) and not frame.placed.bolt.rated_alone:
        shares = [
            _shares(frame, [weight[i] + added + extra for weight in (lateral.most, lateral.least)], side)
            for extra, side in zip((0.0, more), across, strict=True)
        ]
        yield (mark, TOGETHER, ""), (shares[0], shares[1])


def _shares(frame: BoltFrame, loads: list[Array], across: Array) -> float:
    """Greatest sum of the shares of a bracket's ratings, down or up and lateral; 0 where one is not given."""
    bolt, tie = frame.placed.bolt, frame.support.uplift_tie
    if bolt.rated_load is None or bolt.rated_lateral is None:
        return 0.0
    up = [-R / tie if tie else 0.0 * R for R in loads]
    return max(
        float((np.maximum(R / bolt.rated_load, u) + across / bolt.rated_lateral).max())
        for R, u in zip(loads, up, strict=True)
    )


def _drag(lateral: LateralAnalysis, state: State, i: int) -> Array:
    """What a moving trunk brings to the platform at a bolt, were this not to move (2, cases)."""
    spring = state.springs[i]
    moved = state.k[i] * (spring.rows @ state.movement - state.lag[i] - state.ground[i])
    friction = moved - state.force[i]
    return np.asarray(state.k[i] * state.ground[i] + friction)


def _knees(
    lateral: LateralAnalysis, state: State, hand: State, solved: _Solved
) -> Iterator[tuple[tuple[str, str, str], tuple[float, float]]]:
    run = Calculation().run
    on = lateral.knees_in(state)
    lying = on.force @ lateral.tilt @ hand.turn
    for knee, weight in zip(on.knees, lying, strict=True):
        i, frame, which = place_of(lateral, knee)
        axis = frame.axes[which]
        brace_reaction = knee_reaction(lateral.frames, hand.Q, knee, hand.foot)
        own = np.abs(weight - brace_reaction * float(brace_length(a=axis.a, r=axis.r)) / axis.a)
        F_b, F_w = run_brace_forces(run, lateral, state, knee, Way.EITHER)
        whole = (np.abs(F_b) + np.abs(F_w))[0]
        more = np.abs(solved.end(knee.brace.mark, 0)) - own
        yield (knee.brace.mark, BRACE, "lb"), (float(whole.max()), float((whole + more).max()))
        if which == 0:
            by_weight = post_push(on, knee.brace.support, which) @ lying
            h, V, Q = frame.h, hand.force[i, which], hand.Q[i, which]
            top_share = (h - axis.a) / h
            if is_held(frame, state):  # a propped cantilever, not a simple beam
                l, b = h + FIXITY, h + FIXITY - axis.a
                top_share = b**2 * (3 * l - b) / (2 * l**3)
            M = np.abs((Q - V) * axis.a + by_weight * axis.a * top_share)
            top = run_lateral_force(run, lateral, state, i, which)
            whole = run_moment_at_knee(run, lateral, state, frame, which, top)[0]
            more = np.abs(solved.end(f"{knee.brace.support} low", 6 + Dof.RZ)) - M
            found = float(whole.max()), float((whole + more).max())
            yield (knee.brace.support, KNEE, "lb·in"), found


# ---------------------------------------------------------------------------------------------------------
# The loads


def _solve(lateral: LateralAnalysis, hand: State, *, moving: bool) -> _Solved:
    frames = [(own, *find_frame(lateral, hand.only(int(np.argmax(own))))) for own in _alike(hand)]
    _, parts, deck = frames[0]
    units: list[list[FrameLoad]] = [_moved_deck(deck, way) for way in range(3)]
    x, y = deck.centre
    F_x, F_y, M = lateral.cases.load
    push = np.array([F_x, F_y, M - (x * F_y - y * F_x)])
    shares: list[Array] = []
    passed = np.zeros((2, lateral.cases.count))
    for i, frame in enumerate(lateral.frames):
        if is_foot(frame):
            continue
        passed += held_at(lateral, frame.support.mark) * (
            hand.springs[i].axes.T @ (hand.force[i] - hand.push[i])
        )
    units += _laid(lateral, parts)
    for axis in (0, 1):
        shares.append(lateral.cases.over[axis] - passed[axis])
    for unit, share in (*_tips(lateral, parts, hand), *(_trunks(lateral, hand) if moving else ())):
        units.append(unit)
        shares.append(share)
    moved = np.zeros_like(push)
    results = []
    for own, parts, _ in frames:
        result = analyse(Frame(tuple(parts.nodes), tuple(parts.members), tuple(parts.supports)), units)
        # Of the deck's three movements: its springs push it back as it moves, less as the beams follow.
        followed = np.stack([result.displacement(node)[:2] for node in deck.nodes])
        motion = deck.motion
        pulled = np.einsum("naj,n,nau->ju", motion, deck.k, followed)
        stiffness = np.einsum("naj,n,nai->ji", motion, deck.k, motion) - pulled[:, :3]
        moved[:, own] = np.linalg.solve(stiffness, (push + pulled[:, 3:] @ np.array(shares))[:, own])
        results.append((own, result))
    about = np.array([[1.0, 0.0, y], [0.0, 1.0, -x], [0.0, 0.0, 1.0]])
    return _Solved(tuple(results), np.vstack([moved, *shares]), about @ moved)


def _alike(hand: State) -> list[Array]:
    """Which cases have the same rods stretched: a mask for each set."""
    pulled = hand.pulled.reshape(-1, hand.pulled.shape[2])
    _, which = np.unique(pulled, axis=1, return_inverse=True)
    return [which.ravel() == n for n in range(int(which.max()) + 1)]


def _moved_deck(deck: Deck, way: int) -> list[FrameLoad]:
    """What the deck moved by one along x, one along y, or turned by one does to its springs."""
    force = deck.k[:, None] * deck.motion[:, :, way]
    return [NodeLoad(n, (float(x), float(y), 0.0)) for n, (x, y) in zip(deck.nodes, force, strict=True)]


def _trunks(lateral: LateralAnalysis, hand: State) -> Iterator[tuple[list[FrameLoad], Array]]:
    """A pound along and across each bolt, where its trunk moves."""
    for i, frame in enumerate(lateral.frames):
        drag = _drag(lateral, hand, i)
        if isinstance(frame, BoltFrame) and drag.any():
            for axis, share in zip(axes_of(frame), drag, strict=True):
                node = f"{frame.support.mark} foot"
                yield [NodeLoad(node, (float(axis[0]), float(axis[1]), 0.0))], share


def _laid(lateral: LateralAnalysis, parts: Parts) -> tuple[list[FrameLoad], list[FrameLoad]]:
    """One lb·in of overturning along x and along y above the levels at which the plate hands it on.

    A straight-line pressure on the deck, as it comes to the beams, gathered every few inches.
    """
    loads: tuple[list[FrameLoad], list[FrameLoad]] = ([], [])
    for beam in lateral.path.layout.beams:
        effects = lateral.path.effects[beam.mark]
        own = [k for k, label in enumerate(effects.labels) if label not in parts.places]
        if not own:
            continue
        x = np.array([middle(effects.loads[k]) for k in own])
        pounds = (effects.delivered @ lateral.tilt)[own]
        step = beam.line.length / math.ceil((beam.line.length - HAIR) / GATHERED)
        before = np.minimum((x / step).astype(int), round(beam.line.length / step) - 1)
        part = (x / step - before)[:, None]
        gathered = np.zeros((round(beam.line.length / step) + 1, 2))
        np.add.at(gathered, before, (1 - part) * pounds)
        np.add.at(gathered, before + 1, part * pounds)
        for place, both in zip(step * np.arange(len(gathered)), gathered, strict=True):
            if not both.any():
                continue
            piece, within = parts.within(beam.mark, float(place))
            for found, down in zip(loads, both, strict=True):
                found.append(MemberPoint(f"{beam.mark}/{piece}", within, (0.0, 0.0, -float(down))))
    return loads


def _tips(lateral: LateralAnalysis, parts: Parts, hand: State) -> Iterator[tuple[list[FrameLoad], Array]]:
    """Couples that tip the beams under the plate: their lateral force enters at the top of the post's seat."""
    on_deck = {c.mark for c in decked(lateral)}
    for mark, tipped in lateral.tipped.items():
        if mark not in on_deck or stands_alone(tipped.beam):
            continue
        x, y = tipped.beam.line.u
        for i, couple in zip(tipped.posts, tipped.couples(lateral.frames, hand.force), strict=True):
            seat = next(s for s in tipped.beam.seats if s.below == lateral.frames[i].support.mark)
            yield [NodeLoad(parts.at(mark, seat.at), moment=(-y, x, 0.0))], couple
