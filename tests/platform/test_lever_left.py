"""What the checks leave of a tree bolt's projection, against the whole platform calculated with a longer lever arm.

A bearing that slides outwards by ``slide`` makes the lever arm longer by just that: it counts from the sound wood to
the centre of the bearing at its worst.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.lever_left import lever_left
from bolewright.platform.results.results import Results, find_results
from bolewright.sheets.brief.holds import hold_points

LOOKOUT = (Path(__file__).parents[2] / "calcsheets" / "lookout.toml").read_text(encoding="utf-8")
EMBEDDED = 'embedment = "7 in"        # in sound wood, full thread\n'


@lru_cache
def out_by(more: float) -> Results:
    assert LOOKOUT.count(EMBEDDED) == 1
    return find_results(parse_project(LOOKOUT.replace(EMBEDDED, f'{EMBEDDED}slide = "{more} in"\n')))


def worst(results: Results, mark: str) -> float:
    keys = (
        "steel_bending",
        "steel_biaxial",
        "wood_yield",
        "wood_yield_lateral",
        "wood_pressure",
        "steel_shear",
    )
    of = ("wood_pressure_lateral", *keys)
    return max(c.ratio for c in results.checks if c.part == mark and c.key.removeprefix("tree_bolt.") in of)


@pytest.mark.parametrize("mark", ["T1", "T2"])
def test_a_bearing_that_far_out_comes_just_to_its_limit(mark: str) -> None:
    left = lever_left(out_by(0.0), mark).left
    assert 1 / 8 < left < 1 / 2
    # A longer arm makes the bolts softer, so that they draw a little less: what is left is on the safe side of 1.
    assert 0.98 < worst(out_by(round(left, 4)), mark) < 1.003
    assert worst(out_by(round(left + 1.0, 4)), mark) > 1.0


def test_the_hold_point_allows_no_more_than_that() -> None:
    """Drawn 0.2 in. farther out, T1 has less left than the 1/4 in. that other places of bolts may be off."""
    results = out_by(0.2)
    left = lever_left(results, "T1").left
    assert 1 / 16 < left < 1 / 4
    rows = {
        str(row[1])[:2]: str(row[3])
        for row in hold_points(results).rows
        if "bark to the middle" in str(row[1])
    }
    sixteenths = int(left * 16)
    said = {1: "1/16", 2: "1/8", 3: "3/16"}[sixteenths]
    assert rows["T1"].startswith(f"+ {said} in at most: its pressure on the wood")
