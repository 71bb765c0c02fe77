"""Bending with axial load (NDS 2018, 3.9), eccentric load (15.4), net section, deflection, movement."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bolewright.timber.combined import (
    bending_and_compression,
    bending_and_tension,
    bending_less_tension,
    bracket_side_load,
    eccentric_compression,
    eccentric_flatwise_stability,
    flatwise_stability,
)
from bolewright.timber.deflection import (
    creep_factor,
    design_span,
    first_frequency,
    line_load,
    overhang_moment,
    overhang_reaction,
    overhang_tip_deflection,
    point_load_moment,
    simple_span_deflection,
    simple_span_moment,
    total_deflection,
)
from bolewright.timber.movement import cross_grain_shrinkage, shrinkage_ratio
from bolewright.timber.net_section import holes_act_together, net_area, net_section_modulus

BIG = 1e12
COLUMN = {
    "f_c": 200.0, "F_c_p": 600.0, "F_cE1": 1500.0, "F_cE2": 700.0, "f_b1": 400.0, "F_b1_p": 1200.0,
    "f_b2": 100.0, "F_b2_p": 1300.0, "F_bE": 4000.0,
}  # fmt: skip


def test_bending_and_compression_by_hand():  # NDS 2018, equation 3.9-3, worked here term by term
    axial = (200 / 600) ** 2
    edgewise = 400 / (1200 * (1 - 200 / 1500))
    flatwise = 100 / (1300 * (1 - 200 / 700 - (400 / 4000) ** 2))
    assert bending_and_compression(**COLUMN) == pytest.approx(axial + edgewise + flatwise)


def test_without_axial_load_the_ratio_is_that_of_bending():
    none = COLUMN | {"f_c": 0.0, "f_b2": 0.0}
    assert bending_and_compression(**none) == pytest.approx(400 / 1200)


def test_without_bending_the_ratio_is_the_square_of_compression():
    none = COLUMN | {"f_b1": 0.0, "f_b2": 0.0}
    assert bending_and_compression(**none) == pytest.approx((200 / 600) ** 2)


@pytest.mark.parametrize("change", [{"F_cE1": 150.0}, {"F_cE2": 150.0}, {"F_bE": 300.0}])
def test_past_its_buckling_load_a_member_never_passes(change):
    assert bending_and_compression(**(COLUMN | change)) > 100
    no_moment = {"e_1": 0.0, "d_1": 5.5, "e_2": 0.0, "d_2": 3.5}
    assert eccentric_compression(**(COLUMN | change | no_moment)) > 100


@given(
    e_1=st.floats(0, 2),
    e_2=st.floats(0, 1),
    f_c=st.floats(1, 400),
    f_b1=st.floats(0, 800),
    f_b2=st.floats(0, 300),
)
def test_eccentricity_only_adds(e_1, e_2, f_c, f_b1, f_b2):
    base = COLUMN | {"f_c": f_c, "f_b1": f_b1, "f_b2": f_b2}
    ends = {"e_1": e_1, "d_1": 5.5, "e_2": e_2, "d_2": 3.5}
    assert eccentric_compression(**base, **ends) >= bending_and_compression(**base) - 1e-12


def test_centric_load_is_the_ordinary_equation():  # NDS 2018, 15.4-1 becomes 3.9-3
    ends = {"e_1": 0.0, "d_1": 5.5, "e_2": 0.0, "d_2": 3.5}
    assert eccentric_compression(**COLUMN, **ends) == pytest.approx(bending_and_compression(**COLUMN))
    assert eccentric_flatwise_stability(200, 700, 400, 4000, 0.0, 5.5) == pytest.approx(
        flatwise_stability(200, 700, 400, 4000)
    )


def test_eccentric_load_by_hand():  # NDS 2018, 15.4-1, one axis, no side load
    end = 200 * 6 * 1.0 / 5.5
    expected = (200 / 600) ** 2 + end * (1 + 0.234 * 200 / 1500) / (1200 * (1 - 200 / 1500))
    given_ = COLUMN | {"f_b1": 0.0, "f_b2": 0.0, "F_bE": BIG}
    assert eccentric_compression(**given_, e_1=1.0, d_1=5.5, e_2=0.0, d_2=3.5) == pytest.approx(expected)
    assert eccentric_flatwise_stability(200, 700, 0, 4000, 1.0, 5.5) == pytest.approx(
        200 / 700 + (end / 4000) ** 2
    )


def test_bending_and_tension():  # NDS 2018, 3.9-1 and 3.9-2
    assert bending_and_tension(f_t=200, F_t_p=500, f_b=300, F_b_star=1000) == pytest.approx(0.7)
    assert bending_less_tension(f_b=300, f_t=200, F_b_dstar=800) == pytest.approx(0.125)


def test_bracket_at_the_top_gives_the_moment_of_a_strut():
    """A side load P_s at mid-height bends a pinned column by P_s l/4 = 3/4 P a for l_P = l (NDS 15.4-3)."""
    P_s = bracket_side_load(P=1000, a=6, l_P=120, l=120)
    assert point_load_moment(P=P_s, l=120) == pytest.approx(0.75 * 1000 * 6)


def net_modulus_by_strips(b, d, D_h, y, n=400_001):
    z = np.linspace(-d / 2, d / 2, n)
    width = np.where(np.abs(z - y) <= D_h / 2, 0.0, b)
    area = np.trapezoid(width, z)
    axis = np.trapezoid(width * z, z) / area
    I = np.trapezoid(width * (z - axis) ** 2, z)
    return I / max(d / 2 - axis, d / 2 + axis)


@pytest.mark.parametrize("y", [0.0, 1.5, -1.5, 3.0])
def test_net_section_modulus_against_integration(y):
    S_n = net_section_modulus(b=1.5, d=9.25, D_h=0.8125, y=y)
    assert S_n == pytest.approx(net_modulus_by_strips(1.5, 9.25, 0.8125, y), rel=1e-4)


def test_net_area():  # NDS 2018, 3.1.2
    assert net_area(b=1.5, d=9.25, n=2, D_h=0.5625) == pytest.approx(1.5 * (9.25 - 1.125))
    assert holes_act_together(along_grain=1.99, D=0.5)
    assert not holes_act_together(along_grain=2.0, D=0.5)


def test_long_term_deflection():  # NDS 2018, 3.5.2
    assert creep_factor(wet=False) == 1.5
    assert creep_factor(wet=True) == 2.0
    assert creep_factor(wet=False, seasoned=False) == 2.0
    assert total_deflection(K_cr=2.0, delta_LT=0.1, delta_ST=0.3) == pytest.approx(0.5)


def test_design_span():  # NDS 2018, 3.2.1: half the required bearing at each end
    assert design_span(l_clear=140, l_b1=1.0, l_b2=0.0) == pytest.approx(140.5)


def beam_by_finite_differences(w_left, w_right, P, l, a, EI, n=4000):
    """Tip deflection of a span l with an overhang a by integrating its curvature twice, from statics."""
    x = np.linspace(0, l + a, n + 1)
    R = (w_right * a * (l + a / 2) + w_left * l * l / 2 + P * (l + a)) / l
    R0 = w_left * l + w_right * a + P - R
    M = np.where(
        x <= l,
        R0 * x - w_left * x**2 / 2,
        -P * (l + a - x) - w_right * np.maximum(l + a - x, 0) ** 2 / 2,
    )
    h = x[1] - x[0]
    slope = np.concatenate([[0], np.cumsum((M[1:] + M[:-1]) / 2 * h)]) / EI
    v = np.concatenate([[0], np.cumsum((slope[1:] + slope[:-1]) / 2 * h)])
    v -= x * np.interp(l, x, v) / l  # no deflection at the support
    return v, R, M


def test_simple_span_and_overhang_against_integration():
    l, a, EI = 144.0, 36.0, 1.4e6 * 98.932
    v, _, M = beam_by_finite_differences(4.0, 0.0, 0.0, l, 0.0, EI)
    assert simple_span_deflection(w=4.0, l=l, E_p=1.4e6, I=98.932) == pytest.approx(-v.min(), rel=1e-5)
    assert simple_span_moment(w=4.0, l=l) == pytest.approx(M.max(), rel=1e-6)
    v, _, M = beam_by_finite_differences(0.0, 0.0, 220.0, l, a, EI)
    tip = overhang_tip_deflection(P=220, a=a, l=l, E_p=1.4e6, I=98.932)
    assert tip == pytest.approx(-v[-1], rel=1e-4)
    _, R, M = beam_by_finite_differences(4.0, 4.0, 0.0, l, a, EI)
    assert overhang_reaction(w=4.0, l=l, a=a) == pytest.approx(R)
    assert overhang_moment(w=4.0, P=0.0, a=a) == pytest.approx(-M.min(), rel=1e-4)


def test_line_load():  # 50 psf at 16 in. on centres, AWC DCA 6: 66.67 plf
    assert 12 * line_load(q=50, s=16) == pytest.approx(66.67, abs=0.005)


def test_first_frequency():
    """Uniformly loaded simple beam, f = pi/2 sqrt(EI/(m l^4)) exactly; 0.18 sqrt(g/delta) is within 2 %."""
    E, I, w, l = 1.4e6, 98.932, 5.0, 150.0
    exact = np.pi / 2 * np.sqrt(E * I / (w / 386.1 * l**4))
    assert first_frequency(delta=simple_span_deflection(w, l, E, I)) == pytest.approx(exact, rel=0.02)


@pytest.mark.parametrize(
    ("S_t", "dH", "tolerance"),
    [(0.045, 0.6, 0.05), (0.065, 0.9, 0.05)],  # 22-1/2 in. from wet (30 %) to 12 %: 0.6 to 0.9 in., by hand
)
def test_shrinkage_of_a_stack(S_t, dH, tolerance):
    assert cross_grain_shrinkage(S_t=S_t, H=22.5, dMC=18) == pytest.approx(dH, abs=tolerance)


def test_shrinkage_by_species():  # Wood Handbook Table 4-3, Douglas-fir coast, tangential 7.6 %
    assert shrinkage_ratio("DFL") == pytest.approx(0.076)
