"""Figures of the sheets: the plan of framing with marks, and the path of the weight from floor to ground."""

from __future__ import annotations

import math
from collections.abc import Collection

from bolewright.drawings.plan_framing import plan_of_framing
from bolewright.platform.blocking import entry_of
from bolewright.platform.check import Topic
from bolewright.platform.layout import Layout, Member
from bolewright.platform.results import Results
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Arrow,
    Drawing,
    Fill,
    Item,
    Layer,
    Polygon,
    Text,
)
from bolewright.rendering.laying import Scale
from bolewright.rendering.svg import to_svg

_MILLIMETRES = (Scale(1 / 25.4, ""),)


def plan_figure(results: Results, lit: Collection[str] = (), height: float = 125.0) -> Figure:
    """Plan of the framing with every mark; parts in ``lit`` are filled."""
    drawing = plan_of_framing(results, lit=lit, brief=True)
    shown = f" Lit: {', '.join(sorted(lit))}." if lit else ""
    return Figure(to_svg(drawing, height=height), f"Plan of framing with marks.{shown}", drawing.alt)


# ---------------------------------------------------------------------------------------------------------


def load_path_figure(results: Results, topic: Topic | None = None) -> Figure:
    """The path of the weight as a diagram: decking, joists, carriers by layer, supports, soil and stem."""
    layout = results.path.layout
    fields = dict.fromkeys(member.field for member in layout.joists)
    rows = [["decking"], *_blocking_row(layout), [_range(layout, name) for name in fields]]
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


def _blocking_row(layout: Layout) -> list[list[str]]:
    """The rims, rows and spacers, a box each; no row where there are none."""
    names = list(dict.fromkeys(_entry_range(layout, m) for m in layout.blocking))
    return [names] if names else []


def _entry_range(layout: Layout, piece: Member) -> str:
    marks = [m.mark for m in layout.blocking if entry_of(m).mark == entry_of(piece).mark]
    return marks[0] if len(marks) == 1 else f"{marks[0]} to {marks[-1]}"


def _ground(layout: Layout, mark: str) -> str:
    support = next(s for s in layout.supports if s.mark == mark)
    return f"{support.tree}, {mark}" if support.kind == "tree bolt" else f"soil, {mark}"


def _links(layout: Layout) -> list[tuple[str, str]]:
    fields = {m.mark: _range(layout, m.field) for m in layout.joists}
    fields |= {m.mark: _entry_range(layout, m) for m in layout.blocking}
    found = [("decking", name) for name in dict.fromkeys(fields.values())]
    for member in layout.members:
        found += [
            (fields.get(member.mark, member.mark), fields.get(seat.below, seat.below))
            for seat in member.seats
        ]
    found += [(s.mark, _ground(layout, s.mark)) for s in layout.supports]
    return list(dict.fromkeys(found))


Place = tuple[float, float]
_HEIGHT, _STEP, _WIDE = 5.6, 9.4, 150.0


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
        Topic.JOISTS: {_range(layout, m.field) for m in layout.joists}
        | {_entry_range(layout, m) for m in layout.blocking},
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
