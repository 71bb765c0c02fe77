"""The plan as typed, for an arrangement that can't be worked out yet: where each part lies, with no ratio."""

from __future__ import annotations

import math
from html import escape

from bolewright.platform.layout.lines import Vector
from bolewright.platform.project import Project, Tree
from bolewright.platform.project.bearing import SupportKind
from bolewright.rendering import palette

_MARGIN = 16.0  # in of the model round the drawing


def typed_plan(project: Project, named: str = "") -> str:
    """SVG of the parts that a project places; a part whose mark stands in ``named`` is highlighted."""
    points: list[Vector] = [*project.platform.outline, *(s.at for s in project.supports)]
    points += [end for beam in project.beams for end in (beam.start, beam.end)]
    for tree in project.trees:
        r = _radius(tree)
        points += [(tree.at[0] - r, tree.at[1] - r), (tree.at[0] + r, tree.at[1] + r)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    left, high = min(xs) - _MARGIN, max(ys) + _MARGIN
    width, height = max(xs) + _MARGIN - left, high - min(ys) + _MARGIN
    size = max(width, height) / 38
    words = {word.strip("(),.;:") for word in named.split()}
    body = [_deck(project), *(_trunk(tree) for tree in project.trees)]
    for beam in project.beams:
        body.append(_line(beam.start, beam.end, beam.mark in words))
    for support in project.supports:
        body.append(
            _support(support.at, support.kind == SupportKind.TREE_BOLT, 0.8 * size, support.mark in words)
        )
    body += [
        _text(
            (c.start[0] + 0.3 * (c.end[0] - c.start[0]), c.start[1] + 0.3 * (c.end[1] - c.start[1])),
            c.mark,
            size,
        )
        for c in project.beams
    ]
    body += [_text((s.at[0], s.at[1] - 1.9 * size), s.mark, size) for s in project.supports]
    body += [_text(t.at, t.mark, size) for t in project.trees]
    placed = ", ".join(f"{s.mark} at {s.at[0]:.0f}, {s.at[1]:.0f} in" for s in project.supports)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bw-plan" role="img" font-family="system-ui, sans-serif" '
        f'viewBox="{left:.2f} {-high:.2f} {width:.2f} {height:.2f}" '
        f'aria-label="{escape(f"Plan as typed, not worked out: {placed}.")}">{"".join(body)}</svg>'
    )


def _deck(project: Project) -> str:
    rings = [project.platform.outline, *project.platform.openings]
    path = " ".join("M" + " ".join(f"{x:.2f},{-y:.2f}" for x, y in ring) + "Z" for ring in rings)
    return (
        f'<path d="{path}" fill-rule="evenodd" fill="{palette.WASH}" stroke="{palette.SOFT_INK}" '
        'stroke-dasharray="4 3" stroke-width=".8"/>'
    )


def _radius(tree: Tree) -> float:
    return (tree.girth or math.pi * float(tree.diameter or 0)) / (2 * math.pi)


def _trunk(tree: Tree) -> str:
    (x, y), look = tree.at, f'fill="#e3ddd2" stroke="{palette.INK}" stroke-width=".6"'
    return f'<circle cx="{x:.2f}" cy="{-y:.2f}" r="{_radius(tree):.2f}" {look}/>'


def _line(start: Vector, end: Vector, highlighted: bool) -> str:
    colour, width = (palette.HIGHLIGHT, 4.5) if highlighted else (palette.SOFT_INK, 3.0)
    return (
        f'<line x1="{start[0]:.2f}" y1="{-start[1]:.2f}" x2="{end[0]:.2f}" y2="{-end[1]:.2f}" stroke="{colour}" '
        f'stroke-width="{width}"/>'
    )


def _support(at: Vector, is_bolt: bool, half: float, highlighted: bool) -> str:
    look = f'fill="{palette.PAPER}" stroke="{palette.HIGHLIGHT if highlighted else palette.INK}" '
    f'stroke-width="{2.4 if highlighted else 1}"'
    (x, y), side = at, 2 * half
    if is_bolt:
        return f'<circle cx="{x:.2f}" cy="{-y:.2f}" r="{half:.2f}" {look}/>'
    return f'<rect x="{x - half:.2f}" y="{-y - half:.2f}" width="{side:.2f}" height="{side:.2f}" {look}/>'


def _text(at: Vector, words: str, size: float) -> str:
    return (
        f'<text x="{at[0]:.2f}" y="{-at[1] + 0.35 * size:.2f}" font-size="{size:.2f}" text-anchor="middle" '
        f'fill="{palette.INK}" stroke="{palette.PAPER}" stroke-width="{0.25 * size:.2f}" paint-order="stroke">'
        f"{escape(words)}</text>"
    )
