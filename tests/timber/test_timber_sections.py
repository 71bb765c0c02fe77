"""Names and sizes of sections, held against NDS Supplement Table 1B."""

import pytest

from bolewright.reference import load
from bolewright.timber.sections import Finish, SectionError, parse_section, section_names


@pytest.mark.parametrize("row", load("check_nds_table1B_section_properties").rows, ids=lambda r: r["nominal"])
def test_dressed_sizes_and_properties_of_table_1B(row):  # NDS Supplement 2018 Table 1B
    section = parse_section(row["nominal"])
    assert (section.b, section.d) == (row["b"], row["d"])
    printed = {
        "A": section.A,
        "Sxx": section.S,
        "Ixx": section.I,
        "Syy": section.S_flat,
        "Iyy": section.I_flat,
    }
    for column, value in printed.items():
        assert value == pytest.approx(row[column], abs=0.0005 + 1e-9), column


@pytest.mark.parametrize(
    ("text", "b", "d"),
    [
        ("2x12", 1.5, 11.25),
        ("2 X 12", 1.5, 11.25),
        ("12x2", 1.5, 11.25),
        ("2x14", 1.5, 13.25),
        ("3x6", 2.5, 5.5),
        ("4x4", 3.5, 3.5),
        ("6x6", 5.5, 5.5),
        ("8x8", 7.5, 7.5),
        ("10x14", 9.5, 13.5),
        ("1x6", 0.75, 5.5),
        ("5/4x6", 1.0, 5.5),
        ("rough 2x10", 2.0, 10.0),
        ("45x195 mm", 45 / 25.4, 195 / 25.4),
        ("1.5x11.25 in", 1.5, 11.25),
        ("(3) 2x12", 4.5, 11.25),
        ("2-2x10", 3.0, 9.25),
    ],
)
def test_builders_names(text, b, d):  # NDS Supplement 2018 Table 1A; rough and metric as they say
    section = parse_section(text)
    assert section.b == pytest.approx(b)
    assert section.d == pytest.approx(d)


@pytest.mark.parametrize(
    ("text", "thickness", "width"),
    [
        ("2x10", 2, 10),
        ("rough 2x10", 2, 10),  # a rough 2x10 is of nominal size 2x10
        ("1.5x9.25 in", 2, 10),
        ("38x235 mm", 2, 10),  # 9.252 in.
        ("45x195 mm", 2, 10),  # 7.68 in., more than a dressed 8
        ("140x140 mm", 6, 6),
        ("89x89 mm", 4, 4),
    ],
)
def test_size_class_of_actual_sizes_is_the_one_with_lower_factors(text, thickness, width):
    section = parse_section(text)
    assert (section.nominal_thickness, section.nominal_width) == (thickness, width)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("foo", "'foo' is not understood"),
        ("2x7", "7 is not a standard nominal width"),
        (
            "2x99",
            "99 is not a standard nominal width; use 2, 2.5, .*, 16, or give an actual size .* 2x99 mm$",
        ),
        ("0x4", "0 is not a standard nominal"),
        ("400x1000 mm", "each side must be between"),
        ("2x", "is not understood"),
        ("-2x4", "is not understood"),
    ],
)
def test_a_bad_name_is_one_sentence_that_says_what_is_allowed(text, says):
    with pytest.raises(SectionError, match=says) as error:
        parse_section(text)
    assert "\n" not in str(error.value)


def test_every_stock_name_parses_to_itself():
    names = section_names()
    assert [parse_section(name).name for name in names] == list(names)
    assert "2x12" in names
    assert "6x6" in names


def test_plies():
    three = parse_section("2x12").of_plies(3)
    assert three == parse_section("(3) 2x12")
    assert three.name == "(3) 2x12"
    assert three.ply_thickness == 1.5
    assert three.of_plies(1) == parse_section("2x12")
    assert three.finish is Finish.DRESSED
    with pytest.raises(SectionError, match="0 plies"):
        three.of_plies(0)
