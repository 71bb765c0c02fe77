"""As built: what is entered reaches the checks, in the direction statics says, and nothing else changes."""

import json
import math
from collections.abc import Callable

import pytest

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.results.results import Results, find_results
from bolewright.rendering.blocks import Figure, Table
from bolewright.setting_out.as_built import as_built, built_project, slips
from bolewright.setting_out.data import setting_out_data
from bolewright.setting_out.differences import differences, moved_seats, shifted
from bolewright.setting_out.levels import find_levels
from bolewright.sheets.setting_out import BuiltSheet

Make = Callable[[str], Results]


def _ratios(results: Results) -> dict[tuple[str, str], float]:
    return {(c.part, c.limit_state): c.ratio for c in results.checks}


def test_nothing_entered_changes_nothing(results_with: Make) -> None:
    assert as_built(results_with("")) is None
    levels_only = results_with('[[as_built]]\nmark = "T1"\nlevel = "-1/2 in"')
    assert as_built(levels_only) is None


def test_a_shorter_bolt_rises_and_can_fail(results_with: Make) -> None:
    """4 in. reached instead of 7: rotation in the wood of T1 rises. Gravity on T2 is statics and stays.

    (Lateral forces go by stiffness: T2 takes more of them when T1 is softer.)
    """
    outcome = as_built(results_with('[[as_built]]\nmark = "T1"\nembedment = "4 in"'))
    assert outcome is not None
    rose = {(c.check.part, c.check.limit_state) for c in outcome.changed if c.rise > 0}
    assert ("T1", "yield limit in green wood") in rose
    gravity = {"steel bending", "steel shear", "rated load", "yield limit in green wood"}
    assert not {state for part, state in rose if part == "T2"} & gravity


def test_a_hole_that_met_rock_fails_the_frost_depth(results_with: Make) -> None:
    """36 in. reached, frost depth 42 in. by the project file: ratio 42/36."""
    outcome = as_built(results_with('[[as_built]]\nmark = "P1"\nhole = "36 in"'))
    assert outcome is not None
    frost = next(c for c in outcome.lost if c.check.limit_state == "frost depth")
    assert frost.check.ratio == pytest.approx(42 / 36)


def test_projection_moves_the_bearing_along_the_bolt(results_with: Make) -> None:
    results = results_with('[[as_built]]\nmark = "T1"\nprojection = "6 in"')
    built = built_project(results.path.layout)
    at = next(s.at for s in built.supports if s.mark == "T1")
    assert at == pytest.approx((-(75.375 / (2 * math.pi) + 6), 0.0))


def test_a_post_off_its_beam_bears_off_centre(results_with: Make) -> None:
    """P2 stands 3/4 in. off the beam: 1/2 in. by the project file and 3/4 in. make 1 1/4 in."""
    results = results_with('[[as_built]]\nmark = "P2"\nat = ["48 in", "114 3/4 in"]')
    built = find_results(built_project(results.path.layout))
    check = next(
        c
        for c in built.checks
        if (c.part, c.limit_state) == ("P2", "combined axial load and bending at the knee")
    )
    step = next(s for s in check.steps if s.formula.name == "eccentric_compression")
    assert dict(step.arguments)["e_1"] == pytest.approx(1.25)


def test_an_arrangement_that_cannot_stand_says_so(results_with: Make) -> None:
    outcome = as_built(results_with('[[as_built]]\nmark = "P1"\nat = ["-36 in", "100 in"]'))
    assert outcome is not None
    assert "P1" in outcome.fault
    assert outcome.changed == ()


def test_a_post_slipped_along_the_beam_shifts_load_by_statics(results_with: Make) -> None:
    """P1 an inch towards P2: the span shrinks from 84 to 83, so P1's soil pressure rises and P2's falls."""
    found = {outcome.what: outcome for outcome in slips(results_with(""))}
    outcome = found["P1 1 in. towards T2"]
    soil = {c.check.part: c.rise for c in outcome.changed if c.check.limit_state.startswith("soil pressure")}
    assert soil.get("P1", 0.0) > 0
    assert soil.get("P2", 0.0) <= 0


def test_every_post_and_bolt_is_slipped(results_with: Make) -> None:
    whats = [outcome.what for outcome in slips(results_with(""))]
    assert len(whats) == len(set(whats)) == 2 * 4 + 2 * 2


def test_a_collar_farther_out_bends_the_bolt_more(results_with: Make) -> None:
    found = {outcome.what: outcome for outcome in slips(results_with(""))}
    rise = {(c.check.part, c.check.limit_state): c.rise for c in found["T1 1/2 in. farther out"].changed}
    assert rise["T1", "steel bending"] > 0
    fall = {(c.check.part, c.check.limit_state): c.rise for c in found["T1 1/2 in. nearer the bark"].changed}
    # The beam stays on its line, so the lever of its load shrinks by next to nothing.
    assert fall.get(("T1", "steel bending"), 0.0) <= 0


def test_data_is_json_and_agrees_with_the_sheet(results_with: Make) -> None:
    data = setting_out_data(results_with('[[as_built]]\nmark = "P1"\nhole = "36 in"'))
    again = json.loads(json.dumps(data, allow_nan=False))
    assert again == data
    assert again["schema"] == "bolewright setting out 1"
    assert [b["mark"] for b in again["bolts"]] == ["T1", "T2"]
    assert again["ground"]["diagonal"] == pytest.approx(math.hypot(84, 90), abs=1e-4)
    assert any(
        c["limit_state"] == "frost depth" and c["status"] == "fails" for c in again["as_built"]["changed"]
    )


def test_data_of_every_arrangement(arrangement_results: Results) -> None:
    data = setting_out_data(arrangement_results)
    json.dumps(data, allow_nan=False)
    marks = {m.mark for m in arrangement_results.path.layout.members}
    assert {p["mark"] for p in data["pieces"]} == marks


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        ('[[as_built]]\nmark = "T9"\nlevel = "1 in"', "'T9' is no support, beam or joist"),
        ('[[as_built]]\nmark = "P1"\nembedment = "3 in"', "P1 is a post, which takes at, level, hole"),
        ('[[as_built]]\nmark = "S1"\nlevel = "1 in"', "S1 is a member, which takes depth"),
        (
            '[[as_built]]\nmark = "T1"\nprojection = "5 in"\nat = ["1 in", "2 in"]',
            "give either at or projection",
        ),
        ('[[reading]]\nmark = "S1"\nbelow_line = "1 in"', "'S1' is no support of this file"),
        ('[[reading]]\nmark = "T1"\nbelow_line = 12', "has no unit"),
        (
            '[[outline]]\ntree = "OAK"\nwidths = ["24 in"]',
            "give either 3 points or more, or 2 widths or more",
        ),
        ('[[outline]]\ntree = "ELM"\nwidths = ["24 in", "24 in"]', "'ELM' is no tree of this file"),
        (
            '[[reading]]\nmark = "T1"\nbelow_line = "1 in"\n[[reading]]\nmark = "T1"\nbelow_line = "2 in"',
            "'T1' has an entry already",
        ),
    ],
)
def test_wrong_entries_are_refused_in_one_sentence(demo_text: str, entry: str, said: str) -> None:
    with pytest.raises(ProjectError) as error:
        parse_project(f"{demo_text}\n{entry}")
    assert len(error.value.sentences) == 1
    assert said in str(error.value)


ENTRIES = """
[[as_built]]
mark = "T1"
level = "-1/2 in"
[[as_built]]
mark = "T2"
level = "-1/2 in"
[[as_built]]
mark = "P1"
at = ["-35 in", "114 in"]
hole = "56 in"
[[as_built]]
mark = "C1"
depth = "11 1/8 in"
"""


def test_posts_are_cut_by_what_was_built(results_with: Make) -> None:
    """Planned 60 + 60 - 10 = 110 in. from the concrete. Both bolts 1/2 low: 109 1/2; C1 1/8 less deep: 109 5/8.

    The hole of P1 is 4 in. less deep, so its concrete stands 4 in. higher: 105 5/8.
    """
    layout = results_with(ENTRIES).path.layout
    found = {level.support: level for level in find_levels(layout).at}
    assert found["P1"].length == pytest.approx(105.625)
    assert found["P2"].length == pytest.approx(109.625)
    assert found["P1"].below_seat == pytest.approx(11.125)
    assert (found["T1"].shim, found["T2"].shim) == (0, 0)


def test_one_bolt_half_an_inch_low_takes_a_shim_and_changes_no_post(results_with: Make) -> None:
    layout = results_with('[[as_built]]\nmark = "T1"\nlevel = "-1/2 in"').path.layout
    found = {level.support: level for level in find_levels(layout).at}
    assert (found["T1"].shim, found["T2"].shim) == (0.5, 0)
    assert found["P1"].length == pytest.approx(110)


def test_marks_on_the_beam_move_with_the_post(results_with: Make) -> None:
    """P1 an inch towards P2 along C1, which starts at -54 11/16: 19 11/16 instead of 18 11/16; P2 stays."""
    layout = results_with(ENTRIES).path.layout
    (moved,) = moved_seats(layout)
    assert moved.mark == "C1"
    assert (moved.planned, moved.built) == pytest.approx((18.6875, 19.6875))
    assert [(s.mark, s.built) for s in shifted(layout)] == [("P1", (-35.0, 114.0))]
    told = {(d.mark, d.planned, d.built) for d in differences(layout)}
    assert told == {("T1", 71.25, 70.75), ("T2", 71.25, 70.75), ("P1", 60.0, 56.0), ("C1", 11.25, 11.125)}


def test_the_sheet_shows_plan_checks_marks_and_cuts(results_with: Make) -> None:
    sheet = BuiltSheet(results_with(ENTRIES))
    blocks = sheet.built().items
    captions = [block.caption for block in blocks if isinstance(block, Table | Figure)]
    assert captions == [
        "What came out otherwise",
        "Plan of the framing: a cross where a support stands.",
        captions[2],
        "Marks on the beams that move with it",
        "Cut heights with what was built",
    ]
    assert captions[2].startswith("Checks that change with what was built")
    cuts = next(b for b in blocks if isinstance(b, Table) and b.caption.startswith("Cut heights"))
    assert [row[2] for row in cuts.rows] == ["8' 9 5/8\"", "9' 1 5/8\""]


def test_a_measured_depth_reaches_the_bending_check(results_with: Make) -> None:
    """J7 measures 7 in. instead of 7 1/4 in.: S = b d²/6 falls by (7/7.25)², its load hardly (its own weight)."""
    before = results_with("")
    outcome = as_built(results_with('[[as_built]]\nmark = "J7"\ndepth = "7 in"'))
    assert outcome is not None
    after = {(c.check.part, c.check.limit_state): c.check.ratio for c in outcome.changed}
    risen = after["J7", "bending"] / _ratios(before)["J7", "bending"]
    assert risen == pytest.approx((7.25 / 7) ** 2, rel=0.005)
    deflection = after["J7", "live deflection"] / _ratios(before)["J7", "live deflection"]
    assert deflection == pytest.approx((7.25 / 7) ** 3, rel=0.001)


def test_a_measured_ply_is_thinner_in_every_ply(results_with: Make) -> None:
    """Two plies of S1 at 1 3/8 in. each instead of 1 1/2 in.: shear stress 3V/2bd rises by 1.5/1.375."""
    before = results_with("")
    outcome = as_built(results_with('[[as_built]]\nmark = "S1"\nwidth = "1 3/8 in"'))
    assert outcome is not None
    after = {(c.check.part, c.check.limit_state): c.check.ratio for c in outcome.changed}
    assert after["S1", "shear"] / _ratios(before)["S1", "shear"] == pytest.approx(1.5 / 1.375, rel=0.01)


def test_a_timber_as_planned_changes_nothing(results_with: Make) -> None:
    outcome = as_built(results_with('[[as_built]]\nmark = "J7"\ndepth = "7 1/4 in"\nwidth = "1 1/2 in"'))
    assert outcome is not None
    assert outcome.changed == ()


@pytest.mark.parametrize(
    ("depth", "width"), [("139.7 mm", "139.7 mm"), ("5.40213 in", "137.31 mm"), ("2 in", "0.5 in")]
)
def test_a_post_is_measured_to_any_digit(results_with: Make, depth: str, width: str) -> None:
    """139.7 mm are 5 1/2 in.: nothing changes. A post of half an inch has no value in any table: said, not a stop."""
    built = as_built(results_with(f'[[as_built]]\nmark = "P1"\ndepth = "{depth}"\nwidth = "{width}"'))
    if depth == width == "139.7 mm":
        assert built is None or built.changed == ()
        return
    assert built is not None
    if width == "0.5 in":
        assert built.fault.endswith(".")
    else:
        assert built.fault == ""
        assert any(c.check is not None and c.check.part == "P1" for c in built.changed)


def test_a_measured_post_reaches_its_checks_and_those_of_its_neighbour(results_with: Make) -> None:
    """P1 measures 5 in. instead of 5 1/2 in.: l_e/d (NDS 2018, 3.7.1.4) rises by 5.5/5; the stiffer P2 takes over."""
    before = _ratios(results_with(""))
    entry = '[[as_built]]\nmark = "P1"\ndepth = "{0}"\nwidth = "{0}"'
    outcome = as_built(results_with(entry.format("5 in")))
    assert outcome is not None
    after = {(c.check.part, c.check.limit_state): c.check.ratio for c in outcome.changed}
    assert after["P1", "slenderness"] / before["P1", "slenderness"] == pytest.approx(5.5 / 5, rel=1e-9)
    assert ("P2", "slenderness") not in after
    # the lateral stress of P1 rises though it draws less force: S falls by (5/5.5)^3, I by (5/5.5)^4
    assert (
        after["P1", "combined axial load and bending in the ground"]
        > before["P1", "combined axial load and bending in the ground"]
    )
    assert after["P2", "lateral embedment"] > before["P2", "lateral embedment"]
    assert after["P1", "lateral embedment"] < before["P1", "lateral embedment"]
    assert after["platform", "drift"] > before["platform", "drift"]
    same = as_built(results_with(entry.format("5 1/2 in")))
    assert same is not None
    assert same.changed == ()


def test_an_entry_of_a_joist_that_is_not_there_is_refused_in_words(results_with: Make) -> None:
    with pytest.raises(
        LayoutError, match="J40 has an entry as built, but the joists of field J are J1 to J8"
    ):
        results_with('[[as_built]]\nmark = "J40"\ndepth = "7 in"')
