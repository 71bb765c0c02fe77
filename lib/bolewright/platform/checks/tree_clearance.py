"""Clearance and growth: gap, slot, years of growth, the restraint force, and trees that need to move apart."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from shapely import LineString, Polygon
from shapely import Point as PlanPoint

from bolewright.bracing.plan import support_movement
from bolewright.bracing.standing import resultant_movement
from bolewright.bracing.stiffness import spring_of
from bolewright.bracing.tie import greater_movement, movement_against, movement_apart, trunk_movement
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import first_most, least_of, most_of
from bolewright.platform.analysis.held_ways import held_ways, slides
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import run_bolt_stiffness
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.analysis.trunk_sway import run_trunk
from bolewright.platform.analysis.unit_push import REFERENCE, restraint_push
from bolewright.platform.checks.lateral import Run, start, unprinted
from bolewright.platform.checks.tree_lateral import tree_tie_capacity
from bolewright.platform.checks.tree_slots import bracket_checks, run_sway_noted, slot_check
from bolewright.platform.layout.layout import trunk_radius
from bolewright.platform.layout.outlines import measured_outline, trunk_outline
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Tree
from bolewright.tree.growth import (
    gap_needed,
    years_to_storm_contact,
)
from bolewright.tree.sway import tied_tree_force
from bolewright.units import INCH, NONE, POUND, YEAR

ARBORIST = (
    "A qualified arborist looks at the tree first; dead, hollow or lightning-struck wood carries nothing."
)
FREE_NOTE = (
    "This trunk bears nothing: it sways by itself, and the platform moves against it. The arborist says before digging "
    "how near footings may come to its roots."
)
FOOT = 4.0  # in
FOOT_NOTE = (
    "a foot or a child goes through (no sphere of 4 in. may pass a guard, IRC 2021, R312.1.3). Guard the opening, or "
    "cover the gap with a loose collar that the trunk can push aside."
)
FAR = 72.0  # in: more than any trunk sways and grows; one farther off that bears nothing is left out
TIED_NOTE = (
    "A tied trunk is held by the posts at this height for good: the arborist says first whether it may be; else let "
    "its "
    "bearings slide."
)
PAIR_NOTE = (
    "The arborist looks first. Two trees move apart in the wind: all but one need a bearing that slides."
)


def tree_clearance_checks(lateral: LateralAnalysis) -> list[Check]:
    """Checks of the room that every tree needs."""
    checks: list[Check] = []
    bolts = [f for f in lateral.frames if isinstance(f, BoltFrame)]
    for tree in lateral.path.layout.project.trees:
        if tree.mark not in lateral.sway and _nearest(lateral, tree)[1] > FAR:
            continue
        if tree.sway_seen is None and (tree.crown_area is None or tree.crown_center is None):
            checks.append(
                not_checked(
                    tree.mark,
                    "tree.sway",
                    f"{tree.mark}: the sway of the trunk is not known, so neither is the room or the force it needs; "
                    "after the arborist's look, enter sway_seen and sway_seen_at, or crown_area and crown_center.",
                )
            )
            continue
        checks += _gap(lateral, tree)
        own = [f for f in bolts if f.tree.mark == tree.mark]
        if not lateral.loose and any(any(held_ways(f.support.lateral)) for f in own):
            checks.append(_tie(lateral, own))
    for i, frame in enumerate(lateral.frames):
        if not isinstance(frame, BoltFrame):
            continue
        checks += bracket_checks(lateral, i, frame)
        if slides(frame.support.lateral) and lateral.sway[frame.tree.mark] is not None:
            checks.append(slot_check(lateral, i, frame))
    return [*checks, *_pairs(bolts)]


def movement_here(lateral: LateralAnalysis, tree: Tree) -> float | None:
    """How far trunk and platform move apart at most at the trunk, and no less than its sway (in); None unknown."""
    if tree.sway_seen is None and (tree.crown_area is None or tree.crown_center is None):
        return None
    floor = lateral.path.layout.project.platform.floor_height
    s, _ = run_sway_noted(Calculation().run, lateral, tree, floor)
    return max([s, *(float(_apart(unprinted(), state, lateral, tree, s).max()) for state in lateral.apart)])


def _gap(lateral: LateralAnalysis, tree: Tree) -> list[Check]:
    """Gap from the bark to the nearest deck, joist or beam, and the years until it is gone in a storm."""
    nearest, gap = _nearest(lateral, tree)
    floor = lateral.path.layout.project.platform.floor_height
    calculations: list[tuple[Calculation, Array]] = []
    taken: dict[int, str] = {}
    for state in lateral.apart:
        calculation = start(lateral)
        s, notes = run_sway_noted(calculation.run, lateral, tree, floor)
        u = _apart(calculation.run, state, lateral, tree, s)
        taken[id(calculation)] = state.words
        calculations.append((calculation, calculation.run(greater_movement, s=s, u=u)))
    if not calculations:
        calculation = start(lateral)
        s, notes = run_sway_noted(calculation.run, lateral, tree, floor)
        calculations.append((calculation, np.full((1, lateral.cases.count), s)))
    calculation, s_u = most_of(calculations, lambda item: float(np.max(item[1])))
    case = first_most(s_u)
    years = Calculation(calculation.shape)
    run = calculation.run
    wanted = run(gap_needed, s=s_u, g=tree.growth, t=tree.service, m=tree.margin)
    has = gap
    where = f"from the bark to {nearest}"
    if float(np.max(s_u)) > float(np.min(s_u)):
        where += f"; {lateral.cases.words[case]}; {taken[id(calculation)]}"
    check = judge(
        calculation,
        [tree.mark],
        ["any"] * lateral.cases.count,
        key="tree.clearance",
        demand=wanted,
        capacity=has,
        unit=INCH,
        says=f"the clearance required to {nearest}",
        where=lambda row, column: where,
        notes=(ARBORIST, *_warnings(lateral, tree), *notes),
        nothing=f"nothing is left of the gap to {nearest}; {float(np.max(wanted)):.1f} in are wanted",
    )[0]
    t = years.run(years_to_storm_contact, c=gap, s=s_u, g=tree.growth)
    left = t
    gone = judge(
        years,
        [tree.mark],
        ["any"] * lateral.cases.count,
        key="tree.clearance_years",
        demand=tree.service,
        capacity=left,
        unit=YEAR,
        says=f"the time to the next service, against the years until the bark meets {nearest} in a storm,",
        where=lambda row, column: f"from the bark to {nearest}",
        nothing=f"in a storm the bark meets {nearest} already now, before it has grown at all",
    )[0]
    return [check, gone]


def _nearest(lateral: LateralAnalysis, tree: Tree) -> tuple[str, float]:
    """What is nearest to the bark, as measured or as a circle of its girth, and the gap to it (in)."""
    layout = lateral.path.layout
    R = trunk_radius(tree)
    gaps = {"the decking": layout.deck.distance(PlanPoint(tree.at)) - R}
    gaps |= {m.mark: m.line.distance(tree.at) - m.width / 2 - R for m in layout.members}
    if measured_outline(layout.project, tree) is not None:
        bark = trunk_outline(layout.project, tree)
        gaps["the decking"] = layout.deck.distance(
            bark
        )  # measured at the floor; timbers lie as near the bolts
        for m in layout.members:
            off = bark.distance(LineString([m.line.start, m.line.end])) - m.width / 2
            gaps[m.mark] = min(gaps[m.mark], off)
    nearest = least_of(gaps, gaps.__getitem__)
    return nearest, gaps[nearest]


def _warnings(lateral: LateralAnalysis, tree: Tree) -> tuple[str, ...]:
    """What a person must know of a trunk that bears nothing, and of an opening that a foot goes through."""
    layout = lateral.path.layout
    said = [] if tree.mark in lateral.sway else [FREE_NOTE]
    at = PlanPoint(tree.at)
    if any(Polygon(ring).contains(at) for ring in layout.project.platform.openings):
        bark = trunk_outline(layout.project, tree)
        gap = layout.deck.distance(bark)
        if gap > FOOT:
            said.append(f"The gap to the decking is {gap:.1f} in or more: {FOOT_NOTE}")
    return tuple(said)


def _apart(run: Run, state: State, lateral: LateralAnalysis, tree: Tree, s: float) -> Array:
    """How far the platform moves off the trunk at the trunk's place, in plan, in every case.

    A trunk that bears nothing sways by itself: at worst against the platform, so both movements add up. One that holds
    the platform by its bolts moves further at the floor, ``s``, than at these.
    """
    u_x, u_y, theta = state.movement[:, None, :]
    at = {"u_x": u_x, "u_y": u_y, "theta": theta, "x": tree.at[0], "y": tree.at[1]}
    signs = np.array([-1.0 if mark == tree.mark else 1.0 for mark in lateral.cases.against])
    moved = []
    for c, s_, way in ((1.0, 0.0, 0), (0.0, 1.0, 1)):
        delta = run(support_movement, **at, c=c, s=s_)
        if tree.mark in lateral.sway:
            g = run(trunk_movement, s=s, c=(lateral.cases.trunk[way] * signs)[None, :])
            delta = run(movement_apart, delta=delta, g=g)
        moved.append(delta)
    Delta = run(resultant_movement, delta_1=moved[0], delta_2=moved[1])
    if tree.mark not in lateral.sway:
        Delta = run(movement_against, Delta=Delta, s=s)
    return np.asarray(Delta, dtype=float)


def tying(bolts: Sequence[BoltFrame]) -> list[BoltFrame]:
    """Those bolts of a tree that hold the platform laterally."""
    return [f for f in bolts if any(run_bolt_stiffness(Calculation().run, f, w) > 0 for w in (0, 1))]


def _tie(lateral: LateralAnalysis, own: list[BoltFrame]) -> Check:
    """Force that a tied tree brings by moving against the rest, two springs in series, in its worse direction."""
    tree = own[0].tree
    capacity = tree_tie_capacity(lateral, tree.mark)
    held = tying(own)
    push = restraint_push(lateral, held)
    calculation = Calculation((1, 1))
    run = calculation.run
    k_f = REFERENCE / push.delta
    if push.is_held:
        k_f = run(spring_of, P=REFERENCE, delta=push.run(run))
    s, notes = run_sway_noted(run, lateral, tree, held[0].level)
    _, k_t = run_trunk(run, held[0])
    H_t = run(tied_tree_force, s=s, k_t=k_t, k_f=k_f)
    if capacity is None:
        return not_checked(
            tree.mark,
            "tree.restraint",
            f"Moving by {s:.2f} in, {tree.mark} brings {float(H_t):,.0f} lb to the platform: ask the arborist whether "
            "it may be tied, and enter the rated side load of its brackets as rated_lateral.",
        )
    return judge(
        calculation,
        [tree.mark],
        ["storm"],
        key="tree.restraint",
        demand=H_t,
        capacity=capacity,
        unit=POUND,
        says="the force that the moving trunk brings to its brackets",
        where=lambda row, column: f"the platform held by its other supports, {push.state.words}",
        notes=(ARBORIST, TIED_NOTE, *notes),
    )[0]


def _pairs(bolts: list[BoltFrame]) -> list[Check]:
    """Of two trees one at least lets the platform slide."""
    tied = sorted({f.tree.mark for f in bolts if f.support.lateral == "tied"})
    if len({f.tree.mark for f in bolts}) < 2:
        return []
    calculation = Calculation((1, 1))
    return judge(
        calculation,
        [" and ".join(tied) or "trees"],
        ["storm"],
        key="platform.restrained_trunks",
        demand=float(len(tied)),
        capacity=1.0,
        unit=NONE,
        says="the number of trees that hold the platform fast",
        notes=(PAIR_NOTE,),
    )
