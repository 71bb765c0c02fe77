"""Embedded posts by IBC 1807.3 against a sealed calculation, statics of a stiff pole, and themselves."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from bolewright.ground.embedded_post import (
    effective_breadth,
    embedment_constrained,
    embedment_nonconstrained,
    embedment_parameter,
    largest_post_moment_depth,
    lateral_capacity_nonconstrained,
    lateral_pressure_full_depth,
    lateral_pressure_third_depth,
    post_moment_below_grade,
    solve_embedment_constrained,
    solve_embedment_nonconstrained,
)
from bolewright.reference import load
from bolewright.units import FOOT, POUND

loads, heights = st.floats(50.0, 5000.0), st.floats(0.25, 12.0)
soils, breadths = st.floats(100.0, 400.0), st.floats(0.3, 4.0)


def test_sealed_sign_calculation():  # worked_examples_ground.csv, P3
    x = {r["quantity"]: r["value"] for r in load("worked_examples_ground") if r["example"] == "P3"}
    S_1 = lateral_pressure_third_depth(x["S"], x["d_trial"], x["m"])
    assert x["S_1"] == S_1
    A = embedment_parameter(x["P"], S_1, x["b"])
    assert pytest.approx(x["A"], abs=0.05) == A  # printed 1.9
    assert embedment_nonconstrained(A, x["h"]) == pytest.approx(x["d_required"], abs=0.005)


def test_depth_beyond_twelve_feet_adds_no_pressure():
    assert (
        lateral_pressure_third_depth(150.0, 15.0, 1.0)
        == lateral_pressure_third_depth(150.0, 12.0, 1.0)
        == 600.0
    )
    assert lateral_pressure_full_depth(150.0, 15.0, 2.0) == 3600.0
    assert lateral_pressure_third_depth.formula.outside(S=150.0, d=15.0, m=1.0)


def test_constrained_form_solved_in_closed_form():
    # S_3 = S d, so d^3 = 4.25 P h / (S b): 4.25 x 500 x 7 / (150 x 1.5) = 66.11, d = 4.0435 ft
    d = solve_embedment_constrained(500.0, 7.0, 150.0, 1.5)
    assert d == pytest.approx(4.0435, abs=0.00005)
    assert embedment_constrained(
        500.0, 7.0, lateral_pressure_full_depth(150.0, d, 1.0), 1.5
    ) == pytest.approx(d)


def test_largest_moment_below_grade_as_calculated_independently():
    # d 4.0 ft, load 4.98 ft above grade: 4.98 H at grade, 5.58 H at 0.93 ft
    x = largest_post_moment_depth(4.98, 4.0)
    assert x == pytest.approx(0.93, abs=0.005)
    assert post_moment_below_grade(1.0, 4.98, 4.0, 0.0) == pytest.approx(4.98)
    assert post_moment_below_grade(1.0, 4.98, 4.0, x) == pytest.approx(5.58, abs=0.005)


@settings(max_examples=50)
@given(heights, st.floats(2.0, 8.0), st.floats(0.0, 1.0))
def test_moment_below_grade_equals_the_integrated_soil_pressure(h, d, share):
    # pressure n x (1 - x / a), with n and a from force and moment equilibrium solved as two linear equations
    x = share * d
    # unknowns n and n / a: integrals of s and s^2, and of s^2 and s^3
    n, n_a = np.linalg.solve([[d**2 / 2, -(d**3) / 3], [d**3 / 3, -(d**4) / 4]], [1.0, -h])
    moment = (h + x) - quad(lambda s: (n * s - n_a * s**2) * (x - s), 0.0, x)[0]
    assert post_moment_below_grade(1.0, h, d, x) == pytest.approx(moment, abs=1e-7 * (h + d))
    assert post_moment_below_grade(1.0, h, d, d) == pytest.approx(0.0, abs=1e-7 * (h + d))


@settings(max_examples=60)
@given(heights, st.floats(2.0, 8.0))
def test_largest_moment_is_above_every_other(h, d):
    at = largest_post_moment_depth(h, d)
    everywhere = post_moment_below_grade(1.0, h, d, np.linspace(0.0, d, 400))
    assert post_moment_below_grade(1.0, h, d, at) >= everywhere.max() * (1 - 1e-9)
    assert at > 0


@given(loads, heights, soils, breadths)
def test_solved_depth_is_a_fixed_point_of_the_printed_formula(P, h, S, b):
    d = solve_embedment_nonconstrained(P, h, S, b)
    S_1 = lateral_pressure_third_depth(S, d, 1.0)
    assert embedment_nonconstrained(embedment_parameter(P, S_1, b), h) == pytest.approx(d, rel=1e-6)


@given(loads, heights, soils, breadths, st.floats(1.0, 11.0))
def test_capacity_at_a_depth_is_the_load_that_needs_that_depth(P, h, S, b, d):
    S_1 = lateral_pressure_third_depth(S, d, 1.0)
    P_a = lateral_capacity_nonconstrained(S_1, b, d, h)
    assert embedment_nonconstrained(embedment_parameter(P_a, S_1, b), h) == pytest.approx(d, rel=1e-9)
    deep = solve_embedment_nonconstrained(P, h, S, b)
    assert (P_a * (1 + 1e-9) >= P) == (deep <= d * (1 + 1e-6))


@given(loads, heights, soils, breadths, st.floats(1.05, 1.5))
def test_depth_rises_with_load_and_height_and_falls_with_soil_and_breadth(P, h, S, b, more):
    for solve in (solve_embedment_nonconstrained, solve_embedment_constrained):
        d = solve(P, h, S, b)
        assert solve(P * more, h, S, b) > d
        assert solve(P, h * more, S, b) > d
        assert solve(P, h, S * more, b) < d
        assert solve(P, h, S, b * more) < d
        assert solve(P, h, S, b, 2.0) < d  # 1806.3.4 doubling, the user's declared choice


def test_breadth_is_the_hole_only_where_concrete_fills_it():  # IBC 1807.3.4
    assert effective_breadth(0.65, 20 / 12, True) == 20 / 12
    assert effective_breadth(0.65, 20 / 12, False) == 0.65


def test_arrays_and_metric_agree_with_scalars():
    P = np.array([[200.0], [800.0]])
    h = np.array([5.0, 7.0, 9.0])
    d = solve_embedment_nonconstrained(P, h, 150.0, 1.5)
    assert d.shape == (2, 3)
    assert d[1, 2] == pytest.approx(solve_embedment_nonconstrained(800.0, 9.0, 150.0, 1.5), rel=1e-12)
    metric = embedment_nonconstrained(FOOT.of(1.851).to("m"), FOOT.of(4.17).to("cm"))
    assert metric.m_as("foot") == pytest.approx(embedment_nonconstrained(1.851, 4.17))
    M = post_moment_below_grade(POUND.of(500.0).to("kN"), FOOT.of(5.0), FOOT.of(4.0), FOOT.of(0.9).to("m"))
    assert M.m_as("lbf*foot") == pytest.approx(post_moment_below_grade(500.0, 5.0, 4.0, 0.9))
