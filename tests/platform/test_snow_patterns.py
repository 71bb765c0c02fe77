"""Snow in full and in half over spans, cantilevers counted as spans, beside snow everywhere alike.

ASCE 7-16, 7.5 (partial loading), written for roofs: by analogy. The numbers are statics by hand.
"""

from __future__ import annotations

import numpy as np
import pytest
from case_files import case_path

from bolewright.platform.loads.combine import Case, envelope, strength_cases, worst_loads

# b02: joists on beams at x = 10 and 90 in., deck from 0 to 120 in., 132 in. wide, 25 psf of snow
W = 25 / 144 * 132


def on_first_beam(inside: float, past: float) -> float:
    """Reaction of the beam at 10 in., by moments about that at 90 in.: deck inside and past the latter loaded so."""
    return W * (inside * 90 * 45 - past * 30 * 15) / 80


def test_reactions_of_a_beam_with_an_overhang_beyond_the_other() -> None:
    path = case_path("b02_guard16")
    both = path.reactions["P1"] + path.reactions["P2"]
    found = envelope(path, both[None, :])
    assert found.S[0] == pytest.approx(on_first_beam(1.0, 1.0), rel=1e-6)
    assert found.S_most[0] == pytest.approx(on_first_beam(1.0, 0.5), rel=1e-6)
    assert found.S_least[0] == pytest.approx(on_first_beam(0.5, 1.0), rel=1e-6)


def test_moment_in_the_span_of_a_joist_with_overhangs() -> None:
    # J4 at 16 in. of deck: w l^2/8 in the span at full load, less half of what the overhangs take off at mid-span
    path = case_path("b02_guard16")
    joist = path.effects["J4"]
    middle = int(np.abs(joist.stations - 50.0).argmin())
    assert joist.stations[middle] == pytest.approx(50.0)
    found = envelope(path, joist.moment)
    w = 25 / 144 * 16
    ends = w * (10**2 + 30**2) / 2 / 2  # mean of the moments over the two beams, at full snow
    assert found.S_most[middle] == pytest.approx(w * 80**2 / 8 - 0.5 * ends, rel=1e-3)
    assert found.S_least[middle] == pytest.approx(0.5 * w * 80**2 / 8 - ends, rel=1e-2)


def test_the_loads_behind_a_check_are_those_of_the_envelope() -> None:
    path = case_path("c01_nine_on")
    row = path.effects["C2"].moment[3]
    snow: Case = next(case for case in strength_cases() if case.S == 1.0 and not case.L)
    found = envelope(path, row[None, :])
    assert row @ worst_loads(path, snow, row) == pytest.approx(found.most((snow,))[0, 0], rel=1e-9)
    assert found.S_most[0] >= found.S[0] >= found.S_least[0]
