"""Connections that are asked at their edges and down or up by one load: the shares of both ratings add up.

Linear unity equation (common practice), as for caps and brackets. The rating down or up is the file's, with its load
duration and wet factor; up it counts in full. A couple over the member's depth is the statics of the edges. Where the
file rates the edges by themselves (``rated_alone``), the force there against that rating.
"""

from __future__ import annotations

from audit import members, upright
from audit.hangers import factor, hanger_of
from audit.paper import Range, Row, Site
from audit.quantities import read

Pair = tuple[float, float]


def under(R: Range, combination: str, k: int) -> float:
    """Greatest (``k`` 0) or least (1) sum of an effect at its worst place in a combination, read off its name."""
    kinds = {"D": R.D, "L": R.L[k], "S": R.S[k], "one person": R.P[k], "guard": R.G[k]}
    total = 0.0 * R.D
    for term in combination.split(" + "):
        kind = next(name for name in kinds if term.endswith(name))
        total = total + float(term.removesuffix(kind) or 1.0) * kinds[kind]
    return float(total.max() if k == 0 else total.min())


def bending(site: Site, mark: str, combination: str) -> float:
    moment = site.members[mark].moment
    return max(under(moment, combination, 0), -under(moment, combination, 1))


def holds(site: Site, row: Row) -> tuple[float, bool]:
    """Rating that the printed share of the load stands on, by the file alone, and whether it is that up."""
    name = "three_ratings_together" if row.has("three_ratings_together") else "ratings_together"
    printed = row.argument(name, "Z_V")
    piece = site.piece(row.part)
    if "hanger" not in piece:
        return read(piece["uplift_tie"]), True
    hanger = hanger_of(site, row.part)
    found = [(read(hanger["rated_load"]) * factor(hanger, row.C_D), False)]
    if "rated_uplift" in hanger:
        found.append((read(hanger["rated_uplift"]) * factor(hanger, 1.0), True))
    return min(found, key=lambda one: (abs(one[0] - printed), row.combination.startswith("0.6") != one[1]))


def edge_together(site: Site, row: Row) -> Pair:
    """Load and edge force of one combination: of weight by the load path, with wind and sway as printed."""
    piece, d = site.piece(row.part), site.timber(row.part).d
    alone = bool(piece.get("rated_alone"))
    Z, up = (0.0, row.combination.startswith("0.6")) if alone else holds(site, row)
    edges = read(piece["edge_load"])
    couples = [a for step, a, _ in row.printed if step == "joist_edge_force"]
    turned = row.has("eccentric_moment")  # turned in its own hanger: the pattern of weight is as printed
    sway = row.has("load_with_sway")
    name = "three_ratings_together" if row.has("three_ratings_together") else "ratings_together"
    if turned:
        M_j = upright.torque(site, row, row.at, row.part) if row.has("torque_at_joist") else 0.0
        F = (M_j + sum(a["R"] * a["e"] for a in couples)) / d
        if alone:
            return (F * row.by_frame, edges) if len(couples) == 1 else (F / edges * row.by_frame, 1.0)
        R = row.argument(name, "V")
        return (R / Z + F / edges) * row.by_frame, 1.0
    reaction = members.seat_on(site.members[row.part], row.at).reaction
    if sway:
        R = abs(row.result("load_with_sway"))
    else:
        R = -under(reaction, row.combination, 1) if up else under(reaction, row.combination, 0)
    e = site.timber(row.at).b / 2 + read(hanger_of(site, row.part).get("seat_length"), 1.5) / 2
    M_j = M = M_held = 0.0
    if row.has("torque_at_joist"):
        M_j = upright.torque(site, row, row.at, row.part)
    below = [s.below for s in site.members[row.part].seats]
    if row.has("end_force"):
        M = (
            sum(a["M_r"] for step, a, _ in row.printed if step == "blocking_moment")
            - (row.argument("blocking_moment", "M_r", 0) if row.has("brace_edge_force") else 0.0)
            if sway
            else sum(bending(site, mark, row.combination) for mark in below)
        )
    if row.has("brace_edge_force"):
        M_held = row.argument("blocking_moment", "M_r", 0) if sway else bending(site, row.at, row.combination)
    span = site.members[row.part].length
    F = (M_j + 0.02 * M_held + R * e) / d
    if alone:
        return F * row.by_frame, edges
    return ((R + 0.02 * M / span) / Z + F / edges) * row.by_frame, 1.0


AUDIT = {f"{kind}.edge_together": edge_together for kind in ("joist", "beam", "blocking")}
