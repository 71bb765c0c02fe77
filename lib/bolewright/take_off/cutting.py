"""Which sticks to buy and how to cut them at least cost: patterns by column generation, then whole numbers.

The linear programme over patterns (Gilmore and Gomory, 1961, 1963) gives a bound below which no plan can be; the
mixed-integer programme over its patterns gives a plan. Where the two differ, every pattern that a better plan
could have is listed and the programme is solved over these: then the plan is proven, or the gap is stated.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import reduce
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, linprog, milp
from scipy.sparse import csc_array

from bolewright.take_off.filling import quick_plans
from bolewright.take_off.packing import (
    Cutting,
    Pattern,
    Plan,
    cheapest_stick,
    cost_of,
    exact_plan,
)
from bolewright.take_off.pricing import Array, TooMany, best_patterns, patterns_worth

_ROUNDS = 400  # of column generation
_SMOOTHING = 0.8  # share of the best values so far in those at which patterns are sought
_KEPT = (
    2.5,
    1.5,
)  # patterns for each kind of piece: above the first, only the best of the second number stay
_NODES = 100  # of branch and bound: a limit that gives the same plan on every machine
_STUMBLED = 4  # status of scipy's milp: numerical trouble or an error of the solver
_MOST_PATTERNS = 20_000  # listed for the proof
_SAFE = 1e-6  # of a bound, for the rounding of the linear programme


@dataclass(frozen=True)
class Solved:
    """A plan with its cost, and the bound below which no plan can cost."""

    plan: Plan
    cost: int
    bound: int

    @property
    def proven(self) -> bool:
        """Whether no plan costs less."""
        return self.cost <= self.bound

    @property
    def gap(self) -> float:
        """How much of the cost might at most be saved."""
        return (self.cost - self.bound) / self.cost if self.cost else 0.0


def solve(cutting: Cutting, seconds: float = 30.0) -> Solved:
    """The cheapest plan found, never dearer than first-fit-decreasing, with a bound that holds for every plan.

    Each of the two mixed-integer programmes stops after a number of nodes; ``seconds`` is there for a slow machine.
    """
    if not cutting.sizes:
        return Solved({}, 0, 0)
    step = reduce(math.gcd, cutting.costs)
    scaled = Cutting(cutting.sizes, cutting.wanted, cutting.rooms, tuple(c // step for c in cutting.costs))
    solved = _solve(scaled, seconds)
    return Solved(solved.plan, solved.cost * step, solved.bound * step)


def _solve(cutting: Cutting, seconds: float) -> Solved:
    plans = quick_plans(cutting)
    values = _values_by_length(cutting)
    low = float(values @ np.array(cutting.wanted))
    best = Solved(plans[0], cost_of(cutting, plans[0]), _whole_bound(low))
    if best.proven:
        return best
    relaxed = _relax(cutting, plans, values)
    best = Solved(best.plan, best.cost, relaxed.bound)
    if not best.proven:
        columns = list(dict.fromkeys([*relaxed.columns, *(p for plan in plans for p in plan)]))
        best = _better(cutting, best, _whole(cutting, columns, best, seconds).plan)
    if best.proven:
        return best
    every = _columns_of_better_plans(cutting, relaxed, best.cost)
    if every is None:
        return best
    whole = _whole(cutting, every, best, seconds)
    best = _better(cutting, best, whole.plan)
    return Solved(best.plan, best.cost, max(best.bound, min(best.cost, whole.bound)))


def _better(cutting: Cutting, best: Solved, plan: Plan | None) -> Solved:
    if plan is None or cost_of(cutting, plan) >= best.cost:
        return best
    return Solved(plan, cost_of(cutting, plan), best.bound)


# ---------------------------------------------------------------------------------------------------------
# The linear programme


@dataclass(frozen=True)
class _Relaxed:
    """Patterns of the linear programme, the values it gives the pieces, and its bounds, unrounded and whole."""

    columns: list[Pattern]
    values: Array
    low: float
    bound: int


def _values_by_length(cutting: Cutting) -> Array:
    """Values in proportion to length, at which no stick is worth more than it costs: the plainest bound."""
    rate = min(cost / room for cost, room in zip(cutting.costs, cutting.rooms, strict=True))
    return np.array(cutting.sizes, dtype=float) * rate


def _relax(cutting: Cutting, plans: list[Plan], values: Array) -> _Relaxed:
    """Linear programme over patterns, solved until its bound, rounded up to whole costs, can rise no more.

    New patterns are sought at values between the best so far and those of the programme, which takes fewer
    rounds; when there are none, at those of the programme. Patterns far above their value are dropped.
    """
    columns = list(dict.fromkeys([*(p for plan in plans for p in plan), *_plain_patterns(cutting)]))
    costs = np.array(cutting.costs, dtype=float)
    wanted = np.array(cutting.wanted, dtype=float)
    low, share = float(values @ wanted), _SMOOTHING
    for _ in range(_ROUNDS):
        total, duals, used = _linear(cutting, columns)
        sought = share * values + (1 - share) * duals
        best = best_patterns(cutting, sought)
        over = max(1e-9, float(np.max(np.array(best.values) / costs)))
        if float(sought @ wanted) / over > low:
            low, values = float(sought @ wanted) / over, sought / over
        known = set(columns)
        fresh = [
            pattern
            for pattern, cost in zip(best.patterns, costs, strict=True)
            if float(np.array(pattern.counts) @ duals) > cost * (1 + 1e-9) and pattern not in known
        ]
        if _whole_bound(low) >= _whole_bound(total) or not (fresh or share):
            break
        share = _SMOOTHING if fresh else 0.0
        columns = _worth_keeping(cutting, columns, duals, used) + fresh
    return _Relaxed(columns, values, low, _whole_bound(low))


def _worth_keeping(
    cutting: Cutting, columns: list[Pattern], duals: Array, used: NDArray[np.bool_]
) -> list[Pattern]:
    """Patterns without those that cost most above their value, when there are many; those in use stay."""
    most, least = (round(share * len(cutting.sizes)) for share in _KEPT)
    if len(columns) <= most:
        return columns
    above = _costs(cutting, columns) - np.array([pattern.counts for pattern in columns]) @ duals
    order = np.argsort(np.where(used, -1.0, above), kind="stable")
    return [columns[i] for i in sorted(order[:least].tolist())]


def _whole_bound(low: float) -> int:
    return math.ceil(low - _SAFE * (1 + abs(low)))


def _plain_patterns(cutting: Cutting) -> list[Pattern]:
    """For each kind of piece alone: as many as are wanted and fit the longest stick."""
    found = []
    for kind, (size, want) in enumerate(zip(cutting.sizes, cutting.wanted, strict=True)):
        count = min(want, cutting.rooms[-1] // size)
        counts = tuple(count if i == kind else 0 for i in range(len(cutting.sizes)))
        found.append(Pattern(cheapest_stick(cutting, count * size), counts))
    return found


def _matrix(columns: list[Pattern]) -> Any:
    return csc_array(np.array([pattern.counts for pattern in columns], dtype=float).T)


def _costs(cutting: Cutting, columns: list[Pattern]) -> Array:
    return np.array([cutting.costs[pattern.stick] for pattern in columns], dtype=float)


def _linear(cutting: Cutting, columns: list[Pattern]) -> tuple[float, Array, NDArray[np.bool_]]:
    """Least cost in fractions of sticks, the value of each kind of piece, and which patterns are in use."""
    found = linprog(
        _costs(cutting, columns),
        A_ub=-_matrix(columns),
        b_ub=-np.array(cutting.wanted, dtype=float),
        method="highs-ipm",
    )
    return float(found.fun), np.maximum(-found.ineqlin.marginals, 0.0), found.x > 1e-9


# ---------------------------------------------------------------------------------------------------------
# Whole numbers


@dataclass(frozen=True)
class _Whole:
    """Plan of whole sticks, None when none was found in time, and the bound over the given patterns."""

    plan: Plan | None
    bound: int


def _whole(cutting: Cutting, columns: list[Pattern], best: Solved, seconds: float) -> _Whole:
    """Mixed-integer programme: how often each pattern is cut; never cheaper than the bound already known."""
    costs = _costs(cutting, columns)
    rows = [
        LinearConstraint(_matrix(columns), lb=np.array(cutting.wanted, dtype=float)),
        LinearConstraint(csc_array(costs[None, :]), lb=best.bound, ub=best.cost - 1),
    ]
    options = {"time_limit": seconds, "node_limit": _NODES, "mip_rel_gap": 0.0}
    for presolve in (
        True,
        False,
    ):  # the solver stumbles over a few small programmes that it has simplified first
        found = milp(
            costs,
            integrality=np.ones(len(columns)),
            bounds=Bounds(0, float(sum(cutting.wanted))),
            constraints=rows,
            options={**options, "presolve": presolve},
        )
        if found.status != _STUMBLED:
            break
    if found.status == 2:  # no plan of these patterns is cheaper than the one at hand
        return _Whole(None, best.cost)
    low = found.mip_dual_bound
    bound = _whole_bound(low) if low is not None and math.isfinite(low) else best.bound
    if found.x is None:
        return _Whole(None, bound)
    return _Whole(exact_plan(cutting, columns, [round(x) for x in found.x]), bound)


def _columns_of_better_plans(cutting: Cutting, relaxed: _Relaxed, cost: int) -> list[Pattern] | None:
    """Every pattern that a plan cheaper than ``cost`` can have; None when there are too many to list.

    A plan's cost is the bound of the values plus what each of its patterns costs above its value, so no pattern
    of a plan that costs ``cost - 1`` or less is further above its value than the difference.
    """
    try:
        return patterns_worth(cutting, relaxed.values, cost - 1 - relaxed.low, _MOST_PATTERNS)
    except TooMany:
        return None
