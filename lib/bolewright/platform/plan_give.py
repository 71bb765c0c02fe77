"""What lies between the stiff deck and its supports: beams that bend sideways, joists' fastenings that slip.

The deck holds the beams where joists sit on them or hang in them, and all along those that its boards lie on. Between
these places a beam spans sideways to the supports it sits on and to the beams that it meets. Nobody knows how far its
plies bend as one, nor how many nails are in a joint: two bounds are taken, and every check holds for both.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np

from bolewright.bracing.joint_slip import NAIL, joint_stiffness
from bolewright.calculation import Calculation
from bolewright.fasteners.group_action import slip_modulus_wood
from bolewright.platform.combine import Array
from bolewright.platform.knees import carrier_modulus
from bolewright.platform.level_supports import LevelFrame, axes_of
from bolewright.platform.parts import Kind, Layout, Member

RIGID = 1e7  # lb/in: two beams that meet, or a beam on its support, do not part
LEAST = 1.0  # lb/in: so little holds every place, that nothing floats
BOARD = 5.5  # in: flush beams are fastened to every board
SAME = 0.05  # in: places on a beam nearer than this are one
NAILS = {True: 8.0, False: 2.0}  # in a joint, for certain not more and not fewer: judgement


class Joints(StrEnum):
    """How the joints and plies between deck and supports are taken."""

    FIRM = "joints that hold firm"
    GIVE = "joints that slip"


JOINT_NOTE = (
    "Between deck and supports the beams bend sideways and the joists' fastenings slip (load/slip modulus of 10d "
    "nails, NDS 2018, 11.3.6.1). Looked at are joints of eight nails with plies that bend as one, and "
    "joints of two nails with plies that bend each by itself; the worse counts."
)


@dataclass
class _Plan:
    """Stiffness of all beams in plan while it is put together: along each, and across and turning at its places."""

    K: Array = field(repr=False)
    row: dict[str, int]
    places: dict[str, Array]
    lines: dict[str, tuple[float, float]]

    def rows(self, mark: str, at: float) -> tuple[list[int], Array]:
        """Unknowns and their share in the movement along x and y (2, unknowns) of a place on a beam."""
        places = self.places[mark]
        node = int(np.argmin(np.abs(places - at)))
        x, y = self.lines[mark]
        return [self.row[mark], self.row[mark] + 1 + 2 * node], np.array([[x, -y], [y, x]])

    def tie(self, k: float, *ends: tuple[list[int], Array]) -> None:
        """A spring both ways between two places, or between one and the deck."""
        rows, share = ends[0]
        if len(ends) > 1:
            rows, share = rows + ends[1][0], np.hstack([share, -ends[1][1]])
        self.K[np.ix_(rows, rows)] += k * share.T @ share


def run_joint(firm: bool) -> float:
    """Stiffness of the joint of one joist and a beam (lb/in)."""
    run = Calculation().run
    return float(run(joint_stiffness, n=NAILS[firm], gamma=run(slip_modulus_wood, D=NAIL)))


def plan_give(layout: Layout, frames: Sequence[LevelFrame], joints: Joints) -> Array:
    """How much less seats on supports move than the deck, from a pound along each of their axes (2 n, 2 n), in/lb."""
    firm = joints is Joints.FIRM
    plan, first = _beams(layout, len(frames), firm)
    joint, boards = run_joint(firm), run_joint(False)
    flush = {m.mark for m in layout.flush}
    for member in (*layout.joists, *layout.carriers):  # a spacer holds two beams apart, neither to the deck
        for seat in member.seats:
            if seat.below not in plan.row:
                continue
            below = plan.rows(seat.below, seat.below_at)
            if member.kind is Kind.JOIST:
                plan.tie(joint, below)
            else:
                plan.tie(RIGID, below, plan.rows(member.mark, seat.at))
    for carrier in layout.carriers:
        if carrier.mark in flush:
            own = plan.places[carrier.mark]
            gaps = np.diff(own)
            share = (np.append(gaps, 0.0) + np.append(0.0, gaps)) / 2
            for at, length in zip(own, share, strict=True):
                plan.tie(boards * float(length) / BOARD, plan.rows(carrier.mark, float(at)))
    pushed = np.zeros((len(plan.K), 2 * len(frames)))
    for i, frame in enumerate(frames):
        top = [first + 2 * i, first + 2 * i + 1]
        for carrier, seat in layout.on_support(frame.support.mark):
            plan.tie(RIGID, (top, np.eye(2)), plan.rows(carrier.mark, seat.at))
        pushed[top, 2 * i : 2 * i + 2] = axes_of(frame).T
    give = pushed.T @ np.linalg.solve(plan.K, pushed)
    return np.asarray((give + give.T) / 2)


def _beams(layout: Layout, supports: int, firm: bool) -> tuple[_Plan, int]:
    """All beams by themselves, and the first unknown of the supports' tops."""
    row: dict[str, int] = {}
    places: dict[str, Array] = {}
    count = 0
    flush = {m.mark for m in layout.flush}
    for carrier in layout.carriers:
        row[carrier.mark] = count
        places[carrier.mark] = _places(layout, carrier, carrier.mark in flush)
        count += 1 + 2 * len(places[carrier.mark])
    size = count + 2 * supports
    plan = _Plan(LEAST * np.eye(size), row, places, {c.mark: c.line.u for c in layout.carriers})
    for carrier in layout.carriers:
        section = carrier.section
        I = section.I_flat if firm else section.I_flat / section.plies**2
        EI = carrier_modulus(carrier) * I
        own = places[carrier.mark]
        for n, L in enumerate(np.diff(own)):
            at = row[carrier.mark] + 1 + 2 * n
            bent = (
                EI
                / L**3
                * np.array(
                    [
                        [12, 6 * L, -12, 6 * L],
                        [6 * L, 4 * L**2, -6 * L, 2 * L**2],
                        [-12, -6 * L, 12, -6 * L],
                        [6 * L, 2 * L**2, -6 * L, 4 * L**2],
                    ]
                )
            )
            plan.K[at : at + 4, at : at + 4] += bent
    return plan, count


def _places(layout: Layout, carrier: Member, flush: bool) -> Array:
    """Places on a beam where something holds or pushes it, in order; all along one that boards lie on."""
    found = [s.at for s in carrier.seats]
    framing = (*layout.joists, *layout.carriers)
    found += [s.below_at for m in framing for s in m.seats if s.below == carrier.mark]
    if flush:
        found += list(np.linspace(0.0, carrier.line.length, math.ceil(carrier.line.length / BOARD) + 1))
    kept: list[float] = []
    for place in sorted(found):
        if not kept or place - kept[-1] > SAME:
            kept.append(float(place))
    return np.array(kept)
