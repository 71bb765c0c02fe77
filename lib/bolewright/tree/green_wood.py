"""Green trunk wood under a bolt: specific gravity, dowel bearing strength, force per length of bolt."""

from __future__ import annotations

from numpy import cos, minimum, pi, sin, sqrt

from bolewright.formulas import Limit, formula
from bolewright.units import Angle, Length, LineLoadInch, Ratio, Stress

OUTSIDE_NDS_DIAMETER = Limit(
    0.25,
    1.0,
    "The NDS gives R_d for dowels from 1/4 in. to 1 in. only (12.3.1B): extrapolated above 1 in., "
    "engineer to confirm.",
)


@formula("USDA Wood Handbook, ch. 4 (volumetric shrinkage)")
def oven_dry_specific_gravity(G_b: Ratio, S_vol: Ratio) -> Ratio:
    """Specific gravity on oven-dry volume, from the handbook's green-volume value.

    The NDS equations are written for G on oven-dry weight and volume; the green column of the Wood Handbook
    is on green volume. Printed for comparison only: the bearing strength below stays with the lower G_b.

    Parameters: G_b specific gravity, oven-dry weight and green volume; S_vol volumetric shrinkage from green to oven
    dry, as a ratio (0.127 for 12.7 %). Returns: Specific gravity on oven-dry weight and volume. Source: USDA FPL Wood
    Handbook, ch. 4, Table 4-3 for S_vol.

    >>> round(oven_dry_specific_gravity(0.58, 0.127), 2)
    0.66
    """
    G_0: Ratio = G_b / (1 - S_vol)
    return G_0


@formula("USDA Wood Handbook, ch. 4 (shrinkage estimated)", confidence="from memory")
def oven_dry_specific_gravity_estimated(G_b: Ratio) -> Ratio:
    """Specific gravity on oven-dry volume where no volumetric shrinkage is tabulated.

    Parameters: G_b specific gravity, oven-dry weight and green volume. Returns: Specific gravity on oven-dry weight and
    volume. Source: USDA FPL Wood Handbook, ch. 4: volumetric shrinkage about 26.5 % x G_b.

    >>> round(oven_dry_specific_gravity_estimated(0.58), 2)
    0.69
    """
    S_vol: Ratio = 0.265 * G_b
    G_0: Ratio = G_b / (1 - S_vol)
    return G_0


@formula(
    "NDS 2018, 12.3.3 and Table 11.3.3, capped by green crushing strength",
    confidence="judgement, engineer to confirm",
    homogeneous=False,
)
def trunk_bearing_parallel(G_b: Ratio, F_cg: Stress) -> Stress:
    """Dowel bearing strength of green trunk wood along the grain.

    For a vertical load on a bolt in a standing trunk. The wet factor 0.7 stands here, once: do not apply it to
    the yield value again. The mean green crushing strength caps it, since 0.7 suits softwoods and is
    1.4 times too high for bur oak. No ASTM D245 reduction: R_d already holds variability and duration.

    Parameters: G_b specific gravity, oven-dry weight and green volume; F_cg mean crushing strength of green clear wood
    along the grain (psi). Returns: F_e_par bearing strength along the grain, green (psi). Source: NDS 2018 12.3.3
    (11200 G), Table 11.3.3 (0.7, in service above 19 %); the cap and the use of G on green volume are this workbook's
    judgement.

    >>> round(trunk_bearing_parallel(0.58, 3290))  # bur oak: capped, 4547 psi otherwise
    3290
    >>> round(float(trunk_bearing_parallel(0.5, 5000.0)), 3)
    3920.0
    """
    F_e: Stress = 11200 * G_b  # 12.3.3
    C_M: Ratio = 0.7  # Table 11.3.3
    F_e_wet: Stress = C_M * F_e
    F_e_par: Stress = minimum(F_e_wet, F_cg)  # cap
    return F_e_par


@formula(
    "NDS 2018, 12.3.3 and Table 11.3.3",
    limits={"D": OUTSIDE_NDS_DIAMETER},
    confidence="judgement, engineer to confirm",
    homogeneous=False,
)
def trunk_bearing_perpendicular(G_b: Ratio, D: Length) -> Stress:
    """Dowel bearing strength of green trunk wood across the grain.

    For the horizontal part of a load on the bolt: sway, wind, a tie, friction.

    Parameters: G_b specific gravity, oven-dry weight and green volume; D diameter of the steel in contact with the wood
    (in); root diameter if threaded. Returns: F_e_perp bearing strength across the grain, green (psi). Source: NDS 2018
    12.3.3 (6100 G^1.45 / sqrt(D)), Table 11.3.3 (0.7).

    >>> float(round(trunk_bearing_perpendicular(0.58, 1.5), -1))
    1580.0
    """
    F_e: Stress = 6100 * G_b**1.45 / sqrt(D)  # 12.3.3
    C_M: Ratio = 0.7  # Table 11.3.3
    F_e_perp: Stress = C_M * F_e
    return F_e_perp


@formula("NDS 2018, 12.3.4 (Hankinson)")
def trunk_bearing_at_angle(F_e_par: Stress, F_e_perp: Stress, theta: Angle) -> Stress:
    """Dowel bearing strength for a load inclined to the trunk's grain.

    Parameters: F_e_par, F_e_perp bearing strength along and across the grain (psi); theta angle of the resultant load
    to the grain (°), 0 for a vertical load on an upright trunk. Returns: F_e_theta bearing strength at that angle
    (psi). Source: NDS 2018 12.3.4.

    At 30 degrees sin² is 1/4 and cos² 3/4: 12,000,000/(1500 + 1500).

    >>> round(float(trunk_bearing_at_angle(6000.0, 2000.0, 30.0)), 3)
    4000.0
    """
    alpha: Ratio = pi / 180 * theta  # radians
    F_e_theta: Stress = F_e_par * F_e_perp / (F_e_par * sin(alpha) ** 2 + F_e_perp * cos(alpha) ** 2)
    return F_e_theta


@formula(
    "EN 1995-1-1, 8.5.1.1 (size effect, sensitivity only)",
    confidence="judgement, engineer to confirm",
    homogeneous=False,
)
def bearing_size_sensitivity(D: Length) -> Ratio:
    """How much lower the bearing strength along the grain would be than at 1 in., were size counted.

    The NDS has no size effect along the grain; EN 1995 has (1 - 0.01 d), d in mm. A sensitivity, not applied.

    Parameters: D bolt diameter (in). Returns: Ratio to the strength at 1 in. Source: EN 1995-1-1:2004 8.5.1.1, equation
    (8.32), from memory.

    >>> round(bearing_size_sensitivity(1.5), 2)
    0.83
    """
    k_D: Ratio = 1 - 0.01 * 25.4 * D
    k_1: Ratio = 1 - 0.01 * 25.4
    k_size: Ratio = k_D / k_1
    return k_size


@formula("AWC TR12 (force per length of dowel)", limits={"D": OUTSIDE_NDS_DIAMETER})
def bearing_per_length(F_e: Stress, D: Length) -> LineLoadInch:
    """Force per length of bolt at which the wood under it yields.

    Parameters: F_e bearing strength of the wood in the direction of the load (psi); D diameter of the steel in contact
    with the wood (in). Returns: q force per length (lb/in). Source: AWC Technical Report 12, general dowel equations.

    >>> round(bearing_per_length(4000.0, 1.25), 3)
    5000.0
    """
    q: LineLoadInch = F_e * D
    return q
