"""Texts find places where they lie on no other; what can't be told apart by eye is held apart here."""

import itertools
import math

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from bolewright.rendering.annotations import exploded
from bolewright.rendering.drawing import Dimension, Layer, Leader, Line, Mark, Pen, Text
from bolewright.rendering.placement import placed, together
from bolewright.rendering.shapes import Shape, boxes_of, on_dots, overlaps, struck, text_box

SCALE = 1 / 48
numbers = st.integers(-60, 60).map(float)
points = st.tuples(numbers, numbers)
boxes = st.builds(
    lambda x, y, w, h, turn: tuple(
        (
            x + a * math.cos(turn) - b * math.sin(turn),
            y + a * math.sin(turn) + b * math.cos(turn),
        )
        for a, b in ((0, 0), (w, 0), (w, h), (0, h))
    ),
    numbers,
    numbers,
    st.floats(1, 40),
    st.floats(1, 40),
    st.floats(0, 6.28),
)


@settings(deadline=None)
@given(a=boxes, b=boxes)
def test_boxes_meet_where_shapely_finds_a_common_area(a, b):
    common = Polygon(a).intersection(Polygon(b)).area
    if common > 1e-6 or Polygon(a).distance(Polygon(b)) > 1e-6:
        assert Shape.of(a).meets(Shape.of(b)) == (common > 1e-6)


@settings(deadline=None)
@given(a=boxes, p=points, q=points)
def test_a_line_meets_a_box_where_shapely_finds_it_inside(a, p, q):
    if math.dist(p, q) < 0.1:
        return
    line, inside = LineString([p, q]), Polygon(a).buffer(-1e-7)  # a line along an edge is not inside
    common = line.intersection(inside).length
    if common > 1e-6 or line.distance(Polygon(a)) > 1e-6:
        assert Shape.of((p, q)).meets(Shape.of(a)) == (common > 1e-6)
        assert Shape.of(a).meets(Shape.of((p, q))) == (common > 1e-6)


annotations = st.one_of(
    st.builds(Mark, points, st.sampled_from(["J1", "J12", "S2", "P1 0.93"])),
    st.builds(Text, points, st.sampled_from(["OAK", "row 5"])),
    st.builds(Leader, points, st.sampled_from(["plain concrete", "post P1, 6x6"])),
    st.builds(Dimension, points, points, st.sampled_from(["1' 4\"", "3' 5 1/4\""])),
)


@settings(max_examples=60, deadline=None)
@given(items=st.lists(annotations, min_size=2, max_size=14))
def test_no_two_annotations_lie_on_each_other(items):
    kept = [i for i in items if not isinstance(i, Dimension) or math.dist(i.start, i.end) > 1]
    found = placed(kept, SCALE)
    assert [type(item) for item in found] == [type(item) for item in kept]
    assert [item.text for item in found] == [item.text for item in kept]
    assert overlaps(found, SCALE) == []


def test_marks_of_joists_close_together_stand_apart():
    """Joists 3 in. apart at 1/4 in. to the foot are 1.6 mm apart on paper: their bubbles are 6 mm wide."""
    joists = [
        Mark((3.0 * k, 60.0), f"J{k + 1}", along=tuple((3.0 * k, 12.0 * f) for f in range(1, 10)))
        for k in range(8)
    ]
    found = placed(joists, SCALE)
    assert overlaps(found, SCALE) == []
    assert all(mark.at[0] == 3.0 * k for k, mark in enumerate(found))


def test_the_dot_of_a_mark_led_aside_lies_under_no_other_mark():
    """Two braces seen one behind the other, as from the end of a frame: the second is led aside from where it shows."""
    along = tuple((0.0, y) for y in (7.0, -7.0, 14.0, -14.0))
    stacked = [Mark((0.0, 0.0), f"K{i}", along=along) for i in range(1, 7)]
    found = placed([Line((0.0, -18.0), (0.0, 18.0), Layer.BRACES), *stacked], SCALE)
    marks = [item for item in found if isinstance(item, Mark)]
    aside = [mark for mark in marks if mark.shift != (0.0, 0.0)]
    assert aside
    for mark in aside:
        dot = Shape.of(tuple((mark.at[0] * 25.4 * SCALE + x, mark.at[1] * 25.4 * SCALE) for x in (-0.2, 0.2)))
        assert not any(
            dot.meets(box) for other in marks if other is not mark for box in boxes_of(other, SCALE)
        )


def test_short_spaces_of_a_chain_keep_their_line_and_lose_no_number():
    chain = [Dimension((3.0 * k, 0), (3.0 * (k + 1), 0), '3"', -7.0) for k in range(8)]
    found = placed(chain, SCALE)
    assert overlaps(found, SCALE) == []
    assert {item.offset for item in found} == {-7.0}


def test_what_has_room_stays_where_it_was_put():
    items = (Mark((0, 0), "J1"), Text((100, 0), "OAK"), Dimension((0, 50), (96, 50), "8' 0\""))
    assert placed(items, SCALE) == items


def test_a_turned_text_has_a_turned_box():
    box = text_box(Text((0, 0), "row 10", rotation=90.0), SCALE)
    assert box.bounds[3] - box.bounds[1] > box.bounds[2] - box.bounds[0]


def test_the_text_of_a_dimension_lifted_off_its_line_is_led_to_it():
    lifted = Dimension((0, 0), (3, 0), '3"', 7.0, text_at=(6.0, 8.0))
    plain = list(exploded(lifted, SCALE))
    assert len(plain) == len(list(exploded(Dimension((0, 0), (96, 0), '3"', 7.0), SCALE))) + 1
    assert all(a is not b for a, b in itertools.pairwise(plain))


def test_a_line_through_a_text_is_found_and_avoided():
    """An axis and the extension line of a dimension through the middle of two texts."""
    axis = Line((-50, 0), (50, 0), Layer.CENTRE, Pen.CENTRE)
    dimension = Dimension((100, -100), (200, -100), "8' 4\"", 200 / 48 * 25.4)
    items = (axis, dimension, Text((0, 0), "OAK"), Text((100, 0), "ASH"))
    assert struck(items, SCALE) == [("OAK", "centre"), ("ASH", "8' 4\"")]
    assert struck(placed(items, SCALE), SCALE) == []


def test_short_upright_spaces_have_their_words_level_beside_the_line():
    """Decking 1 1/2, joists 7 1/4, beam 11 1/4 at 1/4 in. to the foot: words apart, all to the right."""
    spaces = (
        (0.0, 52.0, "4' 4\""),
        (52.0, 63.25, '11 1/4"'),
        (63.25, 70.5, '7 1/4"'),
        (70.5, 72.0, '1 1/2"'),
    )
    items = tuple(Dimension((0, a), (0, b), words, -7.0, flat=True) for a, b, words in spaces)
    found = placed(items, SCALE)
    assert overlaps(found, SCALE) == []
    texts = [part for item in found for part in exploded(item, SCALE) if isinstance(part, Text)]
    assert [text.rotation for text in texts] == [0.0] * 4
    heights = [text.at[1] for text in texts]
    assert heights == sorted(heights)
    assert all(text.at[0] * 25.4 * SCALE > 7.0 for text in texts)


def test_a_label_leaves_the_dot_of_another_part():
    """T1's dot lies 4 mm from the middle of a joist whose bubble would cover it: the joist's mark goes along it."""
    joist = Mark((0.0, 0.0), "J1", along=((0.0, 40.0), (0.0, 60.0)))
    bolt = Mark((2.0, 0.0), "T1", shift=(9.0, 0.0))
    assert on_dots((joist, bolt), SCALE) == [("T1", "J1")]
    found = placed((joist, bolt), SCALE)
    assert on_dots(found, SCALE) == []
    assert overlaps(found, SCALE) == []


def test_parts_one_behind_the_other_are_named_in_one_bubble():
    """Two braces with the same places: one bubble; a third with a place of its own keeps its own."""
    along = ((0.0, 7.0), (0.0, 14.0))
    items = [Mark((0.0, 0.0), "K1", along=along), Mark((0.0, 0.0), "K2", along=along)]
    other = Mark((0.0, 0.0), "K3", along=((30.0, 7.0), (30.0, 14.0)))
    assert [item.text for item in together([*items, other], SCALE)] == ["K1, K2", "K3"]


def test_labels_stay_on_the_sheet_where_there_is_room_for_them():
    """Six marks on one spot: at most 60 mm of room, so that none is led farther out."""
    marks = [Mark((0.2 * k, 12.0 * k), f"P{k}", shift=(40.0, 0.0)) for k in range(6)]
    found = placed([Line((-40.0, 0.0), (40.0, 0.0)), *marks], SCALE, (60.0, 90.0))
    boxes = [box.bounds for item in found if isinstance(item, Mark) for box in boxes_of(item, SCALE)]
    lines = [-40 * 25.4 * SCALE, 40 * 25.4 * SCALE]
    assert max([*lines, *(b[2] for b in boxes)]) - min([*lines, *(b[0] for b in boxes)]) <= 60.0
