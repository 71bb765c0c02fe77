"""Joists, blocks and rims with wind and sway: NDS 2018, chapter 3, with C_D of the case; forces as printed.

What overturning adds is printed. Wind and sway come from all sides, so that at the worst place they take nothing off:
no force may be less than by the weight alone of its combination, which the load path gives; and the weight that is
printed beside what overturning adds is held to it.
"""

from __future__ import annotations

from audit import edges, guards, members, timber
from audit.hangers import hanger_of
from audit.paper import Member, Range, Row, Site
from audit.quantities import read

Pair = tuple[float, float]
NEAR = 1 - 1e-6


def weight(effect: Range, row: Row, sign: int = 1) -> float:
    """The greatest of an effect by the weight in a row's combination, or of its opposite; never below 0."""
    words = " + ".join(term for term in row.combination.split(" + ") if "W" not in term)
    return max(edges.under(effect, words, 0) if sign > 0 else -edges.under(effect, words, 1), 0.0)


def bent(site: Site, row: Row, free: float, wide: float, C_r: float) -> float:
    """F_b' with its compressed edge free over a length (3.3.3)."""
    t = site.timber(row.part)
    star = t.Fb * row.C_D * C_r
    return star * (timber.C_L(star, t.Emin, timber.l_e_uniform(free, t.d), wide, t.d) if free else 1.0)


def sign_of(row: Row) -> int:
    assert row.where.startswith(("sagging", "hogging"))
    return 1 if row.where.startswith("sagging") else -1


def bending(site: Site, row: Row) -> Pair:
    member, sign = site.members[row.part], sign_of(row)
    M = row.argument("bending_stress", "M")
    assert weight(member.moment, row, sign) * NEAR <= M
    free = members.unbraced(site, member, sign > 0)
    wide = members.breadth(site, row.part)
    return M / site.timber(row.part).S, bent(site, row, free, wide, members.C_r(site, row.part))


def block_bending(site: Site, row: Row) -> Pair:
    """Sagging held by the boards, hogging at its joists only."""
    member, t, sign = site.members[row.part], site.timber(row.part), sign_of(row)
    M = row.argument("bending_stress", "M")
    assert weight(member.moment, row, sign) * NEAR <= M
    free = 0.0 if sign > 0 else max(b - a for a, b in members.spans(member))
    return M / t.S, bent(site, row, free, t.b, 1.0)


def bending_through(site: Site, row: Row) -> Pair:
    """As one timber over its joists: printed moments, neither less than that of its load as a simple span."""
    member, t = site.members[row.part], site.timber(row.part)
    M_s, M_c = (row.argument("rim_moment", name) for name in ("M_s", "M_c"))
    assert M_s >= max(weight(member.moment, row, sign) for sign in (1, -1)) * NEAR
    return (M_s + M_c) / t.S, bent(site, row, row.argument("effective_length", "l_u"), t.b, 1.0)


def shear(site: Site, row: Row) -> Pair:
    t = site.timber(row.part)
    return 1.5 * row.argument("shear_stress", "V") / t.A, t.Fv * row.C_D


def pressed(site: Site, row: Row, upper: Member, below: str) -> float:
    """Load on a seat: its weight by the load path, with what overturning adds as printed."""
    seats = [s for s in upper.seats if s.below == below]
    R, R_o = (row.argument("load_with_sway", name) for name in ("R", "R_o"))
    assert any(abs(weight(s.reaction, row) - R) <= 1e-3 * R + 1e-3 for s in seats)
    assert R_o >= -1e-6  # it presses the worst seat
    assert row.argument("load_with_sway", "R_k") == 0
    return R + R_o


def bearing(site: Site, row: Row) -> Pair:
    """No load duration (3.10.2); area of contact as printed, of a hanger no longer than typed."""
    member, t = site.members[row.part], site.timber(row.part)
    seat = members.seat_on(member, row.at)
    b, l_b = (row.argument("bearing_stress", name) for name in ("b", "l_b"))
    assert b <= t.b + 1e-6
    if seat.bearing == "hangs from":
        assert l_b <= read(hanger_of(site, row.part).get("seat_length"), 1.5) + 1e-9
    C_b = 1.0 if member.kind == "blocking" else members.C_b(site, member, l_b, seat.at)
    return pressed(site, row, member, row.at) / (b * l_b), t.Fcp * C_b


def bearing_under(site: Site, row: Row) -> Pair:
    upper, lower = site.members[row.at], site.members[row.part]
    seat = members.seat_on(upper, row.part)
    b, l_b = (row.argument("bearing_stress", name) for name in ("b", "l_b"))
    C_b = members.C_b(site, lower, l_b, members.site_at(upper, seat, lower))
    return pressed(site, row, upper, row.part) / (b * l_b), site.timber(row.part).Fcp * C_b


def framing_bending(site: Site, row: Row) -> Pair:
    """Printed moment over what a post's two holes leave of the joist or rim behind it (3.1.2)."""
    post, _, guard, at = guards.behind(site, row)
    member, t = site.members[row.at], site.timber(row.at)
    M = row.argument("bending_stress", "M")
    near = guards.hangs_over(site, post, row.at, at)
    if row.combination == "D + L + guard":  # a case of weight alone, too
        own = max(guards.bent_there(member, *near, sign)[row.combination][0] for sign in (1, -1))
        assert own * (1 - 1e-3) <= M
    C_r = members.C_r(site, row.at) if member.field else 1.0
    return M / guards.net_modulus(t, guard), t.Fb * row.C_D * C_r


def framing_shear(site: Site, row: Row) -> Pair:
    """Printed shear, and the post's load down beside it where nothing behind the post brings it (3.4.3.3)."""
    post, on, guard, at = guards.behind(site, row)
    member = site.members[row.at]
    hung = any(s.below == row.at for s in site.members[post.member].seats)
    if hung:
        V = row.argument("demand_capacity_ratio", "demand")
    else:
        P = max(guards.PUSH * on.lever(post.mark), guards.line_load(site) * on.holds(post.mark) / 12)
        W = read(site.file["loads"]["guard"]) * on.holds(post.mark) / 12
        V = row.argument("shear_beside_post", "V") + W + (P if "guard" in row.combination else 0.0)
    if row.combination == "D + L + guard":
        near = guards.hangs_over(site, post, row.at, at)
        own = max(guards.sheared_there(member, *near, sign)[row.combination][0] for sign in (1, -1))
        assert own * (1 - 1e-3) <= V
    return V, guards.shear_value(site, row, guard, at) * row.C_D


AUDIT = {
    "joist.bending_lateral": bending,
    "joist.shear_lateral": shear,
    "joist.bearing_lateral": bearing,
    "blocking.bending_lateral": block_bending,
    "blocking.bending_through_lateral": bending_through,
    "blocking.shear_lateral": shear,
    "blocking.bearing_lateral": bearing,
    "beam.bearing_under_lateral": bearing_under,
    "guard.framing_bending_lateral": framing_bending,
    "guard.framing_shear_lateral": framing_shear,
}
