"""Post and footing sheets against published examples and statics by hand."""

from __future__ import annotations

import math

import pytest

from bolewright.part_sheets.inputs import PartError
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import part_sheet

POST, FOOTING = KINDS["post"], KINDS["footing"]


def value(sheet, symbol, unit=""):
    found = sheet.values[symbol]
    return float(found.m_as(unit)) if hasattr(found, "m_as") else float(found)


@pytest.mark.parametrize(("height", "C_P", "kips"), [(6, 0.6621, 16.8), (8, 0.4464, 11.3), (10, 0.3050, 7.7)])
def test_a_textbook_column(height, C_P, kips):
    """Mechanics of Materials, 7th edition, Problem 11.9-31: 3.5 by 7.25 in., F_c 1,000 psi, E 1,300,000 psi, K_cE 0.3,
    c 0.8: C_P and the load in kips at 6, 8 and 10 ft (read in a public copy of its solutions)."""
    texts = {**POST.example.inputs, "height": f"{height} ft", "braced_height": f"{height} ft"}
    sheet = part_sheet(POST, texts)
    assert value(sheet, "C_P") == pytest.approx(C_P, abs=0.00005)
    assert value(sheet, "F_c_p", "psi") * 3.5 * 7.25 / 1000 == pytest.approx(kips, abs=0.05)


def test_a_column_braced_the_weak_way_all_along():
    """Public engineering wiki, column stability example 1: F_cE 1130 and 950 psi, F_c* 1898, F_c' 823 strong axis
    (its numbers follow E_min 550,000; recomputed 823.5)."""
    own = {"own_F_c": "1650 psi", "own_E_min": "550000 psi"}
    texts = {"section": "2x6", "species": "Douglas Fir-Larch", "service": "dry", "duration": "snow"}
    lengths = {"height": "120 in", "braced_height": "30 in", "off_center": "0 in"}
    sheet = part_sheet(POST, texts | lengths | own)
    assert value(sheet, "F_cE2", "psi") == pytest.approx(1130, abs=5)
    assert value(sheet, "F_cE1", "psi") == pytest.approx(950, abs=5)
    assert value(sheet, "F_c_star", "psi") == pytest.approx(1898, abs=1)
    assert value(sheet, "F_c_p", "psi") == pytest.approx(823, abs=1)


def test_a_post_off_center_by_the_equation_of_nds_15_4():
    """NDS 2018, 15.4-1 without side load: (f_c/F_c')² + f_c (6 e/d)(1 + 0.234 f_c/F_cE1) / (F_b' (1 - f_c/F_cE1))."""
    sheet = part_sheet(POST, {"off_center": "1 in"})
    f_c, F_c, F_E, F_b = (value(sheet, n, "psi") for n in ("f_c", "F_c_p", "F_cE1", "F_b_p"))
    by_hand = (f_c / F_c) ** 2 + f_c * (6 * 1.0 / 5.5) * (1 + 0.234 * f_c / F_E) / (F_b * (1 - f_c / F_E))
    assert value(sheet, "ratio_e") == pytest.approx(by_hand, rel=1e-9)


def test_a_side_load_bends_the_post_by_p_l_over_4():
    """Statics: M = P L/4 = 200 x 96/4 = 4,800 lb·in; 6x6: S = 27.73 in³ (NDS Supplement, Table 1B): 173.1 psi."""
    sheet = part_sheet(POST, {"side_load": "200 lb"})
    assert value(sheet, "f_b1", "psi") == pytest.approx(4800 / 27.73, rel=1e-3)


def test_nailed_plies_take_0_6_and_bolted_0_75():
    """NDS 2018, 15.3.2.2: K_f across the plies."""
    nailed, bolted = (part_sheet(POST, {"section": "3-2x6", "fastening": f}) for f in ("nailed", "bolted"))
    assert value(nailed, "C_P2") / value(bolted, "C_P2") == pytest.approx(0.60 / 0.75)
    assert value(nailed, "C_P") == min(value(nailed, "C_P1"), value(nailed, "C_P2"))


def test_an_embedded_sign_post():
    """Sealed sign calculation in a city permit archive: 1.74 kip at 4.17 ft, 5.5 ft wide, 150 psf/ft doubled, trial
    4.0 ft: 3.97 ft wanted (IBC 1807.3.2.1)."""
    texts = {"lateral": "1740 lb", "lateral_height": "4.17 ft", "embedded_width": "5.5 ft", "doubled": "2"}
    sheet = part_sheet(FOOTING, texts | {"width": "66 in", "embedment": "4 ft", "lateral_soil": "150 psf/ft"})
    assert value(sheet, "d_req", "ft") == pytest.approx(3.97, abs=0.005)


@pytest.mark.parametrize(("height", "depth"), [(0.5, 3.0), (4.0, 5.0), (10.0, 6.0)])
def test_the_soil_along_an_embedded_post_holds_it_in_balance(height, depth):
    """Pressure x (1 - x/a) summed in slices: a and its size are those that leave no force and no moment at grade."""
    texts = {"lateral": "400 lb", "lateral_height": f"{height} ft", "embedment": f"{depth} ft"}
    sheet = part_sheet(FOOTING, texts | {"lateral_soil": "2000 psf/ft"})
    turn, above, below = (value(sheet, n, u) for n, u in (("a_t", "ft"), ("R_u", "lbf"), ("R_l", "lbf")))
    slices = 20_000
    places = [(i + 0.5) * depth / slices for i in range(slices)]
    shape = [x * (1 - x / turn) * depth / slices for x in places]
    size = 400 / sum(shape)
    assert sum(s * x for s, x in zip(shape, places, strict=True)) * size == pytest.approx(
        -400 * height, rel=1e-5
    )
    assert above == pytest.approx(size * sum(s for s in shape if s > 0), rel=1e-5)
    assert below == pytest.approx(-size * sum(s for s in shape if s < 0), rel=1e-5)
    drawn = FOOTING.figures(sheet.inputs, sheet.given, sheet.values, False)
    assert len(drawn) == 2
    assert f"R_u = {above:,.0f}" in drawn[1].svg or f"R_u = {above:,.1f}" in drawn[1].svg
    assert "presses against the load" in drawn[1].alt
    assert len(FOOTING.figures(sheet.inputs, sheet.given, {}, True)) == 2
    assert "R_u = ______" in FOOTING.figures(sheet.inputs, sheet.given, sheet.values, True)[1].svg


def test_soil_pressure_by_hand():
    """(3,000 lb + 145 pcf x (20/12)² x 8/12) / (20/12)² = 1,176.7 psf; 16 in. of soil round the post add 123.3 psf."""
    area = (20 / 12) ** 2
    bare = part_sheet(FOOTING, {"cover": "0 in"})
    assert value(bare, "q", "psf") == pytest.approx((3000 + 145 * area * 8 / 12) / area)
    soil = 100 * (area - (5.5 / 12) ** 2) * 16 / 12
    covered = part_sheet(FOOTING, {"cover": "16 in"})
    assert value(covered, "q", "psf") == pytest.approx((3000 + 145 * area * 8 / 12 + soil) / area)


def test_a_round_footing_has_its_own_area():
    sheet = part_sheet(FOOTING, {"shape": "round"})
    assert value(sheet, "A", "ft**2") == pytest.approx(math.pi / 4 * (20 / 12) ** 2)


def test_weight_against_uplift_by_hand():
    """0.6 of concrete and of the soil above it (ASCE 7-16, 2.4.1): 20 in. square, 8 in. thick, 16 in. of soil."""
    sheet = part_sheet(FOOTING, {"uplift": "200 lb"})
    area, post = (20 / 12) ** 2, (5.5 / 12) ** 2
    weight = 145 * area * 8 / 12 + 100 * (area - post) * 16 / 12
    assert value(sheet, "R_w", "lbf") == pytest.approx(0.6 * weight)


FAULTS = [
    (POST, {"section": "6-2x6"}, "section"),
    (POST, {"off_center": "3 in"}, "off_center"),
    (POST, {"own_F_c": "many"}, "own_F_c"),
    (POST, {"dead": "0 lb", "live": "0 lb"}, "live"),
    (FOOTING, {"post_width": "30 in"}, "post_width"),
    (FOOTING, {"lateral": "100 lb", "embedment": "0 ft"}, "embedment"),
    (FOOTING, {"thickness": "2 in"}, "thickness"),
]


@pytest.mark.parametrize(("kind", "texts", "field"), FAULTS, ids=[f"{k.name}-{f}" for k, _, f in FAULTS])
def test_faulty_input_is_one_sentence_at_its_field(kind, texts, field):
    with pytest.raises(PartError) as caught:
        part_sheet(kind, texts)
    assert list(caught.value.faults) == [field]


def test_concrete_under_a_post_on_a_round_footing():
    """10 in. round, post 5 1/2 in.: A_2 is the largest square in the circle, 10 x 10 / 2 = 50 in² (ACI 318-19,
    14.5.6.1): 0.60 x sqrt(50 / 30.25) x 0.85 x 2500 x 30.25 = 49,580 lb."""
    sheet = part_sheet(FOOTING, {"shape": "round", "width": "10 in", "soil": "8000 psf"})
    assert value(sheet, "phi_B", "lbf") == pytest.approx(49_586, rel=1e-3)
    with pytest.raises(PartError, match="corners of the post"):
        part_sheet(FOOTING, {"shape": "round", "width": "7 in"})


def test_a_wide_thin_footing_is_no_footing():
    """IRC R403.1.1: a projection is at most the thickness: (42 - 5.5) / 2 = 18.25 in. of 8 in."""
    sheet = part_sheet(FOOTING, {"width": "42 in"})
    assert value(sheet, "ratio_p") == pytest.approx(18.25 / 8)
    assert value(part_sheet(FOOTING, {"width": "21 1/2 in"}), "ratio_p") == pytest.approx(1.0)
