"""Knee braces and the wood at their bolts (NDS 2018, 3.7, 3.8, 11.3, 12.3, 12.5, Appendix E; AWC TR12)."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians

from audit import dowels, lateral, timber
from audit.bolts import bolt_of, level
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]


class Knee:
    """A knee brace of the file with post and beam."""

    def __init__(self, site: Site, mark: str) -> None:
        self.file = site.brace(mark)
        self.plies = self.file.get("plies", 1)
        self.t = timber.timber(self.file, self.plies)
        self.post = timber.timber(site.post(self.file["support"]))
        self.beam = site.timber(self.file["beam"])
        self.rise, self.run = read(self.file["rise"]), read(self.file["run"])
        self.length = hypot(self.rise, self.run)
        self.n = self.file.get("bolts", 0)
        self.D = read(self.file.get("bolt_diameter"), 0.0)
        self.hole = self.D + 1 / 16  # NDS 2018, 12.1.3.2: 1/32 to 1/16 in. larger
        self.wet = self.file.get("wet", True)
        self.to_post = degrees(atan2(self.run, self.rise))
        self.to_beam = 90 - self.to_post


def force(site: Site, row: Row) -> float:
    """Printed force of the brace in the case: pull, push, or the greater at its end."""
    if row.has("brace_axial_force"):
        of_lateral(site, row)
    for name in ("brace_end_force", "brace_tension", "brace_compression"):
        if row.has(name):
            return abs(row.result(name))
    return abs(row.result("brace_axial_force"))


def of_lateral(site: Site, row: Row) -> None:
    """The part of lateral force: Q of the post's knees, all of it on one, of two by stiffness; L_b/r (statics)."""
    mark = row.part if row.key.startswith("brace.") else row.at.split(",")[0]
    k = Knee(site, mark)
    of_post = [b for b in site.file["brace"] if all(b[key] == k.file[key] for key in ("support", "beam"))]
    q, own = row.argument("brace_axial_force", "q"), 1.0
    if len(of_post) == 2:
        k_i, k_o = (row.argument("share_of_a_knee", name) for name in ("k_i", "k_o"))
        own = k_i / (k_i + k_o)
    assert abs(q - own) < 1e-9, f"{row.key} {mark}: share {q:.6g}, by statics {own:.6g}"
    F = own * row.argument("brace_axial_force", "Q") * k.length / k.run
    assert abs(row.result("brace_axial_force") - F) < 1e-6 * max(abs(F), 1.0)


def buckling(site: Site, row: Row) -> Pair:
    """Pinned ends, its thinner way; two plies lapped apart buckle each alone (NDS 2018, 3.7.1)."""
    k = Knee(site, row.part)
    star = k.t.Fc * row.C_D
    E = 0.822 * k.t.Emin / (k.length / (k.t.b / k.plies)) ** 2
    return force(site, row) / k.t.A * row.by_frame, star * timber.C_P(star, E)


def wind_on(row: Row, wide: float, length: float) -> float:
    """Wind on its broad side: velocity pressure as printed, C_f 2.0, G 0.85, at least 16 psf (ASCE 7-16, 29.4)."""
    p = row.result("wind_pressure")
    q = row.result("velocity_pressure")
    assert abs(p - max(q * 0.85 * 2.0, 16.0)) < 0.02 * p
    return p * wide * length / 144


def share_of_wind(row: Row) -> float:
    """Factor of W in a combination (ASCE 7-16, 2.4.1)."""
    return 0.45 if "0.75(0.6W)" in row.combination else 0.6 if "0.6W" in row.combination else 0.0


def bent_by(site: Site, row: Row, t: timber.Timber, plies: int, length: float, A_n: float, F: float) -> Pair:
    """Wind on one ply, w F l / 8 flatwise, with tension (NDS 2018, 3.9.1) or compression (3.9.2; 15.4 off centre)."""
    thin = t.b / plies
    w = row.argument("moment_by_wind", "w")
    assert w == share_of_wind(row)
    f_b = w * wind_on(row, t.d, length) * length / 8 / (t.d * thin**2 / 6)
    if row.has("bending_and_tension"):
        if plies == 1 and row.key.startswith(
            "brace."
        ):  # pulled at its face, half its thickness off its middle
            f_b += F * (thin / 2) / (t.d * thin**2 / 6)
        return (F / A_n / (t.Ft * row.C_D) + f_b / (t.Fb * row.C_D)) * row.by_frame, 1.0
    star = t.Fc * row.C_D
    E = 0.822 * t.Emin / (length / thin) ** 2
    f_c, e = F * row.by_frame / t.A, row.argument("eccentric_compression", "e_2")  # it rises faster than F
    assert e == (thin / 2 if plies == 1 and row.key.startswith("brace.") else 0.0)
    off = f_c * 6 * e / thin * (1 + 0.234 * f_c / E)  # equation 15.4-1
    crushed = (f_c / (star * timber.C_P(star, E))) ** 2
    return crushed + (f_b + off) / (t.Fb * row.C_D * (1 - f_c / E)), 1.0


def with_wind(site: Site, row: Row) -> Pair:
    k = Knee(site, row.part)
    return bent_by(site, row, k.t, k.plies, k.length, net(k) if k.n else k.t.A, force(site, row))


def row_width(k: Knee) -> int:
    """Bolts in a section square to the brace: set in a slanting line, all of them are taken as in one section."""
    return k.n


def net(k: Knee) -> float:
    return k.t.A - row_width(k) * k.hole * k.t.b


def tension(site: Site, row: Row) -> Pair:
    k = Knee(site, row.part)
    return force(site, row) / (net(k) if k.n else k.t.A) * row.by_frame, k.t.Ft * row.C_D


def net_compression(site: Site, row: Row) -> Pair:
    k = Knee(site, row.part)
    return force(site, row) / net(k) * row.by_frame, k.t.Fc * row.C_D


def bolts(k: Knee, main: timber.Timber, theta: float, gap: float, row: Row) -> float:
    """All bolts of an end: yield value, wet 0.7, C_D, C_g and C_Delta as printed distances give them."""
    F_em = dowels.F_e(timber.G_SOUTHERN, k.D, theta)
    F_es = dowels.F_e(timber.G_SOUTHERN, k.D, 0)
    l_s = k.t.b / k.plies
    if k.plies == 2:
        Z = dowels.double_shear(k.D, main.b, l_s, F_em, F_es, 45000.0, theta, gap)
    else:
        K = 1 + 0.25 * theta / 90
        Z = dowels.single_shear(k.D, main.b, l_s, F_em, F_es, 45000.0, (4 * K, 3.6 * K, 3.2 * K))
    s = row.argument("group_action_factor", "s") if row.has("group_action_factor") else 0.0
    EA_m, EA_s = main.E_dry * main.A, k.t.E_dry * k.t.A
    C_g = dowels.C_g(k.n, k.D, s, EA_m, EA_s)
    C_Delta = 1.0
    if row.has("geometry_factor"):  # NDS 2018, 12.5.1: distance over that for the full value, at most 1
        C_Delta = min(
            [1.0, *(a["a"] / a["a_full"] for step, a, _ in row.printed if step == "geometry_factor")]
        )
    return k.n * Z * (0.7 if k.wet else 1.0) * row.C_D * C_g * C_Delta


def end_on_post(site: Site, row: Row) -> Pair:
    k = Knee(site, row.part)
    gap = max(k.beam.b - k.post.b, 0.0) / 2 if k.plies == 2 else 0.0
    return force(site, row) * row.by_frame, bolts(k, k.post, k.to_post, gap, row)


def end_on_beam(site: Site, row: Row) -> Pair:
    k = Knee(site, row.part)
    gap = max(k.post.b - k.beam.b, 0.0) / 2 if k.plies == 2 else 0.0
    return force(site, row) * row.by_frame, bolts(k, k.beam, k.to_beam, gap, row)


def row_tear_out(site: Site, row: Row) -> Pair:
    """n_i F_v' t s_crit of each row (NDS 2018, E.3); the brace's bolts are one a row, its end distance as printed."""
    k = Knee(site, row.part)
    s = row.argument("row_tear_out", "s_crit")
    rows = row.argument("rows_tear_out", "n_row") if row.has("rows_tear_out") else 1
    assert rows * row.argument("row_tear_out", "n_i") == k.n
    return force(site, row) * row.by_frame, k.n * k.t.Fv * row.C_D * k.t.b * s


def group_tear_out(site: Site, row: Row) -> Pair:
    """Half the outer rows and the net section between them in tension (NDS 2018, E.4)."""
    k = Knee(site, row.part)
    s = row.argument("row_tear_out", "s_crit")
    n_i = row.argument("row_tear_out", "n_i")
    shear = n_i * k.t.Fv * row.C_D * k.t.b * s
    between = (
        k.t.b
        * (row.argument("group_net_area", "n_row") - 1)
        * (row.argument("group_net_area", "s_row") - k.hole)
    )
    return force(site, row) * row.by_frame, shear + k.t.Ft * row.C_D * between


def along_grain(site: Site, row: Row) -> Pair:
    """Row tear-out of post or beam by the brace's force along its grain; spacings and end as printed."""
    mark = row.at.split(",")[0]
    if in_bracket(site, row):
        bolts, beam = in_its_bracket(site, row), site.timber(row.part)
        s = min(4 * bolts.D, bolts.end) if bolts.n > 1 else bolts.end
        return level(row) * row.by_frame, bolts.n * beam.Fv * row.C_D * beam.b * s
    k = Knee(site, mark)
    on_post = row.key.startswith("post.")
    piece, theta = (k.post, k.to_post) if on_post else (k.beam, k.to_beam)
    s = row.argument("row_tear_out", "s_crit")
    n_i = row.argument("row_tear_out", "n_i")
    rows = row.argument("rows_tear_out", "n_row") if row.has("rows_tear_out") else 1
    return force(site, row) * cos(
        radians(theta)
    ) * row.by_frame, rows * n_i * piece.Fv * row.C_D * piece.b * s


def of_trunk_brace(site: Site, row: Row) -> Pair:
    """Two bolts or more of a head in its beam, 4 D apart (NDS 2018, E.3); lateral force and end as printed."""
    strut = site.file["strut"][site.support(row.part)["strut"]]
    n, D, beam = strut["head_bolts"], read(strut["bolt_diameter"]), site.timber(row.at)
    s = min(4 * D, row.argument("critical_spacing", "a_end"))
    return row.result("trunk_brace_compression") * row.by_frame, n * beam.Fv * row.C_D * beam.b * s


@dataclass(frozen=True)
class InBracket:
    """Bolts of a beam in its bracket: number, diameter, height over its lower edge, from the nearest to its end."""

    n: int
    D: float
    height: float
    end: float

    def shear(self, site: Site, row: Row) -> Pair:
        """2/3 F_v' b h, near the end times (h / d)^2, h below the bolts (3.4.3.3); 200 lb, what lifts it, or more."""
        beam = site.timber(row.part)
        U = max(200.0, -row.result("load_with_sway"))
        assert row.demand >= U * (1 - 1e-9)
        near = (self.height / beam.d) ** 2 if self.end < 5 * beam.d else 1.0
        demand = U if -row.result("load_with_sway") < 0.5 else row.demand
        return demand, 2 / 3 * beam.Fv * row.C_D * beam.b * self.height * near

    def bending(self, site: Site, row: Row) -> Pair:
        """One hole of D + 1/16: rectangles above and below it about their own axis; H over their area (3.9.1)."""
        t, hole = site.timber(row.part), self.D + 1 / 16
        low, high = self.height - hole / 2, t.d - self.height - hole / 2
        middles = low / 2, t.d - high / 2
        axis = (low * middles[0] + high * middles[1]) / (low + high)
        I = sum(
            t.b * (side**3 / 12 + side * (at - axis) ** 2)
            for side, at in zip((low, high), middles, strict=True)
        )
        M = abs(row.argument("bending_stress", "M"))
        if row.has("moment_of_loaded_ply"):
            M = lateral.ply_moment(site, row, row.part) * t.plies
        f_b = M * max(axis, t.d - axis) / I
        f_t = abs(row.argument("tension_stress", "T")) / (t.b * (low + high))
        return (f_t / (t.Ft * row.C_D) + f_b / (t.Fb * row.C_D)) * row.by_frame, 1.0


def bolts_below_middle(site: Site, row: Row) -> Pair:
    """Half the depth against the height of the bolts over the lower edge (NDS 2018, Table 12.5.1C, footnote 2)."""
    return site.timber(row.part).d / 2, in_its_bracket(site, row).height


def in_bracket(site: Site, row: Row) -> bool:
    """Whether a row is of the bolts of a beam in its bracket, not of a knee."""
    return any(s["mark"] == row.at and s["kind"] == "tree bolt" for s in site.file["support"])


def in_its_bracket(site: Site, row: Row) -> InBracket:
    """The bolts as the file names them: 4 D apart, the middle of the row on the seat."""
    bolt, member = bolt_of(site, row.at), site.members[row.part]
    n, D = bolt["beam_bolts"], read(bolt["beam_bolt_diameter"])
    at = next(s.at for s in member.seats if s.below == row.at)
    end = min(at, member.length - at) - (n - 1) * 2 * D
    return InBracket(n, D, read(bolt.get("beam_bolt_height"), 4 * D), end)


def shear_at_bolts(site: Site, row: Row) -> Pair:
    """2/3 F_v' b d_e, within 5 d of the end times (d_e / d)^2 (NDS 2018, 3.4.3.3); shear and u as printed."""
    if in_bracket(site, row):
        return in_its_bracket(site, row).shear(site, row)
    k = Knee(site, row.at.split(",")[0])
    piece = k.post if row.key.startswith("post.") else k.beam
    d_e = piece.d - row.argument("depth_from_loaded_edge", "u")
    V = 2 / 3 * piece.Fv * row.C_D * piece.b * d_e
    if row.has("connection_shear_near_end"):
        V *= (d_e / piece.d) ** 2
    return row.demand, V


def bending_at_bolts(site: Site, row: Row) -> Pair:
    """M / S of the net section, the row of holes in the middle of the depth; moment as printed."""
    if in_bracket(site, row):
        return in_its_bracket(site, row).bending(site, row)
    k = Knee(site, row.at.split(",")[0])
    t = k.beam
    a = next(a for step, a, _ in row.printed if step.startswith("net_modulus"))
    I = t.I_x - a["n"] * (t.b * k.hole**3 / 12 + t.b * k.hole * a.get("y", 0.0) ** 2)
    if a["n"] != 1 or a.get("y", 0.0):
        return row.demand, row.capacity
    S = I / (t.d / 2)
    M = abs(row.argument("bending_stress", "M"))
    if row.has("moment_of_loaded_ply"):  # members hang on one ply near the bolts
        M = lateral.ply_moment(site, row, row.part) * t.plies
    return M / S * row.by_frame, t.Fb * row.C_D * C_L(row)


def C_L(row: Row) -> float:
    return row.result("beam_stability_factor") if row.has("beam_stability_factor") else 1.0


AUDIT = {
    "brace.buckling": buckling,
    "brace.tension": tension,
    "brace.with_wind": with_wind,
    "brace.net_compression": net_compression,
    "brace.end_on_post": end_on_post,
    "brace.end_on_beam": end_on_beam,
    "brace.row_tear_out": row_tear_out,
    "brace.group_tear_out": group_tear_out,
    "post.row_tear_out": along_grain,
    "beam.row_tear_out": along_grain,
    "trunk_brace.row_tear_out": of_trunk_brace,
    "post.shear_at_bolts": shear_at_bolts,
    "beam.shear_at_bolts": shear_at_bolts,
    "beam.bending_at_bolts": bending_at_bolts,
    "beam.bolts_below_middle": bolts_below_middle,
}
