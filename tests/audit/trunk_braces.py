"""Knee braces from the trunk, room round trunk and limbs. NDS 2018, 3.7 to 3.10, 11.3, 12.3; IRC 2021, R312."""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, sin

import numpy as np

from audit import braces, dowels, lateral, ties, timber
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]
PLATE, PLATE_BROAD = 0.25, 3 * 0.625  # steel plates on both faces, as broad as their bolts want


class Strut:
    """A support of the file that stands on a tree bolt: its slope, wood, bolts; braces of one foot share a push."""

    def __init__(self, site: Site, mark: str) -> None:
        self.support = s = site.support(mark)
        self.file = site.file["strut"][s["strut"]]
        self.foot = site.support(s["foot"])
        self.rise = read(s["rise"])
        self.run = hypot(*(read(a) - read(b) for a, b in zip(s["at"], self.foot["at"], strict=True)))
        self.length = hypot(self.rise, self.run)
        own = {k: self.file[k] for k in ("species", "grade", "wet") if k in self.file}
        self.t = timber.timber(site.cut_from(site.file) | own | {"section": self.file["section"]})
        self.D = read(self.file["bolt_diameter"])
        self.hole = self.D + 1 / 16  # NDS 2018, 12.1.3.2
        self.beam = next(m.mark for m, _ in site.on(mark))
        self.wet = 0.7  # NDS 2018, 11.3.3


def weight_on(site: Site, row: Row) -> float:
    """Printed weight on its head, and what a printed lateral force adds: H = R (r_1 / a_1 + r_2 / a_2) (statics)."""
    a = next(a for step, a, _ in row.printed if step == "brace_load_from_lateral")
    return row.result("load_with_sway") + abs(a["H_b"]) / (a["r_1"] / a["a_1"] + a["r_2"] / a["a_2"])


def force(site: Site, row: Row, s: Strut) -> float:
    return weight_on(site, row) * s.length / s.rise


def thrust(site: Site, row: Row, s: Strut) -> float:
    return weight_on(site, row) * s.run / s.rise


def buckling(site: Site, row: Row) -> Pair:
    """Pinned ends, the thinner way (NDS 2018, 3.7.1)."""
    s = Strut(site, row.part)
    star = s.t.Fc * row.C_D
    E = 0.822 * s.t.Emin / (s.length / min(s.t.b, s.t.d)) ** 2
    return force(site, row, s) / s.t.A * row.by_frame, star * timber.C_P(star, E)


def with_wind(site: Site, row: Row) -> Pair:
    """Wind bends it flatwise between its hinges (NDS 2018, 3.9.2)."""
    s = Strut(site, row.part)
    return braces.bent_by(site, row, s.t, 1, s.length, s.t.A, force(site, row, s))


def net_compression(site: Site, row: Row) -> Pair:
    """At its bolts, in a row along it: F_c* (NDS 2018, 3.6.3)."""
    s = Strut(site, row.part)
    return force(site, row, s) / (s.t.A - s.t.b * s.hole) * row.by_frame, s.t.Fc * row.C_D


def foot_rated(site: Site, row: Row) -> Pair:
    s = Strut(site, row.part)
    return force(site, row, s) * row.by_frame, read(s.file["rated_foot"])


def bolts(s: Strut, n: int, l_m: float, theta: float, E_m: float, A_m: float, C_D: float) -> float:
    """Bolts in double shear between 1/4 in. plates: F_e 87 ksi of steel (NDS 2018, Table 12B), 12.3.1, 11.3.6.

    End distance 7 D and spacing 4 D in the row, 4 D to a loaded edge: full values (12.5.1), given by the detail.
    """
    Z = dowels.double_shear(
        s.D, l_m, PLATE, dowels.F_e(timber.G_SOUTHERN, s.D, theta), 87000.0, 45000.0, theta
    )
    plates = 2 * 29e6 * PLATE * 3 * s.D
    return n * Z * s.wet * C_D * dowels.C_g(n, s.D, 4 * s.D, E_m * A_m, plates, 270000.0)


def foot_bolts(site: Site, row: Row) -> Pair:
    """Push along the grain; of plates 1/4 in. thick."""
    s = Strut(site, row.part)
    n = s.file["foot_bolts"]
    return force(site, row, s) * row.by_frame, bolts(s, n, s.t.b, 0.0, s.t.E_dry, s.t.A, row.C_D)


def head_bolts_beam(site: Site, row: Row) -> Pair:
    """The thrust along the beam's grain."""
    s, beam = Strut(site, row.part), site.timber(Strut(site, row.part).beam)
    n = s.file["head_bolts"]
    return thrust(site, row, s) * row.by_frame, bolts(s, n, beam.b, 0.0, beam.E_dry, beam.A, row.C_D)


def head_bolts_brace(site: Site, row: Row) -> Pair:
    """The same level thrust, at the slope to the brace's grain; area of one row at 3 D (NDS 2018, 11.3.6.3)."""
    s = Strut(site, row.part)
    n, theta = s.file["head_bolts"], degrees(atan2(s.rise, s.run))
    return thrust(site, row, s) * row.by_frame, bolts(s, n, s.t.b, theta, s.t.E_dry, s.t.b * 3 * s.D, row.C_D)


def head_bearing(site: Site, row: Row) -> Pair:
    """Level cut under the beam: R on it, at 90 degrees less the slope to the grain (NDS 2018, 3.10.3)."""
    s, beam = Strut(site, row.part), site.timber(Strut(site, row.part).beam)
    slope = atan2(s.rise, s.run)
    theta = np.pi / 2 - slope
    area = min(s.t.b, beam.b) * s.t.d / sin(slope)
    star = s.t.Fc * row.C_D
    F = star * s.t.Fcp / (star * sin(theta) ** 2 + s.t.Fcp * cos(theta) ** 2)
    return weight_on(site, row) / area * row.by_frame, F


def beam_tension(site: Site, row: Row) -> Pair:
    """NDS 2018, 3.9.1: thrust of gravity at its lower edge, between the heads; a hole at the brace's bolts.

    The greatest head load and the greatest moment of a case need not come together, and at the upper bolt, where the
    beam hogs, the thrust's lever relieves it: the program takes all as if they added up (safe), and is followed here.
    """
    s = Strut(site, row.part)
    beam, t = site.members[s.beam], site.timber(s.beam)
    heads = [seat.at for seat in beam.seats if site.support(seat.below)["kind"] == "knee brace"]
    inside = (beam.x >= min(heads) - 1e-6) & (beam.x <= max(heads) + 1e-6)
    pairs = []
    heads_by_case = site.reactions[row.part].cases()
    for sign in (1, -1):
        for name, (M, C_D) in beam.moment.cases(sign).items():
            T = float(heads_by_case[name][0][0]) * s.run / s.rise
            f_t, f_b = T / (t.A - t.b * s.hole), (float(M[inside].max()) + T * t.d / 2) / t.S
            if row.has("moment_of_loaded_ply") and name == row.combination:
                f_b += lateral.over_its_share(site, row, s.beam) / (t.S / t.plies)
            pairs.append((f_t / (t.Ft * C_D) + f_b / (t.Fb * C_D)) * row.by_frame)
    return max(pairs), 1.0


def clearance(site: Site, row: Row) -> Pair:
    """Growth over the service and the margin (it moves with the trunk); gap on the plan as printed."""
    tree = site.tree(Strut(site, row.part).foot["tree"])
    growth = read(tree.get("growth"), 0.25) * read(tree.get("service"), 10.0)
    return growth + read(tree.get("margin"), 1.0), row.capacity


# --------------------------------------------------------------------------------------------- living wood's room


def opening_of(site: Site, row: Row) -> dict:
    return next(q for q in site.file["trunk_opening"] if q["mark"] == row.part)


def grown(site: Site, mark: str) -> float:
    tree = site.tree(mark)
    return read(tree.get("growth"), 0.25) * read(tree.get("service"), 10.0)


def opening_growth(site: Site, row: Row) -> Pair:
    q = opening_of(site, row)
    return grown(site, q["around"]), read(q["gap"])


def opening_load(site: Site, row: Row) -> Pair:
    """One person."""
    return read(site.file["loads"].get("person"), 300.0), read(opening_of(site, row)["rated_load"])


def opening_sphere(site: Site, row: Row) -> Pair:
    """No 4 in. sphere at rest (IRC 2021, R312.1.3)."""
    return read(opening_of(site, row)["gap"]), 4.0


def opening_travel(site: Site, row: Row) -> Pair:
    """Printed sway, growth, and an inch that it still lies on the deck (common practice)."""
    q = opening_of(site, row)
    return row.argument("travel_needed", "s") + grown(site, q["around"]) + 1.0, read(q["overlap"])


def hole_edge(site: Site, row: Row) -> Pair:
    """Four diameters of wood beside a bolt that is pushed to the side (NDS 2018, Table 12.5.1C), half way down it."""
    from audit.bolts import bolt_of, place, sound_radius, tree_of

    bolt, r = bolt_of(site, row.part), sound_radius(tree_of(site, row.part))
    _, a, _ = place(site, row.part)
    x = (r**2 - a**2) ** 0.5 - read(bolt["embedment"]) / 2
    return 4 * read(bolt["diameter"]), (r**2 - x**2) ** 0.5 - a


AUDIT = {
    "trunk_brace.buckling": buckling,
    "trunk_brace.with_wind": with_wind,
    "trunk_brace.net_compression": net_compression,
    "trunk_brace.foot_rated": foot_rated,
    "trunk_brace.foot_bolts": foot_bolts,
    "trunk_brace.head_bolts_beam": head_bolts_beam,
    "trunk_brace.head_bolts_brace": head_bolts_brace,
    "trunk_brace.head_bearing": head_bearing,
    "trunk_brace.beam_tension": beam_tension,
    "trunk_brace.clearance": clearance,
    "trunk_brace.uplift": ties.of_support,
    "trunk_brace.uplift_lateral": ties.of_support_lateral,
    "trunk_opening.growth": opening_growth,
    "trunk_opening.load": opening_load,
    "trunk_opening.sphere": opening_sphere,
    "trunk_opening.travel": opening_travel,
    "tree_bolt.hole_edge": hole_edge,
}
