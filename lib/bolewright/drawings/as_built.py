"""As built on the drawings: crosses where supports really stand, dashed lines at real levels, and it all in words."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.drawings.bodies import View
from bolewright.drawings.measures import Measures
from bolewright.platform.layout.layout import Layout, Vector
from bolewright.rendering.drawing import Item, Layer, Line, Mark
from bolewright.setting_out.differences import Difference, Shifted, differences, shifted

_ARM = 3.5  # in: half the length of a cross's arms
_HALF = 9.0  # in: half the length of a line at a built level


def built_words(layout: Layout, measures: Measures, marks: tuple[str, ...] | None = None) -> list[str]:
    """What was built otherwise, in one sentence; of some marks only, where they are given."""
    told = [_place(s, measures) for s in shifted(layout) if marks is None or s.mark in marks]
    told += [_difference(d, measures) for d in differences(layout) if marks is None or d.mark in marks]
    return [f"As built, marked by crosses and thick lines: {'; '.join(told)}."] if told else []


def _place(shift: Shifted, measures: Measures) -> str:
    """How far and which way a support stands off its place, by the sides of the plan."""
    ways = []
    for off, (more, less) in zip(
        (b - p for p, b in zip(shift.planned, shift.built, strict=True)),
        (("right", "left"), ("up", "down")),
        strict=True,
    ):
        if abs(off) > 1 / 64:
            ways.append(f"{measures.words(abs(off))} {more if off > 0 else less}")
    return (
        f"{shift.mark} stands {' and '.join(ways)} on the plan" if ways else f"{shift.mark} stands as planned"
    )


def _difference(difference: Difference, measures: Measures) -> str:
    built, planned = measures.words(difference.built), measures.words(difference.planned)
    return f"{difference.mark}: {difference.what} {built}, planned {planned}"


def built_on_plan(layout: Layout) -> list[Item]:
    """A cross and a tag at every support that stands elsewhere."""
    return [item for shift in shifted(layout) for item in _cross(shift.built, f"{shift.mark} built")]


def built_in_elevation(layout: Layout, view: View) -> list[Item]:
    """A cross where a support stands elsewhere across the view or at another level; a line at a hole's real bottom."""
    places = {s.mark: s.built for s in shifted(layout)}
    levels = {d.mark: d.built for d in differences(layout) if "above grade" in d.what}
    items: list[Item] = []
    for support in layout.supports:
        if support.mark in places or support.mark in levels:
            x = view.across(places.get(support.mark, support.at))
            level = levels.get(support.mark, layout.seat_level(support.mark))
            items += _cross((x, level), f"{support.mark} built")
    for found in differences(layout):
        if "below grade" in found.what:
            at = next(s.at for s in layout.supports if s.mark == found.mark)
            items += level_line(view.across(at), -found.built, f"{found.mark} dug")
    return items


def _cross(at: Vector, words: str) -> Iterator[Item]:
    x, y = at
    yield Line((x - _ARM, y - _ARM), (x + _ARM, y + _ARM), Layer.HIGHLIGHT)
    yield Line((x - _ARM, y + _ARM), (x + _ARM, y - _ARM), Layer.HIGHLIGHT)
    yield Mark(at, words, shift=(12.0, -9.0))


def level_line(x: float, level: float, words: str) -> list[Item]:
    """A line at a level that was reached, with a tag."""
    return [
        Line((x - _HALF, level), (x + _HALF, level), Layer.HIGHLIGHT),
        Mark((x + _HALF, level), words, shift=(12.0, -6.0)),
    ]
