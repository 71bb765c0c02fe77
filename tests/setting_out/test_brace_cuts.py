"""Knee braces: the strip of the brace clipped by post face and carrier underside with shapely, against the formulas."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, box

from bolewright.platform.layout import Layout
from bolewright.platform.project import Brace
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.setting_out.braces import brace_cuts, knee_long_edge, knee_short_edge
from bolewright.setting_out.pieces import cut_pieces
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.setting_out.brace_holes import brace_holes


def _clipped(a: float, r: float, w: float, d: float) -> Polygon:
    """Strip of depth d along the line (0, -a) to (r, 0), right of the post's face and below the carrier."""
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
    # The lower edge runs from the lowest point on the post to the farthest under the carrier.
    assert math.dist((w / 2, on_post[0]), (under[1], 0)) == pytest.approx(
        float(knee_long_edge(a, r, w, d)), abs=1e-6
    )
    assert math.dist((w / 2, on_post[1]), (under[0], 0)) == pytest.approx(
        float(knee_short_edge(a, r, w, d)), abs=1e-6
    )


def _with(layout: Layout, **keys: object) -> Layout:
    brace = {
        "mark": "K9", "support": "P1", "carrier": "C1", "towards": "end", "rise": "30 in", "run": "40 in",
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
    assert cut.along_carrier == pytest.approx(18.6875 + 40)


def test_a_lapped_brace_in_the_demo(demo: Layout) -> None:
    """Upper bolts at mid-depth of the 11 1/4 in. carrier, 5 5/8 above its underside, on the brace's own line.

    Middle to middle of the bolts by Pythagoras over (40 + 7.5) along and (30 + 5.625) up; two bolts at 4 D = 2 in.
    stand 1 in. beyond the middle, the ends 7 D = 3 1/2 in. beyond them.
    """
    cuts = brace_cuts(
        _with(demo, bolts=2, bolt_diameter="1/2 in", towards="start"), {p.mark: p for p in cut_pieces(demo)}
    )
    (cut,) = cuts
    over = 5.625 * 40 / 30
    assert cut.short_edge == pytest.approx(math.hypot(40 + over, 30 + 5.625))
    assert cut.long_edge == pytest.approx(cut.short_edge + 2 * (1 + 3.5))
    assert (cut.plumb, cut.level) == (0, 0)
    assert cut.along_carrier == pytest.approx(18.6875 - 40 - over)


@given(
    st.floats(18, 60), st.floats(18, 60), st.integers(1, 4), st.sampled_from(["3/8 in", "1/2 in", "5/8 in"])
)
def test_holes_of_a_lapped_brace_by_vectors(demo: Layout, a: float, r: float, n: int, size: str) -> None:
    """Every hole stands on the line between the working points, 4 D apart, the outer ones 7 D from the brace's ends.

    The upper ones are centred where that line crosses the middle of the carrier's depth: by shapely.
    """
    D = {"3/8 in": 0.375, "1/2 in": 0.5, "5/8 in": 0.625}[size]
    layout = _with(demo, rise=f"{a:.6f} in", run=f"{r:.6f} in", bolts=n, bolt_diameter=size)
    (cut,) = brace_cuts(layout, {p.mark: p for p in cut_pieces(layout)})
    d = layout.member("C1").section.d
    foot = 18.6875  # P1 from the start of C1
    axis = LineString([(-r, -2 * a), (9 * r, 8 * a)])
    middle = axis.intersection(LineString([(-1000, d / 2), (1000, d / 2)]))
    holes = {end: [h for h in cut.holes if h.on == end] for end in ("P1", "C1")}
    points = [Point(h.across - (foot if h.on == "C1" else 0.0), h.up) for h in cut.holes]
    assert [len(own) for own in holes.values()] == [n, n]
    assert max(axis.distance(p) for p in points) < 1e-6
    for own, at in ((points[:n], Point(0, -a)), (points[n:], middle)):
        mean = Point(sum(p.x for p in own) / n, sum(p.y for p in own) / n)
        assert mean.distance(at) < 1e-6
        gaps = [p.distance(q) for p, q in pairwise(own)]
        assert all(4 * D - 1e-6 <= gap <= 4 * D + 1 / 16 for gap in gaps)
    start = Point(axis.interpolate(axis.project(points[0]) - cut.holes[0].on_brace))
    assert [start.distance(p) for p in points] == pytest.approx([h.on_brace for h in cut.holes])
    assert cut.holes[0].on_brace >= 7 * D - 1e-9
    assert cut.long_edge - cut.holes[-1].on_brace >= 7 * D - 1e-9
    for hole, point in zip(cut.holes, points, strict=True):
        part = box(-2.75, -500, 2.75, 0) if hole.on == "P1" else box(-500, 0, 500, d)
        edge = part.exterior.distance(point) if part.contains(point) else 0.0
        sides = [abs(point.x + 2.75), abs(2.75 - point.x)] if hole.on == "P1" else [point.y, d - point.y]
        assert hole.edge == pytest.approx(min(sides)) or edge == 0.0


def test_a_hole_too_near_an_edge_is_loud(demo: Layout) -> None:
    """Four 5/8 in. bolts at 4 D = 2 1/2 in., 30 up on 40: the outer ones 3.75 * 0.8 = 3 in. off a 5 1/2 in. post."""
    layout = _with(demo, bolts=4, bolt_diameter="5/8 in")
    cuts = brace_cuts(layout, {p.mark: p for p in cut_pieces(layout)})
    table, loud = brace_holes(cuts, Lengths(Tape.FEET))
    assert isinstance(table, Table)
    assert len(table.rows) == 8
    assert isinstance(loud, Statement)
    assert loud.kind is StatementKind.FAILURE
    assert any("hole 1 in P1" in words for words in loud.items)
