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


FAULTS = [
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


def test_the_moment_worked_out_by_hand_is_the_one_that_is_checked():
    """The statics printed line by line end in the moment of the diagrams, on one, two and three supports."""
    cases = (
        {"supports": "1", "span": "4 ft", "loads": "live 200 lb at 4 ft; dead 30 plf from 1 ft to 3 ft"},
        {"span": "10 ft", "left_overhang": "2 ft", "right_overhang": "3 ft", "live": "100 plf"},
        {"supports": "3", "second_span": "8 ft", "loads": "live 500 lb at 5 ft"},
    )
    for texts in cases:
        sheet = part_sheet(BEAM, texts)
        last = [b.alt for b in sheet.given.before if getattr(b, "alt", "")][-1].splitlines()[-1]
        by_hand = abs(float(last.rpartition(" = ")[2].split()[0].replace(",", "")))
        assert by_hand == pytest.approx(max(sheet.given["M"], sheet.given["M_n"]), rel=1e-3)
