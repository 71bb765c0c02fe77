"""Rims and blocks between joists: short beams, their nails in end grain or hangers. NDS 2018, chapters 3, 11, 12."""

from __future__ import annotations

import numpy as np

from audit import dowels, edges, members, ties, timber
from audit.hangers import factor, hanger_of
from audit.members import spans
from audit.paper import Range, Row, Site
from audit.quantities import read

Pair = tuple[float, float]
Sides = tuple[np.ndarray, np.ndarray]
# Common nails: diameter, length (NDS 2018, Table L4); bending yield, 12.3.1 and Appendix I.
NAILS = {"10d nail": (0.148, 3.0), "16d nail": (0.162, 3.5), "20d nail": (0.192, 4.0)}
F_YB = ((0.142, 100e3), (0.177, 90e3), (0.236, 80e3))


def bending(site: Site, row: Row, sign: int = 1) -> Pair:
    """Sagging: held by the boards; hogging: its lower edge at its joists only (NDS 2018, 3.3.3)."""
    member, t = site.members[row.part], site.timber(row.part)
    l = max(b - a for a, b in spans(member)) if sign < 0 else 0.0
    pairs = []
    for M, C_D in member.moment.cases(sign).values():
        star = t.Fb * C_D
        held = timber.C_L(star, t.Emin, timber.l_e_uniform(l, t.d), t.b, t.d) if l else 1.0
        pairs.append((float(M.max()) / t.S, star * held))
    return members.governing(pairs, row)


def negative_bending(site: Site, row: Row) -> Pair:
    return bending(site, row, -1)


def slenderness(site: Site, row: Row) -> Pair:
    """R_B (NDS 2018, 3.3.3.6): the widest bay between joists."""
    member, t = site.members[row.part], site.timber(row.part)
    l = max(b - a for a, b in spans(member))
    return (timber.l_e_uniform(l, t.d) * t.d / t.b**2) ** 0.5, 50.0


def bending_through(site: Site, row: Row) -> Pair:
    """Printed moments of the rim as one timber; both edges held at the joists only."""
    t = site.timber(row.part)
    M = row.argument("rim_moment", "M_s") + row.argument("rim_moment", "M_c")
    l = row.argument("effective_length", "l_u")
    star = t.Fb * row.C_D
    held = timber.C_L(star, t.Emin, timber.l_e_uniform(l, t.d), t.b, t.d)
    return M / t.S * row.by_frame, star * held


def nails(site: Site, row: Row, C_D: float) -> float:
    """All nails of an end: single shear through the rim into end grain, C_eg 0.67 (NDS 2018, 12.5.2.2), wet 0.7."""
    piece, t = site.piece(row.part), site.timber(row.part)
    D, length = NAILS[piece.get("fastener", "16d nail")]
    F_e = 16600 * timber.G_SOUTHERN**1.84  # Table 12.3.3, D < 1/4 in.
    F_yb = next(F for most, F in F_YB if most >= D)
    K_D = 2.2 if D <= 0.17 else 10 * D + 0.5  # Table 12.3.1B
    Z = dowels.single_shear(D, length - t.b, t.b, F_e, F_e, F_yb, (K_D, K_D, K_D))
    return piece["fasteners"] * Z * 0.67 * 0.7 * C_D


def at_joist(site: Site, row: Row, below: str) -> Range:
    """What a rim's nails at one joist bear: both pieces that meet there; one person stands on one of them."""
    rim = row.part.rstrip("0123456789")
    met = [
        seat.reaction
        for mark, m in site.members.items()
        if mark.rstrip("0123456789") == rim and m.kind == "blocking"
        for seat in m.seats
        if seat.below == below
    ]

    def both(load: str) -> Sides:
        return tuple(np.sum([getattr(r, load)[k] for r in met], axis=0) for k in (0, 1))

    person = (np.max([r.P[0] for r in met], axis=0), np.min([r.P[1] for r in met], axis=0))
    return Range(np.sum([r.D for r in met], axis=0), both("L"), person, both("S"), both("G"))


def fastening(site: Site, row: Row) -> Pair:
    """The most loaded of its joists; up or down alike, as nails hold both ways."""
    pairs = []
    for seat in site.members[row.part].seats:
        joint = at_joist(site, row, seat.below)
        for sign in (1, -1):
            pairs += [(float(R.max()), nails(site, row, C)) for R, C in joint.cases(sign).values()]
    return members.governing(pairs, row)


def fastening_lateral(site: Site, row: Row) -> Pair:
    return abs(row.result("load_with_sway")) * row.by_frame, nails(site, row, row.C_D)


def bearing(site: Site, row: Row) -> Pair:
    """R over the hanger's seat, no longer than typed; no C_b at the end (NDS 2018, 3.10.2, 3.10.4)."""
    seat = members.seat_on(site.members[row.part], row.at)
    t = site.timber(row.part)
    l_b = min(row.argument("bearing_stress", "l_b"), read(hanger_of(site, row.part).get("seat_length"), 1.5))
    return seat.reaction.most() * row.by_frame / (t.b * l_b), t.Fcp


def bracing(site: Site, row: Row) -> Pair:
    """Ends hold 2 % of the moments of what they keep upright, as a couple (common practice), beside their load."""
    member = site.members[row.part]
    span = max(b - a for a, b in spans(member))
    hanger = hanger_of(site, row.part)
    Z = read(hanger["rated_load"])
    held = [site.members[s.below].moment for s in member.seats]

    def pair(case: str) -> Pair:
        """Load and moments of one case together."""
        R = max(float(s.reaction.cases()[case][0].max()) for s in member.seats)
        M = sum(max(float(m.cases(sign)[case][0].max()) for sign in (1, -1)) for m in held)
        C_D = held[0].cases()[case][1]
        return (R + 0.02 * M / span) * row.by_frame, Z * factor(hanger, C_D)

    return max(map(pair, held[0].cases()), key=lambda p: p[0] / p[1])


def bracing_edges(site: Site, row: Row) -> Pair:
    """2 % of the moment of what one connection alone holds, and its load at the face or in a hanger there (statics)."""
    e = site.timber(row.at).b / 2
    if "hanger" in site.piece(row.part):
        e += read(hanger_of(site, row.part).get("seat_length"), 1.5) / 2
    seat = members.seat_on(site.members[row.part], row.at)
    held = site.members[row.at].moment

    def force(case: str) -> float:
        M = max(float(held.cases(sign)[case][0].max()) for sign in (1, -1))
        R = max(float(seat.reaction.cases(sign)[case][0].max()) for sign in (1, -1))
        return (0.02 * M + R * e) / site.timber(row.part).d

    return max(map(force, held.cases())) * row.by_frame, read(site.piece(row.part)["edge_load"])


def uplift(site: Site, row: Row) -> Pair:
    """Least load of an end; what keeps its joists upright lifts it there too: 2 % of both moments over its length."""
    piece, member = site.piece(row.part), site.members[row.part]
    if not (piece.get("restrains_beam") and "edge_load" in piece) and not row.has("end_force"):
        return ties.of_member(site, row)
    seat = members.seat_on(member, row.at)
    joists = [s.below for s in member.seats]

    def lift(combination: str) -> float:
        M = sum(edges.bending(site, mark, combination) for mark in joists)
        return 0.02 * M / member.length - edges.under(seat.reaction, combination, 1)

    weights = (f"{k}D + {more}" for k in ("", "0.6") for more in ("L", "one person", "L + guard"))
    most = max(map(lift, {*weights, row.combination}))
    return ties.answer(row, -most, ties.tie_of(site, row, seat.bearing, 1.0))


AUDIT = {
    "blocking.bending": bending,
    "blocking.negative_bending": negative_bending,
    "blocking.bending_through": bending_through,
    "blocking.shear": members.shear,
    "blocking.live_deflection": members.live_deflection,
    "blocking.total_deflection": members.total_deflection,
    "blocking.slenderness": slenderness,
    "blocking.fastening": fastening,
    "blocking.fastening_lateral": fastening_lateral,
    "blocking.bearing": bearing,
    "blocking.bracing": bracing,
    "blocking.bracing_edges": bracing_edges,
    "blocking.uplift": uplift,
}
