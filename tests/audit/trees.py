"""Trees: the trunk's stresses, gaps and years, what a tied trunk brings (statics; ASTM D2555, D245)."""

from __future__ import annotations

from math import hypot, pi, sqrt

from audit.bolts import GREEN, bolt_of, sound_radius, tree_of
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]


def stress(site: Site, row: Row) -> Pair:
    """M / S + P / A of the sound round trunk as printed, less a cavity; against green bending.

    MOR (1 - 1.645 x 0.16) / 2.3 for hardwood (ASTM D2555, D245), (2 / d)^(1/9), C_D.
    """
    tree = site.tree(row.part)
    d, hollow = 2 * sound_radius(tree), read(tree.get("cavity"), 0.0)
    I, c = pi * (d**4 - hollow**4) / 64, d / 2
    if row.has("trunk_net_section_modulus"):
        # Bolt holes from the bark inward where bending is greatest: their share about the axis, and the axis moved.
        a = next(a for step, a, _ in row.printed if step == "trunk_net_section_modulus")
        w, L, r = a["d_h"], a["L_h"], d / 2
        aside = a["n_1"] * w * L * (r - L / 2)
        net = pi * (d**2 - hollow**2) / 4 - a["n_h"] * w * L
        I -= a["n_h"] * w * (r**3 - (r - L) ** 3) / 3 + aside**2 / net
        c += aside / net
    S = I / c
    M, P = abs(row.argument("trunk_stress", "M")), abs(row.argument("trunk_stress", "P"))
    A = row.argument("trunk_net_area", "d") ** 2 * pi / 4 - pi * hollow**2 / 4
    A -= sum(a["n_h"] * a["d_h"] * a["L_h"] for step, a, _ in row.printed if step == "trunk_net_area")
    working = GREEN[tree["species"]][1] * (1 - 1.645 * 0.16) / 2.3
    return (M / S + P / A) * row.by_frame, working * (2 / d) ** (1 / 9) * row.C_D


def torsion(site: Site, row: Row) -> Pair:
    """16 T / (pi d^3), hollow taken off; green shear (1 - 1.645 x 0.14) / 2.3, C_D."""
    tree = site.tree(row.part)
    d, hollow = 2 * sound_radius(tree), read(tree.get("cavity"), 0.0)
    T = abs(row.argument("trunk_torsion_stress", "T"))
    working = GREEN[tree["species"]][5] * (1 - 1.645 * 0.14) / 2.3
    return 16 * T * d / (pi * (d**4 - hollow**4)) * row.by_frame, working * row.C_D


def clearance(site: Site, row: Row) -> Pair:
    """Greatest movement as printed, growth over the service, and the margin; gap on the plan as printed."""
    tree = site.tree(row.part)
    growth = read(tree.get("growth"), 0.25) * read(tree.get("service"), 10.0)
    return row.argument("gap_needed", "s") + growth + read(tree.get("margin"), 1.0), row.capacity


def clearance_years(site: Site, row: Row) -> Pair:
    tree = site.tree(row.part)
    c, s = (row.argument("years_to_storm_contact", k) for k in ("c", "s"))
    return read(tree.get("service"), 10.0), (c - s) / read(tree.get("growth"), 0.25)


def restraint(site: Site, row: Row) -> Pair:
    """Trunk that wants to move by s, its stiffness and the platform's in a row; side ratings of its brackets."""
    a = next(a for step, a, _ in row.printed if step == "tied_tree_force")
    ratings = [
        read(bolt_of(site, s["mark"])["rated_lateral"])
        for s in site.file["support"]
        if s.get("tree") == row.part and s.get("lateral") in ("tied", "slides")
    ]
    return a["s"] / (1 / a["k_t"] + 1 / a["k_f"]), sum(ratings)


def slot(site: Site, row: Row) -> Pair:
    """Both ways: movement as printed, growth over the service, margin; and the bolt's own breadth."""
    support, tree = site.support(row.part), tree_of(site, row.part)
    each = row.argument("slide_each_way", "s") + read(tree.get("growth"), 0.25) * read(
        tree.get("service"), 10.0
    )
    each += read(tree.get("margin"), 1.0)
    return 2 * each + read(bolt_of(site, row.part)["diameter"]), read(support["slot"])


def hole_spacing(site: Site, row: Row) -> Pair:
    """Five diameters side by side (ENGINEERING_NOTES, section 2, 3: 5D across)."""
    one, other = (site.support(mark)["at"] for mark in (row.part, row.at))
    apart = hypot(*(read(a) - read(b) for a, b in zip(one, other, strict=True)))
    return 5 * read(bolt_of(site, row.part)["diameter"]), apart


def hole_line(site: Site, row: Row) -> Pair:
    """Six diameters of wood on the bolt's line, a hole of a sixth of the trunk (common practice): the chord."""
    from audit.bolts import place

    _, a, _ = place(site, row.part)
    r = sound_radius(tree_of(site, row.part))
    return 6 * read(bolt_of(site, row.part)["diameter"]), 2 * sqrt(r**2 - a**2)


AUDIT = {
    "tree.trunk": stress,
    "tree.trunk_wind": stress,
    "tree.trunk_torsion": torsion,
    "tree.clearance": clearance,
    "tree.clearance_years": clearance_years,
    "tree.restraint": restraint,
    "tree_bolt.slot": slot,
    "tree_bolt.hole_spacing": hole_spacing,
    "tree_bolt.hole_line": hole_line,
}
