"""Posts under wind and sway: thrust with bending at the knee and in the ground, and shear."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bolewright.bracing.carrier import off_line_sum
from bolewright.bracing.standing import resultant_level_force
from bolewright.ground.embedded_post import (
    largest_post_moment_depth,
    post_moment_below_grade,
    post_shear_below_grade,
)
from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.footings import embedded_depth
from bolewright.platform.checks.level import Run, judge_level, run_level_force, run_load, start, worse
from bolewright.platform.checks.post_forces import (
    run_cap_force,
    run_foot_force,
    run_moment_at_grade,
    run_moment_at_knee,
)
from bolewright.platform.checks.posts import FIXITY, SAWN, post_weight
from bolewright.platform.combine import Array
from bolewright.platform.level_supports import PostFrame
from bolewright.platform.sideways import Sideways, State
from bolewright.platform.tees import TEE_NOTE
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    adjusted_shear,
    adjusted_tension,
    bending_before_stability,
    compression_before_stability,
)
from bolewright.timber.bending import (
    BendingCase,
    beam_stability_factor,
    bending_stress,
    critical_buckling_bending,
    effective_length,
    effective_length_coefficients,
    slenderness_ratio,
)
from bolewright.timber.columns import (
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
    effective_column_length,
)
from bolewright.timber.combined import eccentric_compression, tension_stress
from bolewright.timber.net_section import (
    holes_in_one_section,
    net_area,
    net_modulus_along_holes,
    net_modulus_of_row,
)
from bolewright.timber.shear import shear_stress
from bolewright.units import NONE, PSI

BOTH_NOTE = (
    "A post in the ground is looked at with its foot held, and in ground that gives: hinged at grade under knees, half "
    "as stiff without (judgement, engineer to confirm). The worse counts."
)
STIFFNESS_NOTE = "The stiffness of the post is worked out on the sheet of posts, under thrust and sway."
SHEAR_NOTE = (
    "Below grade the post alone takes the shear, as a stiff pole in the soil; the concrete is not counted."
)


def post_sideways_checks(sideways: Sideways) -> list[Check]:
    """Checks of every post under wind and sway."""
    checks: list[Check] = []
    for i, frame in enumerate(sideways.frames):
        if not isinstance(frame, PostFrame):
            continue
        if sideways.loose:
            checks.append(
                not_checked(
                    frame.support.mark,
                    "post.lateral",
                    f"{frame.support.mark} is checked for weight alone: nothing holds the platform "
                    f"{sideways.loose}, so what sway asks of the post is not known.",
                )
            )
            continue
        checks += worse(check for state in sideways.states for check in _post(sideways, state, i, frame))
    return checks


def _post(sideways: Sideways, state: State, i: int, frame: PostFrame) -> list[Check]:
    checks = []
    if frame.braced:
        checks.append(_combined(sideways, state, i, frame, at_knee=True))
        net = _net_compression(sideways, state, i, frame)
        checks += [net] if net else []
        pulled = _net_tension(sideways, state, i, frame)
        checks += [pulled] if pulled else []
    if frame.post.foot == "held":
        checks.append(_combined(sideways, state, i, frame, at_knee=False))
    checks.append(_shear(sideways, state, i, frame, below=False))
    checks.append(_shear(sideways, state, i, frame, below=True))
    return checks


def _moment_in_ground(
    run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int, V: Array
) -> Array:
    """Largest moment in the post below grade, as a stiff pole in the soil (lb·in)."""
    P, h, d = _pole(run, sideways, state, frame, which, V)
    x = largest_post_moment_depth(h, d)
    return np.asarray(12 * run(post_moment_below_grade, P=P, h=h, d=d, x=x), dtype=float)


def _pole(
    run: Run, sideways: Sideways, state: State, frame: PostFrame, which: int, V: Array
) -> tuple[Array, Array, float]:
    """Level force (lb) on a post as a pole, its height above grade and the depth of the hole (ft)."""
    M_g = run_moment_at_grade(run, sideways, state, frame, which, V)
    P = np.maximum(run_foot_force(run, sideways, state, frame, which, V), 1e-6)
    footing = sideways.path.layout.project.footings[frame.support.footing or ""]
    return P, M_g / P / 12, embedded_depth(footing) / 12


@dataclass(frozen=True)
class _Holes:
    """Bolt holes at a post's knees that count in one section: how many, how wide, and how far off its middle."""

    n: float
    D_h: float
    y: float


def _holes(frame: PostFrame) -> _Holes | None:
    """Holes of the brace's bolts: square to the carrier, upright on the post's middle line."""
    bolted = [
        _Holes(float(holes_in_one_section(own.count, own.spacing, 0.0, own.diameter)), own.hole, 0.0)
        for own in frame.bolts
    ]
    return max(bolted, key=lambda own: own.n * own.D_h, default=None)


def _run_net(run: Run, frame: PostFrame) -> tuple[float, float]:
    """Section moduli of a post at its knees along and across the carrier, less the bolt holes."""
    holes = _holes(frame)
    if holes is None:
        return frame.S, frame.S
    b, d = sorted((frame.section.b, frame.section.d))
    along = run(net_modulus_of_row, b=d, d=b, n=holes.n, D_h=holes.D_h, y=holes.y)
    across = run(net_modulus_along_holes, b=b, d=b, n=holes.n, D_h=holes.D_h)
    both = all(axis.knees for axis in frame.axes)
    return float(min(along, across) if both else along), float(across)


def _net_compression(sideways: Sideways, state: State, i: int, frame: PostFrame) -> Check | None:
    """Thrust on what the bolt holes leave at the knee: crushing, without buckling, since the knee holds it there."""
    holes = _holes(frame)
    if holes is None:
        return None
    cases = sideways.cases
    calculation = start(sideways)
    run = calculation.run
    weight = np.maximum(sideways.most[i], 0.0) + post_weight(sideways.path, frame.support) * cases.D
    P = np.maximum(run_load(run, state, i, weight, foot=True), 0.0)
    b, d = sorted((frame.section.b, frame.section.d))
    f_c = run(compression_stress, P=P, A=run(net_area, b=d, d=b, n=holes.n, D_h=holes.D_h))
    F_c_star = run(
        compression_before_stability, F_c=frame.values.F_c, C_D=cases.C_D, **frame.factors.compression
    )
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="post.net_section",
        demand=f_c,
        capacity=F_c_star,
        unit=PSI,
        says="thrust on what the bolt holes leave",
    )


def _net_tension(sideways: Sideways, state: State, i: int, frame: PostFrame) -> Check | None:
    """Uplift on what the bolt holes leave at the knee."""
    holes = _holes(frame)
    if holes is None:
        return None
    calculation = start(sideways)
    run = calculation.run
    P = run_load(run, state, i, sideways.least[i], foot=True)
    b, d = sorted((frame.section.b, frame.section.d))
    f_t = run(tension_stress, T=np.maximum(-P, 0.0), A_n=run(net_area, b=d, d=b, n=holes.n, D_h=holes.D_h))
    F_t_p = run(adjusted_tension, F_t=frame.values.F_t, C_D=sideways.cases.C_D, **frame.factors.tension)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="post.net_tension",
        demand=f_t,
        capacity=F_t_p,
        unit=PSI,
        says="uplift on what the bolt holes leave",
    )


def run_off_line(run: Run, sideways: Sideways, mark: str, e: float) -> float:
    """Eccentricity of a post's load with what the post stands off its carrier's line (in)."""
    off = sideways.path.layout.off_line(mark)
    return float(run(off_line_sum, e_0=e, o=off)) if off else e


def _combined(sideways: Sideways, state: State, i: int, frame: PostFrame, *, at_knee: bool) -> Check:
    """Thrust, two-way bending and eccentricity, at the knee or where the moment in the ground is largest.

    Axis 1 of the NDS is bending in the plane across the carrier, with the eccentricity; axis 2 along it.
    """
    cases, mark = sideways.cases, frame.support.mark
    calculation = start(sideways)
    run = calculation.run
    moments = []
    for which in (0, 1):
        V = run_level_force(run, sideways, state, i, which, full=at_knee or not frame.braced)
        moments.append(
            run_moment_at_knee(run, sideways, state, frame, which, V)
            if at_knee
            else _moment_in_ground(run, sideways, state, frame, which, V)
        )
    weight = np.maximum(sideways.most[i], 0.0) + post_weight(sideways.path, frame.support) * cases.D
    P = np.maximum(run_load(run, state, i, weight, foot=True), 0.0)
    d, b = max(frame.section.b, frame.section.d), min(frame.section.b, frame.section.d)
    l = frame.h + FIXITY
    E_min_p = run(adjusted_minimum_modulus, E_min=frame.values.E_min, **frame.factors.modulus)
    l_e = run(effective_column_length, K_e=frame.post.K_e, l=l)
    F_cE = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l_e, d=b)
    F_c_star = run(
        compression_before_stability, F_c=frame.values.F_c, C_D=cases.C_D, **frame.factors.compression
    )
    C_P = run(column_stability_factor, F_cE=F_cE, F_c_star=F_c_star, c=SAWN)
    F_c_p = run(
        adjusted_compression, F_c=frame.values.F_c, C_D=cases.C_D, C_P=C_P, **frame.factors.compression
    )
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, l, d)
    l_b = run(effective_length, l_u=l, d=d, k_l=k_l, k_d=k_d)
    F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=run(slenderness_ratio, l_e=l_b, d=d, b=b))
    C_L: float | Array = 1.0
    if d > b:
        F_b_star = run(
            bending_before_stability, F_b=frame.values.F_b, C_D=cases.C_D, **frame.factors.bending_star
        )
        C_L = run(beam_stability_factor, F_bE=F_bE, F_b_star=F_b_star)
    F_b_p = run(adjusted_bending, F_b=frame.values.F_b, C_D=cases.C_D, C_L=C_L, **frame.factors.bending)
    S_2, S_1 = _run_net(run, frame) if at_knee else (frame.S, frame.S)
    f_c = run(compression_stress, P=P, A=frame.section.A)
    f_b2 = run(bending_stress, M=moments[0], S=S_2)
    f_b1 = run(bending_stress, M=moments[1], S=S_1)
    e_1 = run_off_line(run, sideways, mark, frame.post.eccentricity)
    ratio = run(
        eccentric_compression,
        f_c=f_c,
        F_c_p=F_c_p,
        F_cE1=F_cE,
        F_cE2=F_cE,
        f_b1=f_b1,
        F_b1_p=F_b_p,
        f_b2=f_b2,
        F_b2_p=F_b_p,
        F_bE=F_bE,
        e_1=e_1,
        d_1=b,
        e_2=0.0,
        d_2=b,
    )
    place = "at the knee" if at_knee else "in the ground"
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        key="post.at_knee" if at_knee else "post.in_ground",
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        says=f"thrust with bending both ways {place}",
        nothing="it buckles under the weight on it alone; a thicker or shorter post, or one held at its top, is wanted",
        notes=(*((BOTH_NOTE,) if len(sideways.states) > 1 else ()), *((TEE_NOTE,) if frame.tee else ())),
    )


def _shear(sideways: Sideways, state: State, i: int, frame: PostFrame, *, below: bool) -> Check:
    """Shear between knee and cap, or at and below grade; resultant of both directions."""
    calculation = start(sideways)
    run = calculation.run
    V = []
    for which in (0, 1):
        if not below:
            V.append(run_cap_force(run, sideways, state, i, frame, which))
            continue
        top = run_level_force(run, sideways, state, i, which)
        if frame.post.foot == "held":
            P, h, d = _pole(run, sideways, state, frame, which, top)
            V.append(run(post_shear_below_grade, P=P, h=h, d=d))
        else:
            V.append(run_foot_force(run, sideways, state, frame, which, top))
    shear = run(resultant_level_force, V_1=V[0], V_2=V[1])
    f_v = run(shear_stress, V=shear, b=frame.section.b, d=frame.section.d)
    F_v_p = run(adjusted_shear, F_v=frame.values.F_v, C_D=sideways.cases.C_D, **frame.factors.shear)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="post.shear_below" if below else "post.shear",
        at=" above the knee" if frame.braced and not below else "",
        demand=f_v,
        capacity=F_v_p,
        unit=PSI,
        says="shear at and below grade" if below else "shear at its top",
        notes=(SHEAR_NOTE,) if below else (),
    )
