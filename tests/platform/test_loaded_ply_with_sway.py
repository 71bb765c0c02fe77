"""With wind and sway the ply that joists hang on bends more than its even share, as under weight alone: by statics.

Two plies of 2x8 on posts, joists hung on one face. Between them nails give: two beams joined by springs at the nails,
180,000 D^1.5 lb/in each (NDS 2018, 11.3.6), solved here by elements of our own. Under live load on the overhang the
loaded ply has 0.56 of the moment over the post, 1.12 times its even share; without nails all of it.
"""

from __future__ import annotations

from functools import cache
from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest
from cases import FOLDER

from bolewright.platform.analysis.eccentric import OffCentre
from bolewright.platform.checks.plies import hung_near
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results

TEXT = (FOLDER / "b01_walkway.toml").read_text(encoding="utf-8").replace("10 %", "0 %")
TWO = 'mark = "S1"\nlayer = 1\nplies = 2\nsection = "2x8"'
NAILED = TWO + '\nply_rows = 2\nply_spacing = "16 in"'
LOOSE = TWO + "\nplies_fastened = false"
ONE = 'mark = "S1"\nlayer = 1\nplies = 1\nsection = "3x7.25 in"'
LENGTH, POSTS, JOISTS = 140.0, (36.0, 104.0), tuple(8 + 15.5 * i for i in range(9))


@cache
def found(stringer: str) -> dict[str, Check]:
    text = TEXT.replace(TWO, stringer)
    return {c.key: c for c in find_results(parse_project(text)).checks if c.part == "S1"}


def loaded_part(rows: int, spacing: float) -> float:
    """Part of the moment over the first post in the ply that joists load, on its overhang alone."""
    n, EI, k_nails = 280, 1.4e6 * 0.9 * 1.5 * 7.25**3 / 12, rows * 180_000 * 0.128**1.5
    h, nodes = LENGTH / n, n + 1
    one = np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h]])
    half = np.vstack([one, -one[0], [6 * h, 2 * h * h, -6 * h, 4 * h * h]]) * EI / h**3
    K, F = np.zeros((4 * nodes, 4 * nodes)), np.zeros(4 * nodes)
    for ply in (0, 1):
        for e in range(n):
            at = ply * 2 * nodes + 2 * e + np.arange(4)
            K[np.ix_(at, at)] += half
        for x in POSTS:
            K[ply * 2 * nodes + 2 * round(x / h), ply * 2 * nodes + 2 * round(x / h)] += 1e12
    for x in np.arange(spacing / 4, LENGTH, spacing):
        a = 2 * round(x / h)
        b = 2 * nodes + a
        K[[a, b], [a, b]] += k_nails
        K[[a, b], [b, a]] -= k_nails
    for x in JOISTS:
        if x < POSTS[0]:
            F[2 * round(x / h)] -= 100.0
    u = np.linalg.solve(K, F)
    e = round(POSTS[0] / h) - 1
    M = [(half @ u[ply * 2 * nodes + 2 * e + np.arange(4)])[3] for ply in (0, 1)]
    assert sum(M) == pytest.approx(-sum(100 * (POSTS[0] - x) for x in JOISTS if x < POSTS[0]), rel=1e-3)
    return float(M[0] / sum(M))


def test_nails_leave_more_than_half_on_the_loaded_ply() -> None:
    assert 0.55 < loaded_part(2, 16.0) < 0.60
    assert loaded_part(3, 6.0) < loaded_part(2, 16.0)


def test_one_timber_has_no_loaded_ply() -> None:
    assert "beam.bending_of_ply" not in found(ONE)


def test_the_row_with_sway_has_the_loaded_ply() -> None:
    """No less than the even share times what the nails leave; of one timber of 3 in. every part is the share."""
    even = found(ONE)["beam.bending_lateral"].ratio
    assert found(NAILED)["beam.bending_lateral"].ratio >= 2 * loaded_part(2, 16.0) * even * 0.99


def test_plies_without_nails_leave_all_of_it_on_the_one() -> None:
    even = found(ONE)["beam.bending_lateral"].ratio
    assert found(LOOSE)["beam.bending_lateral"].ratio >= 2 * even * 0.99


@pytest.mark.parametrize("stringer", [NAILED, LOOSE])
def test_fewer_nails_never_help(stringer: str) -> None:
    tight = found(TWO + '\nply_rows = 3\nply_spacing = "4 in"')["beam.bending_lateral"].ratio
    assert found(stringer)["beam.bending_lateral"].ratio >= tight * (1 - 1e-9)


def test_in_every_case_the_face_with_more_hung_near_a_place_loads_its_ply() -> None:
    """Loads at the bolts, and one 12 in. beside them of which half counts (l_s 24 in.), two cases each (live, snow).

    One face has 400 and 100 lb, the other 100 + 400/2 = 300 lb in both: the worse ply has 400, then 300.
    """

    def hung(mark: str, at: float, e: float) -> OffCentre:
        return cast(OffCentre, SimpleNamespace(member=SimpleNamespace(mark=mark), at=at, e=e))

    loads = [hung("J1", 50.0, 1.5), hung("J2", 50.0, -1.5), hung("J3", 62.0, -1.5)]
    pounds = {"J1": [400.0, 100.0], "J2": [100.0, 100.0], "J3": [400.0, 400.0]}
    found, said = hung_near(loads, 50.0, 24.0, lambda load: np.array([pounds[load.member.mark]]))
    assert found == pytest.approx(np.array([[400.0, 300.0]]))
    assert said.startswith("1.00 of J1, or on the other face 1.00 of J2")
