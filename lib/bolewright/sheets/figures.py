"""Figures of the sheets: the plan of framing with marks, and the path of the weight from floor to ground."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from bolewright.drawings.plan_framing import plan_of_framing
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.layout import Layout, Member
from bolewright.platform.limit_states.check import Topic
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering.annotations import text_length
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Drawing,
    Fill,
    Item,
    Layer,
    Line,
    Polygon,
    Text,
)
from bolewright.rendering.laying import Scale
from bolewright.rendering.svg import to_svg

WEIGHT = "path of the weight"
_MILLIMETRES = (Scale(1 / 25.4, ""),)


def plan_figure(results: Results, highlighted: Collection[str] = (), height: float = 125.0) -> Figure:
    """Plan of the framing with every mark; parts in ``highlighted`` are filled."""
    drawing = plan_of_framing(results, highlighted=highlighted, brief=True)
    shown = f" Highlighted: {', '.join(sorted(highlighted))}." if highlighted else ""
    caption = f"Plan of framing with marks.{shown}"
    return Figure(to_svg(drawing, height=height), caption, drawing.alt, once="plan of framing")


# ---------------------------------------------------------------------------------------------------------


def load_path_figure(
    results: Results, topic: Topic | None = None, texts: Mapping[str, str] | None = None
) -> Figure:
    """The path of the weight as a diagram: decking, joists, beams by layer, supports, soil and trunk.

    ``texts`` stand in the boxes in place of their names.
    """
    layout = results.path.layout
    fields = dict.fromkeys(member.field for member in layout.joists)
    rows = [["decking"], *_blocking_row(layout), [_range(layout, name) for name in fields]]
    for layer in sorted({m.layer for m in layout.beams}):
        beams = [m for m in layout.beams if m.layer == layer]
        rows.append([m.mark for m in sorted(beams, key=lambda m: m.line.at(m.line.length / 2))])
    supports = [s.mark for s in sorted(layout.project.seated, key=lambda s: s.at)]
    rows += [supports, list(dict.fromkeys(ground_below(layout, mark) for mark in supports))]
    caption = "Path of the weight, from the floor down."
    figure = path_figure(
        rows, _links(layout), texts or {}, caption, "Path of the weight", _highlighted_boxes(layout, topic)
    )
    return replace(figure, once=WEIGHT)


def path_figure(
    rows: list[list[str]],
    links: Sequence[tuple[str, str]],
    texts: Mapping[str, str],
    caption: str,
    name: str,
    highlighted: Collection[str] = (),
) -> Figure:
    """Boxes in rows with what leads from one to another; ``texts`` stand in boxes in place of their names."""
    said = "; ".join(f"{texts.get(upper, upper)} to {texts.get(lower, lower)}" for upper, lower in links)
    alt = f"{name}: {said}."
    drawing = path_drawing(rows, links, texts, name, alt, highlighted)
    return Figure(to_svg(drawing, scales=_MILLIMETRES), caption, alt)


def path_drawing(
    rows: list[list[str]],
    links: Sequence[tuple[str, str]],
    texts: Mapping[str, str],
    name: str,
    alt: str,
    highlighted: Collection[str] = (),
) -> Drawing:
    """The drawing of :func:`path_figure`: links first, so that a box hides what runs behind it."""
    boxes, places = _boxes(_lines(rows, texts), set(highlighted), texts)
    ends = [(places[a], places[b]) for a, b in links if a in places and b in places]
    lines = [item for a, b in ends for item in _link(a, b)]
    return Drawing(name, (*lines, *boxes), alt, scale_bar=False)


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


def ground_below(layout: Layout, mark: str) -> str:
    """What bears a support: its tree, or the soil under it."""
    support = next(s for s in layout.supports if s.mark == mark)
    if support.kind == SupportKind.KNEE_BRACE:
        return ground_below(layout, support.foot or "")
    return f"{support.tree}, {mark}" if support.kind == SupportKind.TREE_BOLT else f"soil, {mark}"


def _links(layout: Layout) -> list[tuple[str, str]]:
    fields = {m.mark: _range(layout, m.field) for m in layout.joists}
    fields |= {m.mark: _entry_range(layout, m) for m in layout.blocking}
    found = [("decking", name) for name in dict.fromkeys(fields.values())]
    for member in layout.members:
        found += [
            (fields.get(member.mark, member.mark), fields.get(seat.below, seat.below))
            for seat in member.seats
        ]
    found += [(s.mark, ground_below(layout, s.mark)) for s in layout.project.seated]
    return list(dict.fromkeys(found))


Place = tuple[float, float]
_HEIGHT, _STEP, _WIDE, _GAP, _TEXT = 5.6, 9.4, 150.0, 3.0, 2.8


def _width(words: str) -> float:
    return text_length(Text((0, 0), words, _TEXT, bold=True)) + 3.2


def _lines(rows: list[list[str]], texts: Mapping[str, str]) -> list[list[str]]:
    """The rows, one that is wider than the drawing broken into lines of about equal length."""
    lines = []
    for names in rows:
        wide = sum(_width(texts.get(name, name)) + _GAP for name in names)
        count = max(1, math.ceil(wide / _WIDE))
        each = math.ceil(len(names) / count)
        lines += [names[i : i + each] for i in range(0, len(names), each)]
    return lines


def _boxes(
    rows: list[list[str]], highlighted_names: set[str], texts: Mapping[str, str]
) -> tuple[list[Item], dict[str, Place]]:
    items: list[Item] = []
    places: dict[str, Place] = {}
    for i, names in enumerate(rows):
        y = -i * _STEP
        room = (_WIDE - sum(_width(texts.get(name, name)) for name in names)) / len(names)
        x = -room / 2
        for name in names:
            words = texts.get(name, name)
            half = _width(words) / 2
            x += room + half
            highlighted = name in highlighted_names
            corners = (
                (x - half, y - _HEIGHT / 2),
                (x + half, y - _HEIGHT / 2),
                (x + half, y + _HEIGHT / 2),
                (x - half, y + _HEIGHT / 2),
            )
            items.append(
                Polygon(
                    corners,
                    Layer.HIGHLIGHT if highlighted else Layer.OUTLINE,
                    Fill.HIGHLIGHT if highlighted else Fill.PAPER,
                )
            )
            items.append(Text((x, y), words, _TEXT, bold=highlighted, fixed=True))
            places[name] = (x, y)
            x += half
    return items, places


def _highlighted_boxes(layout: Layout, topic: Topic | None) -> set[str]:
    """Names of the boxes that a sheet's topic lights."""
    bolts = {s.mark for s in layout.supports if s.kind == SupportKind.TREE_BOLT}
    posts = {s.mark for s in layout.supports if s.kind == SupportKind.POST}
    return {
        Topic.DECKING: {"decking"},
        Topic.JOISTS: {_range(layout, m.field) for m in layout.joists}
        | {_entry_range(layout, m) for m in layout.blocking},
        Topic.HANGERS: {_range(layout, m.field) for m in layout.joists},
        Topic.BEAMS: {m.mark for m in layout.beams},
        Topic.TREE_BOLTS: bolts,
        Topic.POSTS: posts,
        Topic.FOOTINGS: {ground_below(layout, mark) for mark in posts},
    }.get(topic or Topic.STABILITY, set())


def _link(upper: Place, lower: Place) -> list[Item]:
    """A line with its head: no annotation, so that the boxes lie over it."""
    x0, y0 = upper[0], upper[1] - _HEIGHT / 2
    x1, y1 = lower[0], lower[1] + _HEIGHT / 2
    along = math.atan2(y1 - y0, x1 - x0)
    back = [(x1 - 2.2 * math.cos(along + turn), y1 - 2.2 * math.sin(along + turn)) for turn in (0.3, -0.3)]
    return [
        Line((x0, y0), (x1, y1), Layer.LOADS),
        Polygon(((x1, y1), *back), Layer.LOADS, Fill.STEEL),
    ]
