"""Knee braces: the strip of the brace clipped by post face and beam underside with shapely, against the formulas."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, box

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.project import Brace
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.setting_out.braces import brace_cuts, knee_long_edge, knee_short_edge
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.setting_out.brace_holes import brace_holes


def _clipped(a: float, r: float, w: float, d: float) -> Polygon:
    """Strip of depth d along the line (0, -a) to (r, 0), right of the post's face and below the beam."""
    length = math.hypot(a, r)
    u, n = (r / length, a / length), (-a / length, r / length)
    far = 500.0
    corners = [
        (s * u[0] + side * d / 2 * n[0], -a + s * u[1] + side * d / 2 * n[1])
        for s, side in ((-far, 1), (far, 1), (far, -1), (-far, -1))
    ]
    return Polygon(corners).intersection(box(w / 2, -1000, 1000, 0))


@given(st.floats(18, 60), st.floats(18, 60), st.floats(3, 8), st.floats(3, 6))
def test_edges_of_a_fitted_knee(a: float, r: float, w: float, d: float) -> None:
    assume(knee_short_edge(a, r, w, d) > 2)
    shape = _clipped(a, r, w, d)
    corners = list(shape.exterior.coords[:-1])
    on_post = sorted(y for x, y in corners if abs(x - w / 2) < 1e-9)
    under = sorted(x for x, y in corners if abs(y) < 1e-9)
    assert (len(on_post), len(under)) == (2, 2)
    # The lower edge runs from the lowest point on the post to the farthest under the beam.
    assert math.dist((w / 2, on_post[0]), (under[1], 0)) == pytest.approx(
        float(knee_long_edge(a, r, w, d)), abs=1e-6
    )
    assert math.dist((w / 2, on_post[1]), (under[0], 0)) == pytest.approx(
        float(knee_short_edge(a, r, w, d)), abs=1e-6
    )


def _with(layout: Layout, **keys: object) -> Layout:
    brace = {
        "mark": "K9", "support": "P1", "beam": "C1", "towards": "end", "rise": "30 in", "run": "40 in",
        "section": "2x6", "species": "Southern Pine", "grade": "No.2",
    }  # fmt: skip
    project = layout.project.model_copy(update={"braces": (Brace.model_validate(brace | keys),)})
    return replace(layout, project=project)


def test_a_fitted_brace_in_the_demo(demo: Layout) -> None:
    """30 up, 40 along: slope 3 in 4, plumb cut atan(3/4) = 36.87 deg from square, level cut the rest of 90."""
    (cut,) = brace_cuts(_with(demo, rated_load="500 lb"), {p.mark: p for p in cut_pieces(demo)})
    assert cut.fitted
    assert cut.axis == pytest.approx(50)
    assert cut.plumb == pytest.approx(36.8699, abs=1e-4)
    assert cut.plumb + cut.level == pytest.approx(90)
    assert cut.along_beam == pytest.approx(18.6875 + 40)


def test_a_lapped_brace_in_the_demo(demo: Layout) -> None:
    """Upper bolts at mid-depth of the 11 1/4 in. beam, 5 5/8 above its underside, on the brace's own line.

    Middle to middle of the bolts by Pythagoras over (40 + 7.5) along and (30 + 5.625) up. Two 1/2 in. bolts
    in one ply of 1 1/2 in.: l/D = 3, rows across the grain 3 1/8 D, a row along it 4 D = 2 in. Of the 1 in. from their
    middle 3/5 lie along the brace below (upright), 4/5 above (level); the ends are 7 D = 3 1/2 in. beyond.
    """
    cuts = brace_cuts(
        _with(demo, bolts=2, bolt_diameter="1/2 in", towards="start"), {p.mark: p for p in cut_pieces(demo)}
    )
    (cut,) = cuts
    over = 5.625 * 40 / 30
    assert cut.short_edge == pytest.approx(math.hypot(40 + over, 30 + 5.625))
    assert cut.lower_end == pytest.approx(0.6 + 3.5)
    assert cut.long_edge == pytest.approx(cut.short_edge + 0.6 + 0.8 + 2 * 3.5)
    assert (cut.plumb, cut.level) == (0, 0)
    assert cut.along_beam == pytest.approx(18.6875 - 40 - over)


@given(
    st.floats(18, 60), st.floats(18, 60), st.integers(1, 4), st.sampled_from(["3/8 in", "1/2 in", "5/8 in"])
)
def test_holes_of_a_lapped_brace_by_vectors(demo: Layout, a: float, r: float, n: int, size: str) -> None:
    """In the post upright on its middle line, in the beam level at mid-depth, both about the brace's own line.

    Where each is on the brace by shapely: along the line between the working points, and off it.
    """
    D = {"3/8 in": 0.375, "1/2 in": 0.5, "5/8 in": 0.625}[size]
    layout = _with(demo, rise=f"{a:.6f} in", run=f"{r:.6f} in", bolts=n, bolt_diameter=size)
    (cut,) = brace_cuts(layout, {p.mark: p for p in cut_pieces(layout)})
    d = layout.member("C1").section.d
    foot = 18.6875  # P1 from the start of C1
    axis = LineString([(-r, -2 * a), (9 * r, 8 * a)])
    middle = axis.intersection(LineString([(-1000, d / 2), (1000, d / 2)]))
    own = {end: [h for h in cut.holes if h.on == end] for end in ("P1", "C1")}
    points = {
        "P1": [Point(h.across, h.up) for h in own["P1"]],
        "C1": [Point(h.across - foot, h.up) for h in own["C1"]],
    }
    assert [len(found) for found in own.values()] == [n, n]
    assert all(p.x == pytest.approx(0.0, abs=1e-9) for p in points["P1"])
    assert all(p.y == pytest.approx(d / 2) for p in points["C1"])
    for end, at in (("P1", Point(0, -a)), ("C1", middle)):
        mean = Point(sum(p.x for p in points[end]) / n, sum(p.y for p in points[end]) / n)
        assert mean.distance(at) < 1e-5
        assert all(4 * D - 1e-6 <= p.distance(q) <= 5 * D + 1 / 16 for p, q in pairwise(points[end]))
    length, above = math.hypot(a, r), (-a / math.hypot(a, r), r / math.hypot(a, r))
    start = (-cut.lower_end * r / length, -a - cut.lower_end * a / length)
    strip = LineString(
        [start, (start[0] + cut.long_edge * r / length, start[1] + cut.long_edge * a / length)]
    )
    for hole, point in zip([*own["P1"], *own["C1"]], [*points["P1"], *points["C1"]], strict=True):
        assert hole.on_brace == pytest.approx(strip.project(point), abs=1e-5)
        assert abs(hole.off) == pytest.approx(axis.distance(point), abs=1e-5)
        off = (point.x - start[0]) * above[0] + (point.y - start[1]) * above[1]
        assert hole.off == pytest.approx(off, abs=1e-5)
        assert 7 * D - 1e-5 <= hole.on_brace <= cut.long_edge - 7 * D + 1e-5


def test_a_distance_that_is_not_kept_is_loud(demo: Layout) -> None:
    """3/4 in. bolts: 4 D = 3 in. to the loaded edge, and a 6x6 post has 2 3/4 in. from its middle line."""
    layout = _with(demo, bolts=2, bolt_diameter="3/4 in")
    cuts = brace_cuts(layout, {p.mark: p for p in cut_pieces(layout)})
    holes, distances, loud = brace_holes(cuts, Lengths(Tape.FEET))
    assert isinstance(holes, Table)
    assert isinstance(distances, Table)
    assert len(holes.rows) == 4
    assert isinstance(loud, Statement)
    assert loud.kind is StatementKind.FAILURE
    assert any("edge of post P1 is 2 3/4" in words for words in loud.items)
