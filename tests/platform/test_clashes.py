"""Pieces in the place of each other are found by their bodies and named; joints that share a place are not."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from arrangement_files import ARRANGEMENTS, DEMO, file_of
from cases import FOLDER as CASES
from cases import laid_out

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project, read_project
from bolewright.platform.layout.layout import LayoutError, find_layout
from bolewright.platform.results.results import find_results
from bolewright.platform.solids.clashes import TIP, TOLERANCE, above_beam, clashes
from bolewright.status import Status

TEXT = file_of(DEMO).read_text(encoding="utf-8")
POST = '[[support]]\nmark = "P3"\nkind = "post"\npost = "P6"\nfooting = "F22"\nat = ["{x} in", "114 in"]\n'
# of the arrangements that the load path is tested on, those that nobody could build as they are
UNBUILT = {"one_tree_one_post_knee", "one_tree_one_post_t_frame"}


def block(header: str, mark: str) -> str:
    """A part of the demonstration's file, from its header to the next."""
    match = re.search(rf'\[\[{header}\]\]\nmark = "{mark}".*?(?=\n\[)', TEXT, re.DOTALL)
    assert match
    return match[0]


def said(text: str) -> str:
    """What is said of an arrangement: the sentence that refuses it, or those of the checks that fail for a clash."""
    try:
        checks = find_results(parse_project(text)).checks
    except LayoutError as error:
        return str(error)
    found = [c for c in checks if c.key.endswith((".place", ".above_beam")) and c.status is Status.FAILS]
    assert {c.shown_ratio for c in found if c.key.endswith(".place")} <= {"clash"}, "a depth is no ratio"
    assert {c.key for c in found} != {"platform.place"}, "a clash of the whole has a check of its piece"
    return " ".join(check.sentence for check in found)


def depths(text: str) -> dict[tuple[str, str], float]:
    layout = find_layout(parse_project(text))
    return {(c.piece.mark, c.other.mark): c.depth for c in clashes(layout)}


@pytest.mark.parametrize(
    "name", ["hickory_perch", "lookout", "lookout_too_small", "round_the_trunk", "two_trees"]
)
def test_shipped_projects_are_clear(name):
    project = read_project(shipped("calcsheets") / f"{name}.toml")
    assert clashes(find_layout(project)) == ()
    (whole,) = [c for c in find_results(project).checks if c.key == "platform.place"]
    assert (whole.status, whole.demand) == (Status.PASSES, 0.0)


@pytest.mark.parametrize("name", sorted(set(ARRANGEMENTS) - UNBUILT))
def test_arrangements_are_clear(name):
    assert clashes(find_layout(read_project(file_of(name)))) == ()


@pytest.mark.parametrize("name", sorted(path.stem for path in CASES.glob("*.toml")))
def test_joints_that_meet_share_no_place(name):
    """Beams that end at each other, hang in a face, joists that butt on a beam: cut to their faces they are clear."""
    assert clashes(laid_out(name)) == ()


def test_a_beam_pasted_twice_is_named():
    """S9 on S2: two beams of 3 in. in one place share the load, and bending falls to 0.70 where it is 1.07."""
    words = said(TEXT + block("beam", "S2").replace('"S2"', '"S9"'))
    assert "S9" in words
    assert "S2" in words


def test_joists_in_one_place_twice_are_named():
    field = block("joists", "J").replace('mark = "J"', 'mark = "Q"')
    assert re.search(r"\b(J1|Q1)\b.*\b(J1|Q1)\b", said(TEXT + field))


def test_posts_8_inches_apart_stand_in_each_others_holes():
    """Holes 22 in. across, 8 in. on centre: 14 in. of one lie in the other, 1 % less by bodies of 24 sides."""
    text = TEXT + POST.format(x=-28)
    assert depths(text)["P3", "P1"] == pytest.approx(14, rel=0.01)
    words = said(text)
    assert "The footing of P3 fails: it lies 1' 1 15/16\" in the place of the footing of P1" in words


def test_timbers_of_10_in_8_inches_apart():
    """10x10 posts (9 1/2 in.) 8 in. on centre: each stands in the other's hole, and P1's knee in the new post.

    Holes 22 and 24 in. across: 11 + 12 - 8 = 15 in. of one in the other. P1's near face, 2 3/4 in. off its middle, lies
    12 - (8 - 2.75) = 6.75 in. inside P3's hole.
    """
    big = POST.format(x=-28).replace('"P6"', '"P10"').replace('"F22"', '"F24"')
    kinds = (
        '\n[post.P10]\nsection = "10x10"\nspecies = "Southern Pine"\ngrade = "No.2"\nwet = true\nbase = "fixed"\n'
        '[footing.F24]\nshape = "round"\nwidth = "24 in"\ndepth = "60 in"\npad = "10 in"\n'
    )
    found = depths(TEXT + kinds + big)
    assert found["P3", "P1"] == pytest.approx(15, rel=0.01)
    assert found["P1", "P3"] == pytest.approx(6.75, abs=0.01)
    assert found["K1", "P3"] == pytest.approx(
        4.75 - 2.75, abs=0.01
    )  # its ply lies 2 3/4 in. off, P3's face 4 3/4


@pytest.mark.parametrize(("x", "overlap"), [(-16, 2.0), (-13.75, 0.0)])
def test_holes_that_overlap(x, overlap):
    """Holes 22 in. across from x = -36: 20 in. on centre overlap by 2 in., 22 1/4 in. do not."""
    found = depths(TEXT + POST.format(x=x))
    assert found.get(("P3", "P1"), 0.0) == pytest.approx(overlap, abs=0.02)


@cache
def knees(rise: int, run: int) -> str:
    return TEXT.replace('rise = "30 in"\nrun = "30 in"', f'rise = "{rise} in"\nrun = "{run} in"')


def test_knee_braces_that_cross():
    """Posts 84 in. apart, knees that run 50 in. towards each other on the same faces cross in their plane."""
    words = said(knees(30, 50))
    assert "Knee brace K2 fails" in words
    assert "in the place of knee brace K1" in words
    assert not said(knees(30, 30))


def test_a_knee_brace_in_a_post():
    """K1 fitted under C1 with a run of 90 in. passes P2, 84 in. away: 5 1/2 in. wide, in its way by its own width."""
    fitted = re.sub(r'bolts = 2\nbolt_diameter = "5/8 in"', 'rated_load = "900 lb"', knees(30, 90), count=1)
    fitted = re.sub(r'mark = "K1"(.*?)plies = 2', r'mark = "K1"\1plies = 1', fitted, count=1, flags=re.DOTALL)
    found = depths(fitted.replace(block("brace", "K2"), ""))
    assert found["K1", "P2"] > 1.0


def test_a_knee_brace_above_its_beam():
    """Bolts of 1 in. at C1's mid-depth, 7 in. of end past them (NDS 2018, 12.5.1A), at 45 degrees: above the top.

    The square end's upper corner is (7 in. and half of 5 1/2 in.) sin 45 = 6.9 in. and more above mid-depth; C1 has
    5 5/8 in. there.
    """
    text = TEXT.replace('bolt_diameter = "5/8 in"', 'bolt_diameter = "1 in"')
    layout = find_layout(parse_project(text))
    brace = layout.project.braces[0]
    assert above_beam(layout, brace) > (7 + 2.75) / 2**0.5 - 5.625 > TIP
    assert "K1 fails: how far its upper end stands above C1" in said(text)


def test_a_trunk_wider_at_the_floor_than_its_girth_says():
    """The bark measured at the floor reaches y = 24 in.; deck and first joist begin at 18 and 20 in."""
    outline = (
        '[[outline]]\ntree = "OAK"\npoints = [["-12 in", "-12 in"], ["12 in", "-12 in"], '
        '["12 in", "24 in"], ["-12 in", "24 in"]]\n'
    )
    words = said(TEXT + outline)
    assert re.search(r"trunk OAK lies in the place of the decking", words)
    assert re.search(r"in the place of trunk OAK", words)


def test_a_trunk_through_the_deck_is_refused():
    with pytest.raises(LayoutError, match=r"OAK"):
        find_layout(parse_project(TEXT.replace('at = ["0 in", "0 in"]', 'at = ["0 in", "60 in"]', 1)))


@pytest.mark.parametrize(("drop", "clear"), [(3 / 16, True), (7 / 16, False)])
def test_the_tolerance_is_what_a_tape_and_a_plane_leave(drop, clear):
    """A third post's hole 21 13/16 or 21 9/16 in. from the first: less than 1/4 in. is left to the job, more is not."""
    found = depths(TEXT + POST.format(x=-36 + 22 - drop).replace('"F22"', '"S22"') + SQUARE)
    assert (("P3", "P1") not in found) is clear
    assert TOLERANCE == 0.25


SQUARE = """
[footing.S22]
shape = "square"
width = "22 in"
depth = "60 in"
pad = "10 in"
"""


def test_a_ladder_in_a_trunk_is_named():
    """A trunk of 12 in. where a ladder's foot stands, its middle on the middle of a rail of 1 1/2 in.

    To be clear of the rail it would have to move 6 + 3/4 in. along the edge (24 sides: 6 times cos 7.5 deg at least).
    """
    text = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(
        encoding="utf-8"
    )
    assert not depths(text)
    plan = find_layout(parse_project(text)).ladder
    x, y = plan.heads[0]
    at = (x + plan.run / 2 * plan.out[0], y + plan.run / 2 * plan.out[1])
    tree = (
        f'[[tree]]\nmark = "ELM"\nspecies = "bur oak"\nat = ["{at[0]:.4f} in", "{at[1]:.4f} in"]\n'
        'diameter = "12 in"\nbark = "1/2 in"\nheight = "30 ft"\n'
    )
    found = depths(f"{text}\n{tree}")
    assert found["ladder", "ELM"] == pytest.approx(6.75, abs=0.1)


def test_stairs_may_be_scribed_round_a_beam_by_an_inch_and_no_more():
    """The perch: J7 of 1 1/2 in. over the middle of C1 of 3 in., so C1 stands 3/4 in. past the stringers' head."""
    text = (shipped("calcsheets") / "hickory_perch.toml").read_text(encoding="utf-8")
    assert not depths(text)
    wide = text.replace('mark = "C1"\nplies = 2', 'mark = "C1"\nplies = 3')  # 4 1/2 in.: 1 1/2 in. past it
    assert wide != text
    assert depths(wide)["stair", "C1"] == pytest.approx(1.5, abs=0.01)


def test_a_guards_post_beside_another_is_named():
    """Two guards on one edge with posts 1 in. apart on centre: 3 1/2 in. wide, 2 1/2 in. of one lie in the other."""
    text = (shipped("calcsheets") / "round_the_trunk.toml").read_text(encoding="utf-8")
    layout = find_layout(parse_project(text))
    run = layout.guards[0]
    first = run.posts[0]
    guard = re.search(r"\[\[guard\]\].*?(?=\n\[)", text, re.DOTALL)
    assert guard
    again = re.sub(r"edges = \[.*\]", f'edges = [{run.edge}]\nplaces = ["{first.along + 1} in"]', guard[0])
    again = re.sub(r'mark = ".*"', 'mark = "H"', again) if "mark" in guard[0] else again + '\nmark = "H"'
    found = depths(text + "\n" + again + "\n")
    assert found["H1", first.mark] == pytest.approx(first.section.b - 1, abs=0.01)
