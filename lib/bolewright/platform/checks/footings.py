"""Footings: pressure on the soil (allowable stress), frost depth, and plain concrete (factored loads)."""

from __future__ import annotations

import math

import numpy as np

from bolewright.calculation import Calculation
from bolewright.ground.concrete import PLAIN_CONCRETE, weight_of_volume
from bolewright.ground.factored_load import factored_load
from bolewright.ground.footing import (
    effective_thickness,
    equal_area_square,
    factored_soil_pressure,
    footing_moment,
    footing_moment_strength,
    footing_shear_one_way,
    footing_shear_strength_one_way,
    footing_shear_strength_two_way,
    footing_shear_two_way,
    pad_limit_states,
)
from bolewright.ground.soil import footing_depth_required, round_footing_area, soil_class, soil_pressure_gross
from bolewright.platform.check import Check, judge, nothing_asked
from bolewright.platform.checks.members import CASES, NAMES
from bolewright.platform.checks.posts import post_timber, post_weight, support_load
from bolewright.platform.combine import envelope
from bolewright.platform.load_path import LoadPath
from bolewright.platform.project import Footing, Support
from bolewright.units import FOOT, INCH, POUND, POUND_INCH, PSF

LEAST_DEPTH = 12.0  # in, IRC R403.1.4
LEAST_PAD = 8.0  # in, ACI 318-19 14.3.2.1
GROSS_NOTE = (
    "Gross pressure: all the concrete is counted and no soil displaced is deducted; the stricter of the two readings "
    "of a presumptive value."
)


def footing_checks(path: LoadPath) -> list[Check]:
    """Checks of the footing under every post."""
    checks: list[Check] = []
    for support in path.layout.supports:
        if support.kind == "post":
            footing = path.layout.project.footings[support.footing or ""]
            checks += [_soil(path, support, footing), _frost(path, support, footing)]
            checks += [_thickness(support, footing), *_concrete(path, support, footing)]
    return checks


def concrete_weight_volume(footing: Footing) -> float:
    """Volume of concrete in and round a footing (cu ft); the post inside is not deducted."""
    plan = math.pi / 4 if footing.shape == "round" else 1.0
    height = footing.depth if footing.fill == "concrete" else footing.pad
    return plan * footing.width**2 * height / 1728


def embedded_depth(footing: Footing) -> float:
    """Depth in which the soil holds a post (in): with its concrete to the underside, in soil down to its foot.

    In a hole filled with soil the post only stands on its pad, which does not turn with it.
    """
    return footing.depth if footing.fill == "concrete" else footing.depth - footing.pad


def allowable_bearing(path: LoadPath) -> float:
    """Allowable soil bearing (psf): the user's own, or the presumptive value of the class."""
    site = path.layout.project.site
    return site.soil_bearing or soil_class(int(site.soil[-1])).vertical


def _soil(path: LoadPath, support: Support, footing: Footing) -> Check:
    D = np.array([c.D for c in CASES])
    P = support_load(path, support.mark)[None, :] + D * post_weight(path, support)
    calculation = Calculation(P.shape)
    run = calculation.run
    W_f = run(weight_of_volume, V=concrete_weight_volume(footing), gamma=PLAIN_CONCRETE)
    side = footing.width / 12
    A = run(round_footing_area, d_f=side) if footing.shape == "round" else side**2
    q = run(soil_pressure_gross, P=P, W_f=W_f, A=A)
    allowed = allowable_bearing(path)
    own = path.layout.project.site.soil_bearing is not None
    return judge(
        calculation,
        [support.mark],
        NAMES,
        key="footing.soil",
        demand=q,
        capacity=allowed,
        unit=PSF,
        clause="User's own value" if own else "",
        says="pressure on the soil",
        notes=(GROSS_NOTE,),
    )[0]


def _frost(path: LoadPath, support: Support, footing: Footing) -> Check:
    calculation = Calculation((1, 1))
    wanted = calculation.run(
        footing_depth_required, d_frost=path.layout.project.site.frost_depth / 12, d_min=LEAST_DEPTH / 12
    )
    return judge(
        calculation,
        [support.mark],
        ["any"],
        key="footing.frost",
        demand=wanted,
        capacity=footing.depth / 12,
        unit=FOOT,
        says="the depth that frost asks for",
    )[0]


def _thickness(support: Support, footing: Footing) -> Check:
    calculation = Calculation((1, 1))
    return judge(
        calculation,
        [support.mark],
        ["any"],
        key="footing.thickness",
        demand=LEAST_PAD,
        capacity=footing.pad,
        unit=INCH,
        says="the thickness that plain concrete must have",
    )[0]


def _concrete(path: LoadPath, support: Support, footing: Footing) -> list[Check]:
    """Plain concrete of the pad under the post's foot, under factored loads."""
    env = envelope(path, path.reactions[support.mark][None, :])
    section, _ = post_timber(path, support)
    c = min(section.b, section.d)
    B = float(equal_area_square(d_c=footing.width)) if footing.shape == "round" else footing.width
    h_e = float(effective_thickness(h=footing.pad))
    states = pad_limit_states(B, c, h_e)

    def start() -> tuple[Calculation, float]:
        calculation = Calculation((1, 1))
        P_u = calculation.run(
            factored_load,
            D=float(env.D[0]) + post_weight(path, support),
            L=max(float(env.L_most[0]), float(env.person_most[0]), 0.0),  # one person is live load too
            S=float(env.S_most[0]),
        )
        if footing.shape == "round":
            calculation.run(equal_area_square, d_c=footing.width)
        calculation.run(effective_thickness, h=footing.pad)
        return calculation, calculation.run(factored_soil_pressure, P_u=P_u, B=B)

    checks: list[Check] = []
    rows = (
        (
            states.flexure,
            "footing.concrete_bending",
            "bending of the concrete",
            footing_moment,
            footing_moment_strength,
            POUND_INCH,
        ),
        (
            states.one_way_shear,
            "footing.concrete_shear",
            "one-way shear of the concrete",
            footing_shear_one_way,
            footing_shear_strength_one_way,
            POUND,
        ),
        (
            states.two_way_shear,
            "footing.concrete_punching",
            "punching of the concrete",
            footing_shear_two_way,
            footing_shear_strength_two_way,
            POUND,
        ),
    )
    for applies, key, says, demand_of, capacity_of, unit in rows:
        if not applies:
            continue
        calculation, q_u = start()
        if q_u <= 0:
            sentence = (
                f"{support.mark} is lifted by its factored load, so that nothing presses on its concrete."
            )
            checks.append(nothing_asked(support.mark, key, sentence, case="factored"))
            continue
        known = {"q_u": q_u, "B": B, "c": c, "h_e": h_e, "f_c": footing.f_c, "lam": 1.0, "beta": 1.0}
        demand = calculation.run(demand_of, **{k: known[k] for k in demand_of.formula.parameters})  # type: ignore[attr-defined]
        capacity = calculation.run(capacity_of, **{k: known[k] for k in capacity_of.formula.parameters})  # type: ignore[attr-defined]
        checks += judge(
            calculation,
            [support.mark],
            ["factored"],
            key=key,
            demand=demand,
            capacity=capacity,
            unit=unit,
            says=says,
            notes=(f"Limit states of this base: {states.says}.",),
        )
    return checks
