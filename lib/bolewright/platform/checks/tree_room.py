"""Room for the tree: gap, slot, years of growth, the force of a tied stem, and trees that need to move apart."""

from __future__ import annotations

import math

import numpy as np
from shapely import Point as PlanPoint

from bolewright.bracing.plan import plan_stiffness
from bolewright.calculation import Calculation
from bolewright.platform.check import Check, Topic, demand_capacity_ratio, judge, not_checked
from bolewright.platform.checks.tree_sideways import tree_tie_capacity
from bolewright.platform.level_stiffness import Run, run_bolt_stiffness
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.project import Tree
from bolewright.platform.sideways import Sideways
from bolewright.platform.stem_sway import run_crown_sway, run_stem, run_sway
from bolewright.tree.growth import gap_needed, growth_over_years, years_to_contact
from bolewright.tree.sway import slide_each_way, slot_length, tied_tree_force
from bolewright.units import INCH, NONE, POUND, YEAR

ARBORIST = (
    "A qualified arborist looks at the tree first; dead, hollow or lightning-struck wood carries nothing."
)
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
                    "enter sway_seen and sway_seen_at, or crown_area and crown_center.",
                )
            )
            continue
        checks.append(_gap(sideways, tree))
        own = [f for f in bolts if f.tree.mark == tree.mark]
        if not sideways.loose and any(f.support.sideways in ("tied", "slides") for f in own):
            checks.append(_tie(sideways, own))
    for frame in bolts:
        checks.append(_contact(frame))
        if frame.support.sideways in ("slides", "floats") and sideways.sway[frame.tree.mark] is not None:
            checks.append(_slot(sideways, frame))
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


def _gap(sideways: Sideways, tree: Tree) -> Check:
    """Gap from the bark to the nearest deck, joist or carrier, over the years to the next service."""
    layout = sideways.path.layout
    girth = tree.girth if tree.girth is not None else math.pi * float(tree.diameter or 0.0)
    bark = girth / (2 * math.pi)
    parts = {"the decking": layout.deck.distance(PlanPoint(tree.at))}
    parts |= {m.mark: m.line.distance(tree.at) - m.width / 2 for m in layout.members}
    nearest = min(parts, key=lambda name: parts[name])
    gap = parts[nearest] - bark
    calculation = Calculation((1, 1))
    run = calculation.run
    s, notes = _run_sway(run, sideways, tree, layout.project.platform.floor_height)
    wanted = run(gap_needed, s=s, g=tree.growth, t=tree.service, m=tree.margin)
    has = max(gap, 1e-6)
    run(demand_capacity_ratio, demand=wanted, capacity=has)
    return judge(
        calculation,
        [tree.mark],
        ["any"],
        topic=Topic.TREE_ROOM,
        limit_state="gap round the stem",
        demand=wanted,
        capacity=has,
        unit=INCH,
        clause="Common practice",
        says=f"the gap wanted to {nearest}",
        where=lambda row, column: f"from the bark to {nearest}",
        notes=(*notes, ARBORIST),
    )[0]


def _contact(frame: BoltFrame) -> Check:
    """Years until the bark meets the bracket."""
    tree, bolt = frame.tree, frame.placed.bolt
    clear = frame.placed.x_b - bolt.seat_length / 2 - bolt.slide - frame.placed.girth / (2 * math.pi)
    calculation = Calculation((1, 1))
    run = calculation.run
    t = run(years_to_contact, c=max(clear, 1e-6), g=tree.growth)
    run(demand_capacity_ratio, demand=tree.service, capacity=t)
    return judge(
        calculation,
        [frame.support.mark],
        ["any"],
        topic=Topic.TREE_ROOM,
        limit_state="years until the bark meets the bracket",
        demand=tree.service,
        capacity=t,
        unit=YEAR,
        clause="Geometry",
        says="the time to the next service",
    )[0]


def _slot(sideways: Sideways, frame: BoltFrame) -> Check:
    mark, tree = frame.support.mark, frame.tree
    calculation = Calculation((1, 1))
    run = calculation.run
    s, notes = _run_sway(run, sideways, tree, frame.level)
    w = run(growth_over_years, g=tree.growth, t=tree.service)
    c_s = run(slide_each_way, s=s, w=w, m=tree.margin)
    wanted = run(slot_length, c_s=c_s, D=frame.placed.bolt.diameter)
    if frame.support.slot is None:
        return not_checked(
            mark,
            Topic.TREE_ROOM,
            "slot",
            f"{mark} slides, but its slot is not given: it needs {float(wanted):.2f} in.",
            "Common practice",
        )
    run(demand_capacity_ratio, demand=wanted, capacity=frame.support.slot)
    return judge(
        calculation,
        [mark],
        ["any"],
        topic=Topic.TREE_ROOM,
        limit_state="slot",
        demand=wanted,
        capacity=frame.support.slot,
        unit=INCH,
        clause="Common practice",
        says="the slot wanted",
        notes=notes,
    )[0]


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
            f"Moving by {s:.2f} in, {tree.mark} brings {float(H_t):,.0f} lb to the platform: enter the rated side load "
            "of its brackets as rated_side.",
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
        notes=notes,
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
        notes=("Two trees move apart in the wind: all but one need a bearing that slides.",),
    )
