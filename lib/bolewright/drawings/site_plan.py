"""Site plan: trees, deck, footings, stairs, the line that all is measured from, levels, fall of the ground, north."""

from __future__ import annotations

import math

from bolewright.drawings.covering import painted
from bolewright.drawings.ladders import ladder_on_plan
from bolewright.drawings.measures import Measures
from bolewright.drawings.plan_corners import fixed_points
from bolewright.drawings.plan_framing import bounds, footings_on_plan, trees
from bolewright.drawings.stairs import stairs_on_plan
from bolewright.drawings.words import titled
from bolewright.platform.layout.layout import Layout
from bolewright.platform.results.results import Results
from bolewright.rendering import drawing
from bolewright.rendering.drawing import Arrow, Circle, Drawing, Fill, Item, Layer, Mark, Pen
from bolewright.setting_out.corners import deck_corners
from bolewright.setting_out.fall import Fall, ground_fall

_ROUND = 48.0  # in: ground that is shown beyond everything
_OUT = 9.0  # mm
TITLE = "Site plan"
NO_NORTH = "North is not in the project file (platform, north): take it by compass and draw it in the ring."
NO_FALL = (
    "The fall of the ground is not in the project file: enter three levels or more, not in one line, under "
    "[[ground]], and draw the arrow meanwhile."
)


def site_plan(results: Results, measures: Measures = Measures.IMPERIAL) -> Drawing:
    """The deck on its ground, from above, small: what is measured from, where it falls, where north lies."""
    layout = results.path.layout
    fall = ground_fall(layout)
    left, low, right, high = bounds(layout)
    around = (
        (left - _ROUND, low - _ROUND),
        (right + _ROUND, low - _ROUND),
        (right + _ROUND, high + _ROUND),
        (left - _ROUND, high + _ROUND),
    )
    items: list[Item] = [drawing.Polygon(around, Layer.GROUND, Fill.NONE, Pen.DASHED)]
    items.append(drawing.Polygon(tuple(layout.project.platform.outline), Layer.DECKING, Fill.WASH))
    items += [
        drawing.Polygon(tuple(ring), Layer.DECKING, Fill.PAPER) for ring in layout.project.platform.openings
    ]
    items += [*trees(layout), *painted(footings_on_plan(layout))]
    items += stairs_on_plan(layout, measures)
    items += ladder_on_plan(layout, measures)
    items += fixed_points(deck_corners(layout))
    items += _supports(layout)
    for spot in layout.project.ground:
        items += [
            Circle(spot.at, 1.0, Layer.GROUND, Fill.STEEL),
            Mark(spot.at, f"{spot.mark} {_level(spot.level, measures)}", shift=(_OUT, _OUT)),
        ]
    north = layout.project.platform.north
    if north is None:
        ring = (right + _ROUND / 2, high + _ROUND / 2)
        items += [Circle(ring, _ROUND / 3, Layer.NOTES, Fill.PAPER), Mark(ring, "N ?")]
    middle = (left - _ROUND / 2, (low + high) / 2)
    if fall is not None and not fall.level:
        items.append(Arrow(middle, math.degrees(math.atan2(fall.down[1], fall.down[0])), 12.0, "falls"))
    notes = [
        fall_words(fall, measures),
        *([NO_NORTH] if north is None else []),
        "Levels are above the grade that all heights are measured from, minus below. Property lines, buried lines and "
        "setbacks are not in the project file: draw them here.",
    ]
    alt = f"{TITLE}: {len(layout.project.trees)} trees, deck, {len(layout.supports)} supports. {notes[0]}"
    return titled(results, TITLE, items, alt, notes, north=north)


def fall_words(fall: Fall | None, measures: Measures) -> str:
    """Fall of the ground in words.

    >>> fall_words(Fall(0.05, (1.0, 0.0)), Measures.IMPERIAL)
    'The ground falls 6" in 10 ft (5 %) the way of the arrow, by the levels under [[ground]].'
    """
    if fall is None:
        return NO_FALL
    if fall.level:
        return "The ground is level, by the levels under [[ground]]."
    imperial = measures is Measures.IMPERIAL
    run, said = (120.0, "10 ft") if imperial else (3000 / 25.4, "3 m")
    drop = measures.words(fall.slope * run)
    return (
        f"The ground falls {drop} in {said} ({100 * fall.slope:.2g} %) the way of the arrow, by the levels under "
        "[[ground]]."
    )


def _level(inches: float, measures: Measures) -> str:
    sign = "+" if inches > 0 else ""
    return f"{sign}{measures.length(inches)}"


def _supports(layout: Layout) -> list[Item]:
    middle = layout.deck.centroid
    items: list[Item] = []
    for support in layout.supports:
        side = -1.0 if support.at[0] < middle.x else 1.0
        items += [
            Circle(support.at, 1.5, Layer.BOLTS, Fill.STEEL),
            Mark(support.at, support.mark, shift=(8.0 * side, 5.0)),
        ]
    return items
