"""Ways through a guard: gaps beside stairs, the head of a ladder, gates with their hinges, latch, brace and post."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from bolewright.bracing.gate import (
    gate_bolt_force,
    gate_moment,
    hinge_load,
    hinge_pull,
    hinge_push,
    inclined_bolt_force,
    leaf_brace_force,
    wheel_load,
)
from bolewright.bracing.guard import rail_moment
from bolewright.calculation import Calculation
from bolewright.platform.checks.guard_common import (
    ANY,
    C_D,
    CASE,
    DURATION,
    SPHERE,
    guard_factors,
    one_check,
)
from bolewright.platform.layout.gates import GateAt, find_gates, leaf_height, leaf_weight
from bolewright.platform.layout.guard_joints import AcrossGrain, bolt_across_grain
from bolewright.platform.layout.guard_ways import (
    Way,
    edge_length,
    gate_before,
    ladder_way,
    stair_way,
    stretches,
)
from bolewright.platform.layout.guards import PUSH, GuardPost, line_load
from bolewright.platform.layout.parts import Layout
from bolewright.platform.limit_states.check import Check, judge, not_checked, nothing_asked
from bolewright.timber.adjusted_values import adjusted_bending
from bolewright.timber.bending import bending_stress
from bolewright.timber.net_section import net_section_modulus
from bolewright.timber.section_properties import section_modulus
from bolewright.timber.sections import parse_section
from bolewright.units import INCH, POUND, PSI

STAIRS = (
    "Between the guard's end and the outer face of the stairs, on the wider side; the guard of the stairs goes on "
    "there (IRC 2021, R312.1.3)."
)
WHEEL = "A wheel on the deck bears the free edge: hinges and post get no couple of it."
HINGES = "200 lb down at the free edge, or outward at its top over the hinges, which stand in the middle of its height."
DOWN_OR_OUT = (f"{CASE}, downward", f"{CASE}, outward")
SHARED = "Shared by {n} posts that the rail ties together (rail_posts), as a panel of posts and rails."


def way_checks(layout: Layout) -> Iterator[Check]:
    """Stairs and ladder at an edge that has a guard as a part."""
    project = layout.project
    for edge in range(1, len(project.platform.outline) + 1):
        if not any(edge in g.edges for g in project.guards if g.opening is None):
            continue
        stairs, ladder = stair_way(project, edge), ladder_way(project, edge)
        if stairs is not None:
            gap = max(_beside(layout, edge, stairs))
            demand = gap if gap < SPHERE else float(np.nextafter(max(gap, SPHERE * (1 + 1e-6)), np.inf))
            yield from one_check(
                f"edge {edge}", "guard.gap", demand, SPHERE, INCH, "the gap beside the stairs", (STAIRS,)
            )
        if ladder is not None:
            yield _head(layout, edge, ladder)


def _beside(layout: Layout, edge: int, way: Way) -> tuple[float, float]:
    """Gaps between the stairs and what closes the edge on either side (in)."""
    project = layout.project
    length = edge_length(project, edge)
    parts = [
        part
        for guard in project.guards
        if edge in guard.edges and guard.opening is None
        for part in stretches(project, guard, edge, length)
    ]
    before = max((high for _, high in parts if high <= way.low + 0.01), default=0.0)
    after = min((low for low, _ in parts if low >= way.high - 0.01), default=length)
    return max(way.low - before, 0.0), max(after - way.high, 0.0)


def _head(layout: Layout, edge: int, way: Way) -> Check:
    gate = gate_before(layout.project, way, edge)
    if gate is not None:
        said = f"Gate {gate.mark} stands before the head of the ladder, over all of its width."
        return nothing_asked(f"edge {edge}", "guard.gap", said, case=ANY)
    by = layout.project.ladder.closed_by
    what = (
        f"a {by} there is no guard" if by in ("chain", "hatch") else "the file gives no gate there ([[gate]])"
    )
    why = (
        f"The guard on edge {edge} is open at the head of the ladder, {way.width:.1f} in. wide: {what}. Whoever steps "
        "back walks off there."
    )
    return not_checked(f"edge {edge}", "guard.gap", why)


# ---------------------------------------------------------------------------------------------------------
# Gates


def gate_checks(layout: Layout) -> Iterator[Check]:
    """All checks of all gates."""
    for at in find_gates(layout):
        yield from _use(layout, at)
        yield from _leaf(layout, at)
        yield from _hardware(layout, at)
        yield from _post(layout, at)


def _use(layout: Layout, at: GateAt) -> Iterator[Check]:
    gate, mark = at.gate, at.gate.mark
    behind = stair_way(layout.project, gate.edge) or ladder_way(layout.project, gate.edge)
    if behind is not None and not (at.way.low < behind.high and at.way.high > behind.low):
        behind = None
    if behind is not None:
        clear = behind.width if behind.what == "stairs" else layout.ladder.clear if layout.ladder else 0.0
        says = f"the width of the {behind.what} behind it"
        yield from one_check(mark, "gate.way", clear, gate.width, INCH, says)
    else:
        yield nothing_asked(mark, "gate.way", f"Neither stairs nor ladder are behind {mark}.", case=ANY)
    if gate.swing == "outward":
        why = f"{mark} opens outward, over the drop: whoever leans on it falls. Let it open over the deck."
        yield not_checked(mark, "gate.swing", why)
    elif behind is not None and behind.what == "ladder" and layout.project.ladder.rails_over:
        why = (
            f"The ladder's rails run up over the floor where {mark} shuts and swings: it can do neither. Let the rails "
            "end at the floor and give grab bars beside the gate (ladder.grip)."
        )
        yield not_checked(mark, "gate.swing", why)
    else:
        yield nothing_asked(mark, "gate.swing", f"{mark} opens over the deck, away from the drop.", case=ANY)
    if gate.self_closing:
        yield nothing_asked(mark, "gate.closing", f"{mark} closes by itself.", case=ANY)
    else:
        why = f"{mark} stays open as somebody leaves it: give it springs or sloped hinges (self_closing)."
        yield not_checked(mark, "gate.closing", why)
    gaps = [gate.side_gap, gate.bottom_gap, *([at.guard.gap] if at.guard is not None else [])]
    gaps += [at.gap_beside(post) for post in (at.hung_on, at.closes_to) if post is not None]
    widest = max(gaps)
    if widest >= SPHERE:
        widest = float(np.nextafter(max(widest, SPHERE * (1 + 1e-6)), np.inf))
    notes = ("A 4 in. sphere may not pass: a gap of 4 in. itself does not hold.",)
    yield from one_check(mark, "gate.opening", widest, SPHERE, INCH, "its widest gap", notes)


def _leaf(layout: Layout, at: GateAt) -> Iterator[Check]:
    """Its upper rail pushed outward at its middle, about the axis of its thin side."""
    section = parse_section(at.gate.section)
    values, own = guard_factors(at.gate, section, flat=True)
    calculation = Calculation((1, 1))
    run = calculation.run
    M = run(rail_moment, P_1=PUSH, w=line_load(layout.project), l=at.leaf, a=0.0)
    f_b = run(bending_stress, M=M, S=run(section_modulus, b=section.d, d=section.b))
    F_b_p = run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **own.bending)
    yield from judge(
        calculation,
        [at.gate.mark],
        [CASE],
        key="gate.rail",
        demand=f_b,
        capacity=F_b_p,
        unit=PSI,
        says="a push outward at the middle of its rail",
        notes=(DURATION,),
    )


def _hardware(layout: Layout, at: GateAt) -> Iterator[Check]:
    gate, W, s = at.gate, leaf_weight(layout, at), at.gate.hinge_spacing
    calculation = Calculation((1, 2))
    run = calculation.run
    down, outward = PUSH * np.array([1.0, 0.0]), PUSH * np.array([0.0, 1.0])
    F_h = 0.0 if gate.wheeled else run(hinge_pull, P=down, W=W, w=at.leaf, s=s)
    F_o = run(hinge_push, P_o=outward, h=leaf_height(layout, gate), s=s)
    R_h = run(hinge_load, F_h=F_h, F_o=F_o, P=down, W=W)
    held = (HINGES, WHEEL) if gate.wheeled else (HINGES,)
    yield from _rated(at, calculation, "hinge", R_h, gate.hinge, "the load on one hinge", held, DOWN_OR_OUT)
    yield from _rated(at, Calculation((1, 1)), "latch", PUSH, gate.latch, "a push outward at its latch")
    calculation = Calculation((1, 1))
    if gate.wheeled:
        R_w = calculation.run(wheel_load, P=PUSH, W=W)
        yield from _rated(at, calculation, "wheel", R_w, gate.wheel, "the load on its wheel")
        said = f"The brace of {gate.mark} keeps its leaf square only: {WHEEL[:1].lower()}{WHEEL[1:]}"
        yield nothing_asked(gate.mark, "gate.brace_fastening", said, case=ANY)
        return
    F_d = calculation.run(leaf_brace_force, P=PUSH, W=W, w=at.leaf, h=leaf_height(layout, gate))
    yield from _rated(
        at, calculation, "brace_fastening", F_d, gate.brace_fastening, "the force at the ends of its brace"
    )


def _rated(
    at: GateAt,
    calculation: Calculation,
    key: str,
    demand: object,
    rated: float | None,
    says: str,
    notes: tuple[str, ...] = (),
    cases: tuple[str, ...] = (CASE,),
) -> Iterator[Check]:
    pounds = float(np.max(np.asarray(demand, dtype=float)))
    if rated is None:
        why = f"{at.gate.mark}: {says} is {pounds:,.0f} lb; its rated load ({key}) is not given."
        yield not_checked(at.gate.mark, f"gate.{key}", why)
        return
    yield from judge(
        calculation,
        [at.gate.mark],
        cases,
        key=f"gate.{key}",
        demand=demand,
        capacity=rated,
        unit=POUND,
        says=says,
        notes=notes,
    )


def _post(layout: Layout, at: GateAt) -> Iterator[Check]:
    """Posts on both sides; the one that it hangs on bent along the guard, and its bolts."""
    mark, post = at.gate.mark, at.hung_on
    if post is None or at.closes_to is None or post.receiver is None:
        side = "it hangs on" if post is None or post.receiver is None else "it closes to"
        why = (
            f"No post of the guard that something takes stands within 4 in. of {mark} on the side {side}: put a joist "
            "or a block there, or name places."
        )
        yield not_checked(mark, "gate.posts", why)
        return
    said = f"{mark} hangs on {post.mark} and closes to {at.closes_to.mark}."
    yield nothing_asked(mark, "gate.posts", said, case=ANY)
    if at.gate.wheeled:
        for key in ("gate.post", "gate.joint"):
            yield nothing_asked(mark, key, f"{post.mark} is not bent along the guard: {WHEEL}", case=ANY)
        return
    yield from _bent_along(layout, at, post)
    yield from _joint(layout, at, post)


def _bent_along(layout: Layout, at: GateAt, post: GuardPost) -> Iterator[Check]:
    section = post.section
    values, own = guard_factors(post.guard, section)
    calculation = Calculation((1, 1))
    run = calculation.run
    M = run(gate_moment, P=PUSH, W=leaf_weight(layout, at), w=at.leaf, b=at.arm)
    S = run(net_section_modulus, b=section.d, d=section.b, D_h=post.guard.bolt_diameter + 1 / 16, y=0.0)
    yield from judge(
        calculation,
        [at.gate.mark],
        [CASE],
        key="gate.post",
        demand=run(bending_stress, M=M, S=S),
        capacity=run(adjusted_bending, F_b=values.F_b, C_D=C_D, C_L=1.0, **own.bending),
        unit=PSI,
        says=f"bending of {post.mark} along the guard, 200 lb at the free edge,",
        notes=(DURATION,),
    )


def _joint(layout: Layout, at: GateAt, post: GuardPost) -> Iterator[Check]:
    W = leaf_weight(layout, at)
    guard = post.guard
    calculation = Calculation((1, 1))
    run = calculation.run
    M = run(gate_moment, P=PUSH, W=W, w=at.leaf, b=at.arm)
    s = post.depth - 2 * guard.bolt_edge
    if s <= 0:
        why = f"{post.mark}: no distance is left between its bolts to hold the couple of {at.gate.mark}."
        yield not_checked(at.gate.mark, "gate.joint", why)
        return
    Z_g = run(gate_bolt_force, M_g=M, n=float(post.sharing), s=s)
    R_b = run(inclined_bolt_force, Z_g=Z_g, P=PUSH, W=W)
    found = bolt_across_grain(layout, post, calculation, vertical=(PUSH + W) / 2, level=float(np.max(Z_g)))
    if not isinstance(found, AcrossGrain):
        why = f"{at.gate.mark} brings {float(np.max(R_b)):,.0f} lb to each bolt of {post.mark}. {found}"
        yield not_checked(at.gate.mark, "gate.joint", why)
        return
    yield from judge(
        calculation,
        [at.gate.mark],
        [CASE],
        key="gate.joint",
        demand=R_b,
        capacity=found.value,
        unit=POUND,
        says=f"the couple on a bolt of {post.mark}",
        notes=(SHARED.format(n=post.sharing), *found.notes),
    )
