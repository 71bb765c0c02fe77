"""Shear of rectangular sawn members: stress, loads near a support, notches, connections (NDS 2018, 3.4)."""

from __future__ import annotations

from typing import Any

import numpy as np

from bolewright.formulas import formula, unit_aware
from bolewright.units import INCH, Area, Force, Length, LineLoadInch, Stress


@formula("NDS 2018, 3.4.2")
def shear_stress(V: Force, b: Length, d: Length) -> Stress:
    """Greatest shear stress parallel to grain in a rectangular section.

    Parameters: V shear (lb); b breadth (in); d depth (in). Returns: f_v (psi).
    Source: NDS 2018, 3.4.2, equation 3.4-2.

    >>> round(shear_stress(1000.0, 1.5, 10.0), 3)
    100.0
    """
    f_v: Stress = 3 * V / (2 * b * d)
    return f_v


@formula("NDS 2018, 3.4.3.1(a)")
def shear_at_depth(V: Force, w: LineLoadInch, d: Length) -> Force:
    """Shear with the uniform load within the depth d of the support's face left out.

    When it applies: only where :func:`shear_at_depth_allowed` says so.
    Parameters: V shear at the face of the support (lb); w uniform load (lb/in); d depth (in).
    Returns: V_d (lb). Source: NDS 2018, 3.4.3.1(a).

    >>> round(shear_at_depth(1000.0, 10.0, 10.0), 3)
    900.0
    """
    V_d: Force = V - w * d
    return V_d


@formula("NDS 2018, 3.4.3.1(a)")
def load_near_support(P: Force, x: Length, d: Length) -> Force:
    """Share of a concentrated load within d of the support that counts in shear.

    When it applies: x < d and :func:`shear_at_depth_allowed`. Parameters: P load (lb); x distance from the
    support's face to the load (in); d depth (in). Returns: P_d (lb). Source: NDS 2018, 3.4.3.1(a).

    >>> round(load_near_support(1000.0, 3.0, 10.0), 3)
    300.0
    """
    P_d: Force = P * x / d
    return P_d


def shear_at_depth_allowed(
    *,
    bears_on_one_face: bool,
    loaded_on_opposite_face: bool,
    notched_at_support: bool = False,
    connection_within_5d: bool = False,
) -> bool:
    """Whether loads within d of a support may be left out of the shear (NDS 2018, 3.4.3.1a).

    Only for full bearing on one face with the load on the opposite face; not where the end is notched
    (3.4.3.2), not where connections carry the member within 5d of its end (3.4.3.3a), not where joists hang
    on its side.
    """
    return bears_on_one_face and loaded_on_opposite_face and not (notched_at_support or connection_within_5d)


@formula("NDS 2018, 3.4.3")
def shear_capacity(F_v_p: Stress, b: Length, d: Length) -> Force:
    """Shear capacity of a whole rectangular section.

    Parameters: F_v_p adjusted shear value (psi); b breadth (in); d depth (in). Returns: V'_r (lb).
    Source: NDS 2018, 3.4.2 solved for V.

    >>> round(shear_capacity(150.0, 2.0, 12.0), 3)
    2400.0
    """
    V_r_p: Force = 2 / 3 * F_v_p * b * d
    return V_r_p


@formula("NDS 2018, 3.4.3.2(a)")
def notched_shear_tension(F_v_p: Stress, b: Length, d: Length, d_n: Length) -> Force:
    """Shear capacity at a notch on the tension face of a rectangular member's end.

    Parameters: F_v_p adjusted shear value (psi); b breadth (in); d depth (in); d_n depth left at the notch
    (in). Returns: V'_r (lb). Source: NDS 2018, 3.4.3.2(a), equation 3.4-3.

    One inch off a 9-1/4 in. joist costs 29 %:

    >>> round(1 - notched_shear_tension(175, 1.5, 9.25, 8.25) / shear_capacity(175, 1.5, 9.25), 2)
    0.29
    """
    V_r_p: Force = (2 / 3 * F_v_p * b * d_n) * (d_n / d) ** 2
    return V_r_p


@formula("NDS 2018, 3.4.3.2(b)", confidence="from memory")
def notched_shear_circular(F_v_p: Stress, A_n: Area, d: Length, d_n: Length) -> Force:
    """Shear capacity at a notch on the tension face of a round member's end.

    Parameters: F_v_p adjusted shear value (psi); A_n area left at the notch (in²); d diameter (in); d_n depth
    left (in). Returns: V'_r (lb). Source: NDS 2018, 3.4.3.2(b), equation 3.4-4.

    >>> round(notched_shear_circular(150.0, 60.0, 10.0, 8.0), 3)
    3840.0
    """
    V_r_p: Force = (2 / 3 * F_v_p * A_n) * (d_n / d) ** 2
    return V_r_p


@formula("NDS 2018, 3.4.3.2(e)", confidence="from memory")
def notched_shear_compression(F_v_p: Stress, b: Length, d: Length, d_n: Length, e: Length) -> Force:
    """Shear capacity at a notch on the compression face of a member's end, e <= d_n.

    Parameters: F_v_p adjusted shear value (psi); b breadth (in); d depth (in); d_n depth left (in);
    e distance of the notch past the inner edge of the support (in), from :func:`compression_notch_reach`.
    Returns: V'_r (lb). Source: NDS 2018, 3.4.3.2(e), equation 3.4-5; for e > d_n the depth left is the depth,
    which this equation gives with e = d_n.

    >>> round(notched_shear_compression(150.0, 2.0, 10.0, 8.0, 4.0), 3)
    1800.0
    """
    V_r_p: Force = 2 / 3 * F_v_p * b * (d - ((d - d_n) / d_n) * e)
    return V_r_p


@unit_aware(INCH.of)
def compression_notch_reach(e: Length, d_n: Length) -> Any:
    """Distance e for :func:`notched_shear_compression`: as measured, at most d_n (3.4.3.2(e)).

    At e = d_n the equation becomes 2/3 F'_v b d_n, the rule for e > d_n.
    """
    return np.minimum(e, d_n)


@formula("NDS 2018, 3.4.3.3(a)")
def connection_shear_near_end(F_v_p: Stress, b: Length, d: Length, d_e: Length) -> Force:
    """Shear capacity where a connection less than 5d from the member's end carries it.

    Parameters: F_v_p adjusted shear value (psi); b breadth (in); d depth (in); d_e depth from the loaded edge
    to the centre of the farthest fastener (in). Returns: V'_r (lb).
    Source: NDS 2018, 3.4.3.3(a), equation 3.4-6.

    >>> round(connection_shear_near_end(150.0, 2.0, 10.0, 8.0), 3)
    1024.0
    """
    V_r_p: Force = (2 / 3 * F_v_p * b * d_e) * (d_e / d) ** 2
    return V_r_p


@formula("NDS 2018, 3.4.3.3(b)")
def connection_shear_away_from_end(F_v_p: Stress, b: Length, d_e: Length) -> Force:
    """Shear capacity where a connection at least 5d from the member's end carries it.

    Parameters: F_v_p adjusted shear value (psi); b breadth (in); d_e depth from the loaded edge to the
    centre of the farthest fastener (in). Returns: V'_r (lb).
    Source: NDS 2018, 3.4.3.3(b), equation 3.4-7. The whole section is to be checked by 3.4.2 too.

    >>> round(connection_shear_away_from_end(150.0, 2.0, 8.0), 3)
    1600.0
    """
    V_r_p: Force = 2 / 3 * F_v_p * b * d_e
    return V_r_p


@unit_aware()
def connection_near_end(distance_to_end: Length, d: Length) -> Any:
    """Whether a connection is less than 5d from the member's end (3.4.3.3); arrays give arrays."""
    result = np.asarray(distance_to_end) < 5 * np.asarray(d)
    return bool(result) if result.ndim == 0 else result


@formula("NDS 2018, 4.4.3.1")
def end_notch_limit(d: Length) -> Length:
    """Greatest depth of a notch at the end of a sawn bending member.

    Parameters: d depth of the member (in). Returns: h_max (in). Source: NDS 2018, 4.4.3.1.

    >>> end_notch_limit(10.0)
    2.5
    """
    h_max: Length = d / 4
    return h_max


def notch_faults(
    *,
    depth_of_notch: float,
    d: float,
    b: float,
    at_end: bool,
    tension_side: bool,
    in_outer_thirds: bool = True,
) -> tuple[str, ...]:
    """Sentences for what NDS 4.4.3 forbids about a notch in a sawn bending member; empty when it is allowed.

    ``d`` and ``b`` are the member's actual depth and thickness, all in inches. A small tolerance of 1e-9
    keeps an exact d/4 allowed.

    >>> notch_faults(depth_of_notch=2.0, d=7.25, b=1.5, at_end=True, tension_side=True)
    ('an end notch 2 in. deep is more than a quarter of the depth 7.25 in. (NDS 4.4.3.1).',)
    """
    faults = []
    if at_end and depth_of_notch > float(end_notch_limit(d=d)) + 1e-9:
        faults.append(
            f"an end notch {depth_of_notch:g} in. deep is more than a quarter of the depth {d:g} in. "
            "(NDS 4.4.3.1)."
        )
    if not at_end:
        if depth_of_notch > d / 6 + 1e-9:
            faults.append(
                f"a notch {depth_of_notch:g} in. deep within the span is more than a sixth of the depth "
                f"{d:g} in. (NDS 4.4.3.2)."
            )
        if not in_outer_thirds:
            faults.append("a notch in the middle third of the span is not allowed (NDS 4.4.3.2).")
        if tension_side and b >= 3.5:
            faults.append(
                f"a notch within the span on the tension side is not allowed in a member {b:g} in. thick "
                "(3.5 in. or more, NDS 4.4.3.2)."
            )
    return tuple(faults)
