"""Soil pressure and footing size against the IRC's table and a worked example."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.ground.soil import (
    eccentric_pressure_formula,
    footing_area_required,
    footing_depth_required,
    round_footing_area,
    round_footing_diameter,
    sliding_resistance_cohesion,
    sliding_resistance_friction,
    soil_class,
    soil_classes,
    soil_pressure_eccentric,
    soil_pressure_gross,
    soil_pressure_net,
    soil_pressure_partial,
    square_footing_side,
    table_size,
)
from bolewright.reference import load
from bolewright.units import FOOT, POUND, PSF

DEAD = 10.0  # psf, the dead load of the IRC's deck tables
# The exact diameter is 18.4999 in.; the table prints 19, not 18. Half an inch is as close as whole inches get.
ON_THE_EDGE = (60.0, 40.0, 1500.0)
LEAST = {"square": 12.0, "round": 14.0}  # the smallest sizes Table R507.3.1 lists


def sizes(row):
    A = footing_area_required((row["live_or_snow_psf"] + DEAD) * row["tributary_ft2"], row["soil_psf"])
    return 12 * square_footing_side(A), 12 * round_footing_diameter(A)


@pytest.mark.parametrize(
    "row",
    list(load("irc_R507_3_1_footing_size")),
    ids=lambda r: f"{r['live_or_snow_psf']:g}psf-{r['tributary_ft2']:g}sqft-{r['soil_psf']:g}psf",
)
def test_footing_size_of_irc_2018_table_R507_3_1(row):
    side, diameter = sizes(row)
    assert table_size(side, LEAST["square"]) == row["square_side_in"]
    if (row["live_or_snow_psf"], row["tributary_ft2"], row["soil_psf"]) == ON_THE_EDGE:
        assert diameter == pytest.approx(18.4999, abs=5e-5)
        assert row["round_diameter_in"] == 19.0
        assert row["confidence"] == "M2"
        return
    assert table_size(diameter, LEAST["round"]) == row["round_diameter_in"]


def test_village_guideline_example():  # worked_examples_ground.csv, P6
    example = {r["quantity"]: r["value"] for r in load("worked_examples_ground") if r["example"] == "P6"}
    P = example["load_psf"] * example["area"]
    assert example["P"] == P
    A = footing_area_required(P, example["q_a"])
    assert pytest.approx(example["A_req"], abs=0.005) == A
    # the guideline rounds up to whole inches
    assert math.ceil(12 * square_footing_side(A)) == example["square_side"]
    assert math.ceil(12 * round_footing_diameter(A)) == example["round_diameter"]


@pytest.mark.parametrize(
    ("number", "vertical", "lateral", "friction", "cohesion"),
    [  # IBC Table 1806.2
        (1, 12000, 1200, 0.70, 0),
        (2, 4000, 400, 0.35, 0),
        (3, 3000, 200, 0.35, 0),
        (4, 2000, 150, 0.25, 0),
        (5, 1500, 100, 0, 130),
    ],
)
def test_presumptive_values(number, vertical, lateral, friction, cohesion):
    soil = soil_class(number)
    assert (soil.vertical, soil.lateral, soil.friction, soil.cohesion) == (
        vertical,
        lateral,
        friction,
        cohesion,
    )
    assert soil in soil_classes()


def test_an_unknown_soil_class_is_refused_in_one_sentence():
    with pytest.raises(ValueError, match="soil class 6 is not one of 1 to 5"):
        soil_class(6)


def test_gross_is_the_stricter_reading():
    A = round_footing_area(20 / 12)  # 2.1817 sq ft
    assert pytest.approx(2.1817, abs=5e-5) == A
    gross, net = soil_pressure_gross(2500.0, 1400.0, A), soil_pressure_net(2500.0, 1400.0, 1080.0, A)
    assert gross == pytest.approx(3900 / 2.1817, abs=0.1)
    assert gross - net == pytest.approx(1080 / 2.1817, abs=0.1)


def test_sliding():
    assert sliding_resistance_friction(0.25, 2000.0) == 500.0
    assert sliding_resistance_cohesion(130.0, 2.0, 2000.0) == 260.0
    assert sliding_resistance_cohesion(130.0, 20.0, 2000.0) == 1000.0  # half the dead load, 1806.3.2


def test_frost_or_the_codes_twelve_inches():
    assert footing_depth_required(3.5, 1.0) == 3.5
    assert footing_depth_required(0.0, 1.0) == 1.0


@given(st.floats(200.0, 20000.0), st.floats(1500.0, 12000.0), st.floats(1.01, 2.0))
def test_size_rises_with_load_and_falls_with_soil(P, q_a, more):
    assert footing_area_required(P * more, q_a) > footing_area_required(P, q_a)
    assert footing_area_required(P, q_a * more) < footing_area_required(P, q_a)
    A = footing_area_required(P, q_a)
    assert round_footing_area(round_footing_diameter(A)) == pytest.approx(square_footing_side(A) ** 2)


def test_metric_and_arrays():
    q = soil_pressure_gross(POUND.of(2500.0).to("kN"), POUND.of(0.0), FOOT.of(1.0) ** 2)
    assert q.m_as("psf") == pytest.approx(2500.0)
    A = footing_area_required(np.array([1500.0, 3000.0]), PSF.of(1500.0).m_as("psf"))
    np.testing.assert_allclose(A, [1.0, 2.0])


def test_pressure_under_an_eccentric_load_balances_it():
    # 3 ft square, 3000 lb. Inside the middle third: 333.3 (1 + 6 x 0.25 / 3) = 500 psf and 166.7 on the other side
    assert soil_pressure_eccentric(3000.0, 0.25, 3.0) == pytest.approx(500.0)
    # at B / 6 the two meet, at twice the mean
    assert soil_pressure_eccentric(3000.0, 0.5, 3.0) == pytest.approx(2000 / 3)
    assert soil_pressure_partial(3000.0, 0.5, 3.0) == pytest.approx(2000 / 3)
    # outside: a triangle 3 (B/2 - e) = 1.5 ft long carries all: 3000 = q / 2 x 1.5 x 3
    assert soil_pressure_partial(3000.0, 1.0, 3.0) == pytest.approx(3000 / 2.25)


def test_which_pressure_formula_holds():
    assert eccentric_pressure_formula(0.5, 3.0) is soil_pressure_eccentric
    assert eccentric_pressure_formula(0.6, 3.0) is soil_pressure_partial
    with pytest.raises(ValueError, match="overturns"):
        eccentric_pressure_formula(1.5, 3.0)
