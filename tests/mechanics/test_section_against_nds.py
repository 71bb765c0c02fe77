"""Section properties against NDS Supplement Table 1B, against integration, and their laws."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point

from bolewright.mechanics.net_section import circle, net_section, rectangle
from bolewright.mechanics.section import (
    circle_area,
    circle_plastic_modulus,
    circle_second_moment,
    circle_section_modulus,
    hollow_circle_area,
    hollow_circle_second_moment,
    hollow_circle_section_modulus,
    multi_ply_breadth,
    rectangle_area,
    rectangle_plastic_modulus,
    rectangle_radius_of_gyration,
    rectangle_second_moment,
    rectangle_section_modulus,
    rectangle_torsion_constant,
)
from bolewright.reference import load

ROWS = list(load("check_nds_table1B_section_properties"))
PRINTED = 0.0005 + 1e-9  # three decimals in print


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["nominal"])
def test_rows_of_nds_supplement_table_1b(row: dict) -> None:
    b, d = row["b"], row["d"]
    assert rectangle_area(b, d) == pytest.approx(row["A"], abs=PRINTED)
    assert rectangle_section_modulus(b, d) == pytest.approx(row["Sxx"], abs=PRINTED)
    assert rectangle_second_moment(b, d) == pytest.approx(row["Ixx"], abs=PRINTED)
    assert rectangle_section_modulus(d, b) == pytest.approx(row["Syy"], abs=PRINTED)
    assert rectangle_second_moment(d, b) == pytest.approx(row["Iyy"], abs=PRINTED)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["nominal"])
def test_a_section_of_one_patch_is_the_rectangle(row: dict) -> None:
    whole = net_section([rectangle(row["b"], row["d"])])
    assert pytest.approx(row["A"], abs=PRINTED) == whole.A
    assert pytest.approx(row["Ixx"], abs=PRINTED) == whole.I
    assert pytest.approx(row["Sxx"], abs=PRINTED) == whole.S
    assert whole.r == pytest.approx(rectangle_radius_of_gyration(row["d"]), rel=1e-12)


@pytest.mark.parametrize(
    ("ratio", "coefficient"),
    # torsion of a rectangle, J = coefficient b^3 d, Timoshenko and Goodier (from memory), three figures
    [(1.0, 0.141), (1.5, 0.196), (2.0, 0.229), (3.0, 0.263), (5.0, 0.291), (10.0, 0.312)],
)
def test_torsion_constants_of_rectangles(ratio: float, coefficient: float) -> None:
    assert rectangle_torsion_constant(1.0, ratio) / ratio == pytest.approx(coefficient, rel=0.005)


def integrated(D: float, D_c: float, e_c: float) -> tuple[float, float, float]:
    """Area, second moment and least section modulus of a hollow trunk by strips of its height."""
    edges = np.linspace(-D / 2, D / 2, 200_001)
    y = (edges[1:] + edges[:-1]) / 2
    chord = 2 * np.sqrt(np.maximum(D**2 / 4 - y**2, 0.0))
    chord -= 2 * np.sqrt(np.maximum(D_c**2 / 4 - (y - e_c) ** 2, 0.0))
    strip = chord * D / y.size
    area = strip.sum()
    middle = (strip * y).sum() / area
    second = (strip * (y - middle) ** 2).sum()
    return area, second, second / (D / 2 + abs(middle))


@pytest.mark.parametrize(
    ("D", "D_c", "e_c"), [(24, 12, 0), (24, 12, 3), (26, 8, 7), (18, 10, 3.5), (30, 0.01, 0)]
)
def test_hollow_trunk_against_integration(D: float, D_c: float, e_c: float) -> None:
    area, second, modulus = integrated(D, D_c, e_c)
    assert hollow_circle_area(D, D_c) == pytest.approx(area, rel=1e-5)
    assert hollow_circle_second_moment(D, D_c, e_c) == pytest.approx(second, rel=1e-5)
    assert hollow_circle_section_modulus(D, D_c, e_c) == pytest.approx(modulus, rel=1e-5)


@pytest.mark.parametrize(("D", "D_c", "e_c"), [(24.0, 12.0, 3.0), (26.0, 8.0, 7.0)])
def test_hollow_trunk_is_a_net_section(D: float, D_c: float, e_c: float) -> None:
    net = net_section([circle(D)], [circle(D_c, e_c)])
    assert pytest.approx(hollow_circle_area(D, D_c), rel=1e-12) == net.A
    assert pytest.approx(hollow_circle_second_moment(D, D_c, e_c), rel=1e-12) == net.I
    assert pytest.approx(hollow_circle_section_modulus(D, D_c, e_c), rel=1e-12) == net.S
    assert net.S_top < net.S_bottom  # the cavity is above the middle: the top face is the weak one
    assert net.centroid < 0


def test_areas_agree_with_a_geometry_library() -> None:
    trunk = Point(0, 0).buffer(12.0, quad_segs=2000).difference(Point(0, 3).buffer(6.0, quad_segs=2000))
    assert hollow_circle_area(24.0, 12.0) == pytest.approx(trunk.area, rel=1e-6)
    net = net_section([circle(24.0)], [circle(12.0, 3.0)])
    assert net.centroid == pytest.approx(trunk.centroid.y, rel=1e-5)


@pytest.mark.parametrize(
    ("b", "d", "hole", "bottom", "I_n"),
    # 3 x 11.25 less a 1.0625 in hole: at mid depth b(d^3 - h^3)/12; at the edge b(d - h)^3/12
    [
        (3.0, 11.25, 1.0625, 5.09375, 3.0 * (11.25**3 - 1.0625**3) / 12),
        (3.0, 11.25, 1.0625, 0.0, 3.0 * 10.1875**3 / 12),
    ],
)
def test_net_rectangle_by_hand(b: float, d: float, hole: float, bottom: float, I_n: float) -> None:
    net = net_section([rectangle(b, d)], [rectangle(b, hole, bottom)])
    assert pytest.approx(b * (d - hole), rel=1e-12) == net.A
    assert pytest.approx(I_n, rel=1e-12) == net.I


def test_a_hole_that_takes_all_is_refused() -> None:
    with pytest.raises(ValueError, match="all of the section"):
        net_section([rectangle(1.5, 3.5)], [rectangle(1.5, 3.5)])


def test_plies_side_by_side() -> None:
    assert rectangle_second_moment(multi_ply_breadth(3, 1.5), 9.25) == pytest.approx(
        3 * 98.932, abs=3 * PRINTED
    )


sizes = st.floats(0.5, 40.0)


@given(sizes, sizes)
def test_plastic_modulus_is_the_shape_factor_times_elastic(b: float, d: float) -> None:
    assert rectangle_plastic_modulus(b, d) == pytest.approx(1.5 * rectangle_section_modulus(b, d), rel=1e-12)
    assert circle_plastic_modulus(d) == pytest.approx(
        16 / (3 * math.pi) * circle_section_modulus(d), rel=1e-12
    )


@given(sizes, st.floats(0.05, 0.9), st.floats(0.0, 0.99))
def test_a_cavity_never_helps(D: float, hollow: float, off: float) -> None:
    D_c = hollow * D
    e_c = off * (D - D_c) / 2
    assert hollow_circle_area(D, D_c) < circle_area(D)
    assert hollow_circle_second_moment(D, D_c, e_c) < circle_second_moment(D)
    assert hollow_circle_section_modulus(D, D_c, e_c) < circle_section_modulus(D)
    central = hollow_circle_section_modulus(D, D_c, 0.0)
    assert hollow_circle_section_modulus(D, D_c, e_c) <= central * (1 + 1e-12)


@given(sizes, sizes, sizes)
def test_arrays_and_scalars_agree(b: float, d: float, D: float) -> None:
    many = np.array([d, 2 * d])
    assert rectangle_second_moment(b, many)[0] == pytest.approx(rectangle_second_moment(b, d), rel=1e-14)
    assert circle_section_modulus(np.array([D, 2 * D]))[0] == pytest.approx(
        circle_section_modulus(D), rel=1e-14
    )
