"""Thickness of a footing's pad for what runs out past the post: IRC R403.1.1, asked of pads, not of filled holes."""

from __future__ import annotations

import pytest
from arrangement_files import file_of

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

TEXT = file_of("over_three_posts").read_text(
    encoding="utf-8"
)  # 6x6 posts on round footings of 24 in., pads of 10 in.


def projections(text: str) -> list[Check]:
    return [c for c in find_results(parse_project(text)).checks if c.key == "footing.projection"]


def test_a_pad_is_as_thick_as_it_runs_out_past_the_post() -> None:
    """(24 - 5 1/2)/2 = 9 1/4 in. of 10; a pad of 30 in. wants 12 1/4.

    AWC DCA 6, Table 4, is the same rule rounded up to the inch (all its rows in tests/timber).
    """
    pad = TEXT.replace("[footing.F]", '[footing.F]\nfill = "soil"')
    assert {round(c.demand, 6) for c in projections(pad)} == {9.25}
    assert {c.status for c in projections(pad)} == {Status.PASSES}
    wide = projections(pad.replace('width = "24 in"', 'width = "30 in"'))
    assert {(round(c.demand, 6), c.capacity, c.status) for c in wide} == {(12.25, 10.0, Status.FAILS)}
    assert wide[0].sentence.startswith("P1 fails: the thickness that a footing of its projection must have")


@pytest.mark.parametrize("fill", ["", '\nfill = "concrete"'])
def test_a_hole_filled_with_concrete_does_not_project(fill: str) -> None:
    assert projections(TEXT.replace("[footing.F]", f"[footing.F]{fill}")) == []


def test_soil_over_a_pad_presses_on_the_ground_too() -> None:
    """A round hole of 24 in., 48 deep: 3.1416 sq ft, under 10 in. of concrete and 38 in. of soil. Gross pressure has
    144 x 10/12 + 120 x 38/12 = 500 psf of that, a hole full of concrete 144 x 4 = 576 (statics)."""
    pad, full = (
        {c.part: c.demand for c in find_results(parse_project(text)).checks if c.key == "footing.soil"}
        for text in (TEXT.replace("[footing.F]", '[footing.F]\nfill = "soil"'), TEXT)
    )
    assert pad
    for mark, q in pad.items():
        assert full[mark] - q == pytest.approx(576 - 500, abs=0.5)
