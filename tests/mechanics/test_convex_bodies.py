"""How far convex bodies lie in each other: solid geometry by hand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.mechanics.convex import Convex, depth_of_overlap, faces_of, round_plan, turned_square, upright

SIZE = st.floats(1, 20)
PLACE = st.floats(-15, 15)


def box(x: float, y: float, z: float, b: float, d: float, h: float, turn: float = 0.0) -> Convex:
    u = (math.cos(turn), math.sin(turn))
    return Convex(upright(turned_square((x, y), b, d, u), z, z + h))


@pytest.mark.parametrize(
    ("moved", "depth"),
    [
        ((0, 0, 0), 2),  # the same place: out laterally over the least side
        ((1.5, 0, 0), 0.5),  # 2 in. wide, moved 1 1/2 in. along x
        ((0, 0, 9), 1),  # 10 in. tall, moved up by 9
        ((2, 0, 0), 0),  # they touch
        ((5, 0, 0), 0),
    ],
)
def test_boxes_beside_each_other(moved, depth):
    x, y, z = moved
    assert depth_of_overlap(box(0, 0, 0, 2, 4, 10), box(x, y, z, 2, 4, 10)) == pytest.approx(depth)


def test_a_square_turned_by_45_degrees():
    """A square of side 2 has a half diagonal of sqrt(2): its corner reaches sqrt(2) - 1 past a face 1 in. away."""
    still, turned = box(-1, 0, 0, 2, 40, 4), box(1, 0, 0, 2, 2, 4, math.pi / 4)
    assert depth_of_overlap(still, turned) == pytest.approx(math.sqrt(2) - 1)


def test_edges_that_cross_part_along_neither_face():
    """Two bars on edge, crossing at right angles, one over the other: only the direction square to both edges parts.

    Each is a square of side 2 on its corner, half height sqrt(2); axes 2.5 in. apart, less than 2 sqrt(2) = 2.83.
    """
    corner = math.sqrt(2)
    along_x = tuple((-10.0, y, z) for y, z in ((0, corner), (corner, 0), (0, -corner), (-corner, 0)))
    along_y = tuple((x, -10.0, z + 2.5) for x, z in ((0, corner), (corner, 0), (0, -corner), (-corner, 0)))
    one, other = Convex(faces_of(along_x, (20, 0, 0))), Convex(faces_of(along_y, (0, 20, 0)))
    assert depth_of_overlap(one, other) == pytest.approx(2 * corner - 2.5)
    apart = tuple((x, y, z + 0.4) for x, y, z in along_y)
    assert depth_of_overlap(one, Convex(faces_of(apart, (0, 20, 0)))) == 0


def test_round_holes():
    """Two round holes 22 in. wide on centres 20 in. apart overlap by 2 in.; 24 sides lie inside by 1 - cos(7.5 deg)."""
    one, other = (Convex(upright(round_plan((x, 0), 11), -60, 0)) for x in (0, 20))
    assert depth_of_overlap(one, other) == pytest.approx(2 - 2 * (1 - math.cos(math.radians(7.5))), abs=1e-6)


@given(PLACE, PLACE, PLACE, SIZE, SIZE, SIZE, st.floats(0, math.pi))
def test_moved_clear_by_the_depth_they_touch(x, y, z, b, d, h, turn):
    """Symmetric, never negative, and the same wherever both stand."""
    one, other = box(0, 0, 0, 5, 8, 6), box(x, y, z, b, d, h, turn)
    depth = depth_of_overlap(one, other)
    assert depth >= 0
    assert depth == pytest.approx(depth_of_overlap(other, one), abs=1e-6)
    far = 100.0
    moved = depth_of_overlap(box(far, far, far, 5, 8, 6), box(x + far, y + far, z + far, b, d, h, turn))
    assert moved == pytest.approx(depth, abs=1e-6)
