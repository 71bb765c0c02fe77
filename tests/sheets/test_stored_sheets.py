"""The stored sheets are executed, whole, and what the program gives today."""

import json

import nbformat
import pytest

from bolewright.documents.execute import with_parameters
from bolewright.paths import shipped
from bolewright.sheets.direct import run_shipped
from bolewright.sheets.equation_cells import CELLS, with_equation_cells
from bolewright.sheets.package import sheet_files
from bolewright.sheets.sheet import open_sheet
from bolewright.sheets.stored import executed_text

BLOCK = "application/vnd.bolewright.block+json"
TOPICS = ("decking", "joists", "beams", "hangers", "tree bolts", "posts", "footings", "stability")


@pytest.mark.parametrize("path", sheet_files(), ids=lambda p: p.stem)
def test_every_code_cell_was_run_without_error(path):
    cells = [c for c in json.loads(path.read_text())["cells"] if c["cell_type"] == "code"]
    assert cells
    for cell in cells:
        assert cell["execution_count"], cell["source"]
        assert all(output["output_type"] in ("display_data", "execute_result") for output in cell["outputs"])
        if "equations" not in cell["metadata"].get("tags", ()):
            assert len([line for line in cell["source"] if line.strip()]) <= 3


@pytest.mark.parametrize("name", CELLS)
def test_a_readers_equations_are_the_checks_and_come_out_as_it_does(name):
    """The cells are written by the program, and each ends on the very ratio of its check (to nine digits)."""
    path = shipped("calcsheets") / f"{name}.ipynb"
    stored = nbformat.read(path, as_version=4)
    again = with_equation_cells(nbformat.read(path, as_version=4), name)
    assert [c.source for c in stored.cells] == [c.source for c in again.cells]
    mine = [c for c in stored.cells if "equations" in c.metadata.get("tags", ()) and c.cell_type == "code"]
    assert len(mine) == len(CELLS[name][1])
    for cell in mine:
        assert "which is the check's." in json.dumps(cell.outputs)


def test_another_project_leaves_the_readers_equations_out():
    """They hold for the demonstration; neither a kernel's run nor the direct one meets them for a project given."""
    path = shipped("calcsheets") / "04_joists.ipynb"
    notebook = nbformat.read(path, as_version=4)
    given = with_parameters(notebook, {"project": "two_trees.toml"}, path.name)
    assert not [c for c in given.cells if "equations" in c.metadata.get("tags", ())]
    content = run_shipped([path], {"project": str(shipped("calcsheets") / "two_trees.toml")})[0]
    assert "to be changed" not in str(content.items)


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
