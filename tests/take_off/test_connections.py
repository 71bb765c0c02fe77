"""The connection schedule: every joint once, every rating of a joint in it, patterns by hand."""

from __future__ import annotations

from collections import Counter

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import read_project
from bolewright.platform.results.results import Results, find_results
from bolewright.sheets.take_off.hardware import HardwareSheet
from bolewright.status import Status
from bolewright.take_off.connections import connection_schedule
from bolewright.take_off.items import inch
from bolewright.take_off.joint import Joint
from bolewright.take_off.tables import take_off_tables
from bolewright.take_off.take_off import find_take_off

FILES = ("one_oak", "hickory_perch", "round_the_trunk", "lookout")
# Ratings of what is no joint: force between trunks, spans and loads of boards by their maker.
NO_JOINT = {
    "tree.restraint",
    "decking.span_limit",
    "decking.load_limit",
    "decking.end_limit",
    "stairs.tread_span",
}


@pytest.fixture(scope="module", params=FILES)
def made(request: pytest.FixtureRequest) -> tuple[Results, tuple[Joint, ...]]:
    results = find_results(read_project(shipped("calcsheets") / f"{request.param}.toml"))
    return results, connection_schedule(results)


def test_every_seat_is_a_joint_once(made: tuple[Results, tuple[Joint, ...]]) -> None:
    results, joints = made
    seats = {f"{m.mark} at {s.below}" for m in results.path.layout.members for s in m.seats}
    listed = Counter(part for joint in joints for part in joint.parts)
    assert seats <= set(listed)
    assert max(listed[part] for part in seats) == 1
    assert [joint.number for joint in joints] == list(range(1, len(joints) + 1))


def test_every_rating_of_a_joint_stands_in_one_row(made: tuple[Results, tuple[Joint, ...]]) -> None:
    """What the user typed in for a joint is held against what is asked of it in exactly one row."""
    results, joints = made
    rows = Counter(id(check) for joint in joints for check in joint.checks)
    for check in results.checks:
        if check.rests_on_rating and check.key not in NO_JOINT:
            assert rows[id(check)] == 1, (check.part, check.key, check.at)
    assert max(rows.values()) == 1


def test_what_is_open_says_so(made: tuple[Results, tuple[Joint, ...]]) -> None:
    for joint in made[1]:
        opened = any(check.status is Status.NOT_CHECKED for check in joint.checks)
        assert (joint.basis == "open") == opened
        if opened:  # what is open is shown in place of a number of its like
            assert any(check.status is Status.NOT_CHECKED for check in joint.governing)
            continue
        worst = max((c.ratio for c in joint.checks if c.ratio == c.ratio), default=0.0)
        assert max((c.ratio for c in joint.governing if c.ratio == c.ratio), default=0.0) == pytest.approx(
            worst
        )


def test_a_guard_post_by_hand() -> None:
    """4x6 on a 2x8 (7 1/4 in.), bolts 1 1/2 in. from its edges: 4 1/4 in. apart, 1 3/4 in. to the post's sides."""
    results = find_results(read_project(shipped("calcsheets") / "one_oak.toml"))
    joint = next(j for j in connection_schedule(results) if j.kind.startswith("guard post"))
    assert joint.pattern.startswith(
        "1 1/2 in. from both edges, 4 1/4 in. apart, 1 3/4 in. to the post's sides"
    )
    assert len(joint.parts) == sum(len(run.posts) for run in results.path.layout.guards)
    assert {c.key for c in joint.governing} >= {
        "guard.hold_down",
        "guard.lower_tie",
        "guard.bolt",
        "guard.plate",
    }
    assert joint.basis == "rating and calculation"


def test_a_joint_that_only_locates() -> None:
    """Deck boards are screwed by the code's table: no force of the calculation goes through the screws."""
    results = find_results(read_project(shipped("calcsheets") / "one_oak.toml"))
    joint = next(j for j in connection_schedule(results) if j.kind == "deck board to joist")
    assert joint.basis == "locates only"


def test_printed_and_exported() -> None:
    """The sheet has a row for each joint; the tables one for each limit state that asks, with numbers as numbers."""
    results = find_results(read_project(shipped("calcsheets") / "one_oak.toml"))
    joints = connection_schedule(results)
    printed = HardwareSheet(results).connections()
    assert [row[0] for row in printed.rows] == [str(joint.number) for joint in joints]
    post = next(row for row in printed.rows if row[1].startswith("guard post"))
    # 7 in. past the last post, 18 in. from the next: 200 x 25 / 18 = 277.8 lb, and by the joint's levers 2,480 lb
    assert "hold-down of the upper bolt: 2,480 lb of 3,100 lb" in post[3]
    table = next(t for t in take_off_tables(find_take_off(results)) if t.name == "Connections")
    assert {row[0] for row in table.rows} == {joint.number for joint in joints}
    row = next(r for r in table.rows if r[9] == "hold-down of the upper bolt")
    assert row[11] == pytest.approx(2480.2, abs=0.1)
    assert row[12:14] == (3100.0, "lb")


def test_nails_and_bolts_have_their_size() -> None:
    """NDS 2018, Appendix L: a 16d common nail is 0.162 by 3 1/2 in.; a guard bolt goes through 3 1/2 + 1 1/2 in."""
    joints = connection_schedule(find_results(read_project(shipped("calcsheets") / "two_trees.toml")))
    nailed = [j for j in joints if j.kind == "blocking or rim, nailed"]
    assert nailed
    assert all(j.fastener == "16d nail, 0.162 x 3 1/2 in." for j in nailed)
    posts = [j.fastener for j in joints if j.kind.startswith("guard post")]
    assert any("5 in. of wood" in fastener for fastener in posts)
    kinds = {j.kind for j in joints}
    assert {"rail to stile of a gate", "baluster to the leaf of a gate", "grab bar of a ladder"} <= kinds


def test_bolts_of_a_brace_from_the_trunk_have_their_places() -> None:
    """NDS 2018, Tables 12.5.1A and B as the check takes them: 4 D apart, 7 D from the end."""
    results = find_results(read_project(shipped("calcsheets") / "one_oak.toml"))
    head = next(j for j in connection_schedule(results) if j.kind == "head of a brace from the trunk")
    D = next(iter(results.project.struts.values())).bolt_diameter
    assert D is not None
    assert f"{inch(4 * D)} apart, {inch(7 * D)} from" in head.pattern
