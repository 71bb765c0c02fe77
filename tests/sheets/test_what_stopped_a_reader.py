"""What stopped an engineer who read the lookout's package line by line, each as it stands in the print now."""

from __future__ import annotations

import math

import pytest

from bolewright.paths import shipped
from bolewright.platform.file.ratings import ratings_of
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check, Topic
from bolewright.platform.results.results import Results, find_results
from bolewright.platform.results.verdict import account
from bolewright.rendering.blocks import Equations, Statement, Table
from bolewright.sheets.brief.basis import project_blocks
from bolewright.sheets.brief.memory import memory_table
from bolewright.sheets.brief.ratings import asked_table
from bolewright.sheets.governing import governing_of
from bolewright.sheets.lateral_path import COMPASS, lateral_blocks
from bolewright.sheets.opening import results_of
from bolewright.sheets.sheet import Sheet
from bolewright.status import Status


@pytest.fixture(scope="module")
def lookout() -> Results:
    return results_of(shipped("calcsheets") / "lookout.toml")


def number(cell: object) -> float:
    return float(str(cell).replace(",", "").split()[0])


def the(results: Results, part: str, key: str) -> Check:
    return next(
        c for topic in Topic for c in governing_of(results.of(topic)) if (c.part, c.key) == (part, key)
    )


def printed_of(results: Results, part: str, key: str) -> list[object]:
    """The blocks under a check's heading on its sheet."""
    check = the(results, part, key)
    items = list(Sheet(results, check.topic).calculation().items)
    heading = f"{check.part}: {check.limit_state}"
    start = next(i for i, b in enumerate(items) if getattr(b, "text", "") == heading)
    end = next((i for i in range(start + 1, len(items)) if hasattr(items[i], "level")), len(items))
    return items[start:end]


def test_shear_at_the_bolts_of_a_knee_from_the_printed_loads(lookout: Results) -> None:
    """C1 at K2: reaction by moments of the printed column, less what is left of the section (statics by hand)."""
    blocks = printed_of(lookout, "C1", "beam.shear_at_bolts")
    table = next(b for b in blocks if isinstance(b, Table))
    rows = [row for row in table.rows[:-1] if "lb·in" not in str(row[2])]
    couples = [number(row[2]) for row in table.rows if "lb·in" in str(row[2])]
    assert any(str(row[0]).startswith("K2, weight") for row in rows)
    assert any("overturning" in str(row[0]) for row in rows)
    W = sum(number(row[2]) for row in rows)
    M = sum(number(row[2]) * number(row[3]) for row in rows) - sum(couples)
    left = sum(number(row[5]) for row in rows)
    span = 84.0  # P1 to P2, middle to middle, in the file
    V = abs(W - M / span - left)
    assert pytest.approx(the(lookout, "C1", "beam.shear_at_bolts").demand, abs=2.0) == V


@pytest.mark.parametrize(
    ("part", "key", "span"), [("BB1", "blocking.uplift", 16.0), ("J7", "joist.uplift", None)]
)
def test_uplift_is_made_up_of_printed_loads(
    lookout: Results, part: str, key: str, span: float | None
) -> None:
    """Sum of moments about the first seat over the span, and what is left of the loads for the other."""
    blocks = printed_of(lookout, part, key)
    table = next(b for b in blocks if isinstance(b, Table))
    rows = list(table.rows[:-1])
    W = sum(number(row[2]) for row in rows if "lb·in" not in str(row[2]))
    M = sum(number(row[4]) for row in rows)
    seats = lookout.path.effects[part].member.seats
    span = span or seats[1].at - seats[0].at
    reactions = (W - M / span, M / span)
    assert min(abs(r + the(lookout, part, key).demand) for r in reactions) < 1.0
    assert "only where it lifts" in table.caption


def test_every_lateral_case_that_governs_is_listed(lookout: Results) -> None:
    """Every governing row that names a push has a number on the sheet of lateral stability, and that push is listed."""
    table = next(
        b for b in lateral_blocks(lookout) if isinstance(b, Table) and "Movement of the deck" in b.caption
    )
    pushes = {str(row[0]): str(row[1]).lower() for row in table.rows}
    seen = 0
    for topic in Topic:
        for check in governing_of(lookout.of(topic)):
            if "wind towards" in check.where or "sway towards" in check.where:
                words = " ".join(
                    item
                    for block in printed_of(lookout, check.part, check.key)
                    if isinstance(block, Statement)
                    for item in block.items
                )
                assert "Lateral case " in words, (check.part, check.key)
                name = words.partition("Lateral case ")[2].split()[0]
                assert pushes[name].split(";")[0] in check.where.replace(COMPASS, "").lower()
                seen += 1
    assert seen > 30


def test_the_gap_moves_by_what_is_printed(lookout: Results) -> None:
    """Deck less trunk along x and y, by the printed movements: the resultant is u of the gap."""
    steps = the(lookout, "OAK", "tree.clearance").steps
    apart = [s for s in steps if s.formula.name == "movement_apart"]
    assert [abs(s.arguments["delta"] - s.arguments["g"]) for s in apart] == [s.result for s in apart]
    u = next(s for s in steps if s.formula.name == "greater_movement").arguments["u"]
    assert u == pytest.approx(math.hypot(*(s.result for s in apart)), rel=1e-9)


def test_diagonals_from_the_printed_lateral_load(lookout: Results) -> None:
    """F across the deck is F_x c + F_y s of the load that sheet 12 lists for that case."""
    blocks = printed_of(lookout, "platform", "platform.in_plane")
    across = next(b for b in blocks if isinstance(b, Equations) and b.formula == "force_across_deck")
    given = {name: number(value) for name, value in across.values}
    assert given["F"] == pytest.approx(given["F_x"] * given["c"] + given["F_y"] * given["s"], rel=2e-3)
    table = next(
        b for b in lateral_blocks(lookout) if isinstance(b, Table) and "Movement of the deck" in b.caption
    )
    assert any(number(row[3]) == given["F_x"] and number(row[4]) == given["F_y"] for row in table.rows)


def test_p_delta_names_the_force_that_it_moves_by(lookout: Results) -> None:
    where = the(lookout, "platform", "platform.p_delta").where
    assert where.startswith("1,000 lb at the middle of the weight")
    assert "wind" not in where
    assert "people" not in where


def test_a_persons_pounds_are_no_use_of_a_rating(lookout: Results) -> None:
    row = next(row for row in asked_table(lookout).rows if str(row[0]) == "ladder: grip rating")
    assert "grab bar" in str(row[3])
    assert "rung" not in str(row[3])
    assert "head 3" not in str(row[3])
    assert {r.key for r in ratings_of(lookout.project) if r.table == "ladder"} >= {
        "grip_rating",
        "head_fixing",
    }


def test_page_two_counts_the_rows_on_ratings(lookout: Results) -> None:
    reading = project_blocks(lookout)[1]
    told = account(lookout.checks)
    assert any(f"{told.rated} checks hold, on" in line for line in reading.items)


def test_kappa_is_printed_within_its_range(lookout: Results) -> None:
    """5 to 20 as its note says; across the grain the print has the ten beside it."""
    seen = set()
    for topic in (Topic.TREE_BOLTS, Topic.STABILITY):
        for check in governing_of(lookout.of(topic)):
            for step in check.steps:
                if step.formula.name.startswith("foundation_modulus"):
                    assert 5 <= step.arguments["kappa"] <= 20
                    seen.add(step.formula.name)
    assert seen == {"foundation_modulus", "foundation_modulus_across"}


def test_the_list_of_judgements_shows_kappa_where_it_governs_most(lookout: Results) -> None:
    rows = [row for row in memory_table(lookout).rows if "Pressure per displacement" in str(row[0])]
    most = max(
        c.ratio for c in lookout.checks if any(s.formula.name.startswith("foundation") for s in c.steps)
    )
    assert any(str(row[2]).startswith(f"{math.ceil(most * 100) / 100:.2f}") for row in rows)


def test_the_repetitive_factor_at_a_guards_bolts_is_named(lookout: Results) -> None:
    check = the(lookout, "GA4", "guard.framing_bending")
    assert any("C_r 1.15" in remark and "judgement" in remark for remark in check.remarks)
    assert any("C_r 1.15" in str(row[0]) for row in memory_table(lookout).rows)


def test_rows_at_bolts_stay_open_while_nothing_holds_the_platform() -> None:
    """Bolts of a bracket and of knees: a platform that nothing holds has them open, with the reason, not gone."""
    text = (shipped("calcsheets") / "two_trees.toml").read_text(encoding="utf-8")
    held = find_results(parse_project(text, "held.toml"))
    loose = text.replace('lateral = "slides" ', 'lateral = "floats" ').replace(
        'base = "fixed"', 'base = "pinned"'
    )
    loose = _without_braces(loose)
    results = find_results(parse_project(loose, "loose.toml"))
    assert results.lateral.loose
    for key in ("beam.shear_at_bolts", "beam.row_tear_out", "tree_bolt.fastening"):
        before = {(c.part, c.at) for c in held.checks if c.key == key and c.at.startswith(("T", ""))}
        after = [c for c in results.checks if c.key == key]
        assert before
        assert after
        assert all(
            c.status is Status.NOT_CHECKED and "nothing holds the platform" in c.sentence for c in after
        )


def _without_braces(text: str) -> str:
    parts = text.split("\n[[")
    return "\n[[".join(part for part in parts if not part.startswith(("brace]]", "crossed_rods]]")))
