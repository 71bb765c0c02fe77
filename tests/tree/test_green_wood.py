"""Bearing of a bolt in green trunk wood, against the values of the Wood Handbook and of the NDS."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.tree.bolt import load_angle
from bolewright.tree.green_wood import (
    bearing_per_length,
    bearing_size_sensitivity,
    oven_dry_specific_gravity,
    oven_dry_specific_gravity_estimated,
    trunk_bearing_at_angle,
    trunk_bearing_parallel,
    trunk_bearing_perpendicular,
)
from bolewright.tree.species import trunk_species, trunk_wood
from bolewright.units import INCH, PSI


def uncapped(G):
    return 0.7 * 11200 * G


@pytest.mark.parametrize(
    ("G", "expected"),
    [
        (0.58, 4547),  # bur oak, green volume (Wood Handbook 5-3b)
        (0.58 / (1 - 0.127), 5209),  # the same on oven-dry volume (Table 4-3: 12.7 %)
        (0.73, 5723),  # NDS Table 12.3.3A, white oak
    ],
)
def test_wet_bearing_by_the_nds_alone_exceeds_bur_oaks_crushing_strength(G, expected):
    assert uncapped(G) == pytest.approx(expected, abs=0.5)
    assert float(trunk_bearing_parallel(G, 3290.0)) == 3290.0  # mean green crushing, Wood Handbook 5-3b


@pytest.mark.parametrize(
    ("nds_G", "species", "ratio"),
    [(0.50, "coast Douglas-fir", 1.04), (0.55, "loblolly pine", 1.23), (0.73, "white oak", 1.6)],
)
def test_wet_factor_against_green_crushing_strength(nds_G, species, ratio):
    # NDS 2018 Table 12.3.3A and Table 11.3.3 (0.7) against Wood Handbook 5-3b, green
    assert uncapped(nds_G) / trunk_wood(species).C_par == pytest.approx(ratio, abs=0.01)


@pytest.mark.parametrize(
    "species", ["bur oak", "coast Douglas-fir", "loblolly pine", "white oak", "live oak"]
)
def test_bearing_along_the_grain_is_never_above_green_crushing(species):
    wood = trunk_wood(species)
    F_e = float(trunk_bearing_parallel(wood.G_green, wood.C_par))
    assert F_e == pytest.approx(min(uncapped(wood.G_green), wood.C_par))


def test_every_species_has_a_bearing_strength_that_its_crushing_strength_covers():
    for name in trunk_species():
        wood = trunk_wood(name)
        assert 0 < float(trunk_bearing_parallel(wood.G_green, wood.C_par)) <= wood.C_par


def test_bur_oak_on_oven_dry_volume():
    assert pytest.approx(oven_dry_specific_gravity(0.58, 0.127), abs=0.005) == 0.66
    assert pytest.approx(oven_dry_specific_gravity_estimated(0.58), abs=0.005) == 0.69


def test_bearing_across_the_grain_of_bur_oak():
    # 0.7 x 6100 G^1.45 / sqrt(D), D 1.5 in., G 0.58: 1580 psi
    assert float(trunk_bearing_perpendicular(0.58, 1.5)) == pytest.approx(1580, abs=5)


def test_hankinson_meets_its_ends_and_the_published_form():
    assert float(trunk_bearing_at_angle(3290.0, 1580.0, 0.0)) == pytest.approx(3290.0)
    assert float(trunk_bearing_at_angle(3290.0, 1580.0, 90.0)) == pytest.approx(1580.0)
    # NDS 12.3.4 at 45 degrees: 2 p q / (p + q)
    expected = 2 * 3290 * 1580 / (3290 + 1580)
    assert float(trunk_bearing_at_angle(3290.0, 1580.0, load_angle(700.0, 700.0))) == pytest.approx(expected)


def test_european_size_effect_from_1_to_1_5_inches():
    # EN 1995-1-1 8.5.1.1: (1 - 0.01 x 38.1) / (1 - 0.01 x 25.4)
    assert float(bearing_size_sensitivity(1.5)) == pytest.approx(0.83, abs=0.005)
    assert float(bearing_size_sensitivity(1.0)) == 1.0


def test_bolts_above_one_inch_are_said_to_be_extrapolated():
    formula = bearing_per_length.formula
    assert formula.outside(F_e=3290.0, D=1.0) == []
    assert "12.3.1B" in formula.outside(F_e=3290.0, D=1.5)[0]


@given(st.floats(0.0, 90.0), st.floats(500.0, 6000.0), st.floats(0.2, 1.0))
def test_inclined_bearing_lies_between_the_two(theta, F_par, share):
    F_perp = share * F_par
    F = float(trunk_bearing_at_angle(F_par, F_perp, theta))
    assert F_perp * (1 - 1e-12) <= F <= F_par * (1 + 1e-12)


def test_metric_and_imperial_agree():
    q = bearing_per_length(PSI.of(3290.0).to("MPa"), INCH.of(1.5).to("mm"))
    assert q.m_as("lbf/inch") == pytest.approx(4935.0)
    np.testing.assert_allclose(bearing_per_length(np.array([3290.0, 2000.0]), 1.5), [4935.0, 3000.0])
