"""Drawn files: each gives sentences, or results with finite numbers; never a traceback.

BOLEWRIGHT_FUZZ_FIRST draws others; ``many_files.py`` draws many.
"""

from __future__ import annotations

import copy
import os
from collections.abc import Callable

import pytest
from drawn_files import Raw, file_text, seeds, to_toml
from drawn_outcome import BEYOND_PAPER, outcome_of, tally

COUNT = 200  # many_files.py draws a hundred thousand
FIRST = int(os.environ.get("BOLEWRIGHT_FUZZ_FIRST", "0"))


def test_drawn_files_give_sentences_or_finite_numbers():
    wrong, outcomes = [], []
    for number in range(FIRST, FIRST + COUNT):
        try:
            outcomes.append(outcome_of(file_text(number), everything=number % BEYOND_PAPER == 0))
        except Exception as error:
            wrong.append(f"file {number}: {type(error).__name__}: {str(error)[:200]}")
    assert not wrong, "\n".join(wrong)
    ways = tally(outcomes)
    assert min(ways[kind] for kind in ("faults", "layout", "results")) > COUNT / 20  # all three are met


def test_a_number_always_gives_the_same_file():
    assert file_text(7) == file_text(7)
    assert len({file_text(number) for number in range(60)}) > 55
    assert len(seeds()) > 20


def _joist_on_the_edge(raw: Raw) -> None:
    raw["joists"][0]["last"] = "-0.1 in"


def _opening_at_the_edge(raw: Raw) -> None:
    raw["platform"]["openings"] = [
        [
            [f"{x} in", f"{y} in"]
            for x, y in ((-25.42, 32.94), (-13.42, 32.94), (-13.42, 44.94), (-25.42, 44.94))
        ]
    ]


def _trunk_that_the_deck_touches(raw: Raw) -> None:
    raw["tree"][0]["at"][1] = "4 in"


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("skewed_and_reentrant", _joist_on_the_edge),
        ("overhang", _opening_at_the_edge),
        ("overhang", _trunk_that_the_deck_touches),
    ],
)
def test_files_that_once_stopped_the_drawings(name: str, change: Callable[[Raw], None]) -> None:
    """A joist along the deck's edge, which has no end on it; a deck that touches a trunk in a line."""
    raw = copy.deepcopy(seeds()[name])
    change(raw)
    assert outcome_of(to_toml(raw), everything=True).kind in ("results", "layout", "faults")
