"""Plans made stick by stick: each time the stick that is cut to the most value for its cost."""

from __future__ import annotations

from collections import Counter

import numpy as np

from bolewright.take_off.packing import Cutting, Plan, best_first_fit, cost_of, plan_of
from bolewright.take_off.pricing import best_patterns

POWERS = (1.0, 1.02, 1.03, 1.05, 1.08, 1.15)  # the greater, the sooner long pieces are placed


def quick_plans(cutting: Cutting) -> list[Plan]:
    """First-fit-decreasing and the plans by filling, the cheapest first."""
    plans = [best_first_fit(cutting), *(filled(cutting, power) for power in POWERS)]
    return sorted(plans, key=lambda plan: (cost_of(cutting, plan), sum(plan.values())))


def filled(cutting: Cutting, power: float) -> Plan:
    """Plan by filling, where a piece is worth its length to a power a little above one."""
    left = list(cutting.wanted)
    worth = (np.array(cutting.sizes, dtype=float) / cutting.rooms[-1]) ** power
    held: list[Counter[int]] = []
    while any(left):
        kinds = [kind for kind, count in enumerate(left) if count]
        rest = Cutting(
            tuple(cutting.sizes[kind] for kind in kinds),
            tuple(left[kind] for kind in kinds),
            cutting.rooms,
            cutting.costs,
        )
        best = best_patterns(rest, worth[kinds])
        stick = max(range(len(cutting.rooms)), key=lambda i: best.values[i] / cutting.costs[i])
        counts = best.patterns[stick].counts
        held.append(Counter({kind: count for kind, count in zip(kinds, counts, strict=True) if count}))
        for kind, count in zip(kinds, counts, strict=True):
            left[kind] -= count
    return plan_of(cutting, held)
