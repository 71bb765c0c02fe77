"""Earthquake beside wind and sway: the base shear of a light, low platform by ASCE 7-16.

Only the total lateral force is found, to be compared with what the platform is designed for already. Vertical
shaking, drift in an earthquake and the tree's own movement are not.
"""

from __future__ import annotations

from numpy import maximum

from bolewright.formulas import formula
from bolewright.units import AreaFeet, AreaLoad, Force, Ratio

RESPONSE_MODIFICATION = 1.5  # R of Table 12.2-1: cantilevered column systems, timber frames
IMPORTANCE = 1.0  # I_e of Table 1.5-2, risk category I or II
HEAVY_SNOW = 30.0  # psf: flat roof snow above which a fifth of it counts as weight (12.7.2)
SNOW_SHARE = 0.2  # of uniform design snow (12.7.2)


@formula("ASCE 7-16, 12.7.2")
def seismic_weight_with_snow(D: Force, s_S: Ratio, p_f: AreaLoad, A: AreaFeet) -> Force:
    """Effective seismic weight where the snow load is over 30 psf.

    Parameters: D dead load, with the posts above grade (lb); s_S share of the snow that counts, 0.2; p_f snow load
    (psf); A area of the deck (ft²). Returns: W (lb). Source: ASCE 7-16, 12.7.2, item 4.

    >>> seismic_weight_with_snow(2000.0, 0.2, 40.0, 100.0)
    2800.0
    """
    W: Force = D + s_S * p_f * A
    return W


@formula("ASCE 7-16, 12.8.1.1")
def seismic_response_coefficient(S_DS: Ratio, R: Ratio, I_e: Ratio) -> Ratio:
    """Seismic response coefficient of a stiff, low structure, without what a long period would take off.

    Parameters: S_DS design spectral acceleration at short periods (in g); R response modification, 1.5 for timber
    frames as cantilevered columns; I_e importance factor. Returns: C_s.
    Source: ASCE 7-16, equations 12.8-2 and 12.8-5 (at least 0.01).

    >>> round(float(seismic_response_coefficient(0.3, 1.5, 1.0)), 3)
    0.2
    """
    C_1: Ratio = S_DS * I_e / R  # 12.8-2, S_DS / (R / I_e)
    C_s: Ratio = maximum(C_1, 0.01)  # 12.8-5
    return C_s


@formula("ASCE 7-16, 12.8.1 and 2.4.5")
def seismic_force_allowable(C_s: Ratio, W: Force) -> Force:
    """Seven tenths of the seismic base shear, as in combinations of allowable stress design.

    Parameters: C_s response coefficient; W effective seismic weight (lb). Returns: E (lb).
    Source: ASCE 7-16, equation 12.8-1 (V = C_s W) and 2.4.5 (0.7 E).

    >>> round(seismic_force_allowable(0.2, 2000.0), 6)
    280.0
    """
    E: Force = 0.7 * C_s * W
    return E
