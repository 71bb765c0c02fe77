"""What the beam sheet works out in print: each line against the beam model, and against AWC Design Aid 6 or statics.

Figures of Design Aid 6 (2007) from memory; its formulas are worked out here by hand.
"""

from __future__ import annotations

from functools import lru_cache

import pytest

from bolewright.part_sheets.blank import blanked
from bolewright.part_sheets.document import content_of
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import part_sheet
from bolewright.rendering.blocks import Equations, Statement, Table

BEAM = KINDS["beam"]
EI = 1.4e6 * 98.93  # 2x10 Southern Pine No.2, NDS Supplement 2018, Tables 1B and 4B
LEAST = {
    "M": 1.0,
    "M_n": 1.0,
    "V": 1.0,
    "R": 1.0,
    "R_up": 1.0,
    "delta_LE": 1e-4,
    "delta_DE": 1e-4,
    "delta_SE": 1e-4,
}


@lru_cache
def sheet_of(texts):
    return part_sheet(BEAM, dict(texts))


def printed(**texts):
    """Every line in print before the steps: symbol, its value as printed, the last one of a symbol counts."""
    found: dict[str, float] = {}
    for block in sheet_of(tuple(texts.items())).given.before:
        if isinstance(block, Equations):
            for line in block.alt.splitlines():
                symbol, value = line.partition(" = ")[0], line.rpartition(" = ")[2]
                found[symbol] = float(value.split()[0].replace(",", ""))
    return found


def said(**texts):
    blocks = sheet_of(tuple(texts.items())).given.before
    return [words for block in blocks if isinstance(block, Statement) for words in block.items]


OVERHUNG = {"span": "10 ft", "left_overhang": "2 ft", "right_overhang": "3 ft", "live": "100 plf"}
WHOLE = [  # every value is worked out
    {},
    {"supports": "1", "span": "4 ft", "loads": "live 200 lb at 4 ft; dead 80 lb at 2 ft"},
    {"supports": "1", "span": "4 ft", "live": "0 plf", "loads": "live 500 lb ft at 4 ft"},
    OVERHUNG,
    {"loads": "live 500 lb at 5 ft; dead 300 lb at 9 ft"},
    {"live": "0 plf", "loads": "live -90 plf from 0 ft to 12 ft", "duration": "wind"},
    {"supports": "3", "second_span": "8 ft", "loads": "live 500 lb at 5 ft"},
    {"span": "10 ft", "right_overhang": "4 ft", "dead": "20 plf", "live": "100 plf"},
    {"span": "4 ft", "left_overhang": "6 ft", "dead": "20 plf", "live": "100 plf"},
    {
        "supports": "3",
        "span": "7 ft",
        "second_span": "11 ft",
        "left_overhang": "2 ft",
        "right_overhang": "3 ft",
        "loads": "dead 400 lb at 21 ft; live -300 lb at 1 ft",
    },
]
PART = [  # moments, shear and reactions are worked out, deflections are said to be the model's
    {"loads": "live 0 plf to 80 plf from 2 ft to 9 ft; dead 60 plf to 20 plf from 0 ft to 6 ft"},
    {"loads": "live 2000 lb ft at 4 ft"},
    {"loads": "live -2000 lb ft at 4 ft", "live": "0 plf"},
    {"live": "0 plf", "dead": "0 plf", "loads": "live 500 lb ft at 4 ft"},
    {"live": "0 plf", "loads": "live -90 plf to -20 plf from 0 ft to 12 ft", "duration": "wind"},
    {
        "supports": "1",
        "span": "4 ft",
        "loads": "dead 30 plf from 1 ft to 3 ft; live 10 plf to 90 plf from 1 ft to 4 ft",
    },
    {
        "supports": "3",
        "second_span": "8 ft",
        "live": "0 plf",
        "loads": "live -900 lb at 5 ft; live 700 lb ft at 9 ft; dead 90 plf from 10 ft to 14 ft",
    },
    {
        "supports": "3",
        "second_span": "8 ft",
        "loads": "live 800 lb ft at 12 ft; live 0 plf to 90 plf from 1 ft to 9 ft",
    },
]


@pytest.mark.parametrize(
    "texts", [*WHOLE, *PART], ids=lambda texts: " ".join(texts.values())[:60] or "defaults"
)
def test_every_line_comes_to_the_beam_models_value(texts):
    """Within 0.2 %: four figures are printed, and a difference of printed numbers loses one."""
    sheet, lines, words = sheet_of(tuple(texts.items())), printed(**texts), " ".join(said(**texts))
    for symbol, least in LEAST.items():
        value = float(sheet.given[symbol])
        if value <= least:
            continue
        if symbol in lines:
            assert lines[symbol] == pytest.approx(value, rel=2.1e-3), symbol
        else:
            assert symbol.startswith("delta"), symbol
            assert texts in PART or "the same loads at the same place" in words, symbol
            assert "that of the beam model" in words or "the same loads at the same place" in words


def test_uniform_load_on_a_simple_span():
    """DA6, fig. 1: R = V = w L/2, M = w L²/8, deflection 5 w L⁴/(384 E I); 120 plf over 10 ft."""
    found = printed(span="10 ft", dead="0 plf", live="120 plf")
    assert (found["R"], found["V"], found["M"]) == pytest.approx((600, 600, 18_000))
    assert found["delta_LE"] == pytest.approx(5 * 10 * 120**4 / (384 * EI), rel=5e-4)


def test_a_force_anywhere_on_a_simple_span():
    """DA6, fig. 8: R_1 = P b/L, M = P a b/L; under the load P a² b²/(3 E I L), the greatest at sqrt(a (a + 2 b)/3)."""
    found = printed(span="10 ft", dead="0 plf", live="0 plf", loads="live 1000 lb at 7 ft")
    assert (found["R_1"], found["R_2"], found["M"]) == pytest.approx((300, 700, 25_200))
    a, b = 84, 36
    most = 1000 * a * b * (a + 2 * b) * (3 * a * (a + 2 * b)) ** 0.5 / (27 * EI * 120)
    assert found["delta_LE"] == pytest.approx(most, rel=1e-3)


def test_uniform_load_on_an_overhang():
    """DA6, fig. 19: R_1 = -w a²/(2 L), R_2 = w a (2 L + a)/(2 L), end w a³ (4 L + 3 a)/(24 E I)."""
    found = printed(
        span="10 ft",
        right_overhang="5 ft",
        dead="0 plf",
        live="0 plf",
        loads="live 120 plf from 10 ft to 15 ft",
    )
    assert (found["R_up"], found["R"], found["M_n"]) == pytest.approx((150, 750, 18_000))
    assert found["delta_LE"] == pytest.approx(10 * 60**3 * (4 * 120 + 3 * 60) / (24 * EI), rel=5e-4)


def test_a_force_at_the_end_of_an_overhang():
    """DA6, fig. 20: R_1 = -P a/L, R_2 = P (L + a)/L, end P a² (L + a)/(3 E I); left or right alike."""
    for side, place in (("right_overhang", "15 ft"), ("left_overhang", "0 ft")):
        texts = {
            "span": "10 ft",
            side: "5 ft",
            "dead": "0 plf",
            "live": "0 plf",
            "loads": f"live 200 lb at {place}",
        }
        found = printed(**texts)
        assert (found["R_up"], found["R"], found["M_n"]) == pytest.approx((100, 300, 12_000))
        assert found["delta_LE"] == pytest.approx(200 * 60**2 * 180 / (3 * EI), rel=5e-4)


def test_cantilevers():
    """DA6, figs. 12 and 13: w L²/2 and w L⁴/(8 E I); P L and P L³/(3 E I)."""
    even = printed(supports="1", span="5 ft", dead="0 plf", live="120 plf")
    assert (even["R"], even["V"], even["M_n"]) == pytest.approx((600, 600, 18_000))
    assert even["delta_LE"] == pytest.approx(10 * 60**4 / (8 * EI), rel=5e-4)
    end = printed(supports="1", span="5 ft", dead="0 plf", live="0 plf", loads="live 300 lb at 5 ft")
    assert (end["R"], end["V"], end["M_n"]) == pytest.approx((300, 300, 18_000))
    assert end["delta_LE"] == pytest.approx(300 * 60**3 / (3 * EI), rel=5e-4)


def test_two_equal_spans():
    """DA6, figs. 29 and 26: both loaded w L²/8 over the support, 5/8 w L beside it, 10/8 w L on it; one loaded 49/512
    w L², R_3 = -w L/16, and 0.0092 w L⁴/(E I)."""
    found = printed(supports="3", span="10 ft", second_span="10 ft", dead="0 plf", live="120 plf")
    assert (found["M_n"], found["V"], found["R"]) == pytest.approx((18_000, 750, 1500))
    assert found["M"] == pytest.approx(49 / 512 * 10 * 120**2, rel=5e-4)
    assert found["R_up"] == pytest.approx(75)
    assert found["delta_LE"] == pytest.approx(0.0092 * 10 * 120**4 / EI, abs=0.00005 * 10 * 120**4 / EI)


def test_two_unequal_spans():
    """DA6, fig. 31: M = (w L_2³ + w L_1³)/(8 (L_1 + L_2)), R_1 = w L_1/2 - M/L_1; dead load alone."""
    found = printed(supports="3", span="12 ft", second_span="6 ft", dead="120 plf", live="0 plf")
    M = 10 * (144**3 + 72**3) / (8 * 216)
    assert found["M_n"] == pytest.approx(M, rel=5e-4)
    assert found["R_1"] == pytest.approx(720 - M / 144, rel=1e-3)
    assert found["R_3"] == pytest.approx(360 - M / 72, rel=1e-3)


def test_a_force_in_the_middle_of_one_of_two_equal_spans():
    """DA6, fig. 27: R_2 = 11/16 P, R_3 = -3/32 P, M = 13/64 P L, deflection 0.015 P L³/(E I)."""
    found = printed(
        supports="3",
        span="10 ft",
        second_span="10 ft",
        dead="0 plf",
        live="0 plf",
        loads="live 640 lb at 5 ft",
    )
    assert (found["R"], found["R_up"]) == pytest.approx((440, 60))
    assert found["M"] == pytest.approx(13 / 64 * 640 * 120, rel=5e-4)
    assert found["delta_LE"] == pytest.approx(0.015 * 640 * 120**3 / EI, abs=0.0005 * 640 * 120**3 / EI)


def test_live_load_on_one_span_lifts_the_far_support_of_the_other():
    """Three moments by hand, 0.6 D + L on 10 ft, 0.6 D on 8 ft: M = (184 x 10³ + 24 x 8³)/(8 x 18) lb·ft over the
    middle, R_3 = 24 x 8/2 - M/8 = -74.39 lb; with all of D it would be -31.39 lb."""
    texts = {"supports": "3", "span": "10 ft", "second_span": "8 ft", "dead": "40 plf", "live": "160 plf"}
    R_3 = 24 * 8 / 2 - (184 * 10**3 + 24 * 8**3) / (8 * 18) / 8
    assert pytest.approx(-74.39, abs=0.005) == R_3
    found = printed(**texts)
    assert (found["R_up"], found["R_3"]) == (74.39, -74.39)
    assert found["M_f1"] == pytest.approx(
        184 * 10**2 / 8 * 12
    )  # the case's own: span 1 fixed over the middle
    assert sheet_of(tuple(texts.items())).given["R_up"] == pytest.approx(-R_3, rel=1e-9)
    (words,) = [one for one in said(**texts) if "for the uplift" in one]
    assert words.endswith(
        ": 0.6 x W_1, 0.6 x W_2, W_3. Of dead load 0.6 is counted against what lifts: 0.6D + L, common practice."
    )
    snow = " ".join(said(**texts, duration="snow"))
    assert "0.6D + S, common practice" in snow
    assert "0.6D + L" not in snow


def test_live_load_on_an_overhang_lifts_the_far_support():
    """Moments about the near support, 20 plf dead, 100 plf live, 10 ft and 4 ft: 0.6 D + L on the overhang gives
    R_1 = (12 x 10 x 5 - 112 x 4 x 2)/10 = -29.6 lb; all of D would hold it down, with +4 lb."""
    assert pytest.approx(-29.6) == (12 * 10 * 5 - 112 * 4 * 2) / 10
    for side, support in (("right_overhang", "R_1"), ("left_overhang", "R_2")):
        found = printed(span="10 ft", dead="20 plf", live="100 plf", **{side: "4 ft"})
        assert (found["R_up"], found[support]) == (29.6, -29.6)


def test_dead_load_that_lifts_a_support_itself_counts_whole():
    """Moments about the near support, 4 ft and 6 ft of overhang: (20 x 4 x 2 - 120 x 6 x 3)/4 = -500 lb; 0.6 D
    would give (12 x 4 x 2 - 112 x 6 x 3)/4 = -480 lb."""
    texts = {"span": "4 ft", "right_overhang": "6 ft", "dead": "20 plf", "live": "100 plf"}
    assert printed(**texts)["R_up"] == 500
    assert any("All of the dead load is counted for the uplift" in words for words in said(**texts))


def test_a_load_that_grows_over_a_whole_bay_is_worked_out():
    """AWC Design Aid 6: 0.00652 w l⁴/(E I) and 2 W l/(9 √3); three moments with w l²/15 and 7 w l²/60 (halved)."""
    own = {"dead": "0 plf", "live": "0 plf"}
    found = printed(**own, loads="live 0 plf to 150 plf from 0 ft to 12 ft")
    assert found["M"] == pytest.approx(0.1283 * 900 * 144, rel=1e-3)
    assert found["delta_LE"] == pytest.approx(0.00652 * 12.5 * 144**4 / EI, rel=1e-3)
    assert found["delta_g1"] == found["delta_LE"]
    for loads, part in (("0 plf to 150 plf", 1 / 15), ("150 plf to 0 plf", 7 / 120)):
        found = printed(**own, supports="3", second_span="12 ft", loads=f"live {loads} from 0 ft to 12 ft")
        assert found["M_n"] == pytest.approx(12.5 * 144**2 * part / 2, rel=1e-3)
    found = printed(**own, supports="1", span="5 ft", loads="live 40 plf to 0 plf from 0 ft to 5 ft")
    assert found["delta_LE"] == pytest.approx(40 / 12 * 60**4 / 30 / EI, rel=1e-3)
    left = printed(**own, left_overhang="3 ft", loads="live 60 plf to 0 plf from 0 ft to 3 ft")
    turned = 5 * 36**2 / 3 * 144 * 36 / 3  # the moment over the support times l a/3
    assert left["delta_LE"] == pytest.approx((turned + 11 / 120 * 5 * 36**4) / EI, rel=1e-3)


def test_what_has_no_line_says_where_its_value_is_from():
    texts = {"supports": "3", "second_span": "8 ft", "loads": "live 0 plf to 90 plf from 1 ft to 9 ft"}
    words = said(**texts)
    assert any("grows along a part of a span" in one and "beam model" in one for one in words)
    assert any(
        one.startswith("Deflection under live load") and "not worked out on this sheet" in one
        for one in words
    )


@pytest.mark.parametrize(
    "texts",
    [
        {"loads": "live 50 plf from 10 ft to 10.0002 ft"},
        {"loads": "live 0 plf to 50 plf from 1 ft to 1.0002 ft", "supports": "3", "second_span": "1 in"},
        {"left_overhang": "0.0002 ft", "live": "0.0001 plf", "dead": "0 plf"},
        {"span": "0.001 in", "loads": "live 300 lb at 0.001 in"},
        {"supports": "1", "loads": "live 300 lb at 0 ft", "live": "0 plf", "dead": "0 plf"},
        {"supports": "3", "second_span": "12 ft", "loads": "live 800 lb ft at 12 ft; dead 70 lb ft at 0 ft"},
    ],
)
def test_what_is_too_small_or_in_an_odd_place_is_no_traceback(texts):
    for block in sheet_of(tuple(texts.items())).given.before:
        assert not isinstance(block, Equations) or "nan" not in block.alt


def test_the_blank_form_prints_nothing_that_its_diagram_leaves_blank():
    """Resultants, places, reactions: typed sizes alone stay; each is in the key with its value."""
    texts = tuple(
        {**OVERHUNG, "loads": "dead 20 plf to 60 plf from 0 ft to 6 ft; live 300 lb at 4 ft"}.items()
    )
    sheet = sheet_of(texts)
    blank = [blanked(block) for block in sheet.given.before]
    tables = [cell for block in blank if isinstance(block, Table) for row in block.rows for cell in row]
    assert "300 lb" in tables
    assert not [cell for cell in tables if cell.endswith(" lb") and cell not in ("300 lb", "live 300 lb")]
    lines = [
        line
        for block in sheet.given.before
        if isinstance(block, Equations)
        for line in block.alt.splitlines()
    ]
    assert len(lines) > 15
    left = " ".join(tex for block in blank if isinstance(block, Equations) for tex in block.latex)
    for line in lines:
        value = line.rpartition(" = ")[2].split()[0]
        assert value not in left or len(value) < 4, line
    (key,) = (
        i for i in content_of(sheet, blank=True).items if getattr(i, "caption", "") == "What was worked out"
    )
    assert len({row[1] for row in key.rows} & {"M", "V", "R", "W_1", "x_1", "R_1", "R_2"}) == 7
    assert [row[1] for row in key.rows].count("V") == 1
