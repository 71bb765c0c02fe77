"""Figures of the sheets: the plan of framing with marks, and the path of the weight from floor to ground."""

from __future__ import annotations

import math
from collections.abc import Collection

from bolewright.platform.check import Topic
from bolewright.platform.layout import Kind, Layout, Member
from bolewright.platform.results import Results
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Arrow,
    Circle,
    Dimension,
    Drawing,
    Fill,
    Item,
    Layer,
    Mark,
    Pen,
    Polygon,
    Text,
)
from bolewright.rendering.drawing import Line as Stroke
from bolewright.rendering.laying import Scale
from bolewright.rendering.svg import to_svg
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

_MILLIMETRES = (Scale(1 / 25.4, ""),)


def plan_figure(results: Results, lit: Collection[str] = (), height: float = 98.0) -> Figure:
    """Plan of the framing with every mark; parts in ``lit`` are filled."""
    layout = results.path.layout
    items: list[Item] = [_outline(layout), *_trees(layout)]
    for member in sorted(layout.members, key=lambda m: -m.layer):
        items += _member(member, member.mark in lit)
    items += _supports(layout, lit)
    items += _marks(layout)
    items += _dimensions(layout)
    shown = f" Lit: {', '.join(sorted(lit))}." if lit else ""
    alt = (
        f"Plan of the framing: {len(layout.joists)} joists, {len(layout.carriers)} carriers, "
        f"{len(layout.supports)} supports.{shown}"
    )
    drawing = Drawing("Plan of framing", tuple(items), alt)
    return Figure(to_svg(drawing, height=height), f"Plan of framing with marks.{shown}", alt)


def _outline(layout: Layout) -> Polygon:
    return Polygon(tuple(layout.project.platform.outline), Layer.DECKING, Fill.WASH, Pen.DASHED)


def _trees(layout: Layout) -> list[Item]:
    items: list[Item] = []
    for tree in layout.project.trees:
        radius = (tree.girth or math.pi * float(tree.diameter or 0)) / (2 * math.pi)
        items.append(Circle(tree.at, radius, Layer.STEM, Fill.STEM))
        items.append(Circle(tree.at, radius - tree.bark, Layer.STEM, Fill.NONE, Pen.DASHED))
    return items


def _member(member: Member, lit: bool) -> list[Item]:
    half = member.width / 2
    (ux, uy), start, end = member.line.u, member.line.start, member.line.end
    nx, ny = -uy * half, ux * half
    corners = (
        (start[0] + nx, start[1] + ny),
        (end[0] + nx, end[1] + ny),
        (end[0] - nx, end[1] - ny),
        (start[0] - nx, start[1] - ny),
    )
    layer = Layer.JOISTS if member.kind is Kind.JOIST else Layer.CARRIERS
    return [Polygon(corners, Layer.LIT if lit else layer, Fill.LIT if lit else Fill.TIMBER)]


def _supports(layout: Layout, lit: Collection[str]) -> list[Item]:
    items: list[Item] = []
    for support in layout.supports:
        x, y = support.at
        fill = Fill.LIT if support.mark in lit else Fill.STEEL
        if support.kind == "tree bolt":
            tree = next(t for t in layout.project.trees if t.mark == support.tree)
            items.append(Stroke(tree.at, support.at, Layer.BOLTS, Pen.CENTRE))
            items.append(Circle(support.at, 1.5, Layer.BOLTS, fill))
            continue
        footing = layout.project.footings[support.footing or ""]
        half = parse_section(layout.project.posts[support.post or ""].section).b / 2
        if footing.shape == "round":
            items.append(Circle(support.at, footing.width / 2, Layer.FOOTINGS, Fill.NONE, Pen.DASHED))
        else:
            items.append(_square(support.at, footing.width / 2, Layer.FOOTINGS, Fill.NONE, Pen.DASHED))
        items.append(_square((x, y), half, Layer.POSTS, Fill.LIT if support.mark in lit else Fill.END_GRAIN))
    return items


def _square(at: tuple[float, float], half: float, layer: Layer, fill: Fill, pen: Pen = Pen.SOLID) -> Polygon:
    x, y = at
    corners = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return Polygon(corners, layer, fill, pen)


def _marks(layout: Layout) -> list[Item]:
    items: list[Item] = []
    for member in layout.members:
        share = 0.5 if member.kind is Kind.JOIST else 0.3
        items.append(Mark(member.line.at(share * member.line.length), member.mark))
    for support in layout.supports:
        side = -1.0 if support.at[0] < _middle(layout) else 1.0
        items.append(Mark(support.at, support.mark, shift=(7.0 * side, -6.0)))
    items += [Text(tree.at, tree.mark, 2.6, layer=Layer.MARKS) for tree in layout.project.trees]
    return items


def _middle(layout: Layout) -> float:
    xs = [x for x, _ in layout.project.platform.outline]
    return (min(xs) + max(xs)) / 2


def _dimensions(layout: Layout) -> list[Item]:
    xs = [x for x, _ in layout.project.platform.outline]
    ys = [y for _, y in layout.project.platform.outline]
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    return [
        Dimension((left, high), (right, high), feet_inches(right - left), 9.0),
        Dimension((left, low), (left, high), feet_inches(high - low), 9.0),
    ]


# ---------------------------------------------------------------------------------------------------------


def load_path_figure(results: Results, topic: Topic | None = None) -> Figure:
    """The path of the weight as a diagram: decking, joists, carriers by layer, supports, soil and stem."""
    layout = results.path.layout
    fields = dict.fromkeys(member.field for member in layout.joists)
    rows = [["decking"], [_range(layout, name) for name in fields]]
    for layer in sorted({m.layer for m in layout.carriers}):
        carriers = [m for m in layout.carriers if m.layer == layer]
        rows.append([m.mark for m in sorted(carriers, key=lambda m: m.line.at(m.line.length / 2))])
    supports = [s.mark for s in sorted(layout.supports, key=lambda s: s.at)]
    rows += [supports, [_ground(layout, mark) for mark in supports]]
    items, places = _boxes(rows, _lit_boxes(layout, topic))
    for upper, lower in _links(layout):
        if upper in places and lower in places:
            items.append(_link(places[upper], places[lower]))
    alt = "Path of the weight: " + "; ".join(f"{upper} to {lower}" for upper, lower in _links(layout)) + "."
    drawing = Drawing("Load path", tuple(items), alt, scale_bar=False)
    return Figure(to_svg(drawing, scales=_MILLIMETRES), "Path of the weight, from the floor down.", alt)


def _range(layout: Layout, field: str) -> str:
    marks = [m.mark for m in layout.joists if m.field == field]
    return marks[0] if len(marks) == 1 else f"{marks[0]} to {marks[-1]}"


def _ground(layout: Layout, mark: str) -> str:
    support = next(s for s in layout.supports if s.mark == mark)
    return f"{support.tree}, {mark}" if support.kind == "tree bolt" else f"soil, {mark}"


def _links(layout: Layout) -> list[tuple[str, str]]:
    fields = {m.mark: _range(layout, m.field) for m in layout.joists}
    found = [("decking", name) for name in dict.fromkeys(fields.values())]
    for member in layout.members:
        found += [(fields.get(member.mark, member.mark), seat.below) for seat in member.seats]
    found += [(s.mark, _ground(layout, s.mark)) for s in layout.supports]
    return list(dict.fromkeys(found))


Place = tuple[float, float]
_HEIGHT, _STEP, _WIDE = 6.5, 12.5, 150.0


def _boxes(rows: list[list[str]], lit_names: set[str]) -> tuple[list[Item], dict[str, Place]]:
    items: list[Item] = []
    places: dict[str, Place] = {}
    for i, names in enumerate(rows):
        y = -i * _STEP
        pitch = _WIDE / len(names)
        for j, name in enumerate(names):
            x = (j + 0.5) * pitch
            half = min(pitch / 2 - 2, 3.0 + 1.1 * len(name))
            lit = name in lit_names
            corners = (
                (x - half, y - _HEIGHT / 2),
                (x + half, y - _HEIGHT / 2),
                (x + half, y + _HEIGHT / 2),
                (x - half, y + _HEIGHT / 2),
            )
            items.append(
                Polygon(corners, Layer.LIT if lit else Layer.OUTLINE, Fill.LIT if lit else Fill.PAPER)
            )
            items.append(Text((x, y), name, 2.8, bold=lit))
            places[name] = (x, y)
    return items, places


def _lit_boxes(layout: Layout, topic: Topic | None) -> set[str]:
    """Names of the boxes that a sheet's topic lights."""
    bolts = {s.mark for s in layout.supports if s.kind == "tree bolt"}
    posts = {s.mark for s in layout.supports if s.kind == "post"}
    return {
        Topic.DECKING: {"decking"},
        Topic.JOISTS: {_range(layout, m.field) for m in layout.joists},
        Topic.HANGERS: {_range(layout, m.field) for m in layout.joists},
        Topic.CARRIERS: {m.mark for m in layout.carriers},
        Topic.TREE_BOLTS: bolts,
        Topic.POSTS: posts,
        Topic.FOOTINGS: {_ground(layout, mark) for mark in posts},
    }.get(topic or Topic.STABILITY, set())


def _link(upper: Place, lower: Place) -> Item:
    x0, y0 = upper[0], upper[1] - _HEIGHT / 2
    x1, y1 = lower[0], lower[1] + _HEIGHT / 2
    return Arrow((x1, y1), math.degrees(math.atan2(y1 - y0, x1 - x0)), math.hypot(x1 - x0, y1 - y0))
