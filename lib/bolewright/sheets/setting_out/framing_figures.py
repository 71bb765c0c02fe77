"""Figures of the framing sheet: the stack over every support, and a joist's end at its beam."""

from __future__ import annotations

import math

from bolewright.platform.layout.layout import Layout
from bolewright.platform.layout.pieces import Piece, Side
from bolewright.platform.project.bearing import SupportKind
from bolewright.rendering.blocks import Block, Figure
from bolewright.rendering.drawing import (
    Anchor,
    Dimension,
    Drawing,
    Fill,
    Item,
    Layer,
    Leader,
    Line,
    Mark,
    Pen,
    Polygon,
    Text,
)
from bolewright.rendering.svg import to_svg
from bolewright.setting_out.stacks import stacks
from bolewright.setting_out.trunk import seat_rise
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.setting_out.opening import note
from bolewright.timber.sections import parse_section

PITCH = 62.0  # in between the columns of the stack figure
WIDE = 16.0


def stack_figure(layout: Layout, length: Lengths) -> Figure:
    """Every support with what stands on it, side by side, at true heights."""
    found = stacks(layout)
    supports = {s.mark: s for s in layout.supports}
    items: list[Item] = []
    width = PITCH * len(found)
    items.append(Line((-20, 0), (width - 20, 0), Layer.GROUND))
    items.append(Text((-20, 0), "grade", 2.2, Anchor.START, layer=Layer.NOTES, shift=(0.0, -2.2)))
    items.append(Line((-20, found[0].floor), (width - 20, found[0].floor), Layer.CENTRE, Pen.CENTRE))
    items.append(Text((-20, found[0].floor), "floor", 2.2, Anchor.START, layer=Layer.NOTES, shift=(0.0, 2.2)))
    for i, stack in enumerate(found):
        x, support = i * PITCH, supports[stack.support]
        if stack.kind == SupportKind.POST:
            footing = layout.project.footings[support.footing or ""]
            half = parse_section(layout.project.posts[support.post or ""].section).b / 2
            foot = footing.pad - footing.depth
            items.append(_box(x, footing.width / 2, -footing.depth, foot, Layer.FOOTINGS, Fill.CONCRETE))
            fill = Fill.CONCRETE if footing.fill == "concrete" else Fill.SOIL
            items.append(_box(x, footing.width / 2, foot, 0.0, Layer.FOOTINGS, fill))
            items.append(_box(x, half, foot, stack.top, Layer.POSTS, Fill.TIMBER))
            items.append(Dimension((x - half, foot), (x - half, stack.top), length(stack.top - foot), 6.0))
            items.append(Dimension((x + half, 0), (x + half, stack.top), length(stack.top), -6.0))
            level = stack.top
        else:
            rise = seat_rise(layout.project.bolts[support.bolt or ""])
            items.append(_box(x, 2.0, stack.top - 2 * rise, stack.top, Layer.BOLTS, Fill.STEEL))
            items.append(Dimension((x + 2, 0), (x + 2, stack.top), length(stack.top), -6.0))
            level = stack.top
        for layer in stack.layers:
            top = level + layer.measured
            wide = 18.0 if "decking" in layer.name else WIDE / 2
            fill = Fill.STEEL if layer.name == "cap plate" else Fill.TIMBER
            items.append(_box(x, wide, level, top, Layer.BEAMS, fill))
            if layer.measured > 3:
                words = f"{layer.name.split(',')[0]}  {length(layer.measured)}"
                at = (x - WIDE / 2, (level + top) / 2)
                items.append(Text(at, words, 2.3, Anchor.END, layer=Layer.MARKS, shift=(-1.2, 0.0)))
            level = top
        items.append(Mark((x, stack.top), stack.support, shift=(11.0, -7.0)))
    alt = "Stack over every support: " + "; ".join(
        f"{s.support} {length(s.top)} above grade, then " + ", ".join(layer.name for layer in s.layers)
        for s in found
    )
    drawing = Drawing("The stack", tuple(items), alt)
    caption = (
        "The stack over every support, at true heights; supports side by side, not at their places in plan."
    )
    return Figure(to_svg(drawing, height=125.0, scales=length.scales), caption, alt)


def _box(x: float, half: float, low: float, high: float, layer: Layer, fill: Fill) -> Polygon:
    return Polygon(((x - half, low), (x + half, low), (x + half, high), (x - half, high)), layer, fill)


def joist_end_figure(layout: Layout, pieces: dict[str, Piece]) -> Block:
    """The end of a joist at its beam from above, where the bevel is greatest."""
    ends = [
        (piece, cut, end)
        for piece in pieces.values()
        for end, cut in enumerate((piece.start, piece.end))
        if cut.hung and cut.long_point is not Side.NEITHER
    ]
    if not ends:
        return note("All joists and hung beams are cut square.")
    piece, cut, end = max(ends, key=lambda item: round(item[1].bevel, 6))
    member, beam = layout.member(piece.mark), layout.member(cut.meets)
    near = piece.from_start[end][0]
    x0, y0 = member.line.at(near)
    # Turned so that the joist lies level and the beam stands on its right.
    ux, uy = member.line.u if end else (-member.line.u[0], -member.line.u[1])

    def turned(point: tuple[float, float]) -> tuple[float, float]:
        dx, dy = point[0] - x0, point[1] - y0
        return (dx * ux + dy * uy, dy * ux - dx * uy)

    left, right = (piece.corners[1], piece.corners[2]) if end else (piece.corners[3], piece.corners[0])
    (lx, ly), (rx, ry) = turned(left), turned(right)
    items: list[Item] = [
        Polygon(((-6.0, ly), (lx, ly), (rx, ry), (-6.0, ry)), Layer.JOISTS, Fill.TIMBER),
    ]
    items.append(_beam_band(beam.line.u, beam.width, (ux, uy)))
    long, short = ((lx, ly), (rx, ry)) if lx > rx else ((rx, ry), (lx, ly))
    up = 1.0 if long[1] > 0 else -1.0
    items += [
        Line((long[0], ly + 1.2), (long[0], ry - 1.2), Layer.CENTRE, Pen.DASHED),
        Leader(long, "long point", (-8.0, 12.0 * up)),
        Leader(short, "short point", (-10.0, -12.0 * up)),
        Leader(((lx + rx) / 2, 0.0), f"{cut.bevel:.1f}° from square", (26.0, 0.0)),
        Text((-4.5, 0.0), piece.mark, 3.0, layer=Layer.MARKS, bold=True),
        Text((0.6 * beam.width, 2.2 * up), cut.meets, 3.0, layer=Layer.MARKS, bold=True),
    ]
    alt = (
        f"End of {piece.mark} at {cut.meets} from above: bevel {cut.bevel:.1f} degrees from square, long point on "
        "the "
        f"{cut.long_point.value} as one faces the beam."
    )
    drawing = Drawing(f"{piece.mark} at {cut.meets}", tuple(items), alt)
    caption = f"{piece.mark} at {cut.meets} from above, the largest bevel: {cut.bevel:.1f}° from square."
    return Figure(to_svg(drawing, height=70.0), caption, alt)


def _beam_band(u: tuple[float, float], width: float, towards: tuple[float, float]) -> Polygon:
    """Piece of a beam in the turned axes, its near face through the origin."""
    cx, cy = u[0] * towards[0] + u[1] * towards[1], u[1] * towards[0] - u[0] * towards[1]
    if cy < 0:
        cx, cy = -cx, -cy
    nx, ny = cy, -cx
    half = 3.2 / math.hypot(cx, cy)
    face = ((-half * cx, -half * cy), (half * cx, half * cy))
    back = tuple((x + width * nx, y + width * ny) for x, y in reversed(face))
    return Polygon((*face, *back), Layer.BEAMS, Fill.TIMBER)
