"""Room at the bearings on a tree: slots, and the years until bark meets the bracket or grows over the bearing."""

from __future__ import annotations

import numpy as np

from bolewright.bracing.standing import resultant_movement
from bolewright.bracing.tie import greater_movement
from bolewright.calculation import Calculation
from bolewright.mechanics.ties import most_of
from bolewright.platform.check import Check, judge, not_checked
from bolewright.platform.checks.level import run_apart, start, unprinted
from bolewright.platform.combine import Array
from bolewright.platform.level_stiffness import Run
from bolewright.platform.level_supports import BoltFrame
from bolewright.platform.project import Tree
from bolewright.platform.sideways import Sideways, State
from bolewright.platform.stem_sway import run_crown_sway, run_sway
from bolewright.tree.growth import (
    growth_over_years,
    years_to_contact,
    years_to_storm_contact,
    years_to_swallow,
)
from bolewright.tree.sway import slide_each_way, slot_length
from bolewright.units import INCH, YEAR

SLOT_NOTE = "Platform and stem are moved apart in the worst case, and no less than by the stem's own sway."
SEEN_NOTE = "Sway seen in strong wind, scaled in proportion to height coming down and by its square going up."
ESTIMATE_NOTE = "Sway by crown wind, doubled: uncertain by a factor of two or more, observe the tree."


def _sway_note(tree: Tree) -> str:
    return SEEN_NOTE if tree.sway_seen is not None else ESTIMATE_NOTE


def run_sway_noted(run: Run, sideways: Sideways, tree: Tree, level: float) -> tuple[float, tuple[str, ...]]:
    """Sway used, and the notes; where both are known the estimate is printed beside what was seen."""
    notes = [_sway_note(tree)]
    sway = float(run_sway(run, sideways.path, tree, level) or 0.0)
    if tree.sway_seen is not None and tree.crown_area is not None and tree.crown_center is not None:
        estimate = run_crown_sway(unprinted(), sideways.path, tree, level)
        notes.append(
            f"By stem bending under crown wind the sway would be {estimate:.2f} in, within a factor of two"
            + ("." if estimate < sway else ": more than was seen, so it counts.")
        )
        if estimate < sway:
            run_crown_sway(run, sideways.path, tree, level)
    return sway, tuple(notes)


def bracket_checks(sideways: Sideways, i: int, frame: BoltFrame) -> list[Check]:
    """Years until the bark meets the bracket, in a storm where it slides, and until it grows over the bearing."""
    tree, bolt = frame.tree, frame.placed.bolt
    clear = frame.placed.from_bark(frame.placed.x_b - bolt.seat_length / 2 - bolt.slide)
    calculation = Calculation((1, 1))
    run = calculation.run
    if frame.support.sideways in ("slides", "floats"):
        moved = max(0.0, _greatest_apart(sideways, i, frame) - bolt.slide)
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


def _greatest_apart(sideways: Sideways, i: int, frame: BoltFrame) -> float:
    """Greatest movement of the platform over the stem along a bolt, no less than the stem's sway (in)."""
    moved = [float(run_apart(unprinted(), sideways, s, i, 0).max()) for s in sideways.states]
    return max([sideways.sway[frame.tree.mark] or 0.0, *moved])


def slot_check(sideways: Sideways, i: int, frame: BoltFrame) -> Check:
    """Slot of a bearing that slides: what platform and stem move apart along it, growth and margin, both ways."""
    mark, tree = frame.support.mark, frame.tree
    found = []
    for state in sideways.states:
        calculation = start(sideways)
        found.append((state, calculation, _run_slot(calculation.run, sideways, state, i, frame)))
    if not found:
        calculation = start(sideways)
        s, _ = run_sway_noted(calculation.run, sideways, tree, frame.level)
        wanted = _run_length(calculation.run, frame, np.full((1, sideways.cases.count), s))
        return _slot_needed(mark, float(wanted.max()))
    _, calculation, wanted = most_of(found, lambda item: float(item[2].max()))
    if frame.support.slot is None:
        return _slot_needed(mark, float(wanted.max()))
    return judge(
        calculation,
        [mark],
        ["storm"] * sideways.cases.count,
        key="tree_bolt.slot",
        demand=wanted,
        capacity=frame.support.slot,
        unit=INCH,
        says="the slot wanted",
        where=lambda row, column: sideways.cases.words[column],
        notes=(*run_sway_noted(unprinted(), sideways, tree, frame.level)[1], SLOT_NOTE),
    )[0]


def _slot_needed(mark: str, wanted: float) -> Check:
    reason = f"{mark} slides, but its slot is not given: it needs {wanted:.2f} in."
    return not_checked(mark, "tree_bolt.slot", reason)


def _run_slot(run: Run, sideways: Sideways, state: State, i: int, frame: BoltFrame) -> Array:
    s, _ = run_sway_noted(run, sideways, frame.tree, frame.level)
    u = run_apart(run, sideways, state, i, 0)
    if frame.support.sideways == "floats":
        u = run(resultant_movement, delta_1=u, delta_2=run_apart(run, sideways, state, i, 1))
    return _run_length(run, frame, run(greater_movement, s=s, u=u))


def _run_length(run: Run, frame: BoltFrame, s: Array) -> Array:
    tree = frame.tree
    w = run(growth_over_years, g=tree.growth, t=tree.service)
    c_s = run(slide_each_way, s=s, w=w, m=tree.margin)
    return np.asarray(run(slot_length, c_s=c_s, D=frame.placed.bolt.diameter), dtype=float)
