"""Stairs: stringers, head, foot and pad, treads. What of them the file leaves out is open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from bolewright.calculation import Calculation
from bolewright.fasteners.rated import hanger_capacity
from bolewright.mechanics.serviceability import deflection_limit
from bolewright.platform.checks.members import C_D, CASES, NAMES, SHORT_TERM
from bolewright.platform.checks.seats import WET_CONNECTION
from bolewright.platform.checks.stair_geometry import stair_geometry_checks
from bolewright.platform.checks.stair_ground import stair_ground_checks
from bolewright.platform.checks.stair_heads import head_rotation
from bolewright.platform.checks.stair_rails import RAIL, has_rail_posts, rail_couple, stair_rail_checks
from bolewright.platform.checks.stair_treads import tread_checks
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stair_loads import dead_of, person_of
from bolewright.platform.layout.stair_rules import stair_live
from bolewright.platform.layout.stairs import MARK, StairPlan
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.loads.combine import PERSON, Array
from bolewright.timber.adjusted_values import (
    adjusted_bearing,
    adjusted_bending,
    adjusted_modulus,
    adjusted_shear,
    compression_before_stability,
)
from bolewright.timber.adjustment import Factors, Service, factors
from bolewright.timber.bearing import bearing_at_angle, bearing_length_wanted
from bolewright.timber.bending import bending_stress
from bolewright.timber.deflection import (
    creep_factor,
    line_load,
    moment_of_both,
    point_load_moment,
    simple_span_moment,
    total_deflection,
)
from bolewright.timber.material import DesignValues
from bolewright.timber.section_properties import section_modulus, section_second_moment
from bolewright.timber.shear import notched_shear_tension, shear_capacity
from bolewright.timber.stairs import (
    depth_over_bearing,
    plumb_cut,
    shear_on_slope,
    slope_span,
    stair_reaction,
    stringer_deflection,
    stringer_throat,
)
from bolewright.units import INCH, POUND, PSI

THROAT_NOTE = (
    "Cut stringers count by what is left under the notches, over their whole length; the value is that of the graded "
    "piece, though sawing steps out of it ends what its stamp says (common practice)."
)
HELD_NOTE = "Treads fastened to every stringer hold its upper edge; no factor for repetitive use is counted."
PERSON_NOTE = (
    "One person on one stringer, shared with no other, is more than the code asks (common practice)."
)
HEEL_NOTE = (
    "A stringer that bends lifts the nose of its level cut and stands on its heel: the notch is as deep as the bearing "
    "needs to be long (common practice)."
)
AXIAL_NOTE = (
    "Vertical reactions at both ends leave no axial force at mid-span, where it bends most (statics)."
)


@dataclass(frozen=True)
class Stringer:
    """The stringer that carries most, as its checks look at it."""

    layout: Layout
    plan: StairPlan

    @cached_property
    def values(self) -> DesignValues:
        """Reference design values of its timber."""
        return self.plan.stairs.values(self.plan.section)

    @cached_property
    def factors(self) -> Factors:
        """Factors of its service."""
        stairs = self.plan.stairs
        return factors(self.values, Service(wet=stairs.wet, incised=stairs.counts_incised))

    @property
    def share(self) -> float:
        """Width of the stairs that it carries (in)."""
        return max(head.share for head in self.plan.heads)

    @property
    def load(self) -> Array:
        """Load on the stairs in every case (psf of plan)."""
        project = self.layout.project
        dead, live, snow = dead_of(self.layout, self.plan), stair_live(project), project.site.ground_snow
        return np.array([c.D * dead + c.L * live + c.S * snow for c in CASES])

    @property
    def person(self) -> Array:
        """One person in every case (lb)."""
        return np.array([c.person * person_of(self.layout.project) for c in CASES])


def stair_checks(layout: Layout) -> list[Check]:
    """All checks of the stairs; none where the file describes none."""
    project, plan = layout.project, layout.stairs
    if not project.stairs.given:
        return []
    if plan is None:
        why = (
            "The stairs are set out, but the file does not say where they hang (stairs.edge): stringers, treads, "
            "foot, and what they bring to the platform are not calculated."
        )
        return [not_checked(MARK, "stairs.place", why)]
    stringer = Stringer(layout, plan)
    return [
        _place(plan),
        *_bending(stringer),
        *_shear(stringer),
        *_deflection(stringer),
        *_head(stringer),
        *_rotation(stringer),
        *_face(stringer),
        *_foot(stringer),
        *stair_ground_checks(layout, plan),
        *tread_checks(layout, plan),
        *stair_geometry_checks(layout, plan),
        *stair_rail_checks(layout, plan),
    ]


def _place(plan: StairPlan) -> Check:
    member = plan.heads[0].member
    if member:
        return nothing_asked(
            MARK,
            "stairs.place",
            f"The stairs hang on {member}, along edge {plan.stairs.edge}; it gets their load.",
        )
    return not_checked(
        MARK,
        "stairs.place",
        f"No joist, beam or rim runs along edge {plan.stairs.edge} behind every stringer: the stairs hang on "
        "nothing, and their load comes onto nothing. Give a rim along that edge ([[blocking]], kind rim).",
    )


def _depth(run: Calculation, plan: StairPlan) -> float:
    """Depth of a stringer that counts, as a printed step where notches take some of it."""
    if plan.stairs.cut == "closed":
        return plan.section.d
    depth = plan.stairs.stringer_depth or plan.section.d
    return float(run.run(stringer_throat, d=depth, h_r=plan.riser, r=plan.run))


def _notes(plan: StairPlan) -> tuple[str, ...]:
    return (*((THROAT_NOTE,) if plan.stairs.cut == "cut" else ()), HELD_NOTE, AXIAL_NOTE)


def _bending(stringer: Stringer) -> Iterator[Check]:
    plan, values, group = stringer.plan, stringer.values, stringer.factors
    rows = [i for i, case in enumerate(CASES) if case.name != PERSON]
    for key, kept, says, more in (
        ("stairs.stringer_bending", rows, "bending of a stringer", ()),
        (
            "stairs.stringer_person",
            [NAMES.index(PERSON)],
            "bending of one stringer under one person",
            (PERSON_NOTE,),
        ),
    ):
        calculation = Calculation((1, len(kept)))
        run = calculation.run
        d_t = _depth(calculation, plan)
        w = run(line_load, q=stringer.load[kept], s=stringer.share)
        M_w = run(simple_span_moment, w=w, l=plan.going)
        M_P = run(point_load_moment, P=stringer.person[kept], l=plan.going)
        M = run(moment_of_both, M_w=M_w, M_P=M_P)
        S = run(section_modulus, b=plan.section.b, d=d_t)
        f_b = run(bending_stress, M=M, S=S)
        F_b_p = run(adjusted_bending, F_b=values.F_b, C_D=C_D[kept], C_L=1.0, **group.bending)
        yield from judge(
            calculation,
            [MARK],
            [NAMES[i] for i in kept],
            key=key,
            demand=f_b,
            capacity=F_b_p,
            unit=PSI,
            says=says,
            notes=(*_notes(plan), *more),
        )


def _reaction(stringer: Stringer, calculation: Calculation) -> Array:
    """Vertical reaction of the stringer that carries most at its head or foot, in every case."""
    w = calculation.run(line_load, q=stringer.load, s=stringer.share)
    return np.asarray(calculation.run(stair_reaction, w=w, L=stringer.plan.going, P=stringer.person))


def _shear(stringer: Stringer) -> list[Check]:
    plan = stringer.plan
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    d_t = _depth(calculation, plan)
    V = run(shear_on_slope, R=_reaction(stringer, calculation), theta=plan.theta)
    F_v_p = run(adjusted_shear, F_v=stringer.values.F_v, C_D=C_D, **stringer.factors.shear)
    V_r = run(shear_capacity, F_v_p=F_v_p, b=plan.section.b, d=d_t)
    return judge(
        calculation,
        [MARK],
        NAMES,
        key="stairs.stringer_shear",
        demand=V,
        capacity=V_r,
        unit=POUND,
        says="shear of a stringer",
        notes=_notes(plan)[:1] if plan.stairs.cut == "cut" else (),
    )


def _deflection(stringer: Stringer) -> Iterator[Check]:
    plan, project = stringer.plan, stringer.layout.project
    dead, snow = dead_of(stringer.layout, plan), project.site.ground_snow
    live = max(stair_live(project), snow)
    short = max(l * stair_live(project) + s * snow for l, s in SHORT_TERM)
    calculation = Calculation((1, 1))
    run = calculation.run
    d_t = _depth(calculation, plan)
    I = run(section_second_moment, b=plan.section.b, d=d_t)
    E_p = run(adjusted_modulus, E=stringer.values.E, **stringer.factors.modulus)
    l_s = run(slope_span, L=plan.going, theta=plan.theta)

    def deflected(to: Calculation, q: float) -> float:
        w = to.run(line_load, q=q, s=stringer.share)
        return float(to.run(stringer_deflection, w=w, L=plan.going, E_p=E_p, I=I, theta=plan.theta))

    total = calculation.branch()
    delta = deflected(calculation, live)
    yield from judge(
        calculation,
        [MARK],
        ["L or S"],
        key="stairs.live_deflection",
        demand=delta,
        capacity=run(deflection_limit, l=l_s, n=project.limits.live),
        unit=INCH,
        says="deflection of a stringer under live load",
    )
    wet = creep_factor(wet=plan.stairs.wet)
    delta_D, delta_L = deflected(total, dead), deflected(total, short)
    yield from judge(
        total,
        [MARK],
        ["D + L, S or 0.75L + 0.75S"],
        key="stairs.total_deflection",
        demand=total.run(total_deflection, K_cr=wet, delta_LT=delta_D, delta_ST=delta_L),
        capacity=total.run(deflection_limit, l=l_s, n=project.limits.total),
        unit=INCH,
        says="deflection of a stringer in total, with creep,",
    )


def _head(stringer: Stringer) -> list[Check]:
    plan = stringer.plan
    connection = stringer.layout.project.connections.get(plan.stairs.hanger or "")
    calculation = Calculation((1, len(CASES)))
    R = _reaction(stringer, calculation)
    if connection is None or connection.rated_load is None:
        why = (
            f"The head of each stringer brings {float(R.max()):,.0f} lb at most, but no hanger with a rated load is "
            "named (stairs.hanger): it wants one rated for the slope."
        )
        return [not_checked(MARK, "stairs.head", why)]
    dry = connection.wet_included or not plan.stairs.wet
    Z_p = calculation.run(
        hanger_capacity,
        Z_rated=connection.rated_load,
        C_D=np.minimum(C_D, 1.0),
        C_M=1.0 if dry else WET_CONNECTION,
    )
    return judge(
        calculation,
        [MARK],
        NAMES,
        key="stairs.head",
        demand=R,
        capacity=Z_p,
        unit=POUND,
        says="the load on the hanger at the head of a stringer",
        notes=(f"Its rating is to hold for stringers that slope {plan.theta:.0f} degrees.",),
    )


def _rotation(stringer: Stringer) -> Iterator[Check]:
    """What the heads do to the framing, a post of the rail at the head as one case more: its hanger holds that too."""
    layout, plan = stringer.layout, stringer.plan
    posts = has_rail_posts(plan)
    cases = (*NAMES, RAIL) if posts else NAMES
    calculation = Calculation((1, len(cases)))
    q, P = stringer.load, stringer.person
    if posts:
        q = np.append(q, dead_of(layout, plan) + stair_live(layout.project))
        P = np.append(P, rail_couple(layout, plan, calculation))
    w = calculation.run(line_load, q=q, s=stringer.share)
    R = calculation.run(stair_reaction, w=w, L=plan.going, P=P)
    yield from head_rotation(layout, plan, calculation, np.asarray(R), cases)


def _face(stringer: Stringer) -> Iterator[Check]:
    """Whether the hanger at the head has wood behind all of the stringer's plumb cut, and what holds a board there."""
    plan, layout = stringer.plan, stringer.layout
    stairs, mark = plan.stairs, plan.heads[0].member
    if not mark:
        return
    framing = layout.member(mark)
    calculation = Calculation((1, 1))
    h_p = calculation.run(plumb_cut, d_t=_depth(calculation, plan), theta=plan.theta)
    below = 0.0 if stairs.flush else plan.riser
    down = max(0.0, below + plan.tread - (layout.project.platform.floor_height - framing.top))
    there = max(0.0, (stairs.face or framing.section.d) - down)
    yield from judge(
        calculation,
        [MARK],
        ["any"],
        key="stairs.head_face",
        demand=h_p,
        capacity=there,
        unit=INCH,
        says=f"the height of a stringer's plumb cut on the face of {mark}",
        nothing=f"the head lies under {mark}, which it is to hang on",
    )
    if stairs.face is None or stairs.face <= framing.section.d:
        return
    total = Calculation((1, len(CASES)))
    w = total.run(line_load, q=stringer.load, s=stairs.width)
    R = total.run(stair_reaction, w=w, L=plan.going, P=stringer.person)
    if stairs.face_tie is None:
        why = (
            f"A board under {mark} is to carry the head, {float(np.max(R)):,.0f} lb at most; what ties it up to the "
            "framing has no rated load (stairs.face_tie)."
        )
        yield not_checked(MARK, "stairs.face_tie", why)
        return
    yield from judge(
        total,
        [MARK],
        NAMES,
        key="stairs.face_tie",
        demand=R,
        capacity=stairs.face_tie,
        unit=POUND,
        says="the load on the ties of the board at the head",
    )


def _foot(stringer: Stringer) -> Iterator[Check]:
    plan, values, group = stringer.plan, stringer.values, stringer.factors
    calculation = Calculation((1, len(CASES)))
    run = calculation.run
    d_t = _depth(calculation, plan)
    R = _reaction(stringer, calculation)
    F_c_star = run(compression_before_stability, F_c=values.F_c, C_D=C_D, **group.compression)
    F_c_perp_p = run(adjusted_bearing, F_c_perp=values.F_c_perp, C_b=1.0, **group.bearing)
    F_theta_p = run(bearing_at_angle, F_c_star=F_c_star, F_c_perp_p=F_c_perp_p, theta=90.0 - plan.theta)
    l_b = run(bearing_length_wanted, R=R, b=plan.section.b, F_c_perp_p=F_theta_p)
    shear = calculation.branch()
    there = _level_cut(plan)
    yield from judge(
        calculation,
        [MARK],
        NAMES,
        key="stairs.foot_bearing",
        demand=l_b,
        capacity=there,
        unit=INCH,
        says="the length of bearing that a foot needs",
    )
    d_n = shear.run(depth_over_bearing, d_t=d_t, l_b=l_b, theta=plan.theta)
    V = shear.run(shear_on_slope, R=R, theta=plan.theta)
    F_v_p = shear.run(adjusted_shear, F_v=values.F_v, C_D=C_D, **group.shear)
    yield from judge(
        shear,
        [MARK],
        NAMES,
        key="stairs.foot_shear",
        demand=V,
        capacity=shear.run(notched_shear_tension, F_v_p=F_v_p, b=plan.section.b, d=d_t, d_n=d_n),
        unit=POUND,
        says="shear at the level cut of a foot",
        notes=(HEEL_NOTE,),
    )


def _level_cut(plan: StairPlan) -> float:
    """Length of a foot's level cut that stands on its pad (in): as far as the first riser, and no more than the pad."""
    whole = min(plan.depth / np.sin(np.radians(plan.theta)), plan.run)
    pad: Sequence[float] = () if plan.stairs.pad_length is None else (plan.stairs.pad_length,)
    return float(min(whole, *pad) if pad else whole)
