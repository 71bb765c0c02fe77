"""Every row with wind or sway finds its lateral case on the sheet of lateral stability, and R_o comes out of its print.

By the tables alone: case and letter of the row, moment of overturning times what 1,000 lb·in adds, couples of posts.
"""

from __future__ import annotations

import pytest

from bolewright.paths import shipped
from bolewright.platform.limit_states.check import Topic
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Statement, Table
from bolewright.sheets.brief.basis import project_blocks
from bolewright.sheets.lateral_cases import NAMED_OTHERWISE
from bolewright.sheets.lateral_path import COMPASS, lateral_blocks
from bolewright.sheets.opening import results_of
from bolewright.sheets.sheet import Sheet
from bolewright.sheets.unit_pushes import BY_ONE_PLACE
from bolewright.sheets.verdict import verdict_blocks

FILES = ["lookout.toml", "two_trees.toml", "one_oak.toml", "round_the_trunk.toml", "hickory_perch.toml"]
PUSHED = ("wind towards", "sway towards")


class Printed:
    """The tables of sheet 12, by what their captions begin with."""

    def __init__(self, results: Results) -> None:
        self.results = results
        self.tables = [b for b in lateral_blocks(results) if isinstance(b, Table)]

    def rows(self, caption: str) -> list[list[str]]:
        return [[str(cell) for cell in row] for row in self.table(caption).rows]

    def table(self, caption: str) -> Table:
        return next(t for t in self.tables if t.caption.startswith(caption))


@pytest.fixture(scope="module", params=FILES)
def sheet(request: pytest.FixtureRequest) -> Printed:
    return Printed(results_of(shipped("calcsheets") / request.param))


def number(cell: str) -> float:
    return float(cell.replace(",", "") or 0.0)


def text(cell: object) -> str:
    return str(getattr(cell, "text", cell))


def test_every_row_with_wind_or_sway_finds_its_case(sheet: Printed) -> None:
    moved = {row[0]: row for row in sheet.rows("Movement of the deck in the lateral case of every row")}
    letters = dict(sheet.rows("How the supports are taken"))
    supports = {(row[0], row[1]) for row in sheet.rows("What lateral force adds to each support")}
    seen: set[str] = set()
    for topic in Topic:
        table, checks = Sheet(sheet.results, topic).table(), sheet.results.of(topic)
        at = table.columns.index("case") if "case" in table.columns else None
        for check, row in zip(checks, table.rows, strict=True):
            name = "" if at is None else text(row[at])
            if not name:
                assert not any(words in check.where for words in PUSHED) or check.key in BY_ONE_PLACE
                continue
            _, said, combination, *_ = moved[name]
            words, letter = said.rsplit("; ", 1)
            assert words.lower() in check.where.replace(COMPASS, "").lower(), (check.part, check.key)
            assert letters[letter] in check.where, (check.part, check.key)
            assert combination == check.combination or check.key in NAMED_OTHERWISE
            assert {(name, frame.support.mark) for frame in sheet.results.lateral.frames} <= supports
            seen.add(name)
    assert seen == set(moved)  # and no case is listed that governs nothing
    assert len(seen) > 50


def test_R_o_is_the_moment_times_what_a_part_of_it_adds(sheet: Printed) -> None:
    units = {row[0]: row for row in sheet.rows("What 1,000 lb·in of overturning adds")}
    posts = [c.removeprefix("of a couple over ") for c in sheet.table("What 1,000 lb·in").columns[6:]]
    caption = next(
        t.caption for t in sheet.tables if "M_y (lb·in)" in t.columns and "overturning" in t.caption.lower()
    )
    moments = {row[0]: [number(cell) for cell in row[-2:]] for row in sheet.rows(caption)}
    columns = sheet.table("What lateral force adds to each support").columns
    forces = {(row[0], row[1]): row for row in sheet.rows("What lateral force adds to each support")}
    asked = [(case, mark, row[columns.index("R_o")]) for (case, mark), row in forces.items()]
    asked += [
        (case, f"{member} on {on}", R_o)
        for case, member, on, R_o in sheet.rows("What overturning adds to seats")
    ]
    for case, name, printed in asked:
        by = [number(cell) for cell in units[name][4:]]
        couples = [number(forces[case, post][2]) * number(units[post][3]) for post in posts]
        terms = [a * b / 1000 for a, b in zip(by, (*moments[case], *couples), strict=True)]
        assert number(printed) == pytest.approx(sum(terms), abs=2e-3 * sum(map(abs, terms)) + 1e-3), (
            case,
            name,
        )


def test_the_moment_left_to_weight_is_less_what_supports_take(sheet: Printed) -> None:
    """Force times height less V times the height at which a support takes it, along x and y."""
    units = {row[0]: row for row in sheet.rows("What 1,000 lb·in of overturning adds")}
    table = next(t for t in sheet.tables if "M_y (lb·in)" in t.columns and "overturning" in t.caption.lower())
    columns = sheet.table("What lateral force adds to each support").columns
    second = columns.index("V, second way")
    forces = {(row[0], row[1]): row for row in sheet.rows("What lateral force adds to each support")}
    for row in table.rows:
        case, *_ = (text(cell) for cell in row)
        whole, left = ([number(text(cell)) for cell in part] for part in (row[-4:-2], row[-2:]))
        for axis in (0, 1):
            taken = []
            for frame, spring in zip(
                sheet.results.lateral.frames, sheet.results.lateral.states[0].springs, strict=True
            ):
                mark = frame.support.mark
                for way, column in enumerate((2, second)):
                    V, height = number(forces[case, mark][column]), number(units[mark][1 + way])
                    taken.append(V * height * float(spring.axes[way][axis]))
            terms = [whole[axis], *(-v for v in taken)]
            assert left[axis] == pytest.approx(sum(terms), abs=1e-3 * sum(map(abs, terms)) + 1)


def test_page_two_names_what_is_rated_alone() -> None:
    """Marks and sheets of what the file marks rated_alone; nothing where it marks none. In brief and summary."""
    for name, wanted in (
        ("lookout.toml", "edges of the connections of J1 to J8, sheet 4 (joists)"),
        ("one_oak.toml", "BG1, sheet 4 (joists)"),
        ("two_trees.toml", ""),
    ):
        results = results_of(shipped("calcsheets") / name)
        for blocks in (verdict_blocks(results).items, project_blocks(results)[1:]):
            said = " ".join(item for block in blocks if isinstance(block, Statement) for item in block.items)
            assert ("Ratings taken alone" in said) == bool(wanted)
            assert wanted in said
