"""The frame model: all members as one grillage of elastic beams, solved by stiffness for a pound on every node.

Every member is cut at its ends, its seats, what sits on it, its depth from its seats, and evenly. Members pass vertical
force to each other and to supports that do not give. The load path goes from the top down by statics and forces; this
goes by movements, all at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from bolewright.mechanics.loads import CoupleLoad, PointLoad
from bolewright.platform.layout.actions import shares_of
from bolewright.platform.layout.borne import Share
from bolewright.platform.layout.influence import Array, Integers
from bolewright.platform.layout.lines import apart
from bolewright.platform.layout.parts import Kind, Layout, Member
from bolewright.platform.layout.tees import stands_alone, tee_of
from bolewright.platform.loads.load_path import member_values
from bolewright.platform.verification.frame_tee import TeeInfluence, solve_tee

EVEN = 9.0  # in: greatest distance of two nodes of a member
PAST_DEPTH = (
    1.0  # in: loads are put on nodes, so shear a depth from a seat is that up to the next node, close by
)
AT_AN_END = 0.25  # in: a person on a short piece is all shear of it right beside its end
CLOSE = 0.0213  # in: nodes nearer than this are one (no round number, which rounding would part)
ROUNDING = 1e-6  # of a distance of nodes


@dataclass(frozen=True)
class Bar:
    """A member cut at its nodes: ``x`` along it, the first of its nodes among all, its seats' nodes.

    ``turned`` are the nodes at which a part brings a couple; each has a number after those of all the bar's nodes.
    """

    member: Member
    x: Array
    first: int
    seats: tuple[int, ...]
    turned: tuple[int, ...] = ()

    @property
    def size(self) -> int:
        """How many unit loads it has: a pound on each node, and a couple where one comes."""
        return len(self.x) + len(self.turned)

    @cached_property
    def EI(self) -> float:
        """Stiffness against bending (lb·in²)."""
        return member_values(self.member).E * self.member.section.I


@dataclass(frozen=True)
class Influenced:
    """What a pound on each of some nodes (``columns``) does to one member, at its nodes (rows) and seats.

    Pounds on other nodes do nothing to it. The moment steps at a couple: at its node it is that just past it, and after
    the nodes come those just before each of the bar's couples. ``deflection`` is from the chord between its outer
    seats; of a beam on one post from where it was. ``head`` is the moment into that post, towards the beam's end.
    """

    columns: Integers
    moment: Array
    shear_left: Array
    shear_right: Array
    deflection: Array
    reactions: Array
    head: Array | None = None


@dataclass(frozen=True)
class Grillage:
    """The bars, and what a pound on every node does to each, by mark."""

    bars: dict[str, Bar]
    found: dict[str, Influenced]
    count: int


def grillage(layout: Layout) -> Grillage:
    """The members as one frame. Raises numpy's LinAlgError where they do not hold each other up."""
    bars: dict[str, Bar] = {}
    count = 0
    brought: dict[str, list[Share]] = {}
    for action in layout.actions:
        for share in shares_of(layout, action):
            brought.setdefault(share.member, []).append(share)
    for member in layout.members:
        x = _places(layout, member, brought.get(member.mark, ()))
        seats = tuple(int(np.argmin(np.abs(x - seat.at))) for seat in member.seats)
        couples = [s.load.x for s in brought.get(member.mark, ()) if isinstance(s.load, CoupleLoad)]
        turned = tuple(dict.fromkeys(int(np.argmin(np.abs(x - place))) for place in couples))
        bars[member.mark] = Bar(member, x, count, seats, turned)
        count += bars[member.mark].size
    tees = {
        mark: solve_tee(tee_of(layout.project, bar.member), bar.x, bar.turned)
        for mark, bar in bars.items()
        if stands_alone(bar.member)
    }
    joints = _joints(layout, bars)
    give = any(
        len(bar.seats) > 2 and any(joints[mark][n] >= 0 for n in bar.seats) for mark, bar in bars.items()
    )
    parts: dict[str, _Condensed] = {}
    if give:
        parts = {
            mark: _of_tee(tees[mark], joints[mark]) if mark in tees else _condensed(bar, joints[mark])
            for mark, bar in bars.items()
        }
    moved = _moved(parts, joints, bars, count) if give else None
    alike: dict[tuple[float, tuple[int, ...], bytes], Array] = {}  # many joists are
    found: dict[str, Influenced] = {}
    passed: dict[str, list[tuple[int, Integers, Array]]] = {mark: [] for mark in bars}
    for mark, bar in bars.items():
        columns, loads = _loads(bar, passed[mark])
        if mark in tees:
            effects = _tee_effects(tees[mark], bar, columns, loads)
        else:
            if moved is not None and len(bar.seats) > 2:
                columns, loads = _every(columns, loads, count)
                w = _with_joints(bar, parts[mark], joints[mark], moved)
            else:
                key = bar.EI, (*bar.seats, -1, *bar.turned), np.round(bar.x, 9).tobytes()
                if key not in alike:
                    alike[key] = _condensed(bar, dict.fromkeys(bar.seats, -1)).by_load
                w = alike[key] @ loads
            effects = _effects(bar, w, columns, loads)
        found[mark] = effects
        for seat, row in zip(bar.member.seats, effects.reactions, strict=True):
            if seat.below in bars:
                node = int(np.argmin(np.abs(bars[seat.below].x - seat.below_at)))
                passed[seat.below].append((node, effects.columns, row))
    return Grillage(bars, found, count)


def _loads(bar: Bar, passed: list[tuple[int, Integers, Array]]) -> tuple[Integers, Array]:
    """What comes to each node of a bar (rows) from a pound on its own nodes and on those of what sits on it."""
    own = bar.first + np.arange(bar.size)
    columns = np.unique(np.concatenate([own, *(c for _, c, _ in passed)]))
    loads = np.zeros((len(own), len(columns)))
    loads[np.arange(len(own)), np.searchsorted(columns, own)] = 1.0
    for node, from_, row in passed:
        loads[node, np.searchsorted(columns, from_)] += row
    return columns, loads


def _every(columns: Integers, loads: Array, count: int) -> tuple[Integers, Array]:
    """The same over all nodes."""
    whole = np.zeros((len(loads), count))
    whole[:, columns] = loads
    return np.arange(count), whole


def _places(layout: Layout, member: Member, brought: Sequence[Share]) -> Array:
    length = member.line.length
    at = {0.0, length, *(seat.at for seat in member.seats)}
    if stands_alone(member):
        at.update(tee_of(layout.project, member).places)
    at.update(other.seats[row].below_at for other, row in layout.seats_on(member.mark))
    for share in brought:
        if isinstance(share.load, PointLoad | CoupleLoad):
            at.add(share.load.x)
    fixed = apart(at, CLOSE)
    d = member.section.d
    offs = (d, d + PAST_DEPTH) if member.kind is not Kind.BLOCKING else (d, d + PAST_DEPTH, AT_AN_END)
    beside = (seat.at + side * off for seat in member.seats for side in (-1, 1) for off in offs)
    off_these = {p for p in beside if 0 < p < length and min(abs(p - k) for k in fixed) > CLOSE}
    kept = sorted([*fixed, *apart(off_these, CLOSE)])
    found = [
        np.linspace(a, b, int(np.ceil((b - a) / EVEN - ROUNDING)), endpoint=False)
        for a, b in zip(kept, kept[1:], strict=False)
    ]
    return np.concatenate([*found, [kept[-1]]])


def _joints(layout: Layout, bars: dict[str, Bar]) -> dict[str, dict[int, int]]:
    """Joint of each node of a member that meets others; -1 on a support."""
    joints: dict[str, dict[int, int]] = {mark: {} for mark in bars}
    number = 0
    # from the bottom up, so that what sits on a seat of a lower member stands on the support under it
    for member in reversed(layout.members):
        for seat, node in zip(member.seats, bars[member.mark].seats, strict=True):
            if seat.below not in bars:
                joints[member.mark][node] = -1
                continue
            below = bars[seat.below]
            at = int(np.argmin(np.abs(below.x - seat.below_at)))
            if at not in joints[seat.below]:
                joints[seat.below][at] = number
                number += 1
            joints[member.mark][node] = joints[seat.below][at]
    return joints


@dataclass(frozen=True)
class _Condensed:
    """A member left with its joints: ``meets`` nodes, their stiffness, and what movement of them and pounds on all its
    nodes do to the rest: ``by_joint`` (dofs, meets), ``by_load`` (dofs, nodes)."""

    meets: tuple[int, ...]
    stiffness: Array
    passed: Array
    by_joint: Array
    by_load: Array


def _condensed(bar: Bar, joints: dict[int, int]) -> _Condensed:
    n, L = len(bar.x), np.diff(bar.x)
    EI = bar.EI
    K = np.zeros((2 * n, 2 * n))
    one = np.ones_like(L)
    block = np.array(
        [
            [12 * one, 6 * L, -12 * one, 6 * L],
            [6 * L, 4 * L**2, -6 * L, 2 * L**2],
            [-12 * one, -6 * L, 12 * one, -6 * L],
            [6 * L, 2 * L**2, -6 * L, 4 * L**2],
        ]
    ) * (EI / L**3)
    for k in range(n - 1):
        K[2 * k : 2 * k + 4, 2 * k : 2 * k + 4] += block[:, :, k]
    meets = tuple(sorted(joints))
    b = 2 * np.array(meets)
    i = np.setdiff1d(np.arange(2 * n), b)
    loads = np.zeros((2 * n, bar.size))
    loads[2 * np.arange(n), np.arange(n)] = 1.0
    for k, node in enumerate(bar.turned):
        loads[2 * node + 1, n + k] = -1.0
    solved = np.linalg.solve(K[np.ix_(i, i)], np.hstack([-K[np.ix_(i, b)], loads[i]]))
    by_joint, by_load = np.zeros((2 * n, len(b))), np.zeros((2 * n, bar.size))
    by_joint[i], by_load[i] = solved[:, : len(b)], solved[:, len(b) :]
    by_joint[b, np.arange(len(b))] = 1.0
    stiffness = K[b] @ by_joint
    passed = loads[b] - K[b] @ by_load
    return _Condensed(meets, stiffness, passed, by_joint, by_load)


def _of_tee(tee: TeeInfluence, joints: dict[int, int]) -> _Condensed:
    """A T-frame left with the joints of what sits on its beam; it stands by itself."""
    meets = tuple(sorted(node for node, joint in joints.items() if joint >= 0))
    give = tee.deflection[np.ix_(meets, meets)]
    stiffness: Array = np.asarray(np.linalg.inv(give)) if meets else np.zeros((0, 0))
    return _Condensed(
        meets, stiffness, stiffness @ tee.deflection[list(meets)], np.zeros((0, 0)), np.zeros((0, 0))
    )


def _tee_effects(tee: TeeInfluence, bar: Bar, columns: Integers, loads: Array) -> Influenced:
    return Influenced(
        columns,
        tee.moment @ loads,
        tee.shear_left @ loads,
        tee.shear_right @ loads,
        tee.deflection @ loads,
        loads[: len(bar.x)].sum(axis=0)[None, :],  # couples weigh nothing
        (tee.head @ loads)[None, :],
    )


def _moved(
    parts: dict[str, _Condensed], joints: dict[str, dict[int, int]], bars: dict[str, Bar], count: int
) -> Array:
    """Movement of every joint from a pound on every node."""
    size = 1 + max((j for own in joints.values() for j in own.values()), default=-1)
    K, P = np.zeros((size, size)), np.zeros((size, count))
    for mark, part in parts.items():
        at = np.array([joints[mark][node] for node in part.meets])
        free = at >= 0
        np.add.at(K, (at[free][:, None], at[free]), part.stiffness[np.ix_(free, free)])
        first = bars[mark].first
        np.add.at(P, (at[free][:, None], first + np.arange(bars[mark].size)), part.passed[free])
    return np.asarray(np.linalg.solve(K, P)) if size else P


def _with_joints(bar: Bar, part: _Condensed, joints: dict[int, int], moved: Array) -> Array:
    """Movement of a bar's nodes with its joints, from a pound on every node."""
    at = np.array([joints[node] for node in part.meets])
    lower = np.zeros((len(at), moved.shape[1]))
    lower[at >= 0] = moved[at[at >= 0]]
    w = part.by_joint @ lower
    w[:, bar.first : bar.first + bar.size] += part.by_load
    return np.asarray(w)


def _effects(bar: Bar, w: Array, columns: Integers, loads: Array) -> Influenced:
    """Effects by the movement (dofs) of a bar's nodes under loads on them.

    Of a bar with two seats, as if they did not give: their movement bends nothing.
    """
    L, EI = np.diff(bar.x)[:, None], bar.EI
    shift, turn = w[::2], w[1::2]
    start = EI * (6 * shift[:-1] + 4 * L * turn[:-1] - 6 * shift[1:] + 2 * L * turn[1:]) / L**2
    end = EI * (-6 * shift[:-1] - 2 * L * turn[:-1] + 6 * shift[1:] - 4 * L * turn[1:]) / L**2
    none = np.zeros((1, len(columns)))
    slope = (end - start) / L
    left, right = np.vstack([none, slope]), np.vstack([slope, none])
    seats = list(bar.seats)
    a, b = bar.x[seats[0]], bar.x[seats[-1]]
    f = ((bar.x - a) / (b - a))[:, None]
    chord = (1 - f) * shift[seats[0]] + f * shift[seats[-1]]
    return Influenced(
        columns,
        np.vstack([start, end[-1:], end[[node - 1 for node in bar.turned if node > 0]]]),
        left,
        right,
        shift - chord,
        right[seats] - left[seats] + loads[seats],
    )
