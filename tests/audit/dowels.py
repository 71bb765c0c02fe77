"""Bolts in wood: bearing, the yield modes, group action, geometry (NDS 2018, chapters 11 and 12, AWC TR12)."""

from __future__ import annotations

from math import cos, radians, sin, sqrt


def F_e(G: float, D: float, theta: float) -> float:
    """Dowel bearing, NDS 2018, 12.3.3 (D of 1/4 in. and more) with Hankinson's formula, 12.3.4."""
    par, perp = 11200 * G, 6100 * G**1.45 / sqrt(D)
    return par * perp / (par * sin(radians(theta)) ** 2 + perp * cos(radians(theta)) ** 2)


def double_shear(
    D: float, l_m: float, l_s: float, F_em: float, F_es: float, F_yb: float, theta: float, gap: float = 0.0
) -> float:
    """Reference value for two planes: least yield load over R_d (NDS 2018, 12.3.1; with a gap by AWC TR12).

    theta: greatest angle to the grain of any piece. Modes I_m, I_s, III_s, IV; each plane by the general dowel
    equations A P^2 + B P + C = 0, which equal 12.3-7 to 12.3-10 without a gap.
    """
    K = 1 + 0.25 * theta / 90
    q_m, q_s, M = F_em * D, F_es * D, F_yb * D**3 / 6

    def root(A: float, B: float, C: float) -> float:
        return (-B + sqrt(B * B - 4 * A * C)) / (2 * A)

    I_m, I_s = q_m * l_m, 2 * q_s * l_s
    III_s = 2 * root(1 / (4 * q_s) + 1 / (2 * q_m), l_s / 2 + gap, -q_s * l_s**2 / 4 - M)
    IV = 2 * root(1 / (2 * q_s) + 1 / (2 * q_m), gap, -2 * M)
    return min(I_m / (4 * K), I_s / (4 * K), III_s / (3.2 * K), IV / (3.2 * K))


def single_shear(
    D: float, l_m: float, l_s: float, F_em: float, F_es: float, F_yb: float, R_d: tuple[float, float, float]
) -> float:
    """One plane; R_d of modes I, II, III and IV."""
    q_m, q_s, M = F_em * D, F_es * D, F_yb * D**3 / 6

    def root(A: float, B: float, C: float) -> float:
        return (-B + sqrt(B * B - 4 * A * C)) / (2 * A)

    I = min(q_m * l_m, q_s * l_s)
    II = root(1 / (4 * q_s) + 1 / (4 * q_m), (l_s + l_m) / 2, -q_s * l_s**2 / 4 - q_m * l_m**2 / 4)
    III_m = root(1 / (2 * q_s) + 1 / (4 * q_m), l_m / 2, -M - q_m * l_m**2 / 4)
    III_s = root(1 / (4 * q_s) + 1 / (2 * q_m), l_s / 2, -q_s * l_s**2 / 4 - M)
    IV = root(1 / (2 * q_s) + 1 / (2 * q_m), 0.0, -2 * M)
    return min(I / R_d[0], II / R_d[1], min(III_m, III_s, IV) / R_d[2])


def C_g(n: int, D: float, s: float, EA_m: float, EA_s: float, gamma: float = 180000.0) -> float:
    """Group action, NDS 2018, 11.3-1: gamma = 180000 D^1.5 of wood on wood, 270000 D^1.5 of steel plates on wood."""
    if n == 1:
        return 1.0
    u = 1 + gamma * D**1.5 * s / 2 * (1 / EA_m + 1 / EA_s)
    m = u - sqrt(u * u - 1)
    R = min(EA_s / EA_m, EA_m / EA_s)
    return m * (1 - m ** (2 * n)) * (1 + R) / (n * ((1 + R * m**n) * (1 + m) - 1 + m ** (2 * n)) * (1 - m))
