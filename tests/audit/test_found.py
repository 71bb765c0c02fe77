"""What the audit found, each held by statics of its own."""

from __future__ import annotations

import numpy as np
import pytest

from audit.program import rows_of, site_of
from bolewright.platform.loads.combine import Envelope, uplift_cases


def test_dead_load_that_lifts_a_seat_counts_in_full() -> None:
    """A joist over three beams: where D itself lifts a seat, D + one person lifts more than 0.6D + one person."""
    site = site_of("without_guard/hickory_perch")
    seat = next(s for s in site.members["J4"].seats if s.below == "S2")
    D, P = float(seat.reaction.D[0]), float(seat.reaction.P[1][0])
    assert D < 0
    assert P < 0
    row = next(
        r
        for r in rows_of("without_guard/hickory_perch")
        if (r.key, r.part, r.at) == ("joist.uplift", "J4", "S2")
    )
    assert row.demand == pytest.approx(-(D + P), rel=1e-4)
    assert row.demand > -(0.6 * D + P)


def test_dead_load_that_lifts_counts_in_full_beside_a_push_on_a_guard() -> None:
    """Lifted 100 lb by D, 40 by L and 200 by a guard: 340 lb in all, not 0.6 x 100 + 240 = 300."""
    up = np.array([-100.0]), np.array([-40.0]), np.array([-200.0])
    none = np.zeros(1)
    lifted = Envelope(up[0], up[0], none, up[1], none, none, none, none, none, none, up[2])
    assert float(lifted.least(uplift_cases()).min()) == pytest.approx(-340.0)


def test_one_person_is_live_load_of_the_concrete() -> None:
    """A post that bears less live load than one person: 1.2 D + 1.6 x 300 lb x his share (ACI 318-19, 5.3.1)."""
    site = site_of("cases/m_f58")
    R = site.reactions["P5"]
    assert R.P[0][0] > R.L[0][0]
    row = next(r for r in rows_of("cases/m_f58") if (r.key, r.part) == ("footing.concrete_bending", "P5"))
    assert row.argument("factored_load", "L") == pytest.approx(float(R.P[0][0]))


def test_corner_of_a_bracket_beside_the_axis_meets_the_bark_first() -> None:
    """24 in. out, its corner 6 3/8 - 3/2 in. beside the axis, bark at 20 in., growth 0.1 in. a year: 44.9 years.

    The radius that the bark has then is sqrt(24^2 + 4.875^2) = 24.490 in.
    """
    row = next(r for r in rows_of("arrangements/parallel_bolts") if r.key == "tree_bolt.contact_years")
    assert row.capacity == pytest.approx(((24.0**2 + 4.875**2) ** 0.5 - 20) / 0.1, rel=1e-4)
