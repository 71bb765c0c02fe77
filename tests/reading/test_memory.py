"""What a tenth does to a governing ratio, against closed forms; and print-back of a row that refers to an equation."""

from typing import Any

import pytest

from bolewright.paths import shipped
from bolewright.rendering.again import check_again, number_in
from bolewright.rendering.handcalc import render
from bolewright.rendering.printback import PrintBackError
from bolewright.sheets.brief.memory import doubts
from bolewright.sheets.brief.sensitivity import with_a_tenth
from bolewright.sheets.opening import results_of
from bolewright.timber.section_properties import section_modulus

DEMO = shipped("calcsheets") / "lookout.toml"


@pytest.fixture(scope="module")
def results() -> Any:
    return results_of(DEMO)


def test_a_tenth_less_of_a_reference_value_raises_bending_by_a_ninth(results: Any) -> None:
    """f_b / F'_b with F'_b in proportion to F_b: the ratio is divided by 0.9."""
    check = next(c for c in results.governing if c.key == "joist.bending")
    assert with_a_tenth(check, inputs={"F_b"}) == pytest.approx(check.ratio / 0.9, rel=1e-6)


def test_a_tenth_more_of_the_stress_raises_bending_by_a_tenth(results: Any) -> None:
    check = next(c for c in results.governing if c.key == "joist.bending")
    stress = next(s.formula.name for s in check.steps if s.formula.body.__name__ == "bending_stress")
    assert with_a_tenth(check, formulas={stress}) == pytest.approx(check.ratio * 1.1, rel=1e-6)


def test_what_a_check_does_not_use_does_nothing(results: Any) -> None:
    check = next(c for c in results.governing if c.key == "joist.bending")
    assert with_a_tenth(check, inputs={"no_such_symbol"}) is None


def test_every_note_from_memory_of_a_check_is_in_the_list(results: Any) -> None:
    """No check says "from memory" or "judgement" of something that the brief's list leaves out."""
    listed = " ".join(doubt.what for doubt in doubts(results))
    for check in results.checks:
        for step in check.steps:
            if "memory" in step.formula.confidence or "judgement" in step.formula.confidence:
                assert step.formula.title in listed


def test_a_row_computes_by_the_equation_it_refers_to() -> None:
    first = render(section_modulus, b=1.5, d=5.5).latex
    check_again(first, [("b", "1.5 in"), ("d", "7.25 in"), ("S", "13.14 in³")], "section_modulus")


@pytest.mark.parametrize("printed", ["13.24 in³", "1.314 in³", "−13.14 in³", "none"])
def test_a_row_with_a_false_result_is_refused(printed: Any) -> None:
    first = render(section_modulus, b=1.5, d=5.5).latex
    with pytest.raises(PrintBackError):
        check_again(first, [("b", "1.5 in"), ("d", "7.25 in"), ("S", printed)], "section_modulus")


@pytest.mark.parametrize(
    ("text", "value"), [("1,207 lb·in", 1207.0), ("−0.5 in", -0.5), ("2.5 × 10⁻⁶ rad", 2.5e-6), ("7°", 7.0)]
)
def test_a_printed_number_is_read(text: Any, value: Any) -> None:
    assert number_in(text).value == pytest.approx(value)
