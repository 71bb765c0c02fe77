"""Posts: buckling, eccentric load, shear, bearing, uplift (NDS 2018, chapters 3, 12 and 15)."""

from __future__ import annotations

from math import hypot, sqrt

from audit import dowels, timber
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]


def timber_of(site: Site, mark: str) -> timber.Timber:
    return timber.timber(site.post(mark))


def free_length(site: Site, mark: str) -> float:
    """From the post's top to where it is held, 12 in. under grade (ENGINEERING_NOTES, section 3)."""
    return site.post_top(mark) + 12.0


def own_weight(site: Site, mark: str) -> float:
    """Weight of the post above grade, wet (NDS Supplement 2018, 3.1.3)."""
    t = timber_of(site, mark)
    return timber.WET_PCF * t.A / 144 * site.post_top(mark) / 12


def K_e(site: Site, mark: str) -> float:
    return read(site.post(mark).get("K_e"), 2.1)


def F_cE(site: Site, mark: str) -> float:
    t = timber_of(site, mark)
    return 0.822 * t.Emin / (K_e(site, mark) * free_length(site, mark) / t.d) ** 2


def buckling(site: Site, row: Row) -> Pair:
    """P / A against F_c' with C_P, least over C_D (NDS 2018, 3.7.1)."""
    t, own = timber_of(site, row.part), own_weight(site, row.part)
    pairs = []
    for P, C_D in site.reactions[row.part].cases().values():
        star = t.Fc * C_D
        pairs.append(((float(P[0]) + own) / t.A, star * timber.C_P(star, F_cE(site, row.part))))
    d, c = max(pairs, key=lambda p: p[0] / p[1])
    return d * row.by_frame, c


def slenderness(site: Site, row: Row) -> Pair:
    return K_e(site, row.part) * free_length(site, row.part) / timber_of(site, row.part).d, 50.0


def thrust(row: Row) -> float:
    """Printed weight on the post with what wind and sway add."""
    return row.result("load_with_sway")


def eccentric(
    site: Site, row: Row, M_1: float, M_2: float, S_1: float, S_2: float, A: float | None = None
) -> float:
    """NDS 2018, 15.4-1 with the load off centre by the file's eccentricity along axis 1; (3.9-4) needs F_cE2 > f_c."""
    t, mark = timber_of(site, row.part), row.part
    f_c, star = thrust(row) / (A or t.A), t.Fc * row.C_D
    E = F_cE(site, mark)
    allowed, bend = star * timber.C_P(star, E), t.Fb * row.C_D  # square: C_L = 1 (3.3.3.1)
    e = read(site.post(mark).get("eccentricity"), 0.5)
    F_bE = 1.20 * t.Emin / (timber.l_e_uniform(free_length(site, mark), t.d) * t.d / t.b**2)
    eccentric_1 = f_c * 6 * e / t.d
    f_1, f_2 = M_1 / S_1, M_2 / S_2
    one = (f_1 + eccentric_1 * (1 + 0.234 * f_c / E)) / (bend * (1 - f_c / E))
    two = f_2 / (bend * (1 - f_c / E - ((f_1 + eccentric_1) / F_bE) ** 2))
    return (f_c / allowed) ** 2 + one + two


def net_moduli(site: Site, row: Row) -> tuple[float, float]:
    """Section moduli at the knee's bolts: hole 1/16 in. larger (NDS 2018, 12.1.3.2), along and across the row."""
    t = timber_of(site, row.part)
    braces = [b for b in site.file.get("brace", []) if b["support"] == row.part]
    bolted = [b for b in braces if "bolts" in b]
    if not bolted:
        return t.S, t.S
    D_h = max(read(b["bolt_diameter"]) for b in bolted) + 1 / 16
    along = (t.d**3 * t.b - D_h**3 * t.b) / 12 / (t.d / 2)  # hole in the middle, axis along it
    across = (t.b - D_h) * t.d**2 / 6
    return along, across


def at_knee(site: Site, row: Row) -> Pair:
    """Knee's bending about the axis along the bolts, the other way the cantilever's."""
    along, across = net_moduli(site, row)
    M = [abs(a["M"]) for step, a, _ in row.printed if step == "bending_stress"]
    return eccentric(site, row, M[1], M[0], across, along) * row.by_frame, 1.0


def in_ground(site: Site, row: Row) -> Pair:
    t = timber_of(site, row.part)
    M = [abs(a["M"]) for step, a, _ in row.printed if step == "bending_stress"]
    return eccentric(site, row, M[1], M[0], t.S, t.S) * row.by_frame, 1.0


def at_rods(site: Site, row: Row) -> Pair:
    """Net section at the rods: a hole 1/16 in. wider than the rod along both sides (NDS 2018, 3.1.2)."""
    t = timber_of(site, row.part)
    here = [r for r in site.file["crossed_rods"] if row.part in (r["from_post"], r["to_post"])]
    D_h = max(read(r["diameter"]) for r in here) + 1 / 16
    S = 2 * ((t.b - D_h) * t.d**3 / 12 - (t.b - D_h) * D_h**3 / 12) / t.d
    A = t.A - t.b * D_h - t.d * D_h + D_h**2
    M = [abs(a["M"]) for step, a, _ in row.printed if step == "bending_stress"]
    return eccentric(site, row, M[1], M[0], S, S, A) * row.by_frame, 1.0


def shear(site: Site, row: Row) -> Pair:
    t = timber_of(site, row.part)
    V = hypot(*(row.argument("resultant_lateral_force", v) for v in ("V_1", "V_2")))
    return 1.5 * V / t.A * row.by_frame, t.Fv * row.C_D


def holes(site: Site, row: Row) -> tuple[int, float]:
    """Bolts side by side in one section of the post, and their hole."""
    braces = [b for b in site.file.get("brace", []) if b["support"] == row.part and "bolts" in b]
    return 1, max(read(b["bolt_diameter"]) for b in braces) + 1 / 16


def net_area(site: Site, row: Row) -> float:
    t = timber_of(site, row.part)
    n, D_h = holes(site, row)
    return t.A - n * D_h * t.b


def net_section(site: Site, row: Row) -> Pair:
    """Short of buckling on the net section: F_c* (NDS 2018, 3.6.3)."""
    return thrust(row) / net_area(site, row) * row.by_frame, timber_of(site, row.part).Fc * row.C_D


def net_tension(site: Site, row: Row) -> Pair:
    return max(-thrust(row), 0.0) / net_area(site, row) * row.by_frame, timber_of(site, row.part).Ft * row.C_D


def lifted_by_weight(site: Site, mark: str) -> float:
    """What weight alone lifts a post by, as its cap: its foot and its footing are lifted by no less."""
    from audit.ties import least

    return max(-least(site.reactions[mark])[0], 0.0)


def foot_uplift(site: Site, row: Row) -> Pair:
    """Bolts through the foot in double shear, concrete both sides (NDS 2018, 12.3, Table 12E: F_e 7500 psi)."""
    t, post = timber_of(site, row.part), site.post(row.part)
    D = read(post.get("foot_bolt_diameter"), 0.5)
    Z = dowels.double_shear(D, t.b, 6 * D, dowels.F_e(timber.G_SOUTHERN, D, 0), 7500.0, 45000.0, 0.0)
    wet = 0.7 if post.get("wet", True) else 1.0
    capacity = read(post["foot_bolts"]) * Z * wet
    return max(-thrust(row), 0.0) * row.by_frame, capacity * row.C_D


def foot_tear_out(site: Site, row: Row) -> Pair:
    """Row of the foot's bolts torn out along the grain: 7 D from the end, 4 D apart (NDS 2018, E.3, Tables 12.5.1)."""
    t, post = timber_of(site, row.part), site.post(row.part)
    n, D = read(post["foot_bolts"]), read(post.get("foot_bolt_diameter"), 0.5)
    return max(-thrust(row), 0.0) * row.by_frame, n * t.Fv * row.C_D * t.b * (4 if n > 1 else 7) * D


def foot_net_tension(site: Site, row: Row) -> Pair:
    """Uplift on what a hole 1/16 in. larger than the bolt leaves (NDS 2018, 3.8, 12.1.3.2)."""
    t, post = timber_of(site, row.part), site.post(row.part)
    hole = read(post.get("foot_bolt_diameter"), 0.5) + 1 / 16
    return max(-thrust(row), 0.0) / (t.A - hole * t.d) * row.by_frame, t.Ft * row.C_D


def cap_lateral(site: Site, row: Row) -> Pair:
    V = hypot(*(row.argument("resultant_lateral_force", v) for v in ("V_1", "V_2")))
    return V * row.by_frame, read(site.post(row.part)["cap_lateral"])


def cap_bearing(site: Site, row: Row) -> Pair:
    """Printed load and area of contact: F_c_perp of the beam, no C_D, no C_b."""
    post, t = site.post(row.part), site.timber(row.at)
    side = timber_of(site, row.part).d
    b, l_b = (row.argument("bearing_stress", name) for name in ("b", "l_b"))
    assert b <= t.b + 1e-6
    assert l_b <= max(side, read(post.get("cap_length"), 0.0)) * sqrt(2) + 1e-6
    return thrust(row) / (b * l_b) * row.by_frame, t.Fcp


def cap_rotation(site: Site, row: Row) -> Pair:
    """Rotation: lateral force times the depth of the beam, held by its weight and a tie on each side.

    At the edge it turns about the wood crushes: block x = (R + T) / (F_c_perp l_b); R acts in the beam's
    middle, c from the edge of its seat (printed), T at the beam's far face.
    """
    post, t = site.post(row.part), site.timber(row.at)
    V, R = abs(row.argument("rotation_moment", "V")), max(thrust(row), 0.0)
    T = read(post["rotation_tie"])
    side = timber_of(site, row.part).d
    x = (R + T) / (t.Fcp * max(side, read(post.get("cap_length"), 0.0)))
    c = row.argument("rotation_resistance", "c")
    turning = V * t.d + row.argument("rotation_moment", "M_e")
    return turning * row.by_frame, R * (c - x / 2) + T * (c + t.b / 2 - x / 2)


def stage_alone(site: Site, row: Row) -> Pair:
    """50 lb of one worker (ASCE 37-14, 4.4.1) at the top of a post alone in its hole (IBC 2021, 1807.3)."""
    from audit.footings import embedded

    # 300 lb of him on the arm of a beam that stands on this post alone, a out (printed), as a push at the top
    arm = row.argument("push_with_arm", "a") if row.has("push_with_arm") else 0.0
    h = site.post_top(row.part)
    return 50.0 + 300.0 * arm / h, embedded(site, row.part, h)


def end_bearing(site: Site, row: Row) -> Pair:
    """Weight on the end that bears, least over C_D, against 0.75 F_c* (NDS 2018, 3.10.1.3); its own at the foot."""
    t, A = timber_of(site, row.part), row.argument("end_bearing_stress", "A")
    assert A <= t.A + 1e-9
    ends = []
    for own in (own_weight(site, row.part), 0.0):
        cases = site.reactions[row.part].cases().values()
        pairs = [((float(P[0]) + own) / A, 0.75 * t.Fc * C_D) for P, C_D in cases]
        d, c = max(pairs, key=lambda p: p[0] / p[1])
        ends.append((d * row.by_frame, c))
    foot, cap = ends
    return foot if abs(foot[0] - row.demand) < abs(cap[0] - row.demand) else cap


def end_bearing_lateral(site: Site, row: Row) -> Pair:
    A = row.argument("end_bearing_stress", "A")
    return max(thrust(row), 0.0) / A * row.by_frame, 0.75 * timber_of(site, row.part).Fc * row.C_D


AUDIT = {
    "post.buckling": buckling,
    "post.slenderness": slenderness,
    "post.at_knee": at_knee,
    "post.in_ground": in_ground,
    "post.at_rods": at_rods,
    "post.shear": shear,
    "post.shear_below": shear,
    "post.net_section": net_section,
    "post.net_tension": net_tension,
    "post.foot_uplift": foot_uplift,
    "post.foot_tear_out": foot_tear_out,
    "post.foot_net_tension": foot_net_tension,
    "post.end_bearing": end_bearing,
    "post.end_bearing_lateral": end_bearing_lateral,
    "post.cap_lateral": cap_lateral,
    "post.cap_bearing_lateral": cap_bearing,
    "post.cap_rotation": cap_rotation,
    "post.stage_alone": stage_alone,
}
