"""Withdrawal, rated connector, guard post, decking, notch and span sheets against tables and statics by hand."""

from __future__ import annotations

import pytest

from bolewright.part_sheets.inputs import PartError
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import part_sheet
from bolewright.reference import load
from bolewright.status import Status


def value(name, symbol, unit="", **texts):
    found = part_sheet(KINDS[name], texts).values[symbol]
    return float(found.m_as(unit)) if hasattr(found, "m_as") else float(found)


LAGS = [("0.55", "5/8 in", 516), ("0.50", "7/16 in", 342), ("0.43", "1/2 in", 302), ("0.58", "1/2 in", 473)]


@pytest.mark.parametrize(("G", "D", "published"), LAGS)
def test_lag_screws_of_table_12_2a(G, D, published):
    """NDS 2018, Table 12.2A, lb per inch of thread."""
    found = value("withdrawal", "W", "lbf/inch", main_gravity=G, diameter=D, length="6 in")
    assert found == pytest.approx(published, abs=0.5)


def test_withdrawal_of_nails_by_the_equation():
    """NDS 2018, 12.2-3: W = 1380 G^(5/2) D; 16d common, D 0.162 in., 3-1/2 in. long through 1-1/2 in.; C_M 0.25 for
    nails that go in wet and dry out is not asked: wet throughout 1.0 (Table 11.3.3)."""
    texts = {"fastener": "nail", "main_gravity": "0.50", "count": "1"}
    assert value("withdrawal", "W", "lbf/inch", **texts) == pytest.approx(1380 * 0.5**2.5 * 0.162)
    assert part_sheet(KINDS["withdrawal"], texts).given["p_t"] == pytest.approx(2.0)


def test_no_rating_for_a_load_leaves_the_sheet_open():
    sheet = part_sheet(KINDS["hanger"], {"up": "100 lb"})
    assert sheet.status is Status.NOT_CHECKED
    assert "Load up is open" in sheet.verdict


def test_a_short_load_does_not_raise_a_rating():
    assert value("hanger", "Z_d", "lbf", duration="wind") == value(
        "hanger", "Z_d", "lbf", duration="floor live"
    )


def test_guard_post_in_balance():
    """Statics: moments about the lower bolt 200 (36 + 2 + 5) = T_1 x 5, T_1 = 1,720 lb; T_2 = T_1 - 200 = 1,520 lb."""
    assert value("guard-post", "T_1", "lbf") == pytest.approx(1720)
    assert value("guard-post", "T_2", "lbf") == pytest.approx(1520)
    assert value("guard-post", "M", "lbf*inch") == pytest.approx(200 * 38)


def test_the_hole_in_a_guard_post_counts():
    """A hole along the push takes its width from the breadth: S_n = (3.5 - 9/16) 3.5²/6."""
    assert value("guard-post", "S_n", "inch**3") == pytest.approx((3.5 - 9 / 16) * 3.5**2 / 6)


def test_a_board_by_hand():
    """2x6 flat over 16 in.: S = 5.5 x 1.5²/6 = 2.0625; 300 lb: M = 300 x 16/4 = 1,200; with 5 psf: + 0.191 x 16²/8."""
    M = 1200 + 5 * 5.5 / 144 * 16**2 / 8
    assert value("decking", "f_P", "psi") == pytest.approx(M / 2.0625)


def test_the_spacing_of_the_code_table_is_a_limit():
    """IRC 2018, Table R507.7: 16 in. for 5/4 boards, 24 in. for 2 in. boards, square to the joists."""
    sheet = part_sheet(
        KINDS["decking"],
        {"section": "5/4x6", "spacing": "20 in", "own_F_b": "1300 psi", "own_E": "1200000 psi"},
    )
    assert next(j for j in sheet.limits if j.limit.words == "Joist spacing").ratio == pytest.approx(20 / 16)


def test_notched_shear_by_hand():
    """NDS 2018, 3.4-3: V_r' = (2/3 F_v' b d_n)(d_n/d)²; 2x10, 1 in. notch, F_v' = 175 x 0.97."""
    by_hand = 2 / 3 * 175 * 0.97 * 1.5 * 8.25 * (8.25 / 9.25) ** 2
    assert value("notch", "V_r", "lbf") == pytest.approx(by_hand)


def test_a_notch_deeper_than_a_quarter_is_over():
    """NDS 2018, 4.4.3: an end notch at most d/4."""
    sheet = part_sheet(KINDS["notch"], {"depth": "2 1/2 in", "shear": "100 lb"})
    assert sheet.status is Status.FAILS


SPANS = [
    row
    for row in load("dca6_table_2").rows
    if row["species_group"] == "Southern Pine" and row["span_in"] < 216  # the table ends at 18 ft
]


@pytest.mark.parametrize("row", SPANS, ids=lambda r: f"{r['size']}-{r['spacing_in']:g}")
def test_spans_of_dca_6(row):
    """AWC DCA 6 (2015), Table 2, Southern Pine No.2, to the inch."""
    found = value("span", "L", "inch", section=row["size"], spacing=f"{row['spacing_in']} in")
    assert abs(found - row["span_in"]) <= 0.5


@pytest.mark.parametrize(
    ("name", "texts", "field"),
    [
        ("withdrawal", {"count": "1.5"}, "count"),
        ("withdrawal", {"fastener": "glue"}, "fastener"),
        ("hanger", {"down": "0 lb"}, "down"),
        ("guard-post", {"section": "2-2x4"}, "section"),
        ("guard-post", {"push": "50 lb"}, "push"),
        ("decking", {"section": "2-2x6"}, "section"),
        ("decking", {"section": "5/4x6"}, "grade"),
        ("decking", {"own_F_b": "1300 psi"}, "own_E"),
        ("notch", {"depth": "10 in"}, "depth"),
        ("notch", {"edge": "compression", "reach": "9 in"}, "reach"),
        ("span", {"dead": "0 psf", "live": "0 psf"}, "live"),
    ],
)
def test_faulty_input_is_one_sentence_at_its_field(name, texts, field):
    with pytest.raises(PartError) as caught:
        part_sheet(KINDS[name], texts)
    assert list(caught.value.faults) == [field]


def test_repetitive_members_stand_at_most_24_inches_apart():
    """NDS 2018, 4.3.9: three or more, in contact or at most 24 in. on centers."""
    with pytest.raises(PartError, match=r"30 in\. apart: only members at most 24 in\. apart") as found:
        part_sheet(KINDS["span"], {"spacing": "30 in"})
    assert list(found.value.faults) == ["repetitive"]
    with pytest.raises(PartError, match=r"72 in\. apart"):
        part_sheet(KINDS["span"], {"section": "2-2x10", "spacing": "6 ft"})
    assert part_sheet(KINDS["span"], {"spacing": "24 in"}).given["C_r"] == 1.15
    assert part_sheet(KINDS["span"], {"spacing": "6 ft", "section": "3-2x10"}).given["C_r"] == 1.15
    assert part_sheet(KINDS["span"], {"spacing": "30 in", "repetitive": "no"}).given["C_r"] == 1.0
