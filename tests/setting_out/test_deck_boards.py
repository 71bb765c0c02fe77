"""Rows of boards add up to the width; the cut-out round a trunk against circles in closed form."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from bolewright.drawings.files import plans
from bolewright.drawings.solids import solids_of
from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.outlines import trunk_outline
from bolewright.platform.results.results import Results, find_results
from bolewright.rendering.drawing import Fill, Layer
from bolewright.rendering.drawing import Polygon as Drawn
from bolewright.setting_out.cutout import board_cuts, cut_outs, room_needed
from bolewright.setting_out.decking import deck_rows, last_rip, row_count, shared_rip
from bolewright.setting_out.trunk import girth_of


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


def test_gap_is_sway_growth_and_margin(demo: Layout, demo_results: Results) -> None:
    """c = s + g t + m (common practice), by the numbers of the project file; trunk and platform move apart by s.

    No less than the sway by itself, and no more than it and all the platform moves with its bolts in the softest wood.
    """
    (cut,) = cut_outs(demo_results)
    tree = demo.project.trees[0]
    assert cut.gap.sway == pytest.approx(0.25)
    assert 0.25 <= cut.gap.apart < 0.25 + 0.51
    assert cut.gap.needed == pytest.approx(cut.gap.apart + tree.growth * tree.service + tree.margin)
    assert cut.clearance == pytest.approx(18 - 75.375 / (2 * math.pi), abs=0.01)
    assert cut.cut == ()


def test_cut_line_round_a_round_trunk_is_a_circle(demo_results: Results) -> None:
    (cut,) = cut_outs(demo_results)
    R = 75.375 / (2 * math.pi) + cut.gap.needed
    assert all(math.hypot(*p) == pytest.approx(R, abs=1 / 32) for p in cut.line)
    assert Polygon(cut.line).area == pytest.approx(math.pi * R**2, rel=0.005)


def test_gap_is_kept_from_a_measured_outline(demo_with: Callable[[str], Layout]) -> None:
    """An oval trunk 24 by 28 by widths at 8 stations: every point of the line is the gap off."""
    widths = ["28 in", "26 in", "24 in", "26 in"]
    text = f'[[outline]]\ntree = "OAK"\nwidths = {widths}'
    layout = demo_with(text)
    (cut,) = cut_outs(find_results(layout.project))
    assert cut.measured
    bark = trunk_outline(layout.project, layout.project.trees[0])
    assert [math.hypot(*p) for p in bark.exterior.coords[:4]] == pytest.approx([14, 13, 12, 13])
    for point in cut.line:
        assert bark.distance(Point(point)) == pytest.approx(cut.gap.needed, abs=1 / 16)


POINTS = [(16.0, 0.0), (12.0, 20.0), (0.0, 24.0), (-12.0, 20.0), (-16.0, 0.0), (0.0, -14.0)]


def test_deck_is_cut_round_measured_points(demo_with: Callable[[str], Layout]) -> None:
    """A bark outline that reaches to y = 24, six inches over the deck's edge at y = 18."""
    pairs = ", ".join(f'["{x} in", "{y} in"]' for x, y in POINTS)
    layout = demo_with(f'[[outline]]\ntree = "OAK"\npoints = [{pairs}]')
    found = cut_outs(find_results(layout.project))
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
        for place in mark.near_edge:
            at = place + mark.starts[0]
            start = [
                field.origin[k] + near[mark.row] * field.across[k] + mark.starts[0] * field.along[k]
                for k in (0, 1)
            ]
            assert layout.deck.exterior.distance(Point(start)) < 1e-5  # the tape is hooked on the deck's edge
            x = field.origin[0] + near[mark.row] * field.across[0] + at * field.along[0]
            y = field.origin[1] + near[mark.row] * field.across[1] + at * field.along[1]
            assert Polygon(found[0].line).exterior.distance(Point(x, y)) < 1e-6
            assert layout.deck.distance(Point(x, y)) < 1e-6


def test_a_trunk_that_bears_nothing_is_given_room_as_well() -> None:
    """The beech of the second example: sway seen at 8 ft scaled to the floor, the platform's own movement on top."""
    results = find_results(read_project(shipped("calcsheets") / "round_the_trunk.toml"))
    (tree,) = results.project.trees
    check = next(
        c for c in results.checks if c.part == tree.mark and c.limit_state == "clearance at the trunk"
    )
    (cut,) = cut_outs(results)
    own = (cut.gap.sway or 0.0) + tree.growth * tree.service + tree.margin
    assert cut.gap.needed == pytest.approx(check.demand)
    assert cut.gap.needed > own  # the platform drifts in wind, towards the trunk at worst
    # from the bark to the nearest of decking, headers and trimmers
    R = girth_of(tree) / (2 * math.pi)
    faces = [m.line.distance(tree.at) - m.width / 2 - R for m in results.path.layout.members]
    assert check.capacity == pytest.approx(min(cut.clearance, *faces), abs=0.01)


def test_the_gap_that_is_cut_is_the_one_the_checks_ask_for(arrangement_results: Results) -> None:
    wanted = {
        c.part: c.demand for c in arrangement_results.checks if c.limit_state == "clearance at the trunk"
    }
    for cut in cut_outs(arrangement_results):
        if cut.tree in wanted:
            assert cut.gap.needed == pytest.approx(wanted[cut.tree])
            assert Polygon(cut.line).buffer(1e-6).covers(Polygon(cut.outline))


def test_the_gap_is_checked_from_the_measured_outline(demo_with: Callable[[str], Layout]) -> None:
    """Bark measured 12 in. to every side but 14 in. towards the deck at y = 18 and S1, S2 beside it."""
    points = [(12, 0), (8, 9), (0, 14), (-8, 9), (-12, 0), (-8, -9), (0, -12), (8, -9)]
    pairs = ", ".join(f'["{x} in", "{y} in"]' for x, y in points)
    layout = demo_with(f'[[outline]]\ntree = "OAK"\npoints = [{pairs}]')
    results = find_results(layout.project)
    (cut,) = cut_outs(results)
    assert cut.clearance == pytest.approx(18 - 14)
    check = next(c for c in results.checks if c.limit_state == "clearance at the trunk")
    bark = Polygon(points)
    trunk = Point(0, 0).buffer(
        75.375 / (2 * math.pi), quad_segs=500
    )  # by its girth, where the beams pass the bolts
    to_s1, to_s2 = (
        min(LineString(ends).distance(shape) for shape in (bark, trunk)) - 1.5
        for ends in ([(-15.25, -6), (-56.3125, 133)], [(14.5, -6), (72.4375, 133)])
    )
    assert check.capacity == pytest.approx(min(to_s1, to_s2, 4.0), abs=1e-3)


def test_the_drawings_show_the_measured_outline(demo_with: Callable[[str], Layout]) -> None:
    layout = demo_with('[[outline]]\ntree = "OAK"\nwidths = ["28 in", "26 in", "24 in", "26 in"]')
    results = find_results(layout.project)
    for plan in plans(results):
        trunks = [
            i for i in plan.items if isinstance(i, Drawn) and i.layer is Layer.TRUNK and i.fill is Fill.TRUNK
        ]
        assert [max(x for x, _ in trunk.points) for trunk in trunks] == pytest.approx([14.0])
        assert [max(y for _, y in trunk.points) for trunk in trunks] == pytest.approx([12.0])
    trunk = next(s for s in solids_of(results) if s.layer is Layer.TRUNK)
    assert max(x for x, _, _ in trunk.points) == pytest.approx(14.0)
