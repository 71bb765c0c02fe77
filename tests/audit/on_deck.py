"""Loads at one place: pull of ropes by statics, the member that a hammock presses together (NDS 2018, 3.9.2)."""

from __future__ import annotations

from math import cos, hypot, radians, sin, tan

from audit import timber
from audit.members import C_r, breadth, governing, l_e, unbraced
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]
USUAL = {"hammock": (2.0, 30.0), "swing": (1.0, 90.0), "hanging chair": (1.0, 60.0), "pulley": (1.5, 0.0)}


def pull(site: Site, mark: str) -> tuple[dict, float, float]:
    """Its entry, pounds down and level at one end, by statics and by the swing of a pendulum."""
    load = next(p for p in site.file["point_load"] if p["mark"] == mark)
    form = load.get("form", "thing")
    f, a = USUAL.get(form, (1.0, 0.0))
    f, a = float(load.get("impact", f)), radians(read(load["angle"]) if "angle" in load else a)
    W = read(load.get("weight"), 0.0)
    if form == "hammock":
        return load, f * W / 2, f * W / 2 / tan(a)
    if form == "pulley":
        return load, 2 * f * W, 0.0
    if form == "thing":
        return load, f * (W - read(load.get("up"), 0.0)), f * read(load.get("lateral"), 0.0)
    greatest = max((f * W * (3 * cos(x) - 2 * cos(a)) * sin(x) for x in steps(a)), default=0.0)
    return load, f * W * (3 - 2 * cos(a)), greatest


def steps(a: float) -> list[float]:
    return [k / 2000 * a for k in range(2001)]


def fastening(site: Site, row: Row) -> Pair:
    load, down, level = pull(site, row.part)
    return hypot(down, level), read(load["fastener_load"])


def compression(site: Site, row: Row) -> Pair:
    """Equation 3.9-3 without load on the flat side; the pull at the member's edge, and the largest moment anywhere.

    Edgewise it buckles between the ends; flatwise boards hold a joist at every board. C_L of the hogging edge is by its
    length between seats; the sagging edge of a joist is held. The pull counts beside every pattern: on the safe side,
    as the program takes it.
    """
    load, _, H = pull(site, row.part)
    mark = load["member"]
    member, t = site.members[mark], site.timber(mark)
    assert member.field, "beams: what bears on it holds it flatwise"
    slender = abs(read(load["other_end"]) - read(load["along"])) / t.d
    F_cE = 0.822 * t.Emin / slender**2
    pairs = []
    for sign in (1, -1):
        l = unbraced(site, member, sign > 0)
        for M, C_D in member.moment.cases(sign).values():
            star = t.Fb * C_D * C_r(site, mark)
            allowed = star * (timber.C_L(star, t.Emin, l_e(l, t.d), breadth(site, mark), t.d) if l else 1.0)
            F_c = t.Fc * C_D * timber.C_P(t.Fc * C_D, F_cE)
            f_c, f_b = H / t.A, (float(M.max()) + H * t.d / 2) / t.S
            pairs.append(((f_c / F_c) ** 2 + f_b / (allowed * (1 - f_c / F_cE)), 1.0))
    return governing(pairs, row)


AUDIT = {"point_load.fastening": fastening, "point_load.compression": compression}
