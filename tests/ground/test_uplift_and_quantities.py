"""Uplift resistance and concrete quantities, by geometry worked here."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from bolewright.ground.concrete import (
    BAG_YIELD,
    PLAIN_CONCRETE,
    bags_of_concrete,
    concrete_volume_round,
    concrete_volume_square,
    weight_of_volume,
    whole_bags,
)
from bolewright.ground.uplift import (
    frost_heave_force,
    shaft_friction,
    soil_on_base,
    uplift_resistance_cone,
    uplift_resistance_friction,
    uplift_resistance_weight,
)


def test_six_tenths_of_the_weight():  # ASCE 7-16 2.4.1
    assert uplift_resistance_weight(1000.0) == 600.0


def test_soil_standing_on_a_base():
    # 24 in. base, 8 in. shaft, 3 ft of soil at 100 pcf: pi/4 (4 - 0.4444) 3 x 100
    assert soil_on_base(100.0, 2.0, 2 / 3, 3.0) == pytest.approx(837.8, abs=0.1)


def test_cone_equals_the_integrated_rings():
    slope = math.tan(math.radians(25.0))
    volume = quad(lambda y: math.pi * (1.0 + y * slope) ** 2 - math.pi / 4 * 0.5**2, 0.0, 4.0)[0]
    assert uplift_resistance_cone(100.0, 2.0, 0.5, 4.0, 25.0, 2.0) == pytest.approx(100.0 * volume / 2.0)


@given(st.floats(1.0, 3.0), st.floats(1.0, 6.0))
def test_upright_cone_is_the_soil_on_the_base(d_b, H):
    cone = uplift_resistance_cone(100.0, d_b, 0.4, H, 0.0, 1.0)
    assert cone == pytest.approx(soil_on_base(100.0, d_b, 0.4, H))
    assert uplift_resistance_cone(100.0, d_b, 0.4, H, 20.0, 1.0) > cone


def test_friction_of_a_shaft():
    assert shaft_friction(2000.0) == pytest.approx(333.33, abs=0.01)
    assert shaft_friction(4000.0) == 500.0
    assert uplift_resistance_friction(300.0, 1.0, 2.0) == pytest.approx(600 * math.pi)
    assert frost_heave_force(1000.0, 1.0, 3.5) == pytest.approx(3500 * math.pi)


def test_concrete_of_a_post_hole():
    # 20 in. hole, 54 in. deep, 5.5 x 5.5 in. post in the upper 44 in.
    pad = concrete_volume_round(20 / 12, 10 / 12, 0.0)
    collar = concrete_volume_round(20 / 12, 44 / 12, 30.25 / 144)
    assert pad + collar == pytest.approx(1.818 + 7.229, abs=0.002)
    assert weight_of_volume(pad, PLAIN_CONCRETE) == pytest.approx(261.8, abs=0.05)
    assert concrete_volume_square(2.0, 0.75) == 3.0


def test_bags_of_eighty_pounds():  # common practice: 0.60 cu ft each, so 45 bags make a cubic yard
    assert whole_bags(bags_of_concrete(27.0, BAG_YIELD, 0.0)) == 45
    assert whole_bags(bags_of_concrete(9.05, BAG_YIELD, 0.10)) == 17  # 16.6
