"""What stands off its beam's line, or only half under its end, counts in the checks by as much as it is off."""

from __future__ import annotations

import pytest
from arrangement_files import DEMO, FOLDER, file_of

from bolewright.platform.file.reading import parse_project
from bolewright.platform.layout.layout import LayoutError, find_layout
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results

TEXT = file_of("round_the_trunk").read_text(encoding="utf-8")
LOOKOUT = file_of(DEMO).read_text(encoding="utf-8")


def checks(text: str) -> dict[tuple[str, str], Check]:
    return {(c.part, c.limit_state): c for c in find_results(parse_project(text)).checks}


def arguments(check: Check, name: str) -> dict[str, object]:
    return next(dict(step.arguments) for step in check.steps if step.formula.name == name)


def test_a_post_off_its_beams_line_bears_that_much_off_centre() -> None:
    off = TEXT.replace('at = ["14 in", "20 in"]', 'at = ["14 in", "21 in"]')
    key = ("P1", "combined axial load and bending at the knee")
    before, after = checks(TEXT)[key], checks(off)[key]
    assert arguments(before, "eccentric_compression")["e_1"] == pytest.approx(0.5)
    assert arguments(after, "off_line_sum") == {"e_0": pytest.approx(0.5), "o": pytest.approx(1.0)}
    assert arguments(after, "eccentric_compression")["e_1"] == pytest.approx(1.5)
    assert after.ratio > before.ratio


def test_a_beam_off_the_middle_of_its_post_bears_on_less_width() -> None:
    """4 1/2 in. wide on a 7 1/4 in. post, 1 in. off: even about the load 7 1/4 - 2 = 5 1/4, enough; on 5 1/2: 3 1/2."""
    off = TEXT.replace('at = ["14 in", "20 in"]', 'at = ["14 in", "21 in"]')
    key = ("P1", "bearing of C1 with wind and sway")
    assert arguments(checks(off)[key], "bearing_stress")["b"] == pytest.approx(4.5)
    narrow = off.replace('section = "8x8"', 'section = "6x6"')
    assert arguments(checks(narrow)[key], "bearing_stress")["b"] == pytest.approx(3.5)


def test_a_tree_bolt_inside_its_beams_line_has_the_lever_of_the_beam() -> None:
    """S2 passes through 17, 0; from 16.2, 0 its nearest point is 0.8 u_y^2 farther out along the bolt (geometry)."""

    def lever(text: str) -> float:
        found = checks(text)["T2", "steel bending"]
        return float(arguments(found, "bolt_moment_at")["e"])  # type: ignore[arg-type]

    assert 'at = ["17 in", "0 in"]' in LOOKOUT
    inside = LOOKOUT.replace('at = ["17 in", "0 in"]', 'at = ["16.2 in", "0 in"]')
    layout = find_layout(parse_project(inside))
    u = layout.member("S2").line.u
    farther = 0.8 * u[1] ** 2
    assert layout.off_line("T2") == pytest.approx(0.8 * u[1], abs=0.01)
    assert lever(inside) == pytest.approx(lever(LOOKOUT) - 0.8 + farther, abs=0.01)
    outside = LOOKOUT.replace('at = ["17 in", "0 in"]', 'at = ["17 1/2 in", "0 in"]')
    assert lever(outside) == pytest.approx(lever(LOOKOUT) + 0.5, abs=1e-6)


def test_rounded_coordinates_are_not_off_the_line() -> None:
    layout = find_layout(parse_project(LOOKOUT))
    (member, _), *_ = layout.on_support("T1")
    assert 0 < member.line.off((-17.0, 0.0)) < 1 / 16
    assert layout.off_line("T1") == 0


def test_a_beam_that_ends_over_the_middle_of_a_post_bears_on_half_of_it() -> None:
    text = (FOLDER / "one_tree_one_post.toml").read_text(encoding="utf-8")
    for mark in ("S1", "S2"):  # mitred over the post: half of 3 in. by 5 1/2 in. each; S1 stands askew on it
        found = arguments(checks(text)[mark, "bearing on P1"], "bearing_stress")
        assert found["b"] * found["l_b"] == pytest.approx(3 * 5.5 / 2, rel=0.06)


def test_a_joist_that_misses_the_end_of_its_beam_by_an_inch_does_not_hang_from_it() -> None:
    # The first joist of the field lies 3/4 in. from the deck's edge; a beam that stops 1/2 in. short of it has none.
    text = TEXT.replace('to = ["144 in", "20 in"]', 'to = ["142 1/4 in", "20 in"]')
    with pytest.raises(LayoutError, match=r"reaches only beam C2"):
        find_layout(parse_project(text))
