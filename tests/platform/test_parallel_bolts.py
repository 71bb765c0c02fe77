"""Bolts whose holes are parallel although the trunk is round, against circle geometry in closed form.

The trunk of the arrangement: 40 in. over the bark, bark 3/4 in., so R = 20 and r = 19 1/4; bolts 1 1/2 in. thick with
7 in. of thread, bored along -y, 6 3/8 in. either side of the axis, bearings 25 1/2 in. out.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from arrangement_files import DEMO, file_of
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.platform.analysis.bolts import BoltInPlace, bolt_in_place
from bolewright.platform.analysis.lateral_supports import axes_of, bolt_frame
from bolewright.platform.checks.tree_bolt_holes import hole_checks
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.bolt_lines import bolt_line
from bolewright.platform.layout.layout import LayoutError, find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.loads.load_path import find_load_path
from bolewright.platform.project import Support, Tree
from bolewright.platform.results.results import Results, find_results
from bolewright.status import Status
from bolewright.workbook.schema import FieldKind, section

TEXT = file_of("parallel_bolts").read_text(encoding="utf-8")
R, r, a, D, L, out = 20.0, 19.25, 6.375, 1.5, 7.0, 25.5
FACE = math.sqrt(r**2 - a**2)  # half the chord of sound wood
T1 = 'direction = "-90 deg"\nat = ["-6 3/8 in", "25 1/2 in"]'
T2 = 'direction = "-90 deg"\nat = ["6 3/8 in", "25 1/2 in"]'


@cache
def results(text: str = TEXT) -> Results:
    return find_results(parse_project(text))


def changed(*pairs: tuple[str, str]) -> str:
    text = TEXT
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return text


def placed(text: str = TEXT, mark: str = "T1") -> BoltInPlace:
    path = find_load_path(find_layout(parse_project(text)))
    return bolt_in_place(path, next(s for s in path.layout.supports if s.mark == mark))


def check(part: str, limit_state: str, text: str = TEXT) -> Check:
    return next(c for c in results(text).checks if (c.part, c.limit_state) == (part, limit_state))


def said(text: str) -> str:
    with pytest.raises((ProjectError, LayoutError)) as caught:
        find_results(parse_project(text))
    return str(caught.value)


# ---------------------------------------------------------------------------------------------------------
# Geometry


@pytest.mark.parametrize(("mark", "side"), [("T1", 1), ("T2", -1)])
def test_line_and_lever_arm_by_hand(mark: str, side: int) -> None:
    """T1 lies left of the axis looking out along +y; e from the chord's end, plus (D/2) tan(phi), sin(phi) = a/r."""
    bolt = placed(mark=mark)
    assert bolt.u == pytest.approx((0, 1))
    assert bolt.line.a == pytest.approx(side * a)
    assert bolt.x_b == pytest.approx(out)
    phi = math.asin(a / r)
    assert bolt.Delta_e == pytest.approx(D / 2 * math.tan(phi))
    assert bolt.e == pytest.approx(out - r * math.cos(phi) + D / 2 * math.tan(phi))
    assert bolt.e == pytest.approx(7.599, abs=5e-4)  # 25.5 - 18.1638 + 0.2632


def test_the_moment_in_the_bolt_grows_with_the_slant_that_is_printed() -> None:
    """Steel bending runs the slant: its steps hold Delta_e, and a bolt at the axis prints none."""
    symbols = [step.formula.name for step in check("T1", "steel bending").steps]
    assert "slant_entry" in symbols
    demo = find_results(parse_project(file_of(DEMO).read_text(encoding="utf-8")))
    steel = next(c for c in demo.checks if (c.part, c.limit_state) == ("T1", "steel bending"))
    assert "slant_entry" not in [step.formula.name for step in steel.steps]


def test_wood_on_the_line_and_beside_it_by_hand() -> None:
    """Chord 2 sqrt(r2 - a2); beside the bolt, halfway down its hole, sqrt(r2 - (FACE - L/2)2) - a."""
    along = check("T1", "wood on the bolt's line")
    assert along.capacity == pytest.approx(2 * FACE)
    assert along.demand == pytest.approx(L + 2)
    beside = check("T2", "wood beside the bolt")
    assert beside.capacity == pytest.approx(math.sqrt(r**2 - (FACE - L / 2) ** 2) - a)
    assert beside.demand == pytest.approx(4 * D)  # tied: pushed towards the side, NDS 2018 Table 12.5.1C
    floats = changed(('lateral = "tied"', 'lateral = "floats"'))
    assert check("T2", "wood beside the bolt", floats).demand == pytest.approx(1.5 * D)


def test_parallel_holes_lie_apart_by_the_sum_of_their_offsets() -> None:
    apart = check("T1", "distance to the hole of T2")
    assert apart.capacity == pytest.approx(2 * a)
    assert apart.demand == pytest.approx(5 * D)


def bored_at_each_other(x: float, embedment: float) -> Check:
    """T2 of the arrangement bored from the other side, its line at x; only the holes are looked at."""
    project = parse_project(TEXT)
    bolts = {"main": project.bolts["main"].model_copy(update={"embedment": embedment})}
    path = find_load_path(find_layout(project.model_copy(update={"bolts": bolts})))
    one, other = (bolt_in_place(path, s) for s in path.layout.supports if s.kind == "tree bolt")
    turned = other.support.model_copy(update={"direction": 90.0, "at": (x, -out)})
    other = replace(other, support=turned, line=bolt_line(turned, other.tree))
    return next(
        c for c in hole_checks(path, one, [one, other]) if c.limit_state == "distance to the hole of T2"
    )


@pytest.mark.parametrize(
    ("x", "embedment", "c", "wanted"),
    [
        (-a, 7.0, 2 * (FACE - 7), 2 * D),  # on one line: tip to tip
        (a, 7.0, math.hypot(2 * a, 2 * (FACE - 7)), 2 * D),  # beside each other, tips short of each other
        (a, 20.0, 2 * a, 5 * D),  # past each other: side by side
    ],
)
def test_bolts_bored_from_both_sides(x: float, embedment: float, c: float, wanted: float) -> None:
    found = bored_at_each_other(x, embedment)
    assert found.capacity == pytest.approx(c)
    assert found.demand == pytest.approx(wanted)


def test_stiffness_goes_along_and_across_the_bolt() -> None:
    path = find_load_path(find_layout(parse_project(TEXT)))
    for mark in ("T1", "T2"):
        frame = bolt_frame(path, next(s for s in path.layout.supports if s.mark == mark))
        np.testing.assert_allclose(axes_of(frame), [[0, 1], [-1, 0]], atol=1e-12)


def test_growth_meets_the_bracket_when_the_bark_circle_reaches_its_near_edge() -> None:
    """Back of the bracket 24 in. out, 3 in. wide, its corner 4.875 in. beside the axis: the bark grows to there."""
    years = check("T1", "years until the bark meets the bracket")
    assert years.capacity == pytest.approx((math.hypot(out - 1.5, a - 3 / 2) - R) / 0.1)
    over = check("T1", "years until the bark grows over the bearing")
    assert over.capacity == pytest.approx((math.hypot(out + 1.5, a - 3 / 2) - R) / 0.1)


def test_both_bolts_of_a_mirrored_platform_are_alike() -> None:
    ratios = {
        (c.part, c.limit_state): c.ratio for c in results().checks if c.status is not Status.NOT_CHECKED
    }
    twins = [
        (ratio, ratios["T2", state])
        for (part, state), ratio in ratios.items()
        if part == "T1" and ("T2", state) in ratios
    ]
    assert len(twins) > 10
    for one, other in twins:
        assert one == pytest.approx(other, rel=5e-3)


# ---------------------------------------------------------------------------------------------------------
# Straight at the axis, said or left out


@settings(max_examples=60, deadline=None)
@given(st.floats(-180, 180), st.floats(12, 60), st.floats(-100, 100), st.floats(-100, 100))
def test_a_direction_at_the_axis_is_no_direction(degrees: float, far: float, x: float, y: float) -> None:
    turn = math.radians(degrees)
    trunk = Tree(
        mark="OAK", species="white oak", at=("0 in", "0 in"), girth="60 in", bark="1 in", height="50 ft"
    )
    tree = trunk.model_copy(update={"at": (x, y)})
    support = Support(mark="T1", kind="tree bolt", at=("0 in", "0 in")).model_copy(
        update={"at": (tree.at[0] + far * math.cos(turn), tree.at[1] + far * math.sin(turn))}
    )
    plain = bolt_line(support, tree)
    told = bolt_line(
        support.model_copy(update={"direction": degrees + 180 if degrees < 0 else degrees - 180}), tree
    )
    assert told.a == plain.a == 0.0
    assert told.u == pytest.approx(plain.u, abs=1e-9)
    assert told.y == pytest.approx(plain.y, rel=1e-12)


def test_the_demo_with_its_directions_said_gives_the_same_checks() -> None:
    text = file_of(DEMO).read_text(encoding="utf-8")
    told = text.replace('at = ["-17 in", "0 in"]', 'direction = "0 deg"\nat = ["-17 in", "0 in"]').replace(
        'at = ["17 in", "0 in"]', 'direction = "180 deg"\nat = ["17 in", "0 in"]'
    )
    assert told.count("direction") == text.count("direction") + 2
    before, after = (
        {(c.part, c.limit_state): c for c in find_results(parse_project(t)).checks} for t in (text, told)
    )
    assert before.keys() == after.keys()
    for key, check in before.items():
        if check.status is not Status.NOT_CHECKED:
            assert after[key].demand == pytest.approx(check.demand, rel=1e-9, abs=1e-9), key
            assert after[key].capacity == pytest.approx(check.capacity, rel=1e-9), key


# ---------------------------------------------------------------------------------------------------------
# What can't be bored

REFUSED = {
    "misses the trunk": (
        (T1, 'direction = "0 deg"\nat = ["-6 3/8 in", "25 1/2 in"]'),
        ["support T1, direction", "misses its sound wood", "2' 1 1/2\"", "at most 1' 5\""],
    ),
    "grazes it": (
        (T1, 'direction = "-45 deg"\nat = ["-0.1 in", "25 1/2 in"]'),
        ["support T1, direction", "of sound wood beside it", "at most 1' 5\""],
    ),
    "from the wrong side": (
        (T1, 'direction = "90 deg"\nat = ["-6 3/8 in", "25 1/2 in"]'),
        ["support T1, direction", "far side of OAK", "180 deg"],
    ),
    "longer than its chord": (
        ('embedment = "7 in"', 'embedment = "36 in"'),
        [
            "bolt, main, embedment",
            "goes through the trunk of OAK",
            "line of T1",
            'passes the axis by 6 3/8"',
            "at most 2' 10 5/16\"",
        ],
    ),
    "into the hollow": (
        ('bark = "3/4 in"', 'bark = "3/4 in"\ncavity = "24 in"'),
        ["bolt, main, embedment", "hollow of OAK", "2 in. of sound wood past its tip"],
    ),
    "a post has none": (
        ('at = ["-20 in", "104 in"]', 'direction = "0 deg"\nat = ["-20 in", "104 in"]'),
        ["support P1, direction", "only a tree bolt"],
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refused_in_a_sentence(name: str) -> None:
    change, parts = REFUSED[name]
    sentence = said(changed(change))
    assert all(part in sentence for part in parts), sentence


def test_holes_that_cross_inside_the_trunk_are_refused() -> None:
    """T1 bored at -45 deg and 20 in. deep crosses the line of T2, 6 3/8 in. right of the axis."""
    slanting = 'direction = "-45 deg"\nat = ["-6 3/8 in", "25 1/2 in"]'
    sentence = said(changed((T1, slanting), ('embedment = "7 in"', 'embedment = "20 in"')))
    assert "T1 and T2 meet inside the trunk of OAK" in sentence


def test_a_bearing_in_the_bark_is_measured_along_the_bolt() -> None:
    """Bark on the side next to the axis, and half the seat: sqrt(400 - 5.625^2) + 1 1/2 = 1' 8 11/16"."""
    project = parse_project(TEXT)
    inside = tuple(
        s.model_copy(update={"at": (s.at[0], 20.6)}) if s.mark == "T1" else s for s in project.supports
    )
    path = find_load_path(find_layout(project))
    with pytest.raises(LayoutError, match=r"measured along the bolt.*1' 8 11/16\" or more"):
        bolt_in_place(path, inside[0])


def test_the_form_asks_for_the_direction_with_its_limits() -> None:
    field = section("support").field("direction")
    assert (field.kind, field.required) == (FieldKind.QUANTITY, False)
    assert "hole" in field.help
    assert "axis" in field.help
    assert field.measure is not None
    assert field.measure.read("-90 deg") == -90
    with pytest.raises(ValueError, match="361 deg' is more than 360 deg"):
        field.measure.read("361 deg")
