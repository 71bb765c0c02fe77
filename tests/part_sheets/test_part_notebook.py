"""A part's notebook never shows a result that does not belong to its inputs."""

from __future__ import annotations

import pytest

from bolewright.documents.execute import run_sheets
from bolewright.part_sheets import PartError, open_part
from bolewright.paths import shipped
from bolewright.sheets.package import lay_out_workbook


def words(shown):
    return " ".join(block._repr_mimebundle_()["text/plain"] for block in shown)


def test_a_result_of_other_inputs_is_not_shown():
    part = open_part("notch")
    names: dict[str, object] = {}
    part.begin(names)
    names.update(part.sheet.values)
    assert "Shear at the notch governs" in words(part.result(names))
    part.change({"shear": "5000 lb"})
    assert "run all cells again" in words(part.result(names))


def test_beginning_again_takes_away_what_was_worked_out():
    part = open_part("notch")
    names: dict[str, object] = {"ratio_V": 0.1, "mine": 3}
    part.begin(names)
    assert "ratio_V" not in names
    assert names["mine"] == 3
    assert "Shear at the notch is open" in words(part.result(names))


def test_an_edited_cell_counts_in_the_result():
    part = open_part("notch")
    names: dict[str, object] = {}
    part.begin(names)
    names.update(part.sheet.values)
    names["ratio_V"] = 1.5
    assert "50 % over what is allowed" in words(part.result(names))


def test_a_faulty_change_leaves_the_last_sheet():
    part = open_part("notch")
    before = part.sheet
    with pytest.raises(PartError):
        part.change({"shear": "much"})
    assert part.sheet is before


def test_the_switch_loads_the_published_example():
    """The one parameter is enough, run as a notebook."""
    (notebook,) = run_sheets(
        [shipped("calcsheets") / "parts" / "nailed-joint.ipynb"], {"published_example": True}
    )
    text = str([cell.get("outputs") for cell in notebook.cells])
    assert "Table 12N" in text
    assert "It comes out." in text


def test_another_value_in_the_parameters_cell_recomputes():
    (notebook,) = run_sheets([shipped("calcsheets") / "parts" / "beam.ipynb"], {"span": "20 ft"})
    assert "times what is allowed" in str([cell.get("outputs") for cell in notebook.cells])


def test_the_workbook_lays_the_part_sheets_out(tmp_path):
    lay_out_workbook(tmp_path)
    assert (tmp_path / "parts" / "beam.ipynb").exists()
    assert (tmp_path / "04_joists.ipynb").exists()


def test_a_faulty_parameter_is_one_sentence_without_a_traceback(capsys):
    from IPython.core.interactiveshell import InteractiveShell

    shell = InteractiveShell.instance()
    try:
        shell.run_cell("from bolewright.part_sheets import open_part\nopen_part('beam', span='12 fx')")
        said = "".join(capsys.readouterr())
        assert "span: '12 fx' has a unit 'fx' that is not known" in said
        assert "Traceback" not in said
    finally:
        InteractiveShell.clear_instance()
