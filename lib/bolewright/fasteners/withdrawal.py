"""Withdrawal and head pull-through of nails and screws (NDS 2018, 12.2)."""

from __future__ import annotations

from numpy import cos, maximum, minimum, pi

from bolewright.formulas import Limit, formula
from bolewright.units import Force, Length, LineLoadInch, Ratio

_G = {"G": Limit(0.31, 0.73, "G is outside 0.31 to 0.73, the range of the NDS withdrawal tables.")}


@formula("NDS 2018, equation 12.2-1", limits=_G, homogeneous=False)
def lag_screw_withdrawal(G: Ratio, D: Length) -> LineLoadInch:
    """Withdrawal value of a lag screw from side grain, per inch of thread without the tip.

    Parameters: G specific gravity; D nominal diameter (in). Returns: W (lb/in).
    Source: NDS 2018, 12.2.1.1, equation 12.2-1, Table 12.2A.

    >>> round(lag_screw_withdrawal(0.55, 0.625))   # NDS 2018 Table 12.2A
    516
    """
    W: LineLoadInch = 1800 * G**1.5 * D**0.75
    return W


@formula("NDS 2018, equation 12.2-2", limits=_G, homogeneous=False)
def wood_screw_withdrawal(G: Ratio, D: Length) -> LineLoadInch:
    """Withdrawal value of a cut or rolled thread wood screw from side grain, per inch of thread.

    Parameters: G specific gravity; D nominal diameter (in). Returns: W (lb/in).
    Source: NDS 2018, 12.2.2.1, equation 12.2-2, Table 12.2B.

    >>> round(wood_screw_withdrawal(0.5, 0.2), 3)
    142.5
    """
    W: LineLoadInch = 2850 * G**2 * D
    return W


@formula("NDS 2018, equation 12.2-3", limits=_G, homogeneous=False)
def smooth_nail_withdrawal(G: Ratio, D: Length) -> LineLoadInch:
    """Withdrawal value of a smooth shank bright or galvanized nail from side grain, per inch.

    Parameters: G specific gravity; D diameter (in). Returns: W (lb/in).
    Source: NDS 2018, 12.2.3.1, equation 12.2-3, Table 12.2C.

    0.36 to the power 2.5 is 0.6 to the fifth, 0.07776:

    >>> round(smooth_nail_withdrawal(0.36, 0.2), 2)
    21.46
    """
    W: LineLoadInch = 1380 * G**2.5 * D
    return W


@formula("NDS 2018, equation 12.2-4", limits=_G, confidence="from memory", homogeneous=False)
def stainless_nail_withdrawal(G: Ratio, D: Length) -> LineLoadInch:
    """Withdrawal value of a smooth shank stainless steel nail from side grain, per inch.

    Parameters: G specific gravity; D diameter (in). Returns: W (lb/in).
    Source: NDS 2018, 12.2.3.1, equation 12.2-4.

    0.36 to the power 1.5 is 0.6 cubed, 0.216:

    >>> round(stainless_nail_withdrawal(0.36, 0.2), 2)
    20.09
    """
    W: LineLoadInch = 465 * G**1.5 * D
    return W


@formula("NDS 2018, equation 12.2-5", limits=_G, confidence="from memory", homogeneous=False)
def ring_nail_withdrawal(G: Ratio, D: Length) -> LineLoadInch:
    """Withdrawal value of a ring shank (deformed) nail from side grain, per inch of ring shank.

    Parameters: G specific gravity; D shank diameter (in). Returns: W (lb/in).
    Source: NDS 2018, 12.2.3.2, equation 12.2-5, nails of ASTM F1667 ring shank.

    >>> round(ring_nail_withdrawal(0.5, 0.2), 3)
    90.0
    """
    W: LineLoadInch = 1800 * G**2 * D
    return W


@formula("NDS 2018, 12.2.1 and 12.2.2")
def thread_penetration(L: Length, T: Length, E_tip: Length, l_s: Length, t_m: Length) -> Length:
    """Thread that holds in the main member, tip left out.

    Parameters: L length, T thread length with tip, E_tip length of a tip that does not count (0 for wood screws
    and nails), l_s length before the main member, t_m thickness of the main member (in). Returns: p_t (in).
    Source: NDS 2018, 12.2.1.1 and 12.2.2.1.

    >>> round(float(thread_penetration(6.0, 3.5, 0.5, 1.5, 5.5)), 3)
    3.0
    """
    start: Length = maximum(L - T, l_s)
    stop: Length = minimum(L - E_tip, l_s + t_m)
    p_t: Length = maximum(stop - start, 0)
    return p_t


@formula("NDS 2018, equation 12.2-6a", limits=_G, confidence="from memory", homogeneous=False)
def pull_through_thin_side(G: Ratio, D_H: Length, t_ns: Length) -> Force:
    """Head pull-through of a side member not thicker than 2.5 head diameters.

    Parameters: G specific gravity of the side member; D_H head diameter, t_ns net thickness of the side member
    under the head (in). Returns: W_H (lb). Source: NDS 2018, 12.2.5.1, round heads.

    690 x 0.4 x 0.25 x 0.5 is 34.5, times pi:

    >>> round(pull_through_thin_side(0.5, 0.4, 0.5), 1)
    108.4
    """
    W_H: Force = 690 * pi * D_H * G**2 * t_ns
    return W_H


@formula("NDS 2018, equation 12.2-6b", limits=_G, confidence="from memory", homogeneous=False)
def pull_through_thick_side(G: Ratio, D_H: Length) -> Force:
    """Head pull-through of a side member thicker than 2.5 head diameters.

    Parameters: G specific gravity of the side member; D_H head diameter (in). Returns: W_H (lb).
    Source: NDS 2018, 12.2.5.1, round heads.

    1725 x 0.16 x 0.25 is 69, times pi:

    >>> round(pull_through_thick_side(0.5, 0.4), 1)
    216.8
    """
    W_H: Force = 1725 * pi * D_H**2 * G**2
    return W_H


@formula("NDS 2018, 12.5.4 and Commentary C12.5.4", confidence="from memory")
def toe_nail_side_length(L: Length) -> Length:
    """Bearing length of a toe-nail in the side member: it starts a third of its length from the end, at 30 degrees.

    Parameters: L nail length (in). Returns: l_s (in). Source: NDS 2018, 12.1.6.3 and Figure 12A.

    >>> round(toe_nail_side_length(3.0), 3)
    1.0
    """
    l_s: Length = L / 3
    return l_s


@formula("NDS 2018, 12.5.4 and Commentary C12.5.4", confidence="from memory")
def toe_nail_main_length(L: Length) -> Length:
    """Length of a toe-nail in the main member, measured square to the joint.

    Parameters: L nail length (in). Returns: p_L (in). Source: NDS 2018, 12.1.6.3 and Figure 12A.

    3 x 0.8660 - 1:

    >>> round(float(toe_nail_main_length(3.0)), 3)
    1.598
    """
    p_L: Length = L * cos(pi / 6) - L / 3
    return p_L


@formula("NDS 2018, 12.5.4 and Commentary C12.5.4", confidence="from memory")
def toe_nail_withdrawal_length(L: Length) -> Length:
    """Length of a toe-nail in the main member along its axis, for withdrawal.

    Parameters: L nail length (in). Returns: p (in). Source: NDS 2018, 12.1.6.3 and Figure 12A.

    3 - 1/0.8660:

    >>> round(float(toe_nail_withdrawal_length(3.0)), 3)
    1.845
    """
    p: Length = L - L / (3 * cos(pi / 6))
    return p
