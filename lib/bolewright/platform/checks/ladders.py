"""Ladders and ship's ladders: rungs or treads, rails, rails over the floor, head and foot, geometry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from bolewright.calculation import Calculation
from bolewright.ground.concrete import PLAIN_CONCRETE, weight_of_volume
from bolewright.ground.soil import soil_pressure_gross
from bolewright.platform.checks.ladder_geometry import ladder_geometry_checks
from bolewright.platform.layout.ladders import MARK, PERSON, LadderPlan, ladder_weight, step_weight
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stair_rules import rules_of
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.project.bearing import SupportKind
from bolewright.reference import TableError
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    compression_before_stability,
)
from bolewright.timber.adjustment import Factors, LoadDuration, Service, factors, load_duration_factor
from bolewright.timber.bending import (
    BendingCase,
    bending_stress,
    critical_buckling_bending,
    effective_length,
    effective_length_coefficients,
    slenderness_ratio,
)
from bolewright.timber.columns import (
    column_slenderness,
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
)
from bolewright.timber.combined import bending_and_compression
from bolewright.timber.deflection import line_load, moment_of_both, point_load_moment, simple_span_moment
from bolewright.timber.ladders import (
    across_rail,
    along_rail,
    head_force,
    ladder_load,
    rail_length,
    rail_top_moment,
    round_modulus,
    weight_across_rail,
)
from bolewright.timber.material import DesignValues, MaterialError
from bolewright.timber.sections import parse_section
from bolewright.timber.stairs import stair_reaction
from bolewright.units import NONE, POUND, PSF, PSI

CASE = "300 lb"
PUSH = 100.0  # lb at the top of a rail, in any direction (ASCE 7-10, 4.5.4, read in a public transcription)
GRAB_BAR = (
    250.0  # lb on a grab bar, in any direction (ASCE 7-16, 4.5.2, from memory; ICC A117.1, 609.8, quoted)
)
PAD = 8.0  # in of concrete under the foot, for its weight
HALF_NOTE = (
    "One person stands over one rail: it takes the whole load (ASCE 7-16, 4.5.4); rails share nothing."
)
ROUND_NOTE = (
    "Round rungs count by a rating only: NDS has no design value for dowels, and a 1 1/4 in. dowel over 16 in. of "
    "clear width comes to 6,800 psi."
)
GRIP_NOTE = (
    "What bears the bar is not calculated: a guard's post is checked for 200 lb at its top, so a bar on it ends no "
    "higher than three quarters of the guard's height (lever rule), or has a post of its own."
)
STAIRS_NOTE = (
    "Treads are loaded as those of stairs (ASCE 7-16, 4.5.4 and Table 4.3-1, from memory). Spread evenly, a load bends "
    "a rail as half of it does at the middle, and half comes to each end: no more than the people counted there."
)
BRACED_NOTE = "Rungs or treads with a rated fixing hold the rails across their weak axis (common practice)."


@dataclass(frozen=True)
class _Rail:
    layout: Layout
    plan: LadderPlan

    @cached_property
    def values(self) -> DesignValues:
        return self.plan.ladder.values(self.plan.section)

    def factors(self, *, flat: bool = False) -> Factors:
        ladder = self.plan.ladder
        return factors(self.values, Service(wet=ladder.wet, incised=ladder.counts_incised), flat=flat)


def ladder_checks(layout: Layout) -> list[Check]:
    """All checks of the ladder; none where the file describes none."""
    plan = layout.ladder
    if plan is None:
        return []
    rail = _Rail(layout, plan)
    return [
        _place(plan),
        *_step(rail),
        _fixing(plan),
        *_rails(rail),
        *_over(rail),
        *_grip(plan),
        _head(plan),
        *_as_stairs(layout, plan),
        *_foot(layout, plan),
        *ladder_geometry_checks(layout, plan),
    ]


def _place(plan: LadderPlan) -> Check:
    if plan.member:
        said = f"The head of the ladder is at {plan.member}; it gets half of its weight and one person."
        return nothing_asked(MARK, "ladder.place", said)
    why = (
        "No joist, beam or rim runs along the edge behind both rails: the head of the ladder is fixed to nothing, "
        "and its load comes onto nothing. Give a rim or a header there, or take another edge."
    )
    return not_checked(MARK, "ladder.place", why)


def _step(rail: _Rail) -> Iterator[Check]:
    """One rung or tread under 300 lb at its middle."""
    plan, ladder = rail.plan, rail.plan.ladder
    calculation = Calculation((1, 1))
    run = calculation.run
    l = plan.clear + plan.section.b
    if ladder.rung_diameter is not None:
        M = run(point_load_moment, P=PERSON, l=l)
        f_b = run(bending_stress, M=M, S=run(round_modulus, D=ladder.rung_diameter))
        if ladder.rung_rating is None:
            why = f"{ROUND_NOTE} These come to {f_b:,.0f} psi; give their rated load (ladder.rung_rating)."
            yield not_checked(MARK, "ladder.step_bending", why)
            return
        yield from judge(
            Calculation((1, 1)),
            [MARK],
            [CASE],
            key="ladder.step_bending",
            demand=PERSON,
            capacity=ladder.rung_rating,
            unit=POUND,
            clause="Rated load, entered by the user",
            says="one person on a rung",
            notes=(ROUND_NOTE,),
        )
        return
    section = parse_section(ladder.step_size)
    try:
        values = ladder.values(section)
    except (MaterialError, TableError) as error:
        yield not_checked(
            MARK, "ladder.step_bending", f"Rungs of {section.name} have no design value: {error}."
        )
        return
    group = factors(values, Service(wet=ladder.wet, incised=ladder.counts_incised), flat=True)
    M = run(
        moment_of_both,
        M_w=run(simple_span_moment, w=step_weight(plan), l=l),
        M_P=run(point_load_moment, P=PERSON, l=l),
    )
    yield from judge(
        calculation,
        [MARK],
        [CASE],
        key="ladder.step_bending",
        demand=run(bending_stress, M=M, S=section.S_flat),
        capacity=run(adjusted_bending, F_b=values.F_b, C_D=1.0, C_L=1.0, **group.bending),
        unit=PSI,
        says=f"bending of a {'rung' if ladder.steep else 'tread'}",
    )


def _fixing(plan: LadderPlan) -> Check:
    rated = plan.ladder.step_fixing
    step = "rung" if plan.ladder.steep else "tread"
    if rated is None:
        why = (
            f"Each end of a {step} brings {PERSON:g} lb into its rail, with the foot beside it; what holds it there "
            "has no rated load (ladder.step_fixing): houses, cleats or brackets."
        )
        return not_checked(MARK, "ladder.step_fixing", why)
    calculation = Calculation((1, 1))
    return judge(
        calculation,
        [MARK],
        [CASE],
        key="ladder.step_fixing",
        demand=calculation.run(stair_reaction, w=step_weight(plan), L=plan.clear + plan.section.b, P=PERSON),
        capacity=rated,
        unit=POUND,
        says=f"the load on the end of a {step}",
    )[0]


def _rails(rail: _Rail) -> Iterator[Check]:
    """Bending of one rail under a person at its middle and half the ladder's weight, with what runs along it."""
    plan, values, group = rail.plan, rail.values, rail.factors()
    b, d = plan.section.b, plan.section.d
    calculation = Calculation((1, 1))
    run = calculation.run
    P = run(ladder_load, P=PERSON, n=plan.people)
    l = run(rail_length, H=plan.height, theta=plan.pitch)
    P_b = run(across_rail, P=P, theta=plan.pitch)
    W = ladder_weight(plan) / 2
    w = run(weight_across_rail, W=W, l=l, theta=plan.pitch)
    P_a = run(along_rail, P=P + W, theta=plan.pitch)
    M = run(moment_of_both, M_w=run(simple_span_moment, w=w, l=l), M_P=run(point_load_moment, P=P_b, l=l))
    f_b = run(bending_stress, M=M, S=plan.section.S)
    free = plan.rise / np.sin(np.radians(plan.pitch)) if plan.ladder.step_fixing is not None else l
    k_l, k_d = effective_length_coefficients(BendingCase.OTHER, float(free), d)
    l_e = run(effective_length, l_u=float(free), d=d, k_l=float(k_l), k_d=float(k_d))
    E_min_p = run(adjusted_minimum_modulus, E_min=values.E_min, **group.modulus)
    F_bE = run(critical_buckling_bending, E_min_p=E_min_p, R_B=run(slenderness_ratio, l_e=l_e, d=d, b=b))
    F_b_p = run(adjusted_bending, F_b=values.F_b, C_D=1.0, C_L=1.0, **group.bending)
    f_c = run(compression_stress, P=P_a, A=b * d)
    strong = run(column_slenderness, l_e=l, d=d)
    weak = run(column_slenderness, l_e=float(free), d=b)
    F_cE1 = run(critical_buckling_compression, E_min_p=E_min_p, l_e=l, d=d)
    F_cE2 = run(critical_buckling_compression, E_min_p=E_min_p, l_e=float(free), d=b)
    F_c_star = run(compression_before_stability, F_c=values.F_c, C_D=1.0, **group.compression)
    C_P = run(column_stability_factor, F_cE=min(F_cE1, F_cE2), F_c_star=F_c_star, c=0.8)
    F_c_p = run(adjusted_compression, F_c=values.F_c, C_D=1.0, C_P=C_P, **group.compression)
    slender = Calculation((1, 1))
    ratio = run(
        bending_and_compression,
        f_c=f_c,
        F_c_p=F_c_p,
        F_cE1=F_cE1,
        F_cE2=F_cE2,
        f_b1=f_b,
        F_b1_p=F_b_p,
        f_b2=0.0,
        F_b2_p=F_b_p,
        F_bE=F_bE,
    )
    notes = (HALF_NOTE, *((BRACED_NOTE,) if plan.ladder.step_fixing is not None else ()))
    yield from judge(
        calculation,
        [MARK],
        [CASE],
        key="ladder.rail",
        demand=ratio,
        capacity=1.0,
        unit=NONE,
        says="bending and compression of a rail",
        notes=notes,
    )
    yield from judge(
        slender,
        [MARK],
        ["any"],
        key="ladder.rail_slenderness",
        demand=max(float(strong), float(weak)),
        capacity=50.0,
        unit=NONE,
        says="the slenderness of a rail",
    )


def _over(rail: _Rail) -> Iterator[Check]:
    """The rail as a cantilever over the floor, pushed across its weak axis."""
    plan, ladder = rail.plan, rail.plan.ladder
    if ladder.rails_over is None:
        why = (
            "How far the rails run up over the floor is not given (ladder.rails_over): 36 to 42 in., or a hold "
            "beside the hatch (ladder.grip)."
        )
        if not ladder.grip:
            yield not_checked(MARK, "ladder.rail_over", why)
        return
    if ladder.rails_over <= 0:
        return
    if ladder.rails_tied:
        said = "The rails over the floor are fastened to the guard: its posts hold them (common practice)."
        yield nothing_asked(MARK, "ladder.rail_over", said)
        return
    calculation = Calculation((1, 1))
    run = calculation.run
    M = run(rail_top_moment, P=PUSH, h=ladder.rails_over, theta=plan.pitch)
    F_b_p = run(
        adjusted_bending,
        F_b=rail.values.F_b,
        C_D=load_duration_factor(LoadDuration.TEN_MINUTES),
        C_L=1.0,
        **rail.factors(flat=True).bending,
    )
    yield from judge(
        calculation,
        [MARK],
        ["100 lb"],
        key="ladder.rail_over",
        demand=run(bending_stress, M=M, S=plan.section.S_flat),
        capacity=F_b_p,
        unit=PSI,
        says="bending of a rail over the floor",
    )


def _grip(plan: LadderPlan) -> Iterator[Check]:
    """What gives hold in place of rails over the floor, by its rating."""
    if not plan.ladder.grip:
        return
    if plan.ladder.grip_rating is None:
        why = (
            f"A hand that saves a fall pulls with {GRAB_BAR:g} lb in any direction on the grab bar at the head of the "
            "ladder (ASCE 7-16, 4.5.2); neither bar nor fastening has a rated load (ladder.grip_rating)."
        )
        yield not_checked(MARK, "ladder.grip", why)
        return
    yield from judge(
        Calculation((1, 1)),
        [MARK],
        ["250 lb"],
        key="ladder.grip",
        demand=GRAB_BAR,
        capacity=plan.ladder.grip_rating,
        unit=POUND,
        says="the pull on the grab bar",
        notes=(GRIP_NOTE,),
    )


def _head(plan: LadderPlan) -> Check:
    calculation = Calculation((1, 1))
    P = calculation.run(ladder_load, P=PERSON, n=plan.people)
    F = calculation.run(head_force, P=P, W=ladder_weight(plan), theta=plan.pitch)
    rated = plan.ladder.head_fixing
    if rated is None:
        why = (
            f"The head of a rail brings {F:,.0f} lb at most, down and outwards, and must not lift off; what holds it "
            "has no rated load (ladder.head_fixing)."
        )
        return not_checked(MARK, "ladder.head", why)
    return judge(
        calculation,
        [MARK],
        [CASE],
        key="ladder.head",
        demand=F,
        capacity=rated,
        unit=POUND,
        says="the load on the head of a rail",
        notes=(HALF_NOTE,),
    )[0]


def _as_stairs(layout: Layout, plan: LadderPlan) -> Iterator[Check]:
    """The live load of stairs on the treads of a ship's ladder, held against the people that are counted on it."""
    if plan.ladder.steep:
        return
    calculation = Calculation((1, 1))
    run, q = calculation.run, rules_of(layout.project).live
    w = run(line_load, q=q, s=plan.clear / 2 + plan.section.b)
    yield from judge(
        calculation,
        [MARK],
        [f"{q:g} psf"],
        key="ladder.stairs_load",
        demand=run(stair_reaction, w=w, L=plan.run, P=0.0),
        capacity=run(ladder_load, P=PERSON, n=plan.people),
        unit=POUND,
        says="half of the live load of stairs on one rail",
        notes=(STAIRS_NOTE,),
    )


def _foot(layout: Layout, plan: LadderPlan) -> Iterator[Check]:
    ladder, site = plan.ladder, layout.project.site
    if ladder.foot_fixed and any(s.kind == SupportKind.TREE_BOLT for s in layout.supports):
        why = (
            "The foot of the ladder is fixed, and the platform moves with the tree: the ladder would prop it, which "
            "is not calculated. Let its foot slide, or hinge its head."
        )
        yield not_checked(MARK, "ladder.foot", why)
    else:
        how = (
            "is fixed, on a platform that no tree bears"
            if ladder.foot_fixed
            else "slides as the platform moves"
        )
        yield nothing_asked(MARK, "ladder.foot", f"The foot of the ladder {how}.")
    calculation = Calculation((1, 1))
    run = calculation.run
    P = run(ladder_load, P=PERSON, n=plan.people) + ladder_weight(plan)
    if ladder.pad is None:
        why = f"What the ladder stands on is not given (ladder.pad): its foot brings {P:,.0f} lb."
        yield not_checked(MARK, "ladder.soil", why)
        return
    W_f = run(weight_of_volume, V=ladder.pad**2 * PAD / 1728, gamma=PLAIN_CONCRETE)
    yield from judge(
        calculation,
        [MARK],
        [CASE],
        key="ladder.soil",
        demand=run(soil_pressure_gross, P=P, W_f=W_f, A=ladder.pad**2 / 144),
        capacity=site.soil_bearing or site.soil.values.vertical,
        unit=PSF,
        says="pressure of its pad on the soil",
        notes=(
            "Its pad counts with 8 in. of concrete (common practice); frost lifts it, and it slides at its foot.",
        ),
    )
