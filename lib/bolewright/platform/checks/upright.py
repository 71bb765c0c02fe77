"""Joists that keep a beam upright on tree bolts, and what of its torque comes to the connection of each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bolewright.bracing.beam import force_across_either_way
from bolewright.bracing.upright import (
    joist_rotation_stiffness,
    share_of_joist,
    share_of_side,
    share_passed_on,
    stiffness_with_beyond,
    torque_at_joist,
)
from bolewright.calculation import Calculation
from bolewright.platform.analysis.eccentric import restrains
from bolewright.platform.analysis.knees import beam_modulus
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.analysis.plan_give import run_joint
from bolewright.platform.checks.lateral import Run, run_with_push, start
from bolewright.platform.layout.parts import Bearing, Member, Seat
from bolewright.platform.loads.combine import Array
from bolewright.timber.section_properties import E_OVER_G

FEW = 2  # joists that hold a beam upright, at least
NEAREST = 3  # joists on each side that count beside one of them: with fewer springs all turn more, so each takes more
UPRIGHT_NOTE = (
    "The bracket on a tree bolt holds nothing against rotation here; the connections of the joists do, each with the "
    "moment of its own load and its share of the beam's torque. The beam twists between them (each ply by itself), so "
    "the nearest takes most. Each connection counts as stiff as it can be (eight 10d nails at its edges: judgement), "
    "and of the joists on each side of the bolt the three nearest: both are worse for the nearest."
)

Holding = tuple[Member, int]
"""A joist, with its seat on the beam that it keeps upright."""


@dataclass(frozen=True)
class Turned:
    """A state of the bases, a calculation, and the lateral force across a beam on each of its tree bolts (cases)."""

    state: State
    calculation: Calculation
    forces: tuple[tuple[Seat, Array], ...]


def joists_that_hold(lateral: LateralAnalysis, member: Member) -> list[Holding]:
    """Joists, each with its seat on a beam, whose connections keep that beam upright; no fewer than FEW do."""
    found = [
        (m, i)
        for m in lateral.path.layout.joists
        for i, own in enumerate(m.seats)
        if own.below == member.mark and m.section.d >= member.section.d / 2 and restrains(m)
    ]
    return sorted(found, key=_place)


def bolts_under(lateral: LateralAnalysis, member: Member) -> list[Seat]:
    """Seats of a beam on tree bolts."""
    return [
        seat
        for seat in member.seats
        if seat.bearing is Bearing.RESTS and seat.below in lateral.path.reactions
        if isinstance(lateral.frames[lateral.row(seat.below)], BoltFrame)
    ]


def turned_on_bolts(lateral: LateralAnalysis, member: Member, seats: Sequence[Seat]) -> list[Turned]:
    """Lateral force across a beam on some of its tree bolts, in every state."""
    found = []
    for state in lateral.states:
        calculation = start(lateral)
        forces = tuple(
            (seat, run_force_across(calculation.run, lateral, state, member, seat)) for seat in seats
        )
        found.append(Turned(state, calculation, forces))
    return found


def run_force_across(run: Run, lateral: LateralAnalysis, state: State, member: Member, seat: Seat) -> Array:
    """Lateral force across a beam on a tree bolt in every case (lb)."""
    i = lateral.row(seat.below)
    V_1, V_2 = (run_with_push(run, lateral, state, i, way, state.force[i, way][None, :]) for way in (0, 1))
    u_x, u_y = member.line.u
    c_1, c_2 = state.springs[i].axes @ (-u_y, u_x)
    return np.asarray(run(force_across_either_way, V_1=V_1, V_2=V_2, c_1=float(c_1), c_2=float(c_2)))


def run_torque(run: Run, beam: Member, joists: Sequence[Holding], joist: Holding, turned: Turned) -> Array:
    """Torque of a beam that comes to the connection of one of the joists that hold it, in every case (lb·in)."""
    M_j: Array | float = 0.0
    for seat, V in turned.forces:
        s = run_share(run, beam, joists, joist, seat.at)
        M_j = run(torque_at_joist, M_b=M_j, s=s, V=V, d=beam.section.d)
    return M_j  # type: ignore[return-value]


def run_share(run: Run, beam: Member, joists: Sequence[Holding], joist: Holding, at: float) -> float:
    """Share of the torque at a place of a beam that comes to one of the joists that hold it."""
    left = [one for one in joists if _place(one) <= at][::-1]
    right = [one for one in joists if _place(one) > at]
    own, other = (left, right) if joist in left else (right, left)
    own = own if own.index(joist) >= NEAREST else own[:NEAREST]
    stiff = {
        d: run(joist_rotation_stiffness, k_j=run_joint(True), d_j=d) for d in {m.section.d for m, _ in joists}
    }
    twist = {"G": beam_modulus(beam) / E_OVER_G, "J": beam.section.J(together=False)}
    held = _run_side(run, twist, own, stiff)
    s = 1.0
    if other:
        ends = (
            (own, held),
            (other[:NEAREST], _run_side(run, twist, other[:NEAREST], stiff)),
        )
        K_1, K_2 = (
            run(stiffness_with_beyond, k_r=0.0, K_b=K[0], **twist, l=abs(_place(side[0]) - at))
            for side, K in ends
        )
        s = run(share_of_side, K_1=K_1, K_2=K_2)
    for one, K in zip(own, held, strict=True):
        k_r = stiff[one[0].section.d]
        if one == joist:
            return float(run(share_of_joist, s_b=s, k_r=k_r, K=K, n=float(len(joists))))
        s = run(share_passed_on, s_b=s, k_r=k_r, K=K)
    raise ValueError(f"{joist[0].mark} does not hold {beam.mark}")


def _run_side(
    run: Run, twist: dict[str, float], side: Sequence[Holding], stiff: dict[float, float]
) -> list[float]:
    """Stiffness against rotation at each joist on one side of a place, with all beyond it, from there outwards.

    ``twist``: G and J of the beam.
    """
    found: list[float] = []
    K, last = 0.0, _place(side[-1])
    for one in reversed(side):
        l = abs(_place(one) - last)
        K = run(stiffness_with_beyond, k_r=stiff[one[0].section.d], K_b=K, **twist, l=l)
        last = _place(one)
        found.insert(0, K)
    return found


def _place(holding: Holding) -> float:
    member, i = holding
    return member.seats[i].below_at
