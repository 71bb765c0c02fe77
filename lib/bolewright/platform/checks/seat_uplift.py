"""Uplift of joists and beams at their seats on beams, with wind and sway: what overturning takes off a seat."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.standing import load_with_sway
from bolewright.calculation import Calculation
from bolewright.fasteners.rated import hanger_capacity
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.checks.beam_added import seats_from_overturning
from bolewright.platform.checks.lateral import judge_lateral, start
from bolewright.platform.checks.seats import LIFTS, tie_of
from bolewright.platform.layout.parts import Kind, Member
from bolewright.platform.limit_states.check import Check, not_checked, nothing_asked
from bolewright.platform.loads.combine import Array
from bolewright.units import POUND

MORE = 1e-6  # lb: of two seats lifted alike the first is named, whatever rounding makes of them


def seat_uplift_checks(lateral: LateralAnalysis) -> list[Check]:
    """Each seat of a beam on a beam, and of each field of joists, hung or resting, the seat that is lifted most."""
    if lateral.loose:
        return []
    layout = lateral.path.layout
    checks = [
        _check(lateral, member, row, _least(lateral, member, row))
        for member in layout.beams
        for row in _on_beams(lateral, member)
    ]
    worst: dict[tuple[str, str], tuple[Member, int, tuple[State, Calculation, Array]]] = {}
    for member in layout.joists:
        for row in _on_beams(lateral, member):
            kind = member.field or "", member.seats[row].connection or ""
            found = _least(lateral, member, row)
            if kind not in worst or found[2].min() < worst[kind][2][2].min() - MORE:
                worst[kind] = member, row, found
    return checks + [_check(lateral, *found) for found in worst.values()]


def _on_beams(lateral: LateralAnalysis, member: Member) -> Iterator[int]:
    return (row for row, seat in enumerate(member.seats) if seat.below not in lateral.path.reactions)


def _least(lateral: LateralAnalysis, member: Member, row: int) -> tuple[State, Calculation, Array]:
    """Least load on a seat in every case, in the state of the bases in which it is least."""
    least = lateral.on_seats[member.mark][1][[row]]
    found = []
    for state in lateral.states:
        calculation = start(lateral)
        R_o = seats_from_overturning(lateral, state, member)[[row]]
        found.append(
            (state, calculation, np.asarray(calculation.run(load_with_sway, R=least, R_o=R_o, R_k=0.0)))
        )
    return min(found, key=lambda one: round(float(one[2].min()), 6))


def _check(
    lateral: LateralAnalysis, member: Member, row: int, found: tuple[State, Calculation, Array]
) -> Check:
    state, calculation, R = found
    seat = member.seats[row]
    joist = member.kind is Kind.JOIST
    key = "joist.uplift_lateral" if joist else "beam.uplift_lateral"
    at = (seat.connection or "resting") if joist else seat.below
    case = int(np.argmin(np.round(R[0], 6)))
    least, name = float(R.min()), lateral.cases.names[case]
    if -least <= LIFTS:
        sentence = (
            f"{member.mark} stays down at {seat.below}: its least load with wind and sway is {max(least, 0.0):,.0f} lb "
            f"({name})."
        )
        return nothing_asked(member.mark, key, sentence, at=at, least=max(least, 0.0), unit=POUND, case=name)
    tie, entered, C_M = tie_of(lateral.path.layout, member, seat)
    if tie is None:
        reason = (
            f"{member.mark} is lifted at {seat.below} by up to {-least:,.0f} lb with wind and sway ({name}): it needs "
            f"a tie whose rated uplift is entered as {entered}."
        )
        return not_checked(member.mark, key, reason, at=at)
    return judge_lateral(
        calculation,
        lateral,
        state,
        member.mark,
        key=key,
        at=at,
        demand=np.maximum(-R, 0.0),
        capacity=calculation.run(hanger_capacity, Z_rated=tie, C_D=1.0, C_M=C_M),
        unit=POUND,
        says=f"uplift on its tie at {seat.below} with wind and sway",
    )
