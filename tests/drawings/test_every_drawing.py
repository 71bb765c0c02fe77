"""Every drawing of the demonstration and of every arrangement: to scale, legible, nothing on top of anything else."""

import re
import xml.etree.ElementTree as ET

import pytest
from reading_svg import SVG, dimensions, ratio_of, written

from bolewright.drawings.files import SHEET_HEIGHT_MM, all_drawings, plans
from bolewright.drawings.measures import Measures
from bolewright.drawings.view3d import view_from_above
from bolewright.platform.layout.point_loads import ends_of
from bolewright.platform.results.results import find_results
from bolewright.rendering.annotations import CAP_HEIGHT
from bolewright.rendering.drawing import Leader, Mark
from bolewright.rendering.laying import PAGE_WIDTH_MM, Scale, lay_out
from bolewright.rendering.shapes import on_dots, overlaps, struck
from bolewright.rendering.svg import svg_of

SIXTEENTH = 1 / 16


LAID_OUT = {}


def laid_out(results, measures=Measures.IMPERIAL):
    """Sheets of the platform that is looked at, and of no other any more."""
    if LAID_OUT.get("of") is not results:
        LAID_OUT.clear()
        LAID_OUT["of"] = results
    if measures not in LAID_OUT:
        drawings = all_drawings(results, measures)
        LAID_OUT[measures] = [lay_out(d, PAGE_WIDTH_MM, SHEET_HEIGHT_MM, measures.scales) for d in drawings]
    return LAID_OUT[measures]


@pytest.mark.parametrize("measures", Measures)
def test_no_text_or_mark_lies_on_another_or_on_its_dot(results, measures):
    view = lay_out(view_from_above(results), PAGE_WIDTH_MM, 160.0, (Scale(1 / 25.4, ""),))
    for sheet in (*laid_out(results, measures), view):
        assert overlaps(sheet.items, sheet.scale.ratio) == [], sheet.drawing.title
        assert on_dots(sheet.items, sheet.scale.ratio) == [], sheet.drawing.title


def test_every_mark_and_note_is_still_there(results):
    """Marks of parts one behind the other stand in one bubble; none is lost by that."""
    for sheet in laid_out(results):
        drawn, asked = (
            sorted(w for i in items if isinstance(i, Mark | Leader) for w in re.split("[,;] ", i.text))
            for items in (sheet.items, sheet.drawing.items)
        )
        assert drawn == asked


@pytest.mark.parametrize("measures", Measures)
def test_no_line_of_a_dimension_a_leader_or_an_axis_runs_through_a_text(results, measures):
    for sheet in laid_out(results, measures):
        assert struck(sheet.items, sheet.scale.ratio) == [], sheet.drawing.title


def test_every_drawing_has_a_standard_scale_a_bar_a_title_and_fits_the_page(results):
    for sheet in laid_out(results):
        root = ET.fromstring(svg_of(sheet))
        words = [text.text for text in root.iter(f"{SVG}text")]
        assert ratio_of(root) == pytest.approx(sheet.scale.ratio)
        assert sheet.drawing.title in words
        assert any(word.endswith(" ft") for word in words)
        assert float(root.get("width").removesuffix("mm")) <= PAGE_WIDTH_MM
        assert float(root.get("height").removesuffix("mm")) <= SHEET_HEIGHT_MM


def test_capitals_are_two_millimetres_high_or_more(results):
    for sheet in laid_out(results):
        for text in ET.fromstring(svg_of(sheet)).iter(f"{SVG}text"):
            assert float(text.get("font-size")) * CAP_HEIGHT >= 1.999, (sheet.drawing.title, text.text)


def test_every_dimension_says_what_is_drawn(results):
    """The words equal the distance between the ticks, to a sixteenth: a chain rounds its places, so that it adds up.

    Places along a chain are held to half a sixteenth in test_chains_add_up.
    """
    count = 0
    for sheet in laid_out(results):
        for words, drawn in dimensions(svg_of(sheet)):
            assert written(words) == pytest.approx(drawn, abs=SIXTEENTH + 0.01), sheet.drawing.title
            count += 1
    assert count > 30


def test_metric_dimensions_say_what_is_drawn(demo):
    for sheet in laid_out(demo, Measures.METRIC):
        for words, drawn in dimensions(svg_of(sheet)):
            assert written(words, metric=True) == pytest.approx(drawn, abs=0.5 / 25.4 + 0.01), (
                sheet.drawing.title
            )


def test_every_part_has_its_mark_on_the_plan_of_framing(results):
    layout = results.path.layout
    shown = [item.text for item in plans(results)[0].items if isinstance(item, Mark)]
    wanted = [m.mark for m in (*layout.joists, *layout.beams)] + [s.mark for s in layout.supports]
    heading = " ".join(plans(results)[0].heading)
    for (
        entry
    ) in results.project.blocking:  # a long rim or row by its first and last, with the run in the heading
        own = [m.mark for m in layout.blocking if m.timber == entry]
        wanted += own if len(own) <= 3 else [own[0], own[-1]]
        assert len(own) < 3 or f"{own[0]} to {own[-1]}" in heading
    wanted += [b.mark for b in results.project.braces] + [d.mark for d in results.project.diagonals]
    wanted += [rods.mark for rods in results.project.crossed_rods]
    wanted += [tree.mark for tree in results.project.trees]
    wanted += [post.mark for run in layout.guards for post in run.posts]
    wanted += [gate.mark for gate in results.project.gates]
    wanted += [load.mark for load in results.project.point_loads for _ in ends_of(layout, load)]
    ways_up = {"stair": layout.stairs, "ladder": layout.ladder, "hatch": results.project.hatch.at}
    wanted += [mark for mark, given in ways_up.items() if given is not None]
    assert sorted(shown) == sorted(wanted)


def test_north_arrow_only_where_north_is_given(demo):
    assert plans(demo)[0].north is None
    turned = demo.project.model_copy(
        update={"platform": demo.project.platform.model_copy(update={"north": 30.0})}
    )
    results = find_results(turned)
    sheet = lay_out(plans(results)[0])
    words = [text.text for text in ET.fromstring(svg_of(sheet)).iter(f"{SVG}text")]
    assert "N" in words
    titles = [drawing.title for drawing in all_drawings(results)]
    assert "Elevation A, looking south-east" in titles  # 180 - 30 = 150 degrees, nearest to 135
