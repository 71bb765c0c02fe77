"""Board feet and weights of the pieces; what is heaviest to lift, and how many people that takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from bolewright.calculation import Calculation, Step
from bolewright.formulas import formula
from bolewright.platform.layout.wood_weight import DRY, MOISTURE
from bolewright.platform.project import Decking, Timber
from bolewright.timber.material import density
from bolewright.timber.sections import Finish, Section, parse_section
from bolewright.units import Area, AreaLoad, Density, Feet, Force, Length, Ratio, VolumeFeet

ONE_PERSON = 50.0  # lb one person lifts on level ground, common practice
FRESH = 1.5  # times the weight printed: lumber fresh from the treating plant, from memory


@formula("Board measure (American Softwood Lumber Standard PS 20)", homogeneous=False)
def board_feet(t: Length, w: Length, L: Feet) -> Ratio:
    """Board feet of a stick.

    Parameters: t, w nominal thickness and width (in); L length (ft). Returns: n_b board feet.
    Source: PS 20, board measure: a foot square, an inch thick, nominal.

    >>> board_feet(2, 8, 12)
    16.0
    """
    n_b: Ratio = t * w * L / 12
    return n_b


@formula("Geometry (volume of a stick)", homogeneous=False)
def piece_volume(A: Area, l: Length) -> VolumeFeet:
    """Volume of a stick.

    Parameters: A section as dressed (in²); l length (in). Returns: V (ft³). Source: geometry, 1728 in³ to the ft³.

    >>> piece_volume(144.0, 12.0)
    1.0
    """
    V: VolumeFeet = A * l / 1728
    return V


@formula("Statics (weight of a volume of timber)")
def piece_weight(rho: Density, V: VolumeFeet) -> Force:
    """Weight of a stick.

    Parameters: rho density at the moisture of service (pcf); V volume (ft³). Returns: W (lb).
    Source: NDS Supplement 2018, 3.1.3 for the density.

    >>> piece_weight(40.0, 2.0)
    80.0
    """
    W: Force = rho * V
    return W


@formula("Statics (weight of a board)", homogeneous=False)
def board_weight(w: AreaLoad, b: Length, l: Length) -> Force:
    """Weight of a board whose maker gives the weight of a deck of them.

    Parameters: w weight on the deck (psf); b breadth, l length of the board (in). Returns: W (lb).
    Source: 144 in² to the ft².

    >>> board_weight(4.0, 6.0, 24.0)
    4.0
    """
    W: Force = w * b * l / 144
    return W


@dataclass(frozen=True)
class Weighed:
    """Weight of a stick (lb) and the formulas it came from."""

    weight: float
    steps: tuple[Step, ...]


def weigh(timber: Timber, length: float, width: float | None = None) -> Weighed:
    """Weight of a stick of ``length`` inches at the moisture of its service; ``width`` that of a ripped board."""
    section = parse_section(timber.section).of_plies(1)
    broad = section.d if width is None else width
    calculation = Calculation()
    run = calculation.run
    if isinstance(timber, Decking) and timber.weight is not None:
        W = run(board_weight, w=timber.weight, b=broad, l=length)
        return Weighed(float(W), calculation.at(()))
    rho = run(density, G=timber.values(section).G, m_c=MOISTURE if timber.wet else DRY)
    V = run(piece_volume, A=section.b * broad, l=length)
    W = run(piece_weight, rho=rho, V=V)
    return Weighed(float(W), calculation.at(()))


def board_measure(section: Section, length: float) -> float:
    """Board feet of a stick of ``length`` inches, on its nominal size where it has one."""
    if section.finish is Finish.DRESSED:
        thickness, width = section.nominal_thickness, section.nominal_width
    else:
        thickness, width = section.ply_thickness, section.d
    return float(board_feet(t=thickness, w=width, L=length / 12))


def people_to_lift(pounds: float) -> int:
    """People it takes to lift a piece on level ground, at 50 lb each.

    >>> people_to_lift(50.0), people_to_lift(113.5)
    (1, 3)
    """
    return max(1, math.ceil(pounds / ONE_PERSON - 1e-9))
