"""A seeded part of the 5,000 lines that ``python tests/fuzz/worked_lines.py 5000`` tries."""

import pytest
from worked_lines import NAMES, printed, try_lines

from bolewright import Q
from bolewright.rendering.blocks import Equations
from bolewright.worked import WorkedError, grammar, work


def test_no_generated_line_prints_wrong_or_vanishes_and_nearly_all_are_taken() -> None:
    tally = try_lines(400)
    assert not tally.wrong
    assert not tally.vanished
    assert not tally.unnamed
    assert tally.taken >= 0.95 * tally.lines, tally.refused


@pytest.mark.parametrize(
    ("row", "value", "unit"),
    [
        ("x = a = 1,096 psi", 1096, "psi"),
        ("x = 2.5 × 10⁻⁷ lb/in²", 2.5e-7, "lbf/inch**2"),
        ("x = −30°", -30, "degree"),
        ("x = 2.25 kN·m", 2.25, "kN*m"),
    ],
)
def test_the_reader_of_the_fuzz_reads_what_is_printed(row: str, value: float, unit: str) -> None:
    assert printed(row).m_as(unit) == pytest.approx(value)


def test_moment_over_section_modulus_prints_psi_whatever_it_came_in() -> None:
    """1,000 lb ft on a 2x8 (S = 13.14 in3, NDS Supplement 2018 Table 1B): 12,000 / 13.14 = 913.2 psi."""
    for moment in ("1000 lb ft", "12000 lb in", "1 kip ft"):
        worked = work(f'M = Q("{moment}")\nS = Q("13.14 in3")\nf_b = M / S', NAMES)
        rows = [r for b in worked.blocks if isinstance(b, Equations) for r in b.alt.splitlines()]
        assert rows[-1] == "f_b = M / S = 913.2 psi"
        assert worked.values["f_b"].m_as("psi") == pytest.approx(12000 / 13.14)


def test_a_refused_line_is_named_by_number_and_text() -> None:
    with pytest.raises(WorkedError, match=r"^line 3 \(c = a if a else b\): "):
        work('a = Q("3 ft")\nb = 2\nc = a if a else b', {"Q": Q})


def test_the_grammar_fits_one_page() -> None:
    """Letter paper at 66 lines a page."""
    assert len((grammar.__doc__ or "").splitlines()) <= 66
