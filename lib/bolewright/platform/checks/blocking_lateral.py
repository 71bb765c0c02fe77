"""Fastening of rims, blocking and spacers with wind and sway, which shift the weight on the deck."""

from __future__ import annotations

import numpy as np

from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.blocking import by_fasteners, entry_of
from bolewright.platform.checks.carrier_added import seats_from_overturning
from bolewright.platform.checks.carrier_roll import run_seat_load
from bolewright.platform.checks.level import judge_level, start
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.parts import Member
from bolewright.platform.sideways import Sideways, State, range_over
from bolewright.units import POUND

MORE = 1 + 1e-6  # of two ends loaded alike the first is named, whatever rounding makes of them


def blocking_lateral_checks(sideways: Sideways) -> list[Check]:
    """Of each entry that nails or screws hold, the end that is loaded most with overturning."""
    if sideways.loose:
        return []
    worst: dict[str, tuple[float, State, Member, int]] = {}
    for piece in sideways.path.layout.blocking:
        if not held_by_fasteners(piece):
            continue
        most, _ = range_over(sideways.path, sideways.path.effects[piece.mark].reactions, sideways.cases)
        for state in sideways.states:
            loads = (most + seats_from_overturning(sideways, state, piece)) / sideways.cases.C_D
            row = int(np.argmax(loads.max(axis=1)))
            load, name = float(loads[row].max()), entry_of(piece).mark
            if name not in worst or load > worst[name][0] * MORE:
                worst[name] = load, state, piece, row
    return [_check(sideways, *found[1:]) for found in worst.values()]


def _check(sideways: Sideways, state: State, piece: Member, row: int) -> Check:
    below = piece.seats[row].below
    calculation = start(sideways)
    held = by_fasteners(sideways.path, piece, row, sideways.cases.C_D, calculation)
    if held.open:
        return not_checked(piece.mark, "blocking.fastening_lateral", held.open)
    return judge_level(
        calculation,
        sideways,
        state,
        piece.mark,
        key="blocking.fastening_lateral",
        demand=run_seat_load(calculation.run, sideways, state, piece, row, most=True),
        capacity=held.capacity,
        unit=POUND,
        says=f"the load on its fasteners at {below} with wind and sway",
        notes=held.notes,
    )
