"""Fastening of rims, blocking and spacers with wind and sway, which shift the weight on the deck."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.standing import load_with_sway
from bolewright.platform.analysis.lateral import LateralAnalysis, State, range_over
from bolewright.platform.checks.beam_added import seats_from_overturning
from bolewright.platform.checks.blocking import by_fasteners, on_fasteners
from bolewright.platform.checks.lateral import judge_lateral, start
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.parts import Member
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.units import POUND

MORE = 1 + 1e-6  # of two ends loaded alike the first is named, whatever rounding makes of them


def blocking_lateral_checks(lateral: LateralAnalysis) -> list[Check]:
    """Of each entry that nails or screws hold, the end that is loaded most with overturning."""
    if lateral.loose:
        return []
    worst: dict[str, tuple[float, State, Member, int]] = {}
    for piece in lateral.path.layout.blocking:
        if not held_by_fasteners(piece):
            continue
        name = entry_of(piece).mark
        for state in lateral.states:
            for row in range(len(piece.seats)):
                load = float((sum(_loads(lateral, state, piece, row)) / lateral.cases.C_D).max())
                if name not in worst or load > worst[name][0] * MORE:
                    worst[name] = load, state, piece, row
    return [_check(lateral, *found[1:]) for found in worst.values()]


def _loads(lateral: LateralAnalysis, state: State, piece: Member, row: int) -> tuple[Array, Array]:
    """Greatest load on an end's fasteners in every case, and what overturning adds (lb)."""
    path = lateral.path
    some = on_fasteners(path, piece, row)
    at_end = np.asarray(sum(path.effects[other.mark].reactions[i] for other, i in some))
    most, _ = range_over(path, at_end[None, :], lateral.cases)
    added = np.asarray(sum(seats_from_overturning(lateral, state, other)[i] for other, i in some))
    return most[0], added


def _check(lateral: LateralAnalysis, state: State, piece: Member, row: int) -> Check:
    below = piece.seats[row].below
    calculation = start(lateral)
    held = by_fasteners(lateral.path, piece, row, lateral.cases.C_D, calculation)
    if held.open:
        return not_checked(piece.mark, "blocking.fastening_lateral", held.open)
    R, R_o = _loads(lateral, state, piece, row)
    return judge_lateral(
        calculation,
        lateral,
        state,
        piece.mark,
        key="blocking.fastening_lateral",
        demand=np.maximum(calculation.run(load_with_sway, R=R[None, :], R_o=R_o[None, :], R_k=0.0), 0.0),
        capacity=held.capacity,
        unit=POUND,
        says=f"the load on its fasteners at {below} with wind and sway",
        notes=held.notes,
    )
