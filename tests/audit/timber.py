"""Reference values and adjustment factors of sawn lumber, typed again from NDS 2018 and its Supplement.

All values from memory and checked against the published deck spans of DCA 6; see each table's clause.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from math import sqrt
from pathlib import Path

DRESSED = {"1": 0.75, "5/4": 1.0, "2": 1.5, "3": 2.5, "4": 3.5, "6": 5.5, "8": 7.25, "10": 9.25, "12": 11.25}
HEAVY = {"6": 5.5, "8": 7.5, "10": 9.5, "12": 11.5}  # NDS Supplement, Table 1A: 5 in. and thicker

with (Path(__file__).parent / "southern_pine.csv").open() as table:
    VALUES = {
        (row["grade"], int(row["width"])): tuple(float(row[k]) for k in list(row)[2:])
        for row in csv.DictReader(line for line in table if not line.startswith("#"))
    }
G_SOUTHERN = 0.55  # NDS 2018, Table 12.3.3A
WET_PCF = (
    62.4 * 0.55 / (1 + 0.55 * 0.009 * 28) * (1 + 28 / 100)
)  # NDS Supplement 3.1.3 at 28 % moisture: 38.6
C_D = {"D": 0.9, "L": 1.0, "S": 1.15, "worker": 1.25, "W": 1.6}  # Table 2.3.2


@dataclass(frozen=True)
class Timber:
    """Size and values of a piece, each already adjusted for moisture and size, but not for load duration."""

    b: float  # all plies
    d: float
    plies: int
    Fb: float  # C_M, C_F
    Ft: float
    Fv: float
    Fcp: float
    Fc: float
    E: float
    Emin: float
    E_dry: float
    dimension: bool

    @property
    def S(self) -> float:
        return self.b * self.d**2 / 6

    @property
    def I_x(self) -> float:
        return self.b * self.d**3 / 12

    @property
    def A(self) -> float:
        return self.b * self.d


def size(section: str) -> tuple[float, float]:
    """Dressed width and depth. NDS Supplement 2018, Table 1A.

    >>> size("2x10"), size("6x6")
    ((1.5, 9.25), (5.5, 5.5))
    """
    b, d = section.split("x")
    sizes = HEAVY if b in HEAVY and d in HEAVY else DRESSED
    return sizes[b], sizes[d]


def timber(piece: dict, plies: int = 1) -> Timber:
    """Values of a piece of the file: Southern Pine only, which all audited files are built of; never incised."""
    assert piece["species"] == "Southern Pine", piece
    grade, wet = piece["grade"], piece.get("wet", True)
    b, d = size(piece["section"])
    if min(b, d) >= 5:
        Fb, Ft, Fv, Fcp, Fc, E, Emin = VALUES[grade, 0]
        return Timber(b * plies, d, plies, Fb, Ft, Fv, Fcp, Fc, E, Emin, E, False)
    Fb, Ft, Fv, Fcp, Fc, E, Emin = VALUES[grade, int(piece["section"].split("x")[1])]
    m = {"Fb": 1.0, "Fv": 1.0, "Fcp": 1.0, "Fc": 1.0, "E": 1.0}
    if wet:  # Table 4B, wet service factors; 1.0 where F_b C_F <= 1150 psi, where F_c C_F <= 750 psi
        m = {
            "Fb": 1.0 if Fb <= 1150 else 0.85,
            "Fv": 0.97,
            "Fcp": 0.67,
            "Fc": 1.0 if Fc <= 750 else 0.8,
            "E": 0.9,
        }
    return Timber(
        b * plies,
        d,
        plies,
        Fb * m["Fb"],
        Ft,
        Fv * m["Fv"],
        Fcp * m["Fcp"],
        Fc * m["Fc"],
        E * m["E"],
        Emin * m["E"],
        E,
        True,
    )


def l_e_uniform(l_u: float, d: float) -> float:
    """Effective length by NDS 2018, Table 3.3.3, note 1 (any loading on a single span)."""
    if l_u / d < 7:
        return 2.06 * l_u
    return 1.84 * l_u if l_u / d > 14.3 else 1.63 * l_u + 3 * d


def C_L(Fb_star: float, Emin: float, l_e: float, b: float, d: float) -> float:
    """Beam stability factor, NDS 2018, 3.3.3.8; 1 where no deeper than broad (3.3.3.1)."""
    if d <= b:
        return 1.0
    r = 1.20 * Emin / (l_e * d / b**2) / Fb_star
    return (1 + r) / 1.9 - sqrt(((1 + r) / 1.9) ** 2 - r / 0.95)


def C_P(Fc_star: float, FcE: float) -> float:
    """Column stability factor of sawn lumber, NDS 2018, 3.7.1.5, c = 0.8."""
    a = FcE / Fc_star
    return (1 + a) / 1.6 - sqrt(((1 + a) / 1.6) ** 2 - a / 0.8)
