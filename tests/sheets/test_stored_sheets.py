"""The stored sheets are executed, whole, and what the program gives today."""

import json

import pytest

from bolewright.sheets.package import sheet_files
from bolewright.sheets.sheet import open_sheet
from bolewright.sheets.stored import executed_text

BLOCK = "application/vnd.bolewright.block+json"
TOPICS = ("decking", "joists", "carriers", "hangers", "tree bolts", "posts", "footings", "stability")


@pytest.mark.parametrize("path", sheet_files(), ids=lambda p: p.stem)
def test_every_code_cell_was_run_without_error(path):
    cells = [c for c in json.loads(path.read_text())["cells"] if c["cell_type"] == "code"]
    assert cells
    for cell in cells:
        assert cell["execution_count"], cell["source"]
        assert all(output["output_type"] in ("display_data", "execute_result") for output in cell["outputs"])
        assert len([line for line in cell["source"] if line.strip()]) <= 3


def test_the_stored_sheets_are_what_the_program_gives_today():
    changed = [
        path.name for path, text in executed_text(sheet_files()).items() if text != path.read_text("utf-8")
    ]
    assert changed == [], "run: python -m bolewright.sheets.stored --write"


@pytest.mark.parametrize("topic", TOPICS)
def test_no_equation_of_a_governing_check_is_lost(topic):
    """Every distinct step of the governing checks stands on the stored sheet as an equation."""
    path = next(p for p in sheet_files() if p.stem.endswith(topic.replace(" ", "_")))
    outputs = [o for c in json.loads(path.read_text())["cells"] for o in c.get("outputs", ())]
    titles = [
        o["data"][BLOCK]["title"]
        for o in outputs
        if o.get("data", {}).get(BLOCK, {}).get("kind") == "equations"
    ]
    sheet = open_sheet(path.parent / "lookout.toml", topic)
    for check in sheet.governing():
        for step in check.steps:
            assert step.formula.title in titles
