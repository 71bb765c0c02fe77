"""Rows of joists, blocks and rims with wind and sway: which there are, that none is missed, and how they follow loads.

That a row takes the worst of all joists, states, cases and stations is held to every one of them, by the road that
the connections' edges take. The numbers themselves are held to statics by hand elsewhere.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from arrangement_files import file_of

from bolewright.paths import shipped
from bolewright.platform.analysis.lateral import range_in
from bolewright.platform.checks.beam_added import added_effect, seats_from_overturning
from bolewright.platform.checks.overturned import Asked, Corners, either_way, worst_of
from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.parts import Member
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.combine import member_envelope
from bolewright.platform.results.results import Results, find_results

BARE = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
KINDS = ("bending_lateral", "shear_lateral", "bearing_lateral")


@cache
def results_of(name: str) -> Results:
    return find_results(parse_project((shipped("calcsheets") / f"{name}.toml").read_text(encoding="utf-8")))


@cache
def with_sway(share: int, speed: int = 107) -> Results:
    text = BARE.read_text(encoding="utf-8")
    text = re.sub(r'sway_share = "[^"]*"', f'sway_share = "{share} %"', text)
    return find_results(parse_project(re.sub(r'wind_speed = "[^"]*"', f'wind_speed = "{speed} mph"', text)))


def rows(results: Results, key: str) -> list[Check]:
    return [check for check in results.checks if check.key == key]


@pytest.mark.parametrize("name", ["lookout", "two_trees"])
def test_every_field_of_joists_has_its_three_rows(name: str) -> None:
    results = results_of(name)
    field_of = {joist.mark: joist.field for joist in results.path.layout.joists}
    for kind in KINDS:
        found = Counter(field_of[check.part] for check in rows(results, f"joist.{kind}"))
        assert found == Counter(set(field_of.values()))


def test_beams_under_resting_joists_rims_and_guards_have_theirs() -> None:
    results = results_of("two_trees")
    assert len(rows(results, "beam.bearing_under_lateral")) == 1
    assert len(rows(results, "blocking.bending_through_lateral")) == len(
        rows(results, "blocking.bending_through")
    )
    guards = {guard.mark for guard in results.project.guards}
    for key in ("guard.framing_bending_lateral", "guard.framing_shear_lateral"):
        assert {check.part.rstrip("0123456789") for check in rows(results, key)} == guards


def test_a_platform_that_nothing_holds_has_none() -> None:
    """Posts on hinged feet, without their crossed rods."""
    text = re.sub(
        r"\[\[crossed_rods\]\]\n(?:[^\[\n][^\n]*\n)*", "", file_of("crossed_rods").read_text("utf-8")
    )
    results = find_results(parse_project(text.replace('base = "fixed"', 'base = "pinned"')))
    assert results.lateral.loose
    assert not [
        check for check in results.checks if check.key.endswith(KINDS) and check.key.startswith("joist.")
    ]


def most_over_C_D(results: Results, member: Member, effect: str) -> float:
    """Greatest size of an effect over C_D, in every state, case and place, one by one."""
    lateral = results.lateral
    most, least = range_in(member_envelope(results.path, member.mark, effect), lateral.cases)
    found = 0.0
    for state in lateral.states:
        added = (
            seats_from_overturning(lateral, state, member)
            if effect == "reactions"
            else added_effect(lateral, state, member, effect).total  # type: ignore[arg-type]
        )
        either = np.maximum(most + added, -(least + added)) / lateral.cases.C_D
        found = max(found, float(either.max()))
    return found


@pytest.mark.parametrize("name", ["lookout", "two_trees"])
@pytest.mark.parametrize("effect", ["moment", "shear_left", "reactions"])
def test_the_corners_miss_none_of_the_cases(name: str, effect: str) -> None:
    results = results_of(name)
    lateral = results.lateral
    corners = Corners.of(lateral)
    assert corners.which.size < lateral.cases.count
    for joist in results.path.layout.joists:
        influence = getattr(results.path.effects[joist.mark], effect)
        units = either_way(lateral, member_envelope(results.path, joist.mark, effect), influence)
        worst = worst_of(corners, [Asked(joist, units, corners.values)])
        assert worst is not None
        most = float((worst.unit @ corners.amount / corners.values[corners.which]).max())
        assert most == pytest.approx(most_over_C_D(results, joist, effect), rel=1e-12)


def test_the_worst_joist_is_named() -> None:
    """All joists of the lookout have one section and held alike where they sag: the most moment over C_D is worst."""
    results = results_of("lookout")
    (row,) = rows(results, "joist.bending_lateral")
    assert row.where.startswith("sagging")
    most = {joist.mark: most_over_C_D(results, joist, "moment") for joist in results.path.layout.joists}
    assert most[row.part] == max(most.values())
    (bearing,) = rows(results, "joist.bearing_lateral")
    lateral = results.lateral
    loads = {
        (joist.mark, seat.below): float(
            max((lateral.on_seats[joist.mark][0] + added)[i].max() for added in every)
        )
        for joist in results.path.layout.joists
        for every in [[seats_from_overturning(lateral, state, joist) for state in lateral.states]]
        for i, seat in enumerate(joist.seats)
    }
    assert max(loads, key=loads.__getitem__) == (bearing.part, bearing.at)


@pytest.mark.parametrize("kind", KINDS)
def test_no_row_is_less_than_that_under_weight_where_both_have_the_case(kind: str) -> None:
    for name in ("lookout", "two_trees", "one_oak", "hickory_perch"):
        results = results_of(name)
        lateral = rows(results, f"joist.{kind}")
        under = kind.removesuffix("_lateral")
        keys = ("bending", "negative_bending") if under == "bending" else (under,)
        weight = [
            check
            for key in keys
            for check in rows(results, f"joist.{key}")
            if "person" not in check.combination and not any("frame" in s.formula.name for s in check.steps)
        ]
        assert weight
        assert max(c.ratio for c in lateral) >= max(c.ratio for c in weight) * (1 - 1e-9)


@pytest.mark.parametrize("key", [f"joist.{kind}" for kind in KINDS])
def test_more_sway_is_never_less(key: str) -> None:
    ratios = [max(c.ratio for c in rows(with_sway(share), key)) for share in (0, 10, 20)]
    assert ratios[0] < ratios[1] < ratios[2]


@pytest.mark.parametrize("key", [f"joist.{kind}" for kind in KINDS])
def test_more_wind_is_never_less(key: str) -> None:
    ratios = [max(c.ratio for c in rows(with_sway(0, speed), key)) for speed in (107, 150, 200)]
    assert ratios == sorted(ratios)


def test_bearing_has_no_load_duration_and_bending_has() -> None:
    """F_c_perp takes no C_D (NDS 2018, Table 4.3.1); the joists of a storm bend with 1.6 of F_b."""
    results = with_sway(0, 200)
    for name in ("bending", "shear"):
        (row,) = rows(results, f"joist.{name}_lateral")
        weight = next(c for c in rows(results, f"joist.{name}") if c.part == row.part)
        C_D = next(s.arguments["C_D"] for s in row.steps if "C_D" in s.arguments)
        before = next(s.arguments["C_D"] for s in weight.steps if "C_D" in s.arguments)
        assert row.capacity / C_D == pytest.approx(weight.capacity / before)
    (row,) = rows(results, "joist.bearing_lateral")
    weight = next(c for c in rows(results, "joist.bearing") if (c.part, c.at) == (row.part, row.at))
    assert row.capacity == weight.capacity
