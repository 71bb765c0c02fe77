"""Small tools for the drawings of part sheets: everything in millimetres on paper."""

from __future__ import annotations

from collections.abc import Sequence

from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Anchor,
    Arrow,
    Dimension,
    Drawing,
    Fill,
    Item,
    Layer,
    Line,
    Pen,
    Polygon,
    Text,
)
from bolewright.rendering.laying import Scale
from bolewright.rendering.numbers import fmt
from bolewright.rendering.svg import to_svg
from bolewright.units import NONE, Unit, feet_inches

WIDE = 128.0  # mm; with the labels at its ends it fits the page unshrunk
_MILLIMETRES = (Scale(1 / 25.4, ""),)
_TALL = 220.0
LINE = "______"


def value(number: float, unit: Unit = NONE, blank: bool = False) -> str:
    """A number with its unit on a drawing, or the line to write it on."""
    return f"{LINE} {unit.label}".strip() if blank else fmt(number, unit)


def figure(title: str, items: Sequence[Item], alt: str, caption: str) -> Figure:
    """A drawing of items in millimetres."""
    drawing = Drawing(title, tuple(items), alt, scale_bar=False)
    return Figure(to_svg(drawing, scales=_MILLIMETRES, height=_TALL), caption, alt)


def column_figure(*, height: float, load: str, off: str, side: str) -> Figure:
    """A post with its forces."""
    items: list[Item] = [
        Polygon(((0, 0), (8, 0), (8, 70), (0, 70)), fill=Fill.TIMBER),
        Line((4, -6), (4, 86), Layer.CENTRE, Pen.CENTRE),
        Arrow((7 if off else 4, 70), -90, 14),
        Text((9 if off else 6, 80), f"P = {load}", 2.6, Anchor.START, bold=True),
        Arrow((4, 0), 90, 10),
        Text((6, -9), f"P = {load}", 2.6, Anchor.START, bold=True),
        Dimension((-8, 70), (-8, 0), feet_inches(height), 6),
    ]
    said = f"A post {feet_inches(height)} high under {load}"
    if off:
        items.append(Text((9, 75.5), f"off center {off}", 2.4, Anchor.START))
        said += f", {off} off its axis"
    if side:
        items += [
            Arrow((8, 35), 180, 14),
            Text((24, 35), side, 2.6, Anchor.START, bold=True),
            Arrow((0, 68), 0, 10),
            Arrow((0, 2), 0, 10),
        ]
        said += f", with a side load of {side} at mid-height, held at both ends"
    return figure("Free-body diagram", items, f"{said}.", "Free-body diagram of the post.")


def footing_figure(
    *, width: float, thickness: float, post: float, load: str, pressure: str, uplift: str
) -> Figure:
    """A section through a footing with its forces."""
    scale = 60 / width
    half, p, h = 30.0, post * scale / 2, thickness * scale
    items: list[Item] = [
        Polygon(((-half, 0), (half, 0), (half, h), (-half, h)), fill=Fill.CONCRETE),
        Polygon(((-p, h), (p, h), (p, h + 30), (-p, h + 30)), fill=Fill.TIMBER),
        Arrow((0, h + 30), -90, 12),
        Text((2, h + 39), f"P = {load}", 2.6, Anchor.START, bold=True),
        *(Arrow((x, 0), 90, 7) for x in (-27, -18, -9, 0, 9, 18, 27)),
        Text((0, -10), f"q = {pressure}", 2.6, bold=True),
        Dimension((-half, -16), (half, -16), feet_inches(width), 0),
        Dimension((half + 8, 0), (half + 8, h), feet_inches(thickness), -2, flat=True),
    ]
    said = f"Section through a footing {feet_inches(width)} wide under {load}; the soil presses up with {pressure}"
    if uplift:
        items += [
            Arrow((p + 8, h + 34), 90, 12),
            Text((p + 10, h + 26), f"uplift {uplift}", 2.6, Anchor.START),
        ]
        said += f"; uplift {uplift}"
    return figure(
        "Free-body diagram", items, f"{said}.", "Free-body diagram of the footing and the soil under it."
    )


def embedded_post_figure(
    *, height: float, depth: float, turn: float, lateral: str, above: str, below: str
) -> Figure:
    """A post embedded in the ground, its lateral load, and the soil's pressure on either side of where it turns."""
    scale = 90 / (height + depth)
    h, d, a, wide = height * scale, depth * scale, turn * scale, 4.0
    steps = 24
    most = max(abs(x * (1 - x / a)) for x in (d * s / steps for s in range(steps + 1)))

    def pressed(x: float) -> float:
        """Millimetres of the pressure at a depth: to the right of the post, then to its left."""
        return 16 * x * (1 - x / a) / most

    def side(x: float) -> float:
        return wide if x <= a else -wide

    rows = [d * s / 8 for s in range(1, 9)]
    edges = [[x * a / 12 for x in range(13)], [a + x * (d - a) / 12 for x in range(13)]]
    items: list[Item] = [
        Polygon(((-wide, -d), (wide, -d), (wide, h), (-wide, h)), fill=Fill.TIMBER),
        *(
            Polygon(
                (
                    *((place, -x) for x in (xs[0], xs[-1])),
                    *((place + pressed(x), -x) for x in reversed(xs)),
                ),
                Layer.GROUND,
                Fill.SOIL,
            )
            for xs, place in zip(edges, (wide, -wide), strict=True)
        ),
        Line((-44, 0), (-wide, 0), Layer.GROUND),
        Line((wide, 0), (44, 0), Layer.GROUND),
        *(
            Arrow((side(x), -x), 180.0 if x < a else 0.0, abs(pressed(x)))
            for x in rows
            if abs(pressed(x)) > 2
        ),
        Arrow((-wide, h), 0, 14),
        Text((-wide - 16, h), f"P_l = {lateral}", 2.6, Anchor.END, bold=True),
        Text((wide + 20, -a / 2), f"soil {above}", 2.6, Anchor.START, bold=True),
        Text((-wide - 20, -(a + d) / 2 - 2), f"soil {below}", 2.6, Anchor.END, bold=True),
        Line((-wide - 3, -a), (wide + 24, -a), Layer.CENTRE, Pen.CENTRE),
        Text((wide + 26, -a), "turns here", 2.4, Anchor.START),
        Dimension((58, h), (58, 0), feet_inches(height), -3, flat=True),
        Dimension((58, 0), (58, -d), feet_inches(depth), -3, flat=True),
    ]
    said = (
        f"A post {feet_inches(depth)} deep in the ground under {lateral} at {feet_inches(height)} above grade; the "
        f"soil presses against the load with {above} above where the post turns, and with the load, {below}, below it."
    )
    return figure(
        "Free-body diagram of the embedded post", items, said, "Free-body diagram of the embedded post."
    )


def bolt_figure(*, embedment: float, lever: float, diameter: float, load: str) -> Figure:
    """A bolt in a trunk with its load, and the pressure that turns it back."""
    scale = 90 / (embedment + lever + 2)
    inside, e, r = embedment * scale, lever * scale, max(diameter * scale / 2, 1.2)
    items: list[Item] = [
        Polygon(((-inside - 14, -30), (0, -30), (0, 30), (-inside - 14, 30)), Layer.TRUNK, Fill.TRUNK),
        Polygon(((-inside, -r), (e + 6, -r), (e + 6, r), (-inside, r)), Layer.BOLTS, Fill.WASH),
        Arrow((e, r), -90, 14),
        Text((e + 2, r + 16), f"P = {load}", 2.6, Anchor.START, bold=True),
        *(Arrow((-x * inside, -r), 90, 12 * (0.45 - x) + 2) for x in (0.05, 0.2, 0.35)),
        *(Arrow((-x * inside, r), -90, 12 * (x - 0.55) + 2) for x in (0.7, 0.85, 0.97)),
        Dimension((-inside, -38), (0, -38), feet_inches(embedment), 0),
        Dimension((0, -38), (e, -38), feet_inches(lever), 0),
    ]
    alt = (
        f"A bolt {feet_inches(embedment)} deep in a trunk, loaded with {load} at {feet_inches(lever)} from the "
        "sound wood face; the wood presses up near the face and down near the tip."
    )
    return figure(
        "Free-body diagram",
        items,
        alt,
        "Free-body diagram: the wood presses up at its face, down at the tip.",
    )
