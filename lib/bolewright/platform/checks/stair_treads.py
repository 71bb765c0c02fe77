"""Treads: one board under 300 lb on 2 x 2 in., or under the live load; their brackets."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.calculation import Calculation
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stair_loads import TREAD_LOAD, person_of, tread_weight
from bolewright.platform.layout.stair_rules import stair_live
from bolewright.platform.layout.stairs import MARK, StairPlan
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.reference import TableError
from bolewright.timber.adjusted_values import adjusted_bearing, adjusted_bending, adjusted_shear
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.bearing import bearing_length_wanted
from bolewright.timber.bending import bending_stress
from bolewright.timber.deflection import design_span, line_load, moment_of_both, simple_span_moment
from bolewright.timber.material import DesignValues, MaterialError
from bolewright.timber.sections import Section, SectionError, parse_section
from bolewright.timber.shear import shear_stress
from bolewright.timber.stairs import patch_moment, stair_reaction
from bolewright.units import INCH, POUND, PSI

PATCH = 2.0  # in, side of the square that 300 lb stand on (IRC 2021, Table R301.5, note c)
ONE_BOARD = (
    "300 lb on 2 x 2 in. stand on one board of a tread, no other helps (IRC 2021, Table R301.5, note c)."
)
_NAMES = ("D + 300 lb", "D + L", "D + S")
_C_D = np.array([1.0, 1.0, 1.15])


def tread_checks(layout: Layout, plan: StairPlan) -> list[Check]:
    """All checks of the treads."""
    return [*_boards(layout, plan), *_brackets(layout, plan)]


def clear_span(plan: StairPlan) -> float:
    """Clear span of a tread between two stringers (in)."""
    return plan.spacing - plan.section.b


def _boards(layout: Layout, plan: StairPlan) -> Iterator[Check]:
    stairs, clear = plan.stairs, clear_span(plan)
    if stairs.tread_span_limit is not None:
        yield from judge(
            Calculation((1, 1)),
            [MARK],
            ["any"],
            key="stairs.tread_span",
            demand=clear,
            capacity=stairs.tread_span_limit,
            unit=INCH,
            says="the span of a tread",
        )
        return
    try:
        section = parse_section(stairs.tread_section)
        values = stairs.values(section)
    except (SectionError, MaterialError, TableError) as error:
        why = (
            f"Treads of {stairs.tread_section} have no design value ({str(error).rstrip('.')}): give the greatest "
            f"span off their maker's sheet (stairs.tread_span_limit); here it is {clear:.1f} in."
        )
        yield from (not_checked(MARK, f"stairs.{name}", why) for name in ("tread_bending", "tread_shear"))
        return
    yield from _sawn(layout, plan, section, values)


def _sawn(layout: Layout, plan: StairPlan, section: Section, values: DesignValues) -> Iterator[Check]:
    stairs, project = plan.stairs, layout.project
    group = factors(values, Service(wet=stairs.wet, incised=stairs.counts_incised), flat=True)
    P = np.array([person_of(project), 0.0, 0.0])
    q = tread_weight(plan) + np.array([0.0, stair_live(project), project.site.ground_snow])
    bending = Calculation((1, len(_NAMES)))
    run = bending.run
    F_c_perp_p = run(adjusted_bearing, F_c_perp=values.F_c_perp, C_b=1.0, **group.bearing)
    l_b = run(bearing_length_wanted, R=TREAD_LOAD / 2, b=section.d, F_c_perp_p=F_c_perp_p)
    l = run(design_span, l_clear=clear_span(plan), l_b1=l_b, l_b2=l_b)
    w = run(line_load, q=q, s=section.d)
    shear = bending.branch()
    M_w = run(simple_span_moment, w=w, l=l)
    M_P = run(patch_moment, P=P, l=l, c=PATCH)
    M = run(moment_of_both, M_w=M_w, M_P=M_P)
    f_b = run(bending_stress, M=M, S=section.S_flat)
    F_b_p = run(adjusted_bending, F_b=values.F_b, C_D=_C_D, C_L=1.0, **group.bending)
    yield from judge(
        bending,
        [MARK],
        _NAMES,
        key="stairs.tread_bending",
        demand=f_b,
        capacity=F_b_p,
        unit=PSI,
        says="bending of one board of a tread",
        notes=(ONE_BOARD,),
    )
    V: Array = shear.run(stair_reaction, w=w, L=l, P=P)
    f_v = shear.run(shear_stress, V=V, b=section.d, d=section.b)
    F_v_p = shear.run(adjusted_shear, F_v=values.F_v, C_D=_C_D, **group.shear)
    yield from judge(
        shear,
        [MARK],
        _NAMES,
        key="stairs.tread_shear",
        demand=f_v,
        capacity=F_v_p,
        unit=PSI,
        says="shear of one board of a tread",
    )


def _brackets(layout: Layout, plan: StairPlan) -> Iterator[Check]:
    stairs, project = plan.stairs, layout.project
    if stairs.cut == "cut":
        return
    calculation = Calculation((1, len(_NAMES)))
    q = tread_weight(plan) + np.array([0.0, stair_live(project), project.site.ground_snow])
    w = calculation.run(line_load, q=q, s=plan.run)
    R = calculation.run(stair_reaction, w=w, L=clear_span(plan), P=np.array([person_of(project), 0.0, 0.0]))
    if stairs.tread_bracket is None:
        why = (
            f"Each end of a tread brings {float(np.max(R)):,.0f} lb at most onto its bracket or cleat, which has no "
            "rated load (stairs.tread_bracket)."
        )
        yield not_checked(MARK, "stairs.tread_bracket", why)
        return
    yield from judge(
        calculation,
        [MARK],
        _NAMES,
        key="stairs.tread_bracket",
        demand=R,
        capacity=stairs.tread_bracket,
        unit=POUND,
        says="the load on the bracket under a tread",
    )
