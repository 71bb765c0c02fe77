"""Ratings that act together, and ratings used on something else than they were given for."""

from __future__ import annotations

import re

import numpy as np
import pytest

from bolewright.bracing.together import ratings_together
from bolewright.paths import shipped
from bolewright.platform.check import Check
from bolewright.platform.ratings import PLAUSIBLE, RATINGS
from bolewright.platform.reading import parse_project
from bolewright.platform.results import find_results
from bolewright.status import Status

# the demonstration without its word that the maker allows the directions in full at once
DEMO = re.sub(
    r"(?m)^rated_alone.*\n", "", (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
)


def checks(text: str, key: str) -> list[Check]:
    return [c for c in find_results(parse_project(text)).checks if c.key == key]


def with_(table: str, lines: str, text: str = DEMO) -> str:
    assert f"[{table}]\n" in text
    return text.replace(f"[{table}]\n", f"[{table}]\n{lines}\n", 1)


def test_two_ratings_share_by_a_straight_line() -> None:
    """Statics of shares by hand: half of one rating and a quarter of the other use three quarters."""
    assert ratings_together(500.0, 1000.0, 200.0, 800.0) == pytest.approx(0.75)


def test_a_bracket_bears_down_and_sideways_in_one_case() -> None:
    """The sum of the shares in any case: no less than the larger of both, no more than their sum."""
    for mark in ("T1", "T2"):
        (both,) = (c for c in checks(DEMO, "tree_bolt.together") if c.part == mark)
        down, side = (
            next(c.ratio for c in checks(DEMO, key) if c.part == mark)
            for key in ("tree_bolt.rated_lateral", "tree_bolt.bracket_lateral")
        )
        assert max(down, side) - 1e-9 <= both.ratio <= down + side + 1e-9
        last = both.steps[-2].arguments
        assert both.demand == pytest.approx(last["V"] / last["Z_V"] + last["H"] / last["Z_H"])


def test_where_the_maker_allows_each_in_full_they_do_not_meet() -> None:
    alone = with_("bolt.main", "rated_alone = true")
    assert checks(alone, "tree_bolt.together") == []
    assert checks(alone, "tree_bolt.rated")
    assert checks(DEMO, "tree_bolt.together")


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
    ("bolt.main", "rated_C_D = 1.6", "tree_bolt.rated", "was given for short loads (C_D = 1.6)"),
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
    from bolewright.platform.conditions import conditions

    return conditions(parse_project(text))
