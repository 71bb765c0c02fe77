"""Group action factor against the chain of springs it was derived from, solved as a linear system."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bolewright.fasteners.group_action import group_action_factor, slip_modulus_metal, slip_modulus_wood


def chain(n, gamma, s, EA_m, EA_s):
    """Mean over greatest fastener load of a row between two elastic members: joints at each fastener.

    The main member is pulled at the first fastener, the side member held beyond the last.
    """
    k_m, k_s = EA_m / s, EA_s / s
    K = np.zeros((2 * n, 2 * n))  # main 0..n-1, side n..2n-1

    def spring(i, j, k):
        K[i, i] += k
        K[j, j] += k
        K[i, j] -= k
        K[j, i] -= k

    for i in range(n):
        spring(i, n + i, gamma)
    for i in range(n - 1):
        spring(i, i + 1, k_m)
        spring(n + i, n + i + 1, k_s)
    K[2 * n - 1, 2 * n - 1] += k_s  # any stiffness: it carries the whole load
    force = np.zeros(2 * n)
    force[0] = 1.0
    u = np.linalg.solve(K, force)
    loads = gamma * (u[:n] - u[n:])
    assert loads.sum() == pytest.approx(1.0)
    return loads.mean() / loads.max()


def test_four_bolts_of_the_brief():  # 3/4 in. bolts 4 in. apart, two 1-1/2 x 9-1/4 sides on a 3-1/2 x 9-1/4, E = 1.6e6
    EA_m, EA_s = 1.6e6 * 3.5 * 9.25, 1.6e6 * 2 * 1.5 * 9.25
    gamma = slip_modulus_wood(0.75)
    assert gamma == pytest.approx(180000 * 0.75**1.5)
    exact = chain(4, gamma, 4.0, EA_m, EA_s)
    assert group_action_factor(4, gamma, 4.0, EA_m, EA_s) == pytest.approx(exact, rel=1e-9)


@settings(max_examples=300, deadline=None)
@given(
    st.integers(2, 12), st.floats(5e4, 5e5), st.floats(1.5, 12.0), st.floats(5e6, 2e8), st.floats(5e6, 2e8)
)
def test_equals_a_chain_of_springs(n, gamma, s, EA_m, EA_s):
    C_g = group_action_factor(n, gamma, s, EA_m, EA_s)
    weaker, stiffer = sorted((EA_m, EA_s))
    # The fastener next to where the stiffer member is loaded bears most; the equation takes that end.
    exact = min(chain(n, gamma, s, weaker, stiffer), chain(n, gamma, s, stiffer, weaker))
    assert C_g == pytest.approx(exact, rel=1e-6)
    assert 0 < C_g <= 1 + 1e-9


# NDS 2018 Table 11.3.6A (D = 1 in., s = 4 in., E = 1.4e6): A_s/A_m = 0.5 and A_s = 5 in2; from memory.
@pytest.mark.parametrize(("n", "C_g"), [(2, 0.98), (3, 0.92), (4, 0.84), (5, 0.75), (6, 0.68)])
def test_table_11_3_6A(n, C_g):
    gamma = slip_modulus_wood(1.0)
    assert group_action_factor(n, gamma, 4.0, 1.4e6 * 10.0, 1.4e6 * 5.0) == pytest.approx(C_g, abs=0.005)


def test_one_fastener_has_none():
    assert group_action_factor(1, 1e5, 4.0, 3e7, 2e7) == pytest.approx(1.0)


def test_metal_is_one_and_a_half_times_as_stiff():
    assert slip_modulus_metal(0.5) == pytest.approx(1.5 * slip_modulus_wood(0.5))


@settings(max_examples=100, deadline=None)
@given(st.integers(1, 10), st.floats(1.5, 8.0), st.floats(0.0, 4.0))
def test_falls_with_number_and_spacing(n, s, more):
    args = {"gamma": 1e5, "EA_m": 4e7, "EA_s": 3e7}
    base = group_action_factor(n, s=s, **args)
    assert group_action_factor(n + 1, s=s, **args) <= base + 1e-12
    assert group_action_factor(n, s=s + more, **args) <= base + 1e-12
