"""The verdict says what it rests on; what must be said aloud stands beside it; what is not calculated is named."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from bolewright.paths import shipped
from bolewright.platform.checks.whole import faults_named
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states import limit_state
from bolewright.platform.results.conditions import conditions
from bolewright.platform.results.not_calculated import NOT_CALCULATED, not_calculated
from bolewright.platform.results.results import Results, find_results, to_json
from bolewright.platform.results.summary import summary_lines
from bolewright.platform.results.verdict import account, beside_verdict, verdict, verdict_lines
from bolewright.rendering.blocks import Cell
from bolewright.sheets.sheet import check_table
from bolewright.sheets.verdict import SHEETS, limit_state_table, unconfirmed_tables, verdict_blocks
from bolewright.status import Status

DEMO = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(encoding="utf-8")
SHIPPED = (shipped("calcsheets") / "lookout.toml").read_text(
    encoding="utf-8"
)  # values are compared with this one's


def with_(*changes: tuple[str, str]) -> str:
    text = DEMO
    for old, new in changes:
        assert re.search(old, text), old
        text = re.sub(old, new, text, count=1)
    return text


def said(text: str) -> str:
    return "\n".join(conditions(parse_project(text)))


@pytest.fixture(scope="module")
def demo() -> Results:
    return find_results(parse_project(DEMO))


# Each named condition (IRC 2021: Table R301.5, R312.1.1, R312.1.2, R403.1.4.1; IBC 2021: 1015.3, Table 1604.3)
NAMED = [
    (('live = "60 psf"', 'live = "10 psf"'), "live load of 10 psf is less than the 40 psf"),
    (
        ("guard_edges = .*", "guard_edges = []"),
        "No edge has a guard, though the floor is 7' 0\" above the ground",
    ),
    (("guard_edges = .*", "guard_edges = [2, 3]"), "No guard on edge 1, 4,"),
    (
        ('guard_height = "42 in"', 'guard_height = "34 in"'),
        "34 in. high, lower than the 36 in. of IRC 2021, R312.1.2",
    ),
    (('frost_depth = "42 in"', 'frost_depth = "0 in"'), "Frost depth is zero"),
    (('ground_snow = "30 psf"', 'ground_snow = "0 psf"'), "Ground snow is zero"),
    (('sway_share = "10 %"', 'sway_share = "0 %"'), "of people is 0 % of the live load, less than the 10 %"),
    (("live = 360", "live = 240"), "Limits of deflection or drift are loosened: live 1/240 for 1/360"),
    (("drift = 200", "drift = 100"), "drift 1/100 for 1/200"),
    (
        ('rated_note = "[^"]*"', 'rated_note = ""'),
        "1 rating has no source in the file: main: rated load 1,900 lb",
    ),
    (
        ('rated_load = "620 lb"', 'rated_load = "62000 lb"'),
        "HJ: rated load 62,000 lb is more than the 12,000 lb",
    ),
    (('condition = "[^"]*"', 'condition = ""'), "does not say what an arborist found of OAK"),
    (('basis = "IRC"[^\n]*', ""), "does not name the building code"),
]


@pytest.mark.parametrize(("change", "words"), NAMED, ids=lambda v: str(v)[:30])
def test_each_named_condition_is_said_beside_the_verdict(change: tuple[str, str], words: str) -> None:
    text = with_(change)
    assert words in said(text)
    assert words not in said(DEMO)
    assert words in "\n".join(summary_lines(find_results(parse_project(text))))


def test_by_the_ibc_a_guard_is_42_in_high() -> None:
    """IBC 2021, 1015.3."""
    lower = ('guard_height = "42 in"', 'guard_height = "38 in"')
    assert "lower than" not in said(with_(lower))  # IRC 2021, R312.1.2: 36 in.
    assert "lower than the 42 in. of IBC 2021, 1015.3" in said(
        with_(lower, ('basis = "IRC"', 'basis = "IBC"'))
    )


def test_a_low_floor_needs_no_guard() -> None:
    """IRC 2021, R312.1.1: more than 30 in. above the ground."""
    project = parse_project(with_(("guard_edges = .*", "guard_edges = []")))
    low = project.model_copy(update={"platform": project.platform.model_copy(update={"floor_height": 30.0})})
    assert not any("guard" in words for words in conditions(low))


@pytest.mark.parametrize(
    ("condition", "named"),
    [
        ("Hollow below 4 ft", ("hollow",)),
        ("Conk at the foot, crack in the union", ("conk", "crack", "union")),
        ("No decay, no cracks", ()),
        ("Sound but a lightning scar", ("lightning",)),
        ("Sound without decay; split fork at 20 ft", ("split", "fork")),
        ("", ()),
    ],
)
def test_a_tree_whose_condition_names_a_fault_is_open_for_the_arborist(
    condition: str, named: tuple[str, ...]
) -> None:
    assert faults_named(condition) == named
    results = find_results(parse_project(with_(('condition = "[^"]*"', f'condition = "{condition}"'))))
    found = [c for c in results.checks if c.key == "tree.condition"]
    assert [c.status for c in found] == ([Status.NOT_CHECKED] if named else [])


def test_the_guard_on_the_framing_is_open(demo: Results) -> None:
    """IRC 2021, Table R301.5: 200 lb at the top, in any direction."""
    (guard,) = [c for c in demo.checks if c.key == "platform.guard"]
    assert guard.status is Status.NOT_CHECKED
    assert "200 lb" in guard.sentence
    assert guard.clause == "IRC 2021, Table R301.5"


def test_what_is_not_calculated_is_named_with_who_decides() -> None:
    named = " ".join(n.what for n in NOT_CALCULATED)
    for matter in (
        "ice",
        "wind from below",
        "adfreeze",
        "fatigue",
        "root plate",
        "decay",
        "lightning",
        "guard",
    ):
        assert matter in named
    assert {n.who for n in NOT_CALCULATED} == {
        "licensed engineer",
        "qualified arborist",
        "building department",
    }


def test_the_account_adds_up_and_no_check_counts_twice(demo: Results) -> None:
    told = account(demo.checks)
    assert told.count == len(demo.checks)
    assert (told.fails, told.open) == (demo.count(Status.FAILS), demo.count(Status.NOT_CHECKED))
    assert told.rated > 20
    by_rating = {c.key for c in demo.checks if limit_state(c.key).rated}
    assert {"hanger.rated", "tree_bolt.rated", "post.cap_lateral", "platform.in_plane"} <= by_rating
    assert not {"joist.bending", "footing.soil", "tree_bolt.steel_bending"} & by_rating


def test_no_verdict_claims_that_all_passes(demo: Results) -> None:
    everything = "\n".join([verdict(demo), *verdict_lines(demo), *summary_lines(demo)]).lower()
    assert not re.search(r"\ball\b[^.]*\bpass|every part|checks pass", everything)
    for words in ("by calculation", "typed into the file", "not calculated", "not an approval"):
        assert words in everything


def test_a_demonstration_says_so_first_and_a_copy_counts_what_it_took_over(demo: Results) -> None:
    assert verdict(demo).startswith("A demonstration: place, tree, loads and ratings are invented")
    assert not any("demonstration" in words for words in beside_verdict(demo))
    own = parse_project(SHIPPED.replace("demonstration = true", "demonstration = false"))
    (told,) = [words for words in conditions(own) if "demonstration" in words]
    count = int(told.split()[0])
    assert count > 25
    assert "site.frost_depth = 42 in" in told


def test_a_confirmed_or_changed_value_is_no_longer_counted() -> None:
    copy = SHIPPED.replace("demonstration = true", "demonstration = false")

    def count(text: str) -> int:
        return int(next(w for w in conditions(parse_project(text)) if "demonstration" in w).split()[0])

    assert count(copy.replace('girth = "75 3/8 in"', 'girth = "75 1/2 in"')) == count(copy) - 1
    confirmed = copy.replace(
        "format = 2\n", 'format = 2\nconfirmed = ["site.frost_depth", "bolt.main.rated_load"]\n'
    )
    assert count(confirmed) == count(copy) - 2
    assert count(copy.replace('frost_depth = "42 in"', 'frost_depth = "3 ft 6 in"')) == count(
        copy
    )  # the same depth


def test_the_annex_lists_every_limit_state(demo: Results) -> None:
    table = limit_state_table(demo)
    assert {row[3] if isinstance(row[3], str) else row[3].text for row in table.rows} >= {
        "checked",
        "open",
        "not applicable",
    }
    for row in table.rows:  # what was checked leads to the page where it is worked out, what was not to none
        outcome = row[3] if isinstance(row[3], str) else row[3].text
        leads = isinstance(row[5], Cell) and row[5].to.startswith("derivation")
        assert leads if outcome == "checked" else outcome in ("open", "fails") or not leads, row


def test_the_summary_sheet_shows_verdict_conditions_and_what_is_left(demo: Results) -> None:
    text = " ".join(line for block in verdict_blocks(demo).items for line in block.items)
    for words in ("A demonstration", "By calculation", "No guard on edge 1", "The guard's 200 lb"):
        assert words in text


def test_the_annex_names_the_sheet_and_what_is_not_calculated(demo: Results) -> None:
    rows = [tuple(c if isinstance(c, str) else c.text for c in row) for row in limit_state_table(demo).rows]
    assert any(row[0] == "joist" and "sheet 4 (joists)" in row[4] for row in rows)
    assert sum(row[3] == "not calculated" for row in rows) >= len(NOT_CALCULATED)
    for topic, said in SHEETS.items():  # the number that the sheet's own file has
        (sheet,) = shipped("calcsheets").glob(f"{int(said.split()[0]):02d}_*.ipynb")
        found = set(
            re.findall(
                r"open_sheet\([^)]*\"([a-z ]+)\"\)", sheet.read_text(encoding="utf-8").replace("\\", "")
            )
        )
        assert found == {topic.value}, sheet.name


def test_a_row_that_asks_nothing_shows_no_strength(demo: Results) -> None:
    """What is left on a seat that nothing lifts is no allowed uplift: it stands as the least load."""
    check = next(c for c in demo.checks if c.key == "post.uplift" and c.asks_nothing)
    row = [c if isinstance(c, str) else c.text for c in check_table([check], "").rows[0]]
    assert row[2] == "none"
    assert row[3].startswith("least ")
    assert not any(c.asks_nothing for c in demo.checks if c.calculation is not None)


def test_the_building_code_is_said_first(demo: Results) -> None:
    first = verdict_blocks(demo).items[0]
    assert first.items[0].startswith("Building code: IRC 2021")  # type: ignore[union-attr]
    assert summary_lines(demo)[1].startswith("Building code: IRC 2021")


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("name", ["lookout", "lookout_too_small", "round_the_trunk", "two_trees"])
def test_no_ratio_is_negative_or_endless_and_none_is_printed_out_of_measure(name: str) -> None:
    """A ratio is a number of 0 or more, or there is none and the sentence says why."""
    results = find_results(
        parse_project((shipped("calcsheets") / f"{name}.toml").read_text(encoding="utf-8"))
    )
    for check in results.checks:
        assert check.ratio >= 0 or check.ratio != check.ratio
        assert check.ratio != float("inf")
    said = "\n".join(summary_lines(results))
    assert "> 999" not in said
    assert not re.search(r"-\d+ %", said)


@pytest.mark.parametrize(
    ("name", "said", "not_said"),
    [
        (
            "lookout",
            {"handrails of the ship's ladder"},
            {"pull of cable or rope infill", "guard on edges 1, 2, 3, 4", "guard on edges 2, 3, 4"},
        ),
        ("round_the_trunk", {"guard round the hatch"}, {"stairs or ladder", "pull of cable or rope infill"}),
        ("one_oak", {"hoist and anchors"}, {"stairs or ladder", "guard on edges 1, 2, 3, 4"}),
        ("hickory_perch", {"infill and handrail brackets of the stairs' rails"}, {"stairs or ladder"}),
    ],
)
def test_not_calculated_names_what_the_file_lacks_and_no_part_that_is_calculated(
    name: str, said: set[str], not_said: set[str]
) -> None:
    """Guard, stairs and ladder are parts: only what is not given, or left out of them, stands as not calculated."""
    text = (shipped("calcsheets") / f"{name}.toml").read_text(encoding="utf-8")
    found = {one.what for one in not_calculated(parse_project(text))}
    assert said <= found
    assert not not_said & found
    if name == "lookout":  # without the guard's parts its edges are named
        frozen = {one.what for one in not_calculated(parse_project(DEMO))}
        assert {"guard on edges 2, 3, 4", "handrails of the ship's ladder"} <= frozen
    assert "hoist and anchors" in found
    assert all("guard, gate, stairs" not in what for what in found)


def test_values_of_the_demonstration_are_all_listed_and_what_asks_nothing_is_counted_apart() -> None:
    """Each by its path, in the record, on the command line and on the sheet of ratings; none of them twice."""
    text = with_(("demonstration = true[^\n]*", ""))
    results = find_results(parse_project(text))
    record = json.loads(to_json(results, text))
    paths = [same["path"] for same in record["unconfirmed"]]
    assert len(paths) == len(set(paths)) > 15
    (line,) = (line for line in summary_lines(results) if line.startswith("Not confirmed: "))
    (table,) = unconfirmed_tables(results.project)
    for path in paths:
        assert f"{path} = " in line
        assert path in [row[0] for row in table.rows]
    unasked = [check for check in record["checks"] if check["asks_nothing"]]
    assert record["summary"]["nothing_asked"] == len(unasked) > 0
    assert not any(check["demand"] for check in unasked)
    assert json.loads(to_json(find_results(parse_project(DEMO)), DEMO))["unconfirmed"] == []
