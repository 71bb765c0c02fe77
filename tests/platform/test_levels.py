"""Levels through the stack, by plain sums of depths from the boards down; one source for all that are cut by them."""

from __future__ import annotations

import pytest
from arrangement_files import ARRANGEMENTS, DEMO, project_of
from cases import FOLDER, MEETING, case, laid_out

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.layout import Layout, LayoutError, find_layout
from bolewright.platform.project import Project
from bolewright.platform.project.measured import AsBuilt
from bolewright.setting_out.levels import find_levels
from bolewright.setting_out.stacks import stacks

# Floor, board 1.5, then depths down: joist 2x8 7.25, 2x6 5.5; beams 2x10 9.25, 2x12 11.25 (PS 20 dressed sizes).
BOTTOMS = [
    ("c03_hung_in_face", "C1", 96 - 1.5 - 5.5 - 11.25),  # its top at the undersides of the joists
    ("c03_hung_in_face", "S1", 96 - 1.5 - 5.5 - 9.25),
    ("m_f39b", "C1", 108 - 1.5 - 7.25 - 11.25),  # flush with what hangs in it: 88 in. to the seat
    ("m_f39b", "S2", 108 - 1.5 - 7.25 - 9.25),
    ("m_f48", "T1", 108 - 1.5 - 7.25 - 9.25),  # level with C1 on P2: 90 in.
    ("m_f54", "C2", 108 - 1.5 - 7.25 - 9.25),  # bears nothing: as C1 on the post they share
    ("m_f54", "C4", 108 - 1.5 - 7.25 - 9.25),
    ("m_f62", "C2", 108 - 1.5 - 9.25),
]


@pytest.mark.parametrize(("name", "mark", "bottom"), BOTTOMS)
def test_undersides_by_sums(name: str, mark: str, bottom: float) -> None:
    assert laid_out(name).member(mark).bottom == pytest.approx(bottom)


SETS = [("m_f39b", "P1", 88.0), ("m_f48", "P4", 90.0), ("m_f48", "P2", 90.0), ("m_f54", "P1", 90.0)]


@pytest.mark.parametrize(("name", "mark", "seat"), SETS)
def test_posts_are_set_out_to_the_seat(name: str, mark: str, seat: float) -> None:
    at = {level.support: level for level in find_levels(laid_out(name)).at}[mark]
    assert at.planned == pytest.approx(seat)
    assert at.length == pytest.approx(seat + 48 - 10)  # down to the concrete: 48 in. deep, a pad of 10 in.


def stack_is_seat(layout: Layout) -> None:
    """Every stack ends at the layout's own seat, less the plate of the cap, and its layers fill it to the floor."""
    for stack in stacks(layout):
        support = next(s for s in layout.supports if s.mark == stack.support)
        plate = layout.project.posts[support.post or ""].cap_seat if support.kind == "post" else 0.0
        assert stack.top == pytest.approx(layout.seat_level(stack.support) - plate)
        assert stack.top + sum(layer.planned for layer in stack.layers) == pytest.approx(stack.floor)


@pytest.mark.parametrize(
    "name", [DEMO, "lookout_too_small", "hickory_perch", "round_the_trunk", "two_trees", *ARRANGEMENTS]
)
def test_stacks_of_arrangements(name: str) -> None:
    stack_is_seat(find_layout(project_of(name)))


@pytest.mark.parametrize("name", MEETING)
def test_stacks_of_cases(name: str) -> None:
    stack_is_seat(laid_out(name))


def test_a_depth_as_measured_lowers_what_is_under_it_alone() -> None:
    """C1 of the tee measured 9 1/2 in. deep, 1/4 in. more than planned: the posts under it are cut 1/4 in. lower."""
    built = AsBuilt.model_validate({"mark": "C1", "depth": "9 1/2 in"})
    project = case("m_f48").model_copy(update={"as_built": (built,)})
    tops = {stack.support: stack.top for stack in stacks(find_layout(project))}
    assert tops["P2"] == pytest.approx(89.75)
    assert tops["P7"] == pytest.approx(90.0)


def with_beam(project: Project, mark: str, **changed: object) -> Project:
    """A project with one beam changed."""
    beams = [c.model_copy(update=changed) if c.mark == mark else c for c in project.beams]
    return project.model_copy(update={"beams": tuple(beams)})


def off_the_beams(project: Project) -> Project:
    """The joists clear of C1 and C2, which then may stand up beside them."""
    fields = (project.joists[0].model_copy(update={"first": 16.0, "last": 104.0}),)
    return project.model_copy(update={"joists": fields})


def test_shallow_beams_in_a_deep_one() -> None:
    """A drop settles it: C1 and C2 of 2x12, their tops 1 in. over those of the 2x10 hung in them."""
    project = off_the_beams(case("m_f39b"))
    for mark in ("C1", "C2"):
        project = with_beam(project, mark, drop=6.25)
    layout = find_layout(project)
    assert layout.member("C1").top == pytest.approx(108 - 1.5 - 6.25)
    assert layout.member("S1").top == pytest.approx(108 - 1.5 - 7.25)
    assert layout.seat_level("P1") == pytest.approx(108 - 1.5 - 6.25 - 11.25)
    stack_is_seat(layout)


REFUSED = [
    ("m_f39b", "C1", {"drop": 9.0}, 'top of S3 would be 1 3/4" above that of C1'),
    ("m_f39b", "C1", {"drop": 4.0}, 'underside of S3 would be 1 1/4" below that of C1'),
    ("m_f39b", "S1", {"drop": 9.0}, "S1 would need its top at two levels"),
    ("m_f54", "C2", {"section": "2x12", "top": 107.0}, "C2 both stand on"),
    ("m_f62", "C2", {"section": "2x12"}, 'top of C2 would be 2" above the undersides of the boards'),
]


@pytest.mark.parametrize(("name", "mark", "changed", "said"), REFUSED)
def test_what_cannot_meet_is_refused_in_a_sentence(
    name: str, mark: str, changed: dict[str, object], said: str
) -> None:
    project = case(name) if name != "m_f39b" else off_the_beams(case(name))
    with pytest.raises(LayoutError) as caught:
        find_layout(with_beam(project, mark, **changed))
    assert said in str(caught.value)


def test_a_beam_that_nothing_decides_is_never_flush_by_default() -> None:
    """Taken off its shared posts, C2 of the picture frame stands on two posts of its own and bears nothing."""
    text = FREE
    with pytest.raises(LayoutError, match=r"Nothing decides the level of X"):
        find_layout(parse_project(text))
    layout = find_layout(parse_project(text.replace('mark = "X"', 'mark = "X"\ndrop = "0 in"')))
    assert layout.member("X").top == pytest.approx(layout.under_deck)


def test_top_and_drop_together_are_refused() -> None:
    both = FREE.replace('mark = "X"', 'mark = "X"\ndrop = "0 in"\ntop = "8 ft"')
    with pytest.raises(ProjectError, match="give either top or drop"):
        parse_project(both)


def _free() -> str:
    text = (FOLDER / "m_f53.toml").read_text(encoding="utf-8")
    posts = "".join(
        f'[[support]]\nmark = "{m}"\nkind = "post"\npost = "P6"\nfooting = "F"\nat = ["{x} in", "54 in"]\n\n'
        for m, x in (("X1", 110), ("X2", 150))
    )
    beam = (
        '[[beam]]\nmark = "X"\nplies = 2\nsection = "2x8"\nspecies = "Southern Pine"\ngrade = "No.2"\n'
        'from = ["108 in", "54 in"]\nto = ["152 in", "54 in"]\nlayer = 1\n\n'
    )
    return text.replace("[[joists]]", posts + beam + "[[joists]]", 1)


FREE = _free()
