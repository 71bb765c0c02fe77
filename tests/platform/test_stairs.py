"""Stairs: stringers and treads against worked examples by statics, and against the spans that are published.

The examples [S1] to [S5] stand in the project's reference folder: a 36 in. stair of 2x12 Southern Pine No.2 in the
weather, 10 psf dead and 40 psf live, a stringer that carries 18 in. of width.
"""

import math
import re
from dataclasses import replace
from pathlib import Path

import pytest
from arrangement_files import file_of

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.actions import ActionKind
from bolewright.platform.layout.layout import LayoutError, find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status
from bolewright.timber.bearing import bearing_at_angle
from bolewright.timber.deflection import line_load
from bolewright.timber.stairs import patch_moment, stringer_deflection, stringer_throat

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
STAIRS = """
[stairs]
edge = 3
width = "37 1/2 in"       # three 1 1/2 in. stringers, 18 in. on centre
top = "one riser down"
highest_riser = "7 1/2 in"
tread_run = "10 in"
dead = "10 psf"
live = "40 psf"
"""


def stair_text(demo_text: str, *lines: str, risers: int = 5) -> str:
    """The demonstration without snow, with stairs of 7 1/2 in. risers; further lines replace those given."""
    head = demo_text[: demo_text.index("[stairs]")].replace('ground_snow = "30 psf"', 'ground_snow = "0 psf"')
    given = [f'foot = "{84 - 7.5 * risers} in"', *lines]
    keys = {line.split(" ")[0] for line in given}
    kept = [line for line in STAIRS.splitlines() if line.split(" ")[0] not in keys]
    return head + "\n".join([*kept, *given]) + "\n"


@pytest.fixture(scope="module")
def demo_text() -> str:
    """The demonstration without its own stairs, ladder or guard on them, its table of stairs at the end."""
    text = DEMO.read_text(encoding="utf-8")
    return re.sub(r"(?ms)^\[(stairs|ladder)\].*?(?=^\[|\Z)", "", text) + "\n[stairs]\n"


def checks_of(text: str) -> dict[str, Check]:
    found = find_results(parse_project(text, "stairs.toml"))
    return {
        check.key.removeprefix("stairs."): check for check in found.checks if check.key.startswith("stairs.")
    }


@pytest.mark.parametrize(
    ("risers", "cut", "uniform", "person", "delta", "limit", "shear"),
    [
        (5, "cut", 0.24187, 0.62887, 0.011426, 0.13889, 891.19),  # [S1]
        (10, "cut", 1.2245, 1.551, 0.29285, 0.3125, 891.19),  # [S2]
        (10, "closed", 0.26667, 0.33778, 0.029762, 0.3125, 1909.7),  # [S3]
    ],
)
def test_stringer_examples(
    demo_text: str,
    risers: int,
    cut: str,
    uniform: float,
    person: float,
    delta: float,
    limit: float,
    shear: float,
) -> None:
    """[S1], [S2], [S3]: bending by the uniform load and under one person, deflection square to the slope, shear."""
    found = checks_of(stair_text(demo_text, f'cut = "{cut}"', risers=risers))
    assert found["stringer_bending"].ratio == pytest.approx(uniform, rel=2e-4)
    assert found["stringer_person"].ratio == pytest.approx(person, rel=2e-4)
    assert found["live_deflection"].demand == pytest.approx(delta, rel=2e-4)
    assert found["live_deflection"].capacity == pytest.approx(limit, rel=2e-4)
    assert found["stringer_shear"].capacity == pytest.approx(shear, rel=2e-4)
    status = Status.FAILS if uniform > 1 else Status.PASSES
    assert found["stringer_bending"].status is status


def test_foot_example(demo_text: str) -> None:
    """[S2]: the foot bears at 53.1 degrees to the grain, 500 psi by Hankinson with the F_c of 1,450 psi taken there.

    The table's F_c for a 2x12 is 1,250 psi (NDS Supplement, Table 4B), which gives 488 psi: the check takes that. One
    person at the foot brings 300 lb in place of the live load, and governs.
    """
    by_example = bearing_at_angle(F_c_star=1450 * 0.8, F_c_perp_p=565 * 0.67, theta=90 - 36.87)
    assert float(by_example) == pytest.approx(499.75, rel=2e-4)
    found = checks_of(stair_text(demo_text, risers=10))["foot_bearing"]
    by_table = float(bearing_at_angle(F_c_star=1250 * 0.8, F_c_perp_p=565 * 0.67, theta=90 - 36.87))
    assert found.demand == pytest.approx((10 * 18 * 90 / 144 / 2 + 300) / (1.5 * by_table), rel=2e-4)


def test_published_spans_are_no_longer_than_ours(demo_text: str) -> None:
    """DCA 6 (second-hand): cut stringers 6 ft 0 in., solid ones 13 ft 3 in., 2x12 at most 18 in. apart.

    [S4]: bending allows 6.45 ft with its throat of 5 in. and 14.52 ft for the whole section; what is published may be
    shorter, never longer.
    """
    w = float(line_load(50.0, 18.0))
    for depth, published, ours in ((5.0, 6.0, 6.455), (11.25, 13.25, 14.524)):
        S = 1.5 * depth**2 / 6
        span = math.sqrt(8 * 750.0 * S / w) / 12
        assert span == pytest.approx(ours, rel=2e-4)
        assert published <= span
    # 6 ft 0 in. of cut stringer by the program itself: seven risers, the throat of 7 1/2 by 10 steps a little deeper.
    found = checks_of(stair_text(demo_text, 'tread_run = "12 in"', risers=7))
    assert found["stringer_bending"].status is Status.PASSES


def test_notch_is_square_to_the_board() -> None:
    """[S4]: 7 3/4 by 10 in. steps leave 5.124 in. of a 2x12, not the 6 3/4 in. of a notch taken as 4 1/2 in."""
    assert float(stringer_throat(11.25, 7.75, 10.0)) == pytest.approx(5.1243, abs=5e-5)


def test_tread_example(demo_text: str) -> None:
    """[S5]: 300 lb on 2 in. of a 2x6 at 16 1/2 in.: 1,162.5 lb in., 563.6 psi against 1,150 psi."""
    assert patch_moment(300.0, 16.5, 2.0) == 1162.5
    found = checks_of(stair_text(demo_text))["tread_bending"]
    # The board's own weight and the bearing that it needs are counted too: a little more.
    assert 563.64 < found.demand < 563.64 * 1.03
    assert found.capacity == pytest.approx(1150.0)


def test_treads_without_a_grade_are_open(demo_text: str) -> None:
    """[S5]: 5/4 boards have no value of their own in the tables: open without their maker's limit."""
    open_ = checks_of(stair_text(demo_text, 'tread_section = "5/4x6"'))
    assert open_["tread_bending"].status is Status.NOT_CHECKED or open_["tread_bending"].ratio > 1
    limited = checks_of(stair_text(demo_text, 'tread_section = "5/4x6"', 'tread_span_limit = "9 in"'))
    assert limited["tread_span"].status is Status.FAILS


@pytest.mark.parametrize("rise", [4.0, 6.0, 7.75])
def test_moment_does_not_depend_on_the_slope_but_deflection_does(rise: float) -> None:
    """Lateral load on a sloped beam: M = w L²/8 whatever the slope, deflection square to it by 1/cos²."""
    theta = math.degrees(math.atan(rise / 10))
    level = float(stringer_deflection(5.0, 90.0, 1.2e6, 18.0, 0.0))
    sloped = float(stringer_deflection(5.0, 90.0, 1.2e6, 18.0, theta))
    assert sloped == pytest.approx(level * (1 + (rise / 10) ** 2))


def test_edge_alone_is_enough(demo_text: str) -> None:
    """One line places stairs; what it leaves out is open, nothing is silently passed over."""
    head = demo_text[: demo_text.index("[stairs]")]
    found = checks_of(head + "[stairs]\nedge = 3\n")
    assert found["place"].status is Status.PASSES
    for key in ("head", "soil", "frost", "landing", "handrail", "guard_height", "guard_opening"):
        assert found[key].status is Status.NOT_CHECKED, key
    assert {check.status for check in found.values()} == set(Status)


def test_stairs_without_an_edge_are_open(demo_text: str) -> None:
    head = demo_text[: demo_text.index("[stairs]")]
    found = checks_of(head + '[stairs]\nfoot = "2 in"\n')
    assert {key: check.status for key, check in found.items()} == {"place": Status.NOT_CHECKED}


def test_ibc_asks_for_more(demo_text: str) -> None:
    """IBC 2021, 1011.5.2: risers to 7 in., treads from 11 in.; 100 psf by its Table 1607.1."""
    text = stair_text(demo_text, risers=10)
    lines = [line for line in text.splitlines() if not line.startswith('live = "40')]
    irc, ibc = (
        checks_of("\n".join(lines).replace('basis = "IRC"', f'basis = "{b}"')) for b in ("IRC", "IBC")
    )
    assert irc["riser"].status is Status.PASSES
    assert ibc["riser"].status is Status.FAILS
    assert ibc["tread_depth"].capacity == 10.0
    assert ibc["tread_depth"].demand == 11.0
    # The uniform load rises from 10 + 40 to 10 + 100 psf.
    assert ibc["stringer_bending"].ratio == pytest.approx(irc["stringer_bending"].ratio * 110 / 50)


def test_ibc_asks_for_rails_and_small_openings_of_low_flights_too(demo_text: str) -> None:
    """From memory. IRC 2021: a handrail from four risers (R311.7.8), 4 in. between open treads above 30 in. of rise
    (R311.7.5.1), 4 3/8 in. in the guard (R312.1.3). IBC 2021: handrails on both sides of every flight (1011.11), 4 in.
    between open treads of all (1011.5.5.3), 4 in. in the guard (1015.4); a landing as deep as the stairs are wide, no
    more than 48 in. (1011.6)."""
    low = stair_text(demo_text, 'landing = "36 in"', risers=3)
    irc, ibc = (checks_of(low.replace('basis = "IRC"', f'basis = "{b}"')) for b in ("IRC", "IBC"))
    assert "handrail" not in irc
    assert ibc["handrail"].status is Status.NOT_CHECKED
    assert "opening" not in irc
    assert ibc["opening"].status is Status.FAILS
    assert (irc["landing"].demand, ibc["landing"].demand) == (36.0, 37.5)  # they are 37 1/2 in. wide
    wide = low.replace('width = "37 1/2 in"', 'width = "60 in"')
    assert checks_of(wide.replace('basis = "IRC"', 'basis = "IBC"'))["landing"].demand == 48.0
    high = stair_text(demo_text, 'guard_opening = "4 1/4 in"', risers=10)
    irc, ibc = (checks_of(high.replace('basis = "IRC"', f'basis = "{b}"')) for b in ("IRC", "IBC"))
    assert irc["guard_opening"].status is Status.PASSES
    assert ibc["guard_opening"].status is Status.FAILS


def test_pad_by_hand(demo_text: str) -> None:
    """Half of 50 psf over 37.5 by 90 in. on a pad of 12 by 37.5 in., 8 in. of concrete."""
    text = stair_text(
        demo_text,
        'pad_length = "12 in"',
        'pad_thickness = "8 in"',
        'pad_depth = "42 in"',
        risers=10,
    )
    found = checks_of(text)
    half = 50 * 37.5 * 90 / 144 / 2
    concrete = 12 * 37.5 * 8 / 1728
    soil = found["soil"]
    assert soil.combination == "D + L"
    assert soil.demand == pytest.approx((half + concrete * 145) / (12 * 37.5 / 144), rel=0.02)
    assert found["frost"].status is Status.PASSES
    shallow = checks_of(text.replace('pad_depth = "42 in"', 'pad_depth = "12 in"'))["frost"]
    assert shallow.ratio == pytest.approx(42 / 12)


def test_stairs_that_do_not_fit_are_refused(demo_text: str) -> None:
    for line, words in (
        ('along = "10 in"', "reach past its ends"),
        ("edge = 1", "run into the trunk of OAK"),
        ("edge = 9", "no edge"),
    ):
        with pytest.raises((LayoutError, ValueError), match=words):
            find_layout(parse_project(stair_text(demo_text, line), "stairs.toml"))


def test_more_stringers_share(demo_text: str) -> None:
    """Five stringers 9 in. apart carry half of what three do."""
    three = checks_of(stair_text(demo_text))["stringer_bending"]
    five = checks_of(stair_text(demo_text, "stringers = 5"))["stringer_bending"]
    assert five.ratio == pytest.approx(three.ratio / 2)
    assert replace(five, ratio=three.ratio).combination == three.combination


def test_half_of_the_stairs_comes_onto_the_platform(demo_text: str) -> None:
    """Statics: what a stair of 37.5 by 90 in. brings to J8 is half of 10 psf dead and 40 psf live over its plan."""
    path = find_results(parse_project(stair_text(demo_text, risers=10), "stairs.toml")).path
    without = find_results(
        parse_project(demo_text.replace('snow = "30', 'snow = "0') + 'foot = "9 in"', "x.toml")
    ).path
    area = 37.5 * 90 / 144
    for load, psf in (("D", 10.0), ("L", 40.0)):
        (laid, carried), (bare, _) = path.balance()[load], without.balance()[load]
        assert laid - bare == pytest.approx(psf * area / 2, rel=1e-6)
        assert carried == pytest.approx(laid, rel=1e-6)
    assert {action.member for action in path.layout.actions} == {"J8"}


def test_sway_on_the_stairs_pushes_the_platform_both_ways(demo_text: str) -> None:
    """A tenth of the live load of the whole flight, level along the stairs (common practice), at the joist's middle."""
    path = find_results(parse_project(stair_text(demo_text, risers=10), "stairs.toml")).path
    live = [action for action in path.layout.actions if action.kind is ActionKind.LIVE]
    assert sum(action.level[1] for action in live) == pytest.approx(0.10 * 40 * 37.5 * 90 / 144)
    assert all(action.reverses and abs(action.level[0]) < 1e-9 for action in live)


RAIL = ('handrail = "both sides"', 'handrail_height = "36 in"', 'rail_post = "4x4"', "rail_blocks = true")


def test_a_rails_post_finds_no_hold_on_a_cut_stringer(demo_text: str) -> None:
    """Statics: 5 1/4 in. left under the notches give bolts 2 in. from its edges no lever; a whole 2x12 gives one."""
    cut = checks_of(stair_text(demo_text, *RAIL))
    assert cut["rail_load"].status is Status.NOT_CHECKED
    closed = checks_of(stair_text(demo_text, 'cut = "closed"', *RAIL, 'rail_tie = "1350 lb"'))["rail_load"]
    assert closed.status is Status.PASSES
    # A lever from the bolt to the lower edge of the stringer: between P (H + d) / (d - e) and a little more.
    lower_bound = 200 * (36 + 11.25) / (11.25 - 2)
    assert lower_bound < closed.demand < 1.1 * lower_bound


def test_rails_without_posts_or_blocks_are_open(demo_text: str) -> None:
    for lines in (RAIL[:2], RAIL[:3]):
        found = checks_of(stair_text(demo_text, *lines))
        assert found["rail_load"].status is found["rail_post"].status is Status.NOT_CHECKED


def test_couple_of_a_rails_post_bends_a_stringer(demo_text: str) -> None:
    """Statics: 200 lb at 36 in. over the mid-depth of a 2x12 as a couple on stringers 18 in. apart, at mid-span.

    Beside it D and L of 10 and 40 psf: what is below a guard (common practice).
    """
    found = checks_of(stair_text(demo_text, 'cut = "closed"', *RAIL, 'rail_tie = "1350 lb"'))["rail_stringer"]
    V = 200 * (36 + 11.25 / 2) / 18
    M = V * 40 / 4 + (10 + 40) * 18 / 144 * 40**2 / 8
    assert found.demand == pytest.approx(M / (1.5 * 11.25**2 / 6), rel=1e-3)


def test_couple_of_a_rails_post_comes_on_the_hangers(demo_text: str) -> None:
    """Statics: the same couple down on one hanger beside D and L, up on the outer one less 0.6 of its dead load."""
    hanger = '\n[connection.HS]\nrated_load = "800 lb"\nrated_uplift = "600 lb"\nwet_included = true\n'
    lines = ('cut = "closed"', *RAIL, 'rail_tie = "1350 lb"', 'hanger = "HS"')
    found = checks_of(stair_text(demo_text, *lines) + hanger)
    V = 200 * (36 + 11.25 / 2) / 18
    assert found["rail_head"].demand == pytest.approx(V + (10 + 40) * 18 / 144 * 40 / 2, rel=1e-3)
    assert found["rail_head"].capacity == pytest.approx(800.0)
    assert found["rail_head_up"].demand == pytest.approx(V - 0.6 * 10 * 9.75 / 144 * 40 / 2, rel=2e-2)
    assert found["rail_head_up"].capacity == pytest.approx(600.0)
    # ratings for dry wood count 0.7 in the weather (NDS 2018, Table 11.3.3), and in full where it stays dry
    dry = hanger.replace("wet_included = true", "wet_included = false")
    rained_on = checks_of(stair_text(demo_text, *lines) + dry)
    under_roof = checks_of(stair_text(demo_text, *lines, "wet = false") + dry)
    for key, rated in (("rail_head", 800.0), ("rail_head_up", 600.0)):
        assert rained_on[key].capacity == pytest.approx(0.7 * rated)
        assert under_roof[key].capacity == pytest.approx(rated)
    bare = checks_of(stair_text(demo_text, *lines[:-1]))
    assert bare["rail_head"].status is bare["rail_head_up"].status is Status.NOT_CHECKED


def test_a_stringer_turns_what_it_hangs_on() -> None:
    """Statics: 3/4 in. to the face and half of a seat of 1 1/2 in.: R x 1.5/5.5 at the edges of a 2x6 joist.

    R is what a post of the rail at the head brings that hanger beside D and L; without posts, one person there.
    """
    text = file_of("hickory_perch").read_text(encoding="utf-8")
    found = checks_of(text)
    assert found["head_rotation"].demand == pytest.approx(found["rail_head"].demand * 1.5 / 5.5)
    bare = checks_of(text.replace('rail_post = "4x4"', ""))
    assert bare["head_rotation"].demand == pytest.approx(bare["head"].demand * 1.5 / 5.5)
    assert bare["head_rotation"].demand < 0.51 * found["head_rotation"].demand
    assert found["head_rotation"].capacity == 230
    opened = checks_of(re.sub(r"(?m)^head_edge.*$", "", text))["head_rotation"]
    assert opened.status is Status.NOT_CHECKED
    assert "end grain" in opened.sentence


@pytest.mark.parametrize(
    ("lines", "there", "status"),
    [
        # flush: boards and tread are alike thick, so the joist's face is there from its top down
        (('top = "flush"',), 7.25, Status.PASSES),
        # a riser down its upper edge is 7 1/2 + 1 1/2 in. under the floor, 1/4 in. under the joist
        ((), 0.0, Status.FAILS),
        # a board of 16 in. on that face reaches 7 1/2 in. above the stringer
        (('face = "16 in"', 'face_tie = "900 lb"'), 8.5, Status.PASSES),
        (('face = "16 in"', 'face_tie = "900 lb"', 'cut = "closed"'), 8.5, Status.FAILS),
    ],
)
def test_wood_behind_the_plumb_cut_of_the_head(
    demo_text: str, lines: tuple[str, ...], there: float, status: Status
) -> None:
    """Throat 5 1/4 in. at 7 1/2 to 10: 6 9/16 in. plumb, a whole 2x12 14 1/16; joist 2x8, 1 1/2 in. of boards on it."""
    found = checks_of(stair_text(demo_text, *lines))["head_face"]
    assert found.status is status
    assert found.capacity == pytest.approx(there)
    whole = 11.25 if "cut" in str(lines) else 5.25
    if there:
        assert found.demand == pytest.approx(whole * 12.5 / 10)
