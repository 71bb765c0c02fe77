"""End distance, edge distance and spacing of dowels: NDS 2018 Tables 12.5.1A to 12.5.1E, row by row."""

import pytest

from bolewright.calculation import Calculation
from bolewright.fasteners.errors import FastenerError, GeometryError
from bolewright.fasteners.geometry import (
    Distances,
    Pattern,
    check_lag_withdrawal_geometry,
    geometry_factor_shear_area,
    member_geometry_factor,
    row_spacing_perpendicular,
    small_dowel_advice,
)
from bolewright.fasteners.members import Wood

D = 0.5
L = 1.5  # bearing length, l/D = 3
ALONG, ACROSS = Wood(1.5, 0.5, 0.0), Wood(1.5, 0.5, 90.0)
HARD = Wood(1.5, 0.68, 0.0, hardwood=True)


def factor(member, distances=None, pattern=None, D=D, l=L):
    return float(member_geometry_factor(D, member, distances, pattern or Pattern(), l, Calculation()))


# NDS 2018 Table 12.5.1A: least end distance (C_Delta 0.5) and full one (C_Delta 1.0), in diameters.
END = [
    (ACROSS, True, 2, 4),
    (ALONG, False, 2, 4),
    (ALONG, True, 3.5, 7),
    (HARD, True, 2.5, 5),
]


@pytest.mark.parametrize(("member", "toward_end", "least", "full"), END)
def test_end_distance(member, toward_end, least, full):
    def at(diameters):
        return factor(member, Distances(end=diameters * D, toward_end=toward_end))

    assert at(least) == pytest.approx(0.5)
    assert at(full) == 1.0
    assert at(full + 3) == 1.0
    middle = (least + full) / 2
    assert at(middle) == pytest.approx(middle / full)
    with pytest.raises(GeometryError, match="end distance"):
        at(least - 0.01)


def test_spacing_in_row():  # NDS 2018 Table 12.5.1B: 3 D least, 4 D full along the grain
    assert factor(ALONG, pattern=Pattern(2, 1, spacing=4 * D)) == 1.0
    assert factor(ALONG, pattern=Pattern(2, 1, spacing=3 * D)) == pytest.approx(0.75)
    assert factor(ACROSS, pattern=Pattern(2, 1, spacing=3 * D)) == 1.0  # the attached member is asked apart
    for member in (ALONG, ACROSS):
        with pytest.raises(
            GeometryError, match=r"spacing in row .* is 1.4 in. and 3 D = 1.5 in. is the least"
        ):
            factor(member, pattern=Pattern(2, 1, spacing=1.4))


def test_the_least_of_all_governs():  # 12.5.1.2: the smallest factor of any fastener applies to the group
    assert factor(ALONG, Distances(end=5 * D), Pattern(2, 1, spacing=3 * D)) == pytest.approx(5 / 7)
    assert factor(ALONG, Distances(end=6 * D), Pattern(2, 1, spacing=3 * D)) == pytest.approx(3 / 4)


# NDS 2018 Table 12.5.1C: edge distance, in diameters.
@pytest.mark.parametrize(
    ("member", "which", "least"),
    [(ALONG, "edge", 1.5), (ALONG, "edge_loaded", 1.5), (ACROSS, "edge", 1.5), (ACROSS, "edge_loaded", 4)],
)
def test_edge_distance(member, which, least):
    assert factor(member, Distances(**{which: least * D})) == 1.0
    with pytest.raises(GeometryError, match="edge distance"):
        factor(member, Distances(**{which: least * D - 0.01}))


def test_edge_of_a_slender_dowel_is_half_the_row_spacing():  # Table 12.5.1C, l/D > 6
    rows = Pattern(1, 2, row_spacing=2.0)
    assert factor(ALONG, Distances(edge=0.75), rows, l=3.0) == 1.0
    with pytest.raises(GeometryError, match="edge distance"):
        factor(ALONG, Distances(edge=0.75), rows, l=3.01)
    assert factor(ALONG, Distances(edge=1.0), rows, l=3.01) == 1.0


# NDS 2018 Table 12.5.1D: spacing between rows, in diameters, by l/D.
@pytest.mark.parametrize(
    ("ratio", "least"), [(1, 2.5), (2, 2.5), (3, 25 / 8), (4, 30 / 8), (5, 35 / 8), (6, 5), (9, 5)]
)
def test_row_spacing_across_the_grain(ratio, least):
    assert row_spacing_perpendicular(ratio * D, D) == pytest.approx(least * D)
    assert factor(ACROSS, pattern=Pattern(1, 2, row_spacing=least * D), l=ratio * D) == 1.0
    with pytest.raises(GeometryError, match="spacing between rows"):
        factor(ACROSS, pattern=Pattern(1, 2, row_spacing=least * D - 0.01), l=ratio * D)


def test_row_spacing_along_the_grain():  # Table 12.5.1D: 1.5 D
    assert factor(ALONG, pattern=Pattern(1, 2, row_spacing=0.75)) == 1.0
    with pytest.raises(GeometryError, match="spacing between rows"):
        factor(ALONG, pattern=Pattern(1, 2, row_spacing=0.74))


def test_outer_rows_more_than_five_inches_apart_across_the_grain():  # 12.5.1.3
    wide = {"rows": 2, "row_spacing": 5.5}
    assert factor(ALONG, pattern=Pattern(1, 2, row_spacing=5.0)) == 1.0
    with pytest.raises(GeometryError, match=r"5.5 in. apart across the grain and 5 in. is the most"):
        factor(ALONG, pattern=Pattern(1, **wide))
    assert factor(ALONG, pattern=Pattern(1, **wide, shrinkage_provided=True)) == 1.0
    with pytest.raises(GeometryError, match="across the grain"):  # across: the row itself runs over the grain
        factor(ACROSS, pattern=Pattern(2, 1, spacing=5.5))
    assert factor(ALONG, pattern=Pattern(2, 1, spacing=5.5)) == 1.0


def test_a_slanting_load_keeps_the_rules_of_both_directions():
    slanting = Wood(1.5, 0.5, 30.0)
    assert factor(slanting, Distances(end=3.5)) == 1.0
    assert factor(slanting, Distances(end=1.75)) == pytest.approx(0.5)
    with pytest.raises(GeometryError, match="loaded edge distance"):
        factor(slanting, Distances(edge_loaded=1.9))


def test_every_failure_is_named_in_one_sentence():
    with pytest.raises(GeometryError) as caught:
        factor(ALONG, Distances(end=1.0, edge=0.5), Pattern(2, 1, spacing=1.0))
    said = str(caught.value)
    assert said.startswith("wood member: ")
    assert [word in said for word in ("end distance", "edge distance", "spacing in row")] == [True] * 3


@pytest.mark.parametrize(("field", "least"), [("edge", 1.5), ("end", 4)])
def test_lag_screws_in_withdrawal(field, least):  # NDS 2018 Table 12.5.1E
    check_lag_withdrawal_geometry(D, Distances(**{field: least * D}), spacing=4 * D)
    with pytest.raises(GeometryError, match="lag screw in withdrawal"):
        check_lag_withdrawal_geometry(D, Distances(**{field: least * D - 0.01}))


def test_spacing_of_lag_screws_in_withdrawal():  # NDS 2018 Table 12.5.1E: 4 D
    with pytest.raises(GeometryError, match="spacing"):
        check_lag_withdrawal_geometry(D, Distances(), spacing=1.99)


def test_shear_area_of_an_inclined_member():  # 12.5.1.2(b)
    assert geometry_factor_shear_area(3.0, 4.0) == 0.75
    assert geometry_factor_shear_area(5.0, 4.0) == 1.0


def test_nails_get_advice_and_no_factor():  # NDS Commentary Table C12.1.6.6, from memory: 15 d, 10 d prebored
    close, wood = Distances(end=1.5), Wood(1.5, 0.5)
    said = small_dowel_advice(0.131, wood, close, Pattern(), steel_side=False)
    assert len(said) == 1
    assert "recommends 1.97 in. (not prebored)" in said[0]
    assert small_dowel_advice(0.131, wood, close, Pattern(), steel_side=False, prebored=True) == []


@pytest.mark.parametrize(
    ("numbers", "said"),
    [
        ((0, 1), "0 fasteners in 1 rows"),
        ((2, 1), "need their spacing in the row"),
        ((1, 2), "need the spacing between rows"),
    ],
)
def test_a_pattern_that_can_not_be(numbers, said):
    with pytest.raises(FastenerError, match=said):
        Pattern(*numbers)
