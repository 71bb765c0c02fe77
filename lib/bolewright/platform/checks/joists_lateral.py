"""Joists and blocking with wind and sway: bending, shear and bearing with what overturning adds to the weight.

Overturning presses some of the deck more and some less. Nothing else of the lateral force is counted in these members:
their values are those under weight, with C_D of the case. Of each field of joists and each entry of blocking the piece
that is worst is judged, for each of these.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from bolewright.bracing.standing import load_with_sway
from bolewright.mechanics.ties import first_most
from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.checks.lateral import judge_lateral, start, unprinted
from bolewright.platform.checks.members import (
    BENT,
    BearingSeat,
    Look,
    bearing_seats,
    bending_capacity,
    prefix_of,
    run_bearing,
    shear_capacity,
    shear_stations,
    unbraced_length,
)
from bolewright.platform.checks.overturned import (
    Asked,
    Corners,
    by_overturning,
    by_weight,
    in_cases,
    units_of,
    worst_of,
    worst_state,
)
from bolewright.platform.checks.rims_lateral import rim_lateral_checks
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import Array, member_envelope
from bolewright.platform.loads.strength import asd_values
from bolewright.timber.basis import Method
from bolewright.timber.bending import bending_stress
from bolewright.timber.shear import shear_stress
from bolewright.units import PSI, feet_inches

ASD_NOTE = (
    "By allowable stress design, as all rows with wind and sway, whatever the file names for its joists."
)


def joist_lateral_checks(
    lateral: LateralAnalysis, joists: Sequence[Look], beams: Sequence[Look], blocking: Sequence[Look]
) -> list[Check]:
    """Bending, shear and bearing of the worst joist of each field and the worst piece of each entry of blocking."""
    if lateral.loose or not (joists or blocking):
        return []
    corners = Corners.of(lateral)
    checks: list[Check] = []
    for looks in _alike(blocking, lambda look: entry_of(look.member).kind):
        held = [look for look in looks if not held_by_fasteners(look.member)]
        checks += _members(lateral, corners, looks, bearing_seats(held))
    checks += rim_lateral_checks(lateral, corners, blocking)
    for looks in _alike(joists, lambda look: look.member.field or ""):
        checks += _members(lateral, corners, looks, bearing_seats(looks))
        checks += _bearing(lateral, corners, bearing_seats(looks, under=beams))
    return checks


def _alike(looks: Sequence[Look], kind: Callable[[Look], str]) -> list[list[Look]]:
    """Members by their field or entry, in the order they come."""
    found: dict[str, list[Look]] = {}
    for look in looks:
        found.setdefault(kind(look), []).append(look)
    return list(found.values())


def _members(
    lateral: LateralAnalysis, corners: Corners, looks: Sequence[Look], seats: Sequence[BearingSeat]
) -> Iterator[Check]:
    yield from _bending(lateral, corners, looks)
    yield from _shear(lateral, corners, looks)
    yield from _bearing(lateral, corners, seats)


def _notes(look: Look) -> tuple[str, ...]:
    lrfd = look.path.layout.project.code.design == Method.LRFD
    return (ASD_NOTE,) if lrfd and prefix_of([look]) == "joist" else ()


def _bending(lateral: LateralAnalysis, corners: Corners, looks: Sequence[Look]) -> Iterator[Check]:
    """Bending either way at the worst station."""
    found: list[Asked[tuple[Look, bool]]] = []
    S = np.array([[look.member.section.S] for look in looks])
    for sagging in (True, False):
        l_u = _unbraced(looks, sagging=sagging)
        allowed = S * bending_capacity(unprinted(), looks, l_u, corners.values[None, :])
        for look, capacity in zip(looks, allowed, strict=True):
            units = units_of(lateral, look.moment, look.effects.moment, up=sagging)
            found.append(Asked((look, sagging), units, capacity))
    worst = worst_of(corners, found)
    if worst is None or float((worst.unit @ corners.amount).max()) <= BENT:
        return
    (look, sagging), C_D = worst.part, lateral.cases.C_D
    calculation = start(lateral)
    run = calculation.run
    l_u = _unbraced([look], sagging=sagging)
    F_b_p = bending_capacity(run, [look], l_u, C_D[None, :])
    state = worst_state(lateral, worst.unit, F_b_p[0])
    M = np.maximum(in_cases(lateral, state, worst.unit), 0.0)
    check = judge_lateral(
        calculation,
        lateral,
        state,
        look.member.mark,
        key=f"{prefix_of([look])}.bending_lateral",
        demand=run(bending_stress, M=M, S=look.member.section.S),
        capacity=F_b_p,
        unit=PSI,
        says="bending with wind and sway",
        notes=_notes(look),
    )
    at = feet_inches(float(look.effects.stations[worst.row]))
    yield replace(check, where=f"{'sagging' if sagging else 'hogging'} at {at} from its start; {check.where}")


def _unbraced(looks: Sequence[Look], *, sagging: bool) -> Array:
    return np.array([[unbraced_length(look.member, look.path, sagging=sagging)] for look in looks])


SIDES = ("shear_left", "shear_right")


def _shear(lateral: LateralAnalysis, corners: Corners, looks: Sequence[Look]) -> Iterator[Check]:
    """Shear at the worst of the stations that count, just before or just past it."""
    found: list[Asked[Look]] = []
    for look in looks:
        member = look.member
        rows = shear_stations(member, look.effects.stations)
        capacity = (
            shear_capacity(unprinted(), [look], asd_values(corners.values))[0]
            * member.width
            * member.section.d
        )
        for side in SIDES:
            weight = member_envelope(look.path, member.mark, side).at(rows)
            effect = getattr(look.effects, side)[rows]
            for up in (True, False):
                found.append(Asked(look, units_of(lateral, weight, effect, up=up), capacity))
    worst = worst_of(corners, found)
    if worst is None:
        return
    look, member, C_D = worst.part, worst.part.member, lateral.cases.C_D
    state = worst_state(lateral, worst.unit, C_D)
    calculation = start(lateral)
    run = calculation.run
    V = np.maximum(in_cases(lateral, state, worst.unit), 0.0)
    check = judge_lateral(
        calculation,
        lateral,
        state,
        member.mark,
        key=f"{prefix_of([look])}.shear_lateral",
        demand=run(shear_stress, V=V, b=member.width, d=member.section.d),
        capacity=shear_capacity(run, [look], asd_values(C_D[None, :])),
        unit=PSI,
        says="shear with wind and sway",
        notes=_notes(look),
    )
    station = shear_stations(member, look.effects.stations)[worst.row]
    at = feet_inches(float(look.effects.stations[station]))
    yield replace(check, where=f"at {at} from its start; {check.where}")


def _bearing(lateral: LateralAnalysis, corners: Corners, seats: Sequence[BearingSeat]) -> Iterator[Check]:
    """Bearing across the grain at the worst of some seats: of the members themselves, or of the beams below them."""
    if not seats:
        return
    units = np.concatenate(
        [
            units_of(lateral, s.upper.reactions.at(one), s.upper.effects.reactions[one], up=True)
            for s in seats
            for one in [np.array([s.row])]
        ]
    )
    R = np.maximum((units @ corners.amount).max(axis=1), 0.0)[:, None]
    by = asd_values(1.0)
    f_c_perp, F_c_perp_p = run_bearing(unprinted(), seats, R, by)
    row = first_most(f_c_perp[:, 0] / np.broadcast_to(F_c_perp_p, R.shape)[:, 0])
    seat, unit = seats[row], units[[row]]
    state = worst_state(lateral, unit, 1.0)
    calculation = start(lateral)
    run = calculation.run
    load = run(load_with_sway, R=by_weight(lateral, unit), R_o=by_overturning(state, unit), R_k=0.0)
    f_c_perp, F_c_perp_p = run_bearing(run, [seat], np.maximum(load, 0.0), by)
    on = seat.upper.member.seats[seat.row]
    under = seat.bearing is not seat.upper
    yield judge_lateral(
        calculation,
        lateral,
        state,
        seat.bearing.member.mark,
        key=f"{prefix_of([seat.bearing])}.{'bearing_under' if under else 'bearing'}_lateral",
        at=seat.upper.member.mark if under else on.below,
        demand=f_c_perp,
        capacity=F_c_perp_p,
        unit=PSI,
        says="bearing across the grain with wind and sway",
        notes=_notes(seat.upper),
    )
