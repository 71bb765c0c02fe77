"""A part's notebook never shows a result that does not belong to its inputs."""

from __future__ import annotations

import re

import ipywidgets as widgets
import pytest
from IPython.core.error import UsageError
from IPython.core.interactiveshell import InteractiveShell

from bolewright import Q
from bolewright.documents.execute import run_sheets
from bolewright.part_sheets import PartError, open_part
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.stored import notebook_of
from bolewright.paths import shipped
from bolewright.rendering.numbers import used
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


@pytest.fixture
def run():
    """Runs the notebook of a kind in a shell, cells changed, added and left out as told; gives its names."""
    shell = InteractiveShell.instance()

    def run_cells(kind, changes=(), added="", without=""):
        for cell in notebook_of(KINDS[kind]).cells:
            source = cell.source
            for old, new in changes:
                source = source.replace(old, new)
            if cell.cell_type != "code" or "part.form()" in source or (without and without in source):
                continue
            for text in (added, source) if added and "part.result" in source else (source,):
                assert shell.run_cell(text).success, text
        return shell.user_ns

    yield run_cells
    InteractiveShell.clear_instance()


def text_of(path):
    return re.sub(r"<[^>]+>", " ", path.read_text("utf-8"))


def test_a_changed_cell_prints_as_it_was_changed_and_is_named(run, tmp_path):
    """Half of the shear strength by hand in its own step: ratio twice the sheet's, verdict and steps by the cells."""
    before = run("notch")["part"].sheet.values["ratio_V"]
    names = run(
        "notch",
        [
            (
                "V_r = notched_shear_tension(F_v_p, b, d, d_n)",
                "V_n = notched_shear_tension(F_v_p, b, d, d_n)\nV_r = V_n / 2",
            )
        ],
    )
    page = text_of(names["part"].print_to(tmp_path / "a.html"))
    assert "not this sheet's own: changed Notch in the tension edge." in page
    assert f"{used(2 * before)} of allowable" in page
    blank = text_of(names["part"].print_to(tmp_path / "b.html", blank=True))
    assert "changed Notch in the tension edge" in blank


def test_a_change_that_leaves_the_verdict_as_it_is_prints_too(run, tmp_path):
    """A notch of three tenths of the depth, not a quarter: shear still governs with the same words."""
    unchanged = run("notch")["part"]
    same = unchanged.print_to(tmp_path / "own.html")
    changed = run("notch", [("h_max = end_notch_limit(d)  # 4.4.3.1", "h_max = 0.3 * d")])["part"]
    page = text_of(changed.print_to(tmp_path / "a.html"))
    assert unchanged.sheet.verdict in text_of(same)
    assert unchanged.sheet.verdict in page
    assert "changed Shear and size" in page
    assert "not this sheet's own" not in text_of(same)
    own, other = (re.search(r"\d+\.\d+\.\d+-[0-9a-f]{10}", text)[0] for text in (text_of(same), page))
    assert own != other  # the fingerprint is of the calculation, too


def test_added_and_missing_cells_are_named(run, tmp_path):
    added = run("notch", added="%%worked Reserve\nR = V_r - V")["part"]
    page = text_of(added.print_to(tmp_path / "a.html"))
    assert "added Reserve" in page
    without = run("notch", without="%%worked Shear and size")["part"]
    page = text_of(without.print_to(tmp_path / "b.html"))
    assert "left out Shear and size" in page
    assert "is open" in page


def test_a_formula_of_ones_own_prints_in_a_changed_cell(run, tmp_path):
    own = (
        "from bolewright import formula\nfrom bolewright.units import Force\n\n"
        '@formula(\'our own rule\')\ndef halved(V_o: Force) -> Force:\n    """Half."""\n'
        "    V_h: Force = V_o / 2\n    return V_h"
    )
    names = run("notch", [("part.inputs()", own)], added="%%worked Own rule\nV_h = halved(V_r)")
    assert "our own rule" in text_of(names["part"].print_to(tmp_path / "a.html"))


@pytest.mark.parametrize("symbol", ["ratio_V", "C_D"])
def test_a_value_changed_outside_a_worked_cell_is_not_printed(run, tmp_path, symbol):
    names = run("notch")
    names[symbol] = 1.28
    with pytest.raises(UsageError, match=f"{symbol} is 1.28 in this notebook, but ") as caught:
        names["part"].print_to(tmp_path / "a.pdf")
    assert "Run all cells again" in str(caught.value)
    assert not list(tmp_path.iterdir())


def test_a_cell_that_ran_again_alone_is_not_printed_with_what_stood_on_it(run, tmp_path):
    """Its later cells hold the former value: run all again."""
    names = run("notch")
    InteractiveShell.instance().run_cell(
        "%%worked Notch in the tension edge\nV_r = notched_shear_tension(F_v_p, b, d, d)"
    )
    with pytest.raises(UsageError, match="ratio_V is 0"):
        names["part"].print_to(tmp_path / "a.html")


def test_changed_cells_are_worked_out_again_for_what_the_form_holds(run, tmp_path):
    part = run("notch", [("h_max = end_notch_limit(d)  # 4.4.3.1", "h_max = 0.3 * d")])["part"]
    part.change({**part.typed, "shear": "450 lb"})
    page = text_of(part.print_to(tmp_path / "other.html"))
    assert "450 lb" in page
    assert "changed Shear and size" in page


def test_other_steps_are_worked_out_where_the_form_asks_for_them(run, tmp_path):
    """The cells ran for a square footing; the form holds a round one with uplift."""
    part = run("footing")["part"]
    part.change({**part.typed, "shape": "round", "uplift": "200 lb"})
    page = text_of(part.print_to(tmp_path / "round.html"))
    assert "not this sheet's own" not in page
    assert "Area of a round footing" in page
    assert "Area of a square footing" not in page
    assert "soil straight above" in page


def test_beginning_again_prints_the_sheet_of_the_inputs(run, tmp_path):
    names = run("notch", [("h_max = end_notch_limit(d)  # 4.4.3.1", "h_max = 0.3 * d")])
    names["part"].begin(names)
    assert "not this sheet's own" not in text_of(names["part"].print_to(tmp_path / "same.html"))


def test_the_print_button_of_the_form_has_the_same_guard(run, tmp_path):
    names = run("notch")
    part = names["part"]
    names["ratio_V"] = 1.28
    form = part.form()
    row = next(
        r for r in form.children if any(isinstance(c, widgets.Button) for c in getattr(r, "children", ()))
    )
    name, _, button, said = row.children
    name.value = str(tmp_path / "notch.html")
    button.click()
    assert 'role="alert"' in said.value
    assert "1.28 in this notebook" in said.value
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
    shell = InteractiveShell.instance()
    try:
        shell.run_cell("from bolewright.part_sheets import open_part\nopen_part('beam', span='12 fx')")
        said = "".join(capsys.readouterr())
        assert "span: '12 fx' has a unit 'fx' that is not known" in said
        assert "Traceback" not in said
    finally:
        InteractiveShell.clear_instance()


def test_quantities_and_numbers_are_taken_as_they_are_written() -> None:
    by_text = open_part("beam", span="12 ft", supports="3", second_span="3 m")
    by_value = open_part("beam", span=Q("12 ft"), supports=3, second_span=Q("3 m"))
    assert (by_text.sheet.inputs.span, by_text.sheet.inputs.second_span) == (
        by_value.sheet.inputs.span,
        by_value.sheet.inputs.second_span,
    )
    with pytest.raises(PartError, match=r"span: .40\.0 psf. is a load per area"):
        open_part("beam", span=Q("40 psf"))
    with pytest.raises(PartError, match="is not one of these: 1, 2 or 3"):
        open_part("beam", supports=4)
