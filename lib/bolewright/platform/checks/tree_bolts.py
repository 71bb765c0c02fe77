"""Tree bolts: the steel, the green wood round it, and the maker's rating."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial
from typing import Any

import numpy as np

from bolewright.bracing.beam import off_line_sum
from bolewright.calculation import Calculation
from bolewright.fasteners.dowel_bearing import dowel_bearing_parallel
from bolewright.platform.analysis.bolts import BoltInPlace, bolt_in_place
from bolewright.platform.analysis.lateral_stiffness import SOFTER_ACROSS
from bolewright.platform.checks.lateral import worse
from bolewright.platform.checks.members import CASES, NAMES
from bolewright.platform.checks.posts import support_load
from bolewright.platform.checks.tree_bolt_holes import hole_checks
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Bolt
from bolewright.platform.project.bearing import SupportKind
from bolewright.tree.bolt import (
    angle_factor,
    bearing_reference_load,
    bearing_yield,
    dowel_yield_moment,
    dowel_yield_strength,
    hinge_reference_load,
    hinge_yield,
    rotation_reference_load,
    rotation_yield,
    tree_bolt_adjusted_load,
)
from bolewright.tree.embedment import (
    PLAUSIBLE_KAPPA,
    STEEL_MODULUS,
    bolt_moment_at,
    bolt_pressure,
    bolt_shear_at,
    characteristic_length,
    foundation_modulus,
    foundation_modulus_across,
    largest_moment_depth,
    largest_shear_depth,
)
from bolewright.tree.green_wood import bearing_per_length, trunk_bearing_parallel
from bolewright.tree.seating import lever_arm, slant_entry, sound_radius
from bolewright.tree.steel import bolt_moment_first_yield, bolt_shear_strength
from bolewright.tree.withdrawal import hinge_load_wet_sensitivity
from bolewright.tree.working import Property, exclusion_value, reduction, working_value
from bolewright.units import POUND, POUND_INCH, PSI, feet_inches

RATED = "Rated load, entered by the user"
ACROSS = {"steel bracket": 0.0, "timber": 90.0}  # degrees to the grain of what bears on the bolt
RIGID_SEAT_NOTE = "The bracket is taken as a pin: it passes no moment to the bolt (AWC TR12 with M_s = 0)."


STRONG = (
    150_000.0  # psi, from memory: about the strength of the strongest bolts in common use (ASTM F3125, A490)
)


def strong_steel(bolt: Bolt) -> tuple[str, ...]:
    """A warning where the steel is stronger than that of bolts in common use."""
    if max(bolt.F_y, bolt.F_u) <= STRONG:
        return ()
    return (
        f"F_u of {bolt.F_u:,.0f} psi is beyond {STRONG:,.0f} psi, more than bolts in common use have: steel so hard "
        "can break without warning in wet wood or when galvanized; read the mill certificate again.",
    )


def tree_bolt_checks(path: LoadPath) -> list[Check]:
    """Checks of every tree bolt."""
    checks: list[Check] = []
    bolts = [bolt_in_place(path, s) for s in path.layout.supports if s.kind == SupportKind.TREE_BOLT]
    for placed in bolts:
        P = support_load(path, placed.support.mark)[None, :]
        checks += [*lever_checks(placed, P), *_rated(placed, P)]
        checks += hole_checks(path, placed, bolts)
    return checks


def lever_checks(placed: BoltInPlace, P: Array) -> list[Check]:
    """The checks of a tree bolt that hang on its lever arm, under the weight ``P`` on it in each case (a row, lb)."""
    return [*worse_kappa(partial(_on_springs, placed, P)), *_yield(placed, P)]


def worse_kappa(checks: Callable[[float], list[Check]]) -> list[Check]:
    """Of the checks that hang on kappa those at the worse end of its plausible range.

    The greatest pressure and shear are at one of the ends, and the greatest moment at the other: they rise or fall with
    kappa all the way, or next to nothing.
    """
    return worse(check for kappa in PLAUSIBLE_KAPPA for check in checks(kappa))


def kappa_note(kappa: float) -> str:
    """At which end of its range kappa is taken, in words."""
    least, most = PLAUSIBLE_KAPPA
    wood = "stiffest" if kappa == least else "softest"
    return f"kappa is judgement, plausible from {least:g} to {most:g}: the worse end counts, here the {wood} wood."


def _lever(placed: BoltInPlace, calculation: Calculation) -> float:
    r = calculation.run(sound_radius, C=placed.girth, t_b=placed.tree.bark, t_d=0.0)
    a, D, Delta_e = placed.a, placed.bolt.diameter, 0.0
    if a:
        Delta_e = calculation.run(slant_entry, D=D, r=r, a=a)
    e = calculation.run(lever_arm, x_b=placed.x_b, r=r, a=a, Delta_e=Delta_e, s=placed.bolt.slide)
    return float(calculation.run(off_line_sum, e_0=e, o=placed.off) if placed.off else e)


@cache
def deepest_moment(e: float, L: float, D: float, l_c: float) -> float:
    """Depth in the wood at which the bolt's moment is largest (in); the load does not move it."""
    return float(largest_moment_depth(1.0, e, L, D, l_c))


@cache
def _deepest_shear(e: float, L: float, D: float, l_c: float) -> float:
    return float(largest_shear_depth(1.0, e, L, D, l_c))


SHARED_NOTE = (
    "How bolts and posts share the lateral force is looked at with the wood at all bolts stiffest, and softest: the "
    "row says which. The wood under this bolt alone may be at the other end of the range; the worse of each counts, "
    "on the safe side."
)


def run_foundation_modulus(
    run: Callable[..., Any], E_g: float, D: float, kappa: float, *, across: bool
) -> float:
    """Foundation modulus under a bolt, along the grain or across it (lb/in³)."""
    if across:
        return float(run(foundation_modulus_across, E_g=E_g, D=D, kappa=kappa, n=SOFTER_ACROSS))
    return float(run(foundation_modulus, E_g=E_g, D=D, kappa=kappa))


def _on_springs(placed: BoltInPlace, P: Array, kappa: float) -> list[Check]:
    return [*_steel(placed, P, kappa), *_service_bearing(placed, P, kappa)]


def _steel(placed: BoltInPlace, P: Array, kappa: float) -> list[Check]:
    bolt = placed.bolt
    D, L = bolt.diameter, bolt.embedment
    moment = Calculation(P.shape)
    run = moment.run
    e = _lever(placed, moment)
    k_0 = run(foundation_modulus, E_g=placed.wood.MOE, D=D, kappa=kappa)
    l_c = run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
    x = deepest_moment(e, L, D, float(l_c))
    M = run(bolt_moment_at, P=P, e=e, L=L, l_c=l_c, x=x)
    M_a = run(bolt_moment_first_yield, F_y=bolt.F_y, D_r=D)
    mark = [placed.support.mark]
    checks = judge(
        moment,
        mark,
        NAMES,
        key="tree_bolt.steel_bending",
        demand=M,
        capacity=M_a,
        unit=POUND_INCH,
        says="bending of the bolt inside the wood",
        where=lambda row, column: f"{feet_inches(float(x))} inside the sound wood",
        notes=(RIGID_SEAT_NOTE, kappa_note(kappa), *strong_steel(bolt)),
    )
    shear = Calculation(P.shape)
    l_c = shear.run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
    at = _deepest_shear(e, L, D, float(l_c))
    V = np.abs(shear.run(bolt_shear_at, P=P, e=e, L=L, l_c=l_c, x=at))
    V_a = shear.run(bolt_shear_strength, F_y=bolt.F_y, D_r=D)
    return checks + judge(
        shear,
        mark,
        NAMES,
        key="tree_bolt.steel_shear",
        demand=V,
        capacity=V_a,
        unit=POUND,
        says="shear of the bolt",
        notes=(kappa_note(kappa),),
    )


def _yield(placed: BoltInPlace, P: Array) -> list[Check]:
    """Rotation of the bolt in the wood, and a hinge in it: the yield limits, reduced for allowable stress."""
    bolt, wood = placed.bolt, placed.wood
    calculation = Calculation(P.shape)
    run = calculation.run
    e = _lever(placed, calculation)
    F_e_par = run(trunk_bearing_parallel, G_b=wood.G_green, F_cg=wood.C_par)
    q = run(bearing_per_length, F_e=F_e_par, D=bolt.diameter)
    K_theta = run(angle_factor, theta=ACROSS[bolt.seat])
    Z_I = run(bearing_reference_load, P_I=run(bearing_yield, q=q, L=bolt.embedment), K_theta=K_theta)
    Z_II = run(rotation_reference_load, P_II=run(rotation_yield, q=q, L=bolt.embedment, e=e), K_theta=K_theta)
    F_yb = run(dowel_yield_strength, F_y=bolt.F_y, F_u=bolt.F_u)
    M_y = run(dowel_yield_moment, F_yb=F_yb, D_r=bolt.diameter)
    Z_IV = run(hinge_reference_load, P_IV=run(hinge_yield, q=q, e=e, M_y=M_y), K_theta=K_theta)
    q_dry = run(bearing_per_length, F_e=run(dowel_bearing_parallel, G=wood.G_green), D=bolt.diameter)
    run(hinge_load_wet_sensitivity, q_dry=q_dry, e=e, M_y=M_y, K_theta=K_theta)
    Z_p = run(tree_bolt_adjusted_load, Z_I=Z_I, Z_II=Z_II, Z_IV=Z_IV, C_D=np.array([c.C_D for c in CASES]))
    mode = "rotation of the bolt in the wood" if Z_II <= Z_IV else "a hinge in the bolt"
    return judge(
        calculation,
        [placed.support.mark],
        NAMES,
        key="tree_bolt.wood_yield",
        demand=P,
        capacity=Z_p,
        unit=POUND,
        says=mode,
        where=lambda row, column: f"{mode} governs",
        notes=(RIGID_SEAT_NOTE,),
    )


def _service_bearing(placed: BoltInPlace, P: Array, kappa: float) -> list[Check]:
    """Pressure at the wood's face under service load against a working value of green wood."""
    bolt, wood = placed.bolt, placed.wood
    calculation = Calculation(P.shape)
    run = calculation.run
    D = bolt.diameter
    k_0 = run(foundation_modulus, E_g=wood.MOE, D=D, kappa=kappa)
    l_c = run(characteristic_length, k_0=k_0, D=D, D_r=D, E_s=STEEL_MODULUS)
    p_0 = run(bolt_pressure, P=P, e=placed.e, L=bolt.embedment, D=D, l_c=l_c, x=0.0)
    cut = reduction(wood, Property.CRUSHING)
    X_05 = run(exclusion_value, X=wood.C_par, V=cut.variation)
    F_w = run(working_value, X_05=X_05, K=cut.divisor, R_s=1.0)
    return judge(
        calculation,
        [placed.support.mark],
        NAMES,
        key="tree_bolt.wood_pressure",
        demand=p_0,
        capacity=F_w,
        unit=PSI,
        says="the pressure at the face of the sound wood",
        notes=(kappa_note(kappa),),
    )


def _rated(placed: BoltInPlace, P: Array) -> list[Check]:
    if placed.bolt.rated_load is None:
        reason = (
            f"{placed.support.mark} has no rated load: enter the one on the maker's sheet, or the load that the "
            "engineer who confirms the calculation of the bolt allows on it."
        )
        return [not_checked(placed.support.mark, "tree_bolt.rated", reason)]
    calculation = Calculation(P.shape)
    return judge(
        calculation,
        [placed.support.mark],
        NAMES,
        key="tree_bolt.rated",
        demand=P,
        capacity=placed.bolt.rated_load,
        unit=POUND,
        says="the load on the bolt",
    )
