"""Rims that run on over joists which give: the bending that unequal deflection of the joists' ends puts into one
timber.

Its pieces are counted as simple spans, which gives every joist and every fastening its whole load. As one timber over
three joists or more it is stiffer than the ends of the joists and evens out their deflection, and bends by that. The
two bounds stand beside each other: joists and fastenings by simple spans, the rim's bending by both together.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from bolewright.calculation import Calculation
from bolewright.formulas import formula
from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import PointLoad
from bolewright.platform.checks.members import C_D, CASES, NAMES, Look, bending_capacity
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.coupling import beam_stiffness
from bolewright.platform.limit_states.check import Check, judge, worst
from bolewright.platform.loads.combine import Array, envelope
from bolewright.platform.loads.load_path import LoadPath, member_values
from bolewright.timber.bending import bending_stress
from bolewright.units import PSI, Moment

LEAST = 3  # joists: over two a rim is a simple span
_STRAIGHT = 1e-3  # sine of the angle between two pieces of one straight timber
NOTE = (
    "The rim as one timber whose supports, the joists' ends, give as cantilevers and spans on their beams; the beams' "
    "own deflection and the slip of the nails, which would ease it, are not counted (judgement)."
)


@formula("Statics (rim as one timber over joists that give)", confidence="judgement, engineer to confirm")
def rim_moment(M_s: Moment, M_c: Moment) -> Moment:
    """Bending moment of a rim: of its load between two joists, and of the unequal deflection of the joists' ends.

    Parameters: M_s greatest moment as a simple span (lb·in); M_c greatest moment over the joists beside it, by the
    stiffness of rim and joists together (lb·in). Returns: M (lb·in). Source: statics; the sum is on the safe side.

    >>> rim_moment(1200.0, 900.0)
    2100.0
    """
    M: Moment = M_s + M_c
    return M


def rim_checks(looks: Sequence[Look]) -> list[Check]:
    """Of each straight rim over three joists or more the piece that bends most as one timber with the others."""
    return [_check(run) for run in rims(looks)]


def rims(looks: Sequence[Look]) -> list[list[Look]]:
    """Pieces of rims over three joists or more, in straight runs, in order along them."""
    return [run for run in _runs(looks) if len(run) + 1 >= LEAST]


def _runs(looks: Sequence[Look]) -> Iterator[list[Look]]:
    run: list[Look] = []
    for look in looks:
        if entry_of(look.member).kind != "rim":
            continue
        if run and not _goes_on(run[-1], look):
            yield run
            run = []
        run.append(look)
    if run:
        yield run


def _goes_on(one: Look, other: Look) -> bool:
    a, b = one.member, other.member
    same = entry_of(a).mark == entry_of(b).mark and a.seats[-1].below == b.seats[0].below
    return same and a.line.sine(b.line) < _STRAIGHT


def _check(run: Sequence[Look]) -> Check:
    over = envelope(run[0].path, through_moments(run))
    M_over = np.maximum(over.most(CASES), -over.least(CASES))
    M_c = np.stack([np.maximum(M_over[:, i], M_over[:, i + 1]) for i in range(len(run))])
    M_s = np.stack(
        [np.maximum(x.moment.most(CASES), -x.moment.least(CASES)).max(axis=1).clip(min=0.0) for x in run]
    )
    calculation = Calculation(M_s.shape)
    M = calculation.run(rim_moment, M_s=M_s, M_c=M_c)
    S = np.array([[look.member.section.S] for look in run])
    f_b = calculation.run(bending_stress, M=M, S=S)
    free = np.array([[look.member.line.length] for look in run])  # either edge may be in compression
    checks = judge(
        calculation,
        [look.member.mark for look in run],
        NAMES,
        key="blocking.bending_through",
        demand=f_b,
        capacity=bending_capacity(calculation.run, run, free, C_D),
        unit=PSI,
        says="bending as one timber over joists that give",
        notes=(NOTE,),
    )
    return worst(checks)[0]


def through_moments(run: Sequence[Look]) -> Array:
    """Influence of all sources (columns) on the moment of a rim over each of its joists (rows), in lb·in per unit.

    With the ends of the joists free they go down by d_0. The rim, of stiffness K against unequal deflection, holds them
    with K d, and each gives by c: d = d_0 - c K d.
    """
    path = run[0].path
    seats = [run[0].member.seats[0], *(look.member.seats[-1] for look in run)]
    lengths = [look.member.seats[-1].at - look.member.seats[0].at for look in run]
    places = np.concatenate([[0.0], np.cumsum(lengths)])
    EI = run[0].effects.values.E * run[0].member.section.I
    K = beam_stiffness(tuple(places), EI)
    c, d_0 = zip(*(_tip(path, seat.below, seat.below_at) for seat in seats), strict=True)
    d = np.linalg.solve(np.eye(len(places)) + np.array(c)[:, None] * K, np.array(d_0))
    lever = np.maximum(places[:, None] - places, 0.0)
    return np.asarray(lever @ (K @ d))


def _tip(path: LoadPath, mark: str, at: float) -> tuple[float, Array]:
    """How far a place of a joist goes down under a pound there (in/lb), and under every source (in)."""
    effects = path.effects[mark]
    member = effects.member
    beam = Beam(
        member.line.length,
        tuple(seat.at for seat in member.seats),
        member_values(member).E * member.section.I,
    )
    own = float(respond(beam, [PointLoad(at)], [at]).deflection[0, 0])
    return own, effects.deflection[int(np.argmin(np.abs(effects.stations - at)))]
