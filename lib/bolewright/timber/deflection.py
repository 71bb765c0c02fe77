"""Simple spans and overhangs, long-term deflection, design span, first frequency."""

from __future__ import annotations

from numpy import sqrt

from bolewright.formulas import formula
from bolewright.units import (
    AreaLoad,
    Force,
    Frequency,
    Length,
    LineLoadInch,
    Moment,
    Ratio,
    SecondMoment,
    Stress,
)


@formula("NDS 2018, 3.2.1")
def design_span(l_clear: Length, l_b1: Length, l_b2: Length) -> Length:
    """Design span of a simple, continuous or cantilevered member.

    Parameters: l_clear clear span (in); l_b1, l_b2 REQUIRED bearing lengths at the two ends (in; 0 for a
    hung end, which spans face to face). Returns: l (in). Source: NDS 2018, 3.2.1.

    >>> round(design_span(120.0, 3.0, 2.0), 3)
    122.5
    """
    l: Length = l_clear + l_b1 / 2 + l_b2 / 2
    return l


@formula("statics", homogeneous=False)
def line_load(q: AreaLoad, s: Length) -> LineLoadInch:
    """Load per inch of a member from a load per area over its tributary width.

    Parameters: q load (psf); s tributary width or spacing (in). Returns: w (lb/in).
    Source: statics; 144 in² are 1 ft².

    >>> round(12 * line_load(50, 16), 2)
    66.67
    """
    w: LineLoadInch = q * s / 144
    return w


@formula("statics")
def simple_span_moment(w: LineLoadInch, l: Length) -> Moment:
    """Largest moment of a simple span under uniform load.

    Parameters: w load (lb/in); l span (in). Returns: M (lb·in). Source: statics, AWC Design Aid 6 fig. 1.

    >>> round(simple_span_moment(10.0, 120.0), 3)
    18000.0
    """
    M: Moment = w * l**2 / 8
    return M


@formula("statics")
def simple_span_shear(w: LineLoadInch, l: Length) -> Force:
    """Shear and reaction at the end of a simple span under uniform load.

    Parameters: w load (lb/in); l span (in). Returns: V (lb). Source: statics, AWC Design Aid 6 fig. 1.

    >>> round(simple_span_shear(10.0, 120.0), 3)
    600.0
    """
    V: Force = w * l / 2
    return V


@formula("statics")
def simple_span_deflection(w: LineLoadInch, l: Length, E_p: Stress, I: SecondMoment) -> Length:
    """Deflection at mid-span of a simple span under uniform load.

    Parameters: w load (lb/in); l span (in); E_p adjusted modulus (psi); I second moment of area (in⁴).
    Returns: deflection (in). Source: elastic beam theory, AWC Design Aid 6 fig. 1.

    >>> round(simple_span_deflection(8.0, 120.0, 1_500_000.0, 48.0), 6)
    0.3
    """
    delta: Length = 5 * w * l**4 / (384 * E_p * I)
    return delta


@formula("statics")
def point_load_moment(P: Force, l: Length) -> Moment:
    """Moment of a simple span under a point load at mid-span.

    Parameters: P load (lb); l span (in). Returns: M (lb·in). Source: statics.

    >>> round(point_load_moment(300.0, 120.0), 3)
    9000.0
    """
    M: Moment = P * l / 4
    return M


@formula("statics")
def point_load_shear(P: Force) -> Force:
    """Shear and reaction at either end of a simple span under a point load at mid-span.

    Parameters: P load (lb). Returns: V (lb). Source: statics.

    >>> point_load_shear(300.0)
    150.0
    """
    V: Force = P / 2
    return V


@formula("statics")
def moment_of_both(M_w: Moment, M_P: Moment) -> Moment:
    """Moment at mid-span of a uniform load and a point load together.

    Parameters: M_w moment of the uniform load (lb·in); M_P moment of the point load (lb·in).
    Returns: M (lb·in). Source: statics, both are largest at mid-span.

    >>> round(moment_of_both(18_000.0, 9000.0), 3)
    27000.0
    """
    M: Moment = M_w + M_P
    return M


@formula("statics")
def overhang_tip_deflection(P: Force, a: Length, l: Length, E_p: Stress, I: SecondMoment) -> Length:
    """Deflection at the end of an overhang under a point load there, with the backspan's turn.

    Parameters: P load (lb); a overhang (in); l backspan (in); E_p adjusted modulus (psi); I second moment of
    area (in⁴). Returns: deflection (in). Source: elastic beam theory, AWC Design Aid 6 fig. 20 (AISC Table 3-23, 26).

    >>> round(overhang_tip_deflection(200.0, 30.0, 120.0, 1_500_000.0, 50.0), 6)
    0.12
    """
    delta: Length = P * a**2 * (l + a) / (3 * E_p * I)
    return delta


@formula("statics")
def overhang_moment(w: LineLoadInch, P: Force, a: Length) -> Moment:
    """Moment over the support of an overhang under uniform load and a point load at its end.

    Parameters: w uniform load (lb/in); P point load (lb); a overhang (in). Returns: M (lb·in).
    Source: statics.

    >>> round(overhang_moment(10.0, 200.0, 24.0), 3)
    7680.0
    """
    M: Moment = w * a**2 / 2 + P * a
    return M


@formula("statics")
def overhang_reaction(w: LineLoadInch, l: Length, a: Length) -> Force:
    """Reaction at the inner support of a span with an overhang, both under uniform load.

    Parameters: w load (lb/in); l backspan (in); a overhang (in). Returns: R (lb). Source: statics.

    >>> round(overhang_reaction(10.0, 100.0, 20.0), 3)
    720.0
    """
    R: Force = w * (l + a) ** 2 / (2 * l)
    return R


@formula("NDS 2018, 3.5.2")
def total_deflection(K_cr: Ratio, delta_LT: Length, delta_ST: Length) -> Length:
    """Total deflection with the creep of the long-term part.

    Parameters: K_cr creep factor, from :func:`creep_factor`; delta_LT immediate deflection under the
    sustained load (in); delta_ST under the short-term load (in). Returns: Delta_T (in).
    Source: NDS 2018, 3.5.2.

    >>> round(total_deflection(1.5, 0.2, 0.1), 6)
    0.4
    """
    Delta_T: Length = K_cr * delta_LT + delta_ST
    return Delta_T


def creep_factor(*, wet: bool, seasoned: bool = True) -> float:
    """K_cr of 3.5.2: 1.5 for seasoned lumber in dry service, 2.0 for wet service or unseasoned lumber.

    >>> creep_factor(wet=True)
    2.0
    """
    return 2.0 if wet or not seasoned else 1.5


@formula("common practice", confidence="common practice")
def deflection_that_moves(delta_D: Length, delta_L: Length) -> Length:
    """Deflection under the weight that swings with a floor: all that is dead, and the few people that stay.

    Parameters: delta_D under dead load (in); delta_L under live load (in). Returns: delta_E (in), with the modulus
    that those were found with. Source: common practice (one tenth of the live load).

    >>> round(deflection_that_moves(0.05, 0.2), 3)
    0.07
    """
    delta_E: Length = delta_D + 0.1 * delta_L
    return delta_E


@formula("Dunkerley's rule", confidence="common practice")
def deflection_of_joist_and_beam(delta_j: Length, delta_c: Length) -> Length:
    """Deflection that stands for a joist swinging on a beam that swings too.

    When it applies: 1/f² = 1/f_j² + 1/f_c², which adds the deflections. Parameters: delta_j of the joist on rigid
    seats (in); delta_c of its beam (in). Returns: delta (in). Source: Dunkerley's rule, a lower bound.

    >>> round(deflection_of_joist_and_beam(0.07, 0.03), 2)
    0.1
    """
    delta: Length = delta_j + delta_c
    return delta


@formula("common practice", confidence="common practice", homogeneous=False)
def first_frequency(delta: Length) -> Frequency:
    """First natural frequency of a floor member from its deflection under the load that moves with it.

    When it applies: report only; 8 Hz and up feels firm. Parameters: delta deflection under dead load and the
    people that stay (in). Returns: f_1 (Hz). Source: f = 0.18 sqrt(g/delta), common practice;
    g = 386.1 in/s².

    A deflection of g/10,000 makes the root 100:

    >>> round(float(first_frequency(0.03861)), 3)
    18.0
    """
    f_1: Frequency = 0.18 * sqrt(386.1 / delta)
    return f_1
