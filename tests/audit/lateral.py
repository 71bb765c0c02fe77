"""Beams with wind and sway, rotation on their seats, torsion, plies, and before the rest is on (NDS 2018, ASCE
37-14).
"""

from __future__ import annotations

from math import pi, sin

from audit import dowels, members, ties, timber, upright
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]


def beam_factor(site: Site, row: Row, star: float) -> float:
    """C_L over both edges' longest unbraced stretch (NDS 2018, 3.3.3)."""
    member, t = site.members[row.part], site.timber(row.part)
    l_u = row.argument("effective_length", "l_u")
    assert l_u <= member.length + 1e-6
    return timber.C_L(star, t.Emin, timber.l_e_uniform(l_u, t.d), members.breadth(site, row.part), t.d)


def knees(site: Site, mark: str) -> list[dict]:
    """Knee braces bolted to a beam."""
    return [b for b in site.file.get("brace", []) if b["beam"] == mark and "bolts" in b]


def bending_lateral(site: Site, row: Row) -> Pair:
    """Printed moments both ways and tension or compression: NDS 2018, 3.9.1 (tension) and 3.9.2 (compression), l_u as
    printed.

    Flatwise every ply bends by itself, edgewise the one that members hang on has more than its share.
    """
    t = site.timber(row.part)
    M = [abs(a["M"]) for step, a, _ in row.printed if step == "bending_stress"]
    flat = t.plies * t.d * (t.b / t.plies) ** 2 / 6
    if t.plies == 1:
        flat = t.d * t.b**2 / 6
    f_2, f_1 = M[0] / flat, M[1] / t.S
    if row.has("moment_of_loaded_ply"):
        f_1 = ply_moment(site, row, row.part) / (t.S / t.plies)
    star = t.Fb * row.C_D * members.C_r(site, row.part)
    allowed = star * beam_factor(site, row, star)
    if row.has("bending_and_tension"):
        holes = [read(b["bolt_diameter"]) + 1 / 16 for b in knees(site, row.part)]
        pull = abs(row.argument("tension_stress", "T")) / (t.A - t.b * max(holes, default=0.0))
        return (pull / (t.Ft * row.C_D) + (f_1 + f_2) / allowed) * row.by_frame, 1.0
    # Push: both ways over its length; across the plies as a built-up column, K_f = 0.6 for nails (15.3.2).
    l = row.argument("critical_buckling_compression", "l_e")
    E_1, E_2 = 0.822 * t.Emin / (l / t.d) ** 2, 0.822 * t.Emin / (l / members.breadth(site, row.part)) ** 2
    crush = t.Fc * row.C_D
    K_f = 1.0 if t.plies == 1 or not site.piece(row.part).get("plies_fastened", True) else 0.6
    f_c = abs(row.argument("compression_stress", "P")) / t.A
    F_c = crush * min(timber.C_P(crush, E_1), K_f * timber.C_P(crush, E_2))
    F_bE = 1.20 * t.Emin / (timber.l_e_uniform(row.argument("effective_length", "l_u"), t.d) * t.d / t.b**2)
    two = f_2 / (star * (1 - f_c / E_2 - (f_1 / F_bE) ** 2))
    return ((f_c / F_c) ** 2 + f_1 / (allowed * (1 - f_c / E_1)) + two) * row.by_frame, 1.0


def shear_lateral(site: Site, row: Row) -> Pair:
    t = site.timber(row.part)
    return 1.5 * abs(row.argument("shear_stress", "V")) / t.A * row.by_frame, t.Fv * row.C_D


def bearing_lateral(site: Site, row: Row) -> Pair:
    area = row.argument("bearing_stress", "b") * row.argument("bearing_stress", "l_b")
    return row.result("load_with_sway") / area * row.by_frame, site.timber(row.part).Fcp


def fastening_lateral(site: Site, row: Row) -> Pair:
    return abs(row.result("seat_lateral_force")) * row.by_frame, read(site.piece(row.part)["lateral_tie"])


def rotation(site: Site, row: Row) -> Pair:
    """Lateral force at the top times the depth; weight at c from the edge of the seat, a tie at the far face."""
    t = site.timber(row.part)
    V = abs(row.argument("rotation_moment", "V"))
    R, c = max(row.argument("rotation_resistance", "R"), 0.0), row.argument("rotation_resistance", "c")
    T = read(site.piece(row.part)["rotation_tie"])
    x = (R + T) / (t.Fcp * row.argument("compression_block", "l_b"))
    M = V * t.d + row.argument("rotation_moment", "M_e")
    return M * row.by_frame, R * (c - x / 2) + T * (c + t.b / 2 - x / 2)


def edge_force(row: Row, torque: float = 0.0) -> float:
    """Couple at a joist's edges: the beam's torque that comes to its connection, and weight off the middle line."""
    a = next(a for step, a, _ in row.printed if step == "joist_edge_force")
    return (torque + a["R"] * a["e"]) / a["d_j"]


def rotation_joists(site: Site, row: Row) -> Pair:
    field = next(f for f in site.file["joists"] if f.get("restrains_beam"))
    torque = upright.torque(site, row, row.part)
    return edge_force(row, torque) * row.by_frame, read(field["edge_load"])


def edge_load(site: Site, row: Row) -> Pair:
    """Weight half the beam's breadth and half a hanger's seat off its middle line, a couple over the joist's depth."""
    seat = members.seat_on(site.members[row.part], row.at)
    below = site.timber(row.at)
    e = (
        below.b / 2
        + read(site.file["connection"][site.piece(row.part)["hanger"]].get("seat_length"), 1.5) / 2
    )
    return seat.reaction.most() * e / site.timber(row.part).d, read(site.piece(row.part)["edge_load"])


def rotation_hanger(site: Site, row: Row) -> Pair:
    return edge_force(row) * row.by_frame, read(site.piece(row.part)["edge_load"])


def torsion(site: Site, row: Row) -> Pair:
    """Shear and twist as printed: 3 V / 2 b d and T over plies twisted alone, by St Venant's sum for a rectangle."""
    t = site.timber(row.part)
    V, T = abs(row.argument("shear_stress", "V")), abs(row.argument("torsion_stress", "T"))
    thick, n = t.b / t.plies, t.plies
    if row.argument("torsion_stress", "n") == 1:
        thick, n = row.argument("torsion_stress", "t"), 1
    stress = 1.5 * V / t.A + T / n * twist(t.d, thick)
    return stress * row.by_frame, t.Fv * row.C_D


def twist(d: float, t: float) -> float:
    """Greatest shear stress by 1 lb in. on a rectangle d x t: (3 d + 1.8 t) / (d^2 t^2) (Roark, within 4 %)."""
    return (3 * d + 1.8 * t) / (d**2 * t**2)


def plies(site: Site, row: Row) -> Pair:
    """Nails of 10d box, 0.128 x 3 in. (IRC 2021, R507.5): needed for the printed share, and those beside the load."""
    piece = site.piece(row.part)
    F_e = 16600 * timber.G_SOUTHERN**1.84  # NDS 2018, Table 12.3.3, D < 1/4 in.
    K_D = 2.2  # D up to 0.17 in. (Table 12.3.1B)
    Z = dowels.single_shear(0.128, 1.5, 1.5, F_e, F_e, 100000.0, (K_D, K_D, K_D))
    wet = 0.7 if piece.get("wet", True) else 1.0
    a = next(a for step, a, _ in row.printed if step == "ply_point_transfer")
    passed = a["P"] * (a["share_in"] - a["share_borne"])
    rows, spacing = piece.get("ply_rows", 2), read(piece.get("ply_spacing"), 16.0)
    beside = rows * row.argument("nails_beside", "l") / spacing
    return passed / (Z * wet * row.C_D) * row.by_frame, beside


def bending_of_ply(site: Site, row: Row) -> Pair:
    """A ply on nails as a beam on springs (Hetenyi): l^4 = 4 E I / k, k = 4 sin2(90/n) rows x 180,000 D^1.5 / s.

    Moments of the load path at the beam's worst place; printed is what hangs there. One third and one half of l are the
    program's bounds, held to a grid in tests/fasteners.
    """
    t = site.timber(row.part)
    C_r = 1.15 if t.plies >= 3 else 1.0  # NDS 2018, 4.3.9
    sags = row.has("moment_till_nailed_span")
    M = site.members[row.part].moment.cases(1 if sags else -1)[row.combination][0].max()
    more = over_its_share(site, row, row.part)
    star = t.Fb * row.C_D * C_r
    return (M / t.plies + more) / (t.S / t.plies) * row.by_frame, star * beam_factor(site, row, star)


def ply_moment(site: Site, row: Row, mark: str) -> float:
    """Moment of the ply that members hang on, from the beam's as printed; all of it where nothing joins the plies."""
    n = row.argument("moment_of_loaded_ply", "n")
    assert n == (site.timber(mark).plies if site.piece(mark).get("plies_fastened", True) else 1)
    more = over_its_share(site, row, mark) if row.has("ply_point_transfer") else 0.0
    return abs(row.argument("moment_of_loaded_ply", "M")) / n + more


def over_its_share(site: Site, row: Row, mark: str) -> float:
    """Moment of the loaded ply over its even share, from the printed load that hangs near by (lb in.)."""
    t, piece = site.timber(mark), site.piece(mark)
    rows, s = piece.get("ply_rows", 2), read(piece.get("ply_spacing"), 16.0)
    k = 4 * sin(pi / 2 / t.plies) ** 2 * rows * 180000 * 0.128**1.5 / s
    length = (4 * t.E * t.b / t.plies * t.d**3 / 12 / k) ** 0.25
    over = row.argument("ply_point_transfer", "P") * (1 - 1 / t.plies)
    return over * (length / 3 if row.has("moment_till_nailed_span") else (length + s) / 2)


def worker_on(length: float, a: float, b: float, w: float) -> float:
    """Greatest moment, either way, of a joist on two seats: its weight and 300 lb anywhere on it (statics, lb in.)."""
    l, R_b = b - a, w * length * (length / 2 - a) / (b - a)
    R_a, most = w * length - R_b, 0.0
    for k in range(1001):
        x = length * k / 1000
        own = R_a * max(x - a, 0) + R_b * max(x - b, 0) - w * x**2 / 2
        deflection = 300 * (x - a) * (b - x) / l if a < x < b else 0.0
        here = max(
            300 * a * (b - x) / l if a < x < b else 0.0,
            300 * (length - b) * (x - a) / l if a < x < b else 0.0,
        )
        if not a < x < b:  # he stands at the tip
            here = 300 * (x if x <= a else length - x)
        most = max(most, own + deflection, here - own)
    return most


def stage_bending(site: Site, row: Row) -> Pair:
    """Own weight and one worker of 300 lb at mid-span, no boards or joists to hold its edge; C_D 1.25 (Table 2.3.2)."""
    t = site.timber(row.part)
    star = t.Fb * 1.25
    M = abs(row.argument("bending_stress", "M"))
    member = site.members[row.part]
    if member.field and len(member.seats) == 2:
        M = worker_on(member.length, *sorted(s.at for s in member.seats), timber.WET_PCF * t.A / 1728)
    l_u = row.argument("effective_length", "l_u")
    factor = timber.C_L(star, t.Emin, timber.l_e_uniform(l_u, t.d), members.breadth(site, row.part), t.d)
    return M / t.S, star * factor


def stage_rotation(site: Site, row: Row) -> Pair:
    """50 lb of a worker's push (ASCE 37-14, 4.4.1) at its top; printed weight, c and length of its seat."""
    t = site.timber(row.part)
    T = row.argument("compression_block", "T")
    typed = [
        read(p["rotation_tie"])
        for p in (site.piece(row.part), *site.file.get("post", {}).values())
        if "rotation_tie" in p
    ]
    assert T == 0 or T in typed
    R, c = row.argument("rotation_resistance", "R"), row.argument("rotation_resistance", "c")
    if row.has("weight_left_by_worker"):  # 300 lb at the beam's other end
        before, r = (row.argument("weight_left_by_worker", name) for name in ("R", "r"))
        assert abs(R - max(before - 300.0 * r, 0.0)) < 1e-6
    x = (R + T) / (t.Fcp * row.argument("compression_block", "l_b"))
    return 50.0 * t.d + row.argument("rotation_moment", "M_e"), R * (c - x / 2) + T * (c + t.b / 2 - x / 2)


def stage_uplift(site: Site, row: Row) -> Pair:
    """300 lb at the worst place of a bare beam, lever rule, less 0.6 (or all) of its own weight there; typed tie."""
    t, member = site.timber(row.part), site.members[row.part]
    seats = sorted(s.at for s in member.seats)
    here = next(s.at for s in member.seats if s.below == row.at)
    r, R_D = row.argument("uplift_by_worker", "r"), row.argument("uplift_by_worker", "R_D")
    w, L = timber.WET_PCF * t.A / 1728, member.length
    if len(seats) == 2:
        other = seats[0] if here == seats[1] else seats[1]
        past = L - other if other > here else other
        own = w * L * (L / 2 - other) / (here - other)
        r = past / abs(here - other)
        assert own * (1 + 1e-3) + 1e-6 >= R_D  # other beams on it may only take from it
        if not any(s.below == row.part for m in site.members.values() if m.kind == "beam" for s in m.seats):
            R_D = own
    supports = {s["mark"]: s for s in site.file["support"]}
    support = supports.get(row.at, {})
    if support:
        tie = read(support["uplift_tie"]) if "uplift_tie" in support else None
    else:
        bearing = next(s.bearing for s in member.seats if s.below == row.at)
        tie = ties.tie_of(site, row, bearing, 1.0)
    if tie is None:  # the tie on one side that keeps it upright
        tie = read(
            (site.post(row.at) if support.get("kind") == "post" else site.piece(row.part))["rotation_tie"]
        )
    return max(300.0 * r - k * R_D for k in (0.6, 1.0)), tie


AUDIT = {
    "beam.bending_lateral": bending_lateral,
    "beam.shear_lateral": shear_lateral,
    "beam.bearing_lateral": bearing_lateral,
    "beam.fastening_lateral": fastening_lateral,
    "beam.rotation": rotation,
    "beam.rotation_joists": rotation_joists,
    "beam.rotation_hanger": rotation_hanger,
    "joist.edge_load": edge_load,
    "beam.torsion": torsion,
    "beam.plies": plies,
    "beam.bending_of_ply": bending_of_ply,
    "beam.stage_bending": stage_bending,
    "joist.stage_bending": stage_bending,
    "beam.stage_rotation": stage_rotation,
    "beam.stage_uplift": stage_uplift,
    "joist.stage_uplift": stage_uplift,
}
