"""The pad that stairs stand on: pressure on the soil, frost, thickness."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.calculation import Calculation
from bolewright.ground.concrete import PLAIN_CONCRETE, weight_of_volume
from bolewright.ground.footing import minimum_footing_thickness
from bolewright.ground.soil import footing_depth_required, soil_pressure_gross
from bolewright.platform.checks.members import CASES, NAMES
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stair_loads import dead_of, person_of
from bolewright.platform.layout.stair_rules import stair_live
from bolewright.platform.layout.stairs import MARK, StairPlan
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.timber.deflection import line_load
from bolewright.timber.stairs import stair_reaction
from bolewright.units import FOOT, INCH, PSF

LEAST_DEPTH = 12.0  # in, IRC 2021, R403.1.4
LEAST_THICKNESS = 8.0  # in, ACI 318-19, 14.3.2.1
FROST_NOTE = (
    "IRC 2021, R403.1.4.1 lets off some free-standing and light structures; a pad that heaves lifts the stairs, not "
    "the platform, and jams their head: ask the building department."
)


def stair_ground_checks(layout: Layout, plan: StairPlan) -> Iterator[Check]:
    """All checks of the pad under the feet of stairs."""
    stairs, site = plan.stairs, layout.project.site
    missing = [name for name in ("pad_length", "pad_thickness", "pad_depth") if getattr(stairs, name) is None]
    if stairs.pad_length is None or stairs.pad_thickness is None:
        why = f"What the stairs stand on is not given: {', '.join('stairs.' + name for name in missing)}."
        yield from (not_checked(MARK, f"stairs.{name}", why) for name in ("soil", "pad"))
    else:
        yield _soil(layout, plan, stairs.pad_length, stairs.pad_thickness)
        yield _thickness(plan, stairs.pad_length, stairs.pad_thickness)
    if stairs.pad_depth is None:
        why = "How deep the pad under the stairs goes is not given (stairs.pad_depth): whether frost lifts it is open."
        yield not_checked(MARK, "stairs.frost", why)
        return
    calculation = Calculation((1, 1))
    wanted = calculation.run(footing_depth_required, d_frost=site.frost_depth / 12, d_min=LEAST_DEPTH / 12)
    yield from judge(
        calculation,
        [MARK],
        ["any"],
        key="stairs.frost",
        demand=wanted,
        capacity=stairs.pad_depth / 12,
        unit=FOOT,
        says="the depth that their pad needs",
        notes=(FROST_NOTE,),
    )


def _soil(layout: Layout, plan: StairPlan, length: float, thickness: float) -> Check:
    stairs, project = plan.stairs, layout.project
    width = stairs.pad_width or stairs.width
    dead, live = dead_of(layout, plan), stair_live(project)
    q = np.array([c.D * dead + c.L * live + c.S * project.site.ground_snow for c in CASES])
    P = np.array([c.person * person_of(project) for c in CASES])
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    w = run(line_load, q=q, s=stairs.width)
    R = run(stair_reaction, w=w, L=plan.going, P=P)
    W_f = run(weight_of_volume, V=length * width * thickness / 1728, gamma=PLAIN_CONCRETE)
    pressure = run(soil_pressure_gross, P=R, W_f=W_f, A=length * width / 144)
    own = project.site.soil_bearing
    return judge(
        calculation,
        [MARK],
        NAMES,
        key="stairs.soil",
        demand=pressure,
        capacity=own or project.site.soil.values.vertical,
        unit=PSF,
        clause="User's own value" if own is not None else "",
        says="pressure of their pad on the soil",
    )[0]


def _thickness(plan: StairPlan, length: float, thickness: float) -> Check:
    calculation = Calculation((1, 1))
    foot = min(plan.run, length)
    return judge(
        calculation,
        [MARK],
        ["any"],
        key="stairs.pad",
        demand=np.maximum(calculation.run(minimum_footing_thickness, B=length, c=foot), LEAST_THICKNESS),
        capacity=thickness,
        unit=INCH,
        says="the thickness that their pad needs",
        notes=("Plain concrete is 8 in. thick at least (ACI 318-19, 14.3.2.1).",),
    )[0]
