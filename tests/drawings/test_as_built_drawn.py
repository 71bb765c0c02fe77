"""As built on the drawings: crosses and lines where the entries say, beside the plan, and nothing without entries."""

from pathlib import Path

import pytest

from bolewright.drawings.files import SHEET_HEIGHT_MM, all_drawings, elevations, plans, sections
from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import find_results
from bolewright.rendering.drawing import Layer, Line, Mark
from bolewright.rendering.laying import PAGE_WIDTH_MM, lay_out
from bolewright.rendering.shapes import overlaps, struck

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
ENTRIES = """
[[as_built]]
mark = "T1"
projection = "5 1/2 in"
embedment = "6 1/2 in"
level = "-1/2 in"

[[as_built]]
mark = "P1"
at = ["-35 in", "114 1/2 in"]
hole = "56 in"

[[as_built]]
mark = "C1"
depth = "11 1/8 in"
"""


@pytest.fixture(scope="module")
def built():
    return find_results(parse_project(f"{DEMO.read_text('utf-8')}\n{ENTRIES}"))


def lines(drawing):
    return [item for item in drawing.items if isinstance(item, Line) and item.layer is Layer.HIGHLIGHT]


def middles(drawing):
    return {
        (round((i.start[0] + i.end[0]) / 2, 3), round((i.start[1] + i.end[1]) / 2, 3)) for i in lines(drawing)
    }


def tags(drawing):
    return {item.text for item in drawing.items if isinstance(item, Mark) and "built" in item.text}


def test_crosses_on_the_plan_stand_where_the_supports_do(built):
    """P1 by its entry; T1 half an inch farther out on its line from the axis: 12 - 1/256 + 5 1/2 from it, at y = 0."""
    plan = plans(built)[0]
    radius = 75.375 / (2 * 3.141592653589793)
    assert middles(plan) == {(-35.0, 114.5), (round(-(radius + 5.5), 3), 0.0)}
    assert tags(plan) == {"P1 built", "T1 built"}
    said = " ".join(plan.heading)
    assert 'P1 stands 1" right and 1/2" up on the plan' in said
    assert 'C1: depth 11 1/8", planned 11 1/4"' in said


def test_levels_in_elevation(built):
    """Seat of T1 planned at 71 1/4, built 70 3/4; P1's cut at 60 but 1 in. towards P2; its hole 56 in. deep.

    Seen against the y axis, x counts to the left.
    """
    found = middles(elevations(built)[0])
    radius = 75.375 / (2 * 3.141592653589793)
    assert (round(radius + 5.5, 3), 70.75) in found
    assert (35.0, 60.0) in found
    assert (36.0, -56.0) in found


def test_sections_of_parts_that_came_out_otherwise_stand_alone(built):
    titles = [drawing.title for drawing in sections(built)]
    assert titles == [
        "Section at tree bolt T1",
        "Section at tree bolt T2",
        "Section at post and footing P1",
        "Section at post and footing P2",
    ]
    bolt, other, post, _ = sections(built)
    assert {"tip, as built", "bearing, as built"} <= tags(bolt)
    xs = sorted(x for x, _ in middles(bolt))
    assert xs[1] - xs[0] == pytest.approx(1 + 6.5 + 5.5)  # bark, thread reached, projection
    assert not lines(other)
    assert {y for _, y in middles(post)} == {-56.0}


def test_nothing_lies_on_anything_with_what_was_built(built):
    for drawing in all_drawings(built):
        sheet = lay_out(drawing, PAGE_WIDTH_MM, SHEET_HEIGHT_MM)
        assert overlaps(sheet.items, sheet.scale.ratio) == [], drawing.title
        assert struck(sheet.items, sheet.scale.ratio) == [], drawing.title


def test_no_entry_no_mark(demo):
    for drawing in all_drawings(demo):
        assert not lines(drawing)
        assert not tags(drawing)
        assert not any("As built" in line for line in drawing.heading)
