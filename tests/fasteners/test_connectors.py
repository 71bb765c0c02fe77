"""Connectors by name: dimensions of NDS 2018 Appendix L, F_yb of Appendix I, holes of 12.1."""

import pytest

from bolewright.fasteners.connectors import (
    Kind,
    bending_yield_strength,
    bolt,
    lag_screw,
    nail,
    tabulated_bending_yield,
    wood_screw,
)
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.holes import Hole, hole_diameter
from bolewright.reference import load


@pytest.mark.parametrize(
    ("gage", "D", "D_r"), [(6, 0.138, 0.113), (8, 0.164, 0.131), (10, 0.190, 0.152), (14, 0.242, 0.196)]
)
def test_wood_screw(gage, D, D_r):  # NDS 2018 Table L3, from memory
    screw = wood_screw(gage, 3.0)
    assert (screw.D, screw.D_yield) == (D, D_r)


def test_lag_screw():  # NDS 2018 Table L2, from memory
    screw = lag_screw(0.5, 6.0)
    assert (screw.D_yield, screw.E_tip, screw.thread) == (0.371, 0.3125, 3.5)
    assert screw.name == "1/2 in. x 6 in. lag screw"


@pytest.mark.parametrize(
    ("pennyweight", "style", "D", "L"),
    [
        ("8d", "common", 0.131, 2.5),
        ("10d", "common", 0.148, 3.0),
        ("16d", "common", 0.162, 3.5),
        ("10d", "box", 0.128, 3.0),
        ("16d", "box", 0.135, 3.5),
        ("16d", "sinker", 0.148, 3.25),
    ],
)
def test_nail(pennyweight, style, D, L):  # NDS 2018 Table L4, from memory
    found = nail(pennyweight, style)
    assert (found.D, found.length, found.D_yield) == (D, L, D)


def test_root_diameters_are_below_nominal():
    for name in ("fastener_bolt_dimensions", "fastener_lag_dimensions", "fastener_wood_screw_dimensions"):
        for row in load(name):
            assert 0.6 * row["D"] < row["D_r"] < row["D"]


@pytest.mark.parametrize("kind", list(Kind))
def test_bending_yield_strength_never_rises_with_diameter(kind):  # NDS 2018 Table I1
    rows = [row for row in load("fastener_bending_yield") if row["kind"] == kind.value]
    assert [row["D_up_to"] for row in rows[:-1]] == [row["D_over"] for row in rows[1:]]  # no gap
    strengths = [row["F_yb"] for row in rows]
    assert strengths == sorted(strengths, reverse=True)


@pytest.mark.parametrize(
    ("D", "F_yb"), [(0.142, 100000), (0.1421, 90000), (0.177, 90000), (0.236, 80000), (0.273, 70000)]
)
def test_edges_of_the_nail_classes(D, F_yb):  # NDS 2018 Table I1
    assert tabulated_bending_yield(Kind.NAIL, D) == F_yb


def test_bending_yield_of_a_bolt_from_its_steel():  # NDS 2018 Appendix I: the mean of yield and ultimate
    assert bending_yield_strength(36000.0, 58000.0) == 47000.0
    assert bolt(0.5, 6.0, F_yb=bending_yield_strength(92000.0, 120000.0)).F_yb == 106000.0


# NDS 2018, 12.1.3.2, 12.1.4.2, 12.1.5, 12.1.6
@pytest.mark.parametrize(
    ("connector", "use", "G", "least", "greatest"),
    [
        (bolt(0.5, 6.0), Hole.SHANK, 0.5, 0.53125, 0.5625),
        (lag_screw(0.5, 6.0), Hole.THREAD, 0.67, 0.325, 0.425),
        (lag_screw(0.5, 6.0), Hole.THREAD, 0.55, 0.30, 0.375),
        (lag_screw(0.5, 6.0), Hole.THREAD, 0.50, 0.20, 0.35),
        (lag_screw(0.5, 6.0), Hole.SHANK, 0.5, 0.5, 0.5),
        (wood_screw(10, 3.0), Hole.WITHDRAWAL_THREAD, 0.67, 0.9 * 0.152, 0.9 * 0.152),
        (wood_screw(10, 3.0), Hole.LATERAL_SHANK, 0.5, 0.875 * 0.190, 0.875 * 0.190),
        (nail("16d"), Hole.SHANK, 0.67, 0.0, 0.9 * 0.162),
        (nail("16d"), Hole.SHANK, 0.50, 0.0, 0.75 * 0.162),
    ],
)
def test_holes(connector, use, G, least, greatest):
    hole = hole_diameter(connector, use, G)
    assert (hole.least, hole.greatest) == pytest.approx((least, greatest))


def test_a_hole_that_the_kind_has_not():
    with pytest.raises(FastenerError, match="has no hole for lateral thread"):
        hole_diameter(lag_screw(0.5, 6.0), Hole.LATERAL_THREAD, 0.5)
