"""Soil: presumptive values of IBC Table 1806.2, bearing pressure (allowable stress), footing size."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

import numpy as np
from numpy import maximum, minimum, pi, sqrt

from bolewright.formulas import formula
from bolewright.reference import load
from bolewright.units import AreaFeet, AreaLoad, Feet, Force, Ratio


@dataclass(frozen=True)
class SoilClass:
    """One class of IBC Table 1806.2: allowable bearing and lateral bearing, sliding resistance."""

    number: int
    name: str
    vertical: float  # psf
    lateral: float  # psf per ft of depth below natural grade
    friction: float  # x dead load; 0 for class 5
    cohesion: float  # psf x contact area; 0 but for class 5
    confidence: str
    source: str


class SoilGroup(StrEnum):
    """Classes of soil of the table, as a project file writes them."""

    BEDROCK = "class 1"
    FOLIATED_ROCK = "class 2"
    GRAVEL = "class 3"
    SAND = "class 4"
    CLAY = "class 5"

    @property
    def number(self) -> int:
        """Number of the class, rock first."""
        return list(SoilGroup).index(self) + 1

    @property
    def values(self) -> SoilClass:
        """Presumptive values of the class.

        >>> SoilGroup("class 4").values.vertical
        2000.0
        """
        return soil_class(self.number)


def soil_class(number: int) -> SoilClass:
    """Presumptive values of a soil class, 1 (bedrock) to 5 (clay and silt).

    Raises :class:`ValueError` for another number. Soft, organic or unprepared fill soils are in no class.

    >>> soil_class(4).vertical, soil_class(4).lateral
    (2000.0, 150.0)
    """
    table = load("soil_classes")
    if number not in (1, 2, 3, 4, 5):
        raise ValueError(f"soil class {number} is not one of 1 to 5 (IBC Table 1806.2)")
    row = table.row(soil_class=float(number))
    return SoilClass(
        number=number,
        name=str(row["name"]),
        vertical=row["vertical_psf"],
        lateral=row["lateral_psf_per_ft"],
        friction=row["friction"],
        cohesion=row["cohesion_psf"],
        confidence=table.confidence(row),
        source=table.source,
    )


def soil_classes() -> tuple[SoilClass, ...]:
    """All classes of the table, rock first."""
    return tuple(soil_class(number) for number in range(1, 6))


@formula("Statics; IBC 2021, 1806.1 (allowable stress, gross)")
def soil_pressure_gross(P: Force, W_f: Force, A: AreaFeet) -> AreaLoad:
    """Gross pressure under a footing: service load and all the concrete; the stricter reading.

    Parameters: P service load (allowable stress combination) at the top of the footing (lb); W_f weight of footing,
    pier and post below grade (lb); A bearing area (ft²). Returns: q pressure (psf). Source: IBC 2021 1806; gross =
    nothing deducted for the soil displaced.

    >>> round(soil_pressure_gross(3000.0, 600.0, 2.0), 3)
    1800.0
    """
    q: AreaLoad = (P + W_f) / A
    return q


@formula("Statics; IBC 2021, 1806.1 (allowable stress, net)")
def soil_pressure_net(P: Force, W_f: Force, W_s: Force, A: AreaFeet) -> AreaLoad:
    """Net pressure under a footing: the weight of the soil displaced is deducted.

    Parameters: P service load (allowable stress combination) at the top of the footing (lb); W_f weight of footing,
    pier and post below grade (lb); W_s weight of the soil they displace (lb); A bearing area (ft²). Returns: q pressure
    above what the soil carried before (psf). Source: common practice: presumptive values read as net.

    >>> round(soil_pressure_net(3000.0, 600.0, 400.0, 2.0), 3)
    1600.0
    """
    q: AreaLoad = (P + W_f - W_s) / A
    return q


@formula("Statics (square footing, load inside the middle third)")
def soil_pressure_eccentric(P: Force, e: Feet, B: Feet) -> AreaLoad:
    """Largest pressure under a square footing with the resultant off centre by at most B / 6.

    Parameters: P service load with all weight (lb); e distance of the resultant from the centre, moment over load (ft);
    B side (ft). Returns: q_max largest pressure (psf). Source: statics: P / A (1 + 6 e / B).

    >>> round(soil_pressure_eccentric(8000.0, 0.5, 4.0), 3)
    875.0
    """
    q_max: AreaLoad = P / B**2 * (1 + 6 * e / B)
    return q_max


@formula("Statics (square footing, load outside the middle third)")
def soil_pressure_partial(P: Force, e: Feet, B: Feet) -> AreaLoad:
    """Largest pressure under a square footing that lifts on one side: B / 6 < e < B / 2.

    Parameters: P service load with all weight (lb); e distance of the resultant from the centre, moment over load (ft);
    B side (ft). Returns: q_max largest pressure (psf). Source: statics: a triangle of pressure under the load.

    >>> round(soil_pressure_partial(1800.0, 0.5, 2.0), 3)
    1200.0
    """
    q_max: AreaLoad = 2 * P / (3 * B * (B / 2 - e))
    return q_max


@formula("Statics; IRC R507.3.1, IBC 2021, 1806.2")
def footing_area_required(P: Force, q_a: AreaLoad) -> AreaFeet:
    """Bearing area that brings the pressure down to the allowable.

    Parameters: P service load (lb); q_a allowable soil pressure (psf). Returns: A_req area (ft²). Source: IBC 2021
    1806.2.

    >>> round(footing_area_required(2500.0, 3000.0), 2)
    0.83
    """
    A_req: AreaFeet = P / q_a
    return A_req


@formula("Geometry (square of an area)")
def square_footing_side(A: AreaFeet) -> Feet:
    """Side of a square footing of a given area.

    Parameters: A area (ft²). Returns: B side (ft). Source: geometry.

    >>> round(float(square_footing_side(4.0)), 3)
    2.0
    """
    B: Feet = sqrt(A)
    return B


@formula("Geometry (circle of an area)")
def round_footing_diameter(A: AreaFeet) -> Feet:
    """Diameter of a round footing of a given area.

    Parameters: A area (ft²). Returns: d_f diameter (ft). Source: geometry.

    >>> round(float(round_footing_diameter(3.1416)), 3)
    2.0
    """
    d_f: Feet = sqrt(4 * A / pi)
    return d_f


@formula("Geometry (area of a square)")
def square_footing_area(B: Feet) -> AreaFeet:
    """Area of a square footing.

    Parameters: B side (ft). Returns: A area (ft²). Source: geometry.

    >>> round(square_footing_area(1.5), 3)
    2.25
    """
    A: AreaFeet = B**2
    return A


@formula("Geometry (area of a circle)")
def round_footing_area(d_f: Feet) -> AreaFeet:
    """Area of a round footing.

    Parameters: d_f diameter (ft). Returns: A area (ft²). Source: geometry.

    >>> round(round_footing_area(3.0), 3)
    7.069
    """
    A: AreaFeet = pi * d_f**2 / 4
    return A


@formula("IBC 2021, 1806.3 and Table 1806.2 (friction)")
def sliding_resistance_friction(mu: Ratio, D: Force) -> Force:
    """Sliding resistance of a footing by friction, soil classes 1 to 4.

    Parameters: mu coefficient of friction; D dead load on the base (lb). Returns: H_a allowable horizontal load (lb).
    Source: IBC 2021 Table 1806.2.

    >>> round(sliding_resistance_friction(0.25, 4000.0), 3)
    1000.0
    """
    H_a: Force = mu * D
    return H_a


@formula("IBC 2021, 1806.3.2 and Table 1806.2 (cohesion)")
def sliding_resistance_cohesion(c: AreaLoad, A: AreaFeet, D: Force) -> Force:
    """Sliding resistance of a footing by cohesion, soil class 5, at most half the dead load.

    Parameters: c cohesion (psf); A contact area (ft²); D dead load on the base (lb). Returns: H_a allowable horizontal
    load (lb). Source: IBC 2021 1806.3.2.

    >>> round(float(sliding_resistance_cohesion(130.0, 4.0, 1000.0)), 3)
    500.0
    """
    H_a: Force = minimum(c * A, D / 2)
    return H_a


@formula("IRC 2021, R403.1.4 (depth of footings)")
def footing_depth_required(d_frost: Feet, d_min: Feet) -> Feet:
    """Least depth of the underside of a footing below grade.

    Parameters: d_frost local frost depth (ft), from the building department; d_min least depth (ft), 1 ft by the IRC.
    Returns: d_req depth required (ft). Source: IRC 2021 R403.1.4, R403.1.4.1; exceptions for free-standing decks are
    local: ask.

    >>> round(float(footing_depth_required(3.0, 1.0)), 3)
    3.0
    """
    d_req: Feet = maximum(d_frost, d_min)
    return d_req


def eccentric_pressure_formula(e: float, B: float) -> Callable[..., Any]:
    """Which of the two pressure formulas holds; ValueError when the footing would overturn (e >= B / 2).

    >>> eccentric_pressure_formula(0.2, 2.0).__name__
    'soil_pressure_eccentric'
    """
    if e >= B / 2:
        raise ValueError(
            f"the load lies {e:.2f} ft off the centre of a footing {B:.2f} ft wide: it overturns"
        )
    return soil_pressure_eccentric if e <= B / 6 else soil_pressure_partial


def table_size(inches: float, least: float) -> float:
    """Whole inches as the IRC footing table prints a size: nearest, not below the least it lists; design rounds up."""
    return max(float(np.floor(inches + 0.5)), least)
