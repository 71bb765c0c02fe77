"""Tree bolts under wind, sway and the stem's own movement."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.standing import resultant_level_force
from bolewright.bracing.tie import LEAST_KEEPER, moment_off_axis, resultant_moment
from bolewright.mechanics.ties import least_of, most_of
from bolewright.platform.check import Check, not_checked
from bolewright.platform.checks.caps import uplift_against_tie
from bolewright.platform.checks.level import (
    Run,
    judge_level,
    run_apart,
    run_level_force,
    run_load,
    start,
    unprinted,
    worse,
)
from bolewright.platform.checks.tree_bolts import ACROSS, RIGID_SEAT_NOTE, deepest_moment
from bolewright.platform.combine import Array
from bolewright.platform.level_stiffness import ACROSS_NOTE, KAPPA_ACROSS, run_bolt_stiffness
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.sideways import Sideways, State
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
    DEFAULT_KAPPA,
    STEEL_MODULUS,
    bolt_moment_at,
    characteristic_length,
    foundation_modulus,
)
from bolewright.tree.green_wood import (
    bearing_per_length,
    stem_bearing_at_angle,
    stem_bearing_parallel,
    stem_bearing_perpendicular,
)
from bolewright.tree.steel import bolt_moment_first_yield
from bolewright.tree.withdrawal import tree_bolt_withdrawal
from bolewright.units import POUND, POUND_INCH

RATED = "Rated load, entered by the user"
KEEPER_NOTE = "Whatever the calculation says, a bearing in a tree gets a keeper for 200 lb (common practice)."


def tree_sideways_checks(sideways: Sideways) -> list[Check]:
    """Checks of every tree bolt and stem under level loads."""
    checks: list[Check] = []
    for i, frame in enumerate(sideways.frames):
        if not isinstance(frame, BoltFrame):
            continue
        mark = frame.support.mark
        if frame.support.sideways is None and not sideways.loose:
            checks.append(
                not_checked(
                    mark,
                    "tree_bolt.held_lateral",
                    f'{mark}: say how its bearing meets a level force, sideways = "tied", "slides" or "floats"; until '
                    "then it holds nothing sideways.",
                )
            )
        if not sideways.loose:
            checks += worse(check for state in sideways.states for check in _bolt(sideways, state, i, frame))
            checks += [_side(sideways, i, frame), _keeper(sideways, i, frame)]
    return checks


def _bolt(sideways: Sideways, state: State, i: int, frame: BoltFrame) -> list[Check]:
    checks = [
        _steel(sideways, state, i, frame),
        _wood(sideways, state, i, frame),
        _pull(sideways, state, i, frame),
    ]
    rated = frame.placed.bolt.rated_load
    mark, key = frame.support.mark, "tree_bolt.rated_lateral"
    if rated is None:
        checks.append(not_checked(mark, key, f"{mark} has no rated load for its load with wind and sway."))
    else:
        checks.append(_rated(sideways, state, i, frame, rated))
    return checks


def run_down(run: Run, sideways: Sideways, state: State, i: int) -> Array:
    """Greatest load down on a tree bolt in every case (lb)."""
    return np.maximum(run_load(run, state, i, np.maximum(sideways.most[i], 0.0), foot=False), 0.0)


def run_across(run: Run, sideways: Sideways, state: State, i: int, *, full: bool = False) -> Array:
    """Lateral force across a tree bolt in every case (lb)."""
    return np.abs(run_level_force(run, sideways, state, i, 1, full=full))


def lever_out(sideways: Sideways, i: int, frame: BoltFrame) -> float:
    """Lever arm with a sliding bearing at its worst: out by how far it moves, or by the slide entered if more."""
    if frame.support.sideways == "tied":
        return frame.placed.e
    moved = max(
        sideways.sway[frame.tree.mark] or 0.0,
        *(float(np.abs(run_apart(unprinted(), sideways, state, i, 0)).max()) for state in sideways.states),
    )
    return frame.placed.e + max(0.0, moved - frame.placed.bolt.slide)


def _steel(sideways: Sideways, state: State, i: int, frame: BoltFrame) -> Check:
    bolt, e = frame.placed.bolt, lever_out(sideways, i, frame)
    D, L = bolt.diameter, bolt.embedment
    calculation = start(sideways)
    run = calculation.run
    moments = []
    for kappa, load in (
        (DEFAULT_KAPPA, run_down(run, sideways, state, i)),
        (KAPPA_ACROSS, run_across(run, sideways, state, i, full=True)),
    ):
        k_0 = run(foundation_modulus, E_g=frame.wood.MOE, D=D, kappa=kappa)
        l_c = run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
        x = deepest_moment(e, L, D, float(l_c))
        moments.append(run(bolt_moment_at, P=load, e=e, L=L, l_c=l_c, x=x))
    H = run_level_force(run, sideways, state, i, 0)
    z_s = bolt.seat_rise if bolt.seat_rise is not None else D / 2
    M_u = run(moment_off_axis, M_v=moments[0], H=H, z_s=z_s)
    M = run(resultant_moment, M_v=M_u, M_h=moments[1])
    M_a = run(bolt_moment_first_yield, F_y=bolt.F_y, D_r=D)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="tree_bolt.steel_biaxial",
        demand=M,
        capacity=M_a,
        unit=POUND_INCH,
        says="bending of the bolt down and across",
        notes=(RIGID_SEAT_NOTE, ACROSS_NOTE),
    )


def _wood(sideways: Sideways, state: State, i: int, frame: BoltFrame) -> Check:
    """Rotation or a hinge in the green wood under the resultant, at its angle to the grain."""
    bolt, wood, e = frame.placed.bolt, frame.wood, lever_out(sideways, i, frame)
    D, L = bolt.diameter, bolt.embedment
    calculation = start(sideways)
    run = calculation.run
    P_v, P_h = run_down(run, sideways, state, i), run_across(run, sideways, state, i)
    P = run(resultant_load, P_v=P_v, P_h=P_h)
    theta: Array = np.asarray(load_angle(P_v, P_h))  # type: ignore[arg-type]  # elementwise by numpy
    F_e_par = run(stem_bearing_parallel, G_b=wood.G_green, F_cg=wood.C_par)
    F_e_perp = run(stem_bearing_perpendicular, G_b=wood.G_green, D=D)
    F_e = run(stem_bearing_at_angle, F_e_par=F_e_par, F_e_perp=F_e_perp, theta=theta)
    q = run(bearing_per_length, F_e=F_e, D=D)
    K_theta = run(angle_factor, theta=np.maximum(theta, ACROSS[bolt.seat]))
    Z_I = run(bearing_reference_load, P_I=run(bearing_yield, q=q, L=L), K_theta=K_theta)
    Z_II = run(rotation_reference_load, P_II=run(rotation_yield, q=q, L=L, e=e), K_theta=K_theta)
    M_y = run(dowel_yield_moment, F_yb=run(dowel_yield_strength, F_y=bolt.F_y, F_u=bolt.F_u), D_r=D)
    Z_IV = run(hinge_reference_load, P_IV=run(hinge_yield, q=q, e=e, M_y=M_y), K_theta=K_theta)
    Z_p = run(tree_bolt_adjusted_load, Z_I=Z_I, Z_II=Z_II, Z_IV=Z_IV, C_D=sideways.cases.C_D)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="tree_bolt.wood_yield_lateral",
        demand=P,
        capacity=Z_p,
        unit=POUND,
        says="the load down and across",
        notes=(RIGID_SEAT_NOTE,),
    )


def _pull(sideways: Sideways, state: State, i: int, frame: BoltFrame) -> Check:
    bolt = frame.placed.bolt
    calculation = start(sideways)
    run = calculation.run
    H = np.abs(run_level_force(run, sideways, state, i, 0, full=True))
    W = run(
        tree_bolt_withdrawal,
        G_b=frame.wood.G_green,
        D=bolt.diameter,
        p_t=bolt.embedment,
        C_D=sideways.cases.C_D,
    )
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="tree_bolt.withdrawal",
        demand=H,
        capacity=W,
        unit=POUND,
        says="pull along the bolt",
    )


def _rated(sideways: Sideways, state: State, i: int, frame: BoltFrame, rated: float) -> Check:
    calculation = start(sideways)
    P = run_down(calculation.run, sideways, state, i)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        key="tree_bolt.rated_lateral",
        demand=P,
        capacity=rated,
        unit=POUND,
        says="the load on the bolt with wind and sway",
    )


def _side(sideways: Sideways, i: int, frame: BoltFrame) -> Check:
    """Level force through the bracket, against the rated side load that the user entered."""
    mark, rated = frame.support.mark, frame.placed.bolt.rated_side
    worst = []
    for state in sideways.states:
        calculation = start(sideways)
        run = calculation.run
        V = [run_level_force(run, sideways, state, i, which) for which in (0, 1)]
        worst.append((state, calculation, run(resultant_level_force, V_1=V[0], V_2=V[1])))
    state, calculation, H = most_of(worst, lambda item: float(item[2].max()))
    if rated is None:
        return not_checked(
            mark,
            "tree_bolt.bracket_lateral",
            f"The bracket on {mark} passes up to {H.max():,.0f} lb sideways: enter its rated side load as rated_side.",
        )
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        key="tree_bolt.bracket_lateral",
        demand=H,
        capacity=rated,
        unit=POUND,
        says="the level force on the bracket",
    )


def _keeper(sideways: Sideways, i: int, frame: BoltFrame) -> Check:
    loads = []
    for state in sideways.states:
        calculation = start(sideways)
        R = run_load(calculation.run, state, i, sideways.least[i], foot=False)
        loads.append((state, calculation, R))
    state, calculation, R = least_of(loads, lambda item: float(item[2].min()))
    return uplift_against_tie(
        sideways,
        state,
        calculation,
        R,
        frame.support.mark,
        "tree_bolt.uplift_lateral",
        frame.support.uplift_tie,
        LEAST_KEEPER,
    )


def tree_tie_capacity(sideways: Sideways, mark: str) -> float | None:
    """Sum of the rated side loads of the tied brackets on a tree; None where one is missing."""
    rated = [
        f.placed.bolt.rated_side
        for f in sideways.frames
        if isinstance(f, BoltFrame)
        and f.tree.mark == mark
        and run_bolt_stiffness(start(sideways).run, f, 1) > 0
    ]
    known = [r for r in rated if r is not None]
    return sum(known) if known and len(known) == len(rated) else None
