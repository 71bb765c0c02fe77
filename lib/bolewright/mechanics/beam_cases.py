"""Cases of beam tables: three moments, and deflections to be added up.

Figures are those of AWC Design Aid 6 (2007), which has the cases of the AISC Manual, Table 3-23, in another order;
figure and formula from memory unless the elastic line is worked out in the docstring. Moments are positive where they
bend the beam down, deflections downward.
"""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Force, Length, LineLoadInch, Moment, SecondMoment, Stress


@formula("Three-moment equation (Clapeyron)")
def three_moments(M_1: Moment, M_3: Moment, M_f1: Moment, M_f2: Moment, l_1: Length, l_2: Length) -> Moment:
    """Moment over the middle one of three supports at one level.

    When it applies: one section throughout. M_1 l_1 + 2 M_2 (l_1 + l_2) + M_3 l_2 = -2 M_f1 l_1 - 2 M_f2 l_2; the right
    side is 6 A a / l of the books, of which 2 M_f l is the same written with a moment that tables have.
    Parameters: M_1, M_3 moments over the outer supports (lb·in); M_f1, M_f2 moments (taken positive) that the loads of
    either span would make at the middle support if the beam were fixed there (lb·in); l_1, l_2 spans (in).
    Returns: M_2 (lb·in), negative over a support. Source: Clapeyron's theorem of three moments.

    Two equal spans under uniform load, w l²/8 each, leave w l²/8:

    >>> three_moments(0.0, 0.0, 18_000.0, 18_000.0, 120.0, 120.0)
    -18000.0
    """
    M_2: Moment = -(l_1 * (M_1 + 2 * M_f1) + l_2 * (M_3 + 2 * M_f2)) / (2 * (l_1 + l_2))
    return M_2


@formula("elastic beam theory: AWC Design Aid 6, fig. 1")
def uniform_load_deflection(w: LineLoadInch, x: Length, l: Length, E: Stress, I: SecondMoment) -> Length:
    """Deflection at any point of a simple span under uniform load.

    Parameters: w load (lb/in); x from a support (in); l span (in); E modulus (psi); I second moment of area (in⁴).
    Returns: delta (in). Source: AWC Design Aid 6, fig. 1.

    At mid-span 5 w l⁴/(384 E I):

    >>> round(uniform_load_deflection(8.0, 60.0, 120.0, 1_500_000.0, 48.0), 6)
    0.3
    """
    delta: Length = w * x * (l**3 - 2 * l * x**2 + x**3) / (24 * E * I)
    return delta


@formula("elastic beam theory: load that grows from 0 over a simple span")
def growing_load_deflection(w: LineLoadInch, x: Length, l: Length, E: Stress, I: SecondMoment) -> Length:
    """Deflection at any point of a simple span under a load that grows from 0 at one support to the other.

    Parameters: w load at the other support (lb/in); x from the support where it is 0 (in); l span (in); E modulus
    (psi); I second moment of area (in⁴). Returns: delta (in).
    Source: elastic line, E I delta'''' = w x / l with delta and M 0 at both ends.

    At mid-span half of what w over the whole span does, 2.5 w l⁴/(384 E I):

    >>> round(growing_load_deflection(7.68, 50.0, 100.0, 1_000_000.0, 50.0), 6)
    0.1
    """
    delta: Length = w * x * (7 * l**4 - 10 * l**2 * x**2 + 3 * x**4) / (360 * E * I * l)
    return delta


@formula("elastic beam theory: AWC Design Aid 6, fig. 8")
def point_load_deflection(P: Force, b: Length, x: Length, l: Length, E: Stress, I: SecondMoment) -> Length:
    """Deflection of a simple span at a point that a point load does not lie before.

    Parameters: P load (lb); b its distance from one support (in); x the point's distance from the other, at most l - b
    (in); l span (in); E modulus (psi); I second moment of area (in⁴). Returns: delta (in).
    Source: AWC Design Aid 6, fig. 8.

    At mid-span P l³/(48 E I):

    >>> round(point_load_deflection(480.0, 50.0, 50.0, 100.0, 1_000_000.0, 50.0), 6)
    0.2
    """
    delta: Length = P * b * x * (l**2 - b**2 - x**2) / (6 * E * I * l)
    return delta


@formula("elastic beam theory: simple beam with a moment at either end")
def end_moment_deflection(
    M_1: Moment, M_2: Moment, x: Length, l: Length, E: Stress, I: SecondMoment
) -> Length:
    """Deflection of a span by the moments over its supports; the simple span's is added.

    Parameters: M_1, M_2 moments over its supports, negative where they bend it up (lb·in); x from the support of M_1
    (in); l span (in); E modulus (psi); I second moment of area (in⁴). Returns: delta (in).
    Source: elastic line of a simple beam under a moment that runs straight from M_1 to M_2; M_e is the even moment that
    would bend it as much at x.

    Equal moments bend it to M l²/(8 E I):

    >>> round(end_moment_deflection(-4000.0, -4000.0, 50.0, 100.0, 1_000_000.0, 50.0), 6)
    -0.1
    """
    M_e: Moment = (M_1 * (2 * l - x) + M_2 * (l + x)) / (3 * l)
    delta: Length = x * (l - x) * M_e / (2 * E * I)
    return delta


@formula("elastic beam theory: AWC Design Aid 6, figs. 18 to 21")
def overhang_turned_deflection(
    M_f: Moment, M_s: Moment, M_t: Moment, l: Length, a: Length, E: Stress, I: SecondMoment
) -> Length:
    """Deflection of an overhang's end by the slope over its support; the cantilever's is added.

    Parameters: M_f moment that the loads of the backspan would make at the support if it were fixed there (lb·in, taken
    positive); M_s, M_t moments over that support and the other one, negative over a support (lb·in); l backspan (in);
    a overhang (in); E modulus (psi); I second moment of area (in⁴). Returns: delta (in).
    Source: slope of a simple span at its end, l (2 M_f + 2 M_s + M_t)/(6 E I).

    Uniform load on the backspan alone lifts the end by w l³ a/(24 E I):

    >>> round(overhang_turned_deflection(15_000.0, 0.0, 0.0, 100.0, 20.0, 1_000_000.0, 50.0), 6)
    -0.2
    """
    delta: Length = -a * l * (2 * M_f + 2 * M_s + M_t) / (6 * E * I)
    return delta


@formula("elastic beam theory: AWC Design Aid 6, fig. 12")
def cantilever_deflection(w: LineLoadInch, a: Length, E: Stress, I: SecondMoment) -> Length:
    """Deflection at the end of a cantilever under uniform load.

    Parameters: w load (lb/in); a its length (in); E modulus (psi); I second moment of area (in⁴).
    Returns: delta (in). Source: AWC Design Aid 6, fig. 12.

    >>> round(cantilever_deflection(4.0, 100.0, 1_000_000.0, 50.0), 6)
    1.0
    """
    delta: Length = w * a**4 / (8 * E * I)
    return delta


@formula("elastic beam theory: cantilever with a load that grows")
def cantilever_growing_deflection(
    w_r: LineLoadInch, w_t: LineLoadInch, a: Length, E: Stress, I: SecondMoment
) -> Length:
    """Deflection at the end of a cantilever under a load that grows or shrinks evenly along it.

    Parameters: w_r load at the fixed end, w_t at the free end (lb/in); a its length (in); E modulus (psi); I second
    moment of area (in⁴). Returns: delta (in).
    Source: the point load's added up along it; w_r alone w a⁴/(30 E I), w_t alone 11 w a⁴/(120 E I).

    >>> round(cantilever_growing_deflection(4.0, 4.0, 100.0, 1_000_000.0, 50.0), 6)
    1.0
    """
    delta: Length = a**4 * (4 * w_r + 11 * w_t) / (120 * E * I)
    return delta


@formula("elastic beam theory: AWC Design Aid 6, fig. 14")
def cantilever_point_deflection(P: Force, b: Length, a: Length, E: Stress, I: SecondMoment) -> Length:
    """Deflection at the end of a cantilever under a point load anywhere on it.

    Parameters: P load (lb); b its distance from the fixed end (in); a length of the cantilever (in); E modulus (psi);
    I second moment of area (in⁴). Returns: delta (in). Source: AWC Design Aid 6, fig. 14; at the end P a³/(3 E I).

    >>> round(cantilever_point_deflection(15.0, 100.0, 100.0, 1_000_000.0, 50.0), 6)
    0.1
    """
    delta: Length = P * b**2 * (3 * a - b) / (6 * E * I)
    return delta


@formula("elastic beam theory: cantilever with a couple")
def cantilever_couple_deflection(C: Moment, b: Length, a: Length, E: Stress, I: SecondMoment) -> Length:
    """Deflection at the end of a cantilever under a couple anywhere on it.

    Parameters: C couple, positive where it bends the end down (lb·in); b its distance from the fixed end (in); a length
    of the cantilever (in); E modulus (psi); I second moment of area (in⁴). Returns: delta (in).
    Source: derivative of the point load's; at the end C a²/(2 E I).

    >>> round(cantilever_couple_deflection(1000.0, 100.0, 100.0, 1_000_000.0, 50.0), 6)
    0.1
    """
    delta: Length = C * b * (2 * a - b) / (2 * E * I)
    return delta
