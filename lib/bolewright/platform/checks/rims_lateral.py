"""Rims as one timber over joists that give, with wind and sway: overturning bends the joists unequally too."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.checks.lateral import judge_lateral, start, unprinted
from bolewright.platform.checks.members import Look, bending_capacity
from bolewright.platform.checks.overturned import MORE, Corners, either_way, in_cases
from bolewright.platform.checks.rims import NOTE, rim_moment, rims, through_moments
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array, envelope
from bolewright.timber.bending import bending_stress
from bolewright.units import PSI


def rim_lateral_checks(lateral: LateralAnalysis, corners: Corners, looks: Sequence[Look]) -> list[Check]:
    """Of each straight rim over three joists or more the piece that bends most as one timber with the others."""
    return [_check(lateral, corners, run) for run in rims(looks)]


def _check(lateral: LateralAnalysis, corners: Corners, run: Sequence[Look]) -> Check:
    path, over = lateral.path, through_moments(run)
    weight = envelope(path, over)
    joists = [either_way(lateral, weight.at(one), over[one]) for one in np.arange(len(over))[:, None]]
    pieces = [either_way(lateral, look.moment, look.effects.moment) for look in run]
    free = np.array([[look.member.line.length] for look in run])  # either edge may be in compression
    capacity = bending_capacity(unprinted(), run, free, corners.values[None, :])[:, corners.which]
    S = np.array([[look.member.section.S] for look in run])
    M = np.stack(
        [sum(_two(*(units @ corners.amount for units in _of(pieces, joists, n)))) for n in range(len(run))]
    )
    shares = (M / S / capacity).max(axis=1)
    n = int(np.argmax(shares >= shares.max() * (1 - MORE)))
    look, found = run[n], []
    for state in lateral.states:
        calculation = start(lateral)
        M_s, M_c = _two(*(in_cases(lateral, state, units) for units in _of(pieces, joists, n)))
        M_r = calculation.run(rim_moment, M_s=M_s[None, :], M_c=M_c[None, :])
        found.append((state, calculation, M_r, float((M_r / lateral.cases.C_D).max())))
    most = max(one for *_, one in found)
    state, calculation, M_r, _ = next(one for one in found if one[3] >= most * (1 - MORE))
    f_b = calculation.run(bending_stress, M=M_r, S=look.member.section.S)
    return judge_lateral(
        calculation,
        lateral,
        state,
        look.member.mark,
        key="blocking.bending_through_lateral",
        demand=f_b,
        capacity=bending_capacity(calculation.run, [look], free[[n]], lateral.cases.C_D[None, :]),
        unit=PSI,
        says="bending as one timber over joists that give, with wind and sway",
        notes=(NOTE,),
    )


def _of(pieces: Sequence[Array], joists: Sequence[Array], n: int) -> tuple[Array, Array, Array]:
    """Moments of a piece as a simple span, and over the joists on either side of it, either way."""
    return pieces[n], joists[n], joists[n + 1]


def _two(piece: Array, one: Array, other: Array) -> tuple[Array, Array]:
    """Greatest moment of a piece by itself, and over the joists beside it, in every case (columns)."""
    return np.maximum(piece.max(axis=0), 0.0), np.maximum(one.max(axis=0), other.max(axis=0))
