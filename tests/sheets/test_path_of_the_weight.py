"""The diagram of the path of the weight: every name stands in its box, however many there are."""

from __future__ import annotations

import pytest

from bolewright.rendering.drawing import Polygon, Text
from bolewright.rendering.laying import Scale, lay_out
from bolewright.rendering.shapes import text_box
from bolewright.sheets.figures import path_drawing

MILLIMETRES = Scale(1 / 25.4, "")
MANY = ["R1 to R10", *(f"B{letter}1" for letter in "ABCDEFGHIJKLMNOPQRS")]


@pytest.mark.parametrize(
    "middle", [MANY[:1], MANY[:8], MANY, ["BD1 to BD3, a long name of a row of pieces"] * 1]
)
def test_every_name_stands_in_its_box(middle: list[str]) -> None:
    rows = [["decking"], middle, ["J1 to J11"], [f"soil, P{n}" for n in range(1, 8)]]
    links = [("decking", name) for name in middle] + [(name, "J1 to J11") for name in middle]
    drawing = path_drawing(rows, links, {}, "Path of the weight", "the path")
    laid = lay_out(drawing, scales=(MILLIMETRES,))
    boxes = [item.points for item in laid.items if isinstance(item, Polygon) and len(item.points) == 4]
    texts = [item for item in laid.items if isinstance(item, Text)]
    assert len(texts) == len(boxes) == sum(map(len, rows))
    for text in texts:
        assert any(_within(text, box) for box in boxes), text.text
    assert all(a is b or not _meet(a, b) for a in boxes for b in boxes)


def _bounds(points):
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _within(text: Text, box) -> bool:
    left, low, right, high = _bounds(box)
    a, b, c, d = _bounds(text_box(text, MILLIMETRES.ratio).corners)
    return left <= a and low <= b and c <= right and d <= high


def _meet(one, other) -> bool:
    a, b, c, d = _bounds(one)
    e, f, g, h = _bounds(other)
    return a < g and e < c and b < h and f < d
