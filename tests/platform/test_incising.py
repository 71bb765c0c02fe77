"""Incising (NDS 2018, 4.3.8): asked of treated dimension lumber that commonly is incised, with no default."""

from __future__ import annotations

from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

LOOKOUT = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(
    encoding="utf-8"
)


def checks_of(species: str, grade: str = "No.2", incised: str = "") -> list[Check]:
    """Checks of the lookout with every piece of another wood."""
    wood = f'species = "{species}"\ngrade = "{grade}"\n'
    text = LOOKOUT.replace('species = "Southern Pine"\ngrade = "No.2"\n', wood + incised)
    if species == "Redwood":  # has no values as a 6x6
        head, post, rest = text.partition("[post.P6]")
        text = head + post + rest.replace(wood + incised, 'species = "Southern Pine"\ngrade = "No.2"\n', 1)
    return list(find_results(parse_project(text)).checks)


def open_parts(checks: list[Check]) -> list[str]:
    return [c.part for c in checks if c.limit_state == "incising" and c.status is Status.NOT_CHECKED]


@pytest.mark.parametrize("species", ["Douglas Fir-Larch", "Hem-Fir", "Spruce-Pine-Fir"])
def test_open_where_treated_lumber_commonly_is_incised(species):
    """AWC DCA 6 Table 2, footnote of this group; 6x6 posts are no dimension lumber (NDS 2018, 4.1.3, 4.3.8)."""
    assert open_parts(checks_of(species)) == ["decking", "J", "S1", "S2", "C1", "K1", "K2", "ladder"]
    assert open_parts(checks_of(species, incised="incised = true\n")) == []
    assert open_parts(checks_of(species, incised="incised = false\n")) == []


@pytest.mark.parametrize(
    ("species", "grade"),
    [("Southern Pine", "No.2"), ("Redwood", "No.2 open grain"), ("Western Cedars", "No.2")],
)
def test_not_asked_of_wood_that_is_not_incised(species, grade):
    """Southern Pine takes treatment unincised; redwood and cedar are used untreated (AWC DCA 6 Table 2)."""
    assert open_parts(checks_of(species, grade)) == []


def test_not_asked_of_dry_wood():
    text = LOOKOUT.replace('species = "Southern Pine"', 'species = "Hem-Fir"\nwet = false')
    text = text.replace("wet = true\n", "").replace(
        "No.1 Dense", "No.1"
    )  # the Dense grades are Southern Pine's
    assert open_parts(list(find_results(parse_project(text)).checks)) == []


def test_nothing_said_is_counted_as_incised():
    """NDS 2018, Table 4.3.8: F_b x 0.80, so the ratio of a joist held against buckling is 1/0.80 of the unincised."""
    found = {}
    for said in ("", "incised = true\n", "incised = false\n"):
        checks = checks_of("Hem-Fir", incised=said)
        found[said] = {(c.part, c.limit_state): c.ratio for c in checks if c.ratio == c.ratio}
    assert found[""] == found["incised = true\n"]
    plain = found["incised = false\n"]
    assert found[""]["J7", "bending"] == pytest.approx(plain["J7", "bending"] / 0.80, rel=1e-9)
    assert found[""]["J7", "live deflection"] == pytest.approx(
        plain["J7", "live deflection"] / 0.95, rel=1e-9
    )


def test_the_sentence_names_the_factor_and_what_to_enter():
    (said,) = [c.sentence for c in checks_of("Hem-Fir") if (c.part, c.limit_state) == ("J", "incising")]
    assert "C_i = 0.80 on bending, tension, shear and compression along the grain, 0.95 on E" in said
    assert "enter incised = true or false" in said
