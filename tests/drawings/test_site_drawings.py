"""The two drawings of the site set alone: legible, to scale, and what they say is the outline's geometry."""

import math

import pytest

from bolewright.drawings.files import SHEET_HEIGHT_MM
from bolewright.drawings.measures import Measures
from bolewright.drawings.plan_corners import plan_of_corners
from bolewright.drawings.site_plan import NO_FALL, NO_NORTH, site_plan
from bolewright.platform.layout.pieces import cut_pieces
from bolewright.platform.project import GroundLevel
from bolewright.rendering.drawing import Arrow, Dimension, Mark
from bolewright.rendering.laying import PAGE_WIDTH_MM, lay_out
from bolewright.rendering.shapes import on_dots, overlaps, struck
from bolewright.setting_out.corners import beam_ends


@pytest.mark.parametrize("measures", Measures)
def test_nothing_lies_on_anything_else(results, measures):
    for drawing in (plan_of_corners(results, measures), site_plan(results, measures)):
        sheet = lay_out(drawing, PAGE_WIDTH_MM, SHEET_HEIGHT_MM, measures.scales)
        assert sheet.scale.label != "not to a standard scale"
        assert overlaps(sheet.items, sheet.scale.ratio) == [], drawing.title
        assert on_dots(sheet.items, sheet.scale.ratio) == [], drawing.title
        assert struck(sheet.items, sheet.scale.ratio) == [], drawing.title


def test_every_edge_has_its_dimension_on_it(results):
    """Between each corner of the outline and the next there is one, outside the deck."""
    layout = results.path.layout
    ends = [{item.start, item.end} for item in plan_of_corners(results).items if isinstance(item, Dimension)]
    for ring in (layout.project.platform.outline, *layout.project.platform.openings):
        for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
            assert {a, b} in ends
    assert len(ends) == sum(
        len(r) for r in (layout.project.platform.outline, *layout.project.platform.openings)
    )


def test_every_beam_has_both_its_ends_on_the_plan(results):
    layout = results.path.layout
    marks = [item.text for item in plan_of_corners(results).items if isinstance(item, Mark)]
    for beam in layout.beams:
        assert sum(text.startswith(f"{beam.mark}: ") for text in marks) == 2


def test_ends_of_a_beam_are_as_far_apart_as_it_is_long(results):
    layout = results.path.layout
    pieces = {piece.mark: piece for piece in cut_pieces(layout)}
    ends = beam_ends(layout, pieces)
    for one, other in zip(ends[::2], ends[1::2], strict=True):
        assert one.beam == other.beam
        between = math.dist(one.peg.point, other.peg.point)
        assert abs(between - pieces[one.beam].centre) < 0.02


def test_north_and_fall_are_drawn_or_asked_for(demo):
    bare = site_plan(demo)
    said = " ".join(bare.heading)
    assert bare.north is None
    assert NO_NORTH.split(":")[0] in said
    assert NO_FALL.split(":")[0] in said
    assert not [item for item in bare.items if isinstance(item, Arrow)]
    # 6 in. down over 120 in. along x: 5 %, or 6 in. in 10 ft, to the right on the plan
    spots = [(0.0, 0.0, 0.0), (120.0, 0.0, -6.0), (0.0, 120.0, 0.0)]
    ground = tuple(
        GroundLevel.model_construct(mark=f"E{i}", at=(x, y), level=z) for i, (x, y, z) in enumerate(spots)
    )
    layout = demo.path.layout
    platform = layout.project.platform.model_copy(update={"north": 30.0})
    project = layout.project.model_copy(update={"ground": ground, "platform": platform})
    results = _with(demo, project)
    drawn = site_plan(results)
    assert drawn.north == 30.0
    assert 'falls 6" in 10 ft (5 %)' in " ".join(drawn.heading)
    (arrow,) = [item for item in drawn.items if isinstance(item, Arrow) and item.text == "falls"]
    assert arrow.direction == 0.0
    assert '-6"' in " ".join(item.text for item in drawn.items if isinstance(item, Mark))


def _with(results, project):
    """Results that stand as they are, of a project with other words about its ground."""
    from dataclasses import replace

    layout = replace(results.path.layout, project=project)
    return replace(results, project=project, path=replace(results.path, layout=layout))
