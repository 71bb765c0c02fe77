"""Net section, row and group tear-out (NDS 2018, Appendix E) against the stresses they come from."""

import pytest
from scipy.integrate import quad

from bolewright.fasteners.tear_out import (
    critical_spacing,
    group_net_area,
    group_tear_out,
    row_tear_out,
    rows_tear_out,
)
from bolewright.timber.combined import tension_stress
from bolewright.timber.net_section import net_area

F_V, F_T, T = 180.0, 575.0, 3.5
HOLE = 0.8125  # 3/4 in. bolt, 1/16 in. over


def test_row_tear_out_is_two_planes_with_a_triangular_shear_stress():
    s = critical_spacing(5.25, 4.0)
    assert s == 4.0
    one_plane, _ = quad(lambda x: F_V * (1 - x / s) * T, 0, s)
    assert row_tear_out(3, F_V, T, s) == pytest.approx(3 * 2 * one_plane)


def test_rows_add_up():
    row = row_tear_out(4, F_V, T, 3.0)
    assert rows_tear_out(2, row) == pytest.approx(2 * 4 * F_V * T * 3.0)


def test_group_tear_out_is_the_outer_shear_planes_and_the_tension_between():
    rows, s_row, n, s = 3, 2.0, 4, 3.0
    one_plane, _ = quad(lambda x: F_V * (1 - x / s) * T, 0, s)
    row = row_tear_out(n, F_V, T, s)
    # One plane of each outer row shears; between their centers two spacings of wood less two holes in all.
    tension = F_T * T * (2 * s_row - 2 * HOLE)
    area = group_net_area(T, rows, s_row, HOLE)
    assert group_tear_out(row, row, F_T, area) == pytest.approx(2 * n * one_plane + tension)


def test_net_section():
    area = net_area(T, 9.25, 2, HOLE)
    assert area == pytest.approx(3.5 * (9.25 - 1.625))
    assert tension_stress(1000.0, area) == pytest.approx(1000 / 26.6875)


def test_a_group_closer_than_its_rows_tears_out_first():
    row = row_tear_out(4, F_V, T, 4.0)
    close, wide = (group_tear_out(row, row, F_T, group_net_area(T, 2, s, HOLE)) for s in (1.5, 7.0))
    assert close < rows_tear_out(2, row) < wide
