"""The demonstration's package: PDF, HTML and results.json say the same numbers, and two runs give the same bytes."""

import json
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from bolewright.documents.content import SheetError
from bolewright.paths import shipped
from bolewright.rendering import numbers
from bolewright.sheets.lengths import Tape
from bolewright.sheets.opening import results_of
from bolewright.sheets.package import make_package, sheet_files

DEMO = shipped("calcsheets") / "lookout.toml"
SMALL = Path(__file__).parents[1] / "platform" / "arrangements" / "one_tree_one_post.toml"


@pytest.fixture(scope="module")
def package(tmp_path_factory):
    out = tmp_path_factory.mktemp("package")
    make_package(DEMO, out)
    return out


@pytest.fixture(scope="module")
def pages(package):
    """Text of every page: reading it out of the PDF takes longer than most tests."""
    return [page.extract_text() for page in PdfReader(package / "package.pdf").pages]


def _squeezed(text):
    return re.sub(r"\s+", " ", text)


def test_pdf_html_and_json_say_the_same_ratios(package, pages):
    checks = json.loads((package / "results.json").read_text())["checks"]
    html = _squeezed(re.sub(r"<[^>]+>", " ", (package / "package.html").read_text()))
    pdf = _squeezed(" ".join(pages))
    made = [c for c in checks if c["ratio"] is not None]
    assert len(made) > 50
    for check in made:
        ratio = numbers.ratio(check["ratio"])
        state = re.escape(check["limit_state"]).replace("_", "[_ ]*")  # an index is an element of its own
        said = (
            "(?:0\\.00|nothing asked)" if check["ratio"] == 0 else re.escape(ratio)
        )  # without a calculation no ratio
        row = rf"{re.escape(check['part'])} {state}.{{0,60}}?{said}"
        assert re.search(row, html), (check["part"], check["limit_state"], ratio)
        assert ratio in pdf


def test_every_sheet_is_in_the_pdf_with_its_title_block(package, pages):
    for page in pages:
        assert "Bur oak lookout" in page
        assert f"of {len(pages)}" in page
        assert "not an approval" in page
        assert not re.search(r"\\(frac|text|sqrt|cdot)", page)
        assert not re.search(r"\b(lbf|dimensionless|pound_force)\b", page)


def test_no_page_is_empty(pages):
    for page in pages:
        assert len(page) > 400


def test_html_asks_nothing_of_a_network(package):
    html = (package / "package.html").read_text()
    assert not re.search(r"""(src|href)=["']?(https?:)?//""", html)
    assert re.findall(r"<script[^>]*>", html) == ["<script>"], (
        "one script of the page's own, for the view that turns"
    )
    assert not re.search(r"\b(fetch|XMLHttpRequest|import|eval|WebSocket|sendBeacon)\s*\(", html)
    assert "@import" not in html


def test_two_runs_give_the_same_bytes(package, tmp_path):
    make_package(DEMO, tmp_path)
    files = sorted(path.relative_to(package) for path in package.rglob("*") if path.is_file())
    assert len(files) > 10
    for name in files:
        assert (package / name).read_bytes() == (tmp_path / name).read_bytes(), name


def test_the_project_file_travels_in_the_pdf(package):
    attached = PdfReader(package / "package.pdf").attachments
    (content,) = attached["project.toml"]
    assert content == DEMO.read_bytes()


def test_reactions_in_the_json_add_up_to_the_loads(package):
    data = json.loads((package / "results.json").read_text())
    for load in ("D", "S"):
        total = sum(reaction[load] for reaction in data["reactions"].values())
        assert total == pytest.approx(data["loads"][load]["laid_on_lb"], rel=1e-5)


def test_a_users_own_cell_prints_and_a_failing_cell_stops_the_package(tmp_path):
    import nbformat

    sheets = tmp_path / "sheets"
    sheets.mkdir()
    first = sheet_files()[0]
    notebook = nbformat.read(first, as_version=4)
    notebook.cells.append(nbformat.v4.new_markdown_cell("My own note: the gate hangs on **J1**."))
    notebook.cells.append(nbformat.v4.new_code_cell("print('my own number', 6 * 7)"))
    nbformat.write(notebook, sheets / first.name)
    make_package(SMALL, tmp_path / "out", sheets=sheets)
    html = (tmp_path / "out" / "package.html").read_text()
    assert "My own note" in html
    assert "my own number 42" in html

    notebook.cells.append(nbformat.v4.new_code_cell("1 / 0"))
    nbformat.write(notebook, sheets / first.name)
    with pytest.raises(SheetError, match=r"00_summary.*ZeroDivisionError"):
        make_package(SMALL, tmp_path / "second", sheets=sheets)
    assert not list((tmp_path / "second").glob("*"))


def test_a_package_for_a_metric_tape(tmp_path):
    """Setting out, take-off and drawings read millimetres; the outline is 54 in. wide, 1372 mm, and 8 ft up."""
    made = make_package(SMALL, tmp_path, tape=Tape.METRIC)
    plan = (tmp_path / "drawings/01-plan-of-framing.svg").read_text("utf-8")
    assert "1372" in plan
    assert "1 : " in plan
    pages = (tmp_path / "package.html").read_text("utf-8")
    for words in ("2,438 mm", "millimetre"):
        assert words in pages
    assert pages.count("In SI: ") > 50  # under the equations
    assert "40 psf (1.92 kPa)" in pages  # NIST SP 811: 47.88 Pa to the psf
    assert [c.ratio for c in made.results.checks if c.calculation] == [
        c.ratio for c in results_of(SMALL).checks if c.calculation
    ]  # a tape changes no check
