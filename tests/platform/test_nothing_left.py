"""Where next to nothing is left to bear a load the sentence says so in words; there is no number then."""

from __future__ import annotations

import re

import pytest
from arrangement_files import ARRANGEMENTS, DEMO, file_of

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

ROUND = file_of("round_the_trunk").read_text(encoding="utf-8")
LOOKOUT = file_of(DEMO).read_text(encoding="utf-8")


def checks(text: str) -> tuple[Check, ...]:
    return find_results(parse_project(text)).checks


def test_no_gap_is_said_in_words() -> None:
    found = checks(
        ROUND.replace('girth = "94 in" ', 'girth = "125.7 in"')
    )  # radius 20 in. in a hole of 40 in.
    gap = next(c for c in found if c.part == "BEECH" and c.limit_state == "clearance at the trunk")
    assert gap.status is Status.FAILS
    assert gap.shown_ratio == "none left"  # 0 in. of gap: a ratio would be without sense
    assert gap.sentence.startswith("BEECH fails: nothing is left of the gap to the decking; ")
    years = next(
        c for c in found if c.part == "BEECH" and c.limit_state.startswith("years to zero clearance")
    )
    assert "already now" in years.sentence


def test_a_post_that_buckles_is_said_in_words() -> None:
    text = LOOKOUT.replace('section = "6x6"', 'section = "2x6"').replace(
        'live = "60 psf"', 'live = "250 psf"'
    )
    found = [
        c
        for c in checks(text)
        if c.limit_state.startswith("combined axial load and bending") and c.ratio > 100
    ]
    assert found
    assert all("buckles under the weight on it alone" in c.sentence for c in found)


@pytest.mark.parametrize(
    "name", [DEMO, "lookout_too_small", "hickory_perch", "round_the_trunk", "two_trees", *ARRANGEMENTS]
)
def test_no_sentence_has_an_absurd_number(name: str) -> None:
    for check in checks(file_of(name).read_text(encoding="utf-8")):
        numbers = [
            float(n.replace(",", "")) for n in re.findall(r"([\d,]+(?:\.\d+)?) (?:%|times)", check.sentence)
        ]
        assert all(n <= 200 for n in numbers), check.sentence
