"""A part's notebook never shows a result that does not belong to its inputs."""

from __future__ import annotations

import ipywidgets as widgets
import pytest
from IPython.core.error import UsageError

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


def test_what_was_typed_into_the_form_stays_when_all_cells_run_again():
    """One truth: the form's value stands in place of the first cell's until that is changed."""
    part = open_part("notch", shear="400 lb", depth="1 in")
    part.change({**part.typed, "shear": "450 lb"})
    again = open_part("notch", shear="400 lb", depth="1 in", kept=part)
    assert again.sheet.texts["shear"] == "450 lb"
    assert again.over == {"shear": "450 lb"}
    changed = open_part("notch", shear="300 lb", depth="1 1/2 in", kept=again)
    assert changed.sheet.texts["shear"] == "300 lb"
    assert changed.sheet.texts["depth"] == "1 1/2 in"


def test_what_was_typed_is_not_taken_into_another_kind_or_into_the_published_example():
    part = open_part("notch")
    part.change({**part.typed, "section": "2x12"})
    assert open_part("notch", example=True, kept=part).over == {}
    assert open_part("beam", kept=part).over == {}
    assert open_part("beam", kept="no part").over == {}


def test_a_faulty_text_stays_in_the_form_and_no_result_is_shown_below():
    part = open_part("notch")
    with pytest.raises(PartError):
        part.change({**part.typed, "shear": "45o lb"})
    again = open_part("notch", kept=part)
    assert again.typed["shear"] == "45o lb"
    names: dict[str, object] = {}
    again.begin(names)
    names.update(again.sheet.values)
    assert words(again.result(names)).startswith("Open")
    assert "The form holds an input that can't be used" in words(again.result(names))


def test_typing_the_former_value_brings_the_result_back():
    part = open_part("notch")
    names: dict[str, object] = {}
    part.begin(names)
    names.update(part.sheet.values)
    part.change({**part.typed, "shear": "450 lb"})
    part.change({**part.typed, "shear": part.cell["shear"]})
    assert "Shear at the notch governs" in words(part.result(names))


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


def edited():
    """A notch sheet whose cell for the ratio was changed, its result seen."""
    part = open_part("notch")
    names: dict[str, object] = {}
    part.begin(names)
    names.update(part.sheet.values)
    names["ratio_V"] = 1.28
    assert "28 % over what is allowed" in words(part.result(names))
    return part, names


def test_changed_cells_that_come_to_another_result_are_not_printed(tmp_path):
    part, names = edited()
    for out, blank in (("a.pdf", False), ("b.html", True)):
        with pytest.raises(UsageError, match="changed cells") as caught:
            part.print_to(tmp_path / out, blank=blank)
        assert "28 % over what is allowed" in str(caught.value)  # by the cells
        assert "no limit on this sheet is exceeded" in str(caught.value)  # by the inputs
    assert not list(tmp_path.iterdir())
    names["ratio_V"] = part.sheet.values["ratio_V"]
    part.result(names)
    assert part.print_to(tmp_path / "a.html").exists()


def test_beginning_again_or_other_inputs_lift_the_refusal(tmp_path):
    """Cells run again count anew; other inputs strike the cells' result, and their sheet is printed."""
    part, names = edited()
    part.change({**part.typed, "shear": "450 lb"})
    assert part.print_to(tmp_path / "other.html").exists()
    part.change(part.cell)
    with pytest.raises(UsageError, match="changed cells"):
        part.print_to(tmp_path / "same.html")
    part.begin(names)
    assert part.print_to(tmp_path / "same.html").exists()


def test_the_print_button_of_the_form_has_the_same_guard(tmp_path):
    part, _ = edited()
    form = part.form()
    row = next(
        r for r in form.children if any(isinstance(c, widgets.Button) for c in getattr(r, "children", ()))
    )
    name, _, button, said = row.children
    name.value = str(tmp_path / "notch.html")
    button.click()
    assert 'role="alert"' in said.value
    assert "changed cells" in said.value
    assert not list(tmp_path.iterdir())
    name.value = str(tmp_path / "notch.doc")
    part.begin({})
    button.click()
    assert ".pdf or .html" in said.value
    name.value = str(tmp_path / "notch.html")
    button.click()
    assert said.value.startswith("Written: ")
    assert (tmp_path / "notch.html").exists()


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
