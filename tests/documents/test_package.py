"""The package as a reader gets it: PDF and HTML of handwritten sheets with the hard cases in them."""

import dataclasses
import io
import os
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import pypdf
import pypdfium2
import pytest
from sample_sheets import TITLE_BLOCK, UGLY, sheets

from bolewright.documents.content import (
    NOT_AN_APPROVAL,
    Markdown,
    PackageError,
    Paper,
    SheetContent,
    Vector,
)
from bolewright.documents.convert import convert
from bolewright.documents.package import build
from bolewright.documents.pdf import STANDARDS, _compiled, _Source
from bolewright.rendering.blocks import Equations

PROJECT = 'name = "demo"\n# a comment <kept>\n'
LETTER_POINTS = (612.0, 792.0)  # ANSI/ASME Y14.1: 8.5 x 11 in.


@pytest.fixture(scope="module")
def paths(tmp_path_factory):
    return build(sheets(), TITLE_BLOCK, PROJECT, tmp_path_factory.mktemp("package"))


@pytest.fixture(scope="module")
def pages(paths):
    """Text of each page, without the places to break in long words."""
    return [page.extract_text().replace("\u200b", "") for page in pypdf.PdfReader(paths.pdf).pages]


@pytest.fixture(scope="module")
def html(paths):
    return paths.html.read_text(encoding="utf-8")


def test_same_input_gives_the_same_bytes(paths, tmp_path):
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]); from pathlib import Path; import sample_sheets as s; "
        "from bolewright.documents.package import build; "
        "build(s.sheets(), s.TITLE_BLOCK, sys.argv[2], Path(sys.argv[3]))"
    )
    folder = str(Path(__file__).parent)
    elsewhere = {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"}
    subprocess.run([sys.executable, "-c", code, folder, PROJECT, str(tmp_path)], check=True, env=elsewhere)
    for path in (paths.pdf, paths.html):
        assert (tmp_path / path.name).read_bytes() == path.read_bytes()


def test_every_page_has_title_block_and_caution(pages):
    assert len(pages) > 5
    for number, text in enumerate(pages, start=1):
        for words in ("Lookout <b>#1</b> $5 @ref", "14 Mill Lane, #3 <North> $ & co", "2024-05-02"):
            assert words in text
        assert f"Sheet {number} of {len(pages)}" in text
        assert 'Ann "A" B\\uilder' in text
        assert f"Fingerprint {TITLE_BLOCK.fingerprint}" in text
        assert NOT_AN_APPROVAL in " ".join(text.split())


@pytest.mark.parametrize(
    "number", ["580,000", "2,044", "0.8868", "45,000", "5,600", "1.831", "0.9043", "8,888,400", "1,234,567"]
)
def test_numbers_of_the_equations_can_be_searched(pages, html, number):
    assert number in "".join(pages)
    assert number in html


def test_no_latex_is_left_over(pages):
    text = "".join(pages).replace(r"\alpha", "").replace(r"B\uilder", "")  # these two are the user's own
    assert "\\" not in text
    assert "aligned" not in text


def test_a_users_text_is_printed_as_written(pages, html):
    flat = re.sub(r"\s+", "", "".join(pages))
    assert flat.count(re.sub(r"\s+", "", UGLY)) >= 8
    visible = HtmlText.of(html)
    assert visible.count(UGLY) >= 8
    assert "bad()" not in visible


def test_pdf_carries_the_project_file(paths):
    assert pypdf.PdfReader(paths.pdf).attachments["project.toml"] == [PROJECT.encode()]


def test_pdf_has_bookmarks_and_contents_with_links(paths, pages):
    reader = pypdf.PdfReader(paths.pdf)
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert titles == [sheet.heading for sheet in sheets()]
    assert len(reader.pages[0].get("/Annots", [])) >= len(sheets())
    starts = [reader.get_destination_page_number(e) for e in reader.outline if not isinstance(e, list)]
    assert all(sheet.title[:6] in pages[start] for sheet, start in zip(sheets(), starts, strict=True))


def test_pdf_meets_accessibility_and_archive_standards():
    """The typesetter itself refuses: PDF/UA-1 (ISO 14289-1) wants alt texts, PDF/A-3a its attachments."""
    source = _Source(convert(sheets()))
    source.add(sheets(), TITLE_BLOCK, PROJECT)
    assert _compiled(source.files, STANDARDS).startswith(b"%PDF")


def ink_box(page: pypdfium2.PdfPage) -> tuple[int, int, int, int]:
    from PIL import ImageChops

    picture = page.render(scale=2).to_pil().convert("L")
    box = ImageChops.invert(picture).point(lambda value: 255 if value > 30 else 0).getbbox()
    assert box is not None
    return box


@pytest.mark.parametrize("paper", list(Paper))
def test_nothing_runs_over_the_margins(paper, tmp_path):
    block = dataclasses.replace(TITLE_BLOCK, paper=paper)
    made = build(sheets(), block, None, tmp_path)
    margin = round(19 / 25.4 * 72 * 2) - 2
    document = pypdfium2.PdfDocument(made.pdf)
    try:
        for page in document:
            width, height = (round(2 * side) for side in page.get_size())
            left, top, right, bottom = ink_box(page)
            assert left >= margin
            assert right <= width - margin
            assert top > 40
            assert bottom < height - 40
    finally:
        document.close()


def test_sheets_are_us_letter(paths):
    for page in pypdf.PdfReader(paths.pdf).pages:
        assert tuple(float(side) for side in page.mediabox[2:]) == pytest.approx(LETTER_POINTS)


def test_head_of_a_long_table_is_repeated(pages):
    with_table = [text for text in pages if "deflection, live load" in text]
    assert len(with_table) >= 2
    assert all("Limit state" in text for text in with_table)


def test_numbers_of_a_table_stay_whole(pages):
    text = "".join(pages)
    for number in ("3,016.000", "2,007.000", "1,012.000"):
        assert number in text


class HtmlText(HTMLParser):
    """Visible text, tags and what a page would fetch."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tags: list[tuple[str, dict[str, str]]] = []
        self._style = False

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, {name: value or "" for name, value in attrs}))
        self._style = tag == "style"

    def handle_endtag(self, tag):
        self._style = False

    def handle_data(self, data):
        if not self._style:
            self.words.append(data)

    @classmethod
    def of(cls, html: str) -> str:
        parser = cls()
        parser.feed(html)
        return "".join(parser.words)


def test_html_fetches_nothing_and_runs_nothing(html):
    parser = HtmlText()
    parser.feed(html)
    assert not {tag for tag, _ in parser.tags} & {"script", "link", "iframe", "object", "embed", "base"}
    for tag, attributes in parser.tags:
        assert not [name for name in attributes if name.startswith("on")]
        for name in ("src", "href", "xlink:href", "srcset", "data"):
            value = attributes.get(name, "")
            assert tag == "a" or not value or value.startswith(("#", "data:"))
    style = html[html.index("<style>") : html.index("</style>")]
    assert "http" not in style
    assert set(re.findall(r"url\((.{5})", style)) == {"data:"}


def test_html_is_a_page_a_reader_can_walk(html):
    parser = HtmlText()
    parser.feed(html)
    tags = parser.tags
    assert ("html", {"lang": "en"}) in tags
    ids = [attributes["id"] for _, attributes in tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    links = [a["href"][1:] for tag, a in tags if tag == "a" and a.get("href", "").startswith("#")]
    assert set(links) <= set(ids)
    assert "main" in links
    drawings = [a for tag, a in tags if tag == "svg"]
    assert drawings
    assert all(a["role"] == "img" and a["aria-labelledby"] in ids for a in drawings)
    levels = [int(tag[1]) for tag, _ in tags if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in zip(levels, levels[1:], strict=False))
    assert all("alt" in a for tag, a in tags if tag == "img")


def test_html_sets_maths_as_mathml(html):
    assert html.count("<math") >= 6
    assert "<annotation" not in html
    assert "\\frac" not in html


def one_sheet(*items):
    return [SheetContent("Sheet", "1", items)]


def test_a_folder_that_cant_be_written_is_one_sentence(tmp_path):
    blocked = tmp_path / "file"
    blocked.write_text("x")
    with pytest.raises(PackageError, match="can't be written") as caught:
        build(one_sheet(Markdown("x")), TITLE_BLOCK, None, blocked / "out")
    assert "\n" not in str(caught.value)


def test_a_package_that_fails_leaves_the_one_before_as_it_was(tmp_path):
    first = build(one_sheet(Markdown("first")), TITLE_BLOCK, None, tmp_path)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    with pytest.raises(PackageError, match="Broken one"):
        build(one_sheet(Equations("Broken one", (r"a = \frac{1}{",))), TITLE_BLOCK, None, tmp_path)
    first.pdf.unlink()
    first.pdf.mkdir()
    with pytest.raises(PackageError, match="is a folder"):
        build(one_sheet(Markdown("second")), TITLE_BLOCK, None, tmp_path)
    assert (tmp_path / "package.html").read_bytes() == before["package.html"]
    assert {path.name for path in tmp_path.iterdir()} == set(before)


def test_a_package_without_sheets_is_refused(tmp_path):
    with pytest.raises(PackageError):
        build([], TITLE_BLOCK, None, tmp_path)


def test_a_users_broken_maths_is_printed_not_fatal(tmp_path):
    made = build(one_sheet(Markdown(r"see $\badmacro{x$ and $$\frac{$$ now")), TITLE_BLOCK, None, tmp_path)
    assert "badmacro" in pypdf.PdfReader(made.pdf).pages[1].extract_text()


def test_a_picture_from_elsewhere_is_named_not_fetched(tmp_path):
    text = Markdown("![the oak](https://example.org/oak.png) and [go](javascript:alert(1))")
    made = build(one_sheet(text), TITLE_BLOCK, None, tmp_path)
    page = made.html.read_text(encoding="utf-8")
    assert "the oak: picture not carried" in page
    assert "example.org" not in page
    assert "javascript" not in page


def test_a_drawing_loses_its_scripts_and_keeps_its_text(tmp_path):
    svg = (
        '<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" width="90" height="40" onload="x()">'
        '<script>x()</script><image href="https://example.org/x.png" width="5" height="5"/>'
        "<text x='5' y='20' style=\"font: 10px 'Unheard Sans', sans-serif\">J7 highlighted</text></svg>"
    )
    made = build(one_sheet(Vector(svg)), TITLE_BLOCK, None, tmp_path)
    page = made.html.read_text(encoding="utf-8")
    assert "x()" not in page
    assert "example.org" not in page
    assert "J7 highlighted" in page
    assert "J7 highlighted" in pypdf.PdfReader(made.pdf).pages[1].extract_text()


def test_a_drawing_that_is_no_svg_is_one_sentence(tmp_path):
    with pytest.raises(PackageError, match="not well-formed"):
        build(one_sheet(Vector("<svg><g></svg>")), TITLE_BLOCK, None, tmp_path)


def test_progress_is_told_in_order(tmp_path):
    said = []
    build(one_sheet(Markdown("x")), TITLE_BLOCK, None, tmp_path, said.append)
    assert [words.split()[0] for words in said] == ["Converting", "Setting", "Writing"]


def test_pdf_keeps_its_text_through_another_reader(paths):
    """pdfium reads the same numbers as pypdf: the text is real, not a picture of text."""
    document = pypdfium2.PdfDocument(io.BytesIO(paths.pdf.read_bytes()))
    try:
        text = "".join(page.get_textpage().get_text_range() for page in document)
    finally:
        document.close()
    assert "0.8868" in text
    assert "580,000" in text
