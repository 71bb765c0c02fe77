"""Snow on an overhang lifts the far support: 0.6D + S, as 0.6D + L (common practice), by statics on two levers.

Beams of `overhang` at x -16 and 16 in. stand on bolts (y 0) and posts (y 64 in.); the deck goes from y 16 to 110 in.
and x -30 to 30 in. Boards and joists are simple spans, so that load and lever of the deck come to the beams whole.
Snow lies full or half on every span, ends that cantilever counted as spans (ASCE 7-16, 7.5, by analogy): full where it
lifts the bolt of the beam at x -16, half where it holds it down. Of the deck past the posts that is all but the joists'
ends on the other side, of the deck before them those ends alone.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results, to_json

FILE = Path(__file__).parent / "arrangements" / "overhang.toml"
POSTS, FROM, TO, BETWEEN, END = 64.0, 16.0, 110.0, 32.0, 14.0  # in


def lifted(snow: float) -> tuple[Check, float]:
    """The row of uplift at T1, and the load of D there (lb); ``snow`` in psf."""
    text = FILE.read_text(encoding="utf-8").replace('"25 psf"', f'"{snow:g} psf"')
    text = text.replace("guard_edges = [2, 3, 4]", "guard_edges = []").replace(
        'live = "60 psf"', 'live = "10 psf"'
    )
    text = text.replace('"130 in"', '"110 in"').replace('last = "129 in"', 'last = "109 in"')
    text = text.replace('at = ["-16 in", "0 in"]', 'at = ["-16 in", "0 in"]\nuplift_tie = "5000 lb"')
    results = find_results(parse_project(text))
    (row,) = (c for c in results.checks if c.part == "T1" and c.limit_state == "uplift")
    return row, float(json.loads(to_json(results, text))["reactions"]["T1"]["D"])


@pytest.mark.parametrize("snow", [170.0, 200.0])
def test_the_bolt_is_lifted_by_snow_past_the_posts(snow: float) -> None:
    row, D = lifted(snow)
    near, own, far = (
        END * (1 + END / 2 / BETWEEN),
        BETWEEN / 2,
        -END * END / 2 / BETWEEN,
    )  # width on the beam, in
    past = (
        snow / 144 * (TO - POSTS) * ((TO + POSTS) / 2 - POSTS) / POSTS
    )  # lifts by it, for each inch of width
    before = snow / 144 * (POSTS - FROM) * (POSTS - (POSTS + FROM) / 2) / POSTS
    lifts = past * (near + own + far / 2) - before * ((near + own) / 2 + far)
    assert row.combination == "0.6D + S"
    assert row.demand == pytest.approx(lifts - 0.6 * D, rel=1e-4)
