"""Free-body sketches: a bar with its loads above and what holds it below, and a moment line."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bolewright.platform.tracing.tracing import Carried, Diagram
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Arrow,
    Drawing,
    Fill,
    Item,
    Layer,
    Line,
    Pen,
    Point,
    Polygon,
    Polyline,
    Text,
)
from bolewright.rendering.laying import Scale
from bolewright.rendering.svg import to_svg
from bolewright.units import feet_inches

_PAPER = (Scale(1 / 25.4, ""),)  # one model inch is one paper millimetre
_WIDE = 130.0
_LONGEST = 16.0  # mm, of the arrow of the largest force
_SHORTEST = 6.0
_ONE = 1.0  # in: supports nearer than this have one place on the dimension line


@dataclass(frozen=True)
class Force:
    """A force on a bar: where along it (in), how much (lb, positive as named) and its name."""

    at: float
    pounds: float
    name: str


def free_body(
    title: str, length: float, loads: Sequence[Force], held: Sequence[Force], diagram: Diagram | None = None
) -> Figure:
    """A bar of ``length`` inches: loads press down on it, what holds it pushes up (a negative one pulls down)."""
    scale = _WIDE / max(length, 1e-6)
    most = max((abs(f.pounds) for f in (*loads, *held)), default=1.0) or 1.0
    items: list[Item] = [
        Polygon(((0, -1.2), (_WIDE, -1.2), (_WIDE, 1.2), (0, 1.2)), Layer.JOISTS, Fill.TIMBER)
    ]
    for row, force in enumerate(sorted(loads, key=lambda f: f.at)):
        items += _arrow(force, scale, most, above=True, lift=4.0 * (row % 2))
    for row, force in enumerate(sorted(held, key=lambda f: f.at)):
        items += _arrow(force, scale, most, above=False, lift=4.0 * (row % 2))
    places: list[float] = []
    for force in sorted(held, key=lambda f: f.at):
        if not places or force.at - places[-1] > _ONE:
            places.append(force.at)
    base = -1.2 - _LONGEST - 16.0
    items += [_tick(x * scale, base) for x in places]
    for a, b in zip(places, places[1:], strict=False):
        items.append(Line((a * scale, base), (b * scale, base), Layer.DIMENSIONS))
        items.append(Text(((a + b) / 2 * scale, base + 2.2), feet_inches(b - a), 2.3, layer=Layer.DIMENSIONS))
    if diagram is not None and _bends(diagram):
        items += _moment(diagram, scale, base - 16.0)
    alt = f"{title}: " + "; ".join(
        [f"{f.name} {f.pounds:,.0f} lb at {feet_inches(f.at)}" for f in loads]
        + [f"{f.name} holds {f.pounds:,.0f} lb at {feet_inches(f.at)}" for f in held]
    )
    return Figure(to_svg(Drawing(title, tuple(items), alt, scale_bar=False), scales=_PAPER), title, f"{alt}.")


def _bends(diagram: Diagram) -> bool:
    """Whether a diagram shows any moment."""
    return bool(abs(diagram.moment).max() > 1e-6)


def body_of(carried: Carried, diagram: Diagram) -> Figure:
    """Free body of a member under its share of a burden, with the moments along it."""
    member = carried.member
    loads = []
    for load in carried.arriving:
        if len(load.at) == 1:
            loads.append(Force(float(load.at[0]), load.total, load.source))
        else:
            centre = float(load.pounds @ load.at) / load.total
            loads.append(Force(centre, load.total, f"{load.source}, spread"))
    held = [Force(s.at, r, s.below) for s, r in zip(member.seats, carried.seats, strict=True)]
    held += [Force(at, pounds, mark) for mark, at, pounds in carried.knees]
    x, value = diagram.largest
    title = f"{member.mark} by itself; largest moment {value:,.0f} lb·in at {feet_inches(x)}"
    return free_body(title, member.line.length, loads, held, diagram)


def _arrow(force: Force, scale: float, most: float, *, above: bool, lift: float) -> list[Item]:
    x = force.at * scale
    size = _SHORTEST + (_LONGEST - _SHORTEST) * abs(force.pounds) / most
    down = above if force.pounds >= 0 else not above
    y = 1.2 if above else -1.2
    tip: Point = (x, y) if down is above else (x, y + (size if above else -size))
    words = f"{force.name} {abs(force.pounds):,.0f} lb"
    far = y + (size + 3.0 + lift if above else -(size + 3.0 + lift))
    return [Arrow(tip, -90.0 if down else 90.0, size), Text((x, far), words, 2.3, layer=Layer.LOADS)]


def _tick(x: float, y: float) -> Item:
    return Line((x, y - 1.2), (x, y + 1.2), Layer.DIMENSIONS)


def _moment(diagram: Diagram, scale: float, base: float) -> list[Item]:
    """Moment drawn on the side in tension: sagging below the line."""
    most = float(abs(diagram.moment).max())
    step = max(1, len(diagram.x) // 160)
    keep = [*range(0, len(diagram.x), step)]
    peak = int(abs(diagram.moment).argmax())
    keep = sorted({*keep, peak, len(diagram.x) - 1})
    points = tuple((float(diagram.x[i]) * scale, base - 10.0 * float(diagram.moment[i]) / most) for i in keep)
    x, value = diagram.largest
    side = math.copysign(1.0, value)
    return [
        Polygon(((points[0][0], base), *points, (points[-1][0], base)), Layer.LOADS, Fill.WASH),
        Line((0, base), (_WIDE, base), Layer.OUTLINE),
        Polyline(points, Layer.LOADS),
        Line((x * scale, base), (x * scale, base - 10.0 * side), Layer.LOADS, Pen.DASHED),
        Text((x * scale, base - 13.0 * side), f"{abs(value):,.0f} lb·in", 2.3, layer=Layer.LOADS),
    ]
