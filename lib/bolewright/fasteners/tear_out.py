"""Row and group tear-out of wood at a group of fasteners (NDS 2018, Appendix E); its net section is in timber."""

from __future__ import annotations

from numpy import minimum

from bolewright.formulas import formula
from bolewright.units import Area, Force, Length, Ratio, Stress


@formula("NDS 2018, Appendix E.3", confidence="from memory")
def critical_spacing(a_end: Length, s: Length) -> Length:
    """Least of end distance and spacing in the row, which sets the shear area of each fastener.

    Parameters: a_end end distance, s spacing in the row (in). Returns: s_crit (in). Source: NDS 2018, E.3.

    >>> round(float(critical_spacing(3.5, 2.0)), 3)
    2.0
    """
    s_crit: Length = minimum(a_end, s)
    return s_crit


@formula("NDS 2018, equation E.3-2", confidence="from memory")
def row_tear_out(n_i: Ratio, F_v_p: Stress, t: Length, s_crit: Length) -> Force:
    """Row tear-out capacity of one row: two shear planes per fastener with a triangular shear stress.

    Parameters: n_i fasteners in the row; F_v_p adjusted shear value parallel to grain (psi); t thickness of the
    member, s_crit least of end distance and spacing (in). Returns: Z'_RTi (lb).
    Source: NDS 2018, Appendix E.3.

    >>> round(row_tear_out(3.0, 150.0, 1.5, 4.0), 3)
    2700.0
    """
    Z_RTi_p: Force = n_i * F_v_p * t * s_crit
    return Z_RTi_p


@formula("NDS 2018, equation E.3-3", confidence="from memory")
def rows_tear_out(n_row: Ratio, Z_RTi_p: Force) -> Force:
    """Row tear-out capacity of like rows together.

    Parameters: n_row number of rows; Z_RTi_p capacity of one row (lb). Returns: Z'_RT (lb).
    Source: NDS 2018, Appendix E.3, the sum over the rows.

    >>> round(rows_tear_out(2.0, 2700.0), 3)
    5400.0
    """
    Z_RT_p: Force = n_row * Z_RTi_p
    return Z_RT_p


@formula("NDS 2018, Appendix E.4", confidence="from memory")
def group_net_area(t: Length, n_row: Ratio, s_row: Length, D_hole: Length) -> Area:
    """Net section between the outer rows of a group.

    Parameters: t thickness, s_row spacing between rows, D_hole hole diameter (in); n_row number of rows.
    Returns: A_group,net (in²). Source: NDS 2018, Appendix E.4: from center to center of the outer rows.

    >>> round(group_net_area(1.5, 3.0, 2.0, 0.5), 3)
    4.5
    """
    A_group: Area = t * (n_row - 1) * (s_row - D_hole)
    return A_group


@formula("NDS 2018, equation E.4-1", confidence="from memory")
def group_tear_out(Z_RT1_p: Force, Z_RTn_p: Force, F_t_p: Stress, A_group: Area) -> Force:
    """Group tear-out capacity: half of both outer rows in shear and the section between them in tension.

    Parameters: Z_RT1_p, Z_RTn_p row tear-out of the outer rows (lb); F_t_p adjusted tension value (psi);
    A_group net section between the outer rows (in²). Returns: Z'_GT (lb). Source: NDS 2018, Appendix E.4.

    >>> round(group_tear_out(2700.0, 2700.0, 500.0, 4.5), 3)
    4950.0
    """
    Z_GT_p: Force = Z_RT1_p / 2 + Z_RTn_p / 2 + F_t_p * A_group
    return Z_GT_p
