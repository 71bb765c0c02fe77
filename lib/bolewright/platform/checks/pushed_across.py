"""A member pushed across by a load that is fastened to it: bent flatwise while its weight bends it edgewise."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.beam import flatwise_section_modulus, lateral_point_moment, lateral_tip_moment
from bolewright.calculation import Calculation
from bolewright.platform.checks.lateral import Run
from bolewright.platform.checks.members import (
    C_D,
    CASES,
    NAMES,
    bending_capacity,
    largest_moment,
    look_of,
    run_slenderness,
    unbraced_length,
)
from bolewright.platform.checks.plies import BENDING_NOTE, reaction_by_weight, run_moment_of_loaded_ply
from bolewright.platform.layout.parts import Member
from bolewright.platform.layout.point_loads import across
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import PointLoad
from bolewright.timber.adjusted_values import adjusted_bending, adjusted_minimum_modulus
from bolewright.timber.bending import bending_stress, critical_buckling_bending
from bolewright.timber.combined import bending_and_compression
from bolewright.units import NONE

NOTE = (
    "On the safe side: laterally nothing but its seats holds the member, whatever bears on it or hangs in it between "
    "them; its plies bend flatwise each by itself, with no C_fu and no C_r; the largest moment edgewise anywhere, "
    "sagging or hogging, counts at the same place. That the platform as a whole takes the push is in the lateral "
    "cases. Not calculated: what holds the member itself against the push at its seats; an engineer has to look at it."
)
_SMALL = 0.5  # lb, lb in: no push, no twist


def across_checks(path: LoadPath) -> list[Check]:
    """Biaxial bending of each member that a load pushes across, sagging or hogging; open where it twists it too."""
    found = []
    for load in path.layout.project.point_loads:
        H, T = across(path.layout, load)
        if load.member is None or H <= _SMALL:
            continue
        if T > _SMALL:
            found.append(_twisted(load, H, T))
            continue
        ways = (_bent(path, load, H, sagging=way) for way in (True, False))
        found.append(max(ways, key=lambda check: check.severity))
    return found


def _twisted(load: PointLoad, H: float, T: float) -> Check:
    why = (
        f"{load.mark} pushes {load.member} laterally by {H:,.0f} lb and twists it by {T:,.0f} lb·in, as it does not "
        "pull at mid-depth. NDS has no design value for the torsion of sawn timber, so it is not calculated: fasten it "
        "at mid-depth (height), turn it along the member, or block the member to the next on both sides and have an "
        "engineer size that."
    )
    return not_checked(load.mark, "point_load.across", why, at=load.member or "")


def _lateral_moment(run: Run, member: Member, along: float, H: float) -> Array:
    seats = sorted(seat.at for seat in member.seats)
    before, after = [s for s in seats if s <= along], [s for s in seats if s >= along]
    if before and after and after[0] > before[-1]:
        M: Array = run(lateral_point_moment, H=H, a=along - before[-1], b=after[0] - along)
        return M
    tip: Array = run(lateral_tip_moment, H=H, a=along - before[-1] if before else after[0] - along)
    return tip


def _bent(path: LoadPath, load: PointLoad, H: float, *, sagging: bool) -> Check:
    member = path.layout.member(load.member or "")
    look = look_of(path, member)
    group, values, section = look.factors, look.effects.values, member.section
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    M = largest_moment(look, sagging=sagging)[0][None, :]
    M_1, n, hung = run_moment_of_loaded_ply(run, look, reaction_by_weight(path), M, sagging=sagging)
    f_b1 = run(bending_stress, M=M_1, S=section.S / n)
    M_2 = _lateral_moment(run, member, load.along or 0.0, H)
    S_2 = run(flatwise_section_modulus, n=float(section.plies), d=section.d, t=section.ply_thickness)
    f_b2 = run(bending_stress, M=M_2, S=S_2)
    free = np.array([[unbraced_length(member, path, sagging=False)]])
    F_b1_p = bending_capacity(run, [look], free, C_D)
    E_min_p = run(adjusted_minimum_modulus, E_min=values.E_min, **group.modulus)
    F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=run_slenderness(run, [look], free))
    alone = {**group.bending, "C_r": 1.0}  # no other member shares the push (NDS 2018, 4.3.9)
    F_b2_p = run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **alone)
    ratio = run(
        bending_and_compression,
        f_c=0.0,
        F_c_p=1.0,
        F_cE1=1.0,
        F_cE2=1.0,
        f_b1=f_b1,
        F_b1_p=F_b1_p,
        f_b2=f_b2,
        F_b2_p=F_b2_p,
        F_bE=F_bE,
    )
    return judge(
        calculation,
        [load.mark],
        NAMES,
        key="point_load.across",
        at=member.mark,
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        says=f"bending of {member.mark} both ways",
        notes=(NOTE, *((BENDING_NOTE,) if hung else ())),
    )[0]
