"""The ply that joists hang on bends more than its share with wind too: by statics, on the lookout's long beam.

All joists hang on one face of S1 and S2. A ply on its nails is a beam on springs: under a load P its moment over half
of the beam's is P/2 l/4 in an endless one, l = (4 E I/k)^1/4, k = 2 rows gamma/s for two plies (Hetenyi, from memory;
gamma = 180,000 D^1.5, NDS 2018, 11.3.6).
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import Results, find_results

LOOKOUT = Path(__file__).parents[2] / "calcsheets" / "lookout.toml"
S_PLY = 1.5 * 11.25**2 / 6
NAILED = 'ply_rows = 3\nply_spacing = "6 in"\nsection = "2x12"\nspecies = "Southern Pine"\ngrade = "No.1"\nlateral_tie'
ALONE = NAILED.replace('ply_rows = 3\nply_spacing = "6 in"', "plies_fastened = false")


@lru_cache
def results(nailing: str) -> Results:
    text = LOOKOUT.read_text(encoding="utf-8")
    assert text.count(NAILED) == 1
    return find_results(parse_project(text.replace(NAILED, nailing)))


def row(nailing: str) -> Check:
    return next(c for c in results(nailing).checks if c.key == "beam.bending_lateral" and c.part == "S2")


def bent(check: Check) -> tuple[float, float, float]:
    """Stress flatwise and on edge as printed, and the beam's moment on edge."""
    f_2, f_1 = (float(s.result) for s in check.steps if s.formula.name == "bending_stress")
    M = next(s.arguments["M"] for s in check.steps if s.formula.name == "moment_of_loaded_ply")
    return f_2, f_1, float(M)


def test_the_loaded_ply_has_more_than_half() -> None:
    check = row(NAILED)
    f_2, f_1, M = bent(check)
    joist = next(s.arguments["P"] for s in check.steps if s.formula.name == "ply_point_transfer")
    # J6 spans 105 to 115 in.: with D 10, 0.75 of L 60 and of S 30 psf over 16 in. its end bears at least half of that.
    J6 = results(NAILED).path.layout.member("J6").line.length
    assert joist >= (10 * 0.5 + 0.75 * 60 + 0.75 * 30) / 144 * 16 * J6 / 2
    E, k = 1.6e6 * 0.9, 2 * 3 * 180_000 * 0.128**1.5 / 6
    length = (4 * E * 1.5 * 11.25**3 / 12 / k) ** 0.25
    assert f_1 >= (M / 2 + joist / 2 * length / 4) / S_PLY
    assert (
        f_1 <= (M / 2 + joist / 2 * length / 3) / S_PLY * 1.001
    )  # the bound that the grid of plies is held to
    # No.1 Southern Pine, 2x12: F_b 1,000 psi, E 1.6e6 psi (NDS 2018 Supplement, Table 4B).
    C_L = 0.931  # over 10' 3 1/2", l_e = 1.63 l_u + 3 d (Table 3.3.3)
    assert check.ratio >= (f_1 + f_2) / (1.6 * 1000 * C_L) * 0.999


def test_plies_that_nothing_joins_leave_all_of_it_to_one() -> None:
    f_1, M = bent(row(ALONE))[1:]
    assert f_1 == pytest.approx(M / S_PLY, rel=1e-9)
    assert row(ALONE).ratio > row(NAILED).ratio
