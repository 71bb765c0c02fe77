"""The beam sheet by statics: AWC Design Aid 6 figures, and cases worked by hand."""

from __future__ import annotations

import pytest

from bolewright.part_sheets.inputs import PartError
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import part_sheet
from bolewright.status import Status

BEAM = KINDS["beam"]


def given(**texts):
    return {s.name: s.value for s in part_sheet(BEAM, texts).given.symbols}


CASES = [  # AWC Design Aid 6: figure, inputs, M (lb·ft), V (lb), R (lb)
    ("1 uniform", {"span": "10 ft", "dead": "0 plf", "live": "100 plf"}, 1250.0, 500.0, 500.0),
    (
        "7 centre",
        {"span": "10 ft", "dead": "0 plf", "live": "0 plf", "loads": "live 800 lb at 5 ft"},
        2000.0,
        400.0,
        400.0,
    ),
    (
        "8 any point",
        {"span": "10 ft", "dead": "0 plf", "live": "0 plf", "loads": "live 1000 lb at 4 ft"},
        2400.0,
        600.0,
        600.0,
    ),
    (
        "5 partial",
        {"span": "10 ft", "dead": "0 plf", "live": "0 plf", "loads": "live 100 plf from 0 ft to 5 ft"},
        703.125,
        375.0,
        375.0,
    ),
]


@pytest.mark.parametrize(("texts", "M", "V", "R"), [c[1:] for c in CASES], ids=[c[0] for c in CASES])
def test_simple_spans_of_design_aid_6(texts, M, V, R):
    found = given(**texts)
    assert found["M"] / 12 == pytest.approx(M, rel=2e-4)
    assert found["V"] == pytest.approx(V, rel=1e-9)
    assert found["R"] == pytest.approx(R, rel=1e-9)


def test_cantilever_bends_over_its_support():
    """AWC DA6, cantilever with uniform load: M = w L²/2 = 80 x 4²/2 = 640 lb·ft, V = w L = 320 lb; all negative."""
    found = given(supports="1", span="4 ft", dead="0 plf", live="80 plf")
    assert found["M_n"] / 12 == pytest.approx(640.0, rel=1e-6)
    assert found["V"] == pytest.approx(320.0)
    assert found["M"] == 0


def test_live_load_on_an_overhang_does_not_relieve_the_span():
    """By hand: the span's greatest moment under live load alone is that without the overhang, w L²/8; over the
    support it is w a²/2; the far reaction lifts by w a²/(2 L) where dead load is nothing."""
    found = given(span="10 ft", right_overhang="4 ft", dead="0 plf", live="100 plf")
    assert found["M"] / 12 == pytest.approx(1250.0, rel=1e-4)
    assert found["M_n"] / 12 == pytest.approx(800.0, rel=1e-9)
    assert found["R_up"] == pytest.approx(80.0)


def test_uplift_leaves_the_sheet_open():
    sheet = part_sheet(BEAM, {"span": "10 ft", "right_overhang": "4 ft", "dead": "0 plf", "live": "20 plf"})
    assert sheet.status is Status.NOT_CHECKED
    assert "Uplift at a support is open" in sheet.verdict


def test_two_equal_spans_under_patterned_load():
    """AWC DA6, continuous beam of two equal spans: dead M- = w L²/8; live on one span only: M+ = 49/512 w L²
    = 0.0957 w L² (also AISC Manual, Table 3-22c), R of the middle with both loaded 1.25 w L."""
    found = given(supports="3", span="10 ft", second_span="10 ft", dead="0 plf", live="100 plf")
    assert found["M"] / 12 == pytest.approx(49 / 512 * 100 * 100, rel=2e-4)
    assert found["M_n"] / 12 == pytest.approx(1250.0, rel=1e-6)
    assert found["R"] == pytest.approx(1250.0, rel=1e-6)


def test_dead_load_alone_governs_where_it_is_nearly_all():
    """NDS 2018, 2.3.2: each combination with its own C_D; D alone governs where D/0.9 > (D + L)/1.0."""
    assert given(dead="100 plf", live="5 plf")["C_D"] == 0.9
    assert given(dead="100 plf", live="20 plf")["C_D"] == 1.0


def test_deflection_of_a_simple_span():
    """5 w L⁴/(384 E I) by hand: 2x10 Southern Pine No.2, I = 98.93 in⁴, E = 1,400,000 psi, 50 plf over 12 ft."""
    found = given(span="12 ft", dead="0 plf", live="50 plf")
    assert found["delta_LE"] == pytest.approx(5 * (50 / 12) * 144**4 / (384 * 1.4e6 * 98.93), rel=1e-3)


NOTHING_EVEN = {"span": "10 ft", "dead": "0 plf", "live": "0 plf"}
GROWING = [  # AISC Manual, Table 3-23 (from memory; the moments by statics): figure, inputs, M, M_n (lb·ft), V, R (lb)
    (  # 2: W = 50 x 10 / 2 = 250 lb; W L / (9 sqrt(3)) x 2, two thirds of W at the high end
        "2 to one end",
        {"loads": "live 0 plf to 50 plf from 0 ft to 10 ft"},
        2 * 250 * 10 / (9 * 3**0.5),
        0.0,
        2 * 250 / 3,
        2 * 250 / 3,
    ),
    (  # 3: W = 2 x 50 x 5 / 2 = 250 lb; W L / 6
        "3 to the center",
        {"loads": "live 0 plf to 50 plf from 0 ft to 5 ft; live 50 plf to 0 plf from 5 ft to 10 ft"},
        250 * 10 / 6,
        0.0,
        125.0,
        125.0,
    ),
    (  # 18: cantilever, load growing to the fixed end: W L / 3
        "18 cantilever",
        {"supports": "1", "loads": "live 50 plf to 0 plf from 0 ft to 10 ft"},
        0.0,
        250 * 10 / 3,
        250.0,
        250.0,
    ),
    (  # by statics: 30 plf even and 0 to 40 plf in one load: R_2 = 30 x 5 + 2/3 x 200
        "trapezoid",
        {"loads": "live 30 plf to 70 plf from 0 ft to 10 ft"},
        627.755,  # at x = 5.3290 ft, where V = 216.667 - 30 x - 2 x^2 is 0: 216.667 x - 15 x^2 - 2/3 x^3
        0.0,
        150 + 400 / 3,
        150 + 400 / 3,
    ),
]


@pytest.mark.parametrize(
    ("texts", "M", "M_n", "V", "R"), [c[1:] for c in GROWING], ids=[c[0] for c in GROWING]
)
def test_loads_that_grow_along_the_beam(texts, M, M_n, V, R):
    found = given(**(NOTHING_EVEN | texts))
    assert found["M"] / 12 == pytest.approx(M, rel=2e-4)
    assert found["M_n"] / 12 == pytest.approx(M_n, rel=1e-6)
    assert found["V"] == pytest.approx(V, rel=1e-6)
    assert found["R"] == pytest.approx(R, rel=1e-6)


def test_deflection_under_a_load_that_grows():
    """AISC Manual, Table 3-23, 2 (from memory): 0.01304 W L³/(E I) at 0.519 L; 18: W L³/(15 E I)."""
    EI = 1.4e6 * 98.93  # 2x10 Southern Pine No.2, NDS Supplement 2018, Tables 1B and 4B
    one = given(**(NOTHING_EVEN | {"loads": "live 0 plf to 50 plf from 0 ft to 10 ft"}))
    assert one["delta_LE"] == pytest.approx(0.01304 * 250 * 120**3 / EI, rel=1e-3)
    two = given(**(NOTHING_EVEN | {"supports": "1", "loads": "live 50 plf to 0 plf from 0 ft to 10 ft"}))
    assert two["delta_LE"] == pytest.approx(250 * 120**3 / (15 * EI), rel=1e-3)


@pytest.mark.parametrize(("sign", "M", "M_n"), [("", 600.0, 400.0), ("-", 400.0, 600.0)])
def test_a_moment_on_a_simple_span(sign, M, M_n):
    """Statics: 1,000 lb·ft clockwise at 4 ft of 10 ft gives R_2 = 100 lb up and R_1 = 100 lb down; just left of it the
    moment is -100 x 4 lb·ft, just right of it 100 x 6 lb·ft. Counterclockwise all of it is turned round."""
    found = given(**(NOTHING_EVEN | {"loads": f"live {sign}1000 lb ft at 4 ft"}))
    assert found["M"] / 12 == pytest.approx(M, rel=1e-6)
    assert found["M_n"] / 12 == pytest.approx(M_n, rel=1e-6)
    assert (found["V"], found["R"], found["R_up"]) == pytest.approx((100.0, 100.0, 100.0))


def test_a_moment_at_the_tip_of_a_cantilever():
    """Statics: clockwise at the tip, M_n = 500 lb·ft throughout, no shear; deflection M L²/(2 E I)."""
    found = given(supports="1", span="4 ft", dead="0 plf", live="0 plf", loads="live 500 lb ft at 4 ft")
    assert found["M_n"] / 12 == pytest.approx(500.0, rel=1e-6)
    assert found["V"] == pytest.approx(0.0, abs=1e-6)
    assert found["delta_LE"] == pytest.approx(6000 * 48**2 / (2 * 1.4e6 * 98.93), rel=1e-3)


def test_wind_that_lifts_counts_six_tenths_of_dead_load():
    """ASCE/SEI 7-16, 2.4.1, combination 7: 50 plf of wind up on 20 plf of dead load over 10 ft leaves 50 - 12 plf."""
    found = given(
        span="10 ft", dead="20 plf", live="0 plf", duration="wind", loads="live -50 plf from 0 ft to 10 ft"
    )
    assert found["M_n"] / 12 == pytest.approx(38 * 100 / 8, rel=2e-4)
    assert found["R_up"] == pytest.approx(190.0)
    assert found["V"] == pytest.approx(190.0)
    assert found["C_Dn"] == 1.6
    assert found["M"] / 12 == pytest.approx(20 * 100 / 8, rel=2e-4)  # dead load alone
    assert found["C_D"] == 0.9


def test_a_force_that_lifts_leaves_the_sheet_open_and_says_what_acts():
    sheet = part_sheet(
        BEAM, {"dead": "5 plf", "live": "0 plf", "loads": "live -300 lb at 6 ft", "duration": "wind"}
    )
    assert sheet.status is Status.NOT_CHECKED
    assert "Uplift at a support is open" in sheet.verdict
    table = next(block for block in sheet.given.before if hasattr(block, "rows"))
    assert [row[1] for row in table.rows] == ["dead, span 1", "live -300 lb"]
    assert table.rows[1][2].endswith("300 lb up")
    said = [block.items[0] for block in sheet.given.before if hasattr(block, "items")]
    assert any(
        words.startswith("Loads that act for") and "uplift" in words and "0.6 x W_1, W_2." in words
        for words in said
    )


def test_dead_load_of_the_user_that_lifts_always_acts():
    """Statics: 20 plf down and 100 lb up at mid-span of 10 ft: R = (200 - 100) / 2, M = 20 x 100 / 8 - 100 x 10 / 4."""
    found = given(span="10 ft", dead="20 plf", live="0 plf", loads="dead -100 lb at 5 ft")
    assert found["R"] == pytest.approx(50.0)
    assert found["R_up"] == 0


FAULTS = [
    ({"loads": "live -5 plf to 5 plf from 0 ft to 2 ft"}, "loads"),
    ({"loads": "live 0 plf to 0 plf from 0 ft to 2 ft"}, "loads"),
    ({"loads": "live 1 plf to 2 plf to 3 plf from 0 ft to 2 ft"}, "loads"),
    ({"loads": "live 900 kip ft at 2 ft"}, "loads"),
    ({"loads": "live 0 lb at 2 ft"}, "loads"),
    ({"supports": "3"}, "second_span"),
    ({"supports": "2", "second_span": "8 ft"}, "second_span"),
    ({"supports": "1", "left_overhang": "2 ft"}, "left_overhang"),
    ({"loads": "live 300 lb at 40 ft"}, "loads"),
    ({"loads": "300 lb somewhere"}, "loads"),
    ({"dead": "0 plf", "live": "0 plf"}, "live"),
    ({"grade": "No.9"}, "grade"),
    ({"species": "Balsa"}, "species"),
    ({"section": "2x99"}, "section"),
    ({"service": "damp"}, "service"),
    ({"span": "0 ft"}, "span"),
]


@pytest.mark.parametrize(("texts", "field"), FAULTS, ids=[f"{f}-{i}" for i, (_, f) in enumerate(FAULTS)])
def test_faulty_input_is_one_sentence_at_its_field(texts, field):
    with pytest.raises(PartError) as caught:
        part_sheet(BEAM, texts)
    assert list(caught.value.faults) == [field]
