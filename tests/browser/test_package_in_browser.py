"""The package as a page in a real browser: contents that stay, sheets that fold, dark, print, links to rows."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from bolewright.documents.content import Markdown, SheetContent, TitleBlock
from bolewright.documents.package import build
from bolewright.rendering.blocks import Cell, Equations, Heading, Statement, StatementKind, Table
from bolewright.rendering.palette import Status

BLOCK = TitleBlock(
    project="A deck",
    site="Mill Lane",
    revision="B",
    date=date(2024, 5, 2),
    prepared_by="A builder",
    checked_by="",
    fingerprint="b1946ac92492d234",
)


def _sheet(number: int) -> SheetContent:
    rows = tuple(
        (
            f"J{i}",
            Cell("bending", to=f"derivation {number}"),
            Cell("0.51", Status.PASSES, anchor=f"row {number} J{i}"),
        )
        for i in range(1, 31)
    )
    return SheetContent(
        f"Sheet of part {number}",
        str(number),
        (
            Heading("Derivation", anchor=f"derivation {number}", back=f"row {number} J1"),
            Equations(
                "Bending stress", ("f_b = 513",), given=(("f_b", "bending stress"),), number=str(number)
            ),
            Table(("by", "ratio"), ((Cell(f"({number})", to=f"equation {number}"), "0.51"),)),
            Markdown(f"Words of sheet {number}. " * 40),
            Table(("part", "limit state", "ratio"), rows, "Every part"),
            Statement(StatementKind.CAUTION, ("Work at height kills.",)),
            Statement(StatementKind.FAILURE, ("J40: bending, 1.17 of its capacity.",)),
        ),
    )


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    sheets = [_sheet(n) for n in range(1, 7)]
    return build(sheets, BLOCK, "", tmp_path_factory.mktemp("page")).html.as_uri()


@pytest.fixture(params=["desk", "phone"])
def page(request: pytest.FixtureRequest, address: str, chromium: Any) -> Any:
    size = {"desk": (1400, 900), "phone": (390, 800)}[request.param]
    page = chromium.new_page(viewport={"width": size[0], "height": size[1]})
    page.goto(address)
    yield page
    page.close()


def _in_sight(page: Any, place: str) -> bool:
    return bool(
        page.evaluate(
            """place => { const e = document.getElementById(place), r = e.getBoundingClientRect();
            const top = document.elementFromPoint(r.left + 3, r.top + 3);
            return r.top >= 0 && r.bottom <= innerHeight && (e.contains(top) || top.contains(e)); }""",
            place,
        )
    )


def test_contents_stay_and_lead_into_a_folded_sheet(page: Any) -> None:
    contents = page.locator("nav")
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    box = contents.bounding_box()
    assert 0 <= box["y"] < page.viewport_size["height"] / 2
    link = contents.get_by_role("link", name="Sheet of part 5")
    if not link.is_visible():
        contents.get_by_text("Contents").click()
    sheet = page.locator("article").nth(4)
    assert not sheet.get_by_text("Words of sheet 5").is_visible()
    link.click()
    assert sheet.get_by_text("Words of sheet 5").is_visible()
    assert _in_sight(page, "sheet-5")


def test_sheets_fold(page: Any) -> None:
    high = page.evaluate("document.body.scrollHeight")
    page.get_by_role("heading", name="Sheet of part 1").click()
    assert not page.get_by_text("Words of sheet 1").is_visible()
    assert page.evaluate("document.body.scrollHeight") < 0.8 * high


def test_a_link_to_a_row_unfolds_its_sheet_and_marks_the_row(page: Any, address: str) -> None:
    page.goto(f"{address}#row-6-J17")
    page.wait_for_function("document.getElementById('row-6-J17').getBoundingClientRect().top < innerHeight")
    assert _in_sight(page, "row-6-J17")
    row = page.locator("#row-6-J17").locator("xpath=..")
    other = page.locator("#row-6-J16").locator("xpath=..")
    colour = "e => getComputedStyle(e).backgroundColor"
    assert row.evaluate(colour) != other.evaluate(colour)


def test_every_link_leads_somewhere(page: Any) -> None:
    lost = page.evaluate(
        "[...document.querySelectorAll('a[href^=\"#\"]')].map(a => a.hash.slice(1))"
        ".filter(h => !document.getElementById(decodeURIComponent(h)))"
    )
    assert lost == []
    assert page.locator("a[href='#equation-3']").count() == 1


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_colour_can_be_read(address: str, chromium: Any, scheme: str) -> None:
    """WCAG 2.1, 1.4.3: 4.5 to 1 between a text and what it stands on; dark is dark."""
    page = chromium.new_page(color_scheme=scheme)
    page.goto(address)
    found = page.evaluate(
        """() => [...document.querySelectorAll('body *')].filter(e => e.checkVisibility() &&
        [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())).map(e => {
          let on = e; while (on && getComputedStyle(on).backgroundColor === 'rgba(0, 0, 0, 0)') on = on.parentElement;
          const ground = getComputedStyle(on || document.body).backgroundColor;
          return [e.outerHTML.slice(0, 60), getComputedStyle(e).color, ground];
        })"""
    )
    assert len(found) > 100
    for what, ink, paper in found:
        light, dark = sorted((_luminance(ink), _luminance(paper)), reverse=True)
        assert (light + 0.05) / (dark + 0.05) >= 4.5, (what, ink, paper)
    ground = _luminance(page.evaluate("getComputedStyle(document.body).backgroundColor"))
    assert ground < 0.05 if scheme == "dark" else ground > 0.9
    page.close()


def _luminance(colour: str) -> float:
    """WCAG 2.1, relative luminance."""
    parts = [int(c) / 255 for c in re.findall(r"\d+", colour)[:3]]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def test_print_unfolds_all_on_light_paper_without_a_page_that_is_nearly_blank(
    address: str, chromium: Any, tmp_path: Path
) -> None:
    page = chromium.new_page(color_scheme="dark")
    page.goto(address)
    page.pdf(path=tmp_path / "print.pdf", format="Letter", print_background=True)
    page.close()
    document = pypdfium2.PdfDocument(tmp_path / "print.pdf")
    try:
        texts = [one.get_textpage().get_text_bounded() for one in document]
        corner = document[0].render(scale=0.2).to_pil().getpixel((60, 5))
    finally:
        document.close()
    assert all(f"Words of sheet {n}." in " ".join(texts) for n in range(1, 7))
    assert all(len(text) > 300 for text in texts[:-1])
    assert min(corner[:3]) > 250
