"""Figure of the ground: pegs, strings over batter boards, holes, and the tapes that prove it square."""

from __future__ import annotations

import math

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.layout import Line as PlanLine
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Circle,
    Dimension,
    Drawing,
    Fill,
    Item,
    Layer,
    Line,
    Mark,
    Pen,
    Polygon,
    Text,
)
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.ground import GroundPlan
from bolewright.setting_out.holes import holes
from bolewright.setting_out.trunk import girth_of
from bolewright.sheets.lengths import Lengths


def ground_figure(layout: Layout, plan: GroundPlan, text: Lengths) -> Figure:
    """Plan of the pegs, the strings over batter boards, the holes, and the tapes that prove it square."""
    base = plan.base
    items: list[Item] = []
    for tree in layout.project.trees:
        items.append(Circle(tree.at, girth_of(tree) / (2 * math.pi), Layer.TRUNK, Fill.TRUNK))
    items.append(Line(base.line.start, base.line.end, Layer.CENTRE, Pen.CENTRE))
    for mark, at in ((base.a, base.line.start), (base.b, base.line.end)):
        if mark not in {peg.name for peg in plan.posts}:
            items.append(Circle(at, 1.2, Layer.BOLTS, Fill.STEEL))
            items.append(Mark(at, mark, shift=(0.0, -8.0)))
    corners = [c.point for c in plan.corners]
    reach = plan.setback
    for one, other in zip(corners, [*corners[1:], corners[0]], strict=True):
        line = PlanLine.between(one, other)
        items.append(Line(line.at(-reach), line.at(line.length + reach), Layer.GROUND, Pen.DASHED))
        for s in (-reach, line.length + reach):
            (x, y), (ux, uy) = line.at(s), line.u
            items.append(Line((x - 9 * uy, y + 9 * ux), (x + 9 * uy, y - 9 * ux), Layer.BEAMS))
    items += _squaring(plan, text)
    for hole, peg in zip(holes(layout), plan.posts, strict=True):
        if hole.shape == "round":
            items.append(Circle(peg.point, hole.width / 2, Layer.FOOTINGS, Fill.CONCRETE))
        else:
            items.append(_square(peg.point, hole.width / 2))
        items.append(_square(peg.point, 2.75))
        items.append(Mark(peg.point, peg.name, shift=(9.0, 8.0)))
    for i, corner in enumerate(plan.corners):
        shift = (-8.0 if i in (0, 3) else 8.0, -4.5)
        items.append(Text(corner.point, corner.name.split()[-1], 2.8, shift=shift, bold=True))
    if plan.working:
        for s, name in ((0.0, "A"), (base.line.length, "B")):
            at = base.point(s, plan.working)
            items.append(Circle(at, 1.0, Layer.GROUND, Fill.PAPER))
            items.append(Text(at, name, 2.4, shift=(0.0, 3.5), bold=True))
        items.append(
            Dimension(base.line.end, base.point(base.line.length, plan.working), text(plan.working), -9.0)
        )
    items.append(Dimension(corners[3], corners[2], text(plan.width), 14.0 + reach / 4))
    items.append(Dimension(corners[1], corners[2], text(plan.height), -(16.0 + reach / 4)))
    alt = "Plan of the pegs: " + "; ".join(
        f"{p.name} {text(p.from_a)} from {plan.tapes[0]} and {text(p.from_b)} from {plan.tapes[1]}"
        for p in plan.posts
    )
    drawing = Drawing("Setting out on the ground", tuple(items), alt)
    caption = "Pegs, strings over batter boards, and the two diagonals that must be equal."
    return Figure(to_svg(drawing, height=150.0, scales=text.scales), caption, alt)


def _squaring(plan: GroundPlan, text: Lengths) -> list[Item]:
    """The tapes that prove the rectangle square, with the marks they go to."""
    items: list[Item] = []
    for closing in plan.squaring:
        if closing.ends is not None:
            items.append(Line(*closing.ends, Layer.HIDDEN, Pen.DASHED))
    corners = [c.point for c in plan.corners]
    if len(plan.squaring) == 2 and not any(
        name.startswith("mark") for s in plan.strings for name, _ in s.marks
    ):
        middle = ((corners[0][0] + corners[2][0]) / 2, (corners[0][1] + corners[2][1]) / 2)
        words = f"both diagonals {text(plan.diagonal)}"
        return [*items, Text(middle, words, 2.4, layer=Layer.DIMENSIONS, shift=(0.0, -7.0))]
    for closing in plan.squaring:
        if closing.ends is not None:
            name = closing.what.partition("mark ")[2][:1]
            items.append(Mark(closing.ends[1], name, shift=(7.0, 0.0)))
    return items


def _square(at: tuple[float, float], half: float) -> Polygon:
    x, y = at
    corners = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return Polygon(corners, Layer.POSTS, Fill.END_GRAIN)
