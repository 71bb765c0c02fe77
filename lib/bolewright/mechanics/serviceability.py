"""Deflections brought to the modulus in service, and the limits they are held against."""

from __future__ import annotations

from bolewright.formulas import formula
from bolewright.units import Length, Ratio, Stress


@formula("elastic beam theory")
def deflection_in_service(delta_E: Length, E: Stress, E_p: Stress) -> Length:
    """Deflection with the adjusted modulus, from the one found with the reference modulus.

    When it applies: linear elastic members on supports that do not give way.
    Parameters: delta_E deflection found with E (in); E reference modulus (psi); E_p adjusted modulus (psi).
    Returns: delta (in). Source: elastic beam theory, deflection goes as 1/E.

    >>> round(deflection_in_service(0.18, 1_400_000, 1_260_000), 4)
    0.2
    """
    delta: Length = delta_E * E / E_p
    return delta


@formula("Span over its divisor (floors: IRC 2021, Table R301.7)", confidence="from memory")
def deflection_limit(l: Length, n: Ratio) -> Length:
    """Greatest deflection allowed of a span.

    Parameters: l span (in), for an overhang twice its length (footnote of the table); n the divisor, such as 360.
    Returns: delta_max (in). Source: IRC 2021, Table R301.7 and IBC 2021, Table 1604.3, for floors and what
    carries them; for deck boards common practice.

    >>> deflection_limit(144, 360)
    0.4
    """
    delta_max: Length = l / n
    return delta_max
