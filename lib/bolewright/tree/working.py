"""From the mean of green clear wood to a working value, step by step as ASTM D245 and D2555 do it.

For trunk bending and for the service pressure under a bolt. Never for F_e: R_d already holds all of this.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from bolewright.formulas import formula
from bolewright.reference import load
from bolewright.tree.species import TrunkWood
from bolewright.units import Length, Ratio, Stress


class Property(Enum):
    """Strength property of green clear wood that has a working value."""

    BENDING = "bending"
    CRUSHING = "crushing"
    SHEAR = "shear"
    PERPENDICULAR = "perpendicular"


@dataclass(frozen=True)
class Reduction:
    """Coefficient of variation and the D245 divisor for one property and kind of wood."""

    variation: float
    divisor: float
    confidence: str
    source: str


def reduction(wood: TrunkWood, prop: Property) -> Reduction:
    """Coefficient of variation and divisor for a trunk's wood.

    The standard deviation of ASTM D2555 where the species has one there, else the handbook's average.
    """
    table = load("astm_d245_reduction")
    row = table.row(property=prop.value, kind=wood.kind)
    measured = {
        Property.BENDING: wood.MOR_cov,
        Property.CRUSHING: wood.C_par_cov,
        Property.SHEAR: wood.shear_cov,
        Property.PERPENDICULAR: None,
    }
    own = measured[prop]
    return Reduction(
        variation=row["variation"] if own is None else own,
        divisor=row["divisor"],
        confidence=table.confidence(row),
        source=table.source if own is None else f"{table.source}; ASTM D2555 standard deviation",
    )


@formula("ASTM D2555, D245 (5 % exclusion)", confidence="from memory")
def exclusion_value(X: Stress, V: Ratio) -> Stress:
    """Strength of green clear wood that 95 of 100 pieces exceed.

    Parameters: X mean strength of green clear wood (psi); V coefficient of variation. Returns: X_05 5 % exclusion value
    (psi). Source: ASTM D2555, D245: mean less 1.645 standard deviations.

    >>> round(exclusion_value(10_000.0, 0.2), 3)
    6710.0
    """
    X_05: Stress = X * (1 - 1.645 * V)
    return X_05


@formula("ASTM D245 (duration and safety; strength ratio)", confidence="from memory")
def working_value(X_05: Stress, K: Ratio, R_s: Ratio) -> Stress:
    """Working value of green trunk wood for normal duration.

    Parameters: X_05 5 % exclusion value (psi); K divisor for duration and safety: bending 2.3, crushing 2.1 for
    hardwood; 2.1 and 1.9 for softwood; R_s strength ratio for knots and slope of grain, 1.0 where the wood is clear.
    Returns: F_w working value (psi). Source: ASTM D245 Table 8.

    >>> round(working_value(6900.0, 2.3, 0.8), 3)
    2400.0
    """
    F_w: Stress = X_05 * R_s / K
    return F_w


@formula("ASTM D245; NDS 2018, 2.3.2", confidence="judgement, engineer to confirm")
def working_value_in_case(F_w: Stress, C_D: Ratio) -> Stress:
    """Working value of green trunk wood in a combination.

    Parameters: F_w working value for normal duration (psi); C_D load duration factor of the combination. Returns: F
    stress (psi). Source: ASTM D245 for lumber, NDS 2018 Table 2.3.2; not for pressure across the grain.

    >>> working_value_in_case(1000.0, 1.6)
    1600.0
    """
    F: Stress = F_w * C_D
    return F


@formula("ASTM D245 (depth effect, (2/d)^(1/9))", confidence="from memory", homogeneous=False)
def depth_effect(d: Length) -> Ratio:
    """Reduction of bending strength with depth, from the 2 in. test piece to the trunk.

    Parameters: d diameter of sound wood (in). Returns: C_d factor on the working value in bending. Source: ASTM D245;
    for a round trunk judgement.

    An eighth to the power 1/9 is 1 over the cube root of 2:

    >>> round(depth_effect(16.0), 3)
    0.794
    """
    C_d: Ratio = (2 / d) ** (1 / 9)
    return C_d
