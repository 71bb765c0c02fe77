"""A worker of 300 lb at a joist's tip before the boards are on: its far seat lifts, by lever rule and three moments.

Only the joist's own weight holds it down, six tenths of it (common practice), or all where it lifts: a wet 2x8 of
Southern Pine, 38.6 pcf (NDS Supplement 2018, 3.1.3), 0.243 lb/in.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from arrangement_files import file_of

from bolewright.paths import shipped
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status

WEIGHT = 62.4 * 0.55 / (1 + 0.009 * 0.55 * 28) * 1.28 / 1728 * 1.5 * 7.25  # lb/in


@cache
def uplifts(name: str) -> dict[tuple[str, str], Check]:
    folder = shipped("calcsheets") / f"{name}.toml"
    text = (
        folder.read_text(encoding="utf-8") if folder.exists() else file_of(name).read_text(encoding="utf-8")
    )
    found = find_results(parse_project(text)).checks
    return {(c.part, c.at): c for c in found if c.key == "joist.stage_uplift"}


def lift(length: float, near: float, far: float) -> float:
    """A worker at the far end lifts the near one of two seats (lb); both places from the other end (in)."""
    span = far - near
    return 300 * (length - far) / span - 0.6 * WEIGHT * length * (far - length / 2) / span


def test_resting_on_two_beams_and_open_without_a_tie() -> None:
    """86 in. long, seats 6 and 84 1/2 in. from one end: a worker there lifts the other by 300 x 6/78.5 less 6 lb."""
    check = uplifts("parallel_bolts")["J1", "C1"]
    asked = lift(86.0, 86 - 84.5, 86 - 6.0)
    assert asked == pytest.approx(22.93 - 0.6 * 9.84, abs=0.01)
    assert check.status is Status.NOT_CHECKED
    assert f"by {asked:.0f} lb" in check.sentence


def test_on_two_beams_with_a_long_end() -> None:
    """One oak, J1: 88 in. on two beams 42 in. apart, 23 in. past either: 300 x 23/42 less six tenths of 10.7 lb."""
    check = uplifts("one_oak")["J1", "C2"]
    assert check.combination == "0.6D + one worker"
    assert check.demand == pytest.approx(lift(88.0, 23.0, 65.0), rel=1e-5)


def test_hung_at_one_end() -> None:
    """One oak, J3: 23 3/4 in. long, its hanger at one end, the beam 1 1/2 in. before the other: 18.6 lb."""
    check = uplifts("one_oak")["J3", "H2"]
    assert check.demand == pytest.approx(lift(23.75, 0.0, 22.25), rel=1e-5)
    assert check.demand == pytest.approx(18.61, abs=0.01)


def test_four_seats_of_which_two_close_ones_pry() -> None:
    """Hickory perch, J4: 102 in. on seats at 24 1/8, 34, 68, 77 7/8 in.; a worker at the tip, 24 1/8 in. past the last.

    Clapeyron's three moments: M_4 = -300 x 24 1/8, M_1 = 0 (and what the joist's own ends weigh). The last but one seat
    is drawn up by 867 lb: 1.2 times what two seats 9 7/8 in. apart would, since the span beside it holds on. All of the
    joist's weight counts, for there it lifts that seat, too.
    """
    half, inner, length = 17.0, 26.875060949052117, 102.00007817589577  # seats from the middle, both ways
    seats = length / 2 + np.array([-inner, -half, half, inner])
    past, spans = length - seats[-1], np.diff(seats)
    ends = -WEIGHT * past**2 / 2
    M_1, M_4 = ends, ends - 300 * past
    load = WEIGHT * spans**3 / 4
    # 2 (l_1 + l_2) M_2 + l_2 M_3 = -l_1 M_1 - w (l_1^3 + l_2^3)/4, and the same about the third seat
    A = [[2 * (spans[0] + spans[1]), spans[1]], [spans[1], 2 * (spans[1] + spans[2])]]
    b = [-spans[0] * M_1 - load[0] - load[1], -spans[2] * M_4 - load[1] - load[2]]
    M_2, M_3 = np.linalg.solve(A, b)
    R_3 = WEIGHT * (spans[1] + spans[2]) / 2 + (M_2 - M_3) / spans[1] + (M_4 - M_3) / spans[2]
    check = uplifts("hickory_perch")["J4", "S1"]  # or at S2, by the worker at the other tip
    assert check.combination == "D + one worker"
    assert check.demand == pytest.approx(-R_3, rel=1e-4)
    assert 1.15 * 300 * past / spans[2] < -R_3
