"""A material of the user's own, and boards by their maker's limits: in the file, in every check, on the sheets.

Numbers of the tables typed in by hand (NDS Supplement 2018, Tables 4A and 4B) must give what the tables give.
"""

from __future__ import annotations

import re
from functools import cache

import pytest
from arrangement_files import DEMO, file_of

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.boards import board_spans
from bolewright.platform.layout.layout import find_layout
from bolewright.platform.limit_states.check import Topic
from bolewright.platform.loads.load_path import deck_dead
from bolewright.platform.results.results import Results, find_results
from bolewright.sheets.inputs import inputs_of
from bolewright.status import Status
from bolewright.take_off.cut_list import Use, find_cuts
from bolewright.units import PSI
from bolewright.workbook.draft import Draft

TEXT = file_of(DEMO).read_text(encoding="utf-8")
SP_2X8 = """
[material.PINE]
F_b = "925 psi"
F_t = "550 psi"
F_v = "175 psi"
F_c_perp = "565 psi"
F_c = "1350 psi"
E = "1400 ksi"
E_min = "510 ksi"
G = 0.55
note = "Table 4B typed in by hand"
repetitive_factor = "to be applied"
"""
BY_GRADE = 'species = "Southern Pine"\ngrade = "No.2"'
BOARDS = """
section = "5/4x6"
span_limit = "16 in"
span_load = "100 psf"
end_limit = "2 in"
weight = "4 psf"
span_note = "Sheet 3 of its maker"
gap = "1/8 in"
"""


def with_material(section: str, keys: str = 'material = "PINE"', more: str = SP_2X8) -> str:
    """Demo with the species and grade of the first piece under a header replaced."""
    before, header, after = TEXT.partition(section)
    its_own, rest = after.split("\n[", 1)
    changed = re.sub(
        r'species = "Southern Pine"\ngrade = "No\.[12](?: Dense)?"', lambda _: keys, its_own, count=1
    )
    assert changed != its_own
    return before + header + changed + "\n[" + rest + more


def with_boards(boards: str = BOARDS) -> str:
    return re.sub(r"\[decking\]\n.*?\n\n", lambda _: f"[decking]{boards}\n", TEXT, flags=re.DOTALL)


@cache
def results_of(text: str) -> Results:
    return find_results(parse_project(text))


def refusals(text: str) -> list[str]:
    with pytest.raises(ProjectError) as caught:
        parse_project(text, "mine.toml")
    return caught.value.sentences


@pytest.mark.parametrize("state", ["bending", "shear", "bearing", "live deflection"])
def test_values_of_the_table_typed_in_by_hand_give_what_the_table_gives(state: str) -> None:
    """Southern Pine No.2 2x8 of Table 4B, in which the size factor is."""
    for own, table in zip(
        results_of(with_material("[[joists]]")).of(Topic.JOISTS),
        results_of(TEXT).of(Topic.JOISTS),
        strict=True,
    ):
        if table.limit_state == state:
            assert own.ratio == pytest.approx(table.ratio, rel=1e-9)


def test_size_factor_to_be_applied_is_that_of_table_4A() -> None:
    """Douglas Fir-Larch No.2 as Table 4A has it, before the size factor: F_b 900, F_t 575 (NDS Supplement 2018)."""
    fir = """
[material.PINE]
F_b = "900 psi"
F_t = "575 psi"
F_v = "180 psi"
F_c_perp = "625 psi"
F_c = "1350 psi"
E = "1600 ksi"
E_min = "580 ksi"
G = 0.50
note = "Table 4A typed in by hand"
size_factor = "to be applied"
repetitive_factor = "to be applied"
"""
    table = with_material("[[joists]]", 'species = "Douglas Fir-Larch"\ngrade = "No.2"\nincised = false', "")
    own = results_of(with_material("[[joists]]", more=fir)).of(Topic.JOISTS)
    for mine, theirs in zip(own, results_of(table).of(Topic.JOISTS), strict=True):
        assert mine.severity == pytest.approx(theirs.severity, rel=1e-9)  # uplift is open in both


@pytest.mark.parametrize(
    ("factor", "beam", "joist"),
    [("none", 1.0, 1.15), ("to be applied", 1.0, 1.0), ("included", 1.15, 1.15)],
)
def test_repetitive_factor_says_what_is_in_the_values(factor: str, beam: float, joist: float) -> None:
    """C_r is 1.15 (NDS 2018, 4.3.9): two plies are not repetitive, joists are."""
    more = SP_2X8.replace('repetitive_factor = "to be applied"', f'repetitive_factor = "{factor}"')

    def bending(topic: Topic, text: str) -> float:
        return max(
            c.ratio for c in results_of(text).of(topic) if c.limit_state == "bending" and c.unit is PSI
        )

    of_joists = bending(Topic.JOISTS, with_material("[[joists]]", more=more))
    assert of_joists / bending(Topic.JOISTS, TEXT) == pytest.approx(joist, rel=1e-6)
    for_beam = with_material("[[beam]]", more=more)
    applied = with_material("[[beam]]", more=SP_2X8)
    S1 = [
        next(c for c in results_of(t).checks if c.part == "S1" and c.limit_state == "bending")
        for t in (for_beam, applied)
    ]
    # beam stability C_L is a little nearer to 1 for the lower value (NDS 2018, 3.3.3.8)
    assert S1[0].ratio / S1[1].ratio == pytest.approx(beam, rel=2e-3)


@pytest.mark.parametrize(
    ("header", "topic"),
    [
        ("[decking]", Topic.DECKING),
        ("[post.P6]", Topic.POSTS),
        ("[[beam]]", Topic.BEAMS),
        ("[[brace]]", Topic.BRACES),
    ],
)
def test_a_weak_material_fails_wherever_it_is_named(header: str, topic: Topic) -> None:
    weak = re.sub(r'"(\d+) psi"', '"10 psi"', SP_2X8)
    found = results_of(with_material(header, more=weak)).of(topic)
    assert any(check.status is Status.FAILS for check in found)
    # at 107 mph it does not hold with its bolts in soft wood
    calm = results_of(TEXT.replace('"107 mph"', '"90 mph"')).of(topic)
    assert not any(check.status is Status.FAILS for check in calm)


def test_the_note_stands_on_the_sheet_and_the_name_on_the_cut_list() -> None:
    results = results_of(with_material("[[joists]]"))
    shown = dict(inputs_of(results.path, Topic.JOISTS))
    assert shown["Source"] == "own values: Table 4B typed in by hand; judgement, engineer to confirm"
    assert "PINE own values" in shown["Timber"]
    assert (
        "wet service to be applied, of size included, of repetitive members to be applied"
        in shown["What they hold"]
    )
    joists = {cut.lumber.name for cut in find_cuts(results) if cut.use is Use.JOIST}
    assert len(joists) == 1
    assert next(iter(joists)).startswith("2x8 PINE own values, ")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            with_material("[decking]", 'material = "PNIE"'),
            "decking, material: 'PNIE' is no material of this file; the file has: PINE.",
        ),
        (
            with_material("[decking]", more=""),
            "decking, material: 'PINE' is no material of this file; the file has none: write [material.NAME] with its "
            "keys.",
        ),
        (
            with_material("[decking]", BY_GRADE + '\nmaterial = "PINE"'),
            "decking, material: give either a material or species and grade, and not both.",
        ),
        (
            with_material("[decking]", 'species = "Southern Pine"'),
            "decking, grade: this key is missing: give the grade, or name a material of your own.",
        ),
        (
            with_material("[decking]", more=SP_2X8.replace('note = "Table 4B typed in by hand"\n', "")),
            "material, PINE, note: this key is missing and must be given: where these values are printed, or who gave "
            "them.",
        ),
        (
            with_material("[decking]", more=SP_2X8.replace("925 psi", "925 Pa")),
            "material, PINE, F_b: '925 Pa' is less than 68947.6 Pa, the least allowed.",
        ),
        (
            with_material("[decking]", more=SP_2X8.replace("510 ksi", "1500 ksi")),
            "material, PINE, E_min: 1,500,000 psi is more than E, 1,400,000 psi: it is the lower one.",
        ),
        (
            with_material("[decking]", more=SP_2X8 + 'wet_factor = "yes"\n'),
            "material, PINE, wet_factor: 'yes' is not allowed; choose 'to be applied' or 'included'.",
        ),
        (
            with_boards(BOARDS.replace('span_load = "100 psf"\n', "")),
            "decking, span_load: this key is missing and goes with span_limit: the load that the limit holds for.",
        ),
        (
            with_boards(BOARDS.replace('span_limit = "16 in"\n', BY_GRADE + "\n").replace("5/4x6", "2x6")),
            "decking, span_load: it goes with a span_limit, which is not given.",
        ),
        (
            with_boards(BOARDS + 'material = "PINE"\n') + SP_2X8,
            "decking, material: give either a material or a span_limit, and not both.",
        ),
    ],
)
def test_what_is_refused(text: str, said: str) -> None:
    assert said in [re.sub(r"^mine\.toml(, line \d+)?: ", "", s) for s in refusals(text)]


# ---------------------------------------------------------------------------------------------------------
# Boards by their maker's limits


def deck(text: str) -> dict[str, tuple[float, Status]]:
    return {c.limit_state: (c.ratio, c.status) for c in results_of(text).of(Topic.DECKING)}


def test_boards_are_held_to_the_limits_of_their_sheet() -> None:
    """Joists 16 in on centre, 1-1/2 in thick; the deck ends 2 in past the middle of the first and the last."""
    found = deck(with_boards())
    assert found["span of the boards"] == (1.0, Status.PASSES)
    assert found["load on the boards"][0] == pytest.approx(60 / 100)
    assert found["end of the boards past the last joist"][0] == pytest.approx((2 - 0.75) / 2)
    assert len(found) == 3
    clear = deck(with_boards(BOARDS + 'span_measured = "clear"\n'))
    assert clear["span of the boards"][0] == pytest.approx(14.5 / 16)


def test_boards_fail_past_their_limit_and_their_end_needs_one() -> None:
    found = deck(with_boards(BOARDS.replace("16 in", "15 in").replace("100 psf", "50 psf")))
    assert found["span of the boards"][1] is Status.FAILS
    assert found["load on the boards"][1] is Status.FAILS
    bare = deck(with_boards(BOARDS.replace('end_limit = "2 in"\n', "")))
    assert bare["end of the boards past the last joist"][1] is Status.NOT_CHECKED


def test_boards_weigh_what_their_sheet_says() -> None:
    """5-1/2 in of 4 psf is 1.83 lb/ft (the face of the board as dressed; gaps neglected)."""
    results = results_of(with_boards())
    assert deck_dead(results.path.layout) == pytest.approx(4 + 1)
    board = next(c for c in find_cuts(results) if c.use is Use.DECKING)
    assert board.weight == pytest.approx(4 * 5.5 / 12 * board.long / 12, rel=0.02)
    assert board.lumber.name.startswith("5/4x6 deck board of the maker whose limit was taken")
    assert "Sheet 3 of its maker" in dict(inputs_of(results.path, Topic.DECKING))["Limit of span"]


def test_clear_span_of_boards_past_slanting_members_is_measured_along_them() -> None:
    layout = find_layout(parse_project(TEXT))
    on_centre, _ = board_spans(layout)
    clear, _ = board_spans(layout, clear=True)
    assert clear == pytest.approx(on_centre - 1.5, abs=1e-9)


def test_five_quarter_boards_of_a_material_of_their_own() -> None:
    text = with_boards('\nsection = "5/4x6"\nmaterial = "PINE"\ngap = "1/8 in"\n') + SP_2X8
    bending = next(c for c in results_of(text).of(Topic.DECKING) if c.limit_state == "bending")
    assert bending.calculation is not None
    stress = next(s for s in bending.calculation.at(bending.index) if s.formula.name == "bending_stress")
    assert stress.arguments["S"] == pytest.approx(5.5 * 1.0**2 / 6)


# ---------------------------------------------------------------------------------------------------------
# The form


def test_the_form_renames_a_material_in_all_places_and_new_parts_use_it() -> None:
    draft = Draft(with_material("[[joists]]"))
    draft.rename("material", "PINE", "LARCH")
    assert draft.get(("joists", 0, "material")) == "LARCH"
    assert draft.faults == {}
    draft.type(("beam", 0, "material"), "LARCH")
    assert "not both" in draft.message(("beam", 0, "material"))
    draft.type(("beam", 0, "species"), "")
    draft.type(("beam", 0, "grade"), "")
    assert draft.faults == {}
    assert draft.get(draft.add("beam"))["material"] == "LARCH"
