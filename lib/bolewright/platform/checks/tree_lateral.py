"""Tree bolts under wind, sway and the trunk's own movement."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.standing import resultant_lateral_force
from bolewright.bracing.tie import LEAST_HOLD_DOWN, lever_of_sliding, moment_off_axis, resultant_moment
from bolewright.mechanics.ties import least_of, most_of
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import ACROSS_NOTE, run_bolt_stiffness
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.checks.caps import uplift_against_tie
from bolewright.platform.checks.lateral import (
    Load,
    Run,
    judge_lateral,
    run_apart,
    run_lateral_force,
    run_load,
    start,
    unprinted,
    weight_on,
    worse,
)
from bolewright.platform.checks.tree_bolts import (
    ACROSS,
    RIGID_SEAT_NOTE,
    SHARED_NOTE,
    deepest_moment,
    kappa_note,
    run_foundation_modulus,
)
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.tree.bolt import (
    angle_factor,
    bearing_reference_load,
    bearing_yield,
    dowel_yield_moment,
    dowel_yield_strength,
    hinge_reference_load,
    hinge_yield,
    load_angle,
    resultant_load,
    rotation_reference_load,
    rotation_yield,
    tree_bolt_adjusted_load,
)
from bolewright.tree.embedment import (
    PLAUSIBLE_KAPPA,
    STEEL_MODULUS,
    bolt_moment_at,
    characteristic_length,
)
from bolewright.tree.green_wood import (
    bearing_per_length,
    trunk_bearing_at_angle,
    trunk_bearing_parallel,
    trunk_bearing_perpendicular,
)
from bolewright.tree.steel import bolt_moment_first_yield
from bolewright.tree.withdrawal import tree_bolt_withdrawal
from bolewright.units import POUND, POUND_INCH

RATED = "Rated load, entered by the user"
HOLD_DOWN_CLIP_NOTE = (
    "Whatever the calculation says, a bearing in a tree gets a hold-down clip for 200 lb (common "
)
"practice)."


def tree_lateral_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of every tree bolt and trunk under lateral loads."""
    checks: list[Check] = []
    for i, frame in enumerate(lateral.frames):
        if not isinstance(frame, BoltFrame):
            continue
        mark = frame.support.mark
        if frame.support.lateral is None and not frame.braces and not lateral.loose:
            checks.append(
                not_checked(
                    mark,
                    "tree_bolt.held_lateral",
                    f'{mark}: say how its bearing meets a lateral force, lateral = "tied", "slides", "slides across" '
                    "or "
                    '"floats"; until then it holds nothing laterally.',
                )
            )
        if not lateral.loose:
            checks += worse(
                check
                for state in lateral.states
                for load in weight_on(lateral, i, most=True, foot=True)
                for check in _bolt(lateral, state, i, frame, load)
            )
            checks += [_side(lateral, i, frame), _hold_down_clip(lateral, i, frame)]
    return checks


def lever_checks_lateral(lateral: LateralAnalysis, i: int, frame: BoltFrame) -> list[Check]:
    """The checks of a tree bolt with wind and sway that hang on its lever arm."""
    return worse(
        check
        for state in lateral.states
        for load in weight_on(lateral, i, most=True, foot=True)
        for check in (
            *(_steel(lateral, state, i, frame, load, kappa) for kappa in PLAUSIBLE_KAPPA),
            _wood(lateral, state, i, frame, load),
        )
    )


def _bolt(lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame, load: Load) -> list[Check]:
    checks = [
        *(_steel(lateral, state, i, frame, load, kappa) for kappa in PLAUSIBLE_KAPPA),
        _wood(lateral, state, i, frame, load),
        _pull(lateral, state, i, frame),
    ]
    rated = frame.placed.bolt.rated_load
    mark, key = frame.support.mark, "tree_bolt.rated_lateral"
    if rated is None:
        checks.append(not_checked(mark, key, f"{mark} has no rated load for its load with wind and sway."))
    else:
        checks.append(_rated(lateral, state, i, frame, load, rated))
    return checks


def run_down(run: Run, state: State, i: int, load: Load) -> Array:
    """Greatest load down on a tree bolt in every case (lb), the knees of its beam tight or with slack."""
    weight, slack = load
    return np.maximum(run_load(run, state, i, np.maximum(weight, 0.0), foot=False, slack=slack), 0.0)


def run_across(run: Run, lateral: LateralAnalysis, state: State, i: int, *, full: bool = False) -> Array:
    """Lateral force across a tree bolt in every case (lb)."""
    return np.abs(run_lateral_force(run, lateral, state, i, 1, full=full))


def run_lever(run: Run, lateral: LateralAnalysis, i: int, frame: BoltFrame) -> float:
    """Lever arm with a sliding bearing at its worst: out by how far it moves, or by the slide entered if more."""
    if held_ways(frame.support.lateral)[0]:
        return frame.placed.e
    moved = max(
        lateral.sway[frame.tree.mark] or 0.0,
        *(float(np.abs(run_apart(unprinted(), lateral, state, i, 0)).max()) for state in lateral.apart),
    )
    return float(run(lever_of_sliding, e=frame.placed.e, s_u=moved, s_l=frame.placed.bolt.slide))


def _steel(
    lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame, load: Load, kappa: float
) -> Check:
    bolt = frame.placed.bolt
    D, L = bolt.diameter, bolt.embedment
    calculation = start(lateral)
    run = calculation.run
    e = run_lever(run, lateral, i, frame)
    moments = []
    for across, force in (
        (False, run_down(run, state, i, load)),
        (True, run_across(run, lateral, state, i, full=True)),
    ):
        k_0 = run_foundation_modulus(run, frame.wood.MOE, D, kappa, across=across)
        l_c = run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
        x = deepest_moment(e, L, D, float(l_c))
        moments.append(run(bolt_moment_at, P=force, e=e, L=L, l_c=l_c, x=x))
    H = run_lateral_force(run, lateral, state, i, 0)
    z_s = bolt.seat_rise if bolt.seat_rise is not None else D / 2
    M_u = run(moment_off_axis, M_v=moments[0], H=H, z_s=z_s)
    M = run(resultant_moment, M_v=M_u, M_h=moments[1])
    M_a = run(bolt_moment_first_yield, F_y=bolt.F_y, D_r=D)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="tree_bolt.steel_biaxial",
        demand=M,
        capacity=M_a,
        unit=POUND_INCH,
        says="bending of the bolt down and across",
        slack=load[1],
        notes=(RIGID_SEAT_NOTE, ACROSS_NOTE, kappa_note(kappa), SHARED_NOTE),
    )


def _wood(lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame, load: Load) -> Check:
    """Rotation or a hinge in the green wood under the resultant, at its angle to the grain."""
    bolt, wood = frame.placed.bolt, frame.wood
    D, L = bolt.diameter, bolt.embedment
    calculation = start(lateral)
    run = calculation.run
    e = run_lever(run, lateral, i, frame)
    P_v, P_h = run_down(run, state, i, load), run_across(run, lateral, state, i)
    P = run(resultant_load, P_v=P_v, P_h=P_h)
    theta: Array = np.asarray(load_angle(P_v, P_h))  # type: ignore[arg-type]  # elementwise by numpy
    F_e_par = run(trunk_bearing_parallel, G_b=wood.G_green, F_cg=wood.C_par)
    F_e_perp = run(trunk_bearing_perpendicular, G_b=wood.G_green, D=D)
    F_e = run(trunk_bearing_at_angle, F_e_par=F_e_par, F_e_perp=F_e_perp, theta=theta)
    q = run(bearing_per_length, F_e=F_e, D=D)
    K_theta = run(angle_factor, theta=np.maximum(theta, ACROSS[bolt.seat]))
    Z_I = run(bearing_reference_load, P_I=run(bearing_yield, q=q, L=L), K_theta=K_theta)
    Z_II = run(rotation_reference_load, P_II=run(rotation_yield, q=q, L=L, e=e), K_theta=K_theta)
    M_y = run(dowel_yield_moment, F_yb=run(dowel_yield_strength, F_y=bolt.F_y, F_u=bolt.F_u), D_r=D)
    Z_IV = run(hinge_reference_load, P_IV=run(hinge_yield, q=q, e=e, M_y=M_y), K_theta=K_theta)
    Z_p = run(tree_bolt_adjusted_load, Z_I=Z_I, Z_II=Z_II, Z_IV=Z_IV, C_D=lateral.cases.C_D)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="tree_bolt.wood_yield_lateral",
        demand=P,
        capacity=Z_p,
        unit=POUND,
        says="the load down and across",
        slack=load[1],
        notes=(RIGID_SEAT_NOTE,),
    )


def _pull(lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame) -> Check:
    bolt = frame.placed.bolt
    calculation = start(lateral)
    run = calculation.run
    H = np.abs(run_lateral_force(run, lateral, state, i, 0, full=True))
    W = run(
        tree_bolt_withdrawal,
        G_b=frame.wood.G_green,
        D=bolt.diameter,
        p_t=bolt.embedment,
        C_D=lateral.cases.C_D,
    )
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="tree_bolt.withdrawal",
        demand=H,
        capacity=W,
        unit=POUND,
        says="withdrawal",
    )


def _rated(
    lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame, load: Load, rated: float
) -> Check:
    calculation = start(lateral)
    P = run_down(calculation.run, state, i, load)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="tree_bolt.rated_lateral",
        demand=P,
        capacity=rated,
        unit=POUND,
        says="the load on the bolt with wind and sway",
        slack=load[1],
    )


def _side(lateral: LateralAnalysis, i: int, frame: BoltFrame) -> Check:
    """Lateral force through the bracket, against the rated side load that the user entered."""
    mark, rated = frame.support.mark, frame.placed.bolt.rated_lateral
    worst = []
    for state in lateral.states:
        calculation = start(lateral)
        run = calculation.run
        V = [run_lateral_force(run, lateral, state, i, which) for which in (0, 1)]
        worst.append((state, calculation, run(resultant_lateral_force, V_1=V[0], V_2=V[1])))
    state, calculation, H = most_of(worst, lambda item: float(item[2].max()))
    if rated is None:
        return not_checked(
            mark,
            "tree_bolt.bracket_lateral",
            f"The bracket on {mark} passes up to {H.max():,.0f} lb lateral: enter its rated side load as "
            "rated_lateral.",
        )
    return judge_lateral(
        calculation,
        lateral,
        state,
        mark,
        key="tree_bolt.bracket_lateral",
        demand=H,
        capacity=rated,
        unit=POUND,
        says="the lateral force on the bracket",
    )


def _hold_down_clip(lateral: LateralAnalysis, i: int, frame: BoltFrame) -> Check:
    loads = []
    for state in lateral.states:
        for weight, slack in weight_on(lateral, i, most=False, foot=True):
            calculation = start(lateral)
            R = run_load(calculation.run, state, i, weight, foot=False, slack=slack)
            loads.append((state, calculation, R))
    state, calculation, R = least_of(loads, lambda item: float(item[2].min()))
    return uplift_against_tie(
        lateral,
        state,
        calculation,
        R,
        frame.support.mark,
        "tree_bolt.uplift_lateral",
        frame.support.uplift_tie,
        LEAST_HOLD_DOWN,
    )


def tree_tie_capacity(lateral: LateralAnalysis, mark: str) -> float | None:
    """Sum of the rated side loads of the tied brackets on a tree; None where one is missing."""
    rated = [
        f.placed.bolt.rated_lateral
        for f in lateral.frames
        if isinstance(f, BoltFrame)
        and f.tree.mark == mark
        and any(run_bolt_stiffness(start(lateral).run, f, which) > 0 for which in (0, 1))
    ]
    known = [r for r in rated if r is not None]
    return sum(known) if known and len(known) == len(rated) else None
