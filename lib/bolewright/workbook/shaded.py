"""The plan with every part shaded by its governing ratio, marks and ratios written."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from html import escape

from bolewright.platform.layout.layout import Kind, Layout, Member
from bolewright.platform.layout.lines import Vector
from bolewright.platform.limit_states.check import Check
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.results.results import Results
from bolewright.rendering import palette
from bolewright.rendering.shades import OPEN
from bolewright.status import Status
from bolewright.workbook.plan_labels import Labels, along, beside
from bolewright.workbook.ratios import band, number, worst_of_parts

_MARGIN = 14.0  # in of the model round the drawing
_LEAST_WIDTH = 4.0  # in: a board is drawn at least this wide, so that its shade is seen


def shaded_plan(results: Results) -> str:
    """SVG of the plan; a part that fails is dark, hatched, outlined and marked."""
    layout = results.path.layout
    governing = worst_of_parts(results)
    left, low, right, high = _extent(layout)
    width, height = right - left, high - low
    size = max(width, height) / 40
    pieces = [
        f'<polygon points="{_points(layout.project.platform.outline)}" fill="{palette.WASH}" '
        f'stroke="{palette.SOFT_INK}" stroke-dasharray="4 3" stroke-width=".6"/>'
    ]
    for tree in layout.project.trees:
        radius = (tree.girth or math.pi * float(tree.diameter or 0)) / (2 * math.pi)
        pieces.append(
            f'<circle cx="{tree.at[0]:.2f}" cy="{-tree.at[1]:.2f}" r="{radius:.2f}" fill="#e3ddd2" '
            f'stroke="{palette.INK}" stroke-width=".6"/>'
        )
    for member in sorted(layout.members, key=lambda m: -m.layer):
        pieces.append(_member(member, governing.get(member.mark)))
    for support in layout.supports:
        pieces.append(
            _support(support.at, support.kind == SupportKind.TREE_BOLT, governing.get(support.mark), size)
        )
    room = Labels()
    labels = [
        *(
            _label(room, beside(s.at, 2.6 * size), s.mark, governing.get(s.mark), size)
            for s in layout.supports
        ),
        *(
            _text(room, beside(t.at, 0.0) + beside(t.at, 1.4 * size), t.mark, size)
            for t in layout.project.trees
        ),
        *(
            _label(room, _places(m), m.mark, governing.get(m.mark), size)
            for m in _labelled(layout, governing)
        ),
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bw-plan" role="img" '
        f'viewBox="{left:.2f} {-high:.2f} {width:.2f} {height:.2f}" font-family="system-ui, sans-serif" '
        f'aria-label="{escape(_words(governing))}">{_hatch()}{"".join(pieces)}{"".join(labels)}</svg>'
    )


def _labelled(layout: Layout, governing: Mapping[str, Check]) -> list[Member]:
    """Members whose ratio is written: all but short pieces of blocking, of which the worst of each row is."""
    worst: dict[str, Member] = {}
    for member in layout.members:
        if member.kind is Kind.BLOCKING and member.mark in governing:
            held = worst.get(member.field)
            if held is None or governing[member.mark].severity > governing[held.mark].severity:
                worst[member.field] = member
    return [m for m in layout.members if m.kind is not Kind.BLOCKING or m in worst.values()]


def _words(governing: Mapping[str, Check]) -> str:
    said = ", ".join(f"{part} {number(check)}" for part, check in governing.items())
    return f"Plan of the framing, each part with its governing ratio: {said}."


def _extent(layout: Layout) -> tuple[float, float, float, float]:
    points = [*layout.project.platform.outline, *(s.at for s in layout.supports)]
    for member in layout.members:
        points += [member.line.start, member.line.end]
    for tree in layout.project.trees:
        radius = (tree.girth or math.pi * float(tree.diameter or 0)) / (2 * math.pi)
        points += [
            (tree.at[0] - radius, tree.at[1] - radius),
            (tree.at[0] + radius, tree.at[1] + radius),
        ]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs) - _MARGIN, min(ys) - _MARGIN, max(xs) + _MARGIN, max(ys) + _MARGIN


def _points(corners: tuple[tuple[float, float], ...]) -> str:
    return " ".join(f"{x:.2f},{-y:.2f}" for x, y in corners)


def _member(member: Member, check: Check | None) -> str:
    half = max(member.width, _LEAST_WIDTH) / 2
    (ux, uy), start, end = member.line.u, member.line.start, member.line.end
    nx, ny = -uy * half, ux * half
    corners = (
        (start[0] + nx, start[1] + ny),
        (end[0] + nx, end[1] + ny),
        (end[0] - nx, end[1] - ny),
        (start[0] - nx, start[1] - ny),
    )
    return _shape(f'<polygon points="{_points(corners)}" {{}}/>', check)


def _support(at: tuple[float, float], is_bolt: bool, check: Check | None, size: float) -> str:
    x, y, half = at[0], -at[1], 1.1 * size
    if is_bolt:
        return _shape(f'<circle cx="{x:.2f}" cy="{y:.2f}" r="{half:.2f}" {{}}/>', check)
    return _shape(
        f'<rect x="{x - half:.2f}" y="{y - half:.2f}" width="{2 * half:.2f}" height="{2 * half:.2f}" {{}}/>',
        check,
    )


def _shape(shape: str, check: Check | None) -> str:
    shade = OPEN if check is None else band(check)
    fails = check is not None and check.status is Status.FAILS
    drawn = shape.format(f'fill="{shade.fill}" stroke="{palette.INK}" stroke-width="{1.6 if fails else 0.5}"')
    return drawn + (shape.format('fill="url(#bw-hatch)" stroke="none"') if fails else "")


def _hatch() -> str:
    return (
        '<defs><pattern id="bw-hatch" width="4" height="4" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><rect width="1" height="4" fill="#ffffff"/></pattern></defs>'
    )


def _places(member: Member) -> list[Vector]:
    return along(member, 0.5 if member.kind is Kind.JOIST else 0.16)


def _label(room: Labels, places: Sequence[Vector], mark: str, check: Check | None, size: float) -> str:
    if check is None:
        return _text(room, places, mark, size)
    fails = check.status is Status.FAILS
    return _text(
        room, places, f"{check.status.mark if fails else ''} {mark} {number(check)}".strip(), size, fails
    )


def _text(room: Labels, places: Sequence[Vector], words: str, size: float, bold: bool = False) -> str:
    width = (0.62 if bold else 0.58) * size * len(words) + 0.4 * size
    at = room.place(places, width, 1.24 * size)
    x, y = at[0], -at[1]
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<rect x="{x - width / 2:.2f}" y="{y - 0.62 * size:.2f}" width="{width:.2f}" height="{1.24 * size:.2f}" '
        f'rx="{0.25 * size:.2f}" fill="{palette.PAPER}" fill-opacity=".92"/>'
        f'<text x="{x:.2f}" y="{y + 0.36 * size:.2f}" font-size="{size:.2f}" text-anchor="middle" '
        f'fill="{palette.INK}"{weight}>{escape(words)}</text>'
    )
