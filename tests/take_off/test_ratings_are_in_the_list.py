"""A builder buys what the checks count on: every rating of a connector, and the bolts that the concrete hides."""

from __future__ import annotations

import re

import pytest

from bolewright.drawings.sections import post_sections
from bolewright.paths import shipped
from bolewright.platform.file.ratings import ratings_of
from bolewright.platform.file.reading import read_project
from bolewright.platform.results.results import Results, find_results
from bolewright.setting_out.ground import ground_plan
from bolewright.sheets.brief.holds import hold_points
from bolewright.sheets.brief.memory import memory_table
from bolewright.sheets.brief.ratings import checks_on
from bolewright.take_off.connections import connection_schedule
from bolewright.take_off.hardware import hardware_list


@pytest.fixture(scope="module")
def lookout() -> Results:
    return find_results(read_project(shipped("calcsheets") / "lookout.toml"))


def test_every_rating_that_a_check_rests_on_is_in_the_hardware_list(lookout: Results) -> None:
    said = " ".join(f"{item.name} {item.size}" for item in hardware_list(lookout))
    tables = {"bolt", "support", "post", "beam", "joists", "connection", "diagonal"}
    asked = [
        rating
        for rating in ratings_of(lookout.project)
        if rating.table in tables and any(check.demand > 0 for check in checks_on(lookout, rating))
    ]
    assert len(asked) >= 8
    assert [r.words for r in asked if not re.search(rf"\b{r.load:,.0f} lb", said)] == []


def test_the_angles_name_what_holds_against_rotation(lookout: Results) -> None:
    (angle,) = (item for item in hardware_list(lookout) if item.name == "angle, beam on beam")
    beam = lookout.project.beams[0]
    assert f"{beam.lateral_tie:,.0f} lb lateral" in angle.size
    assert f"{beam.rotation_tie:,.0f} lb in tension, against rotation" in angle.size


def test_bolts_of_the_feet_are_bought_set_out_drawn_and_held_for(lookout: Results) -> None:
    """5/8 in. through a 6x6: 5 1/2 + 2 x 6 x 5/8 = 13 in.; 7 x 5/8 = 4 3/8 in. above the end.

    NDS 2018, 12.3.1 and Table 12E (six diameters in the concrete), Table 12.5.1A (seven diameters of end distance).
    """
    (item,) = (item for item in hardware_list(lookout) if item.name == "bolt through the post's foot")
    assert item.count == 2
    assert item.size.startswith("5/8 in. x 1' 1\"")
    plan = ground_plan(lookout.path.layout)
    assert plan is not None
    heights = {c.what: c.wanted for c in plan.closings if "through its foot" in c.what}
    assert heights["P1: bolt through its foot, middle above the post's end"] == pytest.approx(4.375)
    assert heights["P2: bolt through its foot, out of the post into the concrete on both sides"] == 3.75
    (drawing,) = post_sections(lookout)
    assert "Through the post's foot, before the concrete" in " ".join(map(str, drawing.heading)) + drawing.alt
    points = [row for row in hold_points(lookout).rows if "feet of P1, P2" in str(row[1])]
    assert [str(row[0]) for row in points] == ["3 before the concrete"]


def test_a_beam_s_joint_to_its_bracket_shows_no_rating_of_another_part(lookout: Results) -> None:
    (joint,) = (j for j in connection_schedule(lookout) if j.kind == "beam on a tree bolt")
    assert not any(check.key == "beam.rotation_joists" for check in joint.checks)
    assert "no check is made of them" in joint.pattern
    hung = [j for j in connection_schedule(lookout) if j.kind == "joist in a hanger"]
    assert any(check.key == "beam.rotation_joists" for j in hung for check in j.checks)


def test_work_stops_for_clips_ties_angles_straps_and_projection(lookout: Results) -> None:
    said = " ".join(f"{row[1]} {row[2]}" for row in hold_points(lookout).rows)
    beam, post = lookout.project.beams[0], lookout.project.posts["P6"]
    clip = next(s.uplift_tie for s in lookout.path.layout.supports if s.mark == "T1")
    seen = "every hole filled, rating on the tag"
    for words in (
        f"clips or ties at T1, T2: {seen} {clip:,.0f} lb uplift",
        f"caps and ties of P1, P2: {seen} {post.cap_lateral:,.0f} lb lateral on the cap, {post.rotation_tie:,.0f} lb",
        f"angles of S1 where it crosses beams, both sides: {seen} {beam.lateral_tie:,.0f} lb lateral",
        f"{beam.rotation_tie:,.0f} lb against rotation",
        "strap X1 in plan",
        "strap X2 in plan",
        "T1: bark to the middle of its bearing",
    ):
        assert words in said


def test_a_skewed_hanger_s_rating_is_said_to_be_for_its_skew(lookout: Results) -> None:
    """S1 runs off 41 1/16 in 139 (16.5 deg), S2 57 15/16 in 139 (22.6 deg): one rating for both is to be confirmed."""
    notes = {note for check in lookout.checks if check.key == "hanger.rated" for note in check.notes}
    (said,) = (note for note in notes if "skew" in note)
    assert said.startswith(
        "Hanger HJ is set at a skew of 16.5°, 22.6°: its rating has to be its maker's for that skew"
    )
    assert "by the file it holds up to 23°" in said
    assert (
        len([row for row in memory_table(lookout).rows if "Hanger HJ is set at a skew" in str(row[0])]) == 1
    )
