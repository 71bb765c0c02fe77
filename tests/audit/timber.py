"""Reference values and adjustment factors of sawn lumber, typed again from NDS 2018 and its Supplement.

All values from memory and checked against the published deck spans of DCA 6; see each table's clause.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

DRESSED = {"1": 0.75, "5/4": 1.0, "2": 1.5, "3": 2.5, "4": 3.5, "6": 5.5, "8": 7.25, "10": 9.25, "12": 11.25}
HEAVY = {"6": 5.5, "8": 7.5, "10": 9.5, "12": 11.5}  # NDS Supplement, Table 1A: 5 in. and thicker

# Southern Pine, NDS Supplement 2018, Table 4B, 2 to 4 in. thick: F_b, F_t, F_c by width; the rest by grade.
SOUTHERN = {
    "No.2": {
        4: (1100, 675, 1450),
        6: (1000, 600, 1400),
        8: (925, 550, 1350),
        10: (800, 475, 1300),
        12: (750, 450, 1250),
    },
    "No.1": {
        4: (1500, 1000, 1650),
        6: (1350, 875, 1550),
        8: (1250, 800, 1500),
        10: (1050, 700, 1450),
        12: (1000, 650, 1400),
    },
    "Select Structural": {
        4: (2350, 1650, 1900),
        6: (2100, 1450, 1800),
        8: (1950, 1350, 1700),
        10: (1700, 1150, 1650),
        12: (1600, 1100, 1650),
    },
}
SOUTHERN_E = {"No.2": (1.4e6, 510e3), "No.1": (1.6e6, 590e3), "Select Structural": (1.8e6, 660e3)}
# Table 4D, Southern Pine 5x5 and larger, values for wet or dry use: F_b, F_t, F_v, F_c_perp, F_c, E, E_min.
SOUTHERN_HEAVY = {
    "No.2": (850, 550, 165, 375, 525, 1.2e6, 440e3),
    "No.1": (1350, 900, 165, 375, 825, 1.5e6, 550e3),
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
        Fb, Ft, Fv, Fcp, Fc, E, Emin = SOUTHERN_HEAVY[grade]
        return Timber(b * plies, d, plies, Fb, Ft, Fv, Fcp, Fc, E, Emin, E, False)
    Fb, Ft, Fc = SOUTHERN[grade][round(d + 0.75 - 0.01 if d > 6 else d + 0.5)]
    E, Emin = SOUTHERN_E[grade]
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
        175 * m["Fv"],
        565 * m["Fcp"],
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
