"""Posts of a stairs' rail, loads at a place and limbs as they are set out and listed: by hand, on the tape."""

from __future__ import annotations

import math
from functools import lru_cache
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import Layout, find_layout
from bolewright.platform.layout.stair_rails import stair_rail
from bolewright.setting_out.things import limbs, things
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.setting_out.access import access_blocks
from bolewright.take_off.access import stair_items, stair_lengths

SHIPPED = Path(__file__).parents[2] / "calcsheets"
RAIL = "of the stairs' rail"


@lru_cache
def layout_of(name: str, old: str = "", new: str = "") -> Layout:
    text = (SHIPPED / f"{name}.toml").read_text(encoding="utf-8")
    assert old in text
    return find_layout(parse_project(text.replace(old, new, 1)))


def test_posts_of_the_rail_by_hand() -> None:
    """52 in. up in 7 risers of 7.429 on runs of 10: six noses, five steps of hypot(7.429, 10) = 12.457 in. from the
    lowest to the one below the floor, 62.29 in.: two bays of at most 60 in.
    """
    rail = stair_rail(layout_of("hickory_perch"))
    assert rail is not None
    step = math.hypot(52 / 7, 10)
    assert rail.sides == 2
    assert rail.places == pytest.approx((0, 2.5 * step, 5 * step))
    # 36 in. over the noses, a 2x tread, and a 2x12 plumb on a slope of atan(0.7429).
    assert rail.post == pytest.approx(36 + 1.5 + 11.25 * math.hypot(1, 5.2 / 7))


@pytest.mark.parametrize(
    ("old", "new", "sides", "bays"),
    [
        ('handrail = "both sides"', 'rail_spacing = "63 in"\nhandrail = "both sides"', 2, 1),
        ('handrail = "both sides"', 'rail_spacing = "31 in"\nhandrail = "both sides"', 2, 3),
        ('handrail = "both sides"', 'handrail = "one side"', 2, 2),  # a guard stands on both
        ('handrail = "both sides"\nhandrail_height = "36 in"\nguard_height = "36 in"',
         'handrail = "one side"\nhandrail_height = "36 in"', 1, 2),
    ],
)  # fmt: skip
def test_as_many_as_the_spacing_wants(old: str, new: str, sides: int, bays: int) -> None:
    rail = stair_rail(layout_of("hickory_perch", old, new))
    assert rail is not None
    assert (rail.sides, len(rail.places)) == (sides, bays + 1)


def test_none_without_a_post() -> None:
    assert stair_rail(layout_of("hickory_perch", 'rail_post = "4x4"\n', "")) is None
    assert stair_rail(layout_of("lookout")) is None


@pytest.mark.parametrize(("stringers", "blocks"), [(3, 6), (2, 3)])
def test_sticks_and_hardware(stringers: int, blocks: int) -> None:
    """Six posts; a block behind each, between two stringers one for both sides; two bolts, washers, ties to a post."""
    layout = layout_of("hickory_perch", "stringers = 3", f"stringers = {stringers}")
    sticks = {x.use: x for x in stair_lengths(layout)}
    assert sticks[f"post {RAIL}"].count == 6
    assert sticks[f"post {RAIL}"].timber.section == "4x4"
    assert sticks[f"block {RAIL}"].count == blocks
    assert sticks[f"block {RAIL}"].length == pytest.approx((36 - 1.5) / (stringers - 1) - 1.5)
    counts = {item.name: item.count for item in stair_items(layout)}
    assert [counts[f"{what} {RAIL}"] for what in ("bolt", "washer", "tie")] == [12, 12, 12]


SWING = """[[point_load]]
mark = "SW"
form = "swing"
member = "J10"
along = "44 in"
direction = "90 deg"
weight = "100 lb"
angle = "45 deg"

[[blocking]]"""


def test_a_swing_by_hand() -> None:
    """J10 lies 3/4 in. inside the edge at x = -44, from y = -44; edge 1 runs along y = -44 from x = -44.

    2x8 joists under 2x boards: the floor at 108 in. less 1 1/2 and 7 1/4 is the level of its underside.
    """
    (swing,) = things(layout_of("one_oak", "[[blocking]]", SWING))
    assert (swing.mark, swing.member, swing.along, swing.other_end) == ("SW", "J10", 44, None)
    assert (swing.place.along, swing.place.inside) == pytest.approx((0.75, 44))
    assert swing.level == pytest.approx(108 - 1.5 - 7.25)


def test_what_stands_on_the_deck_is_taped_from_edge_1_whichever_way_the_outline_runs() -> None:
    thing = '[[point_load]]\nmark = "PT"\nat = ["-30 in", "20 in"]\nweight = "50 lb"\n\n[[blocking]]'
    (pot,) = things(layout_of("one_oak", "[[blocking]]", thing))
    assert (pot.place.along, pot.place.inside, pot.level) == pytest.approx((14, 64, 108))
    ring = '    ["44 in", "-44 in"],\n    ["44 in", "44 in"],\n    ["-44 in", "44 in"],\n'
    other = '    ["-44 in", "44 in"],\n    ["44 in", "44 in"],\n    ["44 in", "-44 in"],\n'
    text = (SHIPPED / "one_oak.toml").read_text(encoding="utf-8")
    assert ring in text
    turned = text.replace(ring, other, 1)
    # Edge 1 then runs along x = -44, up: 64 along it, 14 in. Guards, gate and ladder name edges: without them.
    for table in (r"[[guard]]", "[[gate]]", "[ladder]"):
        while table in turned:
            start = turned.index(table)
            ends = [turned.find(f"\n{mark}", start + 1) for mark in ("[[", "[")]
            turned = turned[:start] + turned[min((e for e in ends if e > 0), default=len(turned)) + 1 :]
    found = things(find_layout(parse_project(turned.replace("[[blocking]]", thing, 1))))
    assert (found[-1].place.along, found[-1].place.inside) == pytest.approx((64, 14))


def test_a_limb_at_the_floor_and_the_guard() -> None:
    """On a straight line between its two places: share of the way up at 108 and 144 in."""
    layout = layout_of("one_oak")
    (limb,) = layout.project.limbs
    at_floor, at_guard = limbs(layout)
    for found, level in ((at_floor, 108.0), (at_guard, 144.0)):
        share = (level - limb.start_level) / (limb.end_level - limb.start_level)
        x, y = (a + share * (b - a) for a, b in zip(limb.start, limb.end, strict=True))
        assert (found.place.along, found.place.inside) == pytest.approx((x + 44, y + 44))
        wide = limb.start_diameter + share * (limb.end_diameter - limb.start_diameter)
        assert found.diameter == pytest.approx(wide)


def test_they_are_on_the_sheet() -> None:
    def captions(name: str, *change: str) -> str:
        blocks = access_blocks(layout_of(name, *change), Lengths(Tape.FEET)).items
        return " ".join(str(getattr(block, "caption", "")) for block in blocks)

    assert "Posts of the stairs' rail" in captions("hickory_perch")
    assert "Loads at a place" in captions("one_oak", "[[blocking]]", SWING)
    assert "Loads at a place" in captions("round_the_trunk")
    assert "Loads at a place" not in captions("lookout")
