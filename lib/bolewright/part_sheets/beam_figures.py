"""Drawings of a beam part: its forces, and its shear, moment and deflection diagrams."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from bolewright.mechanics import Diagrams
from bolewright.mechanics.loads import Array
from bolewright.part_sheets.beam_statics import BeamStatics, Worst
from bolewright.part_sheets.drawn import WIDE, figure, value
from bolewright.part_sheets.inputs import Inputs
from bolewright.part_sheets.kind import Given
from bolewright.part_sheets.loads import BeamLoad
from bolewright.rendering.blocks import Figure
from bolewright.rendering.drawing import (
    Anchor,
    Arc,
    Arrow,
    Dimension,
    Fill,
    Item,
    Layer,
    Line,
    Polygon,
    Polyline,
    Text,
)
from bolewright.units import INCH, POUND, POUND_FOOT, feet_inches

_HIGH = 13.0  # mm, of one diagram to each side


def figures(inputs: Inputs, given: Given, values: Mapping[str, Any], blank: bool) -> tuple[Figure, ...]:
    """Free-body diagram and diagrams of the pattern in which the moment is greatest."""
    statics, worst = given.drawn
    if not worst.loads:
        return ()
    found = statics.diagrams(worst)
    return (_free_body(statics, worst, found, blank), _diagrams(statics, found, blank))


def _free_body(statics: BeamStatics, worst: Worst, found: Diagrams, blank: bool) -> Figure:
    scale = WIDE / statics.beam.length
    length = statics.beam.length * scale
    items: list[Item] = [Polygon(((0, 0), (length, 0), (length, 4), (0, 4)), fill=Fill.TIMBER)]
    acting = [(statics.loads[i], statics.share(i, worst)) for i in worst.loads]
    spreads = [(load, share) for load, share in acting if load.start < load.end]
    points = [load.start * scale for load, _ in acting if load.start == load.end and not load.couple]
    for row, (load, share) in enumerate(spreads):
        items += _spread(load, share, scale, row, points, blank)
    high = 5.0 + 11.0 * len(spreads)
    for load, share in acting:
        x, words = load.start * scale, _kind(load.words, share)
        if load.couple:
            text = f"{words} {value(abs(load.couple) * share / 12, POUND_FOOT)}"
            items += [*_couple(x, load.couple > 0), Text((x + 6.5, -5.5), text, 2.4, Anchor.START)]
        elif load.start == load.end:
            text = f"{words} {value(abs(load.total) * share, POUND)}" + (" up" if load.lifts else "")
            items.append(Arrow((x, 4 + high), 90, high) if load.lifts else Arrow((x, 4), -90, high))
            items.append(Text((float(np.clip(x, 10, WIDE - 10)), high + 6), text, 2.4))
            high += 4.4
    for n, (x, force) in enumerate(zip(statics.beam.supports, found.reactions, strict=True), 1):
        down = force < 0
        name = f"R{n} = {value(abs(float(force)), POUND, blank)}"
        items.append(Arrow((x * scale, 0 if not down else -10), 90 if not down else -90, 10))
        items.append(Text((x * scale, -12.5), name, 2.5, bold=True))
    if len(statics.beam.supports) == 1:
        clamp = value(float(found.clamp_moments[0]) / 12, POUND_FOOT, blank)
        items += [Line((0, -4), (0, 8)), Text((1.5, -17), f"clamp moment {clamp}", 2.4, Anchor.START)]
    places = sorted({0.0, *statics.beam.supports, statics.beam.length})
    items += [
        Dimension((a * scale, -22), (b * scale, -22), feet_inches(b - a), 0)
        for a, b in zip(places, places[1:], strict=False)
    ]
    said = ", ".join(f"R{n} {value(float(r), POUND, blank)}" for n, r in enumerate(found.reactions, 1))
    alt = f"Free-body diagram of the beam: its loads above it, and under it the reactions {said}."
    return figure(
        "Free-body diagram", items, alt, "Free-body diagram of the pattern with the greatest moment."
    )


def _kind(words: str, share: float) -> str:
    kind = words.split()[0]
    return kind if share == 1 else f"{share:g} x {kind}"


def _spread(
    load: BeamLoad, share: float, scale: float, row: int, points: Sequence[float], blank: bool
) -> list[Item]:
    """A load over a length: its shape, arrows on the beam and its size."""
    a, b, top = load.start * scale, load.end * scale, 7.0 + 11.0 * row
    most = max(abs(load.first), abs(load.last))
    left, right = (3 * abs(end) / most for end in (load.first, load.last))
    items: list[Item] = [
        Polygon(((a, top), (b, top), (b, top + right), (a, top + left)), Layer.LOADS, Fill.WASH)
    ]
    foot, reach = (4.6, top - 4.6) if row == 0 else (top - 1.5, 1.5)
    for x in np.linspace(a, b, max(2, round((b - a) / 12))):
        there = load.first + (load.last - load.first) * (float(x) - a) / (b - a)
        if abs(there) > 1e-9 * most:
            up = load.lifts
            items.append(Arrow((float(x), foot + reach if up else foot), 90 if up else -90, reach))
    ends = [f"{abs(end) * share:.4g}" for end in (load.first, load.last)]
    per = " to ".join(dict.fromkeys(ends)) + " plf" + (" up" if load.lifts else "")
    words = f"{_kind(load.words, share)} {per}"
    text = words if blank else f"{words} = {value(abs(load.total) * share, POUND)}"
    free = (float(np.clip(a + part * (b - a), 20, WIDE - 20)) for part in (0.5, 0.28, 0.72))
    clear = [x for x in free if all(abs(x - point) > 21 for point in points)]
    at = clear[0] if clear else float(np.clip((a + b) / 2, 20, WIDE - 20))
    return [*items, Text((at, top + 5.2), text, 2.4)]


def _couple(x: float, clockwise: bool) -> list[Item]:
    """Half a circle under the beam's axis, with its head where it turns to."""
    return [Arc((x, 2.0), 5.0, 180, 360, Layer.LOADS), Arrow((x - 5 if clockwise else x + 5, 2.0), 90, 1.5)]


def _diagrams(statics: BeamStatics, found: Diagrams, blank: bool) -> Figure:
    scale = WIDE / statics.beam.length
    x = np.repeat(found.stations, 2) * scale
    shear = np.column_stack((found.shear_left, found.shear_right)).ravel()
    single = found.stations * scale
    rows = (
        ("Shear V", x, shear, POUND, 1.0, 1),
        ("Moment M", single, found.moment / 12, POUND_FOOT, 1.0, 1),
        ("Deflection (with E)", single, found.deflection, INCH, 1.0, -1),
    )
    items: list[Item] = []
    said = []
    for row, (name, at, values, unit, factor, up) in enumerate(rows):
        base = -row * (2 * _HIGH + 17)
        items += _diagram(name, at, up * values * factor, base, blank)
        low, high = float(values.min()), float(values.max())
        most = max(abs(low), abs(high), 1e-12)
        for v, i in ((high, int(values.argmax())), (low, int(values.argmin()))):
            if abs(v) <= 1e-6 * most:
                continue
            y = base + up * v / most * _HIGH
            side = 2.2 if y > base else -2.2
            items.append(
                Text((float(np.clip(at[i], 12, WIDE - 12)), y + side), value(v, unit, blank), 2.4, bold=True)
            )
        said.append(f"{name} from {value(low, unit, blank)} to {value(high, unit, blank)}")
    caption = "Shear, moment and deflection of the same pattern; moment that bends the beam down is drawn up."
    return figure("Diagrams", items, f"Diagrams along the beam: {'; '.join(said)}.", caption)


def _diagram(name: str, at: Array, values: Array, base: float, blank: bool) -> list[Item]:
    most = float(np.abs(values).max()) or 1.0
    y = base + values / most * _HIGH
    points = [(float(a), float(b)) for a, b in zip(at, y, strict=True)]
    closed = ((points[0][0], base), *points, (points[-1][0], base))
    return [
        Polygon(closed, Layer.LOADS, Fill.WASH),
        Polyline(((0, base), (WIDE, base))),
        Text((0, base + _HIGH + 7.5), name, 2.6, Anchor.START, bold=True),
    ]
