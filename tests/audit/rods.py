"""Crossed rods: the post as a cantilever that the rod props like a spring; steel in tension. AISC 360-16, D2, J3.6."""

from __future__ import annotations

from math import hypot, pi

from audit import timber
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]


def rods(site: Site, mark: str) -> dict:
    return next(r for r in site.file["crossed_rods"] if r["mark"] == mark)


def tension(site: Site, row: Row) -> float:
    """The force at the post's top, the spring at the rod and the heights as printed; the rod's share by statics.

    A load at the top, h over the foot, moves a cantilever's place c by V c^2 (3 h - c) / 6 E I; a force there by
    H c^3 / 3 E I; and H / k is what the spring gives.
    """
    entry = rods(site, row.part)
    post = timber.timber(site.post(entry["from_post"]))
    V = abs(row.argument("rod_lateral_force", "V"))
    l, d, c, k = (row.argument("rod_share", name) for name in ("l", "d", "c", "k_x"))
    h, EI = l + d, row.argument("rod_share", "E") * post.I_x
    H = V * c**2 * (3 * h - c) / (6 * EI) / (c**3 / (3 * EI) + 1 / k)
    ends = [[read(v) for v in site.support(entry[name])["at"]] for name in ("from_post", "to_post")]
    level = hypot(*(a - b for a, b in zip(*ends, strict=True)))
    rise = row.argument("rod_length", "b")
    return H * hypot(level, rise) / level * row.by_frame


def steel(site: Site, row: Row) -> Pair:
    """Yield on the gross area over 1.67, rupture on the thread 0.75 F_u over 2.00."""
    entry = rods(site, row.part)
    A = pi * read(entry["diameter"]) ** 2 / 4
    F_y, F_u = read(entry.get("F_y"), 36000.0), read(entry.get("F_u"), 58000.0)
    return tension(site, row), min(F_y * A / 1.67, 0.75 * F_u * A / 2.0)


def ends(site: Site, row: Row) -> Pair:
    return tension(site, row), read(rods(site, row.part)["rated_load"])


AUDIT = {"crossed_rods.tension": steel, "crossed_rods.ends": ends}
