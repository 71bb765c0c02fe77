"""The space frame of the whole platform in every lateral case: a sum of answers to a pound of each kind of load."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from bolewright.mechanics.frame import FrameResult, analyse
from bolewright.mechanics.frame_model import Dof, Frame, FrameLoad, MemberPoint, NodeLoad
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame, axes_of, is_foot
from bolewright.platform.layout.tees import stands_alone
from bolewright.platform.loads.balance import middle
from bolewright.platform.loads.combine import Array
from bolewright.platform.verification.lateral_frame import HAIR, Deck, Parts, decked, find_frame, held_at

GATHERED = 4.0  # in: loads on a beam are shared to places this far apart


@dataclass(frozen=True)
class Solved:
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

    def beside(self, knee: str) -> tuple[Array, Array]:
        """Shear of its beam before a knee, and past it, in every case; none past the beam's end."""
        members, index = self.results[0][1].frame.members, self.results[0][1].frame.member_index
        node = members[index[knee]].end
        if f"{node}+" in index:  # under the axis of the beam
            node = members[index[f"{node}+"]].end
        mark, n = node.rsplit("@", 1)
        none = np.zeros(self.shares.shape[1])
        left, right = f"{mark}/{int(n) - 1}", f"{mark}/{n}"
        return (
            -self.end(left, 6 + Dof.DY) if left in index else none,
            self.end(right, Dof.DY) if right in index else none,
        )


def drag(lateral: LateralAnalysis, state: State, i: int) -> Array:
    """What a moving trunk brings to the platform at a bolt, were this not to move (2, cases)."""
    spring = state.springs[i]
    moved = state.k[i] * (spring.rows @ state.movement - state.lag[i] - state.ground[i])
    friction = moved - state.force[i]
    return np.asarray(state.k[i] * state.ground[i] + friction)


def solve(lateral: LateralAnalysis, hand: State, *, moving: bool) -> Solved:
    """The frame model in every case of a state; ``moving``: with trunks that move under their bolts."""
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
    return Solved(tuple(results), np.vstack([moved, *shares]), about @ moved)


def _alike(hand: State) -> list[Array]:
    """Which cases have the same rods stretched: a mask for each set."""
    pulled = hand.pulled.reshape(-1, hand.pulled.shape[2])
    if (pulled == pulled[:, :1]).all():  # as where there are none
        return [np.ones(pulled.shape[1], dtype=bool)]
    _, which = np.unique(pulled, axis=1, return_inverse=True)
    return [which.ravel() == n for n in range(int(which.max()) + 1)]


def _moved_deck(deck: Deck, way: int) -> list[FrameLoad]:
    """What the deck moved by one along x, one along y, or turned by one does to its springs."""
    force = deck.k[:, None] * deck.motion[:, :, way]
    return [NodeLoad(n, (float(x), float(y), 0.0)) for n, (x, y) in zip(deck.nodes, force, strict=True)]


def _trunks(lateral: LateralAnalysis, hand: State) -> Iterator[tuple[list[FrameLoad], Array]]:
    """A pound along and across each bolt, where its trunk moves."""
    for i, frame in enumerate(lateral.frames):
        dragged = drag(lateral, hand, i)
        if isinstance(frame, BoltFrame) and dragged.any():
            for axis, share in zip(axes_of(frame), dragged, strict=True):
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
