"""Measured sizes reach the checks: each capacity or demand worked again from its clause with what was measured."""

from __future__ import annotations

import math
from functools import cache

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results
from bolewright.rendering.blocks import Statement, StatementKind, Table
from bolewright.setting_out.as_built import built_project
from bolewright.setting_out.complete import complete_results
from bolewright.sheets.setting_out import BuiltSheet
from bolewright.status import Status

LOOKOUT = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
Made = dict[tuple[str, str], Check]


@cache
def planned(text: str = LOOKOUT) -> Results:
    return find_results(parse_project(text))


def by_key(results: Results) -> Made:
    return {(c.part, c.key): c for c in results.checks}


@cache
def built(entry: str) -> Made:
    """Checks of the lookout as built; one entry, its keys apart by semicolons."""
    text = f"{LOOKOUT}\n[[as_built]]\n" + entry.replace("; ", "\n")
    return by_key(find_results(built_project(planned(text).path.layout)))


def argument(check: Check, formula: str, name: str) -> float:
    return next(float(s.arguments[name]) for s in check.steps if s.formula.name == formula)


def test_a_shallower_joist_is_bent_more_by_the_square() -> None:
    """9 in. where 9 1/4 in. was planned: f_b times (9.25/9)², less what 1/4 in. of its own weight does (0.1 %)."""
    before, after = by_key(planned())["J3", "joist.bending"], built('mark = "J3"; depth = "9 in"')
    now = after["J3", "joist.bending"]
    assert now.demand / before.demand == pytest.approx((9.25 / 9) ** 2, rel=0.002)
    assert now.capacity == pytest.approx(before.capacity, rel=1e-3)  # F_b of its size class
    slender = by_key(planned())["J3", "joist.slenderness"]
    assert after["J3", "joist.slenderness"].demand < slender.demand  # R_B goes with the root of d


def test_a_shorter_hole_holds_less_soil() -> None:
    """IBC 2021, equation 18-1, with d = 50/12 ft: S_1 = 150 d/3, b = 2 ft; what it allows is P_a at that depth."""
    check = built('mark = "P1"; hole = "50 in"')["P1", "footing.embedment"]
    h = argument(check, "lateral_capacity_nonconstrained", "h")
    A = 2.34 * check.capacity / (150 * (50 / 12) / 3 * 2.0)
    assert A / 2 * (1 + math.sqrt(1 + 4.36 * h / A)) == pytest.approx(50 / 12)
    assert check.status is Status.FAILS
    frost = built('mark = "P1"; hole = "36 in"')["P1", "footing.frost"]
    assert frost.ratio == pytest.approx(42 / 36)


def test_a_bolt_that_went_in_less_turns_sooner() -> None:
    """Rigid pin, load e off: q [sqrt((L + 2e)² + L²) - (L + 2e)]/R_d (statics; AWC TR12 mode II; R_d = 3.6).

    Girth 75 3/8 in. over 1 in. of bark: sound radius 75.375/(2 pi) - 1; the bearing at 17 in.
    """
    radius = 75.375 / (2 * math.pi) - 1
    e = 17 - radius
    for L, entry in ((7.0, None), (6.0, 'mark = "T1"; embedment = "6 in"')):
        check = (built(entry) if entry else by_key(planned()))["T1", "tree_bolt.wood_yield"]
        q = argument(check, "rotation_yield", "q")
        rotation = q * (math.hypot(L + 2 * e, L) - (L + 2 * e)) / 3.6
        assert check.capacity == pytest.approx(rotation, rel=1e-3)


def test_a_measured_girth_moves_the_wood_face() -> None:
    """72 in. of girth: the wood face 3.375/(2 pi) = 0.537 in. farther from the bearing, e 6.541 in. for 6.004.

    In the wood the moment is still larger: elastic 1.05 to 1.10 P e at e = 4.5 to 6 in. (beam on elastic foundation).
    """
    thin = by_key(planned(LOOKOUT.replace('girth = "75 3/8 in"', 'girth = "72 in"')))[
        "T1", "tree_bolt.steel_bending"
    ]
    e = 17 - (72 / (2 * math.pi) - 1)
    assert argument(thin, "bolt_moment_at", "e") == pytest.approx(e)
    assert 1.04 < thin.demand / (argument(thin, "bolt_moment_at", "P") * e) < 1.10  # largest inside the wood


def test_a_thinner_post_is_more_slender_and_tears_sooner() -> None:
    """5 1/4 in. for 5 1/2: l_e/d times 5.5/5.25; NDS 2018, E.3-2 with t = 5 1/4 in., and the sheet says both sizes."""
    entry = 'mark = "P1"; width = "5 1/4 in"; depth = "5 1/4 in"'
    before, after = by_key(planned()), built(entry)
    ratio = after["P1", "post.slenderness"].demand / before["P1", "post.slenderness"].demand
    assert ratio == pytest.approx(5.5 / 5.25)
    torn = after["P1", "post.foot_tear_out"].capacity / before["P1", "post.foot_tear_out"].capacity
    assert torn == pytest.approx(5.25 / 5.5)
    sheet = BuiltSheet(planned(f"{LOOKOUT}\n[[as_built]]\n" + entry.replace("; ", "\n")))
    table = next(b for b in sheet.built().items if isinstance(b, Table))
    assert [(row[0], row[1]) for row in table.rows] == [("P1", "width"), ("P1", "depth")]


@pytest.mark.parametrize("entry", ['mark = "T1"; level = "-6 in"', 'mark = "P1"; level = "-2 in"'])
def test_a_seat_too_low_for_a_shim_is_open(entry: str) -> None:
    """A block of 2 or 6 in. under a load is no shim (common practice: up to one ply, 1 1/2 in.): it is said, open."""
    text = f"{LOOKOUT}\n[[as_built]]\n" + entry.replace("; ", "\n")
    found = [c for c in complete_results(parse_project(text)).checks if c.key == "platform.as_built"]
    (check,) = found
    assert check.status is Status.NOT_CHECKED
    assert "no shim" in check.sentence
    said = [b for b in BuiltSheet(planned(text)).built().items if isinstance(b, Statement)]
    assert StatementKind.OPEN in {b.kind for b in said}
    assert not any("Nothing entered changes a check" in item for b in said for item in b.items)


def test_a_seat_as_low_as_a_shim_is_high_opens_nothing() -> None:
    text = f'{LOOKOUT}\n[[as_built]]\nmark = "T1"\nlevel = "-1 1/2 in"'
    assert not [c for c in complete_results(parse_project(text)).checks if c.key == "platform.as_built"]


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        (
            'mark = "P1"; at = ["-36 in", "116 in"]',
            ('P1 stands 2" off the middle line of C1', "set the post again"),
        ),
        (
            'mark = "T1"; projection = "2 in"',
            ('T1 stands 2 7/8" off the middle line of S1', "drill another hole"),
        ),
    ],
)
def test_what_stands_off_its_beam_is_said_so_that_a_builder_can_act(
    entry: str, words: tuple[str, str]
) -> None:
    """T1 3 in. nearer the trunk, S1 at atan(41.06/139) = 16.5 degrees to it: 3 cos 16.5 = 2.88 in. off its line."""
    text = f"{LOOKOUT}\n[[as_built]]\n" + entry.replace("; ", "\n")
    (check,) = [c for c in complete_results(parse_project(text)).checks if c.key == "platform.as_built"]
    assert check.status is Status.NOT_CHECKED
    assert all(word in check.sentence for word in words)
    assert "carries nothing" not in check.sentence
