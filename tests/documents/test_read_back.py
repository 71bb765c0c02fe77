"""What the reader meets says what was computed: a form that says otherwise stops the package.

Each test falsifies one form after our own renderer is done, as a fault of a converter or a template would, and asks
for the refusal. The LaTeX itself is held by the print-back of the formulas (tests/rendering).
"""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import nbformat
import pytest

from bolewright.documents import convert as converting
from bolewright.documents import package, pdf
from bolewright.documents.content import PackageError, SheetContent, SheetError, TitleBlock
from bolewright.documents.forms import latex_row, mathml_row, rows_of_numerals, typst_row
from bolewright.documents.readback import check_paper, check_spoken
from bolewright.paths import shipped
from bolewright.rendering.blocks import Equations
from bolewright.rendering.handcalc import render
from bolewright.sheets.package import make_package
from bolewright.timber.columns import column_stability_factor, critical_buckling_compression

BUCKLING = render(critical_buckling_compression, E_min_p=440000.0, l_e=90.0, d=5.5).block()
STABILITY = render(column_stability_factor, F_cE=1412.25, F_c_star=1495.0, c=0.8).block()
SHEET = SheetContent("Posts", "08", (BUCKLING, STABILITY))
TITLE = TitleBlock(
    project="A lookout",
    site="Oak wood",
    revision="A",
    date=date(2026, 1, 31),
    prepared_by="a builder",
    checked_by="",
    fingerprint="0123",
)

Falsify = Callable[[str, str], tuple[str, str]]


def _written_falsely(monkeypatch: pytest.MonkeyPatch, falsify: Falsify) -> None:
    true = converting._written

    def false(blocks: list[object]) -> tuple[list[str], list[str]]:
        typst, html = true(blocks)
        pairs = [falsify(t, h) for t, h in zip(typst, html, strict=True)]
        return [t for t, _ in pairs], [h for _, h in pairs]

    monkeypatch.setattr(converting, "_written", false)


def test_true_forms_pass() -> None:
    assert len(converting.convert([SHEET]).displays) == 2


@pytest.mark.parametrize(
    ("falsify", "form"),
    [
        (lambda t, h: (t.replace("dot.op", "+"), h), "paper's"),
        (lambda t, h: (t.replace("0.822", "0.282"), h), "paper's"),
        (lambda t, h: (t.replace("beta_c -", "beta_c +"), h), "paper's"),
        (lambda t, h: (t.replace("sqrt", ""), h), "paper's"),
        (lambda t, h: (t.replace("frac(1 + alpha_c, 2", "frac(2, 1 + alpha_c"), h), "paper's"),
        (lambda t, h: (t.replace('upright("psi")', 'upright("psf")'), h), "paper's"),
        (lambda t, h: (t.replace("beta_c^2", "beta_c^3"), h), "paper's"),
        (lambda t, h: (t, h.replace("<mo>⋅</mo>", "<mo>+</mo>")), "page's"),
        (lambda t, h: (t, h.replace("<mn>0.822</mn>", "<mn>0.282</mn>")), "page's"),
        (lambda t, h: (t, h.replace("<msqrt>", "<mrow>").replace("</msqrt>", "</mrow>")), "page's"),
        (lambda t, h: (t, h.replace("<mfrac>", "<msup>").replace("</mfrac>", "</msup>")), "page's"),
        (lambda t, h: (t, h.replace(">psi<", ">psf<")), "page's"),
    ],
)
def test_a_false_form_stops_the_conversion(
    monkeypatch: pytest.MonkeyPatch, falsify: Falsify, form: str
) -> None:
    _written_falsely(monkeypatch, falsify)
    with pytest.raises(PackageError, match=f"the {form} form of an equation"):
        converting.convert([SHEET])


@pytest.mark.parametrize(
    ("true", "false"),
    [
        ("0.822 * E_min_p", "0.822 + E_min_p"),
        ("0.822", "0.282"),
        ("l_e / d", "d / l_e"),
        ("** 2", "** 3"),
        ("psi", "psf"),
        ("1,351", "1,531"),
        ("E_min_p", "E_p"),
        ("F_cE =", "F_c ="),
    ],
)
def test_a_false_plain_text_is_refused(true: str, false: str) -> None:
    assert true in BUCKLING.alt
    check_spoken(BUCKLING)
    with pytest.raises(PackageError, match="plain text of"):
        check_spoken(replace(BUCKLING, alt=BUCKLING.alt.replace(true, false, 1)))


def test_a_false_plain_text_stops_the_conversion() -> None:
    """What a screen reader speaks is read on the way to the package too, not only where it is asked for."""
    false = replace(BUCKLING, alt=BUCKLING.alt.replace("1,351", "1,531", 1))
    with pytest.raises(PackageError, match="plain text of"):
        converting.convert([replace(SHEET, items=(false, STABILITY))])


FALSE_PRINTS = {
    "operator": r'true(rows).replace(r"\cdot", "+", 1)',
    "digits": r'true(rows).replace("psi", "psf", 1)',
}


@pytest.mark.parametrize("how", FALSE_PRINTS)
def test_a_false_print_of_a_formula_stops_the_package(tmp_path: Path, how: str) -> None:
    falsify = (
        "from bolewright.rendering import tex\ntrue = tex.aligned\n"
        f"tex.aligned = lambda rows: {FALSE_PRINTS[how]}"
    )
    cells = [
        nbformat.v4.new_markdown_cell("# Decking"),
        nbformat.v4.new_code_cell('project = "lookout.toml"', metadata={"tags": ["parameters"]}),
        nbformat.v4.new_code_cell(falsify),
        nbformat.v4.new_code_cell(
            "from bolewright.sheets import open_sheet\nopen_sheet(project, 'decking').calculation()"
        ),
    ]
    sheets = tmp_path / "sheets"
    sheets.mkdir()
    nbformat.write(nbformat.v4.new_notebook(cells=cells), sheets / "03_decking.ipynb")
    out = tmp_path / "out"
    with pytest.raises(SheetError, match=r"03_decking.ipynb failed .*Print"):
        make_package(shipped("calcsheets") / "lookout.toml", out, sheets=sheets)
    assert not out.exists() or not any(out.iterdir())


def _paper(blocks: tuple[Equations, ...]) -> bytes:
    sheets = [SheetContent("Posts", "08", blocks)]
    return pdf.pdf_of(sheets, converting.convert(sheets), TITLE, None)


def test_the_numbers_in_the_text_of_the_pdf_are_those_computed() -> None:
    paper = _paper((BUCKLING, STABILITY))
    check_paper(paper, [BUCKLING, STABILITY])
    with pytest.raises(PackageError, match=r"text of .* does not hold"):
        check_paper(paper, [STABILITY, BUCKLING])  # not in this order
    other = render(critical_buckling_compression, E_min_p=440000.0, l_e=96.0, d=5.5).block()
    with pytest.raises(PackageError, match=r"text of .* does not hold"):
        check_paper(paper, [other])


def test_a_false_paper_stops_the_package_and_writes_nothing(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    other = _paper((STABILITY,))
    monkeypatch.setattr(package, "pdf_of", lambda *_: other)
    with pytest.raises(PackageError, match="does not hold"):
        package.build([SHEET], TITLE, None, tmp_path / "out")
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("latex", "typst", "mathml"),
    [
        (
            r"F'_{b} &= \frac{ \text{1,200}\ \text{psi} }{ 2 }",
            r"$ F_b^" + "'" + r' & = frac(upright("1,200") med upright("psi"), 2) $',
            "<math><msubsup><mi>F</mi><mi>b</mi><mo>′</mo></msubsup><mo>=</mo><mfrac><mrow><mtext>1,200</mtext>"
            "<mspace/><mtext>psi</mtext></mrow><mn>2</mn></mfrac></math>",
        ),
        (
            r"a &= \left( b + 1 \right) ^{ 2 } / c",
            "$ a & = (b + 1)^2 \\/ c $",
            "<math><mi>a</mi><mo>=</mo><mo>(</mo><mi>b</mi><mo>+</mo><mn>1</mn><msup><mo>)</mo><mn>2</mn></msup>"
            "<mo>/</mo><mi>c</mi></math>",
        ),
    ],
)
def test_the_same_equation_reads_alike_in_all_forms(latex: str, typst: str, mathml: str) -> None:
    assert latex_row(latex) == typst_row(typst) == mathml_row(mathml)


def test_numbers_of_a_row_stand_as_paper_has_them() -> None:
    assert rows_of_numerals(r"V &= V_{1}^{ 2 } \cdot \text{1,200} \\ W &= 0.5") == [
        ["2", "1", "1,200"],
        ["0.5"],
    ]
