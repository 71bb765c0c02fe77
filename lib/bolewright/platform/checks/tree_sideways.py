"""Tree bolts and stems under wind, sway and the stem's own movement."""

from __future__ import annotations

from functools import cache

import numpy as np

from bolewright.bracing.standing import resultant_level_force
from bolewright.bracing.tie import LEAST_KEEPER, resultant_moment
from bolewright.platform.check import Check, Topic, demand_capacity_ratio, not_checked
from bolewright.platform.checks.caps import uplift_against_tie
from bolewright.platform.checks.level import (
    Run,
    judge_level,
    run_level_force,
    run_load,
    start,
    worse,
)
from bolewright.platform.checks.tree_bolts import ACROSS, RIGID_SEAT_NOTE
from bolewright.platform.combine import Array
from bolewright.platform.level_stiffness import ACROSS_NOTE, KAPPA_ACROSS, run_bolt_stiffness
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.sideways import Sideways, State
from bolewright.platform.stem_sway import run_crown_force
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
    largest_moment_depth,
)
from bolewright.tree.green_wood import (
    bearing_per_length,
    stem_bearing_at_angle,
    stem_bearing_parallel,
    stem_bearing_perpendicular,
)
from bolewright.tree.steel import bolt_moment_first_yield
from bolewright.tree.stem import (
    hole_second_moment,
    platform_stem_moment,
    stem_net_area,
    stem_net_section_modulus,
    stem_section_modulus,
    stem_stress,
)
from bolewright.tree.sway import crown_wind_moment
from bolewright.tree.withdrawal import tree_bolt_withdrawal
from bolewright.tree.working import Property, depth_effect, exclusion_value, reduction, working_value
from bolewright.units import POUND, POUND_INCH, PSI

RATED = "Rated load, entered by the user"
KEEPER_NOTE = "Whatever the calculation says, a bearing in a tree gets a keeper for 200 lb (common practice)."
STEM_NOTE = (
    "The stem is taken as thick at its foot as at the bolts, upright, with the holes in the plane of bending; the "
    "weight of the tree above is left out, a small part of the stress."
)


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
                    Topic.TREE_BOLTS,
                    "hold sideways",
                    f'{mark}: say how its bearing meets a level force, sideways = "tied", "slides" or "floats"; until '
                    "then it holds nothing sideways.",
                )
            )
        if not sideways.loose:
            checks += worse(check for state in sideways.states for check in _bolt(sideways, state, i, frame))
            checks += [_side(sideways, i, frame), _keeper(sideways, i, frame)]
    if not sideways.loose:
        trees = dict.fromkeys(f.tree.mark for f in sideways.frames if isinstance(f, BoltFrame))
        for tree in trees:
            checks += _stem(sideways, tree)
    return checks


def _bolt(sideways: Sideways, state: State, i: int, frame: BoltFrame) -> list[Check]:
    checks = [
        _steel(sideways, state, i, frame),
        _wood(sideways, state, i, frame),
        _pull(sideways, state, i, frame),
    ]
    if frame.placed.bolt.rated_load is not None:
        checks.append(_rated(sideways, state, i, frame, frame.placed.bolt.rated_load))
    return checks


@cache
def _largest_depth(e: float, L: float, D: float, l_c: float) -> float:
    return float(largest_moment_depth(1.0, e, L, D, l_c))


def _down(run: Run, sideways: Sideways, state: State, i: int) -> Array:
    return np.maximum(run_load(run, state, i, np.maximum(sideways.most[i], 0.0), foot=False), 0.0)


def _across(run: Run, sideways: Sideways, state: State, i: int, *, full: bool = False) -> Array:
    return np.abs(run_level_force(run, sideways, state, i, 1, full=full))


def _lever(sideways: Sideways, frame: BoltFrame) -> float:
    """Lever arm with a sliding bearing at its worst: out by the sway, or by the slide entered if that is more."""
    if frame.support.sideways == "tied":
        return frame.placed.e
    sway = sideways.sway[frame.tree.mark] or 0.0
    return frame.placed.e + max(0.0, sway - frame.placed.bolt.slide)


def _steel(sideways: Sideways, state: State, i: int, frame: BoltFrame) -> Check:
    bolt, e = frame.placed.bolt, _lever(sideways, frame)
    D, L = bolt.diameter, bolt.embedment
    calculation = start(sideways)
    run = calculation.run
    moments = []
    for kappa, load in (
        (DEFAULT_KAPPA, _down(run, sideways, state, i)),
        (KAPPA_ACROSS, _across(run, sideways, state, i, full=True)),
    ):
        k_0 = run(foundation_modulus, E_g=frame.wood.MOE, D=D, kappa=kappa)
        l_c = run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
        x = _largest_depth(e, L, D, l_c)
        moments.append(run(bolt_moment_at, P=load, e=e, L=L, l_c=l_c, x=x))
    M = run(resultant_moment, M_v=moments[0], M_h=moments[1])
    M_a = run(bolt_moment_first_yield, F_y=bolt.F_y, D_r=D)
    run(demand_capacity_ratio, demand=M, capacity=M_a)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        topic=Topic.TREE_BOLTS,
        limit_state="steel bending both ways",
        demand=M,
        capacity=M_a,
        unit=POUND_INCH,
        clause="AISC 360-16, F11",
        says="bending of the bolt down and across",
        notes=(RIGID_SEAT_NOTE, ACROSS_NOTE),
    )


def _wood(sideways: Sideways, state: State, i: int, frame: BoltFrame) -> Check:
    """Rotation or a hinge in the green wood under the resultant, at its angle to the grain."""
    bolt, wood, e = frame.placed.bolt, frame.wood, _lever(sideways, frame)
    D, L = bolt.diameter, bolt.embedment
    calculation = start(sideways)
    run = calculation.run
    P_v, P_h = _down(run, sideways, state, i), _across(run, sideways, state, i)
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
    run(demand_capacity_ratio, demand=P, capacity=Z_p)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        topic=Topic.TREE_BOLTS,
        limit_state="rotation or hinge at an angle to the grain",
        demand=P,
        capacity=Z_p,
        unit=POUND,
        clause="Statics; AWC TR12; NDS 2018, 12.3.4",
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
    run(demand_capacity_ratio, demand=H, capacity=W)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        topic=Topic.TREE_BOLTS,
        limit_state="pull along the bolt",
        demand=H,
        capacity=W,
        unit=POUND,
        clause="NDS 2018, 12.2.1",
        says="pull along the bolt",
    )


def _rated(sideways: Sideways, state: State, i: int, frame: BoltFrame, rated: float) -> Check:
    calculation = start(sideways)
    P = _down(calculation.run, sideways, state, i)
    calculation.run(demand_capacity_ratio, demand=P, capacity=rated)
    return judge_level(
        calculation,
        sideways,
        state,
        frame.support.mark,
        topic=Topic.TREE_BOLTS,
        limit_state="rated load with wind and sway",
        demand=P,
        capacity=rated,
        unit=POUND,
        clause=RATED,
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
    state, calculation, H = max(worst, key=lambda item: float(item[2].max()))
    if rated is None:
        return not_checked(
            mark,
            Topic.TREE_BOLTS,
            "bracket sideways",
            f"The bracket on {mark} passes up to {H.max():,.0f} lb sideways: enter its rated side load as rated_side.",
            RATED,
        )
    calculation.run(demand_capacity_ratio, demand=H, capacity=rated)
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        topic=Topic.TREE_BOLTS,
        limit_state="bracket sideways",
        demand=H,
        capacity=rated,
        unit=POUND,
        clause=RATED,
        says="the level force on the bracket",
    )


def _keeper(sideways: Sideways, i: int, frame: BoltFrame) -> Check:
    lifts = []
    for state in sideways.states:
        calculation = start(sideways)
        R = run_load(calculation.run, state, i, sideways.least[i], foot=False)
        lifts.append((state, calculation, np.maximum(-R, 0.0)))
    state, calculation, lift = max(lifts, key=lambda item: float(item[2].max()))
    return uplift_against_tie(
        sideways,
        state,
        calculation,
        lift,
        frame.support.mark,
        Topic.TREE_BOLTS,
        frame.support.uplift_tie,
        LEAST_KEEPER,
    )


# ---------------------------------------------------------------------------------------------------------
# Stem


def _stem(sideways: Sideways, mark: str) -> list[Check]:
    tree = next(t for t in sideways.path.layout.project.trees if t.mark == mark)
    checks = worse(
        _stem_check(sideways, state, mark, at_bolts=at_bolts, crown=False)
        for state in sideways.states
        for at_bolts in (True, False)
    )
    if tree.crown_area is None or tree.crown_center is None:
        return [
            *checks,
            not_checked(
                mark,
                Topic.TREE_BOLTS,
                "stem in the wind",
                f"{mark}: enter crown_area and crown_center, so that the stem can be checked with wind in its "
                "crown.",
            ),
        ]
    return checks + worse(
        _stem_check(sideways, state, mark, at_bolts=at_bolts, crown=True)
        for state in sideways.states
        for at_bolts in (True, False)
    )


def _stem_check(sideways: Sideways, state: State, mark: str, *, at_bolts: bool, crown: bool) -> Check:
    """Stem stress from what the platform adds, and with the crown's own wind, at the bolts or at the foot."""
    cases = sideways.cases
    here = [(i, f) for i, f in enumerate(sideways.frames) if isinstance(f, BoltFrame) and f.tree.mark == mark]
    frame = here[0][1]
    tree, bolt = frame.tree, max((f.placed.bolt for _, f in here), key=lambda b: b.diameter)
    down = np.zeros((2, cases.count))
    level = np.zeros((2, cases.count))
    P = np.zeros(cases.count)
    for i, f in here:
        R = np.maximum(sideways.most[i], 0.0) + state.over[i] + state.kick[i]
        P = P + R
        down += np.outer(np.array(f.support.at) - np.array(tree.at), R)
        level += state.springs[i].axes.T @ state.force[i]
    z = 0.0 if at_bolts else frame.level
    d = 2 * frame.placed.r
    calculation = start(sideways)
    run = calculation.run
    a = np.hypot(*down) / np.maximum(P, 1.0)
    M_p = run(platform_stem_moment, P=P[None, :], a=a[None, :], H=np.hypot(*level)[None, :], z=z)
    M = M_p
    if crown:
        F_c = run_crown_force(run, sideways.path, tree)
        height = frame.level if at_bolts else 0.0
        M_c = run(crown_wind_moment, F_c=F_c, z_c=tree.crown_center or 0.0, z=height)
        blows = np.array([0.75 if "0.75(0.6W)" in n else 1.0 if "0.6W" in n else 0.0 for n in cases.names])
        M = M_p + blows * M_c
    if at_bolts:
        holes = float(len(here))
        I_h = run(hole_second_moment, d_h=bolt.diameter, d=d, L_h=bolt.embedment)
        S_n = run(stem_net_section_modulus, d=d, d_c=tree.cavity, a_c=0.0, n_h=holes, I_h=I_h)
        A_n = run(stem_net_area, d=d, d_c=tree.cavity, n_h=holes, d_h=bolt.diameter, L_h=bolt.embedment)
    else:
        S_n = (
            run(stem_section_modulus, d=d)
            if tree.cavity == 0
            else run(stem_net_section_modulus, d=d, d_c=tree.cavity, a_c=0.0, n_h=0.0, I_h=0.0)
        )
        A_n = run(stem_net_area, d=d, d_c=tree.cavity, n_h=0.0, d_h=bolt.diameter, L_h=bolt.embedment)
    f = run(stem_stress, M=M, S_n=S_n, P=P[None, :], A_n=A_n)
    cut = reduction(frame.wood, Property.BENDING)
    X_05 = run(exclusion_value, X=frame.wood.MOR, V=cut.variation)
    F_w = run(working_value, X_05=X_05, K=cut.divisor, R_s=1.0)
    capacity = F_w * run(depth_effect, d=d) * cases.C_D
    run(demand_capacity_ratio, demand=f, capacity=capacity)
    what = "stem in the wind" if crown else "stem, what the platform adds"
    return judge_level(
        calculation,
        sideways,
        state,
        mark,
        topic=Topic.TREE_BOLTS,
        limit_state=what,
        demand=f,
        capacity=capacity,
        unit=PSI,
        clause="Statics; ASTM D2555, D245",
        says="the stress in the stem" + (" with wind in its crown" if crown else " from the platform"),
        notes=(STEM_NOTE, "At the bolts." if at_bolts else "At the foot of the stem."),
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
