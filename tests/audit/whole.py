"""The platform as a whole, stages, posts of T-frames. ASCE 7-16, 2.4, 12.8; IBC 2021, 1807.3; NDS 2018, 3.3.3, 15.4."""

from __future__ import annotations

from itertools import combinations
from math import hypot, sqrt

from audit import footings, members, posts, timber
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]


def stage_slenderness(site: Site, row: Row) -> Pair:
    """R_B before boards or joists are on: seats hold it, a joist a board in each span too (3.3.3.7)."""
    member, t = site.members[row.part], site.timber(row.part)
    l_u = max(
        (b - a) / (2 if member.field and not members.overhangs(member, a, b) else 1)
        for a, b in members.spans(member)
    )
    b = members.breadth(site, row.part)
    if t.d <= b:
        return 0.0, 50.0
    return sqrt(timber.l_e_uniform(l_u, t.d) * t.d) / b, 50.0


def brace_distances(site: Site, row: Row) -> Pair:
    """Four diameters from a hole to the post's loaded edge, the row in its middle (NDS 2018, Table 12.5.1C)."""
    assert "edge of post" in row.where
    brace = site.brace(row.part)
    return 4 * read(brace["bolt_diameter"]), timber.timber(site.post(brace["support"])).d / 2


def one_arm(site: Site, row: Row) -> Pair:
    """Post of a T-frame with weight on one arm: eccentric compression (NDS 2018, 15.4), moment as printed."""
    t, mark = posts.timber_of(site, row.part), row.part
    M = abs(row.argument("tee_post_moment", "M_h"))
    f_c = row.argument("compression_stress", "P") / t.A
    E, star = posts.F_cE(site, mark), t.Fc * row.C_D
    bend = t.Fb * row.C_D
    e = read(site.post(mark).get("eccentricity"), 0.5)
    F_bE = 1.20 * t.Emin / (timber.l_e_uniform(posts.free_length(site, mark), t.d) * t.d / t.b**2)
    off = f_c * 6 * e / t.d
    one = off * (1 + 0.234 * f_c / E) / (bend * (1 - f_c / E))
    two = M / t.S / (bend * (1 - f_c / E - (off / F_bE) ** 2))
    return ((f_c / (star * timber.C_P(star, E))) ** 2 + one + two) * row.by_frame, 1.0


def embedment_one_arm(site: Site, row: Row) -> Pair:
    """The same moment in the ground: a small force very high up (IBC 2021, 1807.3.2.1)."""
    M = abs(row.argument("tee_post_moment", "M_h")) / 12
    high = 1e6  # ft
    return M * row.by_frame, footings.embedded(site, row.part, high * 12) * high


# --------------------------------------------------------------------------------------------------- as a whole


def drift(site: Site, row: Row) -> Pair:
    """Printed movement and turn of the floor: its corner that moves most (statics of a stiff plate); height / 200."""
    ux, uy, turn = (row.argument("support_movement", k, 0) for k in ("u_x", "u_y", "theta"))
    places = [[read(v) for v in p] for p in site.file["platform"]["outline"]]
    most = max(hypot(ux - turn * y, uy + turn * x) for x, y in places)
    return most * row.by_frame, read(site.file["platform"]["floor_height"]) / site.limit("drift")


def held_up(site: Site) -> list[str]:
    """Supports that members bear on."""
    return [s["mark"] for s in site.file["support"] if site.on(s["mark"])]


def p_delta(site: Site, row: Row) -> Pair:
    """P delta / (H h) at most 0.1 (common practice): softness and height as printed.

    P is the weight on the posts; a trunk carries its share by itself. On trunks alone all of it, and what the lower
    bolts bear of it once more; what a push on the guard presses on each is added (both on the safe side).
    """
    sums: dict[str, float] = {}
    knees = "brace" in site.file
    posts_here = [s["mark"] for s in site.file["support"] if s["kind"] == "post"]
    for mark in posts_here or [s["mark"] for s in site.file["support"]]:
        for name, (R, _) in site.reactions[mark].cases().items():
            if name == "D + one person":  # who stands on one support, not on all
                continue
            if knees and posts_here and name == "D + L + guard":  # knees share a push out anew: as printed
                continue
            sums[name] = sums.get(name, 0.0) + float(R[0])
    a = row.argument
    name = "second_order_ratio"
    P = max(sums.values())
    if knees:  # a knee takes weight to its post from the beam's other supports: as printed, where more
        P = max(P, a(name, "P"))
    return P * a(name, "Delta") / (a(name, "H") * a(name, "h")), 0.1


def in_plane(site: Site, row: Row) -> Pair:
    """Printed shear of the deck on diagonals that the cut meets, by their slope on the plan; least rating."""
    H = abs(row.argument("plan_shear", "V") - row.argument("plan_shear", "w"))
    share = row.argument("plan_diagonal_force", "C")
    slopes = []
    for piece in site.file["diagonal"]:
        a, b = ([read(v) for v in piece[k]] for k in ("from", "to"))
        l = hypot(b[0] - a[0], b[1] - a[1])
        slopes += [abs(b[0] - a[0]) / l, abs(b[1] - a[1]) / l]
    sums = {sum(c) for n in (1, 2, 3) for c in combinations(sorted({round(s, 6) for s in slopes}), n)}
    sums |= {n * s for s in slopes for n in (1, 2, 3)}
    C = min(sums, key=lambda s: abs(s - share))
    if abs(C - share) > 0.001:  # a cut askew to x and y: its share as printed
        C = share
    return H / C * row.by_frame, min(read(d["rated_load"]) for d in site.file["diagonal"])


def seismic(site: Site, row: Row) -> Pair:
    """0.7 C_s W, C_s = S_DS / (R / I_e), R 1.5 (ASCE 7-16, 12.8, Table 12.2-1); snow of 30 psf and less off (12.7.2).

    Against wind or sway as printed.
    """
    W = sum(float(site.reactions[mark].D[0]) for mark in held_up(site))
    W += sum(posts.own_weight(site, s["mark"]) for s in site.file["support"] if s["kind"] == "post")
    assert read(site.file["site"]["ground_snow"]) <= 30
    return 0.7 * site.file["site"]["S_DS"] / 1.5 * W, row.capacity


def restrained_trunks(site: Site, row: Row) -> Pair:
    """Trees that hold the platform laterally, where more than one does: they sway each by itself (common practice)."""
    held = {s["tree"] for s in site.file["support"] if s.get("lateral") in ("tied", "slides")}
    return float(len(held) if len(held) > 1 else 0), 1.0


AUDIT = {
    "beam.stage_slenderness": stage_slenderness,
    "joist.stage_slenderness": stage_slenderness,
    "brace.distances": brace_distances,
    "post.one_arm": one_arm,
    "footing.embedment_one_arm": embedment_one_arm,
    "platform.drift": drift,
    "platform.p_delta": p_delta,
    "platform.in_plane": in_plane,
    "platform.seismic": seismic,
    "platform.restrained_trunks": restrained_trunks,
}
