"""Guards along an edge: rails, infill, height, gaps and weight."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from bolewright.bracing.guard import baluster_moment, guard_weight, rail_moment
from bolewright.calculation import Calculation
from bolewright.platform.checks.guard_cables import guard_cable_checks
from bolewright.platform.checks.guard_common import (
    ANY,
    C_D,
    CASE,
    DURATION,
    LEAST_HEIGHT,
    MOST_APART,
    SPHERE,
    fastened,
    guard_factors,
    one_check,
)
from bolewright.platform.layout.guard_sizes import weight_of_run
from bolewright.platform.layout.guards import INFILL, PUSH, GuardRun, edge_name, height_of, line_load, push_on
from bolewright.platform.layout.parts import Layout
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.platform.project import Guard
from bolewright.timber.adjusted_values import adjusted_bending
from bolewright.timber.bending import bending_stress
from bolewright.timber.section_properties import section_modulus
from bolewright.timber.sections import parse_section
from bolewright.units import INCH, PLF, POUND, PSI, feet_inches

CLIMBABLE = "{name}: its {infill} can be climbed: children get a foothold between 4 and 34 in. over the deck."

ALONE = (
    "{name} has one post alone: a push at its rail's end, {past:.0f} in. past {mark}, twists the post and its bolts, "
    "which is not calculated. A second post, or a rail whose end something else holds, which an engineer looks at."
)


def guard_edge_checks(layout: Layout, run: GuardRun) -> Iterator[Check]:
    """Checks of rails, infill, height, openings and weight along one edge."""
    name, guard = edge_name(run), run.guard
    project = layout.project
    if not run.posts:
        reason = (
            f"{name} has no post: no joist or block ends there to take one. Put blocks to the next joist there, "
            "or name places."
        )
        yield from (
            not_checked(name, key, reason)
            for key in ("guard.spacing", "guard.rail_outward", "guard.rail_down")
        )
    else:
        span = max(run.spans, default=0.0)
        if len(run.posts) == 1:
            why = ALONE.format(name=name, mark=run.posts[0].mark, past=run.past)
            yield not_checked(name, "guard.spacing", why)
        else:
            yield from one_check(name, "guard.spacing", span, MOST_APART, INCH, "the distance of its posts")
        yield from _rails(layout, run, span)
    push = max((push_on(layout, post) for post in run.posts), default=PUSH)
    yield from fastened(
        name, "guard.rail_fastening", guard.rail_fastening, push, "rail_fastening", "a rail's end"
    )
    yield from _infill(layout, run)
    yield from guard_cable_checks(layout, run)
    least = LEAST_HEIGHT.get(project.code.basis or "IBC", 42.0)
    if height_of(project) >= least:
        said = f"{name} is {feet_inches(height_of(project))} high, and {feet_inches(least)} are asked."
        yield nothing_asked(name, "guard.height", said, least=height_of(project), unit=INCH, case=ANY)
    else:
        high = feet_inches(height_of(project))
        for check in one_check(name, "guard.height", least, height_of(project), INCH, "the height asked"):
            yield replace(
                check, sentence=f"{name} fails: it is {high} high, and {feet_inches(least)} are asked."
            )
    yield from _openings(run)
    if guard.opening is not None:
        said = f"The weight of {name} comes onto the framing at its posts."
        yield nothing_asked(name, "guard.weight", said, case=ANY)
        return
    calculation = Calculation((1, 1))
    w_g = calculation.run(guard_weight, W=weight_of_run(layout, run), L=run.line.length)
    yield from judge(
        calculation,
        [name],
        [ANY],
        key="guard.weight",
        demand=np.array([[float(w_g)]]),
        capacity=max(project.loads.guard, 1e-6),
        unit=PLF,
        says="the weight of its posts, rails and infill",
        notes=("The weight on this edge is that of guard in loads.",),
    )


def _rails(layout: Layout, run: GuardRun, span: float) -> Iterator[Check]:
    """Cap pushed outward, about its strong axis; the rail on edge loaded downward; each alone."""
    guard = run.guard
    for key, size, flat, says in (
        ("guard.rail_outward", guard.cap, False, "a push outward at its middle"),
        ("guard.rail_down", guard.top_rail, False, "a load down at its middle"),
    ):
        section = parse_section(size)
        values, own = guard_factors(guard, section, flat=flat)
        calculation = Calculation((1, 1))
        run_ = calculation.run
        M = run_(rail_moment, P_1=PUSH, w=line_load(layout.project), l=span, a=run.past)
        S = run_(section_modulus, b=section.b, d=section.d)
        f_b = run_(bending_stress, M=M, S=S)
        F_b_p = run_(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **own.bending)
        yield from judge(
            calculation,
            [edge_name(run)],
            [CASE],
            key=key,
            demand=np.array([[float(f_b)]]),
            capacity=F_b_p,
            unit=PSI,
            says=says,
            notes=(
                "Cap and rail each for its own direction, as simple spans, and past the last post as a cantilever.",
                DURATION,
            ),
        )


def _infill(layout: Layout, run: GuardRun) -> Iterator[Check]:
    """50 lb on a square foot: on one baluster alone, or by the rating of what is no wood."""
    name, guard = edge_name(run), run.guard
    climbed = guard.infill in ("boards", "cable", "rope") if guard.climbable is None else guard.climbable
    notes = (CLIMBABLE.format(name=name, infill=guard.infill),) if climbed else ()
    yield from fastened(
        name, "guard.infill_fastening", guard.infill_load, INFILL, "infill_load", "a square foot of infill"
    )
    if guard.infill != "balusters":
        if guard.infill_load is None:
            yield not_checked(
                name,
                "guard.infill",
                f"{name}: {guard.infill} holds 50 lb on a square foot by its maker's rating alone, and its gap "
                "stays under "
                "4 in. under that load: enter infill_load.",
            )
        else:
            yield from one_check(
                name, "guard.infill", INFILL, guard.infill_load, POUND, "the load on a square foot", notes
            )
        return
    section = parse_section(guard.baluster)
    if guard.baluster_strength is None:
        yield not_checked(
            name,
            "guard.infill",
            f"{name}: balusters are sold ungraded, so their strength is not known: enter baluster_strength, the "
            "F_b that "
            "their species is worth, and say where it comes from in infill_note.",
        )
        return
    calculation = Calculation((1, 1))
    M = calculation.run(baluster_moment, P_i=INFILL, l=between_rails(layout, guard))
    S = calculation.run(section_modulus, b=section.b, d=section.d)
    f_b = calculation.run(bending_stress, M=M, S=S)
    own = {"C_M": 1.0, "C_t": 1.0, "C_F": 1.0, "C_fu": 1.0, "C_i": 1.0, "C_r": 1.0}
    F_b_p = calculation.run(adjusted_bending, F_b=guard.baluster_strength, C_D=C_D, C_L=1.0, **own)
    yield from judge(
        calculation,
        [name],
        [CASE],
        key="guard.infill",
        demand=np.array([[float(f_b)]]),
        capacity=F_b_p,
        unit=PSI,
        says="50 lb on one baluster",
        notes=(
            f"The balusters' strength is as typed{f': {guard.infill_note}' if guard.infill_note else ''}; no "
            "factor but C_D "
            "is put on it.",
            *notes,
        ),
    )


def between_rails(layout: Layout, guard: Guard) -> float:
    """Length of a baluster between the rails (in)."""
    top, bottom = parse_section(guard.top_rail), parse_section(guard.bottom_rail)
    return height_of(layout.project) - parse_section(guard.cap).b - top.d - bottom.d - guard.bottom_gap


def _openings(run: GuardRun) -> Iterator[Check]:
    """The greatest gap against the sphere that may not pass: a 4 in. gap lets it through."""
    guard = run.guard
    notes = ("A 4 in. sphere may not pass up to the height asked: a gap of 4 in. itself does not hold.",)
    widest = max(guard.gap, guard.bottom_gap)
    if widest >= SPHERE:
        widest = np.nextafter(max(widest, SPHERE * (1 + 1e-6)), np.inf)
    yield from one_check(
        edge_name(run), "guard.opening", float(widest), SPHERE, INCH, "its widest gap", notes
    )
