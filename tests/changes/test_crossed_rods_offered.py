"""Crossed rods as a change that would help: offered where posts drift across their beams, thicker or rated higher."""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

from many_variants import results_of

from bolewright.changes.change import Change
from bolewright.changes.ways import ways
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results
from bolewright.status import Status

FILE = Path(__file__).parents[1] / "platform" / "arrangements" / "crossed_rods.toml"
DATA = tomllib.loads(FILE.read_text(encoding="utf-8"))


def check_of(results: Results, part: str, key: str) -> Check:
    return next(c for c in results.checks if (c.part, c.key) == (part, key))


def offers(data: dict[str, Any], part: str, key: str) -> list[Change]:
    results = results_of(data)
    return [change for way in ways(data, results, check_of(results, part, key)) for change in way]


def test_rods_are_offered_where_posts_drift_and_bring_it_home() -> None:
    bare = copy.deepcopy(DATA)
    del bare["crossed_rods"]
    found = [c for c in offers(bare, "platform", "platform.drift") if c.words.startswith("Crossed rods")]
    assert [c.words for c in found] == [
        "Crossed rods of 5/8 in, their ends rated 4,000 lb, between P1 and P3 and P2 and P4"
    ]
    after = results_of(found[0].made(bare))
    assert check_of(after, "platform", "platform.drift").status is Status.PASSES
    assert len(after.project.crossed_rods) == 2


def test_none_is_offered_where_rods_stand() -> None:
    assert not [c for c in offers(DATA, "platform", "platform.drift") if c.words.startswith("Crossed rods")]


def test_a_failing_rod_is_made_thicker_and_its_ends_rated_higher() -> None:
    weak = copy.deepcopy(DATA)
    weak["crossed_rods"][0] |= {"rated_load": "500 lb", "F_y": "3000 psi"}
    results = results_of(weak)
    for key in ("crossed_rods.ends", "crossed_rods.tension"):
        assert check_of(results, "XR1", key).status is Status.FAILS
        changes = offers(weak, "XR1", key)
        assert any(
            check_of(results_of(change.made(weak)), "XR1", key).status is Status.PASSES for change in changes
        )
