"""Openings at trunks against the 4 in. sphere, and limbs beside the platform: by geometry by hand, open, refused."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.limbs import limb_at, near
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status

TEXT = (Path(__file__).parent / "before" / "one_oak.toml").read_text(encoding="utf-8")


def found(text: str) -> Results:
    return find_results(parse_project(text))


@pytest.fixture(scope="module")
def oak() -> Results:
    return found(TEXT)


def one(results: Results, part: str, key: str, at: str = "") -> Check:
    checks = [c for c in results.checks if c.part == part and c.key == key and (not at or c.at == at)]
    assert len(checks) == 1
    return checks[0]


def test_a_gap_of_two_inches_is_held_to_four(oak: Results) -> None:
    """IRC 2021, R312.1.3: no 4 in. sphere. 2 in. now; growth 0.08 in. a year leaves 1.36 in. after 8 years."""
    check = one(oak, "Q1", "trunk_opening.sphere")
    assert check.ratio == pytest.approx(0.5)
    assert "2.00 in. now, 1.36 in. after 8 years" in check.where
    assert one(oak, "Q1", "trunk_opening.growth").ratio == pytest.approx(0.64 / 2.0)


def test_a_wider_gap_fails(oak: Results) -> None:
    text = TEXT.replace('gap = "2 in"', 'gap = "4 1/2 in"')
    assert one(found(text), "Q1", "trunk_opening.sphere").status is Status.FAILS


def test_the_collar_covers_what_the_trunk_moves_and_grows(oak: Results) -> None:
    """Demand: movement apart, no less than the sway at the floor, with 0.64 in. of growth and 1 in. of bearing."""
    check = one(oak, "Q1", "trunk_opening.travel")
    clearance = one(oak, "OAK", "tree.clearance")  # sway + growth + a margin of 1 in. as well
    assert check.demand == pytest.approx(clearance.demand, rel=0.02)
    assert check.status is Status.PASSES


@pytest.mark.parametrize(
    ("old", "key"),
    [
        ('gap = "2 in"', "sphere"),
        ('gap = "2 in"', "growth"),
        ('overlap = "2 1/4 in"', "travel"),
        ('rated_load = "375 lb"', "load"),
    ],
)
def test_what_is_not_given_is_open(old: str, key: str) -> None:
    assert one(found(TEXT.replace(old, "")), "Q1", f"trunk_opening.{key}").status is Status.NOT_CHECKED


def test_boards_alone_are_held_by_the_hole_itself() -> None:
    """A square hole of 39 in. round a trunk of 88 in. girth: its corner is 19 1/2 sqrt(2) - 88/(2 pi) off the bark."""
    start = TEXT.index("[[trunk_opening]]")
    text = TEXT[:start] + '[[trunk_opening]]\nmark = "Q1"\naround = "OAK"\ncover = "boards"\n'
    check = one(found(text), "Q1", "trunk_opening.sphere")
    assert check.demand == pytest.approx(19.5 * math.sqrt(2) - 88 / (2 * math.pi), rel=2e-3)
    assert check.status is Status.FAILS


def test_a_leaning_limb_is_nearest_where_it_is_nearest(oak: Results) -> None:
    """From y = 62 at 96 in. to y = 66 at 168 in., the deck's edge at y = 44; thickness 8 to 6 in.

    Beside the floor, 108 in. up, the axis is at 62 + 12/72 x 4 and the radius 4 - 12/72; lower down it is nearer to the
    deck's edge but below the boards. The guard is nearest at its foot.
    """
    limb = oak.project.limbs[0]
    (x, y), radius = limb_at(limb, 108.0)
    assert (x, y, radius) == pytest.approx((30 + 10 / 6, 62 + 4 / 6, 4 - 1 / 6))
    for what, clear, level in near(oak.path.layout, limb):
        by_hand = min(
            math.hypot(62 + 4 * t - 44, max(0.0, *(_off(96 + 72 * t, what)))) - (4 - t)
            for t in (n / 1000 for n in range(1001))
        )
        assert clear == pytest.approx(by_hand, abs=0.25), what
        assert 96 <= level <= 168


def _off(level: float, what: str) -> tuple[float, float]:
    low, high = (108.0, 144.0) if what == "the guard" else (90.0, 108.0)
    return low - level, level - high


def test_a_limb_without_sway_is_open_and_one_in_the_deck_fails() -> None:
    checks = [c for c in found(TEXT.replace('sway = "3 in"', "")).checks if c.part == "L1"]
    assert {c.status for c in checks} == {Status.NOT_CHECKED}
    inside = found(TEXT.replace('from = ["30 in", "62 in"]', 'from = ["30 in", "42 in"]'))
    assert one(inside, "L1", "limb.clearance", "the floor and its framing").status is Status.FAILS


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('around = "OAK"', 'around = "ELM"', "'ELM' is no tree or limb of this file"),
        ('cover = "collar"', 'cover = "glue"', "'glue' is not allowed"),
        ('mark = "L1"', 'mark = "Q1"', "already names"),
        ('start_diameter = "8 in"', 'start_diameter = "8"', "unit"),
    ],
)
def test_a_fault_gets_one_sentence(old: str, new: str, said: str) -> None:
    with pytest.raises(ProjectError) as caught:
        parse_project(TEXT.replace(old, new, 1))
    assert said in str(caught.value)


LADDER = '\n[ladder]\nedge = 2\nrails_over = "36 in"\n'


def way_up(**limb: str) -> Check:
    """The limb's row at a ladder on edge 2, whose flight reaches from x = 42 1/2 out to 71 in., 9 1/2 in. each side."""
    before, own = TEXT.split("[[limb]]")
    for key, value in limb.items():
        own = re.sub(rf"(?m)^{key} = .*$", f"{key} = {value}", own)
    return one(found(f"{before}[[limb]]{own}{LADDER}"), "L1", "limb.way_up")


def test_a_limb_far_from_the_ladder_in_plan() -> None:
    """From (30, 62) to (40, 66), radius 3 to 4 in.: to the flight's corner at (42.5, 9.5) it is 52.5 in. and more."""
    row = way_up()
    assert row.status is Status.PASSES
    axis = math.hypot(30 - 42.5, 62 - 9.5)
    assert axis - 4 - 3 < row.capacity < math.hypot(40 - 42.5, 66 - 9.5) - 3


def test_head_room_under_a_limb_over_the_ladder() -> None:
    """Over the flight with its underside 16 ft up, floor at 9 ft: 84 in. less radius, sway and growth is too little."""
    own = {"from": '["50 in", "-40 in"]', "to": '["50 in", "40 in"]'}
    low = way_up(**own, start_level='"16 ft"', end_level='"16 ft"')
    assert low.status is Status.FAILS
    assert low.demand == 80
    high = way_up(**own, start_level='"18 ft"', end_level='"18 ft"')
    assert high.status is Status.PASSES
    assert high.capacity - low.capacity == pytest.approx(24)
