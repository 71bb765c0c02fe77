"""Rims, blocking and spacers in the cut list, the hardware and what is not counted, by counting by hand."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from bolewright.drawings.details import details
from bolewright.drawings.files import drawing_files
from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import Results, find_results
from bolewright.rendering.blocks import Table
from bolewright.sheets.setting_out.framing import FramingSheet
from bolewright.take_off.cut_list import Use, find_cuts
from bolewright.take_off.in_frame import frame_items
from bolewright.take_off.uncounted import uncounted

RIMS = Path(__file__).parent.parent / "projects" / "round_the_trunk_rims.toml"
ROW = '\n[[blocking]]\nmark = "BL"\nbetween = ["J1", "J11"]\nover = "C1"\nfasteners = 4\n'


@cache
def made(extra: str = "") -> Results:
    text = RIMS.read_text(encoding="utf-8")
    return find_results(parse_project(text + extra))


def test_a_rim_is_one_stick_as_long_as_the_edge() -> None:
    # 12 ft of edge, of a 12 ft stick less what is trimmed off its ends at most: the two rims with their joints over a
    # joist come to twice 144 in.
    cuts = [cut for cut in find_cuts(made()) if cut.use is Use.BLOCKING]
    assert sum(cut.long for cut in cuts) == pytest.approx(2 * 144.0, abs=0.5)
    assert {cut.lumber.section for cut in cuts} == {"2x8"}
    assert all(cut.label for cut in cuts)


def test_blocks_are_cut_face_to_face() -> None:
    # joists at 16 in. on centre, 1 1/2 in. thick: 14 1/2 in.
    cuts = {cut.mark: cut for cut in find_cuts(made(ROW)) if cut.mark.startswith("BL")}
    assert cuts["BL1"].long == pytest.approx(14.5)
    assert cuts["BL1"].ends == ("square", "square")


def test_nails_of_a_rim_are_counted_at_each_joist_and_of_blocking_at_each_end() -> None:
    items = {item.name: item for item in frame_items(made(ROW)) if "nail," in item.name}
    tips = 9 + 2  # joists and trimmers at each edge: J1 to J11 less two that the opening cuts off, M1 and M2
    rims = [item for item in frame_items(made(ROW)) if item.name == "nail, rim"]
    assert [item.count for item in rims] == [5 * tips, 5 * tips]
    pieces = [m for m in made(ROW).path.layout.blocking if m.mark.startswith("BL")]
    assert items["nail, blocking"].count == 2 * 4 * len(pieces)
    assert "toe-nails" in items["nail, blocking"].size  # at the doubled trimmers


def test_what_stands_in_the_file_is_not_said_to_be_uncounted() -> None:
    assert not any(line.what == "blocking and rim" for line in uncounted(made().path.layout))


def test_each_entry_has_a_detail_of_its_fastening() -> None:
    titles = [drawing.title for drawing in details(made(ROW))]
    assert sum("its fastening" in title for title in titles) == 3


def test_the_drawings_carry_them_on_a_layer_of_their_own() -> None:
    files = drawing_files(made(ROW))
    plan = next(data for name, data in files.items() if "plan-of-framing" in name and name.endswith(".dxf"))
    assert b"blocking" in plan.lower()


def test_blocks_are_set_out_along_their_joists_and_a_rim_is_a_cut_in_one_line() -> None:
    sheet = FramingSheet(made(ROW))
    first, *_ = (m for m in made(ROW).path.layout.blocking if m.mark == "BL1")
    rows = {row[0]: row for table in sheet.marks().items if isinstance(table, Table) for row in table.rows}
    assert rows["BL1"][1] == first.seats[0].below
    assert (
        "19 1/4" in rows["BL1"][2] or "1' 7 1/4" in rows["BL1"][2]
    )  # over C1 at 20 in., staggered by 3/4 in.
    assert "14 1/2" in rows["BL1"][5] or "1' 2 1/2" in rows["BL1"][5]
    assert any(row[0].startswith("R1 to") for row in sheet.cuts().rows)
