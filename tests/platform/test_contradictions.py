"""Files whose values contradict each other or leave nothing: refused in a sentence, never calculated."""

from __future__ import annotations

import pytest
from arrangement_files import ARRANGEMENTS, DEMO, file_of

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.results.results import find_results

TEXT = file_of(DEMO).read_text(encoding="utf-8")
TWO_TREES = file_of("two_trees").read_text(encoding="utf-8")


def said(text: str) -> list[str]:
    with pytest.raises(ProjectError) as caught:
        parse_project(text)
    return caught.value.sentences


def changed(old: str, new: str, text: str = TEXT) -> str:
    assert old in text, old
    return text.replace(old, new)


# What is written, and what the sentence must name: the place, the value, what is allowed.
ROWS = {
    "pad as deep as the hole": (
        ('pad = "10 in"', 'pad = "60 in"'),
        ["footing, F22, pad", "5'", "at most 4' 0\"", "of a 5' 0\" hole"],
    ),
    "pad that leaves a held post 4 in.": (
        ('pad = "10 in"', 'pad = "56 in"'),
        ["footing, F22, pad", "held post"],
    ),
    "hole too shallow for any pad": (
        ('depth = "60 in"', 'depth = "12 in"'),
        ["footing, F22, depth", "1' 4\""],
    ),
    "hole no wider than the post": (
        ('width = "22 in"', 'width = "7 in"'),
        ["footing, F22, width", "post P6"],
    ),
    "steel that yields after it breaks": (
        ('F_y = "36 ksi"', 'F_y = "130 ksi"'),
        ["bolt, main, F_y", "130,000 psi", "58,000 psi", "F_u"],
    ),
    "tree below the floor": (
        ('height = "58 ft"', 'height = "6 ft"'),
        ["tree OAK, height", "6'", "floor at 7'"],
    ),
    "crown above the top": (
        ('crown_center = "36 ft"', 'crown_center = "60 ft"'),
        ["tree OAK, crown_center", "60'", "58'"],
    ),
    "crown below the floor": (
        ('crown_center = "36 ft"', 'crown_center = "5 ft"'),
        ["tree OAK, crown_center", "5'", "floor"],
    ),
    "hollow as wide as the trunk": (
        ('bark = "1 in"', 'bark = "1 in"\ncavity = "21 in"'),
        ["tree OAK, cavity", "less than 2 in. of sound wood"],
    ),
    "bolt through the trunk": (
        ('embedment = "7 in"', 'embedment = "30 in"'),
        ["bolt, main, embedment", "through the trunk of OAK", "at most"],
    ),
    "a guard edge twice": (
        ("guard_edges = [2, 3, 4]", "guard_edges = [2, 2]"),
        ["loads, guard_edges", "edge 2", "2 times"],
    ),
    "as built: a hole at rock, no deeper than its pad": (
        ("[site]", '[[as_built]]\nmark = "P1"\nhole = "12 in"\n\n[site]'),
        ["as_built P1, hole", "1'", 'pad of 10"', "at least 1' 10\""],
    ),
}


@pytest.mark.parametrize("name", ROWS)
def test_refused_in_a_sentence(name: str) -> None:
    change, parts = ROWS[name]
    found = said(changed(*change))
    assert any(all(part in sentence for part in parts) for sentence in found), found


def test_a_pinned_post_may_stand_on_concrete_up_to_grade_but_not_over_it() -> None:
    text = changed('base = "fixed"', 'base = "pinned"')
    assert parse_project(changed('pad = "10 in"', 'pad = "60 in"', text)).footings["F22"].pad == 60
    found = said(
        changed('pad = "10 in"', 'pad = "5 ft"', changed('depth = "60 in"', 'depth = "40 in"', text))
    )
    assert any("footing, F22, pad" in s and "at most 3' 4\"" in s for s in found), found


def test_two_trunks_in_one_place() -> None:
    found = said(changed('at = ["132 in", "0 in"]', 'at = ["2 in", "0 in"]', TWO_TREES))
    assert any("inside its trunk" in s and '2"' in s for s in found), found


@pytest.mark.parametrize("name", [DEMO, "two_trees", "round_the_trunk", "hickory_perch", *ARRANGEMENTS])
def test_sound_files_are_read(name: str) -> None:
    assert parse_project(file_of(name).read_text(encoding="utf-8")).format == 2


def test_steel_beyond_150_ksi_is_warned_of() -> None:
    def notes(text: str) -> str:
        checks = find_results(parse_project(text)).checks
        return " ".join(next(c for c in checks if c.part == "T1" and c.limit_state == "steel bending").notes)

    assert "150,000" not in notes(TEXT)
    strong = changed('F_u = "58 ksi"', 'F_u = "170 ksi"', changed('F_y = "36 ksi"', 'F_y = "155 ksi"'))
    assert "170,000 psi is beyond 150,000 psi" in notes(strong)


def test_soil_round_a_post_holds_it_down_to_its_foot_and_no_further() -> None:
    """In a hole filled with soil the pad is no part of the pole: IBC 2021, 1807.3 counts what is embedded."""

    def capacity(text: str) -> float:
        checks = find_results(parse_project(text)).checks
        return next(c for c in checks if c.part == "P1" and c.limit_state == "lateral embedment").capacity

    soil = changed('fill = "concrete"', 'fill = "soil"')
    shallow = changed('depth = "60 in"', 'depth = "54 in"', changed('pad = "10 in"', 'pad = "4 in"', soil))
    assert capacity(soil) == pytest.approx(capacity(shallow), rel=0.05)  # both stand 50 in. in the ground
    assert capacity(soil) < 0.8 * capacity(changed('pad = "10 in"', 'pad = "4 in"', soil))


@pytest.mark.parametrize("turned", [False, True])
def test_a_strap_pasted_twice_is_refused(turned: bool) -> None:
    """Both straps of the deck pasted halved what each is asked (799 to 399 lb of 820): one piece of steel, twice."""
    block = TEXT[TEXT.index('[[diagonal]]\nmark = "X1"') :]
    block = block[: block.index("\n[", 1)].replace('"X1"', '"X9"')
    if turned:
        block = block.replace("from =", "was =").replace("to =", "from =").replace("was =", "to =")
    (sentence,) = said(TEXT + "\n" + block + "\n")
    assert "X9 lies in the place of X1" in sentence
    beside = block.replace('"20 in"]', '"23 in"]').replace('"132 in"]', '"129 in"]')
    assert beside != block
    assert parse_project(TEXT + "\n" + beside + "\n").diagonals[-1].mark == "X9"
