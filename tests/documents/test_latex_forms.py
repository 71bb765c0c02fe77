"""Long equations are broken without losing a term, and said in plain text."""

import re

import pytest
from sample_sheets import COLUMN_STABILITY, ENDLESS_SUM, GROUP_ACTION, K_3

from bolewright.documents.latex import normalised, rows, spoken, stacked


@pytest.mark.parametrize(
    ("latex", "text"),
    [
        (r"C_P = \frac{1 + \alpha_c}{2 \cdot c}", "C_P = (1 + alpha_c)/(2 × c)"),
        (r"F^{*}_c = \text{1,500}~\mathrm{psi}", "F^*_c = 1,500 psi"),
        (r"\sqrt{\beta_c^{2}} \leq 50 \%", "sqrt(beta_c^2) ≤ 50 %"),
        (r"\theta = 30^{\circ}", "theta = 30°"),
        (r"a &= b \\ &= c", "a = b; = c"),
    ],
)
def test_plain_text_of_an_equation(latex, text):
    assert spoken(latex) == text


def numbers(latex: str) -> list[str]:
    return re.findall(r"[\d,.]+", spoken(latex))


@pytest.mark.parametrize("latex", [COLUMN_STABILITY, K_3, GROUP_ACTION, ENDLESS_SUM])
@pytest.mark.parametrize("width", [None, 120, 60])
def test_breaking_keeps_every_number_in_order(latex, width):
    clean = normalised(latex)
    broken = stacked(clean, width)
    assert numbers(broken) == numbers(clean)
    assert spoken(broken).count("=") == spoken(clean).count("=")


def test_breaking_starts_a_row_at_each_equals_sign():
    assert len(rows(stacked(normalised(COLUMN_STABILITY)))) == 12


def test_rows_keep_to_the_width_where_a_sum_can_be_broken():
    assert max(len(spoken(row)) for row in rows(stacked(ENDLESS_SUM, 60))) <= 60 + len("M = ")


@pytest.mark.parametrize(
    ("given", "clean"),
    [
        (r"a = b \\", "a = b"),
        (r"\begin{aligned} a &= b \\ \end{aligned}", r"\begin{aligned} a &= b \end{aligned}"),
        (r"5{,}600", r"\text{5,600}"),
        (r"1\text{,}234\text{,}567.8", r"\text{1,234,567.8}"),
    ],
)
def test_spelling_that_converts_badly_is_replaced(given, clean):
    assert normalised(given) == clean


def test_a_row_that_goes_on_from_the_one_before_keeps_its_place():
    assert rows(stacked(r"a &= b \\ &\quad + c = 5")) == ["a &= b", r"& \quad + c", "&= 5"]
