"""Tree bolts: a short pile in the green trunk. Statics, AWC TR12, AISC 360-16, Wood Handbook Table 5-3b, ASTM D245."""

from __future__ import annotations

from functools import lru_cache
from math import atan2, cos, degrees, exp, hypot, pi, radians, sin, sqrt

import numpy as np

from audit import dowels, timber
from audit.paper import Row, Site
from audit.quantities import read
from audit.ties import pull

Pair = tuple[float, float]

# Wood Handbook (FPL-GTR-282), Table 5-3b, green: G, MOR, E, C parallel, C perpendicular, shear; hardwood?
GREEN = {
    "bur oak": (0.58, 7200, 0.88e6, 3290, 680, 1350),
    "white oak": (0.60, 8300, 1.25e6, 3560, 670, 1250),
    "shagbark hickory": (0.64, 11000, 1.57e6, 4580, 840, 1520),
    "American beech": (0.56, 8600, 1.38e6, 3550, 540, 1290),
}
E_STEEL = 29e6
# Foundation modulus of green trunk wood, k_0 = E_g / (kappa D): judgement of the program, its range taken as given;
# across the grain ten times softer. What hangs on it is held to the worse end.
KAPPA = (5.0, 20.0)
SOFTER = {"down": 1.0, "across": 10.0}


def bolt_of(site: Site, mark: str) -> dict:
    return site.file["bolt"][site.support(mark)["bolt"]]


def tree_of(site: Site, mark: str) -> dict:
    return site.tree(site.support(mark)["tree"])


def sound_radius(tree: dict) -> float:
    """Radius under the bark; bark bears nothing."""
    girth = read(tree["girth"]) if "girth" in tree else pi * read(tree["diameter"])
    return girth / (2 * pi) - read(tree["bark"])


def place(site: Site, mark: str) -> tuple[float, float, np.ndarray]:
    """Distance of the bearing from the trunk's axis along the bolt, offset of the bolt's line from it, direction in."""
    support = site.support(mark)
    at = np.array([read(x) for x in support["at"]])
    axis = np.array([read(x) for x in tree_of(site, mark)["at"]])
    out = at - axis
    if "direction" not in support:
        return float(hypot(*out)), 0.0, -out / hypot(*out)
    a = radians(read(support["direction"]))
    into = np.array([cos(a), sin(a)])
    return float(-out @ into), abs(float(out[0] * into[1] - out[1] * into[0])), into


def lever(site: Site, mark: str) -> float:
    """e: from the face of the sound wood to the centre of the bearing at its worst (ENGINEERING_NOTES, section 3).

    Beside the axis the hole enters askew: the wood begins at the chord, and on one side of the bolt by
    (D / 2) tan(phi) later, sin(phi) = a / r (ENGINEERING_NOTES, section 2, 3).
    """
    bolt, r = bolt_of(site, mark), sound_radius(tree_of(site, mark))
    x, a, _ = place(site, mark)
    chord = sqrt(r**2 - a**2)
    return x - chord + read(bolt["diameter"]) / 2 * a / chord + read(bolt.get("slide"), 0.0)


@lru_cache(maxsize=4096)
def pile(e: float, L: float, D: float, k_0: float, n: int = 700) -> tuple[float, float, float]:
    """Beam of steel on springs, free at both ends, 1 lb at e before its face: most moment and shear in it, pressure.

    EI d4y/dx4 + k_0 D y = 0 with k_0 in psi/in. (Hetenyi 1946, ch. 3), as a sum of the equation's four exponentials:
    moment and shear of the load at the face, none at the tip.
    """
    EI = E_STEEL * pi * D**4 / 64
    lam = (k_0 * D / (4 * EI)) ** 0.25
    roots = [lam * (a + 1j * b) for a in (1, -1) for b in (1, -1)]
    rows = [
        [m**2 for m in roots],
        [m**3 for m in roots],
        [m**2 * np.exp(m * L) for m in roots],
        [m**3 * np.exp(m * L) for m in roots],
    ]
    # y down, M = -EI y" sagging: at the face the free part makes M = -e, V = -1
    c = np.linalg.solve(np.array(rows), np.array([e / EI, 1 / EI, 0, 0], complex))
    x = np.linspace(0, L, n)
    wave = np.exp(np.outer(x, roots))
    y = (wave @ c).real
    M = EI * (wave * np.array(roots) ** 2 @ c).real
    V = EI * (wave * np.array(roots) ** 3 @ c).real
    return float(np.abs(M).max()), float(np.abs(V).max()), float(np.abs(k_0 * y[0]))


def lever_pile(
    site: Site, mark: str, kappa: float, way: str = "down", e: float | None = None
) -> tuple[float, float, float]:
    bolt = bolt_of(site, mark)
    E = GREEN[tree_of(site, mark)["species"]][2]
    e = lever(site, mark) if e is None else e
    k_0 = E / (kappa * SOFTER[way] * read(bolt["diameter"]))
    return pile(e, read(bolt["embedment"]), read(bolt["diameter"]), k_0)


def at_worst(site: Site, mark: str, n: int) -> float:
    """Most of moment, shear or pressure from a pound, over both ends of kappa's range."""
    return max(lever_pile(site, mark, kappa)[n] for kappa in KAPPA)


def lever_out(site: Site, row: Row) -> float:
    """Lever with wind and sway, as printed: a bearing that is free along its bolt moves out (lateral model)."""
    at_rest, names = lever(site, row.part), ("bolt_moment_at", "bolt_pressure", "rotation_yield")
    e = next(a["e"] for step, a, _ in row.printed if step in names)
    assert e >= at_rest - 1e-6
    if site.support(row.part).get("lateral", "free") == "tied":
        assert abs(e - at_rest) < 1e-6
    return float(e)


def first_yield(bolt: dict) -> float:
    """F_y S / 1.67: AISC 360-16, F11 with M_n = F_y S (first yield, no plastic reserve), ASD."""
    return read(bolt["F_y"]) * pi * read(bolt["diameter"]) ** 3 / 32 / 1.67


def steel_bending(site: Site, row: Row) -> Pair:
    P = site.reactions[row.part].most()  # steel: no C_D, the greatest load (ENGINEERING_NOTES E12)
    return P * at_worst(site, row.part, 0), first_yield(bolt_of(site, row.part))


def steel_shear(site: Site, row: Row) -> Pair:
    """0.6 F_y A / 1.67: AISC 360-16, G; shear inside the wood is more than P."""
    bolt = bolt_of(site, row.part)
    P = site.reactions[row.part].most()
    area = pi * read(bolt["diameter"]) ** 2 / 4
    return P * max(1.0, at_worst(site, row.part, 1)), 0.6 * read(bolt["F_y"]) * area / 1.67


def yield_load(site: Site, mark: str, theta: float, e: float | None = None) -> float:
    """Reference value Z of bearing, rotation and hinge, for a load at theta degrees to the grain of the trunk.

    F_e parallel: the lesser of 0.7 x 11200 G green and the mean green crushing strength (ENGINEERING_NOTES E6);
    across: 0.7 x 6100 G^1.45 / sqrt(D) (NDS 2018, 12.3.3, C_M of 11.3.3); Hankinson between (12.3.4).
    R_d = 4, 3.6, 3.2 times 1 + 0.25 theta / 90 (Table 12.3.1B).
    """
    bolt = bolt_of(site, mark)
    G, _, _, crush, _, _ = GREEN[tree_of(site, mark)["species"]]
    D, L, e = read(bolt["diameter"]), read(bolt["embedment"]), lever(site, mark) if e is None else e
    par, perp = min(0.7 * 11200 * G, crush), 0.7 * 6100 * G**1.45 / sqrt(D)
    s, c = sin(radians(theta)) ** 2, cos(radians(theta)) ** 2
    q = par * perp / (par * s + perp * c) * D
    K = 1 + 0.25 * theta / 90
    # Pile of length L, plastic q: top part pushed one way, tip the other, moment e P at the face: by statics
    # P = q (2 z - L) with z the turning depth, and P (e + ...) gives z from z^2 + 2 e z - e L - L^2 / 2 = 0.
    z = -e + sqrt(e**2 + e * L + L**2 / 2)
    rotation = q * (2 * z - L)
    # Hinge at depth x where the shear is 0: P = q x, M_y = P e + P x - q x^2 / 2.
    M_y = (read(bolt["F_y"]) + read(bolt["F_u"])) / 2 * D**3 / 6  # NDS 2018, Appendix I
    x = -e + sqrt(e**2 + 2 * M_y / q)
    hinge = q * x
    return min(q * L / (4 * K), rotation / (3.6 * K), hinge / (3.2 * K))


def wood_yield(site: Site, row: Row) -> Pair:
    P, C_D = site.reactions[row.part].most_over_C_D()
    return P, C_D * yield_load(site, row.part, 0.0)


def working_parallel(site: Site, mark: str) -> float:
    """Green crushing: 5 % exclusion with V = 0.18 (ASTM D2555), / 2.1 for hardwood (ASTM D245, Table 8)."""
    return GREEN[tree_of(site, mark)["species"]][3] * (1 - 1.645 * 0.18) / 2.1


def wood_pressure(site: Site, row: Row) -> Pair:
    P = site.reactions[row.part].most()  # no C_D counted on the bearing in service
    return P * at_worst(site, row.part, 2), working_parallel(site, row.part)


def rated(site: Site, row: Row) -> Pair:
    return site.reactions[row.part].most(), read(bolt_of(site, row.part)["rated_load"])


def hole(site: Site, row: Row) -> Pair:
    """A hole of at most a sixth of the sound trunk: common practice (ENGINEERING_NOTES, section 2, 3)."""
    return read(bolt_of(site, row.part)["diameter"]), sound_radius(tree_of(site, row.part)) / 3


def radius_at(site: Site, mark: str, along: float) -> float:
    """Radius that the bark has when it reaches a place of the bearing, as far from the axis as its nearer corner."""
    bolt = bolt_of(site, mark)
    _, a, _ = place(site, mark)
    across = max(read(bolt["diameter"]), read(bolt.get("seat_across"), read(bolt["seat_length"])))
    return hypot(along, max(a - across / 2, 0.0))


def years(site: Site, mark: str, along: float) -> float:
    tree = tree_of(site, mark)
    bark = sound_radius(tree) + read(tree["bark"])
    return max(radius_at(site, mark, along) - bark, 0.0) / read(tree.get("growth"), 0.25)


def contact(site: Site, row: Row) -> Pair:
    """Years until the bark reaches the inner edge of the bearing, slid in as far as it may; the trunk grows outward."""
    bolt = bolt_of(site, row.part)
    x = place(site, row.part)[0] - read(bolt["seat_length"]) / 2 - read(bolt.get("slide"), 0.0)
    return read(tree_of(site, row.part).get("service"), 10.0), years(site, row.part, x)


def overgrown(site: Site, row: Row) -> Pair:
    x = place(site, row.part)[0] + read(bolt_of(site, row.part)["seat_length"]) / 2
    return read(tree_of(site, row.part).get("service"), 10.0), years(site, row.part, x)


def tips(site: Site, row: Row) -> Pair:
    """Two diameters of wood between the tips of bolts at one height (common practice: ENGINEERING_NOTES, 2, 3)."""
    ends = []
    for mark in (row.part, row.at):
        x, a, into = place(site, mark)
        at = np.array([read(v) for v in site.support(mark)["at"]])
        r = sound_radius(tree_of(site, mark))
        ends.append(at + into * (x - sqrt(r**2 - a**2) + read(bolt_of(site, mark)["embedment"])))
    D = max(read(bolt_of(site, mark)["diameter"]) for mark in (row.part, row.at))
    return 2 * D, float(hypot(*(ends[0] - ends[1])))


# ------------------------------------------------------------------------------------------- with wind and sway


def vertical(row: Row) -> float:
    """Printed weight on the bolt; a bolt that is lifted bears none (its hold-down clip is checked for that)."""
    return max(row.result("load_with_sway"), 0.0)


def along(row: Row) -> float:
    """Printed force along the bolt: of the tied bearing with the push of knees, or the friction of one that slides."""
    found, by_knees = 0.0, False
    for step, _, r in row.printed:
        if step in ("support_lateral_force", "friction_force") or (
            step == "with_brace_compression" and by_knees
        ):
            found = r
        by_knees = step == "push_by_knees"
    return abs(found)


def pulled(site: Site, row: Row) -> float:
    """The same; on a bolt under knee braces that stand square to it the wind on these: they push across it."""
    braces = [s for s in site.file["support"] if s.get("foot") == row.part]
    if not braces:
        return along(row)
    assert "lateral" not in site.support(row.part)
    _, _, into = place(site, row.part)
    foot = np.array([read(v) for v in site.support(row.part)["at"]])
    away = [np.array([read(v) for v in brace["at"]]) - foot for brace in braces]
    assert all(abs(float(out @ into)) < 1e-6 for out in away)
    return own_wind(site, row, braces, [float(hypot(*out)) for out in away])


def own_wind(site: Site, row: Row, braces: list[dict], runs: list[float]) -> float:
    """Half of the wind on the broad sides of braces, whatever way it blows (ASCE 7-16, 29.4).

    Exposure B, up to 15 ft: K_z by note 1 of Table 26.10-1; K_d 0.85, G 0.85, C_f 2.0; 16 psf at least (29.7).
    """
    place = site.file["site"]
    assert place["exposure"] == "B"
    K_z, K_e = 2.01 * (15 / 1200) ** (2 / 7), exp(-0.0000362 * read(place.get("elevation"), 0.0) / 12)
    q = 0.00256 * K_z * 0.85 * K_e * read(place["wind_speed"]) ** 2
    total = 0.0
    for brace, out in zip(braces, runs, strict=True):
        t = timber.timber(site.cut_from(site.file) | site.file["strut"][brace["strut"]])
        total += max(q * 0.85 * 2.0, 16.0) * max(t.b, t.d) * hypot(out, read(brace["rise"])) / 144
    w = row.argument("wind_at_one_end", "w")
    assert w == (
        0.45 if "0.75(0.6W)" in row.combination else 0.6 if "0.6W" in row.combination else 0.0
    )  # ASCE 7-16, 2.4.1
    return w * total / 2


def level(row: Row) -> float:
    """Printed lateral force on the bracket, both ways."""
    if row.has("resultant_lateral_force"):
        return hypot(*(row.argument("resultant_lateral_force", v) for v in ("V_1", "V_2")))
    return along(row)


def steel_biaxial(site: Site, row: Row) -> Pair:
    """Moments down and across added as vectors; the withdrawal acts above its axis by the bearing's rise."""
    bolt, mark = bolt_of(site, row.part), row.part
    D = read(bolt["diameter"])
    e = lever_out(site, row)
    across = abs(row.argument("bolt_moment_at", "P"))
    rise = read(bolt.get("seat_rise"), D / 2)
    along = abs(row.argument("moment_off_axis", "H")) if row.has("moment_off_axis") else 0.0
    M = []
    for kappa in KAPPA:
        M_v = vertical(row) * lever_pile(site, mark, kappa, e=e)[0]
        M_h = across * lever_pile(site, mark, kappa, "across", e)[0]
        M.append(hypot(M_v + along * rise, M_h))
    return max(M) * row.by_frame, first_yield(bolt)


def wood_yield_lateral(site: Site, row: Row) -> Pair:
    P_v, P_h = vertical(row), abs(row.argument("resultant_load", "P_h"))
    theta = degrees(atan2(P_h, P_v))
    return hypot(P_v, P_h) * row.by_frame, row.C_D * yield_load(site, row.part, theta, lever_out(site, row))


def wood_pressure_lateral(site: Site, row: Row) -> Pair:
    """Pressures as vectors by Hankinson, and across alone. Along the grain with C_D, across C_perp / 1.67 without."""
    e = lever_out(site, row)
    along = working_parallel(site, row.part) * row.C_D
    across = GREEN[tree_of(site, row.part)["species"]][4] / 1.67
    found = []
    for kappa in KAPPA:
        p_v = vertical(row) * lever_pile(site, row.part, kappa, e=e)[2]
        p_h = abs(row.argument("bolt_pressure", "P")) * lever_pile(site, row.part, kappa, "across", e)[2]
        theta = atan2(p_h, p_v)
        allowed = along * across / (along * sin(theta) ** 2 + across * cos(theta) ** 2)
        found += [(hypot(p_v, p_h), allowed), (p_h, across)]
    d, c = max(found, key=lambda pair: pair[0] / pair[1])
    return d * row.by_frame, c


def withdrawal(site: Site, row: Row) -> Pair:
    """1800 G^1.5 D^0.75 per inch of thread (NDS 2018, 12.2.1), C_M = 0.7 in green wood, C_D."""
    bolt = bolt_of(site, row.part)
    G = GREEN[tree_of(site, row.part)["species"]][0]
    W = 1800 * G**1.5 * read(bolt["diameter"]) ** 0.75 * read(bolt["embedment"])
    return pulled(site, row) * row.by_frame, W * 0.7 * row.C_D


def rated_lateral(site: Site, row: Row) -> Pair:
    return vertical(row) * row.by_frame, read(bolt_of(site, row.part)["rated_load"])


def bracket_lateral(site: Site, row: Row) -> Pair:
    H = level(row)
    return H * row.by_frame, read(bolt_of(site, row.part)["rated_lateral"])


def fastening(site: Site, row: Row) -> Pair:
    """By the bracket's rating where the file says that it holds with it; else bolts between side plates of 1/4 in.

    Double shear, F_e of steel 87 ksi, F_yb 45 ksi (NDS 2018, 12.3.1, Table 12B), at the angle of lateral force and
    uplift (200 lb at least, common practice) to the beam's grain; 11.3.6 with gamma 270,000 D^1.5.
    """
    bolt = bolt_of(site, row.part)
    H = level(row) if row.has("resultant_lateral_force") else 0.0  # by weight alone
    if "beam_bolts" not in bolt:
        assert bolt["rated_with_fastening"]
        return H * row.by_frame, read(bolt["rated_lateral"])
    beam = next(m for m, piece in site.members.items() if any(s.below == row.part for s in piece.seats))
    t, n, D = site.timber(beam), bolt["beam_bolts"], read(bolt["beam_bolt_diameter"])
    U = max(-row.result("load_with_sway"), 200.0)
    theta = degrees(atan2(U, H))
    Z = dowels.double_shear(D, t.b, 0.25, dowels.F_e(timber.G_SOUTHERN, D, theta), 87000.0, 45000.0, theta)
    area = t.A if theta < 1e-6 else t.b * 3 * D
    C_g = dowels.C_g(n, D, 4 * D, t.E_dry * area, 2 * 29e6 * 0.25 * 3 * D, 270000.0)
    wet = 0.7 if site.piece(beam).get("wet", True) else 1.0
    return hypot(H, U) * row.by_frame, n * Z * wet * row.C_D * C_g


def thread(site: Site, row: Row) -> Pair:
    """0.75 F_u A / 2.00 (AISC 360-16, J3.6), on the root area."""
    bolt = bolt_of(site, row.part)
    D = read(bolt.get("tail_diameter"), read(bolt["diameter"]))
    return along(row) * row.by_frame, 0.75 * read(bolt["F_u"]) * pi * D**2 / 4 / 2.0


def together(site: Site, row: Row) -> Pair:
    """Unity of shares of its ratings, and of the angles' pull where they keep the beam upright (common practice)."""
    bolt = bolt_of(site, row.part)
    H = level(row)
    R = row.result("load_with_sway")
    Z = read(bolt["rated_load"]) if R > 0 else read(site.support(row.part)["uplift_tie"])
    shares = abs(R) / Z + H / read(bolt["rated_lateral"])
    if row.has("three_ratings_together"):
        beam = next(m for m, piece in site.members.items() if any(s.below == row.part for s in piece.seats))
        shares += pull(row) / read(site.piece(beam)["rotation_tie"])
    return shares * row.by_frame, 1.0


AUDIT = {
    "tree_bolt.steel_bending": steel_bending,
    "tree_bolt.steel_shear": steel_shear,
    "tree_bolt.wood_yield": wood_yield,
    "tree_bolt.wood_pressure": wood_pressure,
    "tree_bolt.rated": rated,
    "tree_bolt.hole": hole,
    "tree_bolt.tips": tips,
    "tree_bolt.contact_years": contact,
    "tree_bolt.overgrown_years": overgrown,
    "tree_bolt.steel_biaxial": steel_biaxial,
    "tree_bolt.wood_yield_lateral": wood_yield_lateral,
    "tree_bolt.wood_pressure_lateral": wood_pressure_lateral,
    "tree_bolt.withdrawal": withdrawal,
    "tree_bolt.rated_lateral": rated_lateral,
    "tree_bolt.bracket_lateral": bracket_lateral,
    "tree_bolt.fastening": fastening,
    "tree_bolt.thread": thread,
    "tree_bolt.together": together,
}
