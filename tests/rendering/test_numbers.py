import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.metric import amount_of
from bolewright.rendering.numbers import (
    NumberError,
    digits,
    excess,
    feet_and_inches,
    fmt,
    fmt_both,
    fmt_latex,
    percent,
    ratio,
    used,
)
from bolewright.rendering.printed import read_equation, read_number
from bolewright.rendering.tree import Number, Operation
from bolewright.units import DEGREE, FOOT, INCH, NONE, PERCENT, POUND, POUND_INCH, PSI


@pytest.mark.parametrize(
    ("value", "printed"),
    [
        (0, "0"),
        (-0.0, "0"),
        (12, "12"),
        (1.5, "1.5"),
        (1.49999, "1.500"),
        (2 / 3, "0.6667"),
        (999.96, "1,000"),
        (1234.56, "1,235"),
        (12345.6, "12,346"),
        (1_600_000, "1,600,000"),
        (29_000_000, "29,000,000"),
        (1.23456e9, "1.235e9"),
        (0.00098765, "0.0009877"),
        (0.000012345, "1.234e-5"),
        (-620, "-620"),
        (0.1 + 0.2, "0.3"),
        (3.6e-12, "0"),
        (math.inf, "∞"),
    ],
)
def test_digits(value: float, printed: str) -> None:
    assert digits(value) == printed


@pytest.mark.parametrize(
    ("value", "unit", "printed"),
    [
        (1234.4, PSI, "1,234 psi"),
        (30, DEGREE, "30°"),
        (12.5, PERCENT, "12.5 %"),
        (1.23456e9, POUND_INCH, "1.235 × 10⁹ lb·in"),
        (0.85, NONE, "0.85"),
    ],
)
def test_number_with_unit_as_text(value: float, unit: object, printed: str) -> None:
    assert fmt(value, unit) == printed


@given(
    st.floats(min_value=1e-8, max_value=1e12) | st.floats(min_value=-1e12, max_value=-1e-8),
    st.sampled_from([NONE, POUND, PSI, PERCENT, DEGREE]),
)
def test_what_latex_prints_reads_back_within_its_rounding(value: float, unit: object) -> None:
    (node,) = read_equation(f"x = {fmt_latex(value, unit)}").parts
    sign = 1
    if isinstance(node, Operation):
        assert node.name == "negative"
        sign, (node,) = -1, node.operands
    assert isinstance(node, Number)
    assert abs(sign * node.value - value) <= node.radius * (1 + 1e-9)
    assert node.radius <= 0.5001e-3 * abs(value)  # four figures at least


def test_fewer_than_four_figures_are_exact() -> None:
    assert read_number("1.5").radius < 1e-8
    assert read_number("1.500").radius == pytest.approx(0.0005, rel=1e-5)
    assert read_number("1,500").radius == pytest.approx(0.5, rel=1e-5)


@pytest.mark.parametrize(
    ("value", "printed"),
    [
        (0.946, "0.95"),
        (0.996, "1.00"),
        (1.0, "1.00"),
        (1.0000001, "1.01"),
        (1.004, "1.01"),
        (1.006, "1.01"),
        (1.016, "1.02"),
        (0.2501, "0.26"),
        (0.0, "0.00"),
        (12.3456, "12.35"),
        (100.0, "100.00"),
        (100.001, "over 100"),
        (9_999_999.0, "over 100"),
        (math.inf, "over 100"),
    ],
)
def test_ratio(value: float, printed: str) -> None:
    assert ratio(value) == printed


@given(st.floats(min_value=0, max_value=1e6))
def test_a_failing_ratio_prints_above_one_and_a_passing_one_does_not(value: float) -> None:
    assert (float(ratio(value).removeprefix("over ")) > 1) == (value > 1)


@given(st.floats(min_value=0, max_value=100))
def test_sentence_and_table_say_the_same_hundredths(value: float) -> None:
    assert used(value) == f"{round(float(ratio(value)) * 100)} %"


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (1.0000001, "1 % over what is allowed"),
        (1.8301, "84 % over what is allowed"),
        (4.127, "4.13 times what is allowed"),
        (9_999_999.0, "more than 100 times what is allowed"),
        (math.inf, "more than 100 times what is allowed"),
    ],
)
def test_what_is_over_stays_readable(value: float, words: str) -> None:
    assert excess(value) == words


@pytest.mark.parametrize(
    ("fraction", "printed"), [(0.35, "35 %"), (0.0625, "6.2 %"), (0.03, "3 %"), (1.4, "140 %")]
)
def test_percent(fraction: float, printed: str) -> None:
    assert percent(fraction) == printed


@pytest.mark.parametrize(
    ("value", "unit", "printed"), [(86.5, INCH, "7' 2 1/2\""), (7.21, FOOT, "7' 2 1/2\""), (0, INCH, '0"')]
)
def test_feet_and_inches(value: float, unit: object, printed: str) -> None:
    assert feet_and_inches(value, unit) == printed


@pytest.mark.parametrize("printer", [digits, ratio, percent, fmt_latex])
def test_not_a_number_is_refused(printer: object) -> None:
    with pytest.raises(NumberError, match="not a number"):
        printer(math.nan)


@given(st.floats(0.01, 1e6), st.floats(1e-12, 1e-3))
def test_a_demand_over_its_capacity_is_never_written_like_it(capacity: float, over: float) -> None:
    """A row that fails by a hair shows by how much: never 1 of 1 beside a ratio of 1.01."""
    demand = capacity * (1 + over)
    if demand > capacity:
        first, second = fmt_both(demand, capacity, PSI)
        assert first != second
        assert len(set(amount_of(demand, capacity, POUND, metric=False).split(" of "))) == 2
    same = fmt_both(capacity, capacity, PSI)
    assert same[0] == same[1]
