"""Print-back catches what is printed wrongly: every single corruption of a printed calculation."""

import dataclasses
import re
from collections.abc import Callable

import pytest

from bolewright.rendering.handcalc import RenderedStep, render
from bolewright.rendering.intervals import Interval, cosine, root, sine, tangent
from bolewright.rendering.printback import PrintBackError, check_step
from bolewright.rendering.printed import read_block, read_equation
from bolewright.rendering.tree import ReadingError

SOURCE = '''
@formula("a made-up sum of all shapes")
def shapes(F_c_star: Stress, E_min_p: Stress, l_e: Length, d: Length, c: Ratio, F_b_p: Stress) -> Ratio:
    """All shapes that a line can have."""
    F_cE: Stress = 0.822 * E_min_p / (l_e / d) ** 2  # 3.7.1.5
    alpha_c: Ratio = F_cE / F_c_star - (1 - c)
    beta_c: Ratio = (1 + alpha_c) / (2 * c) + exp(-c) + 16600 * abs(c - 3) ** 1.84
    r: Ratio = minimum(beta_c, 1500.5) * sin(pi / 180 * 30) - log(c)
    F: Stress = F_b_p
    C_P: Ratio = beta_c - sqrt(beta_c**2 - alpha_c / c) + r * F / F_c_star
    return C_P
'''
NUMBERS = {"F_c_star": 1500, "E_min_p": 510_000, "l_e": 86.53, "d": 5.5, "c": 0.8, "F_b_p": -1234.56}


@pytest.fixture
def step(formula_from) -> RenderedStep:
    return render(formula_from(SOURCE), **NUMBERS)


def test_what_is_right_passes(step: RenderedStep) -> None:
    check_step(step)


def _digits_changed(latex: str) -> list[str]:
    """The block with one digit raised by one, for every digit that is no part of a symbol or sub-clause."""
    start = latex.index("(3.7.1.5)")
    clause = range(start, start + 9)
    return [
        latex[: match.start()] + str((int(match[0]) + 1) % 10) + latex[match.end() :]
        for match in re.finditer(r"\d", latex)
        if match.start() not in clause
    ]


def _replaced(latex: str, pattern: str, by: str) -> list[str]:
    return [
        latex[: match.start()] + match.expand(by) + latex[match.end() :]
        for match in re.finditer(pattern, latex)
    ]


CORRUPTIONS = {
    "a digit": _digits_changed,
    "a plus": lambda latex: _replaced(latex, r" \+ ", " - "),
    "a minus": lambda latex: _replaced(latex, r" - ", " + "),
    "a sign lost": lambda latex: _replaced(latex, r"-(?=[\\\d])", ""),
    "a product": lambda latex: _replaced(latex, r"\\cdot", "+"),
    "an exponent": lambda latex: _replaced(latex, r"\^\{ (2|1\.84) \}", "^{ 3 }"),
    "an exponent lost": lambda latex: _replaced(latex, r" ?\^\{ (2|1\.84) \}", ""),
    "an opening bracket lost": lambda latex: _replaced(latex, r"\\left\(", ""),
    "brackets lost": lambda latex: _replaced(latex, r"\\left\( ([^()]*) \\right\)", r"\1"),
    "a fraction turned over": lambda latex: _replaced(
        latex, r"\\frac\{([^{}]*)\}\{([^{}]*)\}", r"\\frac{\2}{\1}"
    ),
    "a root lost": lambda latex: _replaced(latex, r"\\sqrt", ""),
    "another function": lambda latex: (
        _replaced(latex, r"\\min", r"\\max") + _replaced(latex, r"\\sin", r"\\cos")
    ),
    "a unit": lambda latex: _replaced(latex, r"\\text\{psi\}", r"\\text{psf}"),
    "another symbol": lambda latex: _replaced(latex, r"F_\{c\}\^\{\*\}", "F"),
    "a row lost": lambda latex: _replaced(latex, r"(?<=\\\\\n)[^\n]*\\\\\n", ""),
    "a comma moved": lambda latex: _replaced(latex, r"(\d),(\d)", r"\1\2,"),
}


def _caught(check: Callable[[], None]) -> bool:
    try:
        check()
    except PrintBackError as error:
        return str(error).startswith("shapes")
    return False


@pytest.mark.parametrize("name", CORRUPTIONS)
def test_every_corruption_is_caught(step: RenderedStep, name: str) -> None:
    corrupted = CORRUPTIONS[name](step.latex)
    assert corrupted, f"nothing to corrupt: {name}"
    for latex in corrupted:
        assert _caught(lambda latex=latex: check_step(dataclasses.replace(step, latex=latex))), latex


def test_the_message_names_formula_and_line(step: RenderedStep) -> None:
    wrong = dataclasses.replace(step, latex=step.latex.replace("1,500", "1,600", 1))
    with pytest.raises(PrintBackError, match=r"^shapes, line alpha_c: F_\{c\}\^\{\*\} is printed as 1600"):
        check_step(wrong)


def test_symbols_that_print_alike_are_refused(formula_from) -> None:
    record = formula_from(
        '''
@formula("made up")
def alike(F_c_p: Ratio, F_c_prime: Ratio) -> Ratio:
    """Two names, one print."""
    r: Ratio = F_c_p - F_c_prime
    return r
'''
    )
    with pytest.raises(PrintBackError, match="prints two of its symbols"):
        check_step(render(record, F_c_p=2, F_c_prime=1))


@pytest.mark.parametrize(
    "latex",
    [
        r"x = a^{b}^{c}",
        r"x = \frac{a}{b}^{2}",
        r"x = 3\ \text{in}^{2}",
        r"x = 1.2 \times 10^{3}^{2}",
        r"x = 1.2 \times 10^{2.5}",
        r"x = a b",
        r"x = \left( a",
        r"x = \frac{a}",
        r"x = \min\left( a \right)",
        r"x = \sin\left( a ,\ b \right)",
        r"x = 1,000",
        r"x = \text{1,00}",
        r"x = 1.2.3",
        r"x = - - a",
        r"x = a \cdot - b",
        r"x",
        r"x = ",
        r"= a",
        r"x = \unknown\left( a \right)",
    ],
)
def test_what_can_be_read_in_two_ways_is_refused(latex: str) -> None:
    with pytest.raises(ReadingError):
        read_equation(latex)


def test_rows_of_one_equation_are_put_together() -> None:
    rows = [r"x &= a + b", r"&\quad + c", r"&= 6 \quad \text{(2.1)}", "y &= 2"]
    block = r"\begin{aligned} " + r" \\ ".join(rows) + r" \end{aligned}"
    first, second = read_block(block)
    assert first.latex == "x = a + b + c = 6"
    assert second.latex == "y = 2"


@pytest.mark.parametrize(
    ("interval", "low", "high"),
    [
        (Interval(1, 2) - Interval(1, 2), -1, 1),
        (Interval(-2, 3) * Interval(-1, 4), -8, 12),
        (Interval(1, 2) / Interval(-1, 1), float("-inf"), float("inf")),
        (Interval(-2, 1) ** Interval(2, 2), 0, 4),
        (Interval(-2, -1) ** Interval(3, 3), -8, -1),
        (Interval(2, 4) ** Interval(-1, -1), 0.25, 0.5),
        (Interval(0.5, 2) ** Interval(0.5, 1.5), 0.5**1.5, 2**1.5),
        (root(Interval(-0.1, 4)), 0, 2),
        (sine(Interval(1, 2)), 0.8414709848078965, 1),
        (cosine(Interval(3, 4)), -1, -0.6536436208636119),
        (tangent(Interval(1, 2)), float("-inf"), float("inf")),
        (abs(Interval(-3, 2)), 0, 3),
    ],
)
def test_intervals_hold_all_that_can_be(interval: Interval, low: float, high: float) -> None:
    assert interval.low == pytest.approx(low)
    assert interval.high == pytest.approx(high)
