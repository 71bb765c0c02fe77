"""Ends of boards that nothing holds down: open, with what would help (common practice; statics of a lever)."""

from __future__ import annotations

from bolewright.paths import shipped
from bolewright.platform.reading import parse_project
from bolewright.platform.results import find_results
from bolewright.status import Status

DEMO = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")


def test_a_corner_that_reaches_past_its_only_member_is_open() -> None:
    """The far corner 4 in. farther out than S2, with no member under it: a foot there tips the boards off S2."""
    wide = DEMO.replace('["74 1/2 in", "134 in"]', '["80 in", "134 in"]')
    assert wide != DEMO
    found = [c for c in find_results(parse_project(wide)).checks if c.key == "platform.board_ends"]
    assert found
    assert {c.status for c in found} == {Status.NOT_CHECKED}
    assert all("blocking" in c.sentence and "trim" in c.sentence for c in found)
    assert any("past S2" in c.sentence for c in found)


def test_boards_that_end_an_inch_past_their_last_member_are_not() -> None:
    """The demonstration's corners stand out 3/4 in.: an inch or two is common practice."""
    found = find_results(parse_project(DEMO)).checks
    assert not [c for c in found if c.key == "platform.board_ends"]
