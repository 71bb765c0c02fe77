"""Rows of boards add up to the width; the cut-out round a stem against circles in closed form."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon

from bolewright.platform.layout import Layout
from bolewright.platform.load_path import find_load_path
from bolewright.setting_out.cutout import board_cuts, cut_outs, room_needed, stem_outline
from bolewright.setting_out.decking import deck_rows, last_rip, row_count, shared_rip


@given(st.floats(12, 600), st.floats(2.5, 11.25), st.floats(0, 0.5))
def test_boards_and_gaps_fill_the_width(W: float, w: float, g: float) -> None:
    n = row_count(W, w, g)
    last = float(last_rip(W, n, w, g))
    assert -g - 1e-9 <= last <= w + 1e-9
    assert (n - 1) * (w + g) + last == pytest.approx(W)
    shared = float(shared_rip(w, last))
    assert 2 * shared + (n - 2) * w + (n - 1) * g == pytest.approx(W)


def test_rows_of_every_arrangement(arrangement: Layout) -> None:
    for field in deck_rows(arrangement):
        assert sum(r.width for r in field.rows) + (field.count - 1) * field.gap == pytest.approx(field.cover)
        assert field.rows[-1].far == pytest.approx(field.cover)
        for row in (field.rows[0], field.rows[-1]):
            assert field.count == 1 or row.width >= field.board / 2 - 1e-9
        assert all(row.stretches for row in field.rows if row.width > 0.1)


def test_demo_rows_by_hand(demo: Layout) -> None:
    """Outline from x = -58 1/4 to 74 1/2: 132 3/4 in.; 23 boards of 5 5/8 with gap leave 3 3/8, more than half."""
    (field,) = deck_rows(demo)
    assert (field.count, field.first, field.shared) == (24, 5.5, False)
    assert field.last == pytest.approx(132.75 - 23 * 5.625)
    # Row 11 lies wholly where the deck is full: y from 18 to 134.
    assert field.rows[10].longest == pytest.approx(116)


def test_gap_is_sway_growth_and_margin(demo: Layout) -> None:
    """c = s + g t + m (common practice), by the numbers of the project file."""
    (cut,) = cut_outs(find_load_path(demo))
    tree = demo.project.trees[0]
    assert cut.gap.needed == pytest.approx((cut.gap.sway or 0.0) + tree.growth * tree.service + tree.margin)
    assert cut.clearance == pytest.approx(18 - 75.375 / (2 * math.pi), abs=0.01)
    assert cut.cut == ()


def test_cut_line_round_a_round_stem_is_a_circle(demo: Layout) -> None:
    (cut,) = cut_outs(find_load_path(demo))
    R = 75.375 / (2 * math.pi) + cut.gap.needed
    assert all(math.hypot(*p) == pytest.approx(R, abs=1 / 32) for p in cut.line)
    assert Polygon(cut.line).area == pytest.approx(math.pi * R**2, rel=0.005)


def test_gap_is_kept_from_a_measured_outline(demo_with: Callable[[str], Layout]) -> None:
    """An oval stem 24 by 28 by widths at 8 stations: every point of the line is the gap off."""
    widths = ["28 in", "26 in", "24 in", "26 in"]
    text = f'[[outline]]\ntree = "OAK"\nwidths = {widths}'
    layout = demo_with(text)
    (cut,) = cut_outs(find_load_path(layout))
    assert cut.measured
    bark = stem_outline(layout.project.trees[0], layout.project.outlines[0])
    assert [math.hypot(*p) for p in bark.exterior.coords[:4]] == pytest.approx([14, 13, 12, 13])
    for point in cut.line:
        assert bark.distance(Point(point)) == pytest.approx(cut.gap.needed, abs=1 / 16)


POINTS = [(16.0, 0.0), (12.0, 20.0), (0.0, 24.0), (-12.0, 20.0), (-16.0, 0.0), (0.0, -14.0)]


def test_deck_is_cut_round_measured_points(demo_with: Callable[[str], Layout]) -> None:
    """A bark outline that reaches to y = 24, six inches over the deck's edge at y = 18."""
    pairs = ", ".join(f'["{x} in", "{y} in"]' for x, y in POINTS)
    layout = demo_with(f'[[outline]]\ntree = "OAK"\npoints = [{pairs}]')
    found = cut_outs(find_load_path(layout))
    room = room_needed(found)
    assert room is not None
    assert found[0].clearance == 0
    left = layout.deck.difference(room)
    assert left.distance(Polygon(POINTS)) == pytest.approx(found[0].gap.needed, abs=1 / 16)
    removed = sum(Polygon(part).area for part in found[0].cut)
    assert left.area + removed == pytest.approx(layout.deck.area)
    # Marks on the boards lie on the line to cut along.
    (field,) = deck_rows(layout, room)
    cuts = board_cuts(
        found,
        field.origin,
        field.along,
        field.across,
        [(r.number, r.near, r.far) for r in field.rows],
        layout.deck,
    )
    assert cuts
    near = {row.number: row.near for row in field.rows}
    for mark in cuts:
        for at in mark.near_edge:
            x = field.origin[0] + near[mark.row] * field.across[0] + at * field.along[0]
            y = field.origin[1] + near[mark.row] * field.across[1] + at * field.along[1]
            assert Polygon(found[0].line).exterior.distance(Point(x, y)) < 1e-6
            assert layout.deck.distance(Point(x, y)) < 1e-6
