"""The drawn requirements cover what they claim, and requirements that make no sense are refused in a sentence."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from requirements200 import requirements

from bolewright.cli import main
from bolewright.platform.file.reading import ProjectError
from bolewright.proposing.ground import ground_of
from bolewright.proposing.reading import find_need_faults, parse_needs
from bolewright.proposing.told import neighbours

GOOD = """format = 2
[floor]
width = "12 ft"
depth = "10 ft"
height = "7 ft"
[place]
ground_snow = "25 psf"
wind_speed = "107 mph"
"""
TREE = """[[tree]]
mark = "OAK"
species = "white oak"
at = ["6 ft", "5 ft"]
girth = "75 in"
"""


def test_two_hundred_requirements_cover_what_they_claim() -> None:
    """None to four trees, 36 to 250 sq ft, 3 to 14 ft up, snow to 70 psf, wind 95 to 140 mph, every class of soil."""
    drawn = []
    for data in requirements():
        needs, faults = find_need_faults(data)
        assert needs is not None, faults
        drawn.append(needs)
    assert len(drawn) == 200
    assert {len(n.trees) for n in drawn} == {0, 1, 2, 3, 4}
    areas = [ground_of(n).area for n in drawn]
    assert 25 < min(areas) < 45
    assert 220 < max(areas) < 270
    assert all(36 <= n.floor.height <= 168 for n in drawn)
    assert all(0 <= n.place.ground_snow <= 70 and 95 <= n.place.wind_speed <= 140 for n in drawn)
    assert {n.place.soil for n in drawn} >= {f"class {i}" for i in range(1, 6)}
    assert sum(bool(n.no_posts) for n in drawn) > 40
    assert sum(n.floor.outline is not None for n in drawn) > 40
    assert sum(any(t.girth >= 76 for t in n.trees) for n in drawn) >= 40
    assert requirements() == requirements()


def test_root_zone_is_three_trunk_diameters() -> None:
    """Holes three trunk diameters from the trunk's centre: 75 in round is 23.9 in thick, so 71.6 in."""
    ground = ground_of(parse_needs(GOOD + TREE))
    assert ground.in_way(72 + 71.0 + 10, 60, 10.0) is not None
    assert ground.in_way(72 + 3 * 75 / math.pi + 10.5, 60, 10.0) is None


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('height = "7 ft"', 'height = "7"', "no unit"),
        ('height = "7 ft"', 'height = "30 ft"', "is more than"),
        ('depth = "10 ft"', "", "width and depth go together"),
        ('depth = "10 ft"', 'depth = "10 ft"\narea = "100 ft2"', "write one of outline"),
        ("[place]", "[palce]", "place"),
        ('wind_speed = "107 mph"', "", "wind_speed: this key is missing"),
        ('wind_speed = "107 mph"', 'wind_sped = "107 mph"', "the nearest is wind_speed"),
        ('ground_snow = "25 psf"', 'ground_snow = "25 psf"\nsoil = "clay"', "class 5"),
        ("[place]", TREE.replace("white oak", "plastic oak") + "[place]", "plastic oak"),
        ("[place]", TREE + TREE + "[place]", "the mark of another tree"),
        ("[place]", TREE.replace('"75 in"', '"5 in"') + "[place]", "is less than"),
        ("[place]", "[access]\nedge = 9\n[place]", "edges 1 to 4"),
        ("format = 2", "", "format = 2"),
        (
            "[place]",
            '[[ground]]\nat = ["0 in", "0 in"]\nlevel = "72 in"\n[place]',
            "where the ground is highest",
        ),
    ],
)
def test_requirements_that_make_no_sense_get_a_sentence(old: str, new: str, says: str) -> None:
    assert parse_needs(GOOD)
    with pytest.raises(ProjectError) as error:
        parse_needs(GOOD.replace(old, new))
    assert says in str(error.value)
    assert all(s.startswith("needs.toml") and s.endswith(".") for s in error.value.sentences)


def test_an_existing_file_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    needs, out = tmp_path / "needs.toml", tmp_path / "mine.toml"
    needs.write_text(GOOD)
    out.write_text("mine")
    assert main(["propose", str(needs), "--out", str(out)]) == 2
    assert out.read_text() == "mine"
    assert "exists" in capsys.readouterr().err


@pytest.mark.parametrize(("setback", "over"), [("12 in", False), ("13 in", True)])
def test_a_floor_that_ends_right_at_the_setback_is_not_over_it(setback: str, over: bool) -> None:
    """The line runs 12 in. below the floor's edge."""
    line = (
        f'[[property_line]]\nfrom = ["-20 ft", "-12 in"]\nto = ["40 ft", "-12 in"]\nsetback = "{setback}"\n'
    )
    assert ground_of(parse_needs(GOOD + line)).floor_over_line is over


@pytest.mark.parametrize(
    ("y", "setback", "said"),
    [
        ("-6 ft", "0 in", True),
        ("-2 ft", "0 in", True),
        ("-2 ft", "5 ft", True),
        ("-6 in", "0 in", False),
        ("14 in", "5 ft", False),
    ],
)
def test_a_trunk_on_a_property_line_or_beyond_it_is_said(y: str, setback: str, said: bool) -> None:
    """Girth 75 in.: a radius of 11.9 in.; the line runs 2 ft below the floor's edge, whatever the setback from it."""
    line = f'[[property_line]]\nfrom = ["-20 ft", "-2 ft"]\nto = ["40 ft", "-2 ft"]\nsetback = "{setback}"\n'
    found = neighbours(ground_of(parse_needs(GOOD + TREE.replace('"5 ft"', f'"{y}"') + line)))
    assert ["OAK stands on the property line or beyond it" in words for words in found] == [True] * said


@pytest.mark.parametrize(("at", "said"), [("3 ft", True), ("-3 ft", False)])
def test_two_trunks_beyond_a_line_that_lies_aslant(at: str, said: bool) -> None:
    """The line y = x - 20 ft; the floor is above it, and both trunks 3 ft / sqrt 2 below or above."""
    trees = TREE.replace('["6 ft", "5 ft"]', f'["{20 + int(at.split()[0])} ft", "0 ft"]')
    line = '[[property_line]]\nfrom = ["10 ft", "-10 ft"]\nto = ["40 ft", "20 ft"]\n'
    assert bool(neighbours(ground_of(parse_needs(GOOD + trees + line)))) is said
