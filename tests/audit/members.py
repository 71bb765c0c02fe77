"""Joists and beams: bending, shear, bearing, deflection (NDS 2018, chapters 3 and 4; IBC 2021, Table 1604.3)."""

from __future__ import annotations

import numpy as np

from audit import timber
from audit.paper import Member, Row, Site
from audit.quantities import read

Pair = tuple[float, float]
TINY = 1e-6


def governing(pairs: list[Pair], row: Row) -> Pair:
    """The pair of the greatest ratio, of equal ones that which the row names; with the frame's factor."""
    most = max(d / c for d, c in pairs)
    d, c = min((p for p in pairs if p[0] / p[1] >= most * (1 - 1e-5)), key=lambda p: abs(p[1] - row.capacity))
    return d * row.by_frame, c


def C_r(site: Site, mark: str) -> float:
    """1.15 for three joists or more, 24 in. apart at most, under boards (NDS 2018, 4.3.9).

    Plies of a beam in contact would have it too from three on, joined by what shares the load out (4.3.9): nails of
    IRC R507.5 do that for load on all plies.
    """
    member, piece = site.members[mark], site.piece(mark)
    if not member.field:
        return 1.15 if piece.get("plies", 1) >= 3 and piece.get("plies_fastened", True) else 1.0
    count = sum(m.field == member.field for m in site.members.values())
    return 1.15 if count >= 3 and read(piece["spacing"]) <= 24 else 1.0


def spans(member: Member) -> list[tuple[float, float]]:
    """Stretches between seats, and overhangs, along the member."""
    seats = sorted(s.at for s in member.seats)
    cuts = [0.0, *seats, member.length]
    return [(a, b) for a, b in zip(cuts, cuts[1:], strict=False) if b - a > TINY]


def held_top(site: Site, member: Member) -> list[float]:
    """Places where the upper edge is held laterally: where others bear or hang."""
    return sorted({site_at(m, s, member) for m, s in site.on(member.mark)} | {s.at for s in member.seats})


def site_at(upper: Member, seat, member: Member) -> float:
    """Where along a beam an upper member's seat lies."""
    at = upper.start + seat.at * upper.u
    return float((at - member.start) @ member.u)


def blocked(site: Site, member: Member) -> set[float]:
    """Places where blocking keeps it from turning: held from both sides, or by hangers rated at their edges.

    One piece would have to pull on fasteners in end grain, which NDS 2018, 12.2 gives no value.
    """
    meets = [
        (site_at(piece, seat, member), "edge_load" in site.piece(piece.mark))
        for piece, seat in site.on(member.mark)
        if piece.kind == "blocking" and site.timber(piece.mark).d >= site.timber(member.mark).d - TINY
    ]
    return {x for x, rated in meets if rated or sum(abs(x - y) < 1 for y, _ in meets) > 1}


def longest(places: list[float], a: float, b: float) -> float:
    """Longest stretch between held places within a stretch."""
    inside = [a, *[x for x in places if a < x < b], b]
    return max(y - x for x, y in zip(inside, inside[1:], strict=False))


def unbraced(site: Site, member: Member, sagging: bool) -> float:
    """l_u: sagging: upper edge, held by boards or by what bears on it; hogging: lower edge, held at its seats only.

    Blocking holds both.
    """
    if sagging and member.field:
        return 0.0
    places = held_top(site, member) if sagging else [s.at for s in member.seats]
    places = sorted({*places, *blocked(site, member)})
    found = 0.0
    for a, b in spans(member):
        if sagging and overhangs(member, a, b):
            continue
        found = max(found, longest(places, a, b))
    return found


def l_e(l_u: float, d: float) -> float:
    return timber.l_e_uniform(l_u, d) if l_u > 0 else 0.0


def breadth(site: Site, mark: str) -> float:
    """Breadth that buckles: all plies where fastened, one where not."""
    t = site.timber(mark)
    return t.b if site.piece(mark).get("plies_fastened", True) else t.b / t.plies


def bending(site: Site, row: Row, sign: int = 1) -> Pair:
    member, t = site.members[row.part], site.timber(row.part)
    l = unbraced(site, member, sign > 0)
    pairs = []
    for M, C_D in member.moment.cases(sign).values():
        star = t.Fb * C_D * C_r(site, row.part)
        allowed = star * (timber.C_L(star, t.Emin, l_e(l, t.d), breadth(site, row.part), t.d) if l else 1.0)
        pairs.append((float(M.max()) / t.S, allowed))
    return governing(pairs, row)


def negative_bending(site: Site, row: Row) -> Pair:
    return bending(site, row, -1)


def slenderness(site: Site, row: Row) -> Pair:
    """R_B at most 50 (NDS 2018, 3.3.3.7), over both edges."""
    member, t = site.members[row.part], site.timber(row.part)
    l = max(unbraced(site, member, True), unbraced(site, member, False))
    b = breadth(site, row.part)
    return (l_e(l, t.d) * t.d / b**2) ** 0.5 if t.d > b else 0.0, 50.0


def shear(site: Site, row: Row) -> Pair:
    """3 V / 2 b d; past d from the middle of a seat where all load comes from above (NDS 2018, 3.4.3.1), else at it.

    The clause allows d from the face of the seat; the program takes it from the middle, and leaves nothing off where
    a beam hangs in a hanger: both on the safe side, and followed here.
    """
    member, t = site.members[row.part], site.timber(row.part)
    x = member.x
    side = any(s.bearing == "hangs from" for _, s in site.on(row.part))
    side = side or (not member.field and any(s.bearing == "hangs from" for s in member.seats))
    taken = np.ones((2, x.size), bool)  # left and right of every station
    if not side:
        for seat in member.seats:
            taken &= (np.abs(x - seat.at) >= t.d - TINY)[None, :]
    if not taken.any():  # shorter than twice its depth: nothing is left off
        taken[:] = True
    pairs = [(0.0, t.Fv)]
    for k, effect in enumerate(member.shear):
        for sign in (1, -1):
            for V, C_D in effect.cases(sign).values():
                v = V[taken[k]]
                if v.size:
                    pairs.append((1.5 * float(v.max()) / t.A, t.Fv * C_D))
    return governing(pairs, row)


def seat_at(site: Site, row: Row):
    member = site.members[row.part]
    return member, seat_on(member, row.at)


def seat_on(member: Member, below: str):
    """Its seat on a beam or support; the most loaded where it has more of them."""
    return max((s for s in member.seats if s.below == below), key=lambda s: s.reaction.most())


def bearing(site: Site, row: Row) -> Pair:
    """R / (b l_b) against F_c_perp, never with C_D (NDS 2018, 3.10.2); area of contact as printed (geometry)."""
    member, seat = seat_at(site, row)
    t = site.timber(row.part)
    l_b = row.argument("bearing_stress", "l_b")
    area = row.argument("bearing_stress", "b") * l_b
    assert row.argument("bearing_stress", "b") <= t.b + 1e-6
    return seat.reaction.most() * row.by_frame / area, t.Fcp * C_b(site, member, l_b, seat.at)


def C_b(site: Site, member: Member, l_b: float, at: float) -> float:
    """Bearing area factor, NDS 2018, 3.10.4: bearings shorter than 6 in. and 3 in. or more from the end.

    The line of a hung member runs to the middle of the beam that it hangs on; the wood ends at its face.
    """
    ends = [0.0, member.length]
    for seat in member.seats:
        if seat.bearing == "hangs from" and seat.below in site.members:
            half = site.timber(seat.below).b / 2 / cross(member, site.members[seat.below])
            if seat.at < member.length / 2:
                ends[0] = max(ends[0], seat.at + half)
            else:
                ends[1] = min(ends[1], seat.at - half)
    return (l_b + 0.375) / l_b if l_b < 6 and min(at - ends[0], ends[1] - at) - l_b / 2 >= 3 else 1.0


def cross(one: Member, other: Member) -> float:
    """Sine of the angle between two members in plan."""
    return abs(float(one.u[0] * other.u[1] - one.u[1] * other.u[0]))


def bearing_under(site: Site, row: Row) -> Pair:
    """The same load on the beam below."""
    upper, lower = site.members[row.at], site.members[row.part]
    seat = seat_on(upper, row.part)
    l_b = row.argument("bearing_stress", "l_b")
    area = row.argument("bearing_stress", "b") * l_b
    factor = C_b(site, lower, l_b, site_at(upper, seat, lower))
    return seat.reaction.most() * row.by_frame / area, site.timber(row.part).Fcp * factor


def least_bearing(site: Site, row: Row) -> Pair:
    """1 1/2 in. on wood or metal (IRC 2021, R507.5.1, R507.6.1)."""
    return 1.5, row.capacity


def deflection(site: Site, row: Row, total: bool) -> Pair:
    """Deflection of a span against l / n, of an overhang of length a against 2 a / n (IBC 2021, Table 1604.3, note i).

    Live deflection both ways, in total downwards; what lies there always counts K_cr = 2.0 times (NDS 2018, 3.5.2,
    wet), and nothing where it lifts. Over three seats and more the deflection between two of them is taken as printed.
    """
    member, t = site.members[row.part], site.timber(row.part)
    n = site.limit("total" if total else "live")
    soft = t.E_dry / t.E
    if len(member.seats) > 2:
        given = [a["delta_E"] * soft for step, a, _ in row.printed if step == "deflection_in_service"]
        l = next(
            b - a for a, b in stretches(member) if abs((b - a) - row.argument("deflection_limit", "l")) < 1e-3
        )
        return (2 * given[0] + given[1] if total else given[0]) * row.by_frame, l / n
    pairs = []
    y = member.deflection
    for a, b in spans(member):
        if overhangs(member, a, b) and b - a < 1:
            continue  # it ends on its seat
        l = (2 if overhangs(member, a, b) else 1) * (b - a)
        inside = (member.x >= a - TINY) & (member.x <= b + TINY)
        for sign in (1,) if total else (1, -1):
            k = 0 if sign > 0 else 1
            D, L, S = (sign * v[inside] * soft for v in (y.D, y.L[k], y.S[k]))
            always = 2 * np.maximum(D, 0)
            cases = [always + v for v in (0 * D, L, S, 0.75 * (L + S))] if total else [L, S]
            pairs += [(max(float(v.max()), 0.0), l / n) for v in cases]
    return governing(pairs, row)


def overhangs(member: Member, a: float, b: float) -> bool:
    seats = [s.at for s in member.seats]
    return b <= min(seats) + TINY or a >= max(seats) - TINY


def stretches(member: Member) -> list[tuple[float, float]]:
    """Spans, and overhangs counted twice."""
    return [(a, b + (b - a)) if overhangs(member, a, b) else (a, b) for a, b in spans(member)]


def live_deflection(site: Site, row: Row) -> Pair:
    return deflection(site, row, False)


def total_deflection(site: Site, row: Row) -> Pair:
    return deflection(site, row, True)


STATES = {
    "bending": bending,
    "negative_bending": negative_bending,
    "shear": shear,
    "bearing": bearing,
    "least_bearing": least_bearing,
    "slenderness": slenderness,
    "live_deflection": live_deflection,
    "total_deflection": total_deflection,
}
AUDIT = {f"{kind}.{name}": audit for kind in ("joist", "beam") for name, audit in STATES.items()}
AUDIT["beam.bearing_under"] = bearing_under
