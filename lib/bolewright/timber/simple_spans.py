"""How far a simple span under an even load may reach, by each limit alone, solved for the span."""

from __future__ import annotations

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import Length, LineLoadInch, Ratio, SecondMoment, SectionModulus, Stress


@formula("NDS 2018, 3.3.2; statics (solved for the span)")
def span_by_bending(F_b_p: Stress, S: SectionModulus, w: LineLoadInch) -> Length:
    """Simple span at which bending under an even load is all used: w L² / 8 = F_b' S.

    Parameters: F_b_p adjusted bending value (psi); S section modulus (in³); w load (lb/in). Returns: L_b (in). Source:
    NDS 2018, 3.3.2, statics.

    8 x 1000 x 10 over 5 is 16,000, the square of 126.49:

    >>> round(float(span_by_bending(1000.0, 10.0, 5.0)), 2)
    126.49
    """
    L_b: Length = sqrt(8 * F_b_p * S / w)
    return L_b


@formula("NDS 2018, 3.4.2; statics (solved for the span)")
def span_by_shear(F_v_p: Stress, b: Length, d: Length, w: LineLoadInch) -> Length:
    """Simple span at which shear under an even load is all used, nothing left out near the supports.

    From 3 V / (2 b d) = F_v' with V = w L / 2. Parameters: F_v_p adjusted shear value (psi); b breadth, d depth (in);
    w load (lb/in). Returns: L_v (in). Source: NDS 2018, 3.4.2, statics.

    >>> round(span_by_shear(150.0, 1.5, 10.0, 10.0), 3)
    300.0
    """
    L_v: Length = 4 * F_v_p * b * d / (3 * w)
    return L_v


@formula("NDS 2018, 3.10.2; statics (solved for the span)")
def span_by_bearing(F_c_perp_p: Stress, b: Length, l_b: Length, w: LineLoadInch) -> Length:
    """Simple span at which bearing across the grain at its ends is all used: w L / 2 = F_c_perp' b l_b.

    Parameters: F_c_perp_p adjusted bearing value (psi); b breadth, l_b length of bearing at each end (in); w load
    (lb/in). Returns: L_c (in). Source: NDS 2018, 3.10.2, statics.

    >>> span_by_bearing(400.0, 1.5, 2.0, 10.0)
    240.0
    """
    L_c: Length = 2 * F_c_perp_p * b * l_b / w
    return L_c


@formula("Statics (deflection of a simple span, solved for the span)")
def span_by_deflection(E_p: Stress, I: SecondMoment, w: LineLoadInch, n: Ratio) -> Length:
    """Simple span at which the deflection under an even load is L / n: 5 w L⁴ / (384 E' I) = L / n.

    Parameters: E_p adjusted modulus (psi); I second moment of area (in⁴); w load (lb/in), dead load times its creep
    factor in it where all loads are meant; n divisor of the span. Returns: L_d (in). Source: elastic beam theory.

    384 x 1,500,000 x 48 over 5 x 8 x 400 is 1,728,000, the cube of 120:

    >>> round(float(span_by_deflection(1_500_000.0, 48.0, 8.0, 400.0)), 6)
    120.0
    """
    L_d: Length = (384 * E_p * I / (5 * w * n)) ** (1 / 3)
    return L_d


@formula("NDS 2018, 3.5.2")
def load_with_creep(K_cr: Ratio, w_D: LineLoadInch, w_L: LineLoadInch) -> LineLoadInch:
    """Even load that deflects a member at once as much as dead and live load do in time.

    Parameters: K_cr creep factor; w_D dead load, w_L live load (lb/in). Returns: w_T (lb/in). Source: NDS 2018, 3.5.2.

    >>> round(load_with_creep(2.0, 1.5, 5.0), 3)
    8.0
    """
    w_T: LineLoadInch = K_cr * w_D + w_L
    return w_T
