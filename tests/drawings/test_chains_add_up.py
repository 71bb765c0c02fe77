"""Chains of dimensions add up to the words of the whole, to the sixteenth, whatever the spaces are."""

from fractions import Fraction
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reading_svg import written

from bolewright.drawings.chains import chain, levels_chain, spaced_chain
from bolewright.drawings.files import all_drawings, plans
from bolewright.drawings.measures import Measures
from bolewright.rendering.drawing import Dimension
from bolewright.setting_out.decking import deck_rows

SPACES = st.lists(st.floats(0.25, 60.0), min_size=1, max_size=12)


def smallest(inches, measures):
    """Sixteenths, or millimetres, that a length in words is: a whole number."""
    units = inches * (16 if measures is Measures.IMPERIAL else 25.4)
    assert units == pytest.approx(round(units), abs=1e-6)
    return round(units)


def said(item, measures):
    return smallest(written(item.text, measures is Measures.METRIC), measures)


@pytest.mark.parametrize("measures", Measures)
@given(spaces=SPACES)
def test_spaces_add_up_to_the_whole_and_no_place_is_off_by_more_than_half(measures, spaces):
    places = list(accumulate(spaces, initial=0.0))
    points = [(place, 0.0) for place in places]
    (whole,) = chain([points[0], points[-1]], measures, 8.0)
    unit = 16 if measures is Measures.IMPERIAL else 25.4
    for made in (
        chain(points, measures, 8.0),
        levels_chain(0.0, places, measures, 8.0),
        spaced_chain(points, measures, 8.0),
    ):
        assert sum(said(item, measures) for item in made) == said(whole, measures)
        reached = accumulate(said(item, measures) for item in made)
        ends = [max(item.end) for item in made]
        assert all(abs(a - b * unit) <= 0.5 + 1e-6 for a, b in zip(reached, ends, strict=True))


@given(count=st.integers(3, 20), space=st.floats(1.0, 24.0))
def test_a_row_of_equal_spaces_never_multiplies_to_another_whole(count, space):
    (item,) = spaced_chain([(i * space, 0.0) for i in range(count + 1)], Measures.IMPERIAL, 8.0)
    head, _, whole = item.text.partition(" = ")
    if " at " in head:
        number, _, each = head.partition(" at ")
        assert int(number) * Fraction(written(each)) == Fraction(written(whole))
    else:
        assert head == f"{count} equal"


def test_rows_of_boards_add_up_with_their_gaps(results):
    """Chain of the rows against the deck's extent in its direction: the gaps at first and last row are in it."""
    drawing = plans(results)[1]
    layout = results.path.layout
    dimensions = [item for item in drawing.items if isinstance(item, Dimension)]
    for rows in deck_rows(layout):
        (cx, cy), (ox, oy) = rows.across, rows.origin
        first, last = rows.rows[0].near, rows.rows[-1].far
        own = [
            d
            for d in dimensions
            if abs((d.end[0] - d.start[0]) * cy - (d.end[1] - d.start[1]) * cx) < 1e-6
            and {round((p[0] - ox) * cx + (p[1] - oy) * cy, 3) for p in (d.start, d.end)}
            <= {round(x, 3) for row in rows.rows for x in (row.near, row.far)}
        ]
        reached = {round((p[0] - ox) * cx + (p[1] - oy) * cy, 3) for d in own for p in (d.start, d.end)}
        assert {round(first, 3), round(last, 3)} <= reached
        extent = [x * cx + y * cy for x, y in layout.deck.exterior.coords]
        if len(layout.project.joists) == 1:
            assert rows.cover == pytest.approx(max(extent) - min(extent))


def test_every_chain_of_every_drawing_adds_up_to_the_dimension_over_it(results):
    """Dimensions that lie end to end on one line, and any single one over the same two points, say the same."""
    met = 0
    for measures in Measures:
        for drawing in all_drawings(results, measures):
            found = [item for item in drawing.items if isinstance(item, Dimension)]
            for over in found:
                chained = _between(over, found)
                if chained:
                    met += 1
                    told = [item.text for item in chained]
                    assert sum(said(d, measures) for d in chained) == said(over, measures), (
                        drawing.title,
                        over.text,
                        told,
                    )
    assert met > 0


def _between(over, found):
    """The chain of two dimensions and more from the start of one to its end, on one dimension line."""
    for offset in {d.offset for d in found if d.offset != over.offset}:
        at, chained = over.start, []
        while at is not None and at != over.end and len(chained) < len(found):
            step = next((d for d in found if d.offset == offset and d.start == at and _along(d, over)), None)
            at = None if step is None else step.end
            chained += [step] if step else []
        if at == over.end and len(chained) > 1:
            return chained
    return []


def _along(one, other):
    (ax, ay), (bx, by) = ((d.end[0] - d.start[0], d.end[1] - d.start[1]) for d in (one, other))
    return abs(ax * by - ay * bx) < 1e-6 and ax * bx + ay * by > 0
