"""The explorer's plan: the framing in model inches, with the burden, the forces and influence drawn on it.

Lightness carries the amount and every amount is written too, so that it reads in grey and to colour-blind eyes.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

from bolewright.platform.layout.layout import Kind, Layout, Member, trunk_radius
from bolewright.platform.layout.lines import Vector
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.tracing.tracing import Crowd, Drift, Person, Trace
from bolewright.platform.tracing.tracing_maps import InfluenceMap
from bolewright.rendering import palette
from bolewright.rendering.blocks import Figure
from bolewright.workbook.plan_labels import Labels, along, beside

_MARGIN = 16.0  # in of the model round the drawing
_LEAST_WIDTH = 3.0  # in: a board is drawn at least this wide, so that its shade is seen
_TIMBER = (239, 230, 214)
_LOADED = (180, 86, 26)
_DOWN = (28, 90, 107)
_PAPER = (255, 255, 255)


@dataclass(frozen=True)
class View:
    """The part of the model that the plan shows (in), x to the right and y up."""

    left: float
    low: float
    width: float
    height: float

    @property
    def box(self) -> str:
        """SVG view box; y runs down there."""
        return f"{self.left:.1f} {-(self.low + self.height):.1f} {self.width:.1f} {self.height:.1f}"

    @property
    def letter(self) -> float:
        """Height of letters (in of the model)."""
        return max(self.width, self.height) / 42


def view_of(layout: Layout) -> View:
    """View of the whole plan with a margin."""
    points = [*layout.project.platform.outline, *(s.at for s in layout.supports)]
    for member in layout.members:
        points += [member.line.start, member.line.end]
    for tree in layout.project.trees:
        r = trunk_radius(tree)
        points += [(tree.at[0] - r, tree.at[1] - r), (tree.at[0] + r, tree.at[1] + r)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    left, low = min(xs) - _MARGIN, min(ys) - _MARGIN
    return View(left, low, max(xs) + _MARGIN - left, max(ys) + _MARGIN - low)


def traced_plan(layout: Layout, trace: Trace, chosen: str = "", highlighted: str = "") -> str:
    """SVG of the plan with a burden on it and what each part gets of it."""
    view = view_of(layout)
    shares = {mark: trace.share(mark) for mark in (*trace.carried, *trace.reactions)}
    body = [_deck(layout), *_trees(layout)]
    body += [_member(m, shares.get(m.mark, 0.0), m.mark in (chosen, highlighted)) for m in _low_first(layout)]
    body += [_support(layout, s.mark, view, shares[s.mark], s.mark == highlighted) for s in layout.supports]
    body += [_burden(layout, trace, view)]
    words = {mark: _amount(mark, trace) for mark in _marks(layout)}
    room = Labels()
    if isinstance(trace.burden, Person):
        room.place([trace.pieces.centre], 2.6 * view.letter, 2.6 * view.letter)
    labels = _labels(layout, view, words, room, chosen)
    return _svg(view, [*body, *labels], plan_words(trace))


def plan_words(trace: Trace) -> str:
    """The traced plan in words."""
    said = ", ".join(f"{m} {f:,.0f} lb" for m, f in trace.reactions.items())
    x, y = trace.pieces.centre
    return f"Plan with {trace.total:,.0f} lb at {x:.0f}, {y:.0f} inches; the supports take {said}."


def heat_plan(layout: Layout, found: InfluenceMap, trace: Trace | None = None) -> str:
    """SVG of the plan shaded by influence: darker is more, hatched is negative, the number written on each panel."""
    view = view_of(layout)
    most = max(float(abs(found.values).max()), 1e-9)
    body = [_hatch()]
    labels = []
    for value, corners in zip(found.values, found.corners, strict=True):
        size = abs(float(value)) / most
        shape = f'<polygon points="{_points(corners)}" {{}} stroke="{palette.PAPER}" stroke-width=".3"/>'
        body.append(shape.format(f'fill="{_mix(_PAPER, _DOWN if value >= 0 else _LOADED, 0.75 * size)}"'))
        if value < -1e-3 * most:
            body.append(shape.format('fill="url(#bw-lift)"'))
        labels.append(_number(corners, float(value), view, found.unit.label != "" and most > 2))
    body += [_outline(m) for m in layout.members]
    body += [_support(layout, s.mark, view, 0.0, False) for s in layout.supports]
    marks = [_text((s.at[0], s.at[1] - 2.4 * view.letter), s.mark, view, True) for s in layout.supports]
    per = " (in percent)" if not found.unit.label else ""
    low, high = float(found.values.min()), float(found.values.max())
    words = f"Plan shaded by the {found.what}{per}: from {low:.2f} to {high:.2f} for each pound."
    burden = [] if trace is None else [_burden(layout, trace, view)]
    return _svg(view, [*body, *labels, *marks, *burden], words)


def lettered_plan(layout: Layout, letters: Mapping[str, Vector]) -> Figure:
    """Plan of the framing with lettered places on it, as a block."""
    view = view_of(layout)
    body = [_deck(layout), *_trees(layout), *(_member(m, 0.0, False) for m in _low_first(layout))]
    body += [_support(layout, s.mark, view, 0.0, False) for s in layout.supports]
    room = Labels()
    for at in letters.values():
        room.place([at], 3 * view.letter, 3 * view.letter)
    words = {mark: mark for mark in _marks(layout)}
    body += _labels(layout, view, words, room)
    for letter, at in letters.items():
        body.append(_dot(at, 1.5 * view.letter))
        body.append(_text(at, letter, view, True, palette.PAPER))
    said = "; ".join(f"{letter} at {at[0]:.0f}, {at[1]:.0f} in" for letter, at in letters.items())
    spoken = f"Plan of the framing with {said}."
    return Figure(_svg(view, body, spoken, 'width="120mm" '), "Plan of the framing", spoken)


# ---------------------------------------------------------------------------------------------------------


def _svg(view: View, body: Sequence[str], words: str, size: str = "") -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bw-plan" role="img" {size}viewBox="{view.box}" '
        f'font-family="system-ui, sans-serif"><title>{escape(words)}</title>{"".join(body)}</svg>'
    )


def _points(corners: Sequence[Vector]) -> str:
    return " ".join(f"{x:.1f},{-y:.1f}" for x, y in corners)


def _mix(pale: tuple[int, int, int], deep: tuple[int, int, int], share: float) -> str:
    part = min(max(share, 0.0), 1.0)
    return "#" + "".join(f"{round(a + (b - a) * part):02x}" for a, b in zip(pale, deep, strict=True))


def _deck(layout: Layout) -> str:
    look = f'fill="{palette.WASH}" stroke="{palette.SOFT_INK}" stroke-width=".7" stroke-dasharray="4 3"'
    rings = [layout.project.platform.outline, *layout.project.platform.openings]
    d = " ".join(f"M{_points(ring)}Z" for ring in rings)
    return f'<path d="{d}" fill-rule="evenodd" {look}/>'


def _trees(layout: Layout) -> list[str]:
    return [
        f'<circle cx="{t.at[0]:.1f}" cy="{-t.at[1]:.1f}" r="{trunk_radius(t):.1f}" fill="#e3ddd2" '
        f'stroke="{palette.INK}" stroke-width=".7"/>'
        for t in layout.project.trees
    ]


def _low_first(layout: Layout) -> list[Member]:
    return sorted(layout.members, key=lambda m: -m.layer)


def _corners(member: Member) -> str:
    half = max(member.width, _LEAST_WIDTH) / 2
    (ux, uy), start, end = member.line.u, member.line.start, member.line.end
    nx, ny = -uy * half, ux * half
    return _points(
        (
            (start[0] + nx, start[1] + ny),
            (end[0] + nx, end[1] + ny),
            (end[0] - nx, end[1] - ny),
            (start[0] - nx, start[1] - ny),
        )
    )


def _member(member: Member, share: float, highlighted: bool) -> str:
    fill = _mix(_TIMBER, _LOADED, 0.85 * abs(share))
    stroke, width = (palette.HIGHLIGHT, 1.8) if highlighted else (palette.INK, 0.4)
    return f'<polygon points="{_corners(member)}" fill="{fill}" stroke="{stroke}" stroke-width="{width}"/>'


def _outline(member: Member) -> str:
    return f'<polygon points="{_corners(member)}" fill="none" stroke="{palette.INK}" stroke-width=".5"/>'


def _support(layout: Layout, mark: str, view: View, share: float, highlighted: bool) -> str:
    support = next(s for s in layout.supports if s.mark == mark)
    x, y = support.at[0], -support.at[1]
    r = view.letter * (0.9 + 1.1 * math.sqrt(min(abs(share), 1.0)))
    fill = _mix(_PAPER, _DOWN if share >= 0 else _LOADED, 0.15 + 0.85 * abs(share))
    look = (
        f'fill="{fill}" stroke="{palette.HIGHLIGHT if highlighted else palette.INK}" '
        f'stroke-width="{1.8 if highlighted else 0.8}"'
    )
    if support.kind == SupportKind.TREE_BOLT:
        return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{r:.2f}" {look}/>'
    return f'<rect x="{x - r:.2f}" y="{y - r:.2f}" width="{2 * r:.2f}" height="{2 * r:.2f}" {look}/>'


def _burden(layout: Layout, trace: Trace, view: View) -> str:
    match trace.burden:
        case Person():
            return _dot(trace.pieces.centre, 1.3 * view.letter, "bw-person")
        case Crowd(corners, _):
            return (
                f'<polygon points="{_points(corners)}" fill="{palette.INK}" fill-opacity=".15" '
                f'stroke="{palette.INK}" stroke-width=".8"/>{_dot(trace.pieces.centre, 0.8 * view.letter)}'
            )
        case Drift(edge, _, _):
            outline = layout.project.platform.outline
            (x0, y0), (x1, y1) = outline[edge - 1], outline[edge % len(outline)]
            return (
                f'<line x1="{x0:.1f}" y1="{-y0:.1f}" x2="{x1:.1f}" y2="{-y1:.1f}" stroke="{palette.ACCENT}" '
                f'stroke-width="4" stroke-linecap="round"/>{_dot(trace.pieces.centre, 0.8 * view.letter)}'
            )


def _dot(at: Vector, radius: float, name: str = "") -> str:
    named = f'class="{name}" ' if name else ""
    return (
        f'<circle {named}cx="{at[0]:.1f}" cy="{-at[1]:.1f}" r="{radius:.2f}" fill="{palette.INK}" '
        f'stroke="{palette.PAPER}" stroke-width=".8"/>'
    )


def _marks(layout: Layout) -> list[str]:
    return [*(m.mark for m in layout.members), *(s.mark for s in layout.supports)]


def _labels(
    layout: Layout, view: View, words: Mapping[str, str], room: Labels, chosen: str = ""
) -> list[str]:
    """Words at every support, beam and joist, clear of each other where there is room."""
    said = []
    for support in layout.supports:
        said.append((words[support.mark], beside(support.at, 2.4 * view.letter), True))
    for member in layout.members:
        places = along(member, 0.62 if member.kind is Kind.JOIST else 0.2)
        said.append((words[member.mark], places, member.mark == chosen))
    return [
        _text(room.place(places, (0.62 * len(text) + 0.3) * view.letter, 1.1 * view.letter), text, view, bold)
        for text, places, bold in said
    ]


def _amount(mark: str, trace: Trace) -> str:
    force = trace.reactions.get(mark, trace.carried[mark].total if mark in trace.carried else 0.0)
    return f"{mark} {force:,.0f} lb" if abs(force) >= 0.5 else mark


def _text(at: Vector, words: str, view: View, bold: bool, colour: str = palette.INK) -> str:
    halo = palette.INK if colour == palette.PAPER else palette.PAPER
    weight = ' font-weight="700"' if bold else ""
    return (
        f'<text x="{at[0]:.1f}" y="{-at[1] + 0.35 * view.letter:.1f}" font-size="{view.letter:.2f}" '
        f'text-anchor="middle" fill="{colour}" stroke="{halo}" stroke-width="{0.22 * view.letter:.2f}" '
        f'paint-order="stroke"{weight}>{escape(words)}</text>'
    )


def _number(corners: Sequence[Vector], value: float, view: View, whole: bool) -> str:
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    if max(xs) - min(xs) < 2.2 * view.letter or max(ys) - min(ys) < 0.9 * view.letter:
        return ""
    words = f"{value:.0f}" if whole else f"{100 * value:.0f}"
    at = (sum(xs) / len(xs), sum(ys) / len(ys))
    return _text(at, words, View(view.left, view.low, 0.75 * view.width, 0.75 * view.height), False)


def _hatch() -> str:
    return (
        '<defs><pattern id="bw-lift" width="3" height="3" patternUnits="userSpaceOnUse" '
        f'patternTransform="rotate(45)"><rect width=".7" height="3" fill="{palette.INK}"/></pattern></defs>'
    )
