"""Posts of guards: bending, their joint to the framing by its levers, bolts, plates, and the push along the rail."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from bolewright.bracing.guard import (
    bolt_force_along_rail,
    guard_moment,
    plate_bearing,
    skew_force,
    tie_along_skew,
    tie_by_bolts,
    tie_by_edge_lever,
)
from bolewright.calculation import Calculation
from bolewright.platform.checks.guard_bearing import At, bolt_pulls, no_lever, pressed_wood, too_shallow
from bolewright.platform.checks.guard_common import ANY, C_D, CASE, DURATION, guard_factors
from bolewright.platform.layout.guard_joints import AcrossGrain, behind_post, bolt_across_grain
from bolewright.platform.layout.guards import GuardPost, along_asked
from bolewright.platform.layout.parts import Layout
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.loads.combine import Array
from bolewright.timber.adjusted_values import adjusted_bearing, adjusted_bending, adjusted_shear
from bolewright.timber.adjustment import Factors
from bolewright.timber.bearing import bearing_area_factor_for
from bolewright.timber.bending import bending_stress
from bolewright.timber.material import DesignValues
from bolewright.timber.net_section import net_modulus_along_holes
from bolewright.timber.section_properties import section_modulus
from bolewright.timber.shear import shear_stress
from bolewright.tree.steel import bolt_tension_strength
from bolewright.units import POUND, PSI

LEVER = (
    "The design model: the post presses on the framing below over as much wood as that takes, by the softer of the two "
    "across the grain, as wide as what stands behind it: its own width on a timber along the edge, what it covers of a "
    "joist's end. Lower bound, the lever "
    "to the framing's lower edge: {low:,.0f} lb; bolts alone: {high:,.0f} lb. DCA 6 asks for 1,800 lb at 36 in. on a "
    "2x8 (second-hand)."
)
SKEW = (
    "{joist} and {edge} are bent, neither is twisted: {edge} takes the rest of the post's moment, as the couple of "
    "these forces at both bolts."
)
ALONG = (
    "Couple of the push on the post's two bolts, across the grain of the post, shared by {n} posts that a continuous "
    "rail ties together; one bolt's value by the yield limit equations, wet, and the 4D to the loaded edge kept."
)


def guard_post_checks(layout: Layout, held: Sequence[GuardPost]) -> Iterator[Check]:
    """Checks of the posts of a guard on one edge that something takes the moment of."""
    yield from _bent(layout, held)
    yield from _tied(layout, held)
    yield from _along(layout, held)


def _bent(layout: Layout, posts: Sequence[GuardPost]) -> Iterator[Check]:
    """The post bent at the deck, gross, and at the upper bolt, net of its hole."""
    section = posts[0].section
    values, own = guard_factors(posts[0].guard, section)
    for key, net in (("guard.bending", False), ("guard.bending_at_bolts", True)):
        calculation = Calculation((len(posts), 1))
        at = At(layout, posts, calculation)
        run = calculation.run
        M = run(guard_moment, P=at.P, H=at.H, a=at.t + at.e if net else 0.0 * at.t)
        if net:
            S = run(net_modulus_along_holes, b=section.b, d=section.d, n=1.0, D_h=at.hole)
        else:
            S = run(section_modulus, b=section.b, d=section.d)
        f_b = run(bending_stress, M=M, S=S)
        F_b_p = run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **own.bending)
        yield from judge(
            calculation,
            at.marks,
            [CASE],
            key=key,
            demand=f_b,
            capacity=F_b_p,
            unit=PSI,
            says="the push at its top",
            notes=(DURATION, *own.notes),
        )


def _tied(layout: Layout, posts: Sequence[GuardPost]) -> Iterator[Check]:
    """Hold-down, lower tie, bolt, plate and shear of the joint, by the lever model of the file."""
    guard, section = posts[0].guard, posts[0].section
    values, own = guard_factors(guard, section)
    calculation = Calculation((len(posts), 1))
    at = At(layout, posts, calculation)
    run = calculation.run
    F_c = pressed_wood(layout, posts, values, own, run)
    too_much = too_shallow(at, F_c)
    if guard.lever == "bearing block" and too_much.any():
        for post, bad in zip(posts, too_much, strict=True):
            if bad:
                yield no_lever(layout, post)
        posts = [post for post, bad in zip(posts, too_much, strict=True) if not bad]
        if posts:
            yield from _tied(layout, posts)
        return
    T, T_2, C = bolt_pulls(at, run, F_c)
    low = float(np.max(tie_by_edge_lever(P=at.P, H=at.H, t=at.t, d=at.d, e=at.e)))
    high = float(np.max(tie_by_bolts(P=at.P, H=at.H, t=at.t, d=at.d, e=at.e)))
    note = LEVER.format(low=low, high=high)
    for key, tension, rated, name in (
        ("guard.hold_down", T, guard.hold_down, "hold_down"),
        ("guard.lower_tie", T_2, guard.lower_tie, "lower_tie"),
    ):
        of_tie = calculation.branch()
        demand = of_tie.run(tie_along_skew, T=tension, theta=at.theta) if at.skewed else tension
        if rated is None:
            pulls = np.broadcast_to(demand, (len(posts), 1))[:, 0]
            for post, pull in zip(posts, pulls, strict=True):
                to = post.receiver.mark if post.receiver is not None else "the framing"
                yield not_checked(
                    post.mark,
                    key,
                    f"{post.mark} pulls with {pull:,.0f} lb: enter the rated tension of what ties this bolt to "
                    f"{to} as {name}, off its maker's sheet.",
                )
            continue
        yield from judge(
            of_tie,
            at.marks,
            [CASE],
            key=key,
            demand=demand,
            capacity=rated,
            unit=POUND,
            says="the tension in its bolt",
            notes=(note,),
        )
    yield from _skewed(layout, posts, np.maximum(T, T_2), calculation)
    branch = calculation.branch()
    T_a = branch.run(bolt_tension_strength, F_u=guard.bolt_strength, D_r=guard.bolt_diameter)
    greater = np.maximum(T, T_2)
    yield from judge(
        branch,
        at.marks,
        [CASE],
        key="guard.bolt",
        demand=greater,
        capacity=T_a,
        unit=POUND,
        says="the tension in its bolt",
        notes=("0.75 F_u on the gross area counts the thread (AISC 360-16, J3.6).",),
    )
    yield from _plates(at, np.hstack(np.broadcast_arrays(T, T_2)), own, values)
    branch = calculation.branch()
    f_v = branch.run(shear_stress, V=C, b=section.b - at.hole, d=section.d)
    F_v = branch.run(adjusted_shear, F_v=values.F_v, C_D=C_D, **own.shear)
    yield from judge(
        branch,
        at.marks,
        [CASE],
        key="guard.shear",
        demand=f_v,
        capacity=F_v,
        unit=PSI,
        says="shear between its bolts",
        notes=(DURATION,),
    )


def _skewed(
    layout: Layout, posts: Sequence[GuardPost], tension: Array, calculation: Calculation
) -> Iterator[Check]:
    """Force along the edge where what takes a post lies off the square of it, by the rating of that joint."""

    def skewed(post: GuardPost) -> bool:
        return post.skewed and post.receiver is not None

    angles = [math.degrees(math.asin(min(post.twist, 1.0))) if skewed(post) else 0.0 for post in posts]
    if not any(map(skewed, posts)):
        return
    own = calculation.branch()
    tensions = np.broadcast_to(tension, (len(posts), 1))
    F_s = own.run(skew_force, T=tensions, theta=np.array(angles)[:, None])
    rated: dict[str, tuple[str, str]] = {}
    for row, post in enumerate(posts):
        if not skewed(post) or post.receiver is None:
            continue
        off = f"{post.receiver.mark} lies {angles[row]:.0f} degrees off the square of edge {post.edge}"
        edge = behind_post(layout, post)
        if edge is None:
            yield not_checked(
                post.mark,
                "guard.twist",
                f"{off}, and nothing lies along the edge behind {post.mark}: a part of the post's moment twists "
                f"{post.receiver.mark}, which is not calculated. Put a rim or a beam there, or let an engineer look at "
                "it.",
            )
        elif post.guard.skew_tie is None:
            yield not_checked(
                post.mark,
                "guard.twist",
                f"{off}: its joint to {edge.mark} passes {float(F_s[row, 0]):,.0f} lb along the edge at each bolt of "
                f"{post.mark}: enter the rated load of that joint along the edge as skew_tie, off its maker's sheet.",
            )
        else:
            rated[post.mark] = post.receiver.mark, edge.mark
    found = judge(
        own,
        [post.mark for post in posts],
        [CASE],
        key="guard.twist",
        demand=F_s,
        capacity=np.array([[post.guard.skew_tie or 1.0] for post in posts]),
        unit=POUND,
        says=[f"the force along the edge between {' and '.join(rated.get(post.mark, ()))}" for post in posts],
    )
    for check in found:
        if check.part in rated:
            joist, along = rated[check.part]
            yield replace(check, remarks=(SKEW.format(joist=joist, edge=along),))


def _plates(at: At, pulls: Array, own: Factors, values: DesignValues) -> list[Check]:
    """The plate of the upper bolt under a push outward, that of the lower one, nearer to the post's end, inward."""
    calculation = Calculation((len(at.marks), 2))
    run = calculation.run
    w = at.guard.plate
    to_end = np.hstack([at.d - at.e - w / 2, np.full_like(at.d, at.e - w / 2)])
    f_c = run(plate_bearing, T=pulls, w=w, D_h=at.hole)
    C_b = bearing_area_factor_for(np.full_like(to_end, w), to_end)
    F_p = run(adjusted_bearing, F_c_perp=values.F_c_perp, C_b=C_b, **own.bearing)
    return judge(
        calculation,
        at.marks,
        [f"{CASE}, upper bolt", f"{CASE}, lower bolt"],
        key="guard.plate",
        demand=f_c,
        capacity=F_p,
        unit=PSI,
        says="the tension in its bolt",
        notes=("C_b counts where the plate lies 3 in. or more from the post's end (NDS 2018, 3.10.4).",),
    )


def _along(layout: Layout, posts: Sequence[GuardPost]) -> Iterator[Check]:
    """A push along the rail: waived by the edition, or held by each post's bolts across its grain."""
    guard = posts[0].guard
    asked, why = along_asked(layout.project, guard)
    for post in posts:
        if not asked:
            yield nothing_asked(
                post.mark,
                "guard.along",
                f"{post.mark} is not asked to hold a push along the rail: {why}.",
                case=ANY,
            )
            continue
        calculation = Calculation((1, 1))
        at = At(layout, [post], calculation, along=True)
        Z_a = calculation.run(
            bolt_force_along_rail, P=at.P, n=float(post.sharing), H=at.H, t=at.t, d=at.d, e=at.e
        )
        found = bolt_across_grain(layout, post, calculation)
        if isinstance(found, AcrossGrain):
            yield from judge(
                calculation,
                [post.mark],
                [CASE],
                key="guard.along",
                demand=Z_a,
                capacity=found.value,
                unit=POUND,
                says="a push along the rail, on one bolt,",
                notes=(ALONG.format(n=post.sharing), *found.notes),
            )
            continue
        yield not_checked(
            post.mark,
            "guard.along",
            f"A push along the rail brings {float(np.max(Z_a)):,.0f} lb across the grain to each bolt of {post.mark}, "
            f"shared by {post.sharing}: {why}. {found}",
        )
