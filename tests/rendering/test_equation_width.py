"""Equations fit the sheet: the estimate that breaks them is held against the width the PDF's program measures."""

import json

import pypandoc
import pytest
import typst

from bolewright.rendering import tex
from bolewright.rendering.handcalc import render

LATEX = [
    r"F_{\text{cE}} = \frac{0.822 \cdot \text{510,000}\ \text{psi}}{\left( \frac{86.5\ \text{in}}{5.5} \right)^{2}}",
    r"C_{P} = K_{f} \cdot \left( \beta_{c} - \sqrt{ \beta_{c}^{2} - \frac{\alpha_{c}}{c} } \right) = 0.3",
    r"F'_{c\perp} + F_{b}^{*} - E'_{\text{min}} + \phi M_{n} - F_{e\,\theta} = \text{12,345}\ \text{lb·in}",
    r"\min\left( 1500.5\ \text{psi} ,\ \left| a - b \right| \right) = \exp\left( -x \right) \cdot \ln\left( y \right)",
    r"\text{ratio} = 1.234 \times 10^{-5}\ \text{in³} \cdot \sin\left( \frac{\pi}{180} \cdot 30\ \text{deg} \right)",
    r"\beta = \frac{180}{\pi} \cdot \arctan\left( \left| t \right| \right) = \text{16.46}\ \text{deg}",
    r"M = w \cdot W + m \cdot H - \Omega \cdot \Delta_{e} \quad \text{(Table 4.3.1, note 2: wide members)}",
    r"A_{1} + A_{2} + B + C + D + E + G + I + J + K + L + N + O + P + Q + R + S + T + U + V + X + Y + Z",
]


@pytest.fixture(scope="module")
def measured(tmp_path_factory: pytest.TempPathFactory) -> list[float]:
    fenced = "\n\n".join(f"$${latex}$$" for latex in LATEX)
    maths = pypandoc.convert_text(fenced, "typst", format="markdown", extra_args=["--wrap=none"])
    source = "#set text(size: 10pt)\n" + "\n".join(
        f"#context [#metadata(measure([{equation}]).width.pt()) <width>]"
        for equation in maths.strip().split("\n\n")
    )
    path = tmp_path_factory.mktemp("width") / "measure.typ"
    path.write_text(source, encoding="utf-8")
    found = json.loads(typst.query(str(path), "<width>", field="value", ignore_system_fonts=True))
    assert len(found) == len(LATEX)
    return [width / 10 for width in found]


@pytest.mark.parametrize("index", range(len(LATEX)))
def test_estimate_is_not_below_the_measured_width(measured: list[float], index: int) -> None:
    slack = (tex.TEXT_WIDTH - tex.ROOM) / tex.TEXT_WIDTH
    assert measured[index] * (1 - slack) <= tex.width(LATEX[index]) <= 1.35 * measured[index]


def test_a_line_that_needs_its_row_breaks_before_an_operator(formula_from) -> None:
    terms = " + ".join(["a * b / (a + b)"] * 9)
    step = render(
        formula_from(f'''
@formula("made up")
def long(a: Moment, b: Moment) -> Moment:
    """A long sum."""
    M: Moment = {terms}
    return M
'''),
        a=123_456.7,
        b=765_432.1,
    )
    rows = tex.rows_of(step.latex)
    assert len(rows) > 3
    for row in rows[1:]:
        assert row.startswith((r"&\quad +", "&="))
    assert all(tex.width(row) <= tex.ROOM for row in rows)
