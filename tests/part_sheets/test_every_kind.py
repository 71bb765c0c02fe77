"""Every kind of part: its published example comes out, its sheet prints, its notebook says what the shell says."""

from __future__ import annotations

import re

import nbformat
import pytest

from bolewright import units
from bolewright.part_sheets.blank import blanked
from bolewright.part_sheets.document import content_of
from bolewright.part_sheets.functions import assigned
from bolewright.part_sheets.inputs import Inputs, PartError, asked_of
from bolewright.part_sheets.kinds import KINDS
from bolewright.part_sheets.sheet import UNDER, example_block, part_sheet, verdict_of
from bolewright.part_sheets.step_words import _WORDS
from bolewright.part_sheets.stored import executed, notebook_of
from bolewright.paths import shipped
from bolewright.rendering.blocks import Equations
from bolewright.status import Status

EACH = pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))


@EACH
def test_the_published_example_comes_out(kind):
    """Source, inputs and value stand in the kind; the tolerance is half the last published digit."""
    sheet = part_sheet(kind, dict(kind.example.inputs))
    assert kind.example.values
    for one in kind.example.values:
        found = float(units.magnitude(sheet.values[one.symbol], one.unit))
        assert abs(found - one.value) <= one.half * (1 + 1e-9), (one.symbol, found)


@EACH
def test_the_defaults_make_a_sheet_without_an_open_limit(kind):
    sheet = part_sheet(kind, {})
    assert not [j.says for j in sheet.limits if j.says]
    assert sheet.verdict.startswith(UNDER)


@EACH
def test_no_sheet_says_passes(kind):
    for texts in ({}, dict(kind.example.inputs)):
        said = " ".join([part_sheet(kind, texts).verdict, kind.about, *kind.not_checked])
        assert "pass" not in said.lower()


@EACH
def test_what_is_typed_is_no_symbol_of_the_calculation(kind):
    """Else a notebook's parameter would be overwritten by a step, or the part itself."""
    sheet = part_sheet(kind, {})
    symbols = {s.name for s in sheet.given.symbols} | {n for s in kind.steps for n in assigned(s.text)}
    assert not set(kind.model.model_fields) & (symbols | {"part"})


@EACH
def test_every_input_has_a_title_help_and_a_default_that_reads(kind):
    for asked in asked_of(kind.model):
        assert asked.title
        assert asked.help
    assert kind.model().model_dump()


@EACH
def test_every_measure_refuses_in_a_sentence_at_its_field(kind):
    for asked in asked_of(kind.model):
        if asked.allowed:
            for text in ("twelve", "-3 ft", "1e9 mi", ""):
                with pytest.raises(PartError) as caught:
                    part_sheet(kind, {asked.name: text})
                assert list(caught.value.faults) == [asked.name]
                assert caught.value.faults[asked.name].endswith(".")


@EACH
def test_a_blank_sheet_keeps_the_formulas_and_loses_the_numbers(kind):
    sheet = part_sheet(kind, {})
    worked = [b for _, blocks in sheet.steps for b in blocks if isinstance(b, Equations)]
    blank = [blanked(b) for b in worked]
    for before, after in zip(worked, blank, strict=True):
        result = before.alt.splitlines()[-1].rpartition(" = ")[2].split(" ")[0]
        assert result not in " ".join(after.latex) or len(result) < 4
        assert ". . ." in " ".join(after.latex)
    items = content_of(sheet, blank=True).items
    assert [getattr(item, "text", "") for item in items].count("## Key") == 1
    (key,) = (item for item in items if getattr(item, "caption", "") == "What was worked out")
    assert key.rows
    assert "Key" not in [getattr(item, "caption", "") for item in items]


@EACH
def test_the_notebook_holds_the_steps_that_the_shell_runs(kind):
    cells = [c.source for c in notebook_of(kind).cells if c.source.startswith("%%worked")]
    assert [c.partition("\n")[2] for c in cells] == [step.text for step in kind.steps]


@EACH
def test_no_step_multiplies_by_0_or_1_to_give_a_value_another_name(kind):
    """It would print as a sum that nobody does."""
    for step in kind.steps:
        assert not re.search(r"= [01] \* ", step.text), step.text


def test_what_is_said_of_a_step_is_of_a_step_that_there_is():
    titles = {step.title for kind in KINDS.values() for step in kind.steps}
    assert set(_WORDS) <= titles
    told = [
        c.source for kind in KINDS.values() for c in notebook_of(kind).cells if c.source.startswith("### ")
    ]
    assert sum("\n\n" in source for source in told) > len(told) / 2


def test_stored_notebooks_are_current_and_say_the_verdict(tmp_path):
    """`python -m bolewright.part_sheets.stored --write` makes them."""
    for name, text in executed(tmp_path).items():
        stored = shipped("calcsheets") / "parts" / name
        assert stored.read_text("utf-8") == text, f"{name} is not current"
        kind = KINDS[name.removesuffix(".ipynb")]
        assert part_sheet(kind, {}).verdict in text.replace("\\u2265", "≥")
        assert not [
            o for c in nbformat.reads(text, 4).cells for o in c.get("outputs", ()) if o.output_type == "error"
        ]


@EACH
def test_what_is_not_checked_names_load_path_lateral_loads_joints_and_the_tree(kind):
    """What a single part can't know: where its load goes, what holds it laterally, its ends, what it stands on."""
    said = " ".join(kind.not_checked)
    for words in (("load path",), ("lateral",), ("joint", "base", "bearing"), ("tree",)):
        assert any(word in said for word in words), words


@EACH
def test_a_value_that_is_no_worked_example_says_what_it_is(kind):
    """The word example is kept for a part that a publication works out."""
    sheet = part_sheet(kind, dict(kind.example.inputs))
    said = " ".join(block.items[0] for block in example_block(sheet))
    assert said.startswith(f"{kind.example.name}: ")
    assert ("No public worked example" in said) == (kind.example.name == "Published value")
    source = notebook_of(kind).cells[0].source
    assert f"loads the {kind.example.name.lower()}: " in source


@EACH
def test_a_published_example_is_no_puzzle(kind):
    """It comes out, and its verdict is within the limits."""
    assert part_sheet(kind, dict(kind.example.inputs)).status is Status.PASSES


@EACH
def test_arithmetic_that_an_example_prints_gives_its_value(kind):
    """The line as it stands, worked out by Python: a hand calculation beside the sheet's."""
    powers = str.maketrans({"²": "**2", "³": "**3", "x": "*"})
    for one in kind.example.values:
        if one.by:
            assert abs(eval(one.by.replace("^", "**").translate(powers)) - one.value) <= one.half, one.by


@EACH
def test_what_was_typed_stands_on_the_drawings_of_the_blank_form(kind):
    """Every force on the free-body diagram that is an input as it was typed."""
    sheet = part_sheet(kind, {})
    forces = {
        sheet.texts[a.name]
        for a in asked_of(kind.model)
        if sheet.texts[a.name].endswith((" lb", " plf")) and not sheet.texts[a.name].startswith("0 ")
    }
    drawn, blank = (
        " ".join(f.svg for f in kind.figures(sheet.inputs, sheet.given, sheet.values, form))
        for form in (False, True)
    )
    assert {f for f in forces if f">{f}" in drawn or f" {f}<" in drawn} <= {f for f in forces if f in blank}


@EACH
def test_the_verdict_of_the_notebook_is_that_of_the_shell(kind):
    sheet = part_sheet(kind, {})
    assert verdict_of(sheet.limits) == sheet.verdict
    assert set(Inputs.model_fields) <= set(kind.model.model_fields)
