"""The site set as it is printed: read back from its PDF, page by page, on both papers."""

import re
from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream

from bolewright.documents.content import Paper, TitleBlock
from bolewright.documents.convert import convert
from bolewright.documents.pdf import pdf_of
from bolewright.platform.project import AsBuilt
from bolewright.setting_out.corners import deck_corners
from bolewright.sheets.direct import run_shipped
from bolewright.sheets.lengths import Lengths, Tape
from bolewright.sheets.opening import results_of
from bolewright.sheets.package import SITE_SIZE, sheet_files
from bolewright.sheets.site import site_sheets
from bolewright.units import feet_inches

DEMO = Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml"
CARRIED = ("20", "21", "32", "42")  # enough of those that are carried over: all of them take a minute


@pytest.fixture(scope="module")
def sheets():
    files = [path for path in sheet_files() if path.name[:2] in CARRIED]
    run = run_shipped(files, {"project": str(DEMO), "tape": Tape.FEET.value})
    return site_sheets(results_of(DEMO), Lengths(Tape.FEET), run)


@pytest.fixture(scope="module", params=Paper, ids=lambda paper: paper.name)
def printed(request, sheets, tmp_path_factory):
    block = TitleBlock(
        "Bur oak lookout", "", "A", date(2026, 11, 25), "", "", "0" * 12, "Site set", request.param,
        single=True, size=SITE_SIZE, grey=True,
    )  # fmt: skip
    path = tmp_path_factory.mktemp("site") / "site.pdf"
    path.write_bytes(pdf_of(sheets, convert(sheets), block, None))
    return request.param, PdfReader(path)


def _words(page):
    return re.sub(r"\s+", " ", page.extract_text())


def test_the_site_sheet_is_one_page_with_all_that_it_promises(printed):
    paper, reader = printed
    first, second = _words(reader.pages[0]), _words(reader.pages[1])
    for heading in ("Key dimensions", "Measure first", "Order of work", "In this set"):
        assert heading in first
        assert heading not in second
    assert "Corners, edges and beam ends" in second
    for mark in ("T1", "T2", "P1", "P2", "C1", "S1", "S2", "K1", "K2", "J1", "OAK"):
        assert mark in first
    for length in ("2' 10\"", "7' 0\""):  # bolts 34 in. apart; posts 84 in. apart and floor 84 in. up
        assert length in first
    assert float(reader.pages[0].mediabox.width) == pytest.approx(paper.value[1] / 25.4 * 72, abs=0.5)


def test_pages_that_the_site_sheet_names_are_where_the_sheets_begin(printed, sheets):
    _, reader = printed
    first = _words(reader.pages[0])
    for sheet in sheets[1:]:
        heading = re.sub(r"\s+", " ", sheet.heading)
        number = int(re.search(rf"{re.escape(heading)} p\. (\d+)", first)[1])
        assert heading in _words(reader.pages[number - 1])
        assert heading not in _words(reader.pages[number - 2]) or number == 2


def test_corners_edges_and_diagonals_are_printed(printed):
    found = deck_corners(results_of(DEMO).path.layout)
    text = " ".join(_words(page) for page in printed[1].pages)
    for corner in found.corners:
        row = rf"{corner.name} {feet_inches(corner.from_a)} {feet_inches(corner.from_b)}"
        assert row in text
    for edge in found.edges:
        assert f"{edge.name} {' '.join(edge.between)} {feet_inches(edge.length)}" in text
    assert len(found.diagonals) == 2
    for closing in found.diagonals:
        assert f"{closing.what} {feet_inches(closing.wanted)}" in text


def test_there_is_a_box_for_every_value_that_as_built_takes(printed):
    pages = [_words(page) for page in printed[1].pages]
    text = " ".join(page for page in pages if "[[as_built]]" in page or "thickness of one ply" in page)
    for key in set(AsBuilt.model_fields) - {"mark", "note"}:
        assert re.search(rf"\b[A-Z]+\d+ {key} .{{1,70}}_{{8}}", text), key
    for mark in ("T1", "T2", "P1", "P2", "GRADE"):
        assert re.search(rf"{mark} below_line .{{1,60}}_{{8}}", text)


def test_no_derivation_is_carried_to_the_site(printed, sheets):
    assert {sheet.number for sheet in sheets if sheet.number} == set(CARRIED)
    text = " ".join(_words(page) for page in printed[1].pages)
    assert "Hand calculation" not in text
    assert "Here " not in text


def test_it_is_grey_throughout(printed):
    """Every colour that is set has equal parts of red, green and blue, in drawings too."""
    met = 0
    for page in printed[1].pages:
        for operands in _colours(page, printed[1]):
            met += 1
            assert max(operands) - min(operands) < 1e-3
    assert met > 100


def _colours(holder, reader):
    content = holder.get_contents() if hasattr(holder, "get_contents") else holder
    for operands, operator in ContentStream(content, reader).operations:
        numbers = [float(x) for x in operands if isinstance(x, int | float)]
        if operator in (b"rg", b"RG", b"sc", b"SC", b"scn", b"SCN") and len(numbers) == 3:
            yield numbers
        assert operator not in (b"k", b"K")
    for name in (holder.get("/Resources") or {}).get("/XObject", {}).values():
        inner = name.get_object()
        if inner["/Subtype"] == "/Form":
            yield from _colours(inner, reader)


def test_text_is_read_at_arms_length(printed):
    """Half of all letters of 11 pt or more and none of the sheets under 8 (capitals of 2 mm): title block left out.

    Capitals of 2.5 mm, 11 pt of this face, are read at 600 mm: 1/240 of the distance (common practice 1/250).
    """
    sizes = []

    def seen(text, _cm, tm, _font, size):
        if text.strip():
            sizes.extend([size * abs(tm[3] or tm[1])] * len(text.strip()))

    for page in printed[1].pages[1:]:
        page.extract_text(visitor_text=seen)
    sizes.sort()
    assert sizes[len(sizes) // 2] >= 10.9
