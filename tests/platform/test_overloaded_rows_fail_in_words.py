"""Rows that are overloaded fail in a sentence each: the shipped platforms under loads that nobody builds for.

Live load 400 psf, snow 300 psf, wind 200 mph (beyond any map of ASCE 7-16 for these places), every rating a twentieth.
"""

from __future__ import annotations

import re
from functools import cache

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

FILES = ("hickory_perch", "lookout", "one_oak", "round_the_trunk", "two_trees")
LOADS = {"live": "400 psf", "ground_snow": "300 psf", "wind_speed": "200 mph"}
# What bears people or keeps them from falling, one row of each way in which it gives: none may hold under such loads.
GIVES = {
    "joist.bending",
    "joist.stage_uplift",
    "beam.bending",
    "beam.bending_lateral",
    "beam.bending_of_ply",
    "beam.plies",
    "beam.rotation",
    "beam.stage_uplift",
    "beam.together",
    "beam.uplift",
    "hanger.rated",
    "platform.in_plane",
    "platform.drift",
    "tree_bolt.bracket_lateral",
    "tree_bolt.fastening",
    "tree_bolt.rated",
    "tree_bolt.together",
    "tree_bolt.steel_bending",
    "tree_bolt.wood_pressure_lateral",
    "post.cap_lateral",
    "post.cap_together",
    "post.at_knee",
    "post.in_ground",
    "footing.embedment",
    "footing.soil",
    "brace.end_on_beam",
    "beam.shear_at_bolts",
    "guard.hold_down",
}


@cache
def failing(name: str) -> tuple[Check, ...]:
    text = (shipped("calcsheets") / f"{name}.toml").read_text(encoding="utf-8")
    for key, value in LOADS.items():
        text, found = re.subn(rf"(?m)^{key} = .*$", f'{key} = "{value}"', text, count=1)
        assert found
    text = re.sub(r'"([\d.]+) lb"', lambda found: f'"{max(float(found[1]) / 20, 1.0):.0f} lb"', text)
    return tuple(c for c in find_results(parse_project(text)).checks if c.status is Status.FAILS)


@pytest.mark.parametrize("name", FILES)
def test_each_says_that_it_fails_and_by_how_much(name: str) -> None:
    for check in failing(name):
        assert re.search(r"\bfails\b|by the worse of the two it fails", check.sentence), check.sentence
        assert check.sentence.endswith("."), check.sentence
        assert not re.search(r"\b(nan|inf|None)\b|[<>{}]|[\d,]{7}", check.sentence), check.sentence
        assert check.shown_ratio not in ("0.00", "1.00", "open")
        over = re.search(r"(\d+) % over what is allowed", check.sentence)
        if over:
            assert int(over[1]) == round(100 * float(check.shown_ratio)) - 100, check.sentence


def test_no_way_of_giving_is_left_out() -> None:
    kinds = {check.key for name in FILES for check in failing(name)}
    assert sorted(GIVES - kinds) == []
    assert len(kinds) > 100
