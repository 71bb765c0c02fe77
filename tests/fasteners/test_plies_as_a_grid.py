"""Nails beside a load that hangs on one ply, against two plies joined by nails as springs (NDS 2018, 11.3.6)."""

from __future__ import annotations

import numpy as np
import pytest

from bolewright.fasteners.loaded_ply import (
    moment_till_nailed_end,
    moment_till_nailed_span,
    slip_length,
    slip_stiffness,
)

SLIP = 180_000 * 0.128**1.5  # lb/in of one 10d nail, wood on wood (NDS 2018, 11.3.6)
E = 1.2e6
Load = tuple[float, float]


def grid(
    d: float,
    L: float,
    rows: int,
    s: float,
    loads: list[Load],
    seats: tuple[float, ...] = (),
    nail: float | None = None,
) -> tuple[np.ndarray, list[np.ndarray]]:
    """Force of each set of nails, and the moments along both plies, sagging positive; both stand on the seats (at the
    ends unless given), the first nails ``nail`` from the end (half their spacing).
    """
    h, n = 1.0, round(L) + 1
    EI, dof = E * 1.5 * d**3 / 12, 2 * n
    part = np.array([[12, 6, -12, 6], [6, 4, -6, 2], [-12, -6, 12, -6], [6, 2, -6, 4]]) * EI / h**3
    K, F = np.zeros((2 * dof, 2 * dof)), np.zeros(2 * dof)
    for ply in (0, dof):
        for i in range(n - 1):
            K[ply + 2 * i : ply + 2 * i + 4, ply + 2 * i : ply + 2 * i + 4] += part
    sets = [2 * round(x) for x in np.arange(s / 2 if nail is None else nail, L, s)]
    for i in sets:
        for a, b, sign in ((i, i, 1), (dof + i, dof + i, 1), (i, dof + i, -1), (dof + i, i, -1)):
            K[a, b] += sign * rows * SLIP
    for x, P in loads:
        F[2 * round(x)] += P
    stands = {2 * round(x) for x in seats or (0.0, L)}
    kept = [k for k in range(2 * dof) if k % dof not in stands]
    u = np.zeros(2 * dof)
    u[kept] = np.linalg.solve(K[np.ix_(kept, kept)], F[kept])
    moments = [
        np.array([(part @ u[ply + 2 * i : ply + 2 * i + 4])[1] for i in range(n - 1)]) for ply in (0, dof)
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
    """By 16 % with three rows at 8 in. in a long beam, by more than half in a short one with two rows at 16 in."""
    for d, L, rows, s, x, less, more in (
        (11.25, 120.0, 3, 8.0, 60.0, 0.14, 0.17),
        (7.25, 42.0, 2, 16.0, 21.0, 0.5, 0.57),
    ):
        _, (loaded, other) = grid(d, L, rows, s, [(x, 1000.0)])
        share = np.abs(loaded + other).max() / 2
        assert 1 + less < np.abs(loaded).max() / share <= 1 + more


def taken(d: float, rows: int, s: float, loads: list[Load], *, sags: bool) -> float:
    """What the check adds to the loaded ply's share: k of two plies is twice that of the nails, l = (4 E I/k)^1/4."""
    k = 2 * rows * SLIP / s
    length = (4 * E * 1.5 * d**3 / 12 / k) ** 0.25
    worst = max(sum(P * max(0.0, 1 - abs(x - beside) / length) for beside, P in loads) for x, _ in loads)
    by_check = slip_length(E, 1.5 * d**3 / 12, slip_stiffness(float(rows), SLIP, s, 2.0))
    assert by_check == pytest.approx(length)
    if sags:
        assert moment_till_nailed_span(worst / 2, length) == pytest.approx(worst / 2 * length / 3)
        return worst / 2 * length / 3
    assert moment_till_nailed_end(worst / 2, length, s) == pytest.approx(worst / 2 * (length + s) / 2)
    return worst / 2 * (length + s) / 2


def test_the_loaded_ply_never_bends_more_than_the_check_takes() -> None:
    """Seats at the ends, a third between them, an overhang; one load and rows of loads; any place of the nails."""
    rng = np.random.default_rng(7)
    closest = {True: 0.0, False: 0.0}
    for _ in range(120):
        d, rows, s = (
            rng.choice([5.5, 7.25, 9.25, 11.25]),
            int(rng.choice([2, 3, 4])),
            float(rng.choice([4, 6, 8, 12, 16])),
        )
        L = float(rng.integers(60, 150))
        seats = [
            (0.0, L),
            (0.0, float(round(L * rng.uniform(0.3, 0.7))), L),
            (float(round(L / 4)), float(round(L * 0.8))),
        ]
        apart, first = int(rng.integers(2, 24)), int(rng.integers(2, L - 3))
        places = list(range(first, round(L) + 1, apart))[: int(rng.integers(1, 7))]
        loads = [(float(x), 1000.0) for x in places]
        at = seats[int(rng.integers(3))]
        _, (loaded, other) = grid(d, L, rows, s, loads, seats=at, nail=float(rng.integers(1, s)))
        for sags, sign in ((True, 1), (False, -1)):
            share = max(0.0, float((sign * (loaded + other)).max() / 2))
            more = max(0.0, float((sign * loaded).max())) - share
            if share > 1:
                closest[sags] = max(closest[sags], more / taken(d, rows, s, loads, sags=sags))
    assert 0.6 < closest[True] <= 1
    assert 0.6 < closest[False] <= 1
