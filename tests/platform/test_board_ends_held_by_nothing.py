"""Ends of boards that nothing holds down: open, with what would help (common practice; statics of a lever)."""

from __future__ import annotations

import re
from pathlib import Path

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.loads.balance import middle
from bolewright.platform.loads.free_ends import FreeEnd
from bolewright.platform.loads.spots import Spot, find_spots
from bolewright.platform.results.results import find_results
from bolewright.sheets.support_tables import held_down
from bolewright.status import Status

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")
STEEPER = """[["36 in", "20 in"], ["66 in", "83 in"], ["66 in", "96 3/4 in"],
    ["-66 in", "96 3/4 in"], ["-66 in", "83 in"], ["-36 in", "20 in"]]"""


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


def test_boards_end_on_a_rim_that_runs_on_over_a_joist() -> None:
    """Rims 1 1/2 in. wide along edges at 68.6 degrees to the joists: the boards end on them, at the joists too.

    The rim's middle line is 0.75/cos 68.6 = 2.05 in. from the edge, along the boards, more than the 1 1/2 in. that
    boards may end past a member; its outer face is at the edge.
    """
    with_rims = (shipped("calcsheets") / "hickory_perch.toml").read_text(encoding="utf-8")
    found = find_results(parse_project(with_rims)).checks
    assert not [c for c in found if c.key == "platform.board_ends"]
    bare = re.sub(r"\[\[blocking\]\]\nmark = \"R[AB]\".*?(?=\n\[)", "", with_rims, flags=re.DOTALL)
    assert bare != with_rims
    opened = {c.at for c in find_results(parse_project(bare)).checks if c.key == "platform.board_ends"}
    assert {"edge 2, past J7", "edge 4, past J7"} <= opened


def test_one_person_at_a_joist_s_tip_loads_the_rim_there_by_the_boards_lever() -> None:
    """A taper of 25.5 degrees. A pound on a board 3/4 in. square past the rim, held down by the joist there.

    That is nearer than 6 in. and counts so, 0.75/6 more; the joist inward of it holds as much again (statics of the
    lever): from 1 + 0.75/6 to 1 + 1.5/6 at the rim's end, not the half of it that deck beside would leave.
    """
    text = (shipped("calcsheets") / "hickory_perch.toml").read_text(encoding="utf-8")
    steep = re.sub(r"(?s)outline = \[.*?\n\]", f"outline = {STEEPER}", text).partition("\n[[guard]]")[0]
    layout = find_layout(parse_project(steep))
    rim = layout.member("RA1")
    far = rim.seats[-1].at - rim.seats[0].at

    def at_far_end(spot: Spot) -> float:
        return sum(
            share.part * (middle(share.load) - rim.seats[0].at) / far
            for share in spot.shares
            if share.member == rim.mark
        )

    most = max(at_far_end(spot) for spot in find_spots(layout))
    assert 1 + 0.75 / 6 <= most <= 1 + 1.5 / 6
