"""Torque of a beam on tree bolts, shared by the joists that keep it upright: statics by hand.

Springs against rotation along a bar that twists (G J/l of each length): the nearest joist takes most. Shares of one
spring and its neighbours by closed sums, a long even row by its characteristic root, and the lookout's J1 from sizes.
"""

from __future__ import annotations

from functools import cache
from math import sqrt
from types import SimpleNamespace
from typing import Any

import pytest

from bolewright.calculation import Calculation
from bolewright.paths import shipped
from bolewright.platform.checks.upright import run_share, run_torque
from bolewright.platform.file.reading import parse_project
from bolewright.platform.limit_states.check import Check
from bolewright.platform.results.results import find_results
from bolewright.status import Status
from bolewright.timber.sections import parse_section

LOOKOUT = (shipped("calcsheets") / "lookout.toml").read_text(encoding="utf-8")
K_R = 8 * 180_000 * 0.148**1.5 * 9.25**2 / 4  # eight 10d nails (NDS 2018, 11.3.6.1) at the edges of a 2x10
# (2) 2x12, E 1,000,000 psi: G J of both plies, each d t³/3 (1 - 0.63 t/d)
G_J = 1_000_000 / 16 * 2 * 11.25 * 1.5**3 / 3 * (1 - 0.63 * 1.5 / 11.25)


def built(places: list[float]) -> tuple[Any, list[Any]]:
    """A beam, and joists at places along it."""
    beam = SimpleNamespace(mark="B", section=parse_section("2x12").of_plies(2))
    joist = parse_section("2x10")
    return beam, [
        (SimpleNamespace(mark=f"J{i}", section=joist, seats=[SimpleNamespace(below_at=at)]), 0)
        for i, at in enumerate(places)
    ]


def share(places: list[float], bolt: float, which: int, monkeypatch: pytest.MonkeyPatch) -> float:
    """Share of the joist ``which`` of those at ``places`` along a beam with a torque at ``bolt``, by the program."""
    monkeypatch.setattr("bolewright.platform.checks.upright.beam_modulus", lambda beam: 1_000_000.0)
    beam, joists = built(places)
    return run_share(Calculation().run, beam, joists, joists[which], bolt)


@pytest.mark.parametrize(("to_first", "to_second"), [(8.0, 8.0), (4.0, 12.0), (1.0, 15.0)])
def test_between_two_joists_each_side_is_two_springs_in_a_row(
    to_first: float, to_second: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """k of the joist behind G J/l of the beam up to it: 1/(1/k + l/GJ); a torque between goes by these."""
    one, other = (1 / (1 / K_R + l / G_J) for l in (to_first, to_second))
    places = [0.0, to_first + to_second]
    assert share(places, to_first, 0, monkeypatch) == pytest.approx(one / (one + other), rel=2e-3)
    assert (
        share(places, to_first, 1, monkeypatch) == 0.5
    )  # an even share, which a softer connection might get


def test_past_the_last_joist_all_of_it_goes_by_that(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two joists 16 in. apart, the bolt beyond the first: k takes k/(k + 1/(1/k + l/GJ)), however far the bolt is."""
    beyond = 1 / (1 / K_R + 16 / G_J)
    for bolt in (-4.0, -30.0):
        assert share([0.0, 16.0], bolt, 0, monkeypatch) == pytest.approx(K_R / (K_R + beyond), rel=2e-3)


def test_in_a_long_even_row_the_joist_at_the_bolt_takes_by_the_root(monkeypatch: pytest.MonkeyPatch) -> None:
    """Turns fall by r from joist to joist, r + 1/r = 2 + q with q = k l/GJ: sqrt(q/(q + 4)) of it stays at the bolt.

    The next one takes r of that, which is less than an even share here.
    """
    places = [16.0 * i for i in range(41)]
    q = K_R * 16 / G_J
    assert share(places, 320.0, 20, monkeypatch) == pytest.approx(sqrt(q / (q + 4)), rel=2e-3)
    r = (2 + q - sqrt((2 + q) ** 2 - 4)) / 2
    assert share(places, 320.0, 21, monkeypatch) == pytest.approx(
        max(r * sqrt(q / (q + 4)), 1 / 41), rel=2e-3
    )


def test_the_shares_of_all_are_no_less_than_the_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    places = [0.0, 5.0, 21.0, 40.0, 52.0]
    found = [share(places, 24.0, i, monkeypatch) for i in range(5)]
    assert sum(found) >= 1
    assert max(found) == found[2]  # 3 in. away


@cache
def checks(text: str) -> tuple[Check, ...]:
    return tuple(find_results(parse_project(text)).checks)


def row(text: str, part: str, key: str, at: str) -> Check:
    return next(c for c in checks(text) if (c.part, c.key, c.at) == (part, key, at))


def test_the_nearest_joist_of_the_lookout_takes_nearly_all() -> None:
    """J1 is 21.7 in. from T2 along S2, at the row's end; the others 17.33 in. apart: 16 in. over the cosine of its
    slope. G J of (2) 2x12 Southern Pine No.1 in wet service, E 1,600,000 x 0.9 psi.
    """
    found = row(LOOKOUT, "S2", "beam.rotation_joists", "T2")
    G_J = 1_600_000 * 0.9 / 16 * 2 * 11.25 * 1.5**3 / 3 * (1 - 0.63 * 1.5 / 11.25)
    K = K_R
    for _ in range(7):  # from J8 to J1
        K = K_R + 1 / (1 / K + 17.334 / G_J)
    (a,) = (s.arguments for s in found.steps if s.formula.name == "torque_at_joist")
    assert a["s"] == pytest.approx(K_R / K, rel=1e-3)
    assert a["s"] == pytest.approx(0.939, abs=1e-3)
    (couple,) = (s.arguments for s in found.steps if s.formula.name == "joist_edge_force")
    assert found.demand == pytest.approx((a["s"] * a["V"] * 11.25 + couple["R"] * 2.5) / 9.25, rel=1e-6)
    even = (a["V"] / 8 * 11.25 + couple["R"] * 2.5) / 9.25
    assert found.demand > 1.5 * even  # 316 and 202 lb
    assert found.status is Status.PASSES


def test_edges_of_the_nearest_joist_s_connection_are_asked_for_the_same() -> None:
    upright = row(LOOKOUT, "S2", "beam.rotation_joists", "T2")
    assert row(LOOKOUT, "J1", "joist.edge_together", "S2").demand >= upright.demand
    less = LOOKOUT.replace('edge_load = "350 lb"', 'edge_load = "315 lb"')
    assert less != LOOKOUT
    assert row(less, "S2", "beam.rotation_joists", "T2").status is Status.FAILS
    assert row(less, "J1", "joist.edge_together", "S2").status is Status.FAILS


def test_torques_of_two_bolts_of_one_beam_add_up_at_a_joist(monkeypatch: pytest.MonkeyPatch) -> None:
    """Joists 40 in. apart; 300 lb at a bolt 8 in. past the first, 100 lb at one 10 in. before the second.

    Of the first bolt's it takes by two springs in a row each way, of the second's an even share: d (s V_1 + V_2/2).
    """
    monkeypatch.setattr("bolewright.platform.checks.upright.beam_modulus", lambda beam: 1_000_000.0)
    beam, joists = built([0.0, 40.0])
    forces = tuple((SimpleNamespace(at=at), V) for at, V in ((8.0, 300.0), (30.0, 100.0)))
    found = run_torque(Calculation().run, beam, joists, joists[0], SimpleNamespace(forces=forces))
    one, other = (1 / (1 / K_R + l / G_J) for l in (8.0, 32.0))
    assert found == pytest.approx(11.25 * (300 * one / (one + other) + 50), rel=2e-3)
