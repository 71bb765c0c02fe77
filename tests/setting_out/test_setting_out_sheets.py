"""Setting-out sheets: every block of every sheet shows, on every arrangement and for both tapes."""

import inspect
import re
from pathlib import Path

import nbformat
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.paths import shipped
from bolewright.rendering.blocks import Table, data_of
from bolewright.setting_out.tolerance import SIXTEENTH
from bolewright.sheets.lengths import Lengths
from bolewright.sheets.opening import Blocks
from bolewright.sheets.setting_out import Tape, open_setting_out
from bolewright.units import INCH, read

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
TOPICS = ("trunk", "ground", "framing", "deck", "as built")
ARRANGEMENTS = sorted((Path(__file__).parents[1] / "platform" / "arrangements").glob("*.toml"))


def _methods(sheet: object) -> list[str]:
    return [
        name
        for name, member in inspect.getmembers(type(sheet), inspect.isfunction)
        if not name.startswith("_") and list(inspect.signature(member).parameters) == ["self"]
    ]


def _shown(sheet: object) -> list[object]:
    found: list[object] = []
    for name in _methods(sheet):
        block = getattr(sheet, name)()
        found += list(block.items) if isinstance(block, Blocks) else [block]
    return found


@pytest.mark.parametrize("topic", TOPICS)
@pytest.mark.parametrize("path", ARRANGEMENTS, ids=lambda path: path.stem)
def test_every_block_of_every_arrangement_is_data(path: Path, topic: str) -> None:
    shown = _shown(open_setting_out(path, topic))
    assert shown
    for block in shown:
        data_of(block)  # raises for what is no block


def _texts(sheet: object) -> list[str]:
    return [
        cell if isinstance(cell, str) else cell.text
        for block in _shown(sheet)
        if isinstance(block, Table)
        for row in block.rows
        for cell in row
    ]


@pytest.mark.parametrize("topic", ["trunk", "ground", "framing", "deck"])
def test_metric_tape_reads_no_inches(topic: str) -> None:
    texts = _texts(open_setting_out(DEMO, topic, Tape.METRIC))
    assert any(text.endswith(" mm") for text in texts)
    assert not [text for text in texts if re.search(r"\d\"", text)]


@given(st.floats(-2000, 2000))
def test_a_printed_length_reads_back_to_a_32nd(inches: float) -> None:
    assert read(Lengths(Tape.FEET)(inches), INCH) == pytest.approx(inches, abs=SIXTEENTH / 2 + 1e-9)
    millimetres = float(Lengths(Tape.METRIC)(inches).removesuffix(" mm").replace(",", ""))
    assert millimetres == pytest.approx(inches * 25.4, abs=0.5 + 1e-9)


def test_every_cell_of_the_notebooks_calls_a_method_that_is_there() -> None:
    for number, topic in zip(("20", "21", "22", "23", "24"), TOPICS, strict=True):
        (path,) = shipped("calcsheets").glob(f"{number}_*.ipynb")
        notebook = nbformat.read(path, as_version=4)
        sheet = open_setting_out(DEMO, topic)
        called = [m for c in notebook.cells for m in re.findall(r"^sheet\.(\w+)\(\)", c.source, re.M)]
        assert called
        assert set(called) <= set(_methods(sheet))


def test_a_wrong_topic_or_tape_is_refused() -> None:
    with pytest.raises(ValueError, match="no setting-out sheet; there are: trunk, ground"):
        open_setting_out(DEMO, "roof")
    with pytest.raises(ValueError, match="'cubits' is no tape"):
        open_setting_out(DEMO, "trunk", "cubits")
