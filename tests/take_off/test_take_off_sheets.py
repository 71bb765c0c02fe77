"""The take-off sheets: what they print is the take-off, and the drawing of each stick is to scale."""

import math
import re
import xml.etree.ElementTree as ET

import pytest

from bolewright.rendering.blocks import Figure, Statement, StatementKind, Table
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.stick_figures import alike
from bolewright.sheets.take_off import BuyingSheet, CutListSheet, HardwareSheet
from bolewright.take_off.cut_list import run_of
from bolewright.units import INCH, feet_inches, read

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def cut_sheet(demo):
    return CutListSheet(demo.results)


@pytest.fixture(scope="module")
def sheet(demo):
    return BuyingSheet(demo.results)


@pytest.fixture(scope="module")
def hardware(demo):
    return HardwareSheet(demo.results)


def test_the_printed_cut_list_has_every_stick_once_at_its_length(cut_sheet, demo):
    tables = cut_sheet.cut_list().items
    assert sum(int(row[1]) for table in tables for row in table.rows) == len(demo.cuts)
    printed = sorted(read(row[2], INCH) for table in tables for row in table.rows for _ in range(int(row[1])))
    assert printed == sorted(cut.long for cut in demo.cuts)
    for lumber in {cut.lumber for cut in demo.cuts}:
        assert any(lumber.name in table.caption for table in tables)


def test_every_stick_is_drawn_to_scale_with_its_pieces(sheet, demo):
    figures = iter(sheet.sticks().items)
    for purchase in demo.purchases:
        groups = alike(purchase)
        figure = next(figures)
        assert isinstance(figure, Figure)
        root = ET.fromstring(figure.svg)
        widths = []
        for polygon in root.iter(f"{SVG}polygon"):
            xs = [float(point.split(",")[0]) for point in polygon.get("points").split()]
            widths.append(max(xs) - min(xs))
        wanted = [
            length for group in groups for length in (group[0].offer.length, *(c.buy for c in group[0].cuts))
        ]
        scale = widths[0] / wanted[0]
        assert widths == pytest.approx([length * scale for length in wanted], abs=0.002)
        texts = [text.text for text in root.iter(f"{SVG}text")]
        for text in root.iter(f"{SVG}text"):
            assert float(text.get("font-size")) >= 2.0 / 0.7
        lengths = {c.buy for stick in purchase.sticks for c in stick.cuts}
        for text in texts:
            if re.fullmatch(r"(\d+' )?\d*( ?\d+/\d+)?\"", text):
                assert read(text, INCH) in lengths
        for group in groups:
            for i, cut in enumerate(group[0].cuts):
                assert f"{run_of([s.cuts[i].label for s in group])} {feet_inches(cut.buy)}" in figure.alt


def test_the_table_of_sticks_names_every_cut(sheet, demo):
    tables = sheet.stick_table().items
    assert len(tables) == len(demo.purchases)
    for table, purchase in zip(tables, demo.purchases, strict=True):
        assert isinstance(table, Table)
        for row, group in zip(table.rows, alike(purchase), strict=True):
            wanted = [
                f"{run_of([s.cuts[i].label for s in group])} {feet_inches(cut.buy)}"
                for i, cut in enumerate(group[0].cuts)
            ]
            assert row[2].split("; ") == wanted


def test_the_sheet_says_whether_the_list_is_proven(sheet, demo):
    assert all(purchase.proven for purchase in demo.purchases)
    assert "Every line is proven: no choice of these lengths takes less." in sheet.proof().items
    assert {row[-1] for row in sheet.buying_list().rows} == {"least possible"}


def test_a_piece_that_no_stick_gives_is_loud(demo_with):
    sheet = BuyingSheet(demo_with('[stock]\nlengths = ["8 ft"]').results)
    block = sheet.too_long().items[0]
    assert isinstance(block, Statement)
    assert block.kind is StatementKind.FAILURE
    assert any(item.startswith("S2/1") for item in block.items)
    assert sheet.sticks().items


def test_equations_of_weight_and_concrete_print_and_compute(cut_sheet, hardware):
    """Printing reads every equation back; the last line of each is the number of the take-off."""
    latex = "\n".join(
        line for block in hardware.concrete().items if hasattr(block, "latex") for line in block.latex
    )
    assert "40.73" in latex
    assert "70.2" in "\n".join(
        line for block in cut_sheet.weighing().items if hasattr(block, "latex") for line in block.latex
    )


def test_hardware_sheet_says_what_rests_on_memory(hardware):
    assert "from memory" in hardware.materials().caption
    assert any("from memory" in item for item in hardware.hardware_notes().items)
    assert any("packing of 1 1/4" in item for item in hardware.hardware_notes().items)
    assert math.isclose(float(hardware.hardware().rows[0][2]), 2)


def test_lists_for_a_metric_tape_have_no_inches(demo):
    """No length in feet or inches is left on cut and buying list; each is the millimetres of the same cut."""
    metric = Lengths(Tape.METRIC)
    cut, buying = CutListSheet(demo.results, metric), BuyingSheet(demo.results, metric)
    tables = [*cut.cut_list().items, buying.buying_list(), *buying.stick_table().items]
    words = [cell for table in tables for row in table.rows for cell in row]
    assert not [w for w in words if '"' in w or re.search(r"\d ft\b|\d'", w)]
    printed = sorted(
        int(r[2].removesuffix(" mm").replace(",", "")) for t in cut.cut_list().items for r in t.rows
    )
    assert printed == sorted(round(line.cut.long * 25.4) for line in demo.lines)
    assert "mm" in next(iter(buying.sticks().items)).alt


def test_what_no_list_counts_is_said_with_its_length(demo, demo_with):
    """Guard on edges 2, 3, 4 of the outline: (26, 18)-(74 1/2, 134)-(-58 1/4, 134)-(-24, 18), by Pythagoras."""
    found = {item.what: item for item in demo.uncounted}
    edges = math.hypot(48.5, 116) + 132.75 + math.hypot(34.25, 116)
    assert found["guard"].length == pytest.approx(edges)
    assert found["stairs or ladder"].length == 84
    assert found["temporary brace"].number == 4
    assert found["temporary brace"].length == 4 * 60  # 2/3 of 60 in. at 45 degrees is 56.6, in whole feet 60
    for sheet in (CutListSheet(demo.results).cut_cautions(), HardwareSheet(demo.results).hardware_cautions()):
        loud = sheet.items[0]
        assert loud.kind is StatementKind.CAUTION
        assert any(w.startswith("Not counted: guard (edge 2 to edge 4), 3, ") for w in loud.items)
        assert any(w.startswith("Not counted: stairs or ladder, 7' 0\"") for w in loud.items)
    walled = demo_with('[[wall]]\nmark = "W1"\nedge = 3\nheight = "6 ft"\nstart = "4 ft"\nlength = "5 ft"')
    assert {item.what: item for item in walled.uncounted}["wall or screen"].length == 60
