"""TR12 general dowel equations against NDS 12.3, against rigid-plastic statics as a linear programme, and laws."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from bolewright.fasteners.errors import FastenerError
from bolewright.fasteners.general_dowel import (
    dowel_bearing_resistance,
    dowel_moment_resistance,
    general_dowel,
    general_mode_IIIm,
    general_mode_IV,
)
from bolewright.fasteners.yield_limit import double_shear, single_shear

lengths, strengths = st.floats(0.3, 14.0), st.floats(1000.0, 12000.0)
dowels = st.fixed_dictionaries(
    {
        "D": st.floats(0.08, 1.25),
        "l_m": lengths,
        "l_s": lengths,
        "F_em": strengths,
        "F_es": strengths | st.sampled_from([61850.0, 87000.0]),
        "F_yb": st.floats(30000.0, 130000.0),
        "theta": st.floats(0.0, 90.0),
    }
)


@settings(max_examples=2000, deadline=None)
@given(dowels)
def test_without_gap_every_mode_of_single_shear_is_that_of_nds(dowel):
    nds, tr12 = single_shear(**dowel), general_dowel(**dowel)
    assert list(nds.modes) == list(tr12.modes)
    for name, Z in nds.modes.items():
        assert tr12.modes[name] == pytest.approx(Z, rel=1e-9), name
    assert pytest.approx(nds.Z, rel=1e-9) == tr12.Z


@settings(max_examples=2000, deadline=None)
@given(dowels)
def test_without_gap_every_mode_of_double_shear_is_that_of_nds(dowel):
    nds, tr12 = double_shear(**dowel), general_dowel(**dowel, double=True)
    assert list(nds.modes) == list(tr12.modes)
    for name, Z in nds.modes.items():
        assert tr12.modes[name] == pytest.approx(Z, rel=1e-9), name


def statics_limit(members, gap, cells=150):
    """Greatest load a rigid-plastic dowel can carry between members: the lower bound theorem as an LP.

    Members come in their order along the dowel as (q, l, M, is_side). Unknown is the pressure in each cell, at most
    q either way. All pressures balance in force and moment, nowhere does the moment exceed the dowel's; the load is
    what the side members push together.
    """
    x, h, q, cost, edges, plastic = [], [], [], [], [], []
    start = 0.0
    for resistance, length, moment, is_side in members:
        edge = start + length * (1 - np.cos(np.linspace(0, np.pi, cells + 1))) / 2  # fine at both faces
        steps = np.diff(edge)
        x.append((edge[:-1] + edge[1:]) / 2)
        h.append(steps)
        q += [resistance] * cells
        cost.append(-steps if is_side else np.zeros(cells))
        edges.append(edge)
        plastic.append(np.full(cells + 1, moment))
        start += length + gap
    x, h, cost, edges, plastic = map(np.concatenate, (x, h, cost, edges, plastic))
    arms = np.maximum(edges[:, None] - x[None, :], 0.0) * h[None, :]
    result = linprog(
        cost,
        A_ub=np.vstack([arms, -arms]),
        b_ub=np.concatenate([plastic, plastic]),
        A_eq=np.vstack([h, h * x]),
        b_eq=np.zeros(2),
        bounds=[(-most, most) for most in q],
        method="highs",
    )
    assert result.success
    return -result.fun


CASES = [  # D, l_m, l_s, F_em, F_es, F_yb, gap, mode that governs the yield load (all R_d alike)
    (0.75, 1.0, 8.0, 3000, 6000, 45000, 0.5, "Im"),
    (0.5, 1.5, 1.5, 5600, 5600, 45000, 0.0, "II"),
    (0.5, 1.5, 1.5, 5600, 5600, 45000, 0.5, "II"),
    (0.5, 3.5, 1.5, 5600, 5600, 45000, 0.25, "IIIs"),
    (0.5, 1.5, 4.0, 4000, 6000, 45000, 0.25, "IIIm"),
    (0.162, 3.0, 3.0, 4650, 4650, 90000, 0.0, "IV"),
    (0.162, 3.0, 3.0, 4650, 4650, 90000, 0.5, "IV"),
    (1.0, 6.0, 0.5, 3000, 20000, 45000, 1.5, "IIIs"),
]


@pytest.mark.parametrize(("D", "l_m", "l_s", "F_em", "F_es", "F_yb", "gap", "mode"), CASES)
def test_equals_rigid_plastic_statics(D, l_m, l_s, F_em, F_es, F_yb, gap, mode):
    q_s, q_m = dowel_bearing_resistance(F_es, D), dowel_bearing_resistance(F_em, D)
    M = dowel_moment_resistance(F_yb, D)
    result = general_dowel(D=D, l_m=l_m, l_s=l_s, F_em=F_em, F_es=F_es, F_yb=F_yb, gap=gap)
    loads = yield_loads(result, D)
    assert min(loads, key=loads.get) == mode
    exact = statics_limit([(q_s, l_s, M, True), (q_m, l_m, M, False)], gap)
    assert min(loads.values()) == pytest.approx(exact, rel=0.004)  # grid of 150 cells a member


def yield_loads(result, D):
    small = D < 0.25
    R_d = {"Im": 4, "Is": 4, "II": 3.6}
    K_D = max(2.2, 10 * D + 0.5)
    return {name: Z * (K_D if small else R_d.get(name, 3.2)) for name, Z in result.modes.items()}


@settings(max_examples=25, deadline=None)
@given(dowels, st.floats(0.0, 2.0))
def test_equals_rigid_plastic_statics_anywhere(dowel, gap):
    D = dowel["D"]
    result = general_dowel(**dowel | {"theta": 0.0}, gap=gap)
    q_s, q_m = dowel["F_es"] * D, dowel["F_em"] * D
    M = dowel["F_yb"] * D**3 / 6
    exact = statics_limit([(q_s, dowel["l_s"], M, True), (q_m, dowel["l_m"], M, False)], gap, cells=120)

    assert min(yield_loads(result, D).values()) == pytest.approx(exact, rel=0.03)


DOUBLE_CASES = [
    (0.5, 1.0, 1.5, 5600, 5600, 45000, 0.0, "Im"),
    (0.5, 6.0, 0.75, 5600, 2500, 45000, 0.0, "Is"),
    (0.5, 3.5, 1.5, 5600, 5600, 45000, 0.0, "IIIs"),
    (0.5, 3.5, 1.5, 5600, 5600, 45000, 0.5, "IIIs"),
    (0.375, 5.5, 4.0, 5600, 5600, 45000, 0.25, "IV"),
]


@pytest.mark.parametrize(("D", "l_m", "l_s", "F_em", "F_es", "F_yb", "gap", "mode"), DOUBLE_CASES)
def test_double_shear_equals_rigid_plastic_statics(D, l_m, l_s, F_em, F_es, F_yb, gap, mode):
    result = general_dowel(D=D, l_m=l_m, l_s=l_s, F_em=F_em, F_es=F_es, F_yb=F_yb, gap=gap, double=True)
    loads = yield_loads(result, D)
    assert min(loads, key=loads.get) == mode
    M = F_yb * D**3 / 6
    side = (F_es * D, l_s, M, True)
    exact = statics_limit([side, (F_em * D, l_m, M, False), side], gap)
    assert min(loads.values()) == pytest.approx(exact, rel=0.006)


@settings(max_examples=200, deadline=None)
@given(dowels, st.floats(0.0, 3.0), st.floats(0.0, 3.0), st.booleans())
def test_a_wider_gap_never_carries_more(dowel, gap, more, double):
    narrow = general_dowel(**dowel, gap=gap, double=double).Z
    wide = general_dowel(**dowel, gap=gap + more, double=double).Z
    assert wide <= narrow * (1 + 1e-9)


@settings(max_examples=200, deadline=None)
@given(st.floats(100.0, 8000.0), st.floats(2.0, 12.0), st.floats(0.1, 8.0), st.floats(100.0, 60000.0))
def test_a_pin_bracket_is_a_pile_in_a_uniform_medium(q, L, e, M_y):
    """Engineering note E5: M_s = 0 and 1/q_s = 0 with the gap to the load line gives the closed forms of a short pile.

    Rotation P = q L (sqrt((2e/L + 1)^2 + 1) - (2e/L + 1)); hinge P = q (sqrt(e^2 + 2 M/q) - e).
    """
    rotation = general_mode_IIIm(q_s=np.inf, q_m=q, l_m=L, M_s=0.0, g=e)
    hinge = general_mode_IV(q_s=np.inf, q_m=q, M_s=0.0, M_m=M_y, g=e)
    arm = 2 * e / L + 1
    assert rotation == pytest.approx(q * L * (np.sqrt(arm**2 + 1) - arm), rel=1e-8)
    assert hinge == pytest.approx(q * (np.sqrt(e**2 + 2 * M_y / q) - e), rel=1e-8)


def test_the_dowels_own_moment_in_a_bracket_is_unsafe():
    """Engineering note E5: with M_s = M_m the answer is far higher than that of a pin, so it must not be used."""
    q, e, M_y = 4500.0, 5.0, 30000.0
    pin = general_mode_IV(q_s=np.inf, q_m=q, M_s=0.0, M_m=M_y, g=e)
    fixed = general_mode_IV(q_s=np.inf, q_m=q, M_s=M_y, M_m=M_y, g=e)
    assert fixed > 1.5 * pin


def test_hinge_diameters_may_differ():  # shank in the side member, thread in the main member
    common = {
        "D": 0.371,
        "D_nominal": 0.5,
        "l_m": 3.0,
        "l_s": 1.5,
        "F_em": 5600.0,
        "F_es": 5600.0,
        "F_yb": 45000.0,
    }
    root = general_dowel(**common)
    shank = general_dowel(**common, D_s=0.5)
    assert shank.modes["IV"] > root.modes["IV"]
    assert shank.modes["IIIm"] > root.modes["IIIm"]
    assert shank.modes["IIIs"] == root.modes["IIIs"]


def test_negative_gap_is_refused():
    with pytest.raises(FastenerError, match=r"gap between the members is -0.1 in.: it must be 0 or more"):
        general_dowel(D=0.5, l_m=1.5, l_s=1.5, F_em=5600, F_es=5600, F_yb=45000, gap=-0.1)
