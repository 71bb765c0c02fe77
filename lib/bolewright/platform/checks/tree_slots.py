"""Room at the bearings on a tree: slots, and the years until bark meets the bracket or grows over the bearing."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.standing import resultant_movement
from bolewright.bracing.tie import greater_movement
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import most_of
from bolewright.platform.analysis.held_ways import held_ways
from bolewright.platform.analysis.lateral import LateralAnalysis, State
from bolewright.platform.analysis.lateral_stiffness import Run
from bolewright.platform.analysis.lateral_supports import BoltFrame
from bolewright.platform.analysis.trunk_sway import run_crown_sway, run_sway
from bolewright.platform.checks.lateral import run_apart, start, unprinted
from bolewright.platform.limit_states.check import Check, judge, not_checked
from bolewright.platform.loads.combine import Array
from bolewright.platform.project import Tree
from bolewright.tree.growth import (
    growth_over_years,
    years_to_contact,
    years_to_storm_contact,
    years_to_swallow,
)
from bolewright.tree.sway import slide_each_way, slot_length
from bolewright.units import INCH, YEAR

SLOT_NOTE = "Platform and trunk are moved apart in the worst case, and no less than by the trunk's own sway."
SEEN_NOTE = "Sway seen in strong wind, scaled in proportion to height coming down and by its square going up."
ESTIMATE_NOTE = "Sway by crown wind, doubled: uncertain by a factor of two or more, observe the tree."


def _sway_note(tree: Tree) -> str:
    return SEEN_NOTE if tree.sway_seen is not None else ESTIMATE_NOTE


def run_sway_noted(
    run: Run, lateral: LateralAnalysis, tree: Tree, level: float
) -> tuple[float, tuple[str, ...]]:
    """Sway used, and the notes; where both are known the estimate is printed beside what was seen."""
    notes = [_sway_note(tree)]
    sway = float(run_sway(run, lateral.path, tree, level) or 0.0)
    if tree.sway_seen is not None and tree.crown_area is not None and tree.crown_center is not None:
        estimate = run_crown_sway(unprinted(), lateral.path, tree, level)
        notes.append(
            f"By trunk bending under crown wind the sway would be {estimate:.2f} in, within a factor of two"
            + ("." if estimate < sway else ": more than was seen, so it counts.")
        )
        if estimate < sway:
            run_crown_sway(run, lateral.path, tree, level)
    return sway, tuple(notes)


def bracket_checks(lateral: LateralAnalysis, i: int, frame: BoltFrame) -> list[Check]:
    """Years until the bark meets the bracket, in a storm where it slides, and until it grows over the bearing."""
    tree, bolt = frame.tree, frame.placed.bolt
    clear = frame.placed.from_bark(frame.placed.x_b - bolt.seat_length / 2 - bolt.slide)
    calculation = Calculation((1, 1))
    run = calculation.run
    if frame.support.lateral in ("slides", "floats"):
        moved = max(0.0, _greatest_apart(lateral, i, frame) - bolt.slide)
        t = run(years_to_storm_contact, c=clear, s=moved, g=tree.growth)
    else:
        t = run(years_to_contact, c=clear, g=tree.growth)
    over = Calculation((1, 1))
    p_b = frame.placed.from_bark(frame.placed.x_b + bolt.seat_length / 2)
    swallowed = over.run(years_to_swallow, p_b=p_b, g=tree.growth)
    found = []
    for own, years, key, nothing in (
        (calculation, t, "tree_bolt.contact_years", "the bark meets the bracket already now"),
        (
            over,
            swallowed,
            "tree_bolt.overgrown_years",
            "the bark is over the bearing already",
        ),
    ):
        capacity = float(years)
        found += judge(
            own,
            [frame.support.mark],
            ["any"],
            key=key,
            demand=tree.service,
            capacity=capacity,
            unit=YEAR,
            says="the time to the next service",
            nothing=nothing,
        )
    return found


def _greatest_apart(lateral: LateralAnalysis, i: int, frame: BoltFrame) -> float:
    """Greatest movement of the platform over the trunk along a bolt, no less than the trunk's sway (in)."""
    moved = [float(run_apart(unprinted(), lateral, s, i, 0).max()) for s in lateral.apart]
    return max([lateral.sway[frame.tree.mark] or 0.0, *moved])


def slot_check(lateral: LateralAnalysis, i: int, frame: BoltFrame) -> Check:
    """Slot of a bearing that slides: what platform and trunk move apart along it, growth and margin, both ways."""
    mark, tree = frame.support.mark, frame.tree
    found = []
    for state in lateral.apart:
        calculation = start(lateral)
        found.append((state, calculation, _run_slot(calculation.run, lateral, state, i, frame)))
    if not found:
        calculation = start(lateral)
        s, _ = run_sway_noted(calculation.run, lateral, tree, frame.level)
        wanted = _run_length(calculation.run, frame, np.full((1, lateral.cases.count), s))
        return _slot_needed(mark, float(wanted.max()))
    governs, calculation, wanted = most_of(found, lambda item: float(item[2].max()))
    if frame.support.slot is None:
        return _slot_needed(mark, float(wanted.max()))
    return judge(
        calculation,
        [mark],
        ["storm"] * lateral.cases.count,
        key="tree_bolt.slot",
        demand=wanted,
        capacity=frame.support.slot,
        unit=INCH,
        says="the slot required",
        where=lambda row, column: f"{lateral.cases.words[column]}; {governs.words}",
        notes=(*run_sway_noted(unprinted(), lateral, tree, frame.level)[1], SLOT_NOTE),
    )[0]


def _slot_needed(mark: str, wanted: float) -> Check:
    reason = f"{mark} slides, but its slot is not given: it needs {wanted:.2f} in."
    return not_checked(mark, "tree_bolt.slot", reason)


def _run_slot(run: Run, lateral: LateralAnalysis, state: State, i: int, frame: BoltFrame) -> Array:
    s, _ = run_sway_noted(run, lateral, frame.tree, frame.level)
    u = run_apart(run, lateral, state, i, 0 if not held_ways(frame.support.lateral)[0] else 1)
    if frame.support.lateral == "floats":
        u = run(resultant_movement, delta_1=u, delta_2=run_apart(run, lateral, state, i, 1))
    return _run_length(run, frame, run(greater_movement, s=s, u=u))


def _run_length(run: Run, frame: BoltFrame, s: Array) -> Array:
    tree = frame.tree
    w = run(growth_over_years, g=tree.growth, t=tree.service)
    c_s = run(slide_each_way, s=s, w=w, m=tree.margin)
    return np.asarray(run(slot_length, c_s=c_s, D=frame.placed.bolt.diameter), dtype=float)
