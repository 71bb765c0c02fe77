"""Cable or rope infill: what its pull asks of end posts, of the rail between them, and of the joints of both."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.cable import cable_line_load, end_post_moment, end_post_reaction
from bolewright.calculation import Calculation
from bolewright.platform.checks.guard_common import guard_factors
from bolewright.platform.layout.guard_joints import AcrossGrain, bolt_across_grain
from bolewright.platform.layout.guards import GuardRun, below_deck, edge_name, height_of
from bolewright.platform.layout.parts import Layout
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.timber.adjusted_values import (
    adjusted_bending,
    adjusted_compression,
    adjusted_minimum_modulus,
    compression_before_stability,
)
from bolewright.timber.adjustment import LoadDuration, load_duration_factor
from bolewright.timber.bending import bending_stress
from bolewright.timber.columns import (
    column_stability_factor,
    compression_stress,
    critical_buckling_compression,
)
from bolewright.timber.net_section import net_modulus_along_holes
from bolewright.timber.sections import parse_section
from bolewright.units import POUND, PSI

KEYS = ("guard.cable_post", "guard.cable_rail", "guard.cable_rail_end", "guard.cable_joint")
CASE = "D"
C_D = load_duration_factor(LoadDuration.PERMANENT)  # the pull stays
PULL = (
    "All cables at the pull entered, which is to hold their pretension and 50 lb on the infill; it stays, so C_D is "
    "0.9. The end post spans from its upper bolt to the top rail, which is its strut to the other end (statics)."
)


def guard_cable_checks(layout: Layout, run: GuardRun) -> Iterator[Check]:
    """Checks of the end posts of a guard with cables on one edge; none with another infill."""
    guard, name = run.guard, edge_name(run)
    if guard.infill not in ("cable", "rope"):
        return
    if guard.cable_pull is None or not run.posts:
        missing = "the pull of one of them (cable_pull)" if run.posts else "a post"
        why = (
            f"{name}: its {guard.infill} pulls on the end posts, pretension and 50 lb on the infill together; the file "
            f"does not give {missing}."
        )
        yield from (not_checked(name, key, why) for key in KEYS)
        return
    yield from _post(layout, run)
    yield from _rail(layout, run)
    yield from _joint(layout, run)


def pull_on_end_post(layout: Layout, run: GuardRun) -> tuple[Calculation, float, float]:
    """A calculation with the pull on an end post: its line load, and the height that the post spans (in)."""
    guard = run.guard
    calculation = Calculation((1, 1))
    w_c = calculation.run(cable_line_load, T=guard.cable_pull, s=guard.gap)
    t = max(below_deck(layout, post) for post in (run.posts[0], run.posts[-1]))
    return calculation, float(w_c), height_of(layout.project) + t + guard.bolt_edge


def _post(layout: Layout, run: GuardRun) -> Iterator[Check]:
    guard = run.guard
    section = parse_section(guard.section)
    values, own = guard_factors(guard, section)
    calculation, w_c, h = pull_on_end_post(layout, run)
    M = calculation.run(end_post_moment, w_c=w_c, h=h)
    S = calculation.run(net_modulus_along_holes, b=section.d, d=section.b, n=1.0, D_h=guard.cable_hole)
    yield from judge(
        calculation,
        [edge_name(run)],
        [CASE],
        key="guard.cable_post",
        demand=calculation.run(bending_stress, M=M, S=S),
        capacity=calculation.run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **own.bending),
        unit=PSI,
        says="bending of an end post by its cables",
        notes=(PULL, *own.notes),
    )


def _rail(layout: Layout, run: GuardRun) -> Iterator[Check]:
    """The cap in compression between posts, about its thin side; the fastening of its end."""
    guard, name = run.guard, edge_name(run)
    section = parse_section(guard.cap)
    values, own = guard_factors(guard, section)
    calculation, w_c, h = pull_on_end_post(layout, run)
    calc = calculation.run
    R = calc(end_post_reaction, w_c=w_c, h=h)
    f_c = calc(compression_stress, P=R, A=section.b * section.d)
    E_min_p = calc(adjusted_minimum_modulus, E_min=values.E_min, **own.modulus)
    span = max(run.spans, default=run.line.length)
    F_cE = calc(critical_buckling_compression, E_min_p=E_min_p, l_e=span, d=section.b)
    F_star = calc(compression_before_stability, F_c=values.F_c, C_D=C_D, **own.compression)
    C_P = calc(column_stability_factor, F_cE=F_cE, F_c_star=F_star, c=0.8)
    yield from judge(
        calculation,
        [name],
        [CASE],
        key="guard.cable_rail",
        demand=f_c,
        capacity=calc(adjusted_compression, F_c=values.F_c, C_D=C_D, C_P=C_P, **own.compression),
        unit=PSI,
        says="compression of its cap by the cables",
        notes=(PULL,),
    )
    ends, w_c, h = pull_on_end_post(layout, run)
    R = ends.run(end_post_reaction, w_c=w_c, h=h)
    if guard.rail_fastening is None:
        why = (
            f"{name}: the cables press {float(np.max(R)):,.0f} lb into each end of the rail (rail_fastening)."
        )
        yield not_checked(name, "guard.cable_rail_end", why)
        return
    yield from judge(
        ends,
        [name],
        [CASE],
        key="guard.cable_rail_end",
        demand=R,
        capacity=guard.rail_fastening,
        unit=POUND,
        says="the force of the cables at the end of its rail",
    )


def _joint(layout: Layout, run: GuardRun) -> Iterator[Check]:
    name = edge_name(run)
    for post in dict.fromkeys((run.posts[0], run.posts[-1])):
        calculation, w_c, h = pull_on_end_post(layout, run)
        R = calculation.run(end_post_reaction, w_c=w_c, h=h)
        found = (
            bolt_across_grain(layout, post, calculation, C_D=C_D)
            if post.receiver is not None
            else "Nothing takes this post."
        )
        if not isinstance(found, AcrossGrain):
            why = (
                f"{name}: the cables bring {float(np.max(R)):,.0f} lb along the guard to {post.mark}. {found}"
            )
            yield not_checked(name, "guard.cable_joint", why, at=post.mark)
            continue
        yield from judge(
            calculation,
            [name],
            [CASE],
            key="guard.cable_joint",
            at=post.mark,
            demand=R,
            capacity=found.value,
            unit=POUND,
            says=f"the force of the cables on the upper bolt of {post.mark}",
            notes=(PULL, *found.notes),
        )
