"""What lies between the stiff deck and its supports: beams that bend laterally, joists' fastenings that slip.

The deck holds the beams where joists sit on them or hang in them, and along those that its boards lie on, as far as
they do: past the deck's edge or in an opening nothing holds a beam sideways. Between these places a beam spans
laterally to the supports it sits on and to the beams that it meets. One that others stand on gets their force at its
top, and twists between the supports that keep it upright. Nobody knows how far its plies bend and twist as one, nor
how many nails are in a joint: two bounds are taken, and every check holds for both.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from bolewright.bracing.joint_slip import NAIL, joint_stiffness
from bolewright.calculation import Calculation
from bolewright.fasteners.group_action import slip_modulus_wood
from bolewright.platform.analysis.knees import beam_modulus
from bolewright.platform.analysis.lateral_supports import LateralFrame, axes_of
from bolewright.platform.layout.boards_on import boards_on
from bolewright.platform.layout.lines import apart
from bolewright.platform.layout.parts import Bearing, Kind, Layout, Member, Seat
from bolewright.platform.loads.combine import Array
from bolewright.timber.section_properties import E_OVER_G

RIGID = 1e7  # lb/in: two beams that meet, or a beam on its support, do not part
LEAST = 1.0  # lb/in: so little holds every place, that nothing floats
BOARD = 5.5  # in: flush beams are fastened to every board
SAME = 0.05  # in: places on a beam nearer than this are one
MANY = 1000  # unknowns: fewer are solved as quickly in one
NAILS = {True: 8.0, False: 2.0}  # in a joint, for certain not more and not fewer: judgement


class Joints(StrEnum):
    """How the joints and plies between deck and supports are taken."""

    FIRM = "joints that hold firm"
    GIVE = "joints that slip"


JOINT_NOTE = (
    "Between deck and supports the beams bend laterally, those that others stand on twist between their supports, and "
    "the joists' fastenings slip (load/slip modulus of 10d nails, NDS 2018, 11.3.6.1). Looked at are joints of eight "
    "nails with plies that bend and twist as one, and joints of two nails with plies that do each by itself; the worse "
    "counts."
)


@dataclass
class _Plan:
    """Stiffness of all beams in plan while it is put together: along each, and across and turning at its places.

    ``twists`` the first unknown of the twist at its places, of beams on which others stand.
    """

    K: Array = field(repr=False)
    row: dict[str, int]
    twists: dict[str, int]
    places: dict[str, Array]
    lines: dict[str, tuple[float, float]]

    def node(self, mark: str, at: float) -> int:
        """Number of the place on a beam nearest to one."""
        return int(np.argmin(np.abs(self.places[mark] - at)))

    def rows(self, mark: str, at: float) -> tuple[list[int], Array]:
        """Unknowns and their share in the movement along x and y (2, unknowns) of a place on a beam."""
        x, y = self.lines[mark]
        return [self.row[mark], self.row[mark] + 1 + 2 * self.node(mark, at)], np.array([[x, -y], [y, x]])

    def top(self, beam: Member, at: float) -> tuple[list[int], Array]:
        """The same of its top, which its twist about its middle (the shear centre) moves too."""
        rows, share = self.rows(beam.mark, at)
        x, y = self.lines[beam.mark]
        arm = beam.section.d / 2
        twist = self.twists[beam.mark] + self.node(beam.mark, at)
        return [*rows, twist], np.column_stack([share, (-y * arm, x * arm)])

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


def plan_give(layout: Layout, frames: Sequence[LateralFrame], joints: Joints) -> Array:
    """How much less seats on supports move than the deck, from a pound along each of their axes (2 n, 2 n), in/lb."""
    firm = joints is Joints.FIRM
    plan, first = _beams(layout, len(frames), firm)
    joint, boards = run_joint(firm), run_joint(False)
    for member in (*layout.joists, *layout.beams):  # a spacer holds two beams apart, neither to the deck
        for seat in member.seats:
            if seat.below not in plan.row:
                continue
            below = plan.rows(seat.below, seat.below_at)
            if member.kind is Kind.JOIST:
                plan.tie(joint, below)
            else:
                if stands(seat):
                    below = plan.top(layout.member(seat.below), seat.below_at)
                plan.tie(RIGID, below, plan.rows(member.mark, seat.at))
    for beam in layout.beams:
        for at, count in _held_by_boards(layout, beam, plan.places[beam.mark]):
            plan.tie(boards * count, plan.rows(beam.mark, at))
    pushed = np.zeros((len(plan.K), 2 * len(frames)))
    for i, frame in enumerate(frames):
        top = [first + 2 * i, first + 2 * i + 1]
        for beam, seat in layout.on_support(frame.support.mark):
            plan.tie(RIGID, (top, np.eye(2)), plan.rows(beam.mark, seat.at))
            if beam.mark in plan.twists:  # what keeps it upright there counts with the support
                at = plan.twists[beam.mark] + plan.node(beam.mark, seat.at)
                plan.K[at, at] += RIGID * beam.section.d**2
        pushed[top, 2 * i : 2 * i + 2] = axes_of(frame).T
    give = pushed.T @ _solve(plan.K, pushed)
    return np.asarray((give + give.T) / 2)


def _held_by_boards(layout: Layout, beam: Member, places: Array) -> Iterator[tuple[float, float]]:
    """Places on a beam under boards, and how many boards each stands for: half the way to its neighbours under them."""
    under = boards_on(layout, beam)
    if not under:
        return
    middle = (places[:-1] + places[1:]) / 2
    covered = np.any([(start < middle) & (middle < end) for start, end in under], axis=0)
    gaps = np.where(covered, np.diff(places), 0.0)
    share = (np.append(gaps, 0.0) + np.append(0.0, gaps)) / 2
    for at, length in zip(places, share, strict=True):
        if length > 0.0:
            yield float(at), float(length) / BOARD


def stands(seat: Seat) -> bool:
    """Whether a seat is on top of what bears it."""
    return seat.bearing is Bearing.RESTS


def _solve(K: Array, pushed: Array) -> Array:
    """Movement from each push (a column); of many unknowns, beams that do not hold each other by themselves."""
    if len(K) < MANY:
        return np.asarray(np.linalg.solve(K, pushed))
    found = np.zeros_like(pushed)
    count, group = connected_components(coo_array(K), directed=False)
    for one in range(count):
        own = np.flatnonzero(group == one)
        some = np.flatnonzero(pushed[own].any(axis=0))
        if some.size:
            found[np.ix_(own, some)] = np.linalg.solve(K[np.ix_(own, own)], pushed[np.ix_(own, some)])
    return found


def _beams(layout: Layout, supports: int, firm: bool) -> tuple[_Plan, int]:
    """All beams by themselves, and the first unknown of the supports' tops."""
    row: dict[str, int] = {}
    twists: dict[str, int] = {}
    places: dict[str, Array] = {}
    bearing = {seat.below for beam in layout.beams for seat in beam.seats if stands(seat)}
    count = 0
    for beam in layout.beams:
        row[beam.mark] = count
        places[beam.mark] = _places(layout, beam)
        count += 1 + 2 * len(places[beam.mark])
        if beam.mark in bearing:
            twists[beam.mark] = count
            count += len(places[beam.mark])
    size = count + 2 * supports
    plan = _Plan(LEAST * np.eye(size), row, twists, places, {c.mark: c.line.u for c in layout.beams})
    for beam in layout.beams:
        section = beam.section
        I = section.I_flat if firm else section.I_flat / section.plies**2
        EI = beam_modulus(beam) * I
        own = places[beam.mark]
        for n, L in enumerate(np.diff(own)):
            at = row[beam.mark] + 1 + 2 * n
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
        if beam.mark in twists:
            GJ = beam_modulus(beam) / E_OVER_G * section.J(together=firm)
            for n, L in enumerate(np.diff(own)):
                at = twists[beam.mark] + n
                plan.K[at : at + 2, at : at + 2] += GJ / L * np.array([[1.0, -1.0], [-1.0, 1.0]])
    return plan, count


def _places(layout: Layout, beam: Member) -> Array:
    """Places on a beam where something holds or pushes it, in order; along it as far as boards lie on it."""
    found = [s.at for s in beam.seats]
    framing = (*layout.joists, *layout.beams)
    found += [s.below_at for m in framing for s in m.seats if s.below == beam.mark]
    for start, end in boards_on(layout, beam):
        pieces = math.ceil((end - start) / BOARD - SAME / BOARD)
        found += list(np.linspace(start, end, pieces + 1))
    return np.array(apart(found, SAME))
