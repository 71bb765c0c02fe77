"""Demand and what stands beside it in words: a most that is allowed, or a least that is asked and what is there."""

from __future__ import annotations

from bolewright.platform.limit_states.check import Check
from bolewright.rendering import numbers

# Limit states whose demand is a least that is asked, and whose capacity is what there is.
LEAST_ASKED = frozenset(
    {
        *("beam.least_bearing", "joist.least_bearing", "brace.distances", "gate.way"),
        *("footing.frost", "footing.thickness", "stairs.pad", "stairs.frost"),
        *("ladder.clear", "ladder.tread_run", "ladder.tread_depth", "ladder.handrail", "ladder.over"),
        *("stairs.head_face", "stairs.foot_bearing", "stairs.tread_depth", "stairs.width", "stairs.landing"),
        *("stairs.handrail", "stairs.handrail_height", "stairs.guard_height"),
        *("tree.clearance", "tree.clearance_years", "tree_bolt.contact_years", "tree_bolt.overgrown_years"),
        *("tree_bolt.tips", "tree_bolt.hole_spacing", "tree_bolt.slot", "trunk_brace.clearance"),
        *("trunk_opening.travel", "limb.clearance", "limb.way_up"),
    }
)


def sizes(check: Check) -> tuple[str, str]:
    """Demand and capacity as a table prints them; nothing where they tell nothing beside each other."""
    if not check.has_sizes:
        return "", ""
    demand, allowed = numbers.fmt_both(check.demand, check.capacity, check.unit)
    return (f"least {demand}", f"{allowed} there") if check.key in LEAST_ASKED else (demand, allowed)


def outcome(check: Check) -> str:
    """Demand, capacity and ratio, said before they are worked out."""
    if not check.has_sizes:
        return ""
    demand, allowed = numbers.fmt_both(check.demand, check.capacity, check.unit)
    if check.key in LEAST_ASKED:
        return f"At least {demand} asked, {allowed} there, ratio = {check.shown_ratio}. "
    return f"{demand} of {allowed} allowed, ratio = {check.shown_ratio}. "
