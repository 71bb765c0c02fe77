"""Posts under wind and sway: thrust with bending at the knee and in the ground, and shear."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from bolewright.bracing.beam import off_line_sum
from bolewright.bracing.standing import resultant_lateral_force
from bolewright.ground.embedded_post import (
    largest_post_moment_depth,
    post_moment_below_grade,
    post_shear_below_grade,
)
from bolewright.platform.analysis.embedded import embedded_depth
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_supports import PostFrame
from bolewright.platform.analysis.post_values import post_weight
from bolewright.platform.checks.lateral import (
    SLACK_NOTE,
    Load,
    Run,
    judge_lateral,
    run_lateral_force,
    run_load,
    start,
    weight_on,
    worse,
)
from bolewright.platform.checks.post_forces import (
    run_cap_force,
    run_foot_force,
    run_moment_at_grade,
    run_moment_at_knee,
    run_moment_at_rods,
)
from bolewright.platform.checks.posts import SAWN
from bolewright.platform.layout.tees import FIXITY, TEE_NOTE
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
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
    HOLE_CLEARANCE,
    holes_in_one_section,
    net_area,
    net_area_at_rods,
    net_modulus_along_holes,
    net_modulus_at_rods,
    net_modulus_of_row,
)
from bolewright.timber.shear import shear_stress
from bolewright.units import NONE, PSI

BOTH_NOTE = (
    "A post in the ground is looked at with its base fixed, and in ground that gives: hinged at grade under knees, "
    "half "
    "as stiff without (judgement, engineer to confirm). The worse counts."
)
STIFFNESS_NOTE = (
    "The stiffness of the post is worked out on the sheet of posts, under combined axial load and bending."
)
SHEAR_NOTE = (
    "Below grade the post alone takes the shear, as a stiff pole in the soil; the concrete is not counted."
)


ROD_NOTE = (
    "The post is held at its base and at the crossed rod that is stretched; of each pair the other rod is slack. At "
    "each end of a rod the net section counts, with a hole 1/16 in. wider than the rod along both sides of the post "
    "(NDS 2018, 3.1.2, 12.1.3.2), as if the larger moment and all of the weight met there: keep rods and the bolts of "
    "their ends on the middle line, and no thicker than the rod."
)


class _Place(StrEnum):
    """Where thrust and bending are looked at together."""

    KNEE = "at the knee"
    RODS = "at the crossed rods"
    GROUND = "in the ground"


_AT_KNEE = (True, False)  # a post's load at its foot and at its cap: the knee passes the rest between them
_KEYS = {_Place.KNEE: "post.at_knee", _Place.RODS: "post.at_rods", _Place.GROUND: "post.in_ground"}
_MOMENTS = {_Place.KNEE: run_moment_at_knee, _Place.RODS: run_moment_at_rods}


def post_lateral_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every post under wind and sway."""
    checks: list[Check] = []
    for i, frame in enumerate(lateral.frames):
        if not isinstance(frame, PostFrame):
            continue
        if lateral.loose:
            checks.append(
                not_checked(
                    frame.support.mark,
                    "post.lateral",
                    f"{frame.support.mark} is checked for weight alone: nothing holds the platform "
                    f"{lateral.loose}, so what sway asks of the post is not known.",
                )
            )
            continue
        checks += worse(check for state in lateral.states for check in _post(lateral, state, i, frame))
    return checks


def _post(lateral: LateralAnalysis, state: State, i: int, frame: PostFrame) -> list[Check]:
    checks = []
    if frame.braced:
        for foot in _AT_KNEE:
            for load in weight_on(lateral, i, most=True, foot=foot):
                net = _net_compression(lateral, state, i, frame, load, foot=foot)
                checks += [net] if net else []
        for load in weight_on(lateral, i, most=False, foot=True):
            pulled = _net_tension(lateral, state, i, frame, load)
            checks += [pulled] if pulled else []
    places = {
        _Place.KNEE: frame.braced,
        _Place.RODS: frame.has_rods,
        _Place.GROUND: frame.post.base == "fixed",
    }
    checks += [
        _combined(lateral, state, i, frame, place, load, foot=foot)
        for place, there in places.items()
        if there
        for foot in (_AT_KNEE if place is _Place.KNEE else (True,))
        for load in weight_on(lateral, i, most=True, foot=foot)
    ]
    checks.append(_shear(lateral, state, i, frame, below=False))
    checks.append(_shear(lateral, state, i, frame, below=True))
    return checks


def _moment_in_ground(
    run: Run,
    lateral: LateralAnalysis,
    state: State,
    frame: PostFrame,
    which: int,
    V: Array,
    *,
    slack: bool = False,
) -> Array:
    """Largest moment in the post below grade, as a stiff pole in the soil (lb·in)."""
    P, h, d = _pole(run, lateral, state, frame, which, V, slack=slack)
    x = largest_post_moment_depth(h, d)
    return np.asarray(12 * run(post_moment_below_grade, P=P, h=h, d=d, x=x), dtype=float)


def _pole(
    run: Run,
    lateral: LateralAnalysis,
    state: State,
    frame: PostFrame,
    which: int,
    V: Array,
    *,
    slack: bool = False,
) -> tuple[Array, Array, float]:
    """Lateral force (lb) on a post as a pole, its height above grade and the depth of the hole (ft)."""
    M_g = run_moment_at_grade(run, lateral, state, frame, which, V, slack=slack)
    P = np.maximum(run_foot_force(run, lateral, state, frame, which, V, slack=slack), 1e-6)
    footing = lateral.path.layout.project.footings[frame.support.footing or ""]
    return P, M_g / P / 12, embedded_depth(footing) / 12


@dataclass(frozen=True)
class _Holes:
    """Bolt holes at a post's knees that count in one section: how many, how wide, and how far off its middle."""

    n: float
    D_h: float
    y: float


def _holes(frame: PostFrame) -> _Holes | None:
    """Holes of the brace's bolts: square to the beam, upright on the post's middle line."""
    bolted = [
        _Holes(float(holes_in_one_section(own.count, own.spacing, 0.0, own.diameter)), own.hole, 0.0)
        for own in frame.bolts
    ]
    return max(bolted, key=lambda own: own.n * own.D_h, default=None)


def _rod_hole(frame: PostFrame) -> float:
    """Diameter of the widest hole of a rod through a post (in)."""
    return max(axis.rod.rods.diameter for axis in frame.axes if axis.rod is not None) + HOLE_CLEARANCE[1]


def _run_net(run: Run, frame: PostFrame) -> tuple[float, float]:
    """Section moduli of a post at its knees along and across the beam, less the bolt holes."""
    holes = _holes(frame)
    if holes is None:
        return frame.S, frame.S
    b, d = sorted((frame.section.b, frame.section.d))
    along = run(net_modulus_of_row, b=d, d=b, n=holes.n, D_h=holes.D_h, y=holes.y)
    across = run(net_modulus_along_holes, b=b, d=b, n=holes.n, D_h=holes.D_h)
    both = all(axis.knees for axis in frame.axes)
    return float(min(along, across) if both else along), float(across)


def _net_compression(
    lateral: LateralAnalysis, state: State, i: int, frame: PostFrame, load: Load, *, foot: bool
) -> Check | None:
    """Compression on the net section at the knee: crushing, without buckling, since the knee holds it there."""
    holes = _holes(frame)
    if holes is None:
        return None
    cases = lateral.cases
    calculation = start(lateral)
    run = calculation.run
    on_it, slack = load
    weight = np.maximum(on_it, 0.0) + post_weight(lateral.path, frame.support) * cases.D
    P = np.maximum(run_load(run, state, i, weight, foot=foot, slack=slack), 0.0)
    b, d = sorted((frame.section.b, frame.section.d))
    f_c = run(compression_stress, P=P, A=run(net_area, b=d, d=b, n=holes.n, D_h=holes.D_h))
    F_c_star = run(
        compression_before_stability, F_c=frame.values.F_c, C_D=cases.C_D, **frame.factors.compression
    )
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="post.net_section",
        demand=f_c,
        capacity=F_c_star,
        unit=PSI,
        says="compression on the net section at its bolts",
        slack=slack,
    )


def _net_tension(
    lateral: LateralAnalysis, state: State, i: int, frame: PostFrame, load: Load
) -> Check | None:
    """Tension on the net section at the knee."""
    holes = _holes(frame)
    if holes is None:
        return None
    calculation = start(lateral)
    run = calculation.run
    weight, slack = load
    P = run_load(run, state, i, weight, foot=True, slack=slack)
    b, d = sorted((frame.section.b, frame.section.d))
    f_t = run(tension_stress, T=np.maximum(-P, 0.0), A_n=run(net_area, b=d, d=b, n=holes.n, D_h=holes.D_h))
    F_t_p = run(adjusted_tension, F_t=frame.values.F_t, C_D=lateral.cases.C_D, **frame.factors.tension)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="post.net_tension",
        demand=f_t,
        capacity=F_t_p,
        unit=PSI,
        says="tension on the net section at its bolts",
        slack=slack,
    )


def run_off_line(run: Run, lateral: LateralAnalysis, mark: str, e: float) -> float:
    """Eccentricity of a post's load with what the post stands off its beam's line (in)."""
    off = lateral.path.layout.off_line(mark)
    return float(run(off_line_sum, e_0=e, o=off)) if off else e


def _combined(
    lateral: LateralAnalysis,
    state: State,
    i: int,
    frame: PostFrame,
    place: _Place,
    load: Load,
    *,
    foot: bool,
) -> Check:
    """Thrust, two-way bending and eccentricity, at the knee, at the rods, or where the moment in the ground is largest.

    The thrust is that at the foot, or at the cap: a pulled knee presses its beam on the cap and lifts the post below.

    Axis 1 of the NDS is bending in the plane across the beam, with the eccentricity; axis 2 along it.
    """
    cases, mark = lateral.cases, frame.support.mark
    calculation = start(lateral)
    run = calculation.run
    moments = []
    for which in (0, 1):
        full = place is not _Place.GROUND or not (frame.braced or frame.has_rods)
        V = run_lateral_force(run, lateral, state, i, which, full=full)
        moment = _MOMENTS.get(place, _moment_in_ground)
        moments.append(moment(run, lateral, state, frame, which, V, slack=load[1]))
    on_it, slack = load
    weight = np.maximum(on_it, 0.0) + post_weight(lateral.path, frame.support) * cases.D
    P = np.maximum(run_load(run, state, i, weight, foot=foot, slack=slack), 0.0)
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
    S_2, S_1, A = frame.S, frame.S, frame.section.A
    if place is _Place.KNEE:
        S_2, S_1 = _run_net(run, frame)
    if place is _Place.RODS:
        S_2 = S_1 = run(net_modulus_at_rods, b=d, d=b, D_h=_rod_hole(frame))
        A = run(net_area_at_rods, b=b, d=d, D_h=_rod_hole(frame))
    f_c = run(compression_stress, P=P, A=A)
    f_b2 = run(bending_stress, M=moments[0], S=S_2)
    f_b1 = run(bending_stress, M=moments[1], S=S_1)
    e_1 = run_off_line(run, lateral, mark, frame.post.eccentricity)
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
    return judge_lateral(
        calculation,
        lateral,
        state,
        mark,
        key=_KEYS[place],
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        says=f"combined axial load and biaxial bending {place.value}",
        nothing="it buckles under the weight on it alone; a thicker or shorter post, or one held at its top, is wanted",
        notes=(
            *((BOTH_NOTE,) if len(lateral.states) > 1 else ()),
            *((TEE_NOTE,) if frame.tee else ()),
            *((ROD_NOTE,) if frame.has_rods else ()),
            *((SLACK_NOTE,) if frame.braced else ()),
        ),
        slack=slack,
    )


def _shear(lateral: LateralAnalysis, state: State, i: int, frame: PostFrame, *, below: bool) -> Check:
    """Shear between knee and cap, or at and below grade; resultant of both directions."""
    calculation = start(lateral)
    run = calculation.run
    V = []
    for which in (0, 1):
        if not below:
            V.append(run_cap_force(run, lateral, state, i, frame, which))
            continue
        top = run_lateral_force(run, lateral, state, i, which)
        if frame.post.base == "fixed":
            P, h, d = _pole(run, lateral, state, frame, which, top)
            V.append(run(post_shear_below_grade, P=P, h=h, d=d))
        else:
            V.append(run_foot_force(run, lateral, state, frame, which, top))
    shear = run(resultant_lateral_force, V_1=V[0], V_2=V[1])
    f_v = run(shear_stress, V=shear, b=frame.section.b, d=frame.section.d)
    F_v_p = run(adjusted_shear, F_v=frame.values.F_v, C_D=lateral.cases.C_D, **frame.factors.shear)
    return judge_lateral(
        calculation,
        lateral,
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
