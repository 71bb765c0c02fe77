"""Laws of the yield limit equations: monotony, mirror, scalar against array, metric against imperial, Hankinson."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.calculation import Calculation
from bolewright.fasteners.dowel_bearing import (
    dowel_bearing_at_angle,
    dowel_bearing_cold_formed,
    dowel_bearing_hot_rolled,
    dowel_bearing_parallel,
    dowel_bearing_perpendicular,
    wood_bearing_strength,
)
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.reduction import diameter_coefficient, reduction_terms
from bolewright.fasteners.yield_limit import double_shear, single_shear
from bolewright.fasteners.yield_modes import yield_coefficient_k3, yield_mode_IIIs, yield_mode_IV
from bolewright.reference import load
from bolewright.units import Quantity

F_YB = 45000.0
diameters, lengths = st.floats(0.25, 1.0), st.floats(0.5, 12.0)
densities, angles, steps = st.floats(0.31, 0.73), st.floats(0.0, 90.0), st.floats(0.0, 0.5)
both = pytest.mark.parametrize("shear", [single_shear, double_shear])


def value(shear, D, l_m, l_s, G_m, G_s, theta_m=0.0, theta_s=0.0, F_yb=F_YB):
    run = Calculation().run
    F_em, F_es = wood_bearing_strength(G_m, D, theta_m, run), wood_bearing_strength(G_s, D, theta_s, run)
    theta = max(theta_m, theta_s)
    return shear(D=D, l_m=l_m, l_s=l_s, F_em=F_em, F_es=F_es, F_yb=F_yb, theta=theta).Z


@both
@settings(max_examples=150, deadline=None)
@given(diameters, lengths, lengths, densities, densities, angles, angles, steps)
def test_never_falls_with_length_density_diameter_or_steel(shear, D, l_m, l_s, G_m, G_s, a_m, a_s, more):
    base = value(shear, D, l_m, l_s, G_m, G_s, a_m, a_s) * (1 - 1e-9)
    assert value(shear, D, l_m + more, l_s, G_m, G_s, a_m, a_s) >= base
    assert value(shear, D, l_m, l_s + more, G_m, G_s, a_m, a_s) >= base
    assert value(shear, D, l_m, l_s, G_m + more, G_s, a_m, a_s) >= base
    assert value(shear, D, l_m, l_s, G_m, G_s + more, a_m, a_s) >= base
    assert value(shear, min(D + more, 1.0), l_m, l_s, G_m, G_s, a_m, a_s) >= base
    assert value(shear, D, l_m, l_s, G_m, G_s, a_m, a_s, F_yb=F_YB * (1 + more)) >= base


@settings(max_examples=150, deadline=None)
@given(st.floats(0.08, 0.2499), steps, lengths, lengths, densities)
def test_a_thicker_nail_never_holds_less(D, more, l_m, l_s, G):
    thicker = min(D + more, 0.2499)
    assert value(single_shear, thicker, l_m, l_s, G, G) >= value(single_shear, D, l_m, l_s, G, G) * (1 - 1e-9)


@both
@settings(max_examples=150, deadline=None)
@given(diameters, lengths, lengths, densities, angles, angles)
def test_never_rises_with_the_angle_to_grain(shear, D, l_m, l_s, G, a, b):
    low, high = sorted((a, b))
    assert value(shear, D, l_m, l_s, G, G, high) <= value(shear, D, l_m, l_s, G, G, low) * (1 + 1e-9)


@settings(max_examples=150, deadline=None)
@given(diameters, lengths, lengths, densities, densities)
def test_single_shear_does_not_know_which_member_is_main(D, l_m, l_s, G_m, G_s):
    assert value(single_shear, D, l_m, l_s, G_m, G_s) == pytest.approx(
        value(single_shear, D, l_s, l_m, G_s, G_m)
    )


@both
def test_array_equals_its_elements(shear):
    dice = np.random.default_rng(7)
    names = {"l_m": (0.5, 6), "l_s": (0.5, 6), "F_em": (2000, 9000), "F_es": (2000, 9000), "theta": (0, 90)}
    arrays = {name: dice.uniform(*span, 40) for name, span in names.items()} | {
        "D": dice.uniform(0.25, 1, 40)
    }
    together = shear(**arrays, F_yb=F_YB)
    for i in range(40):
        apart = shear(**{name: float(array[i]) for name, array in arrays.items()}, F_yb=F_YB)
        assert together.Z[i] == pytest.approx(apart.Z, rel=1e-12)
        assert together.mode[i] == apart.mode
        steps_of_one = together.steps((i,))
        assert steps_of_one[-1].result == pytest.approx(apart.Z, rel=1e-12)
        alone = [step.result for step in apart.steps()]
        assert [step.result for step in steps_of_one] == pytest.approx(alone, rel=1e-12)


def test_every_step_is_there_to_print():
    result = single_shear(D=0.5, l_m=1.5, l_s=1.5, F_em=5600, F_es=5600, F_yb=F_YB)
    names = [step.formula.name for step in result.steps()]
    assert {f"yield_coefficient_k{k}" for k in (1, 2, 3)} <= set(names)
    assert {f"yield_mode_{mode}" for mode in result.modes} <= set(names)
    assert names[-1] == "least_of_six_modes"


def test_metric_equals_imperial():
    D, l_s = Quantity(19.05, "mm"), Quantity(38.1, "mm")
    F_em, F_es, F_yb = Quantity(38.6, "MPa"), Quantity(24.1, "MPa"), Quantity(310.0, "MPa")
    k_3 = yield_coefficient_k3(F_em, F_es, F_yb, D, l_s)
    metric = yield_mode_IIIs(k_3, D, l_s, F_em, F_es, Quantity(3.2, "")).m_as("N")
    bare = [q.m_as(u) for q, u in ((D, "inch"), (l_s, "inch"), (F_em, "psi"), (F_es, "psi"), (F_yb, "psi"))]
    imperial = yield_mode_IIIs(yield_coefficient_k3(*bare[2:], *bare[:2]), *bare[:4], 3.2)
    assert metric == pytest.approx(Quantity(imperial, "lbf").m_as("N"), rel=1e-12)
    by_hand = 19.05**2 / 3.2 * np.sqrt(2 * 38.6 * 310.0 / (3 * (1 + 38.6 / 24.1)))  # in newtons outright
    assert yield_mode_IV(D, F_em, F_es, F_yb, Quantity(3.2, "")).m_as("N") == pytest.approx(
        by_hand, rel=1e-12
    )


@settings(max_examples=100, deadline=None)
@given(st.floats(1000, 9000), st.floats(1000, 9000), angles)
def test_hankinson_lies_between_and_meets_both_ends(F_par, F_perp, theta):
    F = dowel_bearing_at_angle(F_par, F_perp, theta)
    assert min(F_par, F_perp) * (1 - 1e-12) <= F <= max(F_par, F_perp) * (1 + 1e-12)
    assert dowel_bearing_at_angle(F_par, F_perp, 0.0) == pytest.approx(F_par)
    assert dowel_bearing_at_angle(F_par, F_perp, 90.0) == pytest.approx(F_perp)
    assert dowel_bearing_at_angle(F_par, F_perp, 45.0) == pytest.approx(2 * F_par * F_perp / (F_par + F_perp))


def test_steel_bearing_is_that_of_the_tables():  # NDS 2018, footnotes of Tables 12B, 12K, 12P
    given_values = load("dowel_bearing_given")
    plate = given_values.row(material="ASTM A36 plate")["F_e"]
    sheet = given_values.row(material="ASTM A653 Grade 33 sheet")["F_e"]
    assert dowel_bearing_hot_rolled(58000) == plate
    assert dowel_bearing_cold_formed(45000) == pytest.approx(sheet, abs=25.5)  # printed to 50 psi


@pytest.mark.parametrize(
    ("D", "K_D"), [(0.099, 2.2), (0.148, 2.2), (0.17, 2.2), (0.192, 2.42), (0.225, 2.75)]
)
def test_diameter_coefficient(D, K_D):  # NDS 2018, Table 12.3.1B footnote
    assert diameter_coefficient(D) == pytest.approx(K_D)


@pytest.mark.parametrize(
    ("D", "nominal", "theta", "terms"),
    [(0.5, 0.5, 0, (4, 3.6, 3.2)), (0.5, 0.5, 90, (5, 4.5, 4)), (0.5, 0.5, 45, (4.5, 4.05, 3.6)),
     (0.162, 0.162, 90, (2.2, 2.2, 2.2)), (0.173, 0.25, 90, (2.23 * 1.25,) * 3), (0.227, 0.3125, 0, (2.77,) * 3),
     (0.265, 0.375, 0, (4, 3.6, 3.2)), (0.371, 0.5, 90, (5, 4.5, 4))],
)  # fmt: skip
def test_reduction_terms(D, nominal, theta, terms):  # NDS 2018, Table 12.3.1B and footnote 1
    found = reduction_terms(D, nominal, theta, Calculation().run)
    assert (found.mode_I, found.mode_II, found.mode_III_IV) == pytest.approx(terms)


def test_above_one_inch_says_that_it_extrapolates():
    inputs = {"l_m": 6.0, "l_s": 3.5, "F_em": 3000.0, "F_es": 3000.0, "F_yb": F_YB}
    assert single_shear(D=1.0, **inputs).notes == ()
    assert "extrapolated, engineer to confirm" in single_shear(D=1.25, **inputs).notes[0]


def test_diameters_of_both_classes_are_two_calculations():
    with pytest.raises(FastenerError, match=r"lies on both sides of 1/4 in\."):
        single_shear(D=np.array([0.2, 0.5]), l_m=3.0, l_s=1.5, F_em=4000, F_es=4000, F_yb=F_YB)


def test_bearing_strength_by_class_of_diameter():
    run = Calculation().run
    assert wood_bearing_strength(0.5, 0.192, 90.0, run) == wood_bearing_strength(0.5, 0.192, 0.0, run)
    assert wood_bearing_strength(0.5, 0.25, 0.0, run) == pytest.approx(dowel_bearing_parallel(0.5))
    assert wood_bearing_strength(0.5, 0.25, 90.0, run) == pytest.approx(
        dowel_bearing_perpendicular(0.5, 0.25)
    )
