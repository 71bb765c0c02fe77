"""Ply-to-ply fastening of beams: load through the planes between plies, by statics of plies on springs."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.fasteners.connectors import bolt, nail, plain_nail
from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.members import Wood
from bolewright.fasteners.plies import (
    fasten_plies,
    ply_point_fasteners,
    ply_point_transfer,
    ply_schedule,
    side_loaded,
    top_loaded,
)
from bolewright.fasteners.service import DRY

PLY = Wood(1.5, 0.55, 90.0)
TEN = nail("10d", "box")


def flows(entering, stiffness, w):
    """Load per inch through each plane, of plies tied rigidly together: solved as springs in a row."""
    n = len(entering)
    tie = 1e7
    K = np.diag(np.asarray(stiffness, dtype=float))
    for i in range(n - 1):
        K[i : i + 2, i : i + 2] += tie * np.array([[1, -1], [-1, 1]])
    u = np.linalg.solve(K, np.asarray(entering) * w / 12)
    return np.abs(tie * np.diff(u))


@settings(max_examples=60, deadline=None)
@given(st.integers(2, 4), st.floats(0.0, 1.0), st.floats(50.0, 300.0))
def test_transfer_equals_plies_tied_together(plies, far, w):
    entering = side_loaded(plies, far)
    result = fasten_plies(bolt(0.5, 8.0), PLY, w, entering, schedule=False)
    assert result.transfer == pytest.approx(flows(entering, [1.0] * plies, w), rel=1e-4, abs=1e-4)


def test_unlike_plies_bear_by_their_stiffness():
    result = fasten_plies(bolt(0.5, 8.0), PLY, 240.0, (1.0, 0.0), stiffness=(0.25, 0.75), schedule=False)
    assert result.transfer == pytest.approx((20.0 * 0.75,))


@pytest.mark.parametrize(("plies", "share"), [(2, 1 / 2), (3, 2 / 3), (4, 3 / 4)])
def test_side_load_on_one_face(plies, share):  # w (n - 1) / n passes the first plane
    w = 120.0
    result = fasten_plies(TEN, PLY, w, side_loaded(plies), schedule=False)
    assert max(result.transfer) == pytest.approx(10.0 * share)
    assert result.spacing == pytest.approx(2 * result.fastener.Z_adj / (10.0 * share))
    assert result.governed_by == "statics"


def test_a_light_side_load_and_a_top_load_fall_back_on_the_schedule():  # IRC R507.5: 10d, two rows, 16 in.
    for entering, w in ((side_loaded(2), 50.0), (top_loaded(2), 600.0), (top_loaded(3), 600.0)):
        result = fasten_plies(TEN, PLY, w, entering)
        assert (result.spacing, result.rows) == (16.0, 2)
        assert "R507.5" in result.governed_by
    assert fasten_plies(TEN, PLY, 600.0, top_loaded(3)).transfer == pytest.approx((0.0, 0.0))


def test_a_heavy_side_load_governs_over_the_schedule():
    result = fasten_plies(TEN, PLY, 600.0, side_loaded(2), service=DRY)
    assert result.governed_by == "statics"
    assert result.spacing == pytest.approx(2 * result.fastener.Z_adj / 25.0)
    assert result.spacing < 16
    assert result.steps()[-1].formula.name == "ply_fastener_spacing"


@settings(max_examples=40, deadline=None)
@given(st.floats(60.0, 200.0), st.floats(1.0, 2.0), st.integers(2, 4))
def test_spacing_falls_with_load_and_grows_with_rows(w, more, rows):
    strong = bolt(0.5, 8.0)
    base = fasten_plies(strong, PLY, w, side_loaded(2), rows=rows)
    assert fasten_plies(strong, PLY, w * more, side_loaded(2), rows=rows).spacing <= base.spacing
    assert fasten_plies(strong, PLY, w, side_loaded(2), rows=rows + 1).spacing >= base.spacing


def test_point_load_of_a_hanger():
    Z_p = fasten_plies(TEN, PLY, 0.0, top_loaded(2)).fastener.Z_adj
    P_t = ply_point_transfer(900.0, share_in=1.0, share_borne=1 / 3)
    assert P_t == pytest.approx(600.0)
    assert ply_point_fasteners(P_t, Z_p) == pytest.approx(600.0 / Z_p)


def test_schedule_is_the_code_text():  # IRC R507.5, from memory
    schedule = ply_schedule()
    assert (schedule.rows, schedule.spacing) == (2, 16)
    assert schedule.nail.startswith("10d")
    assert "from memory" in schedule.source


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: fasten_plies(TEN, PLY, 6000.0, side_loaded(2)), "use more rows or a stronger fastener"),
        (lambda: fasten_plies(TEN, PLY, 100.0, side_loaded(2), rows=1), "1 row of fasteners: IRC"),
        (lambda: fasten_plies(TEN, PLY, -1.0, side_loaded(2)), "-1 plf: it must be 0 or more"),
        (lambda: fasten_plies(TEN, PLY, 100.0, (0.7, 0.7)), "add up to 1.4: they must add up to 1"),
        (lambda: side_loaded(1), "2 plies or more"),
        (lambda: fasten_plies(plain_nail(0.128, 2.0), PLY, 100.0, side_loaded(2)), "wants 6 D"),
    ],
)
def test_user_errors_are_one_sentence(call, said):
    with pytest.raises(FastenerError, match=said):
        call()
