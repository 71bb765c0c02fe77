"""A second model of the whole platform sideways, beside the hand route.

The space frame of :mod:`bolewright.platform.sideways_frame` under the wind along x and along y. Overturning above the
plate comes down as in the hand route, as a straight-line pressure on the deck. Compared are drift, the level force on
every support, what overturning and knees add to its load, the force in every knee and the moment it brings.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.knee import brace_length
from bolewright.mechanics.frame import FrameResult, analyse
from bolewright.mechanics.frame_model import (
    Dof,
    Frame,
    FrameLoad,
    MemberPoint,
    NodeLoad,
)
from bolewright.mechanics.loads import PointLoad, SpreadLoad
from bolewright.platform.combine import Array
from bolewright.platform.knee_force import knee_kick
from bolewright.platform.knee_weight import post_push
from bolewright.platform.knees import Knee
from bolewright.platform.level_supports import PostAxis, PostFrame
from bolewright.platform.second_opinion import Compared, beside_largest
from bolewright.platform.sideways import Sideways, State, answer
from bolewright.platform.sideways_frame import Parts, decked, find_frame, held_at
from bolewright.platform.tees import stands_alone

UPRIGHT = "load from overturning and knees"
TWIST = "carriers between deck and support twist and give, where the hand route takes them as stiff"
SAG = "carriers that meet at the post twist and sag together, where the hand route takes the knee by itself"
WHY = {
    "drift": TWIST,
    "level force": TWIST,
    UPRIGHT: "what overturning lays on the deck is shared by carriers that give",
    "force along the brace": SAG,
    "moment at the knee": SAG,
}


def sideways_model(sideways: Sideways) -> list[Compared]:
    """Both routes under 0.6 of the wind along x and along y, for every way in which the feet are taken."""
    if sideways.loose:
        return []
    kinds: dict[str, list[Compared]] = {}
    for state in sideways.states:
        for c in _state(sideways, state):
            kinds.setdefault(c.quantity, []).append(c)
    return [c for kind in kinds.values() for c in beside_largest(kind)]


def _state(sideways: Sideways, state: State) -> list[Compared]:
    parts, centre = find_frame(sideways, state)
    pushes = [_push(sideways, axis, centre) for axis in (0, 1)]
    load, over = (np.array([getattr(push, name) for push in pushes]).T for name in ("load", "over"))
    both = answer(sideways, state, load, over)
    hands = [both.only(case) for case in range(len(pushes))]
    cases = [_loads(sideways, parts, push, hand) for push, hand in zip(pushes, hands, strict=True)]
    result = analyse(Frame(tuple(parts.nodes), tuple(parts.members), tuple(parts.supports)), cases)
    return [c for axis, hand in enumerate(hands) for c in _compare(sideways, hand, result, axis, centre)]


@dataclass(frozen=True)
class _Push:
    """A level push: force along x and y and moment about the origin (3), moment left for the deck (2)."""

    load: Array
    over: Array
    moment: float


def _push(sideways: Sideways, axis: int, centre: tuple[float, float]) -> _Push:
    d = (1.0, 0.0) if axis == 0 else (0.0, 1.0)
    wind = sideways.winds.towards(d)
    force, moment = 0.6 * wind.force * np.array(d), 0.6 * wind.force * wind.across
    about = moment - (centre[0] * force[1] - centre[1] * force[0])
    return _Push(np.array([*force, moment]), force * wind.height, about)


def _loads(sideways: Sideways, parts: Parts, push: _Push, hand: State) -> list[FrameLoad]:
    """The push on the plate; on the deck the overturning above the levels at which the plate hands it on."""
    passed = np.zeros(2)
    for i, frame in enumerate(sideways.frames):
        level = held_at(sideways, frame.support.mark)
        passed += level * (hand.springs[i].axes.T @ hand.force[i])[:, 0]
    laid = sideways.tilt @ (push.over - passed)
    loads: list[FrameLoad] = [
        NodeLoad("plate 0", (float(push.load[0]), float(push.load[1]), 0.0), (0.0, 0.0, push.moment))
    ]
    loads += _tips(sideways, parts, hand)
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
            loads.append(_placed(parts, carrier.mark, x, float(pounds)))
    return loads


def _tips(sideways: Sideways, parts: Parts, hand: State) -> list[FrameLoad]:
    """Couples that tip the carriers under the plate: their level force enters at the top of the post's seat."""
    on_deck = {c.mark for c in decked(sideways)}
    loads: list[FrameLoad] = []
    for mark, tipped in sideways.tipped.items():
        if mark not in on_deck or stands_alone(tipped.carrier):
            continue
        x, y = tipped.carrier.line.u
        for i, couple in zip(tipped.posts, tipped.couples(sideways.frames, hand.force), strict=True):
            seat = next(s for s in tipped.carrier.seats if s.below == sideways.frames[i].support.mark)
            C = float(couple[0])
            loads.append(NodeLoad(parts.at(mark, seat.at), moment=(-y * C, x * C, 0.0)))
    return loads


def _placed(parts: Parts, mark: str, x: float, pounds: float) -> MemberPoint:
    """A load on a carrier, on the piece of it that it stands on."""
    places = parts.places[mark]
    piece = min(max(bisect_right(places, x) - 1, 0), len(places) - 2)
    within = min(max(x - places[piece], 0.0), places[piece + 1] - places[piece])
    return MemberPoint(f"{mark}/{piece}", within, (0.0, 0.0, -pounds))


def _compare(
    sideways: Sideways, hand: State, result: FrameResult, axis: int, centre: tuple[float, float]
) -> list[Compared]:
    load = f"0.6W along {'xy'[axis]}, {hand.foot.value}"

    def both(part: str, quantity: str, by_hand: float, by_frame: float, unit: str) -> Compared:
        return Compared(part, quantity, load, by_hand, by_frame, unit, WHY[quantity])

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
    lying = sideways.knee_influence.force @ sideways.tilt @ hand.turn[:, 0]
    for knee, weight in zip(sideways.knee_influence.knees, lying, strict=True):
        i, which, a = _axis_of(sideways, knee)
        Q, V = float(hand.Q[i, which, 0]), float(hand.force[i, which, 0])
        kick = float(knee_kick(sideways.frames, hand.Q, knee)[0])
        F_b = abs(weight - kick * float(brace_length(a=a.a, r=a.r)) / a.a)
        ends = result.end_forces[:, :, axis]
        index = result.frame.member_index
        axial = abs(float(ends[index[knee.brace.mark], 0]))
        found.append(both(knee.brace.mark, "force along the brace", F_b, axial, "lb"))
        if which == 0:
            bent = abs(float(ends[index[f"{knee.brace.support} low"], 6 + Dof.RZ]))
            by_weight = float(post_push(sideways.knee_influence, knee.brace.support, which) @ lying)
            h = sideways.path.layout.seat_level(knee.brace.support)
            M = abs((Q - V) * a.a + by_weight * a.a * (h - a.a) / h)
            found.append(both(knee.brace.support, "moment at the knee", M, bent, "lb·in"))
    return list(dict.fromkeys(found))


def _axis_of(sideways: Sideways, knee: Knee) -> tuple[int, int, PostAxis]:
    """Row of a knee's post, and the direction in which the knee stands."""
    i = sideways.row(knee.brace.support)
    frame = sideways.frames[i]
    assert isinstance(frame, PostFrame)
    which = next(w for w, axis in enumerate(frame.axes) if knee in axis.knees)
    return i, which, frame.axes[which]
