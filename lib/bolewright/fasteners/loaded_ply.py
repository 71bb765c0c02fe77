"""Bending of the ply that a member hangs on: nails give, so that it bends more than its even share.

Plies joined by nails are beams joined by springs. Against the even share each bends as a beam on an elastic
foundation (Hetenyi, Beams on Elastic Foundation, 1946, from memory: 1/4 P l_s under a load, l_s the characteristic
length), on the softest of the ways in which n plies can slip. The coefficients are bounds on the safe side: the
greatest that seats near by, free ends, loads beside each other and nails s apart make of it.
"""

from __future__ import annotations

from numpy import maximum, pi, sin

from bolewright.formulas import formula
from bolewright.units import Force, Length, LineLoadInch, Moment, Ratio, SecondMoment, Stress

_STATICS = (
    "Statics of plies joined by nails that give (a beam on an elastic foundation), bounds on the safe side"
)


@formula(_STATICS)
def slip_stiffness(n_rows: Ratio, gamma: LineLoadInch, s: Length, n: Ratio) -> Stress:
    """Stiffness of the nails against the softest slip of plies, by length of the beam.

    Parameters: n_rows rows; gamma load/slip modulus of one nail (lb/in); s spacing along each row (in); n plies.
    Returns: k_s (psi). Source: statics: a row of n like pieces joined by n - 1 springs.

    >>> float(slip_stiffness(3.0, 8000.0, 8.0, 2.0).round(6))
    6000.0
    """
    k_s: Stress = 4 * n_rows * gamma / s * sin(pi / (2 * n)) ** 2
    return k_s


@formula(_STATICS)
def slip_length(E: Stress, I: SecondMoment, k_s: Stress) -> Length:
    """Characteristic length of a ply on its nails.

    Parameters: E modulus (psi); I second moment of one ply (in⁴); k_s stiffness of the nails (psi). Returns: l_s (in).
    Source: a beam on an elastic foundation.

    640,000,000/4000 is 160,000, 20 to the fourth:

    >>> round(slip_length(1_600_000.0, 100.0, 4000.0), 3)
    20.0
    """
    l_s: Length = (4 * E * I / k_s) ** 0.25
    return l_s


@formula(_STATICS)
def share_of_load_beside(a: Length, l_s: Length) -> Ratio:
    """Share of a load on the same ply that counts at a place beside it.

    Parameters: a distance of the load; l_s characteristic length (in). Returns: c_a. Source: a bound on the safe side;
    a beam on an elastic foundation bends the other way from 0.79 l_s on.

    >>> round(float(share_of_load_beside(5.0, 20.0)), 6)
    0.75
    """
    c_a: Ratio = maximum(1 - a / l_s, 0)
    return c_a


@formula(_STATICS)
def moment_till_nailed_span(P_t: Force, l_s: Length) -> Moment:
    """Moment that the loaded ply has over its share, where it sags between seats.

    Parameters: P_t part of the load that passes to the other plies (lb); l_s characteristic length (in).
    Returns: M_t (lb·in). Source: a bound on the safe side of 1/4 P_t l_s, for any span and nails up to 16 in. apart.

    >>> round(moment_till_nailed_span(300.0, 20.0), 3)
    2000.0
    """
    M_t: Moment = P_t * l_s / 3
    return M_t


@formula(_STATICS)
def moment_till_nailed_end(P_t: Force, l_s: Length, s: Length) -> Moment:
    """Moment that the loaded ply has over its share, over a seat or on an overhang.

    Parameters: P_t part of the load that passes to the other plies (lb); l_s characteristic length, s spacing of the
    nails (in). Returns: M_t (lb·in).
    Source: a bound on the safe side of 0.32 P_t l_s, at a free end with no nail in it.

    >>> round(moment_till_nailed_end(300.0, 20.0, 10.0), 3)
    4500.0
    """
    M_t: Moment = P_t * (l_s + s) / 2
    return M_t


@formula(_STATICS)
def moment_of_loaded_ply(M: Moment, n: Ratio, M_t: Moment) -> Moment:
    """Moment of the ply that the load hangs on.

    Parameters: M moment of the beam; n plies; M_t what the loaded ply has over its share (lb·in).
    Returns: M_1 (lb·in). Source: statics.

    >>> round(moment_of_loaded_ply(20_000.0, 2.0, 2000.0), 3)
    12000.0
    """
    M_1: Moment = M / n + M_t
    return M_1
