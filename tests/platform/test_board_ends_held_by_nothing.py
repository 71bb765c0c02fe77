"""Ends of boards that nothing holds down: open, with what would help (common practice; statics of a lever)."""

from __future__ import annotations

from pathlib import Path

from bolewright.platform.file.reading import parse_project
from bolewright.platform.loads.free_ends import FreeEnd
from bolewright.platform.results.results import find_results
from bolewright.sheets.support_tables import held_down
from bolewright.status import Status

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")


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


def test_the_table_says_no_more_than_the_checks() -> None:
    """What is let be asks for nothing, what is open says so: the corner 11/16 in. past S1, and that 4 in. past S2."""
    held = held_down(FreeEnd("edge 4", "S1", 11 / 16, (), under=False))
    assert "let be" in held
    assert "common practice" in held
    assert "open" in held_down(FreeEnd("edge 3", "S2", 4.0, (), under=False))
    assert held_down(FreeEnd("edge 3", "J2", 4.0, ("J1",))) == "J1"


def test_no_code_limits_the_deflection_of_boards() -> None:
    """IRC Table R301.7 and IBC Table 1604.3 limit floors and what carries them, not the boards (from memory)."""
    check = next(c for c in find_results(parse_project(DEMO)).checks if c.key == "decking.live_deflection")
    assert check.clause == "Common practice (L/180)"
