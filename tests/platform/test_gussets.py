"""Gussets against the rotation of a beam on a post: nails by the yield limit, faults in words, in list and drawing."""

from pathlib import Path

import pytest

from bolewright.calculation import Calculation
from bolewright.platform.file.gussets import gusset_tie
from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.limit_states.check import Topic
from bolewright.platform.results.results import find_results
from bolewright.sheets.sheet import Sheet
from bolewright.take_off.at_supports import post_items

STRAP = 'rotation_tie = "500 lb"       # rated load of the strap that ties each side of C1 down to the post\n'
PLYWOOD = {"gusset": "plywood", "gusset_thickness": "3/4 in", "gusset_nail": "10d", "gusset_nails": 10}


def text_with(keep: str = "", **keys: object) -> str:
    text = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text("utf-8")
    assert STRAP in text
    lines = "".join(f'{k} = "{v}"\n' if isinstance(v, str) else f"{k} = {v}\n" for k, v in keys.items())
    return text.replace(STRAP, keep + lines, 1)


def post_with(**changed: object):
    return parse_project(text_with(**{**PLYWOOD, **changed})).posts["P6"]


def rotations(results):
    return [c for c in results.of(Topic.POSTS) if c.limit_state.startswith("rotation of")]


def test_ten_nails_by_hand():
    """10d common (0.148 x 3 in) through 3/4 in plywood, F_es 3350 psi, into Southern Pine, F_em 16600 x 0.55^1.84.

    NDS 2018, Table 12.3.1A mode IIIs with F_yb 90 ksi and K_D 2.2: by hand k_3 = 1.181, Z = 90.2 lb; wet 0.7 and wind
    1.6 give 101.0 lb a nail.
    """
    D, l_s, F_em, F_es, F_yb = 0.148, 0.75, 16600 * 0.55**1.84, 3350.0, 90000.0
    R_e = F_em / F_es
    k_3 = -1 + (2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2)) ** 0.5
    Z = k_3 * D * l_s * F_em / ((2 + R_e) * 2.2)
    assert pytest.approx(90.2, abs=0.05) == Z
    assert gusset_tie(post_with(), 1.6, Calculation()) == pytest.approx(10 * Z * 0.7 * 1.6, rel=1e-6)


@pytest.mark.parametrize("nail", ["8d", "10d", "12d", "16d", "20d"])
@pytest.mark.parametrize("plate", ["plywood", "steel"])
def test_every_nail_reaches_through_the_thickest_plate(nail, plate):
    """6 D into the post at least (NDS 2018, 12.1.6.5): an 8d nail of 2-1/2 in leaves 1 in past 1-1/2 in of plate."""
    post = post_with(gusset=plate, gusset_thickness="1 1/2 in", gusset_nail=nail)
    assert gusset_tie(post, 1.0, Calculation()) > 0


def test_rotation_is_held_by_the_gusset_s_nails_and_weight():
    results = find_results(parse_project(text_with(**PLYWOOD)))
    for check in rotations(results):
        steps = {step.formula.name: step for step in check.steps}
        T, R = steps["connection_value"].result, steps["load_with_sway"].result
        x = (max(R, 0.0) + T) / (
            0.67 * 565 * 5.5
        )  # block of wood under the far edge, F'_c,perp wet, 5 1/2 in. long
        assert check.capacity == pytest.approx(max(R, 0.0) * (2.25 - x / 2) + T * (4.5 - x / 2), rel=1e-6)
    assert len(rotations(results)) == 2


def test_fewer_nails_hold_less_and_two_do_not_hold():
    few = rotations(find_results(parse_project(text_with(**{**PLYWOOD, "gusset_nails": 2}))))
    many = rotations(find_results(parse_project(text_with(**PLYWOOD))))
    assert all(a.capacity < b.capacity for a, b in zip(few, many, strict=True))
    assert max(c.ratio for c in few) > 1


def test_the_sheet_prints_it():
    """Every printed line is read back and computed again; a line that says something else stops the sheet."""
    sheet = Sheet(find_results(parse_project(text_with(**PLYWOOD))), Topic.POSTS)
    assert any("gusset on the side that lifts" in note for c in rotations(sheet.results) for note in c.notes)
    assert sheet.calculation().items


def test_the_list_counts_plates_and_nails():
    """Two posts, two plates each, ten nails in the post and ten in the beam: 80 nails."""
    items = {i.name: i for i in post_items(find_results(parse_project(text_with(**PLYWOOD))).path.layout)}
    assert items["gusset P6"].count == 4
    assert items["nails of gusset P6"].count == 80


@pytest.mark.parametrize(
    ("changed", "keep", "words"),
    [
        ({"gusset_nails": None}, "", "also needs gusset_nails"),
        ({"gusset": None}, "", "Must be given beside gusset_thickness"),
        ({}, STRAP, "stands beside rotation_tie"),
        ({"gusset_thickness": "1/4 in"}, "", "too thin for plywood; at least 1/2 in"),
    ],
)
def test_faults_in_words(changed, keep, words):
    keys = {k: v for k, v in {**PLYWOOD, **changed}.items() if v is not None}
    with pytest.raises(ProjectError) as fault:
        parse_project(text_with(keep, **keys))
    assert words in str(fault.value)
    assert "post" in str(fault.value)
