"""Tree bolts under lateral load: pressure on green wood at an angle to its grain, thread, nut and washer."""

from __future__ import annotations

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import ACROSS_NOTE
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.checks.lateral import (
    Load,
    judge_lateral,
    run_lateral_force,
    start,
    weight_on,
    worse,
)
from bolewright.platform.checks.tree_bolts import SHARED_NOTE, kappa_note, run_foundation_modulus
from bolewright.platform.checks.tree_lateral import run_across, run_down, run_lever
from bolewright.platform.limit_states.check import Check, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.timber.adjusted_values import adjusted_bearing
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bearing import bearing_area_factor_for
from bolewright.tree.bolt import load_angle, resultant_pressure
from bolewright.tree.embedment import (
    PLAUSIBLE_KAPPA,
    STEEL_MODULUS,
    bolt_pressure,
    characteristic_length,
)
from bolewright.tree.green_wood import trunk_bearing_at_angle
from bolewright.tree.steel import bolt_tension_strength, washer_bearing
from bolewright.tree.working import (
    Property,
    exclusion_value,
    reduction,
    working_value,
    working_value_in_case,
)
from bolewright.units import POUND, PSI

PRESSURE_NOTE = (
    "Along the grain the working value takes the load duration, across it none (ASTM D245; NDS 2018, 2.3.2). Both "
    "pressures are at the face of the sound wood, where they are greatest."
)
NUT_PROOF = 100_000.0  # psi: proof stress of a heavy hex nut, ASTM A563 grade A (from memory)
NUT_NOTE = (
    "Assumed, and to be looked at before it is loaded: a heavy hex nut of full height in the bolt's own thread, of "
    "ASTM A563 grade A at least (proof stress 100 ksi, from memory), which strips later than a bolt of less strength "
    "parts. Thin nuts, tapped plates and threads cut again are not calculated. Its washer bears on the bracket, which "
    "is rated (AISC 360-16, Table J3.2; common practice)."
)


def tree_bolt_service_checks(lateral: LateralAnalysis) -> list[Check]:
    """Pressure, thread and washer of every tree bolt under lateral load."""
    if lateral.loose:
        return []
    checks: list[Check] = []
    for i, frame in enumerate(lateral.frames):
        if isinstance(frame, BoltFrame):
            checks += pressure_checks(lateral, i, frame)
            if held_ways(frame.support.lateral)[0]:
                checks += worse(_thread(lateral, state, i, frame) for state in lateral.states)
                if frame.placed.bolt.seat == "timber":
                    checks += worse(_washer(lateral, state, i, frame) for state in lateral.states)
    return checks


def pressure_checks(lateral: LateralAnalysis, i: int, frame: BoltFrame) -> list[Check]:
    """Pressure on the wood under a tree bolt with wind and sway, down and across."""
    return worse(
        check
        for state in lateral.states
        for load in weight_on(lateral, i, most=True, foot=True)
        for kappa in PLAUSIBLE_KAPPA
        for check in _pressure(lateral, state, i, frame, load, kappa)
    )


def _pressure(
    lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame, load: Load, kappa: float
) -> list[Check]:
    """The resultant at its angle to the grain, and its part across alone, which Hankinson's formula lets past its value
    at small angles.
    """
    bolt, wood = frame.placed.bolt, frame.wood
    D, L = bolt.diameter, bolt.embedment
    calculation = start(lateral)
    run = calculation.run
    e = run_lever(run, lateral, i, frame)
    found = []
    for across, force in (
        (False, run_down(run, state, i, load)),
        (True, run_across(run, lateral, state, i)),
    ):
        k_0 = run_foundation_modulus(run, wood.MOE, D, kappa, across=across)
        l_c = run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
        found.append(run(bolt_pressure, P=force, e=e, L=L, D=D, l_c=l_c, x=0.0))
    p = run(resultant_pressure, p_v=found[0], p_h=found[1])
    theta: Array = np.asarray(load_angle(found[0], found[1]))
    values = []
    for prop, mean in ((Property.CRUSHING, wood.C_par), (Property.PERPENDICULAR, wood.C_perp)):
        cut = reduction(wood, prop)
        X_05 = run(exclusion_value, X=mean, V=cut.variation)
        values.append(run(working_value, X_05=X_05, K=cut.divisor, R_s=1.0))
    along = run(working_value_in_case, F_w=values[0], C_D=lateral.cases.C_D)
    F_w = run(trunk_bearing_at_angle, F_e_par=along, F_e_perp=values[1], theta=theta)
    return [
        judge_lateral(
            calculation.branch(),
            lateral,
            state,
            frame.support.mark,
            key="tree_bolt.wood_pressure_lateral",
            demand=demand,
            capacity=capacity,
            unit=PSI,
            says=f"the pressure at the face of the sound wood, {way},",
            notes=(ACROSS_NOTE, kappa_note(kappa), SHARED_NOTE, PRESSURE_NOTE),
            slack=load[1],
        )
        for demand, capacity, way in (
            (p, F_w, "down and across"),
            (found[1], values[1], "across the grain alone"),
        )
    ]


def _along(lateral: LateralAnalysis, state: State, i: int, calculation: Calculation) -> Array:
    return np.abs(run_lateral_force(calculation.run, lateral, state, i, 0))


def _thread(lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame) -> Check:
    bolt, mark = frame.placed.bolt, frame.support.mark
    if bolt.F_u >= NUT_PROOF:
        reason = (
            f"{mark} has steel of {bolt.F_u / 1000:g} ksi: a heavy hex nut of ASTM A563 grade A (100 ksi) may strip "
            "before the bolt parts; an engineer must name the nut."
        )
        return not_checked(mark, "tree_bolt.thread", reason)
    calculation = start(lateral)
    T = _along(lateral, state, i, calculation)
    T_a = calculation.run(bolt_tension_strength, F_u=bolt.F_u, D_r=bolt.tail_diameter or bolt.diameter)
    return judge_lateral(
        calculation,
        lateral,
        state,
        frame.support.mark,
        key="tree_bolt.thread",
        demand=T,
        capacity=T_a,
        unit=POUND,
        says="tension in the thread of its nut",
        notes=(NUT_NOTE,),
    )


def _washer(lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame) -> Check:
    """Washer on the timber that bears on the bolt: across its grain."""
    bolt, mark = frame.placed.bolt, frame.support.mark
    if bolt.washer is None:
        reason = f"{mark} is tied: enter washer, the diameter of the washer under its nut, which bears on the timber."
        return not_checked(mark, "tree_bolt.washer", reason)
    layout = lateral.path.layout
    member, seat = layout.on_support(mark)[0]
    effects = lateral.path.effects[member.mark]
    group = factors(effects.values, Service(wet=member.timber.wet, incised=member.timber.counts_incised))
    start_at, end_at = (cut.at for cut in member.cuts)
    to_end = min(seat.at - start_at, end_at - seat.at) - bolt.washer / 2
    calculation = start(lateral)
    run = calculation.run
    T = _along(lateral, state, i, calculation)
    f = run(washer_bearing, T=T, D_w=bolt.washer, D_h=bolt.diameter)
    C_b = float(bearing_area_factor_for(bolt.washer, to_end))
    F = run(adjusted_bearing, F_c_perp=effects.values.F_c_perp, C_b=C_b, **group.bearing)
    return judge_lateral(
        calculation,
        lateral,
        state,
        mark,
        key="tree_bolt.washer",
        demand=f,
        capacity=F,
        unit=PSI,
        says="pressure of the washer on the timber",
    )
