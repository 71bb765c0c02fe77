"""What is held down: least loads of seats and supports, with and without wind and sway, against typed ties."""

from __future__ import annotations

from math import hypot

from audit.hangers import factor, hanger_of
from audit.paper import Range, Row, Site
from audit.quantities import read

Pair = tuple[float, float]
LIFTS = 1.0  # lb: less is no uplift
LEAST_HOLD_DOWN = 200.0  # lb: a hold-down clip holds no less (ENGINEERING_NOTES, section 2, 2)


def least(R: Range) -> tuple[float, float]:
    """The least load in any case and its C_D: all of D or 0.6 of it (common practice), L or one person.

    A push on a guard comes beside L; a tie of metal is not rated up for it.
    """
    D, L, P, G = float(R.D[0]), float(R.L[1][0]), float(R.P[1][0]), float(R.G[1][0])
    return min(k * D + v for k in (0.6, 1.0) for v in (L, P, L + G)), 1.0


def answer(row: Row, lowest: float, tie: float | None) -> Pair:
    """Uplift against the tie; where nothing lifts: 0 and the least load."""
    if not row.printed:
        lowest = lowest if lowest <= -LIFTS else max(lowest, 0.0)
        return max(-lowest, 0.0), max(lowest, 0.0)
    assert tie is not None
    return max(-lowest, 0.0) * row.by_frame, tie


def of_support(site: Site, row: Row) -> Pair:
    tie = site.support(row.part).get("uplift_tie")
    return answer(row, least(site.reactions[row.part])[0], None if tie is None else read(tie))


def tie_of(site: Site, row: Row, bearing: str, C_D: float) -> float | None:
    """Hanger's rated uplift, or the tie on the beam below."""
    if bearing == "hangs from" and "hanger" in site.piece(row.part):
        hanger = hanger_of(site, row.part)
        return read(hanger["rated_uplift"]) * factor(hanger, C_D) if "rated_uplift" in hanger else None
    tie = site.piece(row.part).get("uplift_tie")
    return None if tie is None else read(tie)


def of_member(site: Site, row: Row) -> Pair:
    found = []
    for seat in site.members[row.part].seats:
        if seat.below == row.at:
            lowest, C_D = least(seat.reaction)
            found.append(answer(row, lowest, tie_of(site, row, seat.bearing, C_D)))
    if not row.printed:
        return min(found, key=lambda p: abs(p[1] - row.capacity))
    return max(found)


def of_support_lateral(site: Site, row: Row) -> Pair:
    """Printed least weight with wind and sway; a tree bolt's hold-down clip 200 lb at least."""
    tie = read(site.support(row.part)["uplift_tie"])
    up = max(-row.result("load_with_sway"), 0.0)
    if row.key.startswith("tree_bolt"):
        up = max(up, LEAST_HOLD_DOWN)
    return up * row.by_frame, tie


def of_member_lateral(site: Site, row: Row) -> Pair:
    if row.key.startswith(
        "joist"
    ):  # of a field's joists that rest, and of those that hang, the one lifted most
        bearing = "rests on" if row.at == "resting" else "hangs from"
    else:
        bearing = next(s.bearing for s in site.members[row.part].seats if s.below == row.at)
    tie = tie_of(site, row, bearing, row.C_D)
    assert tie is not None
    return max(-row.result("load_with_sway"), 0.0) * row.by_frame, tie


def pull(row: Row) -> float:
    """Least pull on the face that lifts with which a beam does not turn over, by bisection of the balance.

    The block of wood is as wide as weight and pull together want it: R (c - x/2) + T (c + b/2 - x/2) = V d + M_e.
    """
    R, F, l_b, b, c, M = (
        row.argument("tie_pull_asked", name) for name in ("R", "F_c_perp_p", "l_b", "b", "c", "M_r")
    )
    turning = (row.argument("rotation_moment", name) for name in ("V", "d", "M_e"))
    V, d, M_e = turning
    assert abs(V * d + M_e - M) < 1e-6 * max(M, 1.0)

    def held(T: float) -> float:
        x = (R + T) / (F * l_b)
        return R * (c - x / 2) + T * (c + b / 2 - x / 2)

    low, high = 0.0, max(F * l_b * (b / 2 + c) - R, 0.0)
    if held(low) >= M:
        return 0.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if held(middle) < M else (low, middle)
    return high


def cap_together(site: Site, row: Row) -> Pair:
    """Unity of uplift, side load and the strap's pull (common practice)."""
    post = site.post(row.part)
    H = hypot(*(row.argument("resultant_lateral_force", v) for v in ("V_1", "V_2")))
    shares = H / read(post["cap_lateral"])
    turned = row.has("tie_pull_asked")
    if turned:
        shares += pull(row) / read(post["rotation_tie"])
    if row.has("three_ratings_together") or not turned:
        up = max(-row.result("load_with_sway", 0), 0.0)
        shares += up / read(site.support(row.part)["uplift_tie"])
    return shares * row.by_frame, 1.0


def beam_together(site: Site, row: Row) -> Pair:
    """Unity of side load, rotation and uplift on the angles of a beam on a beam (common practice)."""
    beam = site.piece(row.part)
    shares = row.result("seat_lateral_force") / read(beam["lateral_tie"])
    turned = "rotation_tie" in beam and pull(row) > 0.5
    if turned:
        shares += pull(row) / read(beam["rotation_tie"])
    if row.has("three_ratings_together") or not turned:
        shares += max(-row.result("load_with_sway"), 0.0) / read(beam["uplift_tie"])
    return shares * row.by_frame, 1.0


AUDIT = {
    "tree_bolt.uplift": of_support,
    "post.uplift": of_support,
    "joist.uplift": of_member,
    "beam.uplift": of_member,
    "tree_bolt.uplift_lateral": of_support_lateral,
    "post.uplift_lateral": of_support_lateral,
    "joist.uplift_lateral": of_member_lateral,
    "beam.uplift_lateral": of_member_lateral,
    "post.cap_together": cap_together,
    "beam.together": beam_together,
}
