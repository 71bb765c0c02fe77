"""Footings: soil (IBC 2021, 1806, 1807), plain concrete (ACI 318-19, 14.5)."""

from __future__ import annotations

from math import hypot, pi, sqrt

from audit.paper import Row, Site
from audit.posts import lifted_by_weight, own_weight, thrust, timber_of
from audit.quantities import read

Pair = tuple[float, float]
# IBC 2021, Table 1806.2: vertical psf, lateral psf per foot of depth.
SOIL = {
    "class 1": (12000, 1200),
    "class 2": (4000, 400),
    "class 3": (3000, 200),
    "class 4": (2000, 150),
    "class 5": (1500, 100),
}
CONCRETE_PCF = 144.0  # plain concrete (ASCE 7-16, Table C3.1-2)
SOIL_PCF = 120.0  # tamped and moist, on the heavy side


def area(footing: dict) -> float:
    """Square feet on the soil."""
    w = read(footing["width"]) / 12
    return pi * w * w / 4 if footing["shape"] == "round" else w * w


def weight(footing: dict) -> float:
    """Concrete of the footing, in full depth or as a pad with soil above it."""
    depth, pad = read(footing["depth"]) / 12, read(footing["pad"]) / 12
    if footing.get("fill", "concrete") == "concrete":
        return area(footing) * depth * CONCRETE_PCF
    return area(footing) * (pad * CONCRETE_PCF + (depth - pad) * SOIL_PCF)


def allowed(site: Site) -> float:
    place = site.file["site"]
    return read(place.get("soil_bearing"), float(SOIL[place["soil"]][0]))


def soil(site: Site, row: Row) -> Pair:
    """Gross pressure with the weight of post and concrete; no C_D."""
    footing = site.footing(row.part)
    P = site.reactions[row.part].most() + own_weight(site, row.part)
    return (P + weight(footing)) / area(footing) * row.by_frame, allowed(site)


def soil_lateral(site: Site, row: Row) -> Pair:
    footing = site.footing(row.part)
    return (thrust(row) + weight(footing)) / area(footing) * row.by_frame, allowed(site)


def uplift_lateral(site: Site, row: Row) -> Pair:
    """0.6 of the concrete's weight, less what the post takes of it above the pad, against the printed uplift.

    Soil over a pad is not counted on.
    """
    footing = site.footing(row.part)
    pad, depth = read(footing["pad"]) / 12, read(footing["depth"]) / 12
    filled = depth - pad if footing.get("fill", "concrete") == "concrete" else 0.0
    volume = area(footing) * (pad + filled) - timber_of(site, row.part).A / 144 * filled
    lift = max(-thrust(row), 0.0) * row.by_frame
    assert lift >= lifted_by_weight(site, row.part) * (1 - 1e-6), "one person, or a pattern, lifts it more"
    return lift, 0.6 * volume * CONCRETE_PCF


def frost(site: Site, row: Row) -> Pair:
    """Frost depth, 12 in. at least (IRC 2021, R403.1.4)."""
    return max(read(site.file["site"]["frost_depth"]), 12.0) / 12, read(site.footing(row.part)["depth"]) / 12


def thickness(site: Site, row: Row) -> Pair:
    """8 in. at least (ACI 318-19, 14.3.2.1)."""
    return 8.0, read(site.footing(row.part)["pad"])


def projection(site: Site, row: Row) -> Pair:
    """As thick as it runs out past the post, 6 in. at least (IRC 2018, R403.1.1)."""
    t, footing = timber_of(site, row.part), site.footing(row.part)
    return max((read(footing["width"]) - min(t.b, t.d)) / 2, 6.0), read(footing["pad"])


def square(footing: dict) -> float:
    """Side of the square of equal area (ACI 318-19, 13.2.7.1 by analogy)."""
    w = read(footing["width"])
    return w * sqrt(pi) / 2 if footing["shape"] == "round" else w


def factored(site: Site, mark: str) -> float:
    """Greatest factored load: ACI 318-19, Table 5.3.1, with the worst patterns."""
    R = site.reactions[mark]
    D = float(R.D[0]) + own_weight(site, mark)
    L, S = float(R.L[0][0]), float(R.S[0][0])
    L = max(L + float(R.G[0][0]), float(R.P[0][0]))  # a push on a guard and one person are live load too
    return max(1.4 * D, 1.2 * D + 1.6 * L + 0.5 * S, 1.2 * D + 1.6 * S + 1.0 * L)


def concrete_bending(site: Site, row: Row) -> Pair:
    """Net soil pressure out from the post's face: 0.6 x 5 sqrt(f_c) S, 2 in. less cast on soil (14.5.1.7)."""
    footing, c = site.footing(row.part), timber_of(site, row.part).d
    B, h = square(footing), read(footing["pad"]) - 2
    q = factored(site, row.part) / B**2
    M = q * B * ((B - c) / 2) ** 2 / 2
    return M * row.by_frame, 0.6 * 5 * sqrt(read(footing.get("f_c"), 2500)) * B * h**2 / 6


def concrete_shear(site: Site, row: Row) -> Pair:
    """One way at h from the face: 0.6 x 4/3 sqrt(f_c) b h (ACI 318-19, 14.5.5)."""
    footing, c = site.footing(row.part), timber_of(site, row.part).d
    B, h = square(footing), read(footing["pad"]) - 2
    V = factored(site, row.part) / B * max((B - c) / 2 - h, 0.0)
    return V * row.by_frame, 0.6 * 4 / 3 * sqrt(read(footing.get("f_c"), 2500)) * B * h


def concrete_punching(site: Site, row: Row) -> Pair:
    """Two way at h / 2 round the post: the lesser of (1 + 2 / beta) 4/3 and 8/3 (ACI 318-19, 14.5.5.1)."""
    footing, c = site.footing(row.part), timber_of(site, row.part).d
    B, h = square(footing), read(footing["pad"]) - 2
    V = factored(site, row.part) * (1 - (c + h) ** 2 / B**2)
    return V * row.by_frame, 0.6 * 8 / 3 * sqrt(read(footing.get("f_c"), 2500)) * 4 * (c + h) * h


def bearing_strength(site: Site, mark: str) -> float:
    """0.6 x 0.85 f_c A_1 sqrt(A_2 / A_1), the root at most 2; A_2 spread 2 to 1 (ACI 318-19, Table 14.5.6.1)."""
    footing, t = site.footing(mark), timber_of(site, mark)
    # the like figure lies within the circle (14.5.6.1), which the square of equal area does not
    inside = read(footing["width"]) / (sqrt(2) if footing.get("shape") == "round" else 1)
    grown = max(0.0, min(4 * read(footing["pad"]), inside - t.d))
    root = min(sqrt((t.b + grown) * (t.d + grown) / (t.b * t.d)), 2.0)
    return 0.6 * 0.85 * read(footing.get("f_c"), 2500) * t.b * t.d * root


def concrete_bearing(site: Site, row: Row) -> Pair:
    return factored(site, row.part) * row.by_frame, bearing_strength(site, row.part)


def concrete_lateral(site: Site, row: Row) -> Pair:
    """Factored load with what wind (1.0) or sway (1.6, as live load) add, read off the sheet at their shares."""
    footing, R, mark = site.footing(row.part), site.reactions[row.part], row.part
    D = float(R.D[0]) + own_weight(site, mark)
    L, S = row.argument("factored_load_lateral", "L"), row.argument("factored_load_lateral", "S")
    factor = row.argument("factored_load_lateral", "gamma_h")
    if "1.0W" in row.combination:
        assert any(abs(factor * share - 1.0) < 1e-9 for share in (0.6, 0.45))
        weight_u = 1.2 * row.argument("factored_load_lateral", "D") + L + 0.5 * S
    elif "1.6S" in row.combination:
        assert abs(factor * 0.75 - 1.6) < 1e-9
        weight_u = 1.2 * row.argument("factored_load_lateral", "D") + L + 1.6 * S
    else:
        weight_u = 1.2 * row.argument("factored_load_lateral", "D") + 1.6 * L + 0.5 * S
    if not site.file.get("brace"):  # no knee moves weight from support to support
        assert abs(row.argument("factored_load_lateral", "D") - D) < 0.005 * abs(D)
    P_u = max(weight_u + factor * row.result("load_with_sway"), 0.0)
    c, B, h, f_c = (
        timber_of(site, mark).d,
        square(footing),
        read(footing["pad"]) - 2,
        read(footing.get("f_c"), 2500),
    )
    pairs = [(P_u, bearing_strength(site, mark))]
    if c < B:
        pairs.append((P_u / B * ((B - c) / 2) ** 2 / 2, 0.6 * 5 * sqrt(f_c) * B * h**2 / 6))
        pairs.append((P_u / B * max((B - c) / 2 - h, 0.0), 0.6 * 4 / 3 * sqrt(f_c) * B * h))
    if c + h < B:
        pairs.append((P_u * (1 - (c + h) ** 2 / B**2), 0.6 * 8 / 3 * sqrt(f_c) * 4 * (c + h) * h))
    demand, capacity = max(pairs, key=lambda pair: pair[0] / pair[1])
    return demand * row.by_frame, capacity


def embedded(site: Site, mark: str, height: float) -> float:
    """Lateral force at a height (in.) that an embedded post bears, not held at grade: IBC 2021, 1807.3.2.1.

    d = 0.5 A (1 + sqrt(1 + 4.36 h / A)), A = 2.34 P / (S_1 b), S_1 at d / 3 (d at most 12 ft), solved for P. b is the
    diameter of a round footing filled with concrete; of the post the diagonal where soil fills the hole.
    """
    footing, post = site.footing(mark), site.post(mark)
    d, h = read(footing["depth"]) / 12, height / 12
    if footing.get("fill", "concrete") == "soil":  # the post stands on its pad, which does not turn with it
        d -= read(footing["pad"]) / 12
    times = 2.0 if post.get("doubled", False) else 1.0
    S_1 = times * SOIL[site.file["site"]["soil"]][1] * min(d, 12.0) / 3
    side = timber_of(site, mark).d
    if footing.get("fill", "concrete") == "concrete":
        b = read(footing["width"]) / 12 * (1.0 if footing["shape"] == "round" else sqrt(2))
    else:
        b = side * sqrt(2) / 12
    low, high = 0.0, 1e6
    for _ in range(80):
        P = (low + high) / 2
        A = 2.34 * P / (S_1 * b)
        if P > 0 and 0.5 * A * (1 + sqrt(1 + 4.36 * h / A)) > d:
            high = P
        else:
            low = P
    return low


def embedment(site: Site, row: Row) -> Pair:
    """Printed lateral force and its moments at grade: height as one resultant."""
    V = hypot(*(row.argument("resultant_lateral_force", v) for v in ("V_1", "V_2")))
    M = hypot(*(row.argument("height_of_force", m) for m in ("M_1", "M_2")))
    return V * row.by_frame, embedded(site, row.part, M / V)


AUDIT = {
    "footing.soil": soil,
    "footing.soil_lateral": soil_lateral,
    "footing.uplift_lateral": uplift_lateral,
    "footing.frost": frost,
    "footing.thickness": thickness,
    "footing.projection": projection,
    "footing.concrete_bending": concrete_bending,
    "footing.concrete_shear": concrete_shear,
    "footing.concrete_punching": concrete_punching,
    "footing.concrete_bearing": concrete_bearing,
    "footing.concrete_lateral": concrete_lateral,
    "footing.embedment": embedment,
}
