"""Sizes, stiffness and weight of timber for the tests' own model, typed from the published tables.

Sizes: NDS Supplement 2018, Table 1A (dressed). E and G: NDS Supplement 2018, Tables 4A and 4B, Select Structural,
No.2 and No.1 (E also for No.1/No.2 of Spruce-Pine-Fir). Weight: NDS Supplement 2018, 3.1.3, at 28 % moisture where
the timber stands in the weather and 12 % where it does not (the moisture is common practice).
"""

from __future__ import annotations

import re
from fractions import Fraction

DRESSED = {"1": 0.75, "5/4": 1.0, "2": 1.5, "3": 2.5, "4": 3.5, "6": 5.5, "8": 7.25, "10": 9.25, "12": 11.25}
TIMBER = {"6": 5.5, "8": 7.5, "10": 9.5, "12": 11.5}  # both sides nominal 5 in. and more
E_PSI = {
    ("Southern Pine", "Select Structural"): 1.8e6,
    ("Southern Pine", "No.2"): 1.4e6,
    ("Southern Pine", "No.1"): 1.6e6,
    ("Douglas Fir-Larch", "No.2"): 1.6e6,
    ("Douglas Fir-Larch", "No.1"): 1.7e6,
    ("Hem-Fir", "No.2"): 1.3e6,
    ("Hem-Fir", "No.1"): 1.5e6,
}
G = {"Southern Pine": 0.55, "Douglas Fir-Larch": 0.50, "Hem-Fir": 0.43}


def size(section: str) -> tuple[float, float]:
    """Width and depth (in) of a size as a builder writes it.

    >>> size("2x10"), size("6x6"), size("5/4x6"), size("38.1x139.7 mm")
    ((1.5, 9.25), (5.5, 5.5), (1.0, 5.5), (1.5, 5.5))
    """
    metric = re.fullmatch(r"([\d.]+)\s*x\s*([\d.]+)\s*mm", section.strip())
    if metric:
        return round(float(metric[1]) / 25.4, 6), round(float(metric[2]) / 25.4, 6)
    exact = re.fullmatch(r"([\d./ ]+)\s*x\s*([\d./ ]+)\s*in", section.strip())
    if exact:
        return tuple(float(sum(Fraction(part) for part in side.split())) for side in exact.groups())
    b, d = section.strip().split("x")
    sizes = TIMBER if b in TIMBER and d in TIMBER else DRESSED
    return sizes[b], sizes[d]


def density(gravity: float, moisture: float) -> float:
    """Weight of wood (pcf) by NDS Supplement 2018, 3.1.3.

    >>> round(density(0.55, 28.0), 2)  # 38.6 pcf: the value that designers print for wet Southern Pine
    38.58
    """
    return 62.4 * gravity / (1 + gravity * 0.009 * moisture) * (1 + moisture / 100)


def weight_of(species: str, wet: bool) -> float:
    """Weight of a species in service (pcf)."""
    return density(G[species], 28.0 if wet else 12.0)
