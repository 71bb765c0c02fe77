"""Notebooks are run strictly on one kernel, and read into sheets without their code."""

import base64

import nbformat
import pytest

from bolewright.documents.content import Html, Markdown, Picture, Preformatted, SheetError, Vector
from bolewright.documents.execute import run_sheets, with_parameters
from bolewright.documents.notebook import read_sheet, sheet_of
from bolewright.rendering.blocks import Table

v4 = nbformat.v4
PIXEL = base64.b64encode(b"\x89PNG not looked at").decode()


def parameters(source: str):
    return v4.new_code_cell(source, metadata={"tags": ["parameters"]})


def written(folder, name: str, *cells):
    path = folder / name
    nbformat.write(v4.new_notebook(cells=list(cells)), path)
    return path


@pytest.fixture(scope="module")
def executed(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sheets")
    first = written(
        folder,
        "01_first.ipynb",
        v4.new_markdown_cell("# First sheet\n\nThe *idea*."),
        parameters('project = "demo.toml"  # é\nother = 1; more = 2'),
        v4.new_code_cell("left_behind = 5\nprint(project, other, more)"),
        v4.new_code_cell(
            "from bolewright.rendering.blocks import Table\nTable(('a',), ((project,),), 'shown')"
        ),
        v4.new_code_cell("secret = 7\nsecret", metadata={"tags": ["hidden"]}),
        v4.new_markdown_cell("A note of the builder."),
    )
    second = written(
        folder,
        "02_second.ipynb",
        parameters('project = "demo.toml"\nother = 1\nmore = 2'),
        v4.new_code_cell("'left_behind' in globals()"),
        v4.new_code_cell("import os; os.getpid()"),
    )
    seen = []
    values = {"project": 'it\'s \\ a "test".toml', "more": 9}
    notebooks = run_sheets([first, second], values, lambda *said: seen.append(said))
    return notebooks, seen, values


def test_progress_names_each_sheet(executed):
    assert executed[1] == [(1, 2, "01_first"), (2, 2, "02_second")]


def test_parameters_are_put_in_and_the_rest_left(executed):
    first, _ = executed[0]
    assert first.cells[2].outputs[0].text.strip() == f"{executed[2]['project']} 1 9"


def test_a_sheet_does_not_see_the_names_of_the_one_before(executed):
    _, second = executed[0]
    assert second.cells[1].outputs[0].data["text/plain"] == "False"
    assert [cell.execution_count for cell in second.cells] == [1, 2, 3]


def test_a_sheet_is_its_text_and_outputs_without_code(executed):
    sheet = sheet_of(executed[0][0], "01_first")
    assert (sheet.title, sheet.number) == ("First sheet", "1")
    assert [type(item) for item in sheet.items] == [Markdown, Preformatted, Table, Markdown]
    assert "left_behind" not in repr(sheet)
    assert "7" not in repr(sheet.items)


def test_running_twice_gives_the_same_notebook(tmp_path):
    path = written(tmp_path, "1.ipynb", v4.new_code_cell("{1: 'a'}"), v4.new_code_cell("print('b')"))
    assert nbformat.writes(run_sheets([path], {})[0]) == nbformat.writes(run_sheets([path], {})[0])


@pytest.mark.parametrize(
    ("source", "says"),
    [
        ("x = 1\n1/0", r"3_bad\.ipynb failed in cell 3 \(x = 1\): ZeroDivisionError: division by zero"),
        ("import os; os._exit(1)", r"3_bad\.ipynb failed in cell 3 .*stopped"),
        ("import time; time.sleep(60)", r"3_bad\.ipynb failed in cell 3 .*longer than 2 seconds"),
    ],
)
def test_a_failing_cell_stops_with_its_sheet_and_number(tmp_path, source, says):
    path = written(
        tmp_path, "3_bad.ipynb", v4.new_markdown_cell("# T"), v4.new_code_cell("1"), v4.new_code_cell(source)
    )
    with pytest.raises(SheetError, match=says) as caught:
        run_sheets([path], {}, timeout=2)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("cells", "says"),
    [
        ([parameters("project = 1")], "no parameter 'projct'; it has: project"),
        ([parameters("def f(: pass")], "is no Python"),
        ([v4.new_code_cell("projct = 1")], "has 0 cells tagged"),
        ([parameters("projct = 1"), parameters("projct = 1")], "has 2 cells tagged"),
    ],
)
def test_parameters_are_strict(cells, says):
    with pytest.raises(SheetError, match=says):
        with_parameters(v4.new_notebook(cells=cells), {"projct": "x"}, "4.ipynb")


def test_a_file_that_is_no_notebook_is_one_sentence(tmp_path):
    path = tmp_path / "x.ipynb"
    path.write_text("{}", encoding="utf-8")
    for read in (read_sheet, lambda p: run_sheets([p], {})):
        with pytest.raises(SheetError, match=r"x\.ipynb can't be read as a notebook"):
            read(path)
        with pytest.raises(SheetError, match="can't be read"):
            read(tmp_path / "missing.ipynb")


def shown(data, kind="display_data"):
    extra = {"execution_count": 1} if kind == "execute_result" else {}
    cell = v4.new_code_cell("x", execution_count=1, outputs=[v4.new_output(kind, data=data, **extra)])
    return sheet_of(v4.new_notebook(cells=[cell]), "5").items


@pytest.mark.parametrize(
    ("data", "items"),
    [
        ({"text/plain": "7", "text/html": "<b>7</b>"}, (Html("<b>7</b>"),)),
        ({"text/plain": "7", "image/png": PIXEL}, (Picture(b"\x89PNG not looked at", "png"),)),
        ({"text/plain": "7", "image/svg+xml": "<svg/>"}, (Vector("<svg/>"),)),
        ({"text/plain": "7", "text/markdown": "*7*"}, (Markdown("*7*"),)),
        ({"text/plain": "7", "text/latex": r"$\displaystyle x$"}, (Markdown("$x$"),)),
        ({"text/plain": "\x1b[31m7\x1b[0m"}, (Preformatted("7"),)),
        ({"text/plain": "Text()", "application/vnd.jupyter.widget-view+json": {}}, ()),
    ],
)
def test_a_users_output_is_carried_in_its_best_form(data, items):
    assert shown(data) == items


def test_a_cell_that_was_not_run_is_refused():
    with pytest.raises(SheetError, match="cell 1 of the sheet 6 has not been run"):
        sheet_of(v4.new_notebook(cells=[v4.new_code_cell("x")]), "6")


def test_a_cell_that_ended_in_an_error_is_refused():
    error = v4.new_output("error", ename="ValueError", evalue="no", traceback=[])
    cell = v4.new_code_cell("x", execution_count=1, outputs=[error])
    with pytest.raises(SheetError, match="ended in an error: ValueError: no"):
        sheet_of(v4.new_notebook(cells=[cell]), "6")
