"""A member between the two ends of a hammock: pressed together by its ropes, and bent by that off centre."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.trunk_brace import thrust_moment
from bolewright.calculation import Calculation
from bolewright.platform.checks.members import (
    C_D,
    CASES,
    MOST_SLENDER,
    NAMES,
    bending_capacity,
    breadth_against_buckling,
    largest_moment,
    look_of,
    run_slenderness,
    unbraced_length,
)
from bolewright.platform.checks.plies import BENDING_NOTE, reaction_by_weight, run_moment_of_loaded_ply
from bolewright.platform.checks.posts import SAWN
from bolewright.platform.layout.board_ends import board_width
from bolewright.platform.layout.parts import Kind, Member
from bolewright.platform.layout.point_loads import level_of, run_force
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import PointLoad
from bolewright.timber.adjusted_values import (
    adjusted_compression,
    adjusted_minimum_modulus,
    compression_before_stability,
)
from bolewright.timber.bending import bending_stress, critical_buckling_bending
from bolewright.timber.built_up_columns import PlyFastening, built_up_coefficient, built_up_stability_factor
from bolewright.timber.columns import (
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
)
from bolewright.timber.combined import bending_and_compression
from bolewright.units import NONE

NOTE = (
    "On the safe side: the whole pull of the ropes with the largest moment of the member anywhere, sagging or hogging, "
    "and the pull taken at its edge, half the depth off centre, or as far off as the file says. Edgewise the member "
    "buckles from end to end of the hammock; flatwise a joist is held by every board, a beam by what bears on it "
    "(judgement, as of a stud with boards on one face)."
)


def hammock_checks(path: LoadPath) -> list[Check]:
    """Compression and bending of each member that a hammock hangs on by both its ends, sagging or hogging."""
    loads = path.layout.project.point_loads
    return [
        max((_pressed(path, load, sagging=way) for way in (True, False)), key=lambda check: check.severity)
        for load in loads
        if load.other_end is not None and load.member is not None
    ]


def _held_flatwise(path: LoadPath, member: Member) -> float:
    """Greatest length over which a member may buckle about its weak axis (in)."""
    if member.kind is Kind.BEAM:
        return unbraced_length(member, path, sagging=True)
    return board_width(path.layout)


def _pressed(path: LoadPath, load: PointLoad, *, sagging: bool) -> Check:
    member = path.layout.member(load.member or "")
    look = look_of(path, member)
    group, values, section = look.factors, look.effects.values, member.section
    l_1 = abs((load.other_end or 0.0) - (load.along or 0.0))
    l_2, b = _held_flatwise(path, member), breadth_against_buckling(member)
    if max(l_1 / section.d, l_2 / b) > MOST_SLENDER:
        return not_checked(
            load.mark,
            "point_load.compression",
            f"{load.mark} presses {load.member} together over a length of more than {MOST_SLENDER:g} times its "
            "thickness, for which NDS 2018, 3.7.1.4 has no value: hang it shorter, or on a joist under boards.",
            at=member.mark,
        )
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    H = run_force(run, load).level
    off = abs(level_of(path.layout, load, member) - (member.top - section.d / 2))
    M_T = run(
        thrust_moment, M=largest_moment(look, sagging=sagging)[0][None, :], T_b=H, d=max(section.d, 2 * off)
    )
    M_1, n, hung = run_moment_of_loaded_ply(run, look, reaction_by_weight(path), M_T, sagging=sagging)
    f_b = run(bending_stress, M=M_1, S=section.S / n)
    free = np.array([[unbraced_length(member, path, sagging=way)] for way in (sagging, False)])
    F_b_p = bending_capacity(run, [look], free[:1], C_D)
    E_min_p = run(adjusted_minimum_modulus, E_min=values.E_min, **group.modulus)
    F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=run_slenderness(run, [look], free[1:]))
    F_cE1 = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_1, d=section.d)
    F_cE2 = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_2, d=b)
    F_c_star = run(compression_before_stability, F_c=values.F_c, C_D=C_D, **group.compression)
    flatwise = l_2 / b > l_1 / section.d
    if flatwise and section.plies > 1 and b > section.ply_thickness:  # nailed plies slip (15.3.2)
        K_f = built_up_coefficient(PlyFastening.NAILED, across_plies=True)
        C_P = run(built_up_stability_factor, F_cE=F_cE2, F_c_star=F_c_star, c=SAWN, K_f=K_f)
    else:
        C_P = run(column_stability_factor, F_cE=F_cE2 if flatwise else F_cE1, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(adjusted_compression, F_c=values.F_c, C_D=C_D, C_P=C_P, **group.compression)
    ratio = run(
        bending_and_compression,
        f_c=run(compression_stress, P=H, A=section.A),
        F_c_p=F_c_p,
        F_cE1=F_cE1,
        F_cE2=F_cE2,
        f_b1=f_b,
        F_b1_p=F_b_p,
        f_b2=0.0,
        F_b2_p=F_b_p,
        F_bE=F_bE,
    )
    return judge(
        calculation,
        [load.mark],
        NAMES,
        key="point_load.compression",
        at=member.mark,
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        says=f"compression and bending of {member.mark}",
        notes=(NOTE, *((BENDING_NOTE,) if hung else ())),
    )[0]
