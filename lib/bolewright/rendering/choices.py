"""Places where an annotation of a drawing may stand, the best first."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from bolewright.rendering.annotations import dimension_text_length
from bolewright.rendering.drawing import MM_PER_INCH, Dimension, Item, Leader, Mark, Point, Text

_DIRECTIONS = (45, 135, -45, -135, 0, 180, 90, -90, 22.5, 157.5, -22.5, -157.5, 67.5, 112.5, -67.5, -112.5)


def choices(item: Item, scale: float) -> Iterator[Item]:
    """Places where an annotation may stand, the best first."""
    yield item
    match item:
        case Dimension():
            yield from _dimension_choices(item, scale)
        case Mark():
            yield from (replace(item, at=at, shift=(0.0, 0.0)) for at in item.along)
            near, far = list(_around(7.0, 13.0, 3.0)), _around(16.0, 60.0, 3.0)
            yield from (replace(item, shift=shift) for shift in near)
            # its dot elsewhere on the part, where no other bubble lies on it
            yield from (replace(item, at=at, shift=shift) for at in item.along for shift in near)
            yield from (replace(item, shift=shift) for shift in far)
        case Leader():
            right, up = item.shift
            yield from (replace(item, shift=shift) for shift in ((right, -up), (-right, up), (-right, -up)))
            beside = [shift for shift in _around(6.0, 80.0, 4.0) if abs(shift[0]) > 1]
            yield from (replace(item, to=to, shift=item.shift) for to in item.along)
            yield from (replace(item, shift=shift) for shift in beside)
            yield from (replace(item, to=to, shift=shift) for to in item.along for shift in beside[:64])
        case Text(fixed=False):
            x, y = item.shift
            yield from (replace(item, shift=(x + dx, y + dy)) for dx, dy in _around(2.0, 40.0, 2.0))
        case _:
            return


def _dimension_choices(item: Dimension, scale: float) -> Iterator[Dimension]:
    if item.flat:
        yield from (
            replace(item, text_at=(on, off))
            for off in (0.0, 3.0, 6.0, 12.0)
            for on in (1.5, -1.5, 3.0, -3.0, 4.5, -4.5, 6.0, -6.0, 8.0, -8.0, 11.0, -11.0)
        )
        return
    room = math.dist(item.start, item.end) * MM_PER_INCH * scale
    taken = dimension_text_length(item)
    side = math.copysign(1.0, item.offset)
    beside = room / 2 + 2.2 + taken / 2
    if taken + 1.5 <= room:
        slack = (room - taken) / 2
        yield from (replace(item, text_at=(on, 0.0)) for on in (-slack / 2, slack / 2, -slack, slack))
    else:
        yield replace(item, text_at=(-beside, 0.0))
    for off in (4.6, 7.6, -4.6, 10.6, 13.6, 16.6, -7.6, 19.6, 22.6, 26.0, 30.0):
        for share in (0.0, 0.5, -0.5, 1.0, -1.0, 1.5, -1.5):
            yield replace(item, text_at=(share * taken, side * off))


def _around(nearest: float, farthest: float, step: float) -> Iterator[Point]:
    reach = nearest
    while reach <= farthest:
        for degrees in _DIRECTIONS:
            angle = math.radians(degrees)
            yield (round(reach * math.cos(angle), 3), round(reach * math.sin(angle), 3))
        reach += step
