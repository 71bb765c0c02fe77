"""200 lb on the handrail or guard of stairs: its posts, their joint to the outer stringer, the stringer's rotation."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.guard import (
    guard_load_at_post,
    guard_moment,
    lower_tie,
    post_bearing,
    tie_with_bearing,
)
from bolewright.calculation import Calculation
from bolewright.fasteners.rated import hanger_capacity
from bolewright.platform.checks.seats import WET_CONNECTION
from bolewright.platform.layout.parts import Layout
from bolewright.platform.layout.stair_loads import dead_of
from bolewright.platform.layout.stair_rails import rail_height
from bolewright.platform.layout.stair_rules import stair_live
from bolewright.platform.layout.stairs import MARK, StairPlan
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.reference import TableError
from bolewright.timber.adjusted_values import adjusted_bearing, adjusted_bending
from bolewright.timber.adjustment import LoadDuration, Service, factors, load_duration_factor
from bolewright.timber.bending import bending_stress
from bolewright.timber.deflection import line_load, moment_of_both, point_load_moment, simple_span_moment
from bolewright.timber.material import DesignValues, MaterialError
from bolewright.timber.net_section import net_modulus_along_holes
from bolewright.timber.section_properties import section_modulus
from bolewright.timber.sections import Section, parse_section
from bolewright.timber.stairs import couple_between, lifted_head, stair_reaction
from bolewright.units import POUND, PSI

PUSH, LINE, BOLT, EDGE = 200.0, 50.0, 0.5, 2.0  # lb, plf (IBC), in, in
C_D = load_duration_factor(LoadDuration.TEN_MINUTES)
CASE = "200 lb"
RAIL = f"D + L + {CASE}"  # what is below a rail's post is run beside all of the live load (common practice)
LONG = "Load duration factor of 1.6: a push on a rail lasts minutes (common practice)."
HEAD = (
    "A post near the head, pushed outward or inward, presses one stringer down and lifts the next; a rating of its "
    "hanger is not raised for it."
)
JOINT = (
    "Two 1/2 in. bolts, 2 in. from the edges of what is left of the outer stringer, the post pressed against it "
    "below; the tie runs from the bolt into the block between the stringers (statics)."
)


def stair_rail_checks(layout: Layout, plan: StairPlan) -> Iterator[Check]:
    """Posts of rails on stairs, open where they are not given."""
    stairs = plan.stairs
    if stairs.handrail not in ("one side", "both sides") and stairs.guard_height is None:
        return
    if stairs.rail_post is None or not has_rail_posts(plan):
        gone = (
            "the posts of the rail (stairs.rail_post)"
            if stairs.rail_post is None
            else "blocks (stairs.rail_blocks)"
        )
        why = (
            f"200 lb on the rail of the stairs, in any direction: the file does not give {gone}. A stringer turns "
            "over under a post unless a block to the next stringer holds it there."
        )
        yield from (not_checked(MARK, f"stairs.{name}", why) for name in ("rail_load", "rail_post"))
        return
    section = parse_section(stairs.rail_post)
    try:
        values = stairs.values(section)
    except (MaterialError, TableError) as error:
        yield not_checked(MARK, "stairs.rail_post", f"Posts of {section.name} have no design value: {error}.")
        return
    yield from _post(layout, plan, section, values)


def _push(layout: Layout, plan: StairPlan, calculation: Calculation) -> float:
    line = 0.0 if layout.project.code.basis == "IRC" else LINE
    return float(calculation.run(guard_load_at_post, P_1=PUSH, w=line, l=plan.stairs.rail_spacing))


def _post(layout: Layout, plan: StairPlan, section: Section, values: DesignValues) -> Iterator[Check]:
    stairs = plan.stairs
    height, notch = rail_height(plan), plan.section.d - plan.depth
    service = Service(wet=stairs.wet, incised=stairs.counts_incised)
    group = factors(values, service)
    bent = Calculation((1, 1))
    P = _push(layout, plan, bent)
    M = bent.run(guard_moment, P=P, H=height, a=notch + EDGE)
    S = bent.run(net_modulus_along_holes, b=section.b, d=section.d, n=1.0, D_h=BOLT + 1 / 16)
    yield from judge(
        bent,
        [MARK],
        [CASE],
        key="stairs.rail_post",
        demand=bent.run(bending_stress, M=M, S=S),
        capacity=bent.run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **group.bending),
        unit=PSI,
        says="bending of a rail's post at its upper bolt",
        notes=(LONG,),
    )
    yield from _tied(layout, plan, section, values, height + notch)
    yield from _rotated(layout, plan)
    yield from _heads(layout, plan)


def has_rail_posts(plan: StairPlan) -> bool:
    """Whether posts of a rail stand on the stringers, with blocks that hand their moment on."""
    stairs = plan.stairs
    railed = stairs.handrail in ("one side", "both sides") or stairs.guard_height is not None
    return railed and stairs.rail_post is not None and stairs.rail_blocks


def rail_couple(layout: Layout, plan: StairPlan, calculation: Calculation) -> float:
    """Couple that a post of the rail brings on two stringers, through the block between them (lb)."""
    notch = plan.section.d - plan.depth  # of a cut stringer, what lies between the noses and its upper edge
    P = _push(layout, plan, calculation)
    M_p = calculation.run(guard_moment, P=P, H=rail_height(plan) + notch, a=plan.depth / 2)
    return float(calculation.run(couple_between, M=M_p, s=plan.spacing))


def _tied(
    layout: Layout, plan: StairPlan, section: Section, values: DesignValues, height: float
) -> Iterator[Check]:
    stairs = plan.stairs
    group = factors(values, Service(wet=stairs.wet, incised=stairs.counts_incised))
    calculation = Calculation((1, 1))
    run = calculation.run
    P = _push(layout, plan, calculation)
    F_c = float(run(adjusted_bearing, F_c_perp=values.F_c_perp, C_b=1.0, **group.bearing))
    d = plan.depth
    if (d - EDGE) ** 2 <= 2 * P * (height + d - EDGE) / (section.b * F_c):
        why = (
            f"What is left of a stringer, {d:.1f} in., is too shallow for the couple of a rail's post: no length of "
            "pressed wood holds it. Take closed stringers, or stand the posts on the ground and the floor."
        )
        yield not_checked(MARK, "stairs.rail_load", why)
        return
    k = {"d": d, "e": EDGE, "b": section.b, "F_c_perp_p": F_c}
    outward = run(guard_moment, P=P, H=height, a=EDGE)
    T = float(run(tie_with_bearing, C=run(post_bearing, M=outward, **k), P=P))
    inward = run(guard_moment, P=P, H=height, a=d - EDGE)
    T_2 = float(run(lower_tie, C_2=run(post_bearing, M=inward, **k), P=P))
    if stairs.rail_tie is None:
        why = (
            f"A bolt of a rail's post pulls with {max(T, T_2):,.0f} lb at most; what ties it into the block has no "
            "rated tension (stairs.rail_tie)."
        )
        yield not_checked(MARK, "stairs.rail_load", why)
        return
    yield from judge(
        calculation,
        [MARK],
        [CASE],
        key="stairs.rail_load",
        demand=max(T, T_2),
        capacity=stairs.rail_tie,
        unit=POUND,
        says="the tension in a bolt of a rail's post",
        notes=(JOINT,),
    )


def _rotated(layout: Layout, plan: StairPlan) -> Iterator[Check]:
    """The post's moment goes through a block as a couple on two stringers: one of them bends more."""
    stairs = plan.stairs
    values = stairs.values(plan.section)
    group = factors(values, Service(wet=stairs.wet, incised=stairs.counts_incised))
    calculation = Calculation((1, 1))
    run = calculation.run
    V = rail_couple(layout, plan, calculation)
    q = dead_of(layout, plan) + stair_live(layout.project)
    w = run(line_load, q=q, s=max(head.share for head in plan.heads))
    M_w = run(simple_span_moment, w=w, l=plan.going)
    M = run(moment_of_both, M_w=M_w, M_P=run(point_load_moment, P=V, l=plan.going))
    f_b = run(bending_stress, M=M, S=run(section_modulus, b=plan.section.b, d=plan.depth))
    yield from judge(
        calculation,
        [MARK],
        [RAIL],
        key="stairs.rail_stringer",
        demand=np.asarray(f_b),
        capacity=run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **group.bending),
        unit=PSI,
        says="bending of a stringer by the couple of a rail's post",
        notes=(
            LONG,
            "A block at every post hands its moment to two stringers as a couple, at mid-span here, beside all of the "
            "live load (common practice for what is below a guard).",
        ),
    )


def _heads(layout: Layout, plan: StairPlan) -> Iterator[Check]:
    """A post near the head: the couple comes down on one stringer's hanger, and lifts the other's."""
    connection = layout.project.connections.get(plan.stairs.hanger or "")
    down, up = Calculation((1, 1)), Calculation((1, 1))
    dead, live = dead_of(layout, plan), stair_live(layout.project)
    shares = [head.share for head in plan.heads]
    V = rail_couple(layout, plan, down)
    w = down.run(line_load, q=dead + live, s=max(shares))
    R = down.run(stair_reaction, w=w, L=plan.going, P=V)
    V = rail_couple(layout, plan, up)
    w = up.run(line_load, q=dead, s=min(shares))
    U = up.run(lifted_head, V=V, R_D=up.run(stair_reaction, w=w, L=plan.going, P=0.0))
    C_M = 1.0 if connection is None or connection.wet_included or not plan.stairs.wet else WET_CONNECTION
    for key, calculation, demand, rated, name, case, says in (
        (
            "stairs.rail_head",
            down,
            R,
            "rated_load",
            "load",
            RAIL,
            "the load on a hanger by a rail's post",
        ),
        (
            "stairs.rail_head_up",
            up,
            U,
            "rated_uplift",
            "uplift",
            f"0.6D + {CASE}",
            "the uplift of a hanger by a rail's post",
        ),
    ):
        rating = getattr(connection, rated, None)
        if rating is None:
            why = (
                f"A rail's post near the head brings its hanger {float(demand):,.0f} lb of {name}, but no hanger with "
                f"a {rated} is named (stairs.hanger)."
            )
            yield not_checked(MARK, key, why)
            continue
        yield from judge(
            calculation,
            [MARK],
            [case],
            key=key,
            demand=np.asarray(demand),
            capacity=calculation.run(hanger_capacity, Z_rated=rating, C_D=1.0, C_M=C_M),
            unit=POUND,
            says=says,
            notes=(HEAD,),
        )
