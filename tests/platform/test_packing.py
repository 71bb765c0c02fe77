"""Bolts of a lapped knee that pass through packing: a gap that they cross (AWC TR12, general dowel equations)."""

from __future__ import annotations

import pytest
from arrangement_files import DEMO, file_of

from bolewright.fasteners.general_dowel import general_dowel
from bolewright.fasteners.yield_limit import double_shear
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results

TEXT = file_of(DEMO).read_text(encoding="utf-8")


def end(text: str, onto: str) -> Check:
    found = find_results(parse_project(text)).checks
    return next(c for c in found if c.part == "K1" and c.limit_state == f"brace connection at the {onto}")


SPRING = "support_lateral_force"


def test_the_thinner_timber_is_packed_by_half_the_difference() -> None:
    """Post 5 1/2 in., beam of three plies 4 1/2 in.: 1/2 in. of packing each side of the beam, none at the post."""
    # A spring's g is the movement of its trunk.
    own, at_post = (
        [s.arguments["g"] for s in end(TEXT, where).steps if "g" in s.arguments and s.formula.name != SPRING]
        for where in ("beam", "post")
    )
    assert own
    assert set(own) == {0.5}
    assert not at_post


def test_packing_costs_strength() -> None:
    """1/2 in. bolt, 3 in. between two 1 1/2 in. plies of G 0.55 along the grain: by TR12 the gap costs about half."""
    common = {"D": 0.5, "l_m": 3.0, "l_s": 1.5, "F_em": 6150.0, "F_es": 6150.0, "F_yb": 45000.0}
    tight = double_shear(**common).Z
    closed, packed = (general_dowel(gap=gap, double=True, **common).Z for gap in (0.0, 1.25))
    assert closed == pytest.approx(tight)
    assert 0.3 * tight < packed < 0.7 * tight


def test_it_is_said_on_the_sheet() -> None:
    assert any("counts as a gap" in note for note in end(TEXT, "beam").notes)
    assert not any("counts as a gap" in note for note in end(TEXT, "post").notes)
