"""Drawings keep to a builder's scale, to the sheet, and to legible text."""

import math
import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample_sheets import plan

from bolewright.rendering.annotations import exploded
from bolewright.rendering.drawing import (
    MM_PER_INCH,
    Anchor,
    Arc,
    Arrow,
    Circle,
    Dimension,
    Drawing,
    Fill,
    Leader,
    Line,
    Mark,
    Polygon,
    Text,
)
from bolewright.rendering.laying import IMPERIAL_SCALES, METRIC_SCALES, DrawingError
from bolewright.rendering.svg import to_svg

SVG = "{http://www.w3.org/2000/svg}"


def parsed(drawing: Drawing, **options) -> ET.Element:
    return ET.fromstring(to_svg(drawing, **options))


def size(root: ET.Element) -> tuple[float, float]:
    return tuple(float(root.get(side).removesuffix("mm")) for side in ("width", "height"))


def test_same_drawing_gives_the_same_svg():
    assert to_svg(plan()) == to_svg(plan())


def test_svg_carries_title_and_description():
    root = parsed(plan())
    assert root.find(f"{SVG}title").text == plan().title
    assert root.find(f"{SVG}desc").text == plan().alt


def test_a_line_is_drawn_to_the_scale_that_is_written():
    """96 in. at 3/8" = 1' 0" is 3 in. of paper, 76.2 mm."""
    drawing = Drawing("Line", (Line((0, 0), (96, 0)),), "A line.")
    root = parsed(drawing, width=90)
    assert '3/8" = 1\' 0"' in [text.text for text in root.iter(f"{SVG}text")]
    line = root.find(f"{SVG}line")
    assert float(line.get("x2")) - float(line.get("x1")) == pytest.approx(76.2, abs=0.002)


def test_a_metric_drawing_has_a_metric_scale_and_bar():
    drawing = Drawing("Line", (Line((0, 0), (1000 / 25.4, 0)),), "A metre.")
    root = parsed(drawing, width=110, scales=METRIC_SCALES)
    words = [text.text for text in root.iter(f"{SVG}text")]
    assert "1 : 10" in words
    assert any(word.endswith(" m") for word in words)
    line = root.find(f"{SVG}line")
    assert float(line.get("x2")) - float(line.get("x1")) == pytest.approx(100, abs=0.002)


def test_text_is_text_and_never_below_two_millimetres():
    drawing = Drawing("Text", (Line((0, 0), (9, 9)), Text((1, 1), "tiny & <small>", height=0.5)), "A text.")
    texts = {text.text: text for text in parsed(drawing).iter(f"{SVG}text")}
    cap_height = 0.645  # of Libertinus Serif, per size (its OS/2 table)
    assert float(texts["tiny & <small>"].get("font-size")) * cap_height >= 1.995


@pytest.mark.parametrize("span", [1, 10, 100, 1000, 20_000])
def test_a_drawing_of_any_size_fits_the_sheet(span):
    items = (Line((0, 0), (span, span)), Dimension((0, 0), (span, 0), "x"), Mark((0, span), "J1"))
    width, height = size(parsed(Drawing("Any", items, "Any size.", north=0.0)))
    assert width <= 172.0
    assert height <= 150.0


point = st.tuples(st.floats(-500, 500), st.floats(-500, 500))


@given(start=point, end=point, offset=st.floats(3, 20), ratio=st.sampled_from(IMPERIAL_SCALES))
def test_a_dimension_line_lies_its_offset_from_what_it_measures(start, end, offset, ratio):
    length = math.dist(start, end)
    parts = list(exploded(Dimension(start, end, "x", offset), ratio.ratio))
    if length == 0:
        assert parts == []
        return
    line = parts[4]
    paper = MM_PER_INCH * ratio.ratio
    away = abs(
        (end[0] - start[0]) * (line.start[1] - start[1]) - (end[1] - start[1]) * (line.start[0] - start[0])
    )
    assert away / length * paper == pytest.approx(offset, abs=1e-6 + 1e-6 / length)
    upright = parts[-1].rotation % 360
    assert upright <= 90.2 or upright >= 270.0


def test_annotations_lie_over_parts_whatever_the_order():
    items = (Mark((5, 5), "J1"), Polygon(((0, 0), (10, 0), (10, 10)), fill=Fill.TIMBER))
    tags = [child.tag for child in parsed(Drawing("Order", items, "Order.", scale_bar=False)).iter()]
    assert tags.index(f"{SVG}polygon") < tags.index(f"{SVG}circle")


def test_every_pattern_used_is_there():
    items = tuple(Circle((10 * i, 0), 4, fill=fill) for i, fill in enumerate(Fill))
    svg = to_svg(Drawing("Fills", items, "All fills."))
    assert set(re.findall(r"url\(#([^)]+)\)", svg)) == set(re.findall(r'<pattern id="([^"]+)"', svg))


def test_an_arc_is_taken_counter_clockwise():
    """A quarter from 0 to 90 degrees ends above its centre, the short way round."""
    root = parsed(Drawing("Arc", (Arc((0, 0), 10, 0, 90),), "Arc.", scale_bar=False), width=58.8)
    path = root.find(f"{SVG}path").get("d")
    radius, large, sweep = re.search(r"A([\d.]+),\S+ 0 (\d) (\d)", path).groups()
    x1, y1, x2, y2 = (float(n) for n in re.match(r"M([\d.]+),([\d.]+)A.* ([\d.]+),([\d.]+)$", path).groups())
    assert (large, sweep) == ("0", "0")
    assert x1 - x2 == pytest.approx(float(radius), abs=0.002)
    assert y1 - y2 == pytest.approx(float(radius), abs=0.002)


def test_a_leader_to_the_left_ends_at_its_note():
    *_, note = exploded(Leader((0, 0), "oak", (-8, 5)), 1 / 24)
    assert note.anchor is Anchor.END


def test_an_arrow_has_its_head_at_its_point():
    line, head, _ = exploded(Arrow((3, 4), 90, text="1 lb"), 1 / 24)
    assert head.points[0] == (3, 4)
    assert line.start[1] < 4


@pytest.mark.parametrize(
    ("items", "says"),
    [
        ((), "is empty"),
        ((Line((0, 0), (math.nan, 1)),), "no finite"),
        ((Circle((0, 0), math.inf),), "no finite"),
    ],
)
def test_a_drawing_that_cant_be_laid_out_is_one_sentence(items, says):
    with pytest.raises(DrawingError, match=says):
        to_svg(Drawing("Bad", items, "Bad."))
