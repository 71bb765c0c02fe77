"""A push that either of two pieces of a rim may take stands once in the table of loads at places."""

from __future__ import annotations

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import find_results
from bolewright.sheets.standing_on import actions_table


def test_every_row_is_another_load() -> None:
    """Between two oaks the posts on the skewed rim have two ways each; the pushes of one post are out, in and down."""
    text = (shipped("calcsheets") / "two_trees.toml").read_text(encoding="utf-8")
    results = find_results(parse_project(text))
    table = actions_table(results)
    assert table is not None
    rows = [row[:-1] for row in table.rows]
    assert len(rows) == len(set(rows))
    assert [row[1] for row in rows if row[0] == "GF2"] == [
        "push outward on the guard",
        "push inward on the guard",
        "load down on the guard",
    ]
    # Nothing is lost: each load of the layout has its row.
    assert {(a.part, a.what) for a in results.path.layout.actions} == {(row[0], row[1]) for row in rows}
