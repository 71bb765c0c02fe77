"""Nails beside a load that hangs on one ply, against two plies joined by nails as springs (NDS 2018, 11.3.6)."""

from __future__ import annotations

import numpy as np
import pytest

SLIP = 180_000 * 0.128**1.5  # lb/in of one 10d nail, wood on wood (NDS 2018, 11.3.6)
E = 1.2e6
Load = tuple[float, float]


def grid(d: float, L: float, rows: int, s: float, loads: list[Load]) -> tuple[np.ndarray, list[np.ndarray]]:
    """Force of each set of nails, and the moments along both plies; both stand on the seats at the ends."""
    h, n = 1.0, round(L) + 1
    EI, dof = E * 1.5 * d**3 / 12, 2 * n
    part = np.array([[12, 6, -12, 6], [6, 4, -6, 2], [-12, -6, 12, -6], [6, 2, -6, 4]]) * EI / h**3
    K, F = np.zeros((2 * dof, 2 * dof)), np.zeros(2 * dof)
    for ply in (0, dof):
        for i in range(n - 1):
            K[ply + 2 * i : ply + 2 * i + 4, ply + 2 * i : ply + 2 * i + 4] += part
    sets = [2 * round(x) for x in np.arange(s / 2, L, s)]
    for i in sets:
        for a, b, sign in ((i, i, 1), (dof + i, dof + i, 1), (i, dof + i, -1), (dof + i, i, -1)):
            K[a, b] += sign * rows * SLIP
    for x, P in loads:
        F[2 * round(x)] += P
    kept = [k for k in range(2 * dof) if k % dof not in (0, dof - 2)]
    u = np.zeros(2 * dof)
    u[kept] = np.linalg.solve(K[np.ix_(kept, kept)], F[kept])
    moments = [
        np.array([-(part @ u[ply + 2 * i : ply + 2 * i + 4])[1] for i in range(n - 1)]) for ply in (0, dof)
    ]
    return np.array([rows * SLIP * (u[i] - u[dof + i]) for i in sets]), moments


@pytest.mark.parametrize(
    ("d", "L", "rows", "s", "x"),
    [
        (11.25, 120.0, 3, 8.0, 60.0),
        (11.25, 120.0, 3, 8.0, 14.0),
        (7.25, 42.0, 2, 16.0, 21.0),
        (7.25, 88.0, 3, 6.0, 30.0),
    ],
)
def test_one_load_asks_less_of_its_nails_than_is_taken(
    d: float, L: float, rows: int, s: float, x: float
) -> None:
    """Half of it over the nails within the beam's depth on both sides: the springs spread it farther than that."""
    forces, _ = grid(d, L, rows, s, [(x, 1000.0)])
    beside = min(x, d) + min(L - x, d)
    assert np.abs(forces).max() <= 1000 / 2 / (beside / s)


def test_a_row_of_joists_asks_an_eighth_more_at_most() -> None:
    """Nails at the seats, where both plies stand, pass on nothing: those next to them a little more."""
    for rows, s in ((3, 8.0), (2, 16.0)):
        forces, moments = grid(11.25, 140.0, rows, s, [(float(x), 500.0) for x in range(12, 140, 16)])
        assert np.abs(forces).max() <= 1.125 * 500 / 2 / (16 / s)
        assert np.abs(moments[0]).max() <= 1.02 * np.abs(moments[0] + moments[1]).max() / 2


def test_the_ply_under_one_load_bends_more_than_its_share() -> None:
    """What the note of the check says: 9 to 16 % with three rows at 6 to 8 in., half again with two rows at 16 in."""
    for d, L, rows, s, x, more in ((11.25, 120.0, 3, 8.0, 60.0, 0.16), (7.25, 42.0, 2, 16.0, 21.0, 0.57)):
        _, (loaded, other) = grid(d, L, rows, s, [(x, 1000.0)])
        share = np.abs(loaded + other).max() / 2
        assert 1.0 < np.abs(loaded).max() / share <= 1 + more
