"""Cutting plans: feasible, never dearer than first-fit-decreasing, and the optimum that brute force finds."""

import random
from collections import Counter

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from bolewright.take_off.cutting import solve
from bolewright.take_off.packing import (
    Cutting,
    CuttingError,
    best_first_fit,
    cost_of,
    first_fit_decreasing,
)
from bolewright.take_off.pricing import best_patterns


def problem(pieces, sticks):
    """Cutting problem of piece sizes (saw cut included) and a dict of room to cost."""
    wanted = Counter(pieces)
    sizes = tuple(sorted(wanted, reverse=True))
    rooms = tuple(sorted(sticks))
    return Cutting(sizes, tuple(wanted[s] for s in sizes), rooms, tuple(sticks[r] for r in rooms))


def assert_feasible(cutting, plan):
    """Every piece is cut once, and no stick is cut longer than it is."""
    cut = [0] * len(cutting.sizes)
    for pattern, times in plan.items():
        assert times > 0
        assert pattern.used(cutting) <= cutting.rooms[pattern.stick]
        for kind, count in enumerate(pattern.counts):
            cut[kind] += count * times
    assert tuple(cut) == cutting.wanted


small = st.fixed_dictionaries(
    {
        "pieces": st.lists(st.integers(3, 40), min_size=1, max_size=8),
        "sticks": st.dictionaries(st.integers(40, 90), st.integers(1, 30), min_size=1, max_size=4),
    }
)


@settings(max_examples=150, deadline=None)
@given(small)
@example(
    {"pieces": [3, 31, 31, 32], "sticks": {63: 16, 66: 22}}
)  # the solver stumbles over its simplified form
def test_small_problems_reach_the_brute_force_optimum(least_by_brute_force, case):
    cutting = problem(case["pieces"], case["sticks"])
    solved = solve(cutting)
    assert_feasible(cutting, solved.plan)
    least = least_by_brute_force(tuple(case["pieces"]), case["sticks"])
    assert solved.cost == cost_of(cutting, solved.plan) == least
    assert solved.bound == least
    assert solved.proven


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(20, 130), min_size=1, max_size=40),
    st.dictionaries(st.sampled_from([135, 160, 200, 240]), st.integers(50, 300), min_size=1),
)
def test_plans_are_feasible_and_never_dearer_than_first_fit_decreasing(pieces, sticks):
    cutting = problem(pieces, sticks)
    solved = solve(cutting, seconds=2)
    assert_feasible(cutting, solved.plan)
    for plan in (first_fit_decreasing(cutting), best_first_fit(cutting)):
        assert_feasible(cutting, plan)
        assert solved.cost <= cost_of(cutting, plan)
    assert solved.bound <= solved.cost


@settings(max_examples=60, deadline=None)
@given(small, st.integers(2, 7))
def test_the_answer_does_not_change_with_the_unit(case, factor):
    plain = solve(problem(case["pieces"], case["sticks"]))
    fine = solve(
        problem([p * factor for p in case["pieces"]], {r * factor: c for r, c in case["sticks"].items()})
    )
    assert plain.cost == fine.cost


def test_first_fit_decreasing_is_beaten_where_it_is_known_to_fail():
    """4 + 3 + 3 twice fills two sticks of 10; first-fit-decreasing puts 4 + 4 together and needs three. By hand."""
    cutting = problem([4, 4, 3, 3, 3, 3], {10: 1})
    assert cost_of(cutting, first_fit_decreasing(cutting)) == 3
    assert solve(cutting).cost == 2


@pytest.mark.parametrize("seed", range(4))
def test_the_best_pattern_is_the_bounded_knapsack_of_brute_force(seed):
    """Against trying every count of every piece."""
    import itertools

    import numpy as np

    rng = random.Random(seed)
    cutting = problem([rng.randrange(5, 30) for _ in range(9)], {37: 5, 61: 8})
    values = np.array([rng.random() for _ in cutting.sizes])
    best = best_patterns(cutting, values)
    for stick, room in enumerate(cutting.rooms):
        counts = itertools.product(*(range(w + 1) for w in cutting.wanted))
        worth = max(
            float(np.dot(c, values))
            for c in counts
            if sum(n * s for n, s in zip(c, cutting.sizes, strict=True)) <= room
        )
        assert best.values[stick] == pytest.approx(worth, abs=1e-9)
        pattern = best.patterns[stick]
        assert pattern.used(cutting) <= room
        assert float(np.dot(pattern.counts, values)) == pytest.approx(worth, abs=1e-9)


def test_three_hundred_framing_pieces_are_proven():
    """Pieces to the half inch, sticks of 8 to 20 ft: the plan is proven, and first-fit-decreasing wastes more."""
    rng = random.Random(7)
    pieces = [rng.randrange(24, 400) * 8 + 2 for _ in range(300)]
    feet = range(8, 21, 2)
    cutting = problem(pieces, {f * 192 - 14: f for f in feet})
    solved = solve(cutting)
    assert_feasible(cutting, solved.plan)
    assert solved.proven
    assert solved.cost < cost_of(cutting, first_fit_decreasing(cutting))
    assert solved.cost * 192 >= sum(pieces)


def test_no_pieces_need_no_sticks():
    assert solve(Cutting((), (), (10,), (1,))).cost == 0


@pytest.mark.parametrize(
    ("sizes", "wanted", "rooms", "costs", "says"),
    [
        ((5, 9), (1, 1), (10,), (1,), "longest first"),
        ((11,), (1,), (10,), (1,), "longer than any stick"),
        ((5,), (0,), (10,), (1,), "1 and more"),
        ((5,), (1,), (10, 8), (1, 1), "shortest first"),
    ],
)
def test_a_problem_that_makes_no_sense_is_refused(sizes, wanted, rooms, costs, says):
    with pytest.raises(CuttingError, match=says):
        Cutting(sizes, wanted, rooms, costs)
