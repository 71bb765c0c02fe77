"""Plain concrete by ACI 318-19 chapter 14 (from memory), each number worked by hand beside it."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.ground.factored_load import (
    factored_load,
    factored_load_dead,
    factored_load_live,
    factored_load_snow,
)
from bolewright.ground.footing import (
    effective_thickness,
    equal_area_square,
    factored_soil_pressure,
    footing_moment,
    footing_moment_strength,
    footing_shear_one_way,
    footing_shear_strength_one_way,
    footing_shear_strength_two_way,
    footing_shear_two_way,
    pad_limit_states,
)
from bolewright.ground.pier import (
    concrete_bearing_strength,
    pedestal_height_limit,
    pier_axial_and_bending,
    pier_axial_strength,
    pier_tension_ratio,
)
from bolewright.units import INCH, PSI


def test_service_loads_in_place_of_factored_ones_would_be_unsafe_by_half():
    # D : L = 20 : 60: 1.2 x 20 + 1.6 x 60 = 120 against 80
    assert factored_load(20.0, 60.0, 0.0) / 80.0 == pytest.approx(1.5)


@pytest.mark.parametrize(
    ("D", "L", "S", "U"),
    [
        (1000.0, 0.0, 0.0, 1400.0),  # 5.3.1a
        (1000.0, 2000.0, 500.0, 4650.0),  # 5.3.1b: 1200 + 3200 + 250
        (1000.0, 500.0, 2000.0, 4900.0),  # 5.3.1c: 1200 + 3200 + 500
    ],
)
def test_factored_load_is_the_largest_combination(D, L, S, U):
    assert factored_load(D, L, S) == pytest.approx(U)
    each = (factored_load_dead(D), factored_load_live(D, L, S), factored_load_snow(D, L, S))
    assert max(each) == pytest.approx(U)


def test_round_base_counts_as_the_square_of_equal_area():
    assert equal_area_square(20.0) == pytest.approx(17.725, abs=0.0005)
    assert equal_area_square(20.0) ** 2 == pytest.approx(math.pi * 100)


def test_two_inches_are_lost_to_the_soil_and_eight_are_the_least():
    assert effective_thickness(10.0) == 8.0
    assert effective_thickness.formula.outside(h=8.0) == []
    assert "8 in" in effective_thickness.formula.outside(h=6.0)[0]


def test_pad_under_a_post_by_hand():
    # 24 in. square, 10 in. thick, post 5.5 in., 2500 psi, P_u 12000 lb
    q_u = factored_soil_pressure(12000.0, 24.0)
    assert q_u == pytest.approx(20.833, abs=0.0005)
    # M_u = 20.833 x 24 x 9.25^2 / 2
    assert footing_moment(q_u, 24.0, 5.5) == pytest.approx(21390.6, abs=0.1)
    # S_m = 24 x 8^2 / 6 = 256; 0.6 x 5 x 50 x 256
    assert footing_moment_strength(2500.0, 1.0, 24.0, 8.0) == pytest.approx(38400.0)
    # one-way: 20.833 x 24 x (9.25 - 8); 0.6 x 4/3 x 50 x 24 x 8
    assert footing_shear_one_way(q_u, 24.0, 5.5, 8.0) == pytest.approx(625.0)
    assert footing_shear_strength_one_way(2500.0, 1.0, 24.0, 8.0) == pytest.approx(7680.0)
    # punching: 20.833 x (576 - 13.5^2); 0.6 x 8/3 x 50 x 54 x 8
    assert footing_shear_two_way(q_u, 24.0, 5.5, 8.0) == pytest.approx(8203.1, abs=0.1)
    assert footing_shear_strength_two_way(2500.0, 1.0, 1.0, 5.5, 8.0) == pytest.approx(34560.0)


def test_punching_strength_of_a_long_plate_keeps_below_the_square_one():
    # beta 4: (1 + 2/4) 4/3 = 2.0 against 8/3
    square = footing_shear_strength_two_way(2500.0, 1.0, 1.0, 6.0, 8.0)
    assert footing_shear_strength_two_way(2500.0, 1.0, 4.0, 6.0, 8.0) / square == pytest.approx(0.75)


def test_shear_sections_outside_the_base_carry_nothing():
    assert footing_shear_one_way(20.0, 17.7, 5.5, 8.0) == 0.0
    assert footing_shear_two_way(20.0, 12.0, 5.5, 8.0) == 0.0


@pytest.mark.parametrize(
    ("B", "c", "h_e", "states"),
    [
        (24.0, 5.5, 8.0, (True, True, True)),
        (17.7, 5.5, 8.0, (True, False, True)),
        (12.0, 5.5, 8.0, (True, False, False)),
        (5.5, 5.5, 8.0, (False, False, False)),
    ],
)
def test_which_limit_states_a_pad_has(B, c, h_e, states):
    found = pad_limit_states(B, c, h_e)
    assert (found.flexure, found.one_way_shear, found.two_way_shear) == states
    assert found.says


def test_bearing_and_pier_by_hand():
    # 5.5 in. post on a 20 in. round pier: A_1 30.25, sqrt(A_2/A_1) over 2, so 2; 0.6 x 2 x 0.85 x 2500 x 30.25
    assert concrete_bearing_strength(2500.0, 30.25, math.pi * 100) == pytest.approx(77137.5)
    assert concrete_bearing_strength(2500.0, 100.0, 100.0) == pytest.approx(127500.0)
    # 0.6 x 0.6 x 2500 x 314.16 x (1 - (36 / (32 x 17.72))^2)
    assert pier_axial_strength(2500.0, 314.16, 36.0, 17.72) == pytest.approx(281604.0, rel=1e-4)
    assert pier_axial_and_bending(30.0, 100.0, 20.0, 50.0) == pytest.approx(0.7)
    # M/S - P/A = 30000/800 - 3000/300 = 27.5 psi; 0.6 x 5 x 50 = 150 psi
    assert pier_tension_ratio(3000.0, 30000.0, 300.0, 800.0, 2500.0, 1.0) == pytest.approx(27.5 / 150)
    assert pedestal_height_limit(12.0) == 36.0


@given(st.floats(12.0, 40.0), st.floats(4.0, 11.0), st.floats(500.0, 30000.0), st.floats(1.01, 1.5))
def test_laws_of_a_pad(B, c, P_u, more):
    q = factored_soil_pressure(P_u, B)
    assert footing_moment(q, B, c * more) <= footing_moment(q, B, c)
    assert footing_moment_strength(2500.0, 1.0, B, 8.0 * more) > footing_moment_strength(2500.0, 1.0, B, 8.0)
    assert footing_moment_strength(2500.0 * more, 1.0, B, 8.0) > footing_moment_strength(2500.0, 1.0, B, 8.0)
    # the same column load on a wider pad bends it more
    wider = factored_soil_pressure(P_u, B * more)
    assert footing_moment(wider, B * more, c) >= footing_moment(q, B, c) * (1 - 1e-9)


def test_metric_and_arrays():
    M = footing_moment(PSI.of(20.0).to("kPa"), INCH.of(24.0).to("mm"), INCH.of(5.5).to("mm"))
    assert M.m_as("lbf*inch") == pytest.approx(footing_moment(20.0, 24.0, 5.5))
    phiM_n = footing_moment_strength(PSI.of(2500.0).to("MPa"), 1.0, INCH.of(24.0).to("mm"), INCH.of(8.0))
    assert phiM_n.m_as("lbf*inch") == pytest.approx(38400.0)
    np.testing.assert_allclose(footing_shear_one_way(20.0, np.array([17.7, 24.0]), 5.5, 8.0), [0.0, 600.0])
