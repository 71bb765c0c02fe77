"""The load on a tree bolt under a knee-braced beam: a knee with slack takes none of it, by the lever rule.

Two stringers from the bolts at y = 0 to a post at y = 156 in., the deck a trapezoid 54 in. wide at y = 22 and 16 in. at
y = 142 between them. Half of a load on it, by the lever (156 - y)/156, comes to each bolt.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
from arrangement_files import file_of

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results

Y = np.linspace(22, 142, 12_001)
WIDE = 54 - 38 * (Y - 22) / 120
AREA = float((WIDE * (156 - Y) / 156).mean() * 120) / 144 / 2


@cache
def found() -> dict[str, Check]:
    text = file_of("one_tree_one_post_knee").read_text(encoding="utf-8")
    return {c.key: c for c in find_results(parse_project(text)).checks if c.part == "T1"}


def by_the_lever(L: float, S: float) -> float:
    """Dead load, six tenths of which is the least that weight leaves on the bolt, and shares of 40 and 25 psf."""
    return found()["tree_bolt.uplift"].capacity / 0.6 + (40 * L + 25 * S) * AREA


def test_weight_alone_by_the_lever() -> None:
    assert pytest.approx(7.93, abs=0.01) == AREA  # sq ft
    assert found()["tree_bolt.rated"].demand == pytest.approx(by_the_lever(0.75, 0.75), rel=0.005)


def test_with_sway_the_bolt_has_all_that_the_knee_may_leave_it() -> None:
    """A tight knee 30 in. from the post props the beam and lightens the bolt; with slack it does not."""
    check = found()["tree_bolt.rated_lateral"]
    assert check.combination == "D + 0.75L + 0.75(0.6W) + 0.75S"
    load = next(s.arguments for s in check.steps if s.formula.name == "load_with_sway")
    assert float(load["R"]) == pytest.approx(by_the_lever(0.75, 0.75), rel=0.005)
