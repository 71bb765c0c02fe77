"""Bending: C_L, effective lengths of Table 3.3.3, depth-breadth rules of 4.4.1, printed bending formulas."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.timber.adjusted_values import adjusted_bending, bending_before_stability
from bolewright.timber.bending import (
    BendingCase,
    LateralSupport,
    beam_stability_factor,
    bending_stress,
    critical_buckling_bending,
    depth_breadth_satisfied,
    effective_length,
    effective_length_coefficients,
    lateral_support_wanted,
    slenderness_ratio,
)

D = 10.0
CASE = BendingCase


@pytest.mark.parametrize(
    ("case", "l_u", "l_e"),
    [  # NDS 2018 Table 3.3.3, d = 10 in.; l_u/d below 7, from 7, and over 14.3
        (CASE.CANTILEVER_UNIFORM, 60, 1.33 * 60),
        (CASE.CANTILEVER_UNIFORM, 70, 0.90 * 70 + 30),
        (CASE.CANTILEVER_POINT_AT_END, 60, 1.87 * 60),
        (CASE.CANTILEVER_POINT_AT_END, 120, 1.44 * 120 + 30),
        (CASE.SINGLE_UNIFORM, 69.9, 2.06 * 69.9),
        (CASE.SINGLE_UNIFORM, 70, 1.63 * 70 + 30),
        (CASE.SINGLE_UNIFORM, 200, 1.63 * 200 + 30),
        (CASE.SINGLE_POINT_CENTRE, 60, 1.80 * 60),
        (CASE.SINGLE_POINT_CENTRE, 120, 1.37 * 120 + 30),
        (CASE.SINGLE_POINT_CENTRE_BRACED, 120, 1.11 * 120),
        (CASE.TWO_POINTS_BRACED, 120, 1.68 * 120),
        (CASE.THREE_POINTS_BRACED, 120, 1.54 * 120),
        (CASE.FOUR_POINTS_BRACED, 120, 1.68 * 120),
        (CASE.FIVE_POINTS_BRACED, 120, 1.73 * 120),
        (CASE.SIX_POINTS_BRACED, 120, 1.78 * 120),
        (CASE.SEVEN_POINTS_BRACED, 120, 1.84 * 120),
        (CASE.EQUAL_END_MOMENTS, 120, 1.84 * 120),
        (CASE.OTHER, 60, 2.06 * 60),
        (CASE.OTHER, 100, 1.63 * 100 + 30),
        (CASE.OTHER, 143, 1.63 * 143 + 30),
        (CASE.OTHER, 144, 1.84 * 144),
    ],
)
def test_effective_length(case, l_u, l_e):
    k_l, k_d = effective_length_coefficients(case, l_u, D)
    assert effective_length(l_u=l_u, d=D, k_l=k_l, k_d=k_d) == pytest.approx(l_e)


def test_effective_length_of_an_array_is_that_of_its_elements():
    l_u = np.array([30.0, 69.0, 70.0, 143.0, 144.0, 300.0])
    k_l, k_d = effective_length_coefficients(CASE.OTHER, l_u, D)
    single = [effective_length_coefficients(CASE.OTHER, x, D) for x in l_u]
    assert list(zip(k_l, k_d, strict=True)) == single


def test_effective_length_has_no_gap_above_one_percent():
    """Branches of Table 3.3.3 meet: the coefficients are rounded, so within 1 %."""
    l_u = np.linspace(10, 400, 4000)
    k_l, k_d = effective_length_coefficients(CASE.OTHER, l_u, D)
    l_e = effective_length(l_u=l_u, d=D, k_l=k_l, k_d=k_d)
    assert np.all(np.diff(l_e) > -0.01 * l_e[:-1])


def test_beam_stability_by_hand():
    """2x12, 16 ft between braces, uniform load: R_B = sqrt(346.71 x 11.25 / 2.25) by hand."""
    R_B = slenderness_ratio(l_e=1.63 * 192 + 3 * 11.25, d=11.25, b=1.5)
    assert float(R_B) == pytest.approx(41.636, abs=0.0005)
    F_bE = critical_buckling_bending(E_min_p=459_000, R_B=R_B)
    assert F_bE == pytest.approx(317.73, abs=0.005)
    # NDS 3.3-6 is the smaller root of 0.95 C^2 - (1 + r) C + r = 0
    r = F_bE / 1000
    roots = np.roots([0.95, -(1 + r), r])
    assert beam_stability_factor(F_bE=F_bE, F_b_star=1000) == pytest.approx(min(roots))


def test_beam_braced_at_mid_span_of_a_textbook():
    """6-3/4 x 30 in., 20 ft between braces, E_min 690,000 psi, F_b* 2400 psi: public design examples, no. 6.6.

    Printed: l_e 481 in., R_B 17.80, F_bE 2613 psi (the last from the rounded R_B).
    """
    k_l, k_d = effective_length_coefficients(CASE.SINGLE_UNIFORM, 240.0, 30.0)
    l_e = effective_length(l_u=240.0, d=30.0, k_l=k_l, k_d=k_d)
    assert l_e == pytest.approx(481, abs=0.5)
    R_B = slenderness_ratio(l_e=l_e, d=30.0, b=6.75)
    assert float(R_B) == pytest.approx(17.80, abs=0.005)
    assert critical_buckling_bending(E_min_p=690_000, R_B=17.80) == pytest.approx(2613, abs=0.5)


def test_beam_stability_factor_of_a_reference_manual():
    # structural engineering reference manual, example 5.3, as a public page quotes it: F_bE/F_b* 2.83, C_L 0.974
    assert beam_stability_factor(F_bE=2.83, F_b_star=1.0) == pytest.approx(0.974, abs=0.0005)


stress = st.floats(200, 4000)
E_min = st.floats(200_000, 800_000)
length = st.floats(6, 400)


@given(E_min=E_min, F=stress, l=length, b=st.floats(1.0, 8), d=st.floats(2, 20))
def test_C_L_lies_between_0_and_1_and_falls_with_length(E_min, F, l, b, d):
    def C_L(l_e):
        R_B = slenderness_ratio(l_e=l_e, d=d, b=b)
        return beam_stability_factor(F_bE=critical_buckling_bending(E_min_p=E_min, R_B=R_B), F_b_star=F)

    assert 0 < C_L(l) <= 1 + 1e-9
    assert C_L(l * 1.1) < C_L(l) + 1e-9


@given(E_min=E_min, F=stress, R_B=st.floats(1, 50))
def test_C_L_is_below_both_bounds(E_min, F, R_B):
    """Neither the material nor the Euler stress is exceeded."""
    F_bE = critical_buckling_bending(E_min_p=E_min, R_B=R_B)
    assert beam_stability_factor(F_bE=F_bE, F_b_star=F) * F <= min(F, F_bE) * (1 + 1e-9)


@pytest.mark.parametrize(
    ("depth", "breadth", "wanted"),
    [  # NDS 2018, 4.4.1.2, by nominal sizes
        (4, 4, LateralSupport.NONE),
        (4, 2, LateralSupport.NONE),
        (6, 2, LateralSupport.ENDS),
        (8, 2, LateralSupport.ENDS),
        (10, 2, LateralSupport.ENDS_AND_COMPRESSION_EDGE),
        (12, 2, LateralSupport.ENDS_EDGE_AND_BLOCKING_8FT),
        (14, 2, LateralSupport.ENDS_AND_BOTH_EDGES),
        (12, 6, LateralSupport.NONE),
    ],
)
def test_depth_breadth_rules(depth, breadth, wanted):
    assert lateral_support_wanted(depth, breadth) is wanted
    assert depth_breadth_satisfied(depth, breadth, wanted)
    if wanted is not LateralSupport.NONE:
        assert not depth_breadth_satisfied(depth, breadth, LateralSupport.NONE)


def test_over_7_to_1_has_no_rule():
    with pytest.raises(ValueError, match="up to 7"):
        lateral_support_wanted(16, 2)


def test_worked_joist_P9():
    """AWC DCA 6 Table 2, Southern Pine No.2 2x8 at 16 in.: F'_b 1063.75 psi, M 13,978 lb·in."""
    F_b_p = adjusted_bending(F_b=925, C_D=1, C_M=1, C_t=1, C_L=1, C_F=1, C_fu=1, C_i=1, C_r=1.15)
    assert F_b_p == pytest.approx(1063.75)
    assert bending_stress(M=13_978, S=13.141) == pytest.approx(F_b_p, abs=0.1)


@given(F_b=stress, C_D=st.sampled_from([0.9, 1.0, 1.15, 1.6]), C_L=st.floats(0.1, 1))
def test_adjusted_bending_is_F_b_star_times_C_L_when_on_edge(F_b, C_D, C_L):
    others = {"C_M": 0.85, "C_t": 0.8, "C_F": 1.3, "C_i": 0.8, "C_r": 1.15}
    star = bending_before_stability(F_b=F_b, C_D=C_D, **others)
    assert adjusted_bending(F_b=F_b, C_D=C_D, C_L=C_L, C_fu=1.0, **others) == pytest.approx(star * C_L)
