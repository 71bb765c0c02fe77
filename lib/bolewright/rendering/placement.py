"""Finds a place for every text of a drawing so that no two texts, marks or dots lie on each other.

Texts, marks, dimensions and leaders each have a row of places where they may stand, the best first. They are set
down one after the other, each where it costs least; then those that still lie on another, or on another's dot, are
moved again, and where that does not help what stands in their way is moved with them, as long as the sum falls.
All sizes are paper millimetres at the drawing's scale.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import islice

import numpy as np

from bolewright.rendering.choices import choices
from bolewright.rendering.drawing import (
    MM_PER_INCH,
    Arrow,
    Circle,
    Dimension,
    Item,
    Leader,
    Mark,
    Point,
    Text,
)
from bolewright.rendering.shapes import (
    ANNOTATIONS,
    Shape,
    boxes_of,
    dot_of,
    is_axis,
    is_part,
    lines_of,
    strokes_of,
)

_ORDER: dict[type, int] = {Arrow: 0, Dimension: 1, Text: 2, Mark: 3, Leader: 4}
_MARGIN = 0.35  # mm kept clear round a text
_SAME_MM = 1.45  # their dots meet: places closer than this on paper are one
# What lies on what, and what that costs; a later place of the row costs a little too.
_TEXT_ON_TEXT, _ON_DOT, _STRUCK, _LINE_ON_DOT = 1e6, 1e4, 300.0, 1e3
_OVER_BUBBLE, _OVER_LINE, _OVER_PART, _CROSSING, _OFF_ITS_LINE, _LATER = 20.0, 1.0, 0.3, 0.2, 0.7, 0.012
_WRONG = 100.0  # from here a cost is a fault, not a blemish
_OUTSIDE = 50.0
_SWEEPS, _IN_THE_WAY, _LOOKED_AT, _TRIED = 4, 3, 160, 12
_MOST_LOOKS = (
    12_000  # at places, before what is still wrong is left so: some seconds on a sheet far too small
)


def placed(
    items: Sequence[Item], scale: float, room: tuple[float, float] = (math.inf, math.inf)
) -> tuple[Item, ...]:
    """The items, in their order, with every annotation at the place found for it, in ``room`` (mm) if there is one."""
    return _placed(tuple(items), scale, room)


def together(items: Sequence[Item], scale: float) -> tuple[Item, ...]:
    """The items, with marks that can stand at the same places only, one part behind the other, in one: ``K1, K2``.

    So with notes: ``S1, (2) 2x10; S2, (2) 2x10``.
    """
    near = _SAME_MM / (MM_PER_INCH * scale)
    result: list[Item] = []
    named: list[int] = []  # marks and notes among them: nothing else is put together
    for item in items:
        at = None
        if isinstance(item, Mark | Leader):
            at = next((i for i in named if _one_place(item, result[i], near)), None)
            named += [len(result)] if at is None else []
        match item, result[at] if at is not None else None:
            case Mark(), Mark() as other:
                result[at or 0] = replace(other, text=f"{other.text}, {item.text}")
            case Leader(), Leader() as other:
                result[at or 0] = replace(other, text=f"{other.text}; {item.text}")
            case _:
                result.append(item)
    return tuple(result)


def _one_place(item: Item, other: Item, near: float) -> bool:
    places, others = _places(item), _places(other)
    alike = type(item) is type(other) and len(places) == len(others) > 0
    return alike and all(min(math.dist(a, b) for b in others) <= near for a in places)


def _places(item: Item) -> tuple[Point, ...]:
    match item:
        case Mark():
            return (item.at, *item.along)
        case Leader():
            return (item.to, *item.along)
    return ()


@dataclass(frozen=True)
class _Taken:
    """What an annotation takes at a place: boxes of its texts, its lines, its dot."""

    boxes: tuple[Shape, ...]
    lines: tuple[Shape, ...]
    dot: Shape | None
    bubble: bool  # it hides what it stands on, so a line that ends under it is not struck through

    @classmethod
    def of(cls, item: Item, scale: float) -> _Taken:
        return cls(
            tuple(boxes_of(item, scale, _MARGIN)),
            tuple(strokes_of(item, scale)),
            dot_of(item, scale),
            isinstance(item, Mark),
        )


class _Near:
    """Shapes of which those are found quickly whose bounds touch those of another."""

    def __init__(self, shapes: Sequence[tuple[Shape, int]]) -> None:
        self.shapes = shapes
        self.bounds = [shape.bounds for shape, _ in shapes]
        self.left, self.low, self.right, self.high = np.array(self.bounds).reshape(-1, 4).T

    def __call__(self, one: Shape) -> Iterator[tuple[Shape, int]]:
        left, low, right, high = one.bounds
        found = (self.left <= right) & (self.right >= left) & (self.low <= high) & (self.high >= low)
        for number in np.flatnonzero(found):
            shape, owner = self.shapes[int(number)]
            if shape.meets(one):
                yield shape, owner


class _Sheet:
    """Everything on the paper, and what each annotation costs where it stands."""

    def __init__(self, items: Sequence[Item], scale: float, room: tuple[float, float]) -> None:
        paper = MM_PER_INCH * scale
        self.scale = scale
        self.room = room
        self.looks = 0
        self.items = list(items)
        self.wanted = sorted(
            (i for i, item in enumerate(items) if isinstance(item, ANNOTATIONS)),
            key=lambda i: (_ORDER[type(items[i])], i),
        )
        self.parts = _Near(
            [(line, -1) for item in items if is_part(item) for line in _part_lines(item, paper)]
        )
        self.axes = _Near([(line, -1) for item in items if is_axis(item) for line in lines_of(item, paper)])
        self.taken: dict[int, _Taken] = {}
        for i in self.wanted:  # their lines stand where they are put first; the words are placed one by one
            if isinstance(items[i], Dimension | Arrow):
                self.taken[i] = replace(_Taken.of(items[i], scale), boxes=())
        self.drawn = _around([b for near in (self.parts, self.axes) for b in near.bounds])
        self._stand()

    def _stand(self) -> None:
        self.boxes = _Near([(box, i) for i, taken in self.taken.items() for box in taken.boxes])
        self.lines = _Near([(line, i) for i, taken in self.taken.items() for line in taken.lines])
        self.dots = _Near([(taken.dot, i) for i, taken in self.taken.items() if taken.dot is not None])
        self.reach = _around([self.drawn, *self.boxes.bounds, *self.lines.bounds])

    def put(self, i: int, item: Item) -> None:
        self.items[i] = item
        self.taken[i] = _Taken.of(item, self.scale)
        self._stand()

    def cost(self, i: int, item: Item, most: float = math.inf, who: set[int] | None = None) -> float:
        """What it costs that annotation ``i`` stands as ``item`` among all others; ``who`` gets those it harms."""
        own = _Taken.of(item, self.scale)
        self.looks += 1
        cost = self._outside(own)
        for box in own.boxes:
            cost += self._told(self.boxes(box), i, _TEXT_ON_TEXT, who)
            cost += self._told(self.dots(box), i, _ON_DOT, who)
            if cost >= most:
                return cost
            for line, j in self.lines(box):
                if j != i:
                    cost += self._over(line, box, own.bubble, who, j)
            if cost >= most:
                return cost
            if not own.bubble:
                cost += sum(_STRUCK for _ in self.axes(box))
                cost += sum(_OVER_PART for _ in self.parts(box))
        if own.dot is not None:
            cost += self._told(self.boxes(own.dot), i, _ON_DOT, who)
            cost += self._told(self.dots(own.dot), i, _ON_DOT, who)
            cost += self._told(self.lines(own.dot), i, _LINE_ON_DOT, who, bubbles=True)
        if cost >= most:
            return cost
        for line in own.lines:
            if own.dot is not None:
                cost += self._told(self.dots(line), i, _LINE_ON_DOT, who)
            for box, j in self.boxes(line):
                if j != i:
                    cost += self._over(line, box, self.taken[j].bubble, who, j)
            if own.dot is not None:
                cost += sum(_CROSSING for _, j in self.lines(line) if j != i)
        if isinstance(item, Dimension) and not item.flat and item.text_at and item.text_at[1]:
            cost += _OFF_ITS_LINE
        return cost

    def _outside(self, own: _Taken) -> float:
        """What it costs that the drawing outgrows its sheet."""
        left, low, right, high = _around([self.reach, *(box.bounds for box in own.boxes)])
        over = max(right - left - self.room[0], 0.0) + max(high - low - self.room[1], 0.0)
        return _OUTSIDE + over if over > 0 else 0.0

    def _told(
        self,
        met: Iterator[tuple[Shape, int]],
        i: int,
        each: float,
        who: set[int] | None,
        bubbles: bool = False,
    ) -> float:
        """Cost of shapes of others that are met; of lines only those that lead to a dot."""
        cost = 0.0
        for _, j in met:
            if j != i and not (bubbles and self.taken[j].dot is None):
                cost += each
                if who is not None:
                    who.add(j)
        return cost

    def _over(self, line: Shape, box: Shape, bubble: bool, who: set[int] | None, j: int) -> float:
        """Cost of a line and a text that meet: under a bubble it seems to end there, a text it strikes through."""
        if bubble:
            return _OVER_BUBBLE if self.taken.get(j) and self.taken[j].dot is not None else _OVER_LINE
        if who is not None:
            who.add(j)
        return _STRUCK

    def best(self, i: int, first: Item) -> tuple[Item, float]:
        """The place of the row of annotation ``i`` that costs least, and what it costs."""
        best, least = self.items[i], math.inf
        for number, choice in enumerate(choices(first, self.scale)):
            later = _LATER * number
            if later >= least:
                break
            cost = later + self.cost(i, choice, least)
            if cost < least:
                best, least = choice, cost
        return best, least


def _around(bounds: Sequence[tuple[float, float, float, float]]) -> tuple[float, float, float, float]:
    """Bounds of all these bounds."""
    if not bounds:
        return (math.inf, math.inf, -math.inf, -math.inf)
    lefts, lows, rights, highs = zip(*bounds, strict=True)
    return (min(lefts), min(lows), max(rights), max(highs))


def _part_lines(item: Item, paper: float) -> Iterator[Shape]:
    yield from lines_of(item, paper)
    if isinstance(item, Circle) and 0.3 < item.radius * paper <= 4:  # a bolt, a hole
        (x, y), r = item.centre, item.radius
        corners = ((x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r))
        yield Shape.of(tuple((a * paper, b * paper) for a, b in corners))


@lru_cache(maxsize=128)  # a sheet, its file and the brief show the same drawing
def _placed(items: tuple[Item, ...], scale: float, room: tuple[float, float]) -> tuple[Item, ...]:
    sheet = _Sheet(items, scale, room)
    for i in sheet.wanted:
        best, _ = sheet.best(i, items[i])
        sheet.put(i, best)
    sheet.looks = 0
    for _ in range(_SWEEPS):
        moved = [_mended(sheet, i, items) for i in sheet.wanted]
        if not any(moved):
            break
    return tuple(sheet.items)


def _mended(sheet: _Sheet, i: int, items: tuple[Item, ...]) -> bool:
    """Whether an annotation that stood wrong was moved to where the sum of all costs is less."""
    now = sheet.cost(i, sheet.items[i])
    if now < _WRONG or sheet.looks > _MOST_LOOKS:
        return False
    best, least = sheet.best(i, items[i])
    if least < now - 1e-9:
        sheet.put(i, best)
        if least < _WRONG:
            return True
        now = least
    return _pushed(sheet, i, items, now) or least < now


def _pushed(sheet: _Sheet, i: int, items: tuple[Item, ...], now: float) -> bool:
    """Whether an annotation took a place from others, which found better ones, so that the sum of all costs fell."""
    ways = []
    for number, choice in enumerate(islice(choices(items[i], sheet.scale), _LOOKED_AT)):
        who: set[int] = set()
        cost = _LATER * number + sheet.cost(i, choice, who=who)
        if len(who) <= _IN_THE_WAY:
            ways.append((len(who), cost, number, choice, who))
    before = {j: sheet.items[j] for j in sheet.wanted}
    for _, cost, _, choice, who in sorted(ways, key=lambda way: way[:3])[:_TRIED]:
        sheet.put(i, choice)
        gain = now - cost
        for j in sorted(who):
            stood = sheet.cost(j, sheet.items[j])
            best, least = sheet.best(j, items[j])
            sheet.put(j, best)
            gain += stood - least
        if gain > 1e-9:
            return True
        for j in (i, *who):
            sheet.put(j, before[j])
        if sheet.looks > _MOST_LOOKS:
            break
    return False
