"""A trunk that bears nothing needs its room as well; of what is known of its bark and sway the worse counts."""

from __future__ import annotations

import re

import pytest
from arrangement_files import DEMO, file_of

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

TEXT = file_of("round_the_trunk").read_text(encoding="utf-8")
LOOKOUT = file_of(DEMO).read_text(encoding="utf-8")
GAP, YEARS, SWAY = "clearance at the trunk", "years to zero clearance in storm sway", "sway"


def checks(text: str) -> dict[tuple[str, str], Check]:
    return {(c.part, c.limit_state): c for c in find_results(parse_project(text)).checks}


def arguments(check: Check, name: str) -> dict[str, object]:
    return [dict(step.arguments) for step in check.steps if step.formula.name == name][-1]


def test_the_gap_of_a_free_trunk_by_hand() -> None:
    """Opening of 40 in., girth 94 in.: 20 - 94 / 2 pi = 5.04 in. Wanted: movement + 0.1 x 10 + 1."""
    found = checks(TEXT)
    gap = found["BEECH", GAP]
    assert gap.status is Status.PASSES
    assert gap.capacity == pytest.approx(5.04, abs=0.005)
    moved = arguments(gap, "gap_needed")["s"]
    assert gap.demand == pytest.approx(float(moved) + 1.0 + 1.0)  # type: ignore[arg-type]
    assert 0.25 < float(moved) < 0.25 + 72 / 200  # type: ignore[arg-type]  # sway, and less than the drift limit
    assert found["BEECH", YEARS].status is Status.PASSES


def test_a_free_trunk_warns_of_roots_and_of_the_foot_that_goes_through() -> None:
    notes = checks(TEXT)["BEECH", GAP].notes
    assert notes[0].startswith("A qualified arborist looks at the tree first")
    assert "bears nothing" in notes[1]
    assert "5.0 in or more" in notes[2]
    assert "R312.1.3" in notes[2]


def test_a_free_trunk_in_a_tight_opening_fails() -> None:
    text = TEXT.replace('girth = "94 in" ', 'girth = "114 in"')
    gap = checks(text)["BEECH", GAP]
    assert gap.status is Status.FAILS
    assert gap.capacity == pytest.approx(20 - 114 / (2 * 3.14159265), abs=0.005)


def test_a_free_trunk_of_unknown_sway_is_not_checked() -> None:
    unknown = re.sub(r"\n(?:sway_seen|sway_seen_at|crown_area|crown_center) = [^\n]*", "", TEXT)
    assert checks(unknown)["BEECH", SWAY].status is Status.NOT_CHECKED


def test_a_trunk_far_from_the_platform_asks_for_nothing() -> None:
    far = re.sub(r"\n(?:sway_seen|sway_seen_at|crown_area|crown_center) = [^\n]*", "", TEXT)
    far = far.replace('at = ["72 in", "72 in"]', 'at = ["300 in", "72 in"]')
    assert not [key for key in checks(far) if key[0] == "BEECH"]


OUTLINE = """
[[outline]]
tree = "BEECH"
points = [["56 in", "60 in"], ["88 in", "60 in"], ["88 in", "84 in"], ["56 in", "84 in"]]
"""


def test_a_measured_outline_counts_and_the_circle_beside_it_for_timbers() -> None:
    """Measured: 4 in. from the opening's sides at x; the circle is nearer to the headers: 21.5 - 1.5 - 14.96."""
    round_ = checks(TEXT)["BEECH", GAP]
    measured = checks(TEXT + OUTLINE)["BEECH", GAP]
    assert measured.capacity == pytest.approx(4.0, abs=0.01)
    assert measured.capacity < round_.capacity
    small = OUTLINE.replace("56", "66").replace("88", "78").replace("60", "66").replace("84", "78")
    assert checks(TEXT + small)["BEECH", GAP].capacity == pytest.approx(
        21.5 - 1.5 - 94 / (2 * 3.14159265), abs=0.01
    )


def test_the_larger_of_sway_seen_and_sway_by_crown_wind_counts() -> None:
    """Crown wind is in proportion to the crown's front, and so is the sway that it gives."""

    def sway(area: int) -> tuple[float, tuple[str, ...]]:
        text = LOOKOUT.replace('crown_area = "320 ft2"', f'crown_area = "{area} ft2"')
        check = checks(text)["OAK", GAP]
        names = [step.formula.name for step in check.steps]
        assert "sway_from_crown_wind" in names
        return float(arguments(check, "greater_movement")["s"]), check.notes  # type: ignore[arg-type]

    seen, notes = sway(320)
    assert seen == pytest.approx(0.25)
    assert not any("more than was seen" in note for note in notes)
    large, notes = sway(1200)
    assert large == pytest.approx(0.893, abs=0.001)  # 1200 ft2: twice the 0.4465 in. of 600 ft2
    assert any("0.89 in" in note and "more than was seen, so it counts" in note for note in notes)
