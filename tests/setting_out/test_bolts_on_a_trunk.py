"""Bolts on a round trunk against circle geometry in closed form."""

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point

from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.project import Bolt, Support, Tree
from bolewright.setting_out.trunk import bearing_at, bolt_marks, bolt_pairs, girth_of, place_bolt
from bolewright.sheets.setting_out import open_setting_out

BOLT = Bolt(
    diameter="1 1/2 in", embedment="7 in", F_y="36 ksi", F_u="58 ksi", seat_length="3 in", seat_rise="2 in"
)


def _tree(girth: float, bark: float, at: tuple[float, float] = (0.0, 0.0)) -> Tree:
    place = (f"{at[0]} in", f"{at[1]} in")
    return Tree(
        mark="OAK",
        species="bur oak",
        at=place,
        girth=f"{girth:.6f} in",
        bark=f"{bark:.6f} in",
        height="58 ft",
    )


def _placed(tree: Tree, bearing: tuple[float, float], points: tuple[float, float]):
    return place_bolt("T1", tree, BOLT, bearing=bearing, points=points, front=(0.0, 1.0), seat_level=72.0)


girths = st.floats(60, 200)
barks = st.floats(0.25, 2)


@given(girths, barks, st.floats(0, 360), st.floats(3, 12), st.floats(-30, 30), st.floats(-30, 30))
def test_a_bolt_straight_out_of_the_axis(
    girth: float, bark: float, degrees: float, out: float, x: float, y: float
) -> None:
    """Entry on the bark circle, hole bark plus thread deep, projection what is left to the bearing."""
    tree = _tree(girth, bark, (round(x, 3), round(y, 3)))
    R = girth / (2 * math.pi)
    angle = math.radians(degrees)
    points = (math.cos(angle), math.sin(angle))
    bearing = (tree.at[0] + (R + out) * points[0], tree.at[1] + (R + out) * points[1])
    bolt = _placed(tree, bearing, points)
    assert math.dist(bolt.entry, tree.at) == pytest.approx(R, abs=1e-5)
    assert bolt.projection == pytest.approx(out, abs=1e-5)
    assert bolt.hole_depth == pytest.approx(bark + 7, abs=1e-5)
    assert bolt.lever == pytest.approx(out + bark, abs=1e-5)
    from_front = (degrees - 90 + 180) % 360 - 180  # front mark points along +y
    assert bolt.arc == pytest.approx(girth * from_front / 360, abs=1e-4) or abs(abs(from_front) - 180) < 1e-6
    assert bolt.centre_level == 70.0


@given(girths, barks, st.floats(-0.6, 0.6))
def test_parallel_holes_in_a_round_trunk(girth: float, bark: float, share: float) -> None:
    """Both bolts point along +y: bearings on one line; the thread stands in sound wood for its whole length."""
    tree = _tree(girth, bark)
    R, r = girth / (2 * math.pi), girth / (2 * math.pi) - bark
    a = share * r
    line = R + 6.0
    bolt = _placed(tree, (-a, line), (0.0, 1.0))
    assert bolt.a == pytest.approx(a, abs=1e-9)
    assert bolt.entry[1] + bolt.projection == pytest.approx(line, abs=1e-9)
    # Where the bolt's line crosses the circles of bark and of sound wood, by shapely.
    axis = LineString([(-a, 0.0), (-a, R + 10)])
    bark_at, sound_at = (
        axis.intersection(Point(0, 0).buffer(radius, quad_segs=20_000).exterior).y for radius in (R, r)
    )
    assert bolt.entry[1] == pytest.approx(bark_at, abs=1e-4)
    assert bolt.hole_depth == pytest.approx(bark_at - sound_at + 7, abs=1e-3)
    assert bolt.arc == pytest.approx(R * math.asin(a / R), abs=1e-4)  # round the bark, from the front


@given(girths, st.floats(0.1, 0.6))
def test_a_collar_beside_the_axis_stands_out_farther(girth: float, share: float) -> None:
    tree = _tree(girth, 1.0)
    R = girth / (2 * math.pi)
    straight = _placed(tree, (0.0, R + 6), (0.0, 1.0))
    beside = _placed(tree, (-share * R, R + 6), (0.0, 1.0))
    assert beside.projection > straight.projection


def test_arcs_both_ways_add_up_to_the_girth(demo: Layout) -> None:
    """Girth 75 3/8, two bolts on one diameter: a quarter of the girth either side of the front mark."""
    marks = bolt_marks(demo)
    assert {m.mark: m.arc for m in marks} == pytest.approx({"T1": 75.375 / 4, "T2": -75.375 / 4})
    (pair,) = bolt_pairs(demo, marks)
    assert pair.arc + pair.arc_back == pytest.approx(75.375)
    assert pair.chord == pytest.approx(75.375 / math.pi)
    assert pair.bearings == pytest.approx(34)


def test_arcs_close_on_every_tree(arrangement: Layout) -> None:
    trees = {t.mark: t for t in arrangement.project.trees}
    marks = bolt_marks(arrangement)
    for pair in bolt_pairs(arrangement, marks):
        tree = next(m.tree for m in marks if m.mark == pair.first)
        R = girth_of(trees[tree]) / (2 * math.pi)
        assert pair.arc + pair.arc_back == pytest.approx(girth_of(trees[tree]))
        assert pair.chord == pytest.approx(2 * R * math.sin(pair.arc / R / 2))  # chord of an arc, closed form


def test_the_bracket_sets_the_bolt_below_the_seat(demo: Layout) -> None:
    """Floor 84, boards 1 1/2, stringers 11 1/4: seat 71 1/4; without seat_rise half the 1 1/2 in. diameter below."""
    assert {m.centre_level for m in bolt_marks(demo)} == {70.5}
    assert {m.seat_level for m in bolt_marks(demo)} == {71.25}


@given(girths, st.floats(0, 360), st.floats(3, 12), st.floats(0.5, 14))
def test_a_collar_that_stands_out_otherwise_lies_on_the_bolts_line(
    girth: float, degrees: float, out: float, built: float
) -> None:
    """The bearing moves along the bolt by what the projection differs; the tip is the hole's depth behind the bark."""
    tree = _tree(girth, 1.0)
    R, angle = girth / (2 * math.pi), math.radians(degrees)
    points = (math.cos(angle), math.sin(angle))
    at = ((R + out) * points[0], (R + out) * points[1])
    support = Support(
        mark="T1", kind="tree bolt", at=(f"{at[0]:.8f} in", f"{at[1]:.8f} in"), tree="OAK", bolt="main"
    )
    moved = bearing_at(support, tree, built)
    assert math.dist(moved, support.at) == pytest.approx(abs(built - out), abs=1e-5)
    assert math.hypot(*moved) == pytest.approx(R + built, abs=1e-5)
    bolt = _placed(tree, at, points)
    assert math.dist(bolt.tip, bolt.entry) == pytest.approx(bolt.hole_depth)
    assert math.dist(bolt.tip, bolt.bearing) == pytest.approx(bolt.hole_depth + bolt.projection)


PARALLEL = Path(__file__).parents[1] / "platform" / "arrangements" / "parallel_bolts.toml"


def test_two_parallel_bolts_by_hand() -> None:
    """R 20, r 19 1/4, lines 6 3/8 off the axis: arc R asin(a/R), template asin(a/R), hole and collar by chords."""
    layout = find_layout(read_project(PARALLEL))
    R, r, a, out = 20.0, 19.25, 6.375, 25.5
    right, left = bolt_marks(layout)
    assert (right.mark, left.mark) == ("T1", "T2")  # as you face the trunk from the posts
    for bolt, side in ((right, 1), (left, -1)):
        assert bolt.arc == pytest.approx(side * R * math.asin(a / R))
        assert bolt.template == pytest.approx(side * math.degrees(math.asin(a / R)))
        assert bolt.turn == pytest.approx(0)
        assert bolt.hole_depth == pytest.approx(math.sqrt(R**2 - a**2) - math.sqrt(r**2 - a**2) + 7)
        assert bolt.projection == pytest.approx(out - math.sqrt(R**2 - a**2))
        assert bolt.bearing[1] == out  # both on one line parallel to the posts'
        assert bolt.tip == pytest.approx((bolt.bearing[0], math.sqrt(r**2 - a**2) - 7))
    (pair,) = bolt_pairs(layout, (right, left))
    assert pair.square == pytest.approx(2 * a)
    assert pair.chord == pytest.approx(2 * a)
    assert pair.arc == pytest.approx(2 * R * math.asin(a / R))


def test_bolts_at_the_axis_have_no_template_angle(demo: Layout) -> None:
    assert {m.template for m in bolt_marks(demo)} == {0.0}
    assert [pair.square for pair in bolt_pairs(demo, bolt_marks(demo))] == [None]


def test_a_collar_of_a_parallel_bolt_moves_along_its_own_line() -> None:
    layout = find_layout(read_project(PARALLEL))
    tree = layout.project.trees[0]
    support = next(s for s in layout.supports if s.mark == "T1")
    planned = bolt_marks(layout)[0].projection
    assert bearing_at(support, tree, planned + 0.5) == pytest.approx((support.at[0], support.at[1] + 0.5))


def test_the_sheet_says_how_to_turn_the_drill() -> None:
    sheet = open_setting_out(PARALLEL, "trunk")
    bores = [str(row[3]) for row in sheet.places().rows]  # type: ignore[attr-defined]
    assert ["18.6° to the right" in bores[0], "18.6° to the left" in bores[1]] == [True, True]
    assert all('passes by 6 3/8"' in text for text in bores)
    (_, after) = sheet.check().items  # type: ignore[attr-defined]
    assert ("Between T1 and T2, square to the holes", "1' 0 3/4\"") in [tuple(row[:2]) for row in after.rows]
