"""Ratings that act together, and ratings used on something else than they were given for."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from bolewright.bracing.rotation import compression_block, rotation_resistance, tie_pull_asked
from bolewright.bracing.together import ratings_together
from bolewright.platform.file.ratings import PLAUSIBLE, RATINGS
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

NOT_CHECKED = Status.NOT_CHECKED

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")
DEMO = DEMO.replace('"950 lb"     #', '"1200 lb"     #')  # with its bolts in stiff wood 950 lb are too little
DEMO = DEMO.replace('edge_load = "250 lb"', 'edge_load = "520 lb"')  # the joist next to a bolt takes 506 lb


TWO = (Path(__file__).parents[1] / "projects" / "without_guard" / "two_trees.toml").read_text(
    encoding="utf-8"
)


def checks(text: str, key: str) -> list[Check]:
    return [c for c in find_results(parse_project(text)).checks if c.key == key]


def with_(table: str, lines: str, text: str = DEMO) -> str:
    """The file with lines in one table, or in the entry of a list that begins with its mark: ``beam S1``."""
    kind, _, mark = table.partition(" ")
    head = f'[[{kind}]]\nmark = "{mark}"' if mark else f"[{table}]"
    assert f"{head}\n" in text or f"{head} " in text
    return text.replace(
        head, f"{head}\n{lines}\n" if not mark else f'[[{kind}]]\n{lines}\nmark = "{mark}"', 1
    )


def test_two_ratings_share_by_a_straight_line() -> None:
    """Statics of shares by hand: half of one rating and a quarter of the other use three quarters."""
    assert ratings_together(500.0, 1000.0, 200.0, 800.0) == pytest.approx(0.75)


def test_a_bracket_bears_down_and_lateral_in_one_case() -> None:
    """The sum of the shares in any case: no less than the larger of both, no more than their sum."""
    for mark in ("T1", "T2"):
        (both,) = (c for c in checks(DEMO, "tree_bolt.together") if c.part == mark)
        down, side = (
            next(c.ratio for c in checks(DEMO, key) if c.part == mark)
            for key in ("tree_bolt.rated_lateral", "tree_bolt.bracket_lateral")
        )
        assert max(down, side) - 1e-9 <= both.ratio <= down + side + 1e-9
        last = steps_of(both, "ratings_together")
        share = last["V"] / last["Z_V"] + last["H"] / last["Z_H"]
        by_frame = [s.arguments["f_m"] for s in both.steps if s.formula.name == "demand_by_frame"]
        assert all(f_m > 1 for f_m in by_frame)  # the worse of the two models counts
        assert both.demand == pytest.approx(share * (by_frame or [1.0])[0])


def test_where_the_maker_allows_each_in_full_they_do_not_meet() -> None:
    alone = with_("bolt.main", "rated_alone = true")
    assert checks(alone, "tree_bolt.together") == []
    assert checks(alone, "tree_bolt.rated")
    assert checks(DEMO, "tree_bolt.together")


def steps_of(check: Check, formula: str) -> dict[str, float]:
    return next(s.arguments for s in check.steps if s.formula.name == formula)


def test_the_pull_of_a_tie_by_hand() -> None:
    """A beam 3 in. wide in a bearing of 3 in., wood that takes 400 x 3 = 1,200 lb an inch of block.

    400 lb of weight and 900 lb of tie: N = 1,300 lb, x = 1.0833 in. About the block's middle the weight has
    1.5 - x/2 = 0.9583 in. and the tie 3 - x/2 = 2.4583 in.: 383.3 + 2,212.5 = 2,595.8 lb·in.
    """
    x = compression_block(R=400.0, T=900.0, F_c_perp_p=400.0, l_b=3.0)
    M = rotation_resistance(R=400.0, c=1.5, T=900.0, b=3.0, x=x)
    assert pytest.approx(400 * (1.5 - 1300 / 2400) + 900 * (3 - 1300 / 2400)) == M
    asked = tie_pull_asked(M_r=M, R=400.0, F_c_perp_p=400.0, l_b=3.0, b=3.0, c=1.5)
    assert float(asked) == pytest.approx(900.0)
    alone = 400 * (1.5 - 400 / 2400)  # what weight alone holds
    assert float(
        tie_pull_asked(M_r=alone, R=400.0, F_c_perp_p=400.0, l_b=3.0, b=3.0, c=1.5)
    ) == pytest.approx(0)


def by_frame(check: Check) -> float:
    """What the frame model gives over the hand calculation where it gives more: it counts, and is a few per cent."""
    told = [s.arguments["f_m"] for s in check.steps if s.formula.name == "demand_by_frame"]
    assert all(1 < f_m < 1.05 for f_m in told)
    return float(told[0]) if told else 1.0


def test_an_angle_holds_a_beam_lateral_and_upright_in_one_case() -> None:
    """S1 and S2 on C1: pull over rotation_tie and side load over lateral_tie, each the formula's own, in the same case.

    Common practice: a straight line. The pull balances: with the block's width from R and T, what turns is what holds.
    """
    for check in checks(DEMO, "beam.together"):
        last = steps_of(check, "ratings_together")
        by_hand = last["V"] / last["Z_V"] + last["H"] / last["Z_H"]
        assert check.demand == pytest.approx(by_hand * by_frame(check))
        turned = steps_of(check, "tie_pull_asked")
        x = (turned["R"] + last["V"]) / (turned["F_c_perp_p"] * turned["l_b"])
        held = turned["R"] * (turned["c"] - x / 2) + last["V"] * (turned["b"] / 2 + turned["c"] - x / 2)
        assert held == pytest.approx(turned["M_r"])
        assert check.status is Status.PASSES
    assert len(checks(DEMO, "beam.together")) == 2
    less = re.sub(r'(?m)^lateral_tie = "950 lb"', 'lateral_tie = "450 lb"', DEMO)
    assert {c.status for c in checks(less, "beam.together")} == {Status.FAILS}
    assert {c.status for c in checks(less, "beam.fastening_lateral")} == {Status.PASSES}
    alone = less.replace("rotation_tie =", "rated_alone = true\nrotation_tie =")
    assert (
        checks(
            alone.replace('rated_alone = true\nrotation_tie = "500', 'rotation_tie = "500'), "beam.together"
        )
        == []
    )


def test_a_cap_is_pushed_while_its_strap_keeps_the_beam_upright() -> None:
    """P1 and P2: nothing lifts C1, but the strap that keeps it upright and the cap's side load act in one case."""
    for check in checks(DEMO, "post.cap_together"):
        last = steps_of(check, "ratings_together")
        assert check.demand == pytest.approx((last["V"] / 500 + last["H"] / 900) * by_frame(check))
    lifted = [c for c in checks(TWO, "post.cap_together") if "three" in c.steps[-2].formula.name]
    assert lifted  # P2 to P4 are lifted, pushed and turned
    for check in lifted:
        last = check.steps[-2].arguments
        assert check.demand == pytest.approx(sum(last[a] / last[f"Z_{a}"] for a in "VHT"))


GIVEN = [
    (
        "connection.HJ",
        'rated_wood = "Douglas Fir-Larch"',
        "hanger.rated",
        "was given for Douglas Fir-Larch, and J1",
    ),
    ("connection.HJ", "rated_G = 0.60", "hanger.rated", "specific gravity of 0.6, and J1 has 0.55"),
    ("connection.HJ", 'rated_size = "2x10"', "hanger.rated", "was given for 2x10, and J1 is 2x8"),
    ("connection.HJ", 'rated_wood = "Hem-Fir"', "hanger.rated_lateral", "was given for Hem-Fir"),
    ("bolt.main", 'rated_size = "2x10"', "tree_bolt.fastening", "was given for 2x10, and S1 is 2x12"),
    ("bolt.main", 'rated_size = "2x10"', "tree_bolt.rated", "was given for 2x10, and S1 is 2x12"),
    ("post.P6", 'rated_size = "2x10"', "post.cap_lateral", "was given for 2x10, and C1 is 2x12"),
    ("post.P6", 'rated_direction = "across"', "post.cap_lateral", "one direction, across the beam"),
    (
        "bolt.main",
        'rated_bolt = "1 in"',
        "tree_bolt.bracket_lateral",
        "a bolt of 1 in., and this one has 1.5 in",
    ),
    (
        "bolt.main",
        'rated_wood = "red maple"',
        "tree_bolt.rated",
        "was given for red maple, and OAK is bur oak",
    ),
    ("bolt.main", "rated_C_D = 1.1", "tree_bolt.together", "was given for short loads (C_D = 1.1)"),
    ("beam S1", 'rated_wood = "Hem-Fir"', "beam.fastening_lateral", "was given for Hem-Fir, and S1 is"),
    ("beam S1", "rated_G = 0.6", "beam.rotation", "gravity of 0.6, and S1 has 0.55"),
    ("beam S1", 'rated_size = "2x10"', "beam.together", "was given for 2x10, and S1 is 2x12"),
    ("beam S1", 'rated_direction = "along"', "beam.fastening_lateral", "one direction, along the beam"),
    ("joists J", "rated_G = 0.6", "joist.edge_load", "gravity of 0.6, and J1 has 0.55"),
    ("joists J", 'rated_wood = "Hem-Fir"', "beam.rotation_joists", "was given for Hem-Fir, and J"),
    ("diagonal X1", 'rated_wood = "Hem-Fir"', "platform.in_plane", "was given for Hem-Fir, and J1 is"),
]


@pytest.mark.parametrize(("table", "line", "key", "words"), GIVEN, ids=lambda v: str(v)[:34])
def test_another_wood_size_bolt_direction_or_duration_opens_it_again(
    table: str, line: str, key: str, words: str
) -> None:
    found = checks(with_(table, line), key)
    opened = [c for c in found if c.status is Status.NOT_CHECKED]
    assert opened
    assert any(words in c.sentence for c in opened), opened[0].sentence
    assert len(found) == len(checks(DEMO, key))  # opened, not gone


def test_what_fails_by_the_rating_as_typed_fails_on_other_wood_too() -> None:
    """3 % less than the load is too little on any wood: the row fails, and says what its rating was given for."""
    rated = re.search(r'\[connection\.HJ\][^[]*?rated_load = "(\d+) lb"', DEMO)
    assert rated is not None
    most = max(c.ratio for c in checks(DEMO, "hanger.rated") if c.part.startswith("J"))
    less = DEMO.replace(
        rated[0], rated[0].replace(f'"{rated[1]} lb"', f'"{int(rated[1]) * most / 1.03:.0f} lb"')
    )
    text = with_("connection.HJ", 'rated_wood = "Douglas Fir-Larch"', less)
    failing = {c.part: c.ratio for c in checks(less, "hanger.rated") if c.status is Status.FAILS}
    found = {c.part: c for c in checks(text, "hanger.rated")}
    assert failing
    for part, ratio in failing.items():
        assert (found[part].status, found[part].ratio) == (Status.FAILS, ratio)
        assert "by the rating as typed, which was given for Douglas Fir-Larch" in found[part].sentence
    assert NOT_CHECKED in {found[part].status for part in set(found) - set(failing)}


def test_the_load_on_a_hanger_by_the_lever_rule_fails_a_small_rating_on_any_wood() -> None:
    """A walkway: joists 37 in. from beam to beam, 15 1/2 in. apart, the first 8 in. from the deck's end.

    One person over the hanger of J5, with half of its deck (5.82 psf) and of itself: 315 lb; at the deck's end he is
    8 in. past J1, held down by J2: 300 (1 + 8/15.5), and the deck there likewise: 472 lb. Rated 200 lb for spruce.
    """
    text = (Path(__file__).parent / "cases" / "b01_walkway.toml").read_text(encoding="utf-8")
    text = text.replace('rated_load = "1500 lb"', 'rated_load = "200 lb"\nrated_wood = "Spruce-Pine-Fir"')
    wet = 62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728  # lb/in3, at 28 % (NDS Supplement 2018, 3.1.3)
    deck, joist = (1.5 * wet + 1 / 144) * 37 / 2, 1.5 * 5.5 * wet * 37 / 2
    loads = {
        "J5": 300 + deck * 15.5 + joist,
        "J1": 300 * (1 + 8 / 15.5) + deck * (15.5 / 2 + 8 * (1 + 4 / 15.5)) + joist,
    }
    found = {c.part: c for c in checks(text, "hanger.rated")}
    for part, pounds in loads.items():
        assert found[part].status is Status.FAILS
        assert found[part].ratio == pytest.approx(pounds / 200, rel=1e-4)
        assert "which was given for Spruce-Pine-Fir" in found[part].sentence


def test_a_rated_brace_stands_on_the_wood_it_was_rated_for() -> None:
    """K1 with a rated load in place of its bolts: the post's species counts, and so does the brace's own size."""
    bolted = DEMO[DEMO.index('mark = "K1"') :].partition("bolts = 2\n")[0]
    rated = DEMO.replace(
        f'{bolted}bolts = 2\nbolt_diameter = "5/8 in"\n',
        f'{bolted}rated_load = "5000 lb"\nnote = "invented"\n',
    )
    assert rated != DEMO
    assert [c.status for c in checks(rated, "brace.ends") if c.part == "K1"] == [Status.PASSES]
    for line, words in (
        ('rated_wood = "Hem-Fir"', "was given for Hem-Fir, and K1 is"),
        ('rated_size = "2x8"', "was given for 2x8, and K1 is 2x6"),
    ):
        (found,) = (c for c in checks(with_("brace K1", line, rated), "brace.ends") if c.part == "K1")
        assert found.status is Status.NOT_CHECKED
        assert words in found.sentence


def test_what_ties_a_post_into_its_concrete_counts_as_a_rating() -> None:
    """foot_tie is typed off a maker's sheet: the verdict counts it so, and another wood opens it."""
    text = DEMO.replace("foot_bolts = 1 ", 'foot_tie = "900 lb" #').replace(
        'foot_bolt_diameter = "5/8 in"\n', ""
    )
    assert all(c.rests_on_rating for c in checks(text, "post.foot_uplift"))
    assert not any(c.rests_on_rating for c in checks(DEMO, "post.foot_uplift"))
    opened = checks(with_("post.P6", 'rated_wood = "Hem-Fir"', text), "post.foot_uplift")
    assert {c.status for c in opened} == {Status.NOT_CHECKED}


def test_a_rating_given_for_just_this_stands() -> None:
    fits = 'rated_wood = "Southern Pine"\nrated_G = 0.55\nrated_size = "2x8"'
    text = with_("connection.HJ", fits)
    same = [(c.part, c.status) for c in checks(text, "hanger.rated")]
    assert same == [(c.part, c.status) for c in checks(DEMO, "hanger.rated")]
    assert all(status is not Status.NOT_CHECKED for _, status in same)


def test_every_rating_has_a_bound_beyond_which_it_is_named() -> None:
    keys = {key for table in RATINGS.values() for key in table}
    assert keys == set(PLAUSIBLE)
    assert np.isfinite(list(PLAUSIBLE.values())).all()


def test_no_shipped_rating_is_implausible() -> None:
    assert not re.search("more than the [0-9,]+ lb", " ".join(_beside(DEMO)))


def _beside(text: str) -> tuple[str, ...]:
    from bolewright.platform.results.conditions import conditions

    return conditions(parse_project(text))


SKEWED = 'rated_skew = "23 deg"\n'


@pytest.mark.parametrize(
    "key", ["hanger.rated", "joist.uplift", "hanger.rated_lateral", "joist.uplift_lateral"]
)
def test_a_hanger_that_stands_askew_asks_for_the_skew_of_its_rating(key: str) -> None:
    """S1 runs 41 1/16 in. sideways over 139 in., S2 57 15/16 in.: the joists stand 16.5 and 22.6 degrees off square."""
    assert DEMO.count(SKEWED) == 1
    assert np.degrees(np.arctan2([41.0625, 57.9375], 139.0)) == pytest.approx([16.46, 22.63], abs=0.01)
    for line, opened, words in (
        ("", True, "names no skew (rated_skew)"),
        ('rated_skew = "0 deg"\n', True, "was given for a skew of up to 0°"),
        (SKEWED, False, ""),
        ('rated_skew = "45 deg"\n', False, ""),
    ):
        found = [
            c for c in checks(DEMO.replace(SKEWED, line), key) if c.calculation or c.status is NOT_CHECKED
        ]
        assert found
        assert any(c.status is NOT_CHECKED for c in found) is opened
        assert all(words in c.sentence for c in found if c.status is NOT_CHECKED)


def test_a_rating_for_less_skew_stands_where_the_hanger_is_that_square() -> None:
    """17 degrees: enough at S1, too little at S2."""
    found = checks(DEMO.replace(SKEWED, 'rated_skew = "17 deg"\n'), "hanger.rated")
    assert {c.at for c in found if c.status is NOT_CHECKED} == {"S2"}
    assert any("up to 17°, and J1 stands 23° off square to S2" in c.sentence for c in found)
