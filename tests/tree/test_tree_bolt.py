"""Plastic limits of the tree bolt against statics done another way and against TR12's dowel equations."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from bolewright.tree.bolt import (
    angle_factor,
    bearing_reference_load,
    bearing_yield,
    dowel_yield_moment,
    dowel_yield_strength,
    effective_root_diameter,
    hinge_reference_load,
    hinge_yield,
    load_angle,
    resultant_load,
    rotation_reference_load,
    rotation_yield,
    tree_bolt_adjusted_load,
    tree_bolt_governing_load,
)
from bolewright.tree.collar import bracket_bearing_strength, collar_bearing_stress
from bolewright.tree.withdrawal import hinge_load_wet_sensitivity, tree_bolt_withdrawal
from bolewright.units import INCH, PLI, POUND_INCH

CASES = [
    # q [lb/in], L [in], e [in], M_y [lb in]
    (4935.0, 7.0, 6.0, 26437.5),  # bur oak, D 1.5, F_yb 47 ksi
    (4935.0, 7.0, 2.0, 26437.5),
    (3290.0, 5.0, 4.5, 7833.0),
    (7000.0, 10.0, 3.0, 62667.0),
    (4935.0, 7.0, 0.0, 26437.5),
]
lengths = st.floats(3.0, 12.0)
levers = st.floats(0.5, 10.0)
forces = st.floats(1000.0, 10000.0)
moments = st.floats(3000.0, 80000.0)


def largest_load(q, L, e, M_y, pieces=400):
    """Lower-bound theorem: the most load that pressures within +-q and moments within M_y can balance."""
    x = (np.arange(pieces) + 0.5) * L / pieces
    dx = L / pieces
    # unknowns: pressures p_i (upward), then P; force and moment about the face
    equal = [np.append(np.full(pieces, dx), -1.0), np.append(dx * x, e)]
    below, limit = [], []
    if M_y is not None:
        for at in np.arange(1, pieces + 1) * dx:
            row = np.append(-dx * np.clip(at - x, 0.0, None), e + at)  # moment = P (e + at) - pressures
            below += [row, -row]
            limit += [M_y, M_y]
    answer = linprog(
        np.append(np.zeros(pieces), -1.0),
        A_ub=np.array(below) if below else None,
        b_ub=np.array(limit) if limit else None,
        A_eq=np.array(equal),
        b_eq=[0.0, 0.0],
        bounds=[(-q, q)] * pieces + [(0, None)],
    )
    assert answer.success
    return answer.x[-1]


@pytest.mark.parametrize(("q", "L", "e", "M_y"), CASES)
def test_rotation_equals_the_best_pressures_statics_allows(q, L, e, M_y):
    assert rotation_yield(q, L, e) == pytest.approx(largest_load(q, L, e, None), rel=2e-3)


@pytest.mark.parametrize(("q", "L", "e", "M_y"), CASES)
def test_least_mode_equals_the_best_pressures_with_the_steels_moment_limited(q, L, e, M_y):
    least = min(rotation_yield(q, L, e), hinge_yield(q, e, M_y))
    assert least == pytest.approx(largest_load(q, L, e, M_y, 200), rel=5e-3)


def tr12(mode, q_m, L_m, g, M_m, M_s=0.0, flexibility_s=0.0):
    """AWC TR12 general dowel equations with a gap; ``flexibility_s`` is 1 / q_s (from memory)."""
    if mode == "III_m":
        A, B = flexibility_s / 2 + 1 / (4 * q_m), g + L_m / 2
        C = -M_s - q_m * L_m**2 / 4
    else:
        A, B, C = flexibility_s / 2 + 1 / (2 * q_m), g, -M_s - M_m
    return (-B + np.sqrt(B**2 - 4 * A * C)) / (2 * A)


@pytest.mark.parametrize(("q", "L", "e", "M_y"), CASES)
def test_equal_to_tr12_with_a_pinned_bracket_and_the_gap_to_the_load_line(q, L, e, M_y):
    assert rotation_yield(q, L, e) == pytest.approx(tr12("III_m", q, L, e, M_y), rel=1e-8)
    assert hinge_yield(q, e, M_y) == pytest.approx(tr12("IV", q, L, e, M_y), rel=1e-8)


def test_tr12_with_a_clamped_bracket_would_be_unsafe():
    q, L, e, M_y = CASES[0]
    assert tr12("IV", q, L, e, M_y, M_s=M_y) / hinge_yield(q, e, M_y) > 1.8


def test_limits_of_the_two_modes():
    assert rotation_yield(1000.0, 5.0, 0.0) == pytest.approx((np.sqrt(2) - 1) * 5000.0)
    assert rotation_yield(1000.0, 5.0, 500.0) == pytest.approx(
        1000.0 * 25 / 4 / 500.0, rel=0.01
    )  # q L^2 / 4 e
    assert hinge_yield(1000.0, 0.0, 5000.0) == pytest.approx(np.sqrt(2 * 1000.0 * 5000.0))
    assert hinge_yield(1e9, 5.0, 5000.0) == pytest.approx(1000.0, rel=1e-4)  # M_y / e in stiff wood


def test_hinge_satisfies_the_moment_inside_the_wood():
    q, _, e, M_y = CASES[0]
    P = hinge_yield(q, e, M_y)
    assert P * (e + P / (2 * q)) == pytest.approx(M_y)


def test_dowel_moment():
    # NDS 2018 Appendix I: A36 (36, 58 ksi) 47 ksi; TR12: F_yb D^3 / 6
    F_yb = dowel_yield_strength(36000.0, 58000.0)
    assert F_yb == 47000.0
    assert dowel_yield_moment(F_yb, 1.5) == pytest.approx(26437.5)


@pytest.mark.parametrize(("theta", "K"), [(0.0, 1.0), (45.0, 1.125), (90.0, 1.25)])
def test_reduction_terms_of_table_12_3_1B(theta, K):
    assert angle_factor(theta) == K
    assert 1000.0 / bearing_reference_load(1000.0, K) == pytest.approx(4 * K)
    assert 1000.0 / rotation_reference_load(1000.0, K) == pytest.approx(3.6 * K)
    assert 1000.0 / hinge_reference_load(1000.0, K) == pytest.approx(3.2 * K)


def test_adjusted_value_is_the_least_mode_with_the_duration_factor_and_the_rating_governs_where_lower():
    assert tree_bolt_adjusted_load(3000.0, 1700.0, 1300.0, 1.15) == pytest.approx(1495.0)
    assert tree_bolt_governing_load(1495.0, 1200.0, 1.0) == 1200.0
    assert tree_bolt_governing_load(1495.0, 2000.0, 1.0) == 1495.0


def test_collar_and_bracket():
    assert collar_bearing_stress(1500.0, 3.0, 3.0) == pytest.approx(166.67, abs=0.005)
    assert bracket_bearing_strength(36000.0, 1.5, 0.25) == pytest.approx(12150.0)  # 1.8 x 36 x 0.375 / 2


def test_resultant_and_its_angle():
    assert resultant_load(300.0, 400.0) == pytest.approx(500.0)
    assert load_angle(300.0, -400.0) == pytest.approx(53.13, abs=0.005)


def test_thread_counts_from_a_quarter_of_the_bearing_length():  # NDS 2018 12.3.7.2
    assert effective_root_diameter(1.0, 0.84, 8.0, 2.0) == 1.0
    assert effective_root_diameter(1.0, 0.84, 8.0, 2.01) == 0.84


@given(forces, lengths, levers, moments, st.floats(1.01, 1.5))
def test_capacity_falls_with_lever_and_rises_with_depth_and_steel(q, L, e, M_y, more):
    assert rotation_yield(q, L, e * more) < rotation_yield(q, L, e)
    assert rotation_yield(q, L * more, e) > rotation_yield(q, L, e)
    assert hinge_yield(q, e * more, M_y) < hinge_yield(q, e, M_y)
    assert hinge_yield(q, e, M_y * more) > hinge_yield(q, e, M_y)


@given(st.floats(0.5, 2.0), st.floats(1.01, 1.5), lengths, levers)
def test_capacity_rises_with_diameter(D, more, L, e):
    def least(d):
        q = 3290.0 * d
        return min(rotation_yield(q, L, e), hinge_yield(q, e, dowel_yield_moment(47000.0, d)))

    assert least(D * more) > least(D)


@given(forces, lengths, levers)
def test_even_bearing_never_governs(q, L, e):
    assert bearing_yield(q, L) / 4.0 > rotation_yield(q, L, e) / 3.6


@settings(max_examples=30)
@given(forces, lengths, levers, moments)
def test_same_answer_in_metric_and_for_arrays(q, L, e, M_y):
    metric = hinge_yield(PLI.of(q).to("kN/m"), INCH.of(e).to("mm"), POUND_INCH.of(M_y).to("kN*m"))
    assert metric.m_as("lbf") == pytest.approx(hinge_yield(q, e, M_y), rel=1e-9)
    column = np.array([[e], [2 * e]])
    found = rotation_yield(q, np.array([L, 2 * L]), column)
    assert found.shape == (2, 2)
    assert found[1, 0] == pytest.approx(rotation_yield(q, L, 2 * e), rel=1e-12)


@pytest.mark.parametrize(
    ("G", "D", "W"),
    [(0.73, 1.0, 1123), (0.71, 1.125, 1176), (0.68, 0.75, 813), (0.68, 1.25, 1193)],  # NDS Table 12.2A, lb/in
)
def test_withdrawal_is_the_lag_table_with_the_wet_factor(G, D, W):
    assert tree_bolt_withdrawal(G, D, 1.0, 1.0) / 0.7 == pytest.approx(W, abs=0.5)
    assert tree_bolt_withdrawal(G, D, 6.0, 1.6) == pytest.approx(W * 0.7 * 6 * 1.6, rel=1e-3)


def test_wet_factor_on_the_whole_hinge_value_would_be_lower():
    # bur oak, D 1.5 in., e 6 in.: dry q 11200 x 0.58 x 1.5; 4245 x 0.7 / 3.2 against 4118 / 3.2
    strict = hinge_load_wet_sensitivity(9744.0, 6.0, 26437.5, 1.0)
    ours = hinge_reference_load(hinge_yield(4935.0, 6.0, 26437.5), 1.0)
    assert ours == pytest.approx(1287, abs=0.5)
    assert strict / ours == pytest.approx(0.72, abs=0.005)
