"""Room for the tree: gap, slot, years of growth, the force of a tied stem, and trees that need to move apart."""

from __future__ import annotations

import math

import numpy as np
from shapely import Point as PlanPoint

from bolewright.bracing.plan import plan_stiffness
from bolewright.bracing.standing import resultant_movement
from bolewright.bracing.tie import greater_movement
from bolewright.calculation import Calculation
from bolewright.platform.check import Check, Topic, demand_capacity_ratio, judge, not_checked
from bolewright.platform.checks.level import run_apart, start, unprinted
from bolewright.platform.checks.tree_sideways import tree_tie_capacity
from bolewright.platform.combine import Array
from bolewright.platform.level_stiffness import Run, run_bolt_stiffness
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.project import Tree
from bolewright.platform.sideways import Sideways, State
from bolewright.platform.stem_sway import run_crown_sway, run_stem, run_sway
from bolewright.tree.growth import (
    gap_needed,
    growth_over_years,
    years_to_contact,
    years_to_storm_contact,
    years_to_swallow,
)
from bolewright.tree.sway import slide_each_way, slot_length, tied_tree_force
from bolewright.units import INCH, NONE, POUND, YEAR

ARBORIST = (
    "A qualified arborist looks at the tree first; dead, hollow or lightning-struck wood carries nothing."
)
TIED_NOTE = (
    "A tied stem is held by the posts at this height for good: the arborist says first whether it may be; else let its "
    "bearings slide."
)
PAIR_NOTE = (
    "The arborist looks first. Two trees move apart in the wind: all but one need a bearing that slides."
)
SLOT_NOTE = "Platform and stem are moved apart in the worst case, and no less than by the stem's own sway."
SEEN_NOTE = "Sway seen in strong wind, scaled in proportion to height coming down and by its square going up."
ESTIMATE_NOTE = "Sway by crown wind, doubled: uncertain by a factor of two or more, observe the tree."


def tree_room_checks(sideways: Sideways) -> list[Check]:
    """Checks of the room that every tree needs."""
    checks: list[Check] = []
    bolts = [f for f in sideways.frames if isinstance(f, BoltFrame)]
    for tree in {f.tree.mark: f.tree for f in bolts}.values():
        if sideways.sway[tree.mark] is None:
            checks.append(
                not_checked(
                    tree.mark,
                    Topic.TREE_ROOM,
                    "sway",
                    f"{tree.mark}: the sway of the stem is not known, so neither is the room or the force it needs; "
                    "after the arborist's look, enter sway_seen and sway_seen_at, or crown_area and crown_center.",
                )
            )
            continue
        checks += _gap(sideways, tree)
        own = [f for f in bolts if f.tree.mark == tree.mark]
        if not sideways.loose and any(f.support.sideways in ("tied", "slides") for f in own):
            checks.append(_tie(sideways, own))
    for i, frame in enumerate(sideways.frames):
        if not isinstance(frame, BoltFrame):
            continue
        checks += _years(sideways, i, frame)
        if frame.support.sideways in ("slides", "floats") and sideways.sway[frame.tree.mark] is not None:
            checks.append(_slot(sideways, i, frame))
    return [*checks, *_pairs(bolts)]


def _sway_note(tree: Tree) -> str:
    return SEEN_NOTE if tree.sway_seen is not None else ESTIMATE_NOTE


def _run_sway(run: Run, sideways: Sideways, tree: Tree, level: float) -> tuple[float, tuple[str, ...]]:
    """Sway used, and the notes; where both are known the estimate is printed beside what was seen."""
    notes = [_sway_note(tree)]
    if tree.sway_seen is not None and tree.crown_area is not None and tree.crown_center is not None:
        estimate = run_crown_sway(run, sideways.path, tree, level)
        notes.append(
            f"By stem bending under crown wind the sway would be {estimate:.2f} in, within a factor of two."
        )
    return float(run_sway(run, sideways.path, tree, level) or 0.0), tuple(notes)


def _gap(sideways: Sideways, tree: Tree) -> list[Check]:
    """Gap from the bark to the nearest deck, joist or carrier, and the years until it is gone in a storm."""
    nearest, gap = _nearest(sideways, tree)
    floor = sideways.path.layout.project.platform.floor_height
    calculations: list[tuple[Calculation, Array]] = []
    for state in sideways.states:
        calculation = start(sideways)
        s, notes = _run_sway(calculation.run, sideways, tree, floor)
        u = _apart(state, sideways, tree)
        calculations.append((calculation, calculation.run(greater_movement, s=s, u=u)))
    if not calculations:
        calculation = start(sideways)
        s, notes = _run_sway(calculation.run, sideways, tree, floor)
        calculations.append((calculation, np.full((1, sideways.cases.count), s)))
    calculation, s_u = max(calculations, key=lambda item: float(np.max(item[1])))
    case = int(np.argmax(s_u))
    years = Calculation(calculation.shape)
    run = calculation.run
    wanted = run(gap_needed, s=s_u, g=tree.growth, t=tree.service, m=tree.margin)
    has = max(gap, 1e-6)
    run(demand_capacity_ratio, demand=wanted, capacity=has)
    where = f"from the bark to {nearest}"
    if float(np.max(s_u)) > float(np.min(s_u)):
        where += f"; {sideways.cases.words[case]}"
    check = judge(
        calculation,
        [tree.mark],
        ["any"] * sideways.cases.count,
        topic=Topic.TREE_ROOM,
        limit_state="gap round the stem",
        demand=wanted,
        capacity=has,
        unit=INCH,
        clause="Common practice",
        says=f"the gap wanted to {nearest}",
        where=lambda row, column: where,
        notes=(ARBORIST, *notes),
    )[0]
    t = years.run(years_to_storm_contact, c=gap, s=s_u, g=tree.growth)
    left = np.maximum(t, 1e-6)
    years.run(demand_capacity_ratio, demand=tree.service, capacity=left)
    gone = judge(
        years,
        [tree.mark],
        ["any"] * sideways.cases.count,
        topic=Topic.TREE_ROOM,
        limit_state="years until the gap is gone in a storm",
        demand=tree.service,
        capacity=left,
        unit=YEAR,
        clause="Geometry",
        says=f"the time to the next service, against the years until the bark meets {nearest} in a storm,",
        where=lambda row, column: f"from the bark to {nearest}",
    )[0]
    return [check, gone]


def _nearest(sideways: Sideways, tree: Tree) -> tuple[str, float]:
    """What is nearest to the bark, and the gap to it (in)."""
    layout = sideways.path.layout
    girth = tree.girth if tree.girth is not None else math.pi * float(tree.diameter or 0.0)
    parts = {"the decking": layout.deck.distance(PlanPoint(tree.at))}
    parts |= {m.mark: m.line.distance(tree.at) - m.width / 2 for m in layout.members}
    nearest = min(parts, key=lambda name: parts[name])
    return nearest, parts[nearest] - girth / (2 * math.pi)


def _apart(state: State, sideways: Sideways, tree: Tree) -> Array:
    """How far the platform moves off the stem at the stem's place, in plan, in every case."""
    x, y = tree.at
    u_x, u_y, theta = state.movement
    signs = np.array([-1.0 if mark == tree.mark else 1.0 for mark in sideways.cases.against])
    stem = sideways.cases.stem * signs * (sideways.sway[tree.mark] or 0.0)
    return np.asarray(np.hypot(u_x - theta * y - stem[0], u_y + theta * x - stem[1])[None, :])


def _years(sideways: Sideways, i: int, frame: BoltFrame) -> list[Check]:
    """Years until the bark meets the bracket, in a storm where it slides, and until it grows over the bearing."""
    tree, bolt = frame.tree, frame.placed.bolt
    bark = frame.placed.girth / (2 * math.pi)
    clear = frame.placed.x_b - bolt.seat_length / 2 - bolt.slide - bark
    calculation = Calculation((1, 1))
    run = calculation.run
    if frame.support.sideways in ("slides", "floats"):
        moved = max(0.0, _greatest_apart(sideways, i, frame) - bolt.slide)
        t = run(years_to_storm_contact, c=clear, s=moved, g=tree.growth)
    else:
        t = run(years_to_contact, c=clear, g=tree.growth)
    over = Calculation((1, 1))
    swallowed = over.run(years_to_swallow, p_b=frame.placed.x_b + bolt.seat_length / 2 - bark, g=tree.growth)
    found = []
    for own, years, limit_state, says in (
        (calculation, t, "years until the bark meets the bracket", "the time to the next service"),
        (over, swallowed, "years until the bark grows over the bearing", "the time to the next service"),
    ):
        capacity = max(float(years), 1e-6)
        own.run(demand_capacity_ratio, demand=tree.service, capacity=capacity)
        found += judge(
            own,
            [frame.support.mark],
            ["any"],
            topic=Topic.TREE_ROOM,
            limit_state=limit_state,
            demand=tree.service,
            capacity=capacity,
            unit=YEAR,
            clause="Geometry",
            says=says,
        )
    return found


def _greatest_apart(sideways: Sideways, i: int, frame: BoltFrame) -> float:
    """Greatest movement of the platform over the stem along a bolt, no less than the stem's sway (in)."""
    moved = [float(run_apart(unprinted(), sideways, s, i, 0).max()) for s in sideways.states]
    return max([sideways.sway[frame.tree.mark] or 0.0, *moved])


def _slot(sideways: Sideways, i: int, frame: BoltFrame) -> Check:
    """Slot of a bearing that slides: what platform and stem move apart along it, growth and margin, both ways."""
    mark, tree = frame.support.mark, frame.tree
    found = []
    for state in sideways.states:
        calculation = start(sideways)
        found.append((state, calculation, _run_slot(calculation.run, sideways, state, i, frame)))
    if not found:
        calculation = start(sideways)
        s, _ = _run_sway(calculation.run, sideways, tree, frame.level)
        wanted = _run_length(calculation.run, frame, np.full((1, sideways.cases.count), s))
        return _slot_needed(mark, float(wanted.max()))
    _, calculation, wanted = max(found, key=lambda item: float(item[2].max()))
    if frame.support.slot is None:
        return _slot_needed(mark, float(wanted.max()))
    calculation.run(demand_capacity_ratio, demand=wanted, capacity=frame.support.slot)
    return judge(
        calculation,
        [mark],
        ["storm"] * sideways.cases.count,
        topic=Topic.TREE_ROOM,
        limit_state="slot",
        demand=wanted,
        capacity=frame.support.slot,
        unit=INCH,
        clause="Common practice",
        says="the slot wanted",
        where=lambda row, column: sideways.cases.words[column],
        notes=(*_run_sway(unprinted(), sideways, tree, frame.level)[1], SLOT_NOTE),
    )[0]


def _slot_needed(mark: str, wanted: float) -> Check:
    reason = f"{mark} slides, but its slot is not given: it needs {wanted:.2f} in."
    return not_checked(mark, Topic.TREE_ROOM, "slot", reason, "Common practice")


def _run_slot(run: Run, sideways: Sideways, state: State, i: int, frame: BoltFrame) -> Array:
    s, _ = _run_sway(run, sideways, frame.tree, frame.level)
    u = run_apart(run, sideways, state, i, 0)
    if frame.support.sideways == "floats":
        u = run(resultant_movement, delta_1=u, delta_2=run_apart(run, sideways, state, i, 1))
    return _run_length(run, frame, run(greater_movement, s=s, u=u))


def _run_length(run: Run, frame: BoltFrame, s: Array) -> Array:
    tree = frame.tree
    w = run(growth_over_years, g=tree.growth, t=tree.service)
    c_s = run(slide_each_way, s=s, w=w, m=tree.margin)
    return np.asarray(run(slot_length, c_s=c_s, D=frame.placed.bolt.diameter), dtype=float)


def _tie(sideways: Sideways, own: list[BoltFrame]) -> Check:
    """Force that a tied tree brings by moving against the rest, two springs in series, in its worse direction."""
    tree = own[0].tree
    capacity = tree_tie_capacity(sideways, tree.mark)
    held = [f for f in own if run_bolt_stiffness(Calculation().run, f, 1) > 0]
    found = []
    for state in sideways.states:
        rest = [s for f, s in zip(sideways.frames, state.springs, strict=True) if f not in held]
        middle = np.mean([f.support.at for f in held], axis=0)
        K = plan_stiffness(rest) + np.eye(3) * 1e-9
        for which in (0, 1):
            axis = sideways.states[0].springs[sideways.row(held[0].support.mark)].axes[which]
            row = np.array([*axis, axis[1] * middle[0] - axis[0] * middle[1]])
            if which == 1 or held[0].support.sideways == "tied":
                found.append(float(1 / (row @ np.linalg.solve(K, row))))
    k_f = max(found)
    calculation = Calculation((1, 1))
    run = calculation.run
    s, notes = _run_sway(run, sideways, tree, held[0].level)
    _, k_t = run_stem(run, held[0])
    H_t = run(tied_tree_force, s=s, k_t=k_t, k_f=k_f)
    if capacity is None:
        return not_checked(
            tree.mark,
            Topic.TREE_ROOM,
            "force of the tied stem",
            f"Moving by {s:.2f} in, {tree.mark} brings {float(H_t):,.0f} lb to the platform: ask the arborist whether "
            "it may be tied, and enter the rated side load of its brackets as rated_side.",
        )
    run(demand_capacity_ratio, demand=H_t, capacity=capacity)
    return judge(
        calculation,
        [tree.mark],
        ["storm"],
        topic=Topic.TREE_ROOM,
        limit_state="force of the tied stem",
        demand=H_t,
        capacity=capacity,
        unit=POUND,
        clause="Statics",
        says="the force that the moving stem brings to its brackets",
        notes=(ARBORIST, TIED_NOTE, *notes),
    )[0]


def _pairs(bolts: list[BoltFrame]) -> list[Check]:
    """Of two trees one at least lets the platform slide."""
    tied = sorted({f.tree.mark for f in bolts if f.support.sideways == "tied"})
    if len({f.tree.mark for f in bolts}) < 2:
        return []
    calculation = Calculation((1, 1))
    calculation.run(demand_capacity_ratio, demand=float(len(tied)), capacity=1.0)
    return judge(
        calculation,
        [" and ".join(tied) or "trees"],
        ["storm"],
        topic=Topic.TREE_ROOM,
        limit_state="trees tied to each other",
        demand=float(len(tied)),
        capacity=1.0,
        unit=NONE,
        clause="Common practice",
        says="the number of trees that hold the platform fast",
        notes=(PAIR_NOTE,),
    )
